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
from store.rules.cable.courses import raceway_length
from store.rules.cable.raceways import bore_in
from store.rules.core.keyed import of_each
from store.rules.heat.fan import By, curve_of, fan_by, fan_flow, fan_wanted
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
from store.trade.heat.fan_curve import Curve, pipe_area
from store.trade.heat.fans import SMALL_FAN_INH2O, resistance, vents_wanted

ROOM_C = 25.0
"""A warm room; our own assumption."""
LEAST_W = 20.0
"""Less than this a cabinet gives off through its sides; our own assumption."""
VENTS_APART = 0.75
"""Of the height of the opening, how far the middles of its lower and upper vents are apart; our own assumption."""
MESH_APART = 0.5
"""The same of a mesh door, which is open all over: between the middles of its lower and its upper half. Geometry."""
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
    idle_rise_c: float | None
    """The rise then; None as for `rise_c`."""
    limit_c: float
    """The warmest air that the least hardy thing in there is made for."""
    passed_w: float
    """Heat of the neighbor that its air has passed first."""
    resists: float | None
    """Of all that the air goes through, inches of water at one cfm squared; None when it is not known or shut."""
    asks: str
    """What the air passes first and nobody knows the free area of; empty where there is none."""
    curve: Curve
    """Of its fan, as its maker prints it; empty where that is not entered."""
    pipe: str
    """The raceway that its air passes first; empty where there is none."""

    @property
    def fan_by(self) -> By:
        """How the flow of its fan is known; empty where no fan moves the air."""
        return fan_by(self.opening, self.curve) if self.way == "fan" else ""

    @property
    def good_rise_c(self) -> float:
        """The rise to keep to: 10 °F, or what the limit leaves over the room."""
        return max(1.0, min(GOOD_RISE_C, self.limit_c - ROOM_C))

    @property
    def fan_wanted_cfm(self) -> float | None:
        """Free flow of a fan that would do against these openings; None where its pressure is too small for any."""
        cfm = airflow_needed(self.watts + self.passed_w, self.good_rise_c).cfm
        return fan_wanted(self.opening, self.curve, cfm, self.resists)

    @property
    def vents_wanted_in2(self) -> float | None:
        """Free area of a lower and of an upper vent through which a fan of its pressure does; None where the air passes
        something else first."""
        if self.opening.air_through:
            return None
        shut = self.curve[0][1] if self.curve else self.opening.fan_shut or SMALL_FAN_INH2O
        return vents_wanted(airflow_needed(self.watts, self.good_rise_c).cfm, shut)


@of_each(Opening)
def cooling(job: Job, opening: Opening) -> Cooling | None:
    """Every opening with a shut door, or a mesh door of a known share, and heat to lose behind it, by tag.

    A heater is not looked at: its manual is.
    """
    meshed = opening.door == "mesh" and opening.free_share is not None
    if (opening.door not in CLOSED and not meshed) or opening.use == "fireplace":
        return None
    here = [one for one in in_opening(job).get(opening.tag, ()) if _counts(one)]
    warm = {one.tag: full_watts(one) for one in here if full_watts(one)}
    watts = sum(warm.values())
    if watts < LEAST_W:
        return None
    unknown = tuple(one.tag for one in here if one.watts is None and one.power not in ("none", "unknown"))
    return _cooled(job, opening, here, watts, tuple(warm), unknown)


def full_watts(one: Equipment) -> float:
    """The most that a thing gives off, all pieces of it: what it draws at full load, and no less than idle."""
    return max(one.watts or 0.0, one.idle or 0.0) * one.count


def _cooled(
    job: Job, opening: Opening, here: list[Equipment], watts: float, warm: tuple[str, ...], unknown: tuple[str, ...]
) -> Cooling:
    low, high = _free(opening, opening.air_in), _free(opening, opening.air_out)
    first = _passed_first(job, opening, (opening.tag,))
    areas = [*first.in2, *(each for each in (low, high) if each is not None)]
    resists = resistance(areas) if low is not None and high is not None and min(areas) > 0 and not first.asks else None
    curve = curve_of(opening, job.settings.metric)
    way, rise, flow = _carried_off(opening, curve, watts + first.watts, low, high, first)
    idle = sum((full_watts(one) if one.idle is None else one.idle * one.count) for one in here)
    idle_rise = _carried_off(opening, curve, idle + first.watts, low, high, first)[1]
    limit = min((one.warmest for one in here if one.warmest is not None), default=USUAL_LIMIT_C)
    return Cooling(
        opening, watts, warm, unknown, way, rise, flow, low, high, idle, idle_rise, limit, first.watts, resists,
        first.asks, curve, first.pipe,
    )  # fmt: skip


def _free(opening: Opening, area: float | None) -> float | None:
    """Free area of the lower or the upper vents: their share of the face, half of the gap round the door, and half of
    a mesh door."""
    gap, share = 0.0, 1.0 if opening.free_share is None else min(100.0, max(0.0, opening.free_share)) / 100
    if opening.gap is not None and opening.width is not None and opening.height is not None:
        gap = max(0, opening.gap.nm) * (opening.width.nm + opening.height.nm) / INCH_NM**2
    wide, high = opening.door_width or opening.width, opening.door_height or opening.height
    if opening.door == "mesh" and wide is not None and high is not None:
        gap += max(0, wide.nm) * max(0, high.nm) / INCH_NM**2 * share / 2
    if area is None:
        return gap or None
    return area * share + gap


class _First(msgspec.Struct, frozen=True):
    """What the air goes through before it gets to an opening."""

    in2: tuple[float, ...]
    """Free areas in a row."""
    watts: float
    """The heat that it takes up on its way."""
    asks: str = ""
    """The first thing on its way whose free area is not known."""
    pipe: str = ""
    """The raceway on its way."""


def _passed_first(job: Job, opening: Opening, seen: tuple[str, ...]) -> _First:
    """A raceway, or neighbor cabinets one after the other; round in a circle no air comes in."""
    other = job.get(opening.air_through) if opening.air_through else None
    if isinstance(other, Raceway):
        bore, long = bore_in(other), raceway_length(job, other)
        if bore is None:
            return _First((), 0.0, other.tag)
        return _First((pipe_area(pi / 4 * bore**2, bore, (long or 0) / INCH_NM),), 0.0, "", other.tag)
    if not isinstance(other, Opening) or other.tag == opening.tag:
        return _First((), 0.0)
    if other.tag in seen:
        return _First((0.0,), 0.0)
    watts = sum(full_watts(one) for one in in_opening(job).get(other.tag, ()) if _counts(one))
    further = _passed_first(job, other, (*seen, other.tag))
    vents = [each for each in (_free(other, other.air_in), _free(other, other.air_out)) if each is not None]
    asks = other.tag if len(vents) < 2 and other.door in CLOSED else further.asks
    return _First((*vents, *further.in2), watts + further.watts, asks, further.pipe)


def _counts(one: Equipment) -> bool:
    return not gives_heat(one) and one.what not in PASSES_ON


def _carried_off(
    opening: Opening, curve: Curve, watts: float, low: float | None, high: float | None, first: _First
) -> tuple[Way, float | None, float | None]:
    """How the heat goes, the rise, and the air that goes through."""
    if any(area is not None and area <= 0 for area in (low, high, *first.in2)):
        return "shut in", None, None
    if first.asks:
        return "not known", None, None
    if fan_by(opening, curve):
        flow = fan_flow(opening, curve, [each for each in (low, high, *first.in2) if each is not None])
        return ("fan", rise_with_fan(watts, flow), flow) if flow > 0 else ("shut in", None, None)
    if low is None or high is None or opening.height is None:
        return "not known", None, None
    for area in first.in2:
        low = series_area(low, area)
    apart = MESH_APART if opening.door == "mesh" else VENTS_APART
    stack = stack_balance(watts, low, high, round(opening.height.nm * apart), ROOM_C)
    return ("draught", stack.rise_c, stack.airflow.cfm) if stack is not None else ("shut in", None, None)
