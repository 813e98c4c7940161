"""The heat of what stands behind a shut door, and how warm it gets in there."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import msgspec

from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.wall.contents import CLOSED
from store.rules.wall.layout import in_opening
from store.rules.wall.pieces import gives_heat
from store.trade.heat.enclosure import rise_with_fan, stack_balance

ROOM_C = 25.0
"""A warm room; our own assumption."""
LEAST_W = 20.0
"""Less than this a cabinet gives off through its sides; our own assumption."""
FAN_SHARE = 0.5
"""Of the flow that a fan's maker states in free air, what it moves through vents: common practice, no source."""
VENTS_APART = 0.75
"""Of the height of the opening, how far the middles of its lower and upper vents are apart; our own assumption."""
PASSES_ON = ("strip", "driver", "mount")
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


@by_key
def cooling(job: Job) -> Mapping[str, Cooling]:
    """Every opening with a shut door and heat to lose behind it, by tag. A heater is not looked at: its manual is."""
    found = {}
    for tag, opening in job.of(Opening).items():
        if opening.door not in CLOSED or opening.use == "fireplace":
            continue
        here = [one for one in in_opening(job).get(tag, ()) if _counts(one)]
        warm = {one.tag: one.watts * one.count for one in here if one.watts}
        watts = sum(warm.values())
        if watts < LEAST_W:
            continue
        unknown = tuple(one.tag for one in here if one.watts is None and one.power not in ("none", "unknown"))
        way, rise = _carried_off(opening, watts)
        found[tag] = Cooling(opening, watts, tuple(warm), unknown, way, rise)
    return found


def _counts(one: Equipment) -> bool:
    return not gives_heat(one) and one.what not in PASSES_ON


def _carried_off(opening: Opening, watts: float) -> tuple[Way, float | None]:
    low, high = opening.air_in, opening.air_out
    if any(area is not None and area <= 0 for area in (low, high)):
        return "shut in", None
    if opening.fan is not None and opening.fan > 0:
        return "fan", rise_with_fan(watts, opening.fan * FAN_SHARE)
    if low is None or high is None or opening.height is None:
        return "not known", None
    stack = stack_balance(watts, low, high, round(opening.height.nm * VENTS_APART), ROOM_C)
    return ("draught", stack.rise_c) if stack is not None else ("shut in", None)
