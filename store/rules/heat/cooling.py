"""The heat of what stands behind a shut door, and how warm it gets in there."""

from __future__ import annotations

from math import pi
from typing import Literal

import msgspec

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.core.keyed import of_each
from store.rules.wall.contents import CLOSED
from store.rules.wall.layout import in_opening
from store.rules.wall.pieces import gives_heat
from store.trade.heat.enclosure import (
    GOOD_RISE_C,
    USUAL_LIMIT_C,
    airflow_needed,
    rise_with_fan,
    series_area,
    stack_balance,
)
from store.trade.heat.fans import SMALL_FAN_INH2O, free_flow_wanted, resistance, working_point

ROOM_C = 25.0
"""A warm room; our own assumption."""
LEAST_W = 20.0
"""Less than this a cabinet gives off through its sides; our own assumption."""
FAN_SHARE = 0.5
"""Of the flow that a fan's maker states in free air, what it moves through vents: common practice, no source."""
VENTS_APART = 0.75
"""Of the height of the opening, how far the middles of its lower and upper vents are apart; our own assumption."""
PASSES_ON = ("strip", "driver", "power supply", "mount")
"""What passes power on, or takes none: its plate says what it carries, not what it gives off here."""

Way = Literal["fan", "draught", "shut in", "not known"]


class Cooling(msgspec.Struct, frozen=True):
    """One opening with a shut door and something warm behind it."""

    opening: Opening
    watts: float
    warm: tuple[str, ...]
    """What gives the heat."""
    unknown: tuple[str, ...]
    """What has power, and no watts noted."""
    way: Way
    rise_c: float | None
    """How much warmer than the room; None when it is not known, or nothing carries the heat off."""
    flow_cfm: float | None
    """The air that goes through; None when it is not known."""
    low_in2: float | None
    high_in2: float | None
    """Free areas, with the gap round the door; None when they are not known."""
    idle_w: float
    """What it draws when everything waits, as far as that is noted; else at full load."""
    limit_c: float
    """The warmest air that the least hardy thing in there is made for."""
    passed_w: float
    """Heat of the neighbor that its air has passed first."""
    resists: float | None
    """Of all that the air goes through, inches of water at one cfm squared; None when it is not known or shut."""

    @property
    def good_rise_c(self) -> float:
        """The rise to keep to: 10 °F, or what the limit leaves over the room."""
        return max(1.0, min(GOOD_RISE_C, self.limit_c - ROOM_C))

    @property
    def fan_wanted_cfm(self) -> float | None:
        """Free flow of a fan that would do against these openings; None where its pressure is too small for any."""
        cfm = airflow_needed(self.watts + self.passed_w, self.good_rise_c).cfm
        shut = self.opening.fan_shut
        if shut is None or shut <= 0 or self.resists is None:
            return cfm / FAN_SHARE
        return free_flow_wanted(cfm, shut, self.resists)


@of_each(Opening)
def cooling(job: Job, opening: Opening) -> Cooling | None:
    """Every opening with a shut door and heat to lose behind it, by tag. A heater is not looked at: its manual is."""
    if opening.door not in CLOSED or opening.use == "fireplace":
        return None
    here = [one for one in in_opening(job).get(opening.tag, ()) if _counts(one)]
    warm = {one.tag: one.watts * one.count for one in here if one.watts}
    watts = sum(warm.values())
    if watts < LEAST_W:
        return None
    unknown = tuple(one.tag for one in here if one.watts is None and one.power not in ("none", "unknown"))
    return _cooled(job, opening, here, watts, tuple(warm), unknown)


def _cooled(
    job: Job, opening: Opening, here: list[Equipment], watts: float, warm: tuple[str, ...], unknown: tuple[str, ...]
) -> Cooling:
    low, high = _free(opening, opening.air_in), _free(opening, opening.air_out)
    passed_in2, passed_w = _passed_first(job, opening)
    resists = None
    if low is not None and high is not None and min(low, high, *passed_in2) > 0:
        resists = resistance([low, high, *passed_in2])
    way, rise, flow = _carried_off(opening, watts, passed_w, low, high, passed_in2)
    idle = sum((one.watts or 0 if one.idle is None else one.idle) * one.count for one in here)
    limit = min((one.warmest for one in here if one.warmest is not None), default=USUAL_LIMIT_C)
    return Cooling(opening, watts, warm, unknown, way, rise, flow, low, high, idle, limit, passed_w, resists)


def _free(opening: Opening, area: float | None) -> float | None:
    """Free area of the lower or the upper vents: their share of the face, and half of the gap round the door."""
    gap = 0.0
    if opening.gap is not None and opening.width is not None and opening.height is not None:
        gap = max(0, opening.gap.nm) * (opening.width.nm + opening.height.nm) / INCH_NM**2
    if area is None:
        return gap or None
    share = 1.0 if opening.free_share is None else min(100.0, max(0.0, opening.free_share)) / 100
    return area * share + gap


def _passed_first(job: Job, opening: Opening) -> tuple[list[float], float]:
    """Free areas of a raceway or a neighbor cabinet that the air goes through first, and the neighbor's heat."""
    other = job.get(opening.air_through) if opening.air_through else None
    if isinstance(other, Raceway) and other.inside is not None:
        return [pi / 4 * (other.inside.nm / INCH_NM) ** 2], 0.0
    if isinstance(other, Opening) and other.tag != opening.tag:
        vents = (_free(other, other.air_in), _free(other, other.air_out))
        watts = sum((one.watts or 0) * one.count for one in in_opening(job).get(other.tag, ()) if _counts(one))
        return [each for each in vents if each is not None], watts
    return [], 0.0


def _counts(one: Equipment) -> bool:
    return not gives_heat(one) and one.what not in PASSES_ON


def _carried_off(
    opening: Opening, watts: float, passed_w: float, low: float | None, high: float | None, passed_in2: list[float]
) -> tuple[Way, float | None, float | None]:
    """How the heat goes, the rise, and the air that goes through."""
    if any(area is not None and area <= 0 for area in (low, high, *passed_in2)):
        return "shut in", None, None
    if opening.fan is not None and opening.fan > 0:
        flow = _fan_flow(opening, opening.fan, [each for each in (low, high, *passed_in2) if each is not None])
        return ("fan", rise_with_fan(watts + passed_w, flow), flow) if flow > 0 else ("shut in", None, None)
    if low is None or high is None or opening.height is None:
        return "not known", None, None
    for area in passed_in2:
        low = series_area(low, area)
    stack = stack_balance(watts + passed_w, low, high, round(opening.height.nm * VENTS_APART), ROOM_C)
    return ("draught", stack.rise_c, stack.airflow.cfm) if stack is not None else ("shut in", None, None)


def _fan_flow(opening: Opening, free_cfm: float, areas: list[float]) -> float:
    """What a fan moves: at its working point where its pressure is noted; else half its free flow, and less through
    small openings."""
    resists = resistance(areas) or 0.0
    if opening.fan_shut is not None and opening.fan_shut > 0:
        return working_point(free_cfm, opening.fan_shut, resists).cfm
    return min(free_cfm * FAN_SHARE, working_point(free_cfm, SMALL_FAN_INH2O, resists).cfm)
