"""Figures of power: boxes, circuits and heaters."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from store.measure.length import Length
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.code import is_us
from store.rules.core.figures import Figure, figures_of
from store.rules.core.wording import named as called
from store.rules.core.wording import plain
from store.rules.power.box_contents import looks
from store.rules.power.load import half_a, states
from store.rules.power.plan import OnCircuit, has_plug, places_needed, places_of, power, strip_w
from store.rules.wall.contents import straight_nm
from store.rules.wall.places import Point
from store.trade.power.circuit_load import CONTINUOUS_FACTOR, PLUG_IN_SHARE, SHARED_RULES_UP_TO_A


@figures_of("box")
def boxes(job: Job) -> Iterable[Figure]:
    """Fill and volume in in³ with the worked sum, places, and the nearest power that was there before."""
    for tag, look in looks(job).items():
        if look.volume_in3 is not None:
            yield tag, "volume_in3", round(look.volume_in3, 6)
        if look.fill is not None:
            yield tag, "fill_in3", round(look.fill.total_in3, 6)
            yield tag, "fill_lines", look.lines
            yield tag, "next_box", look.next_box
        if look.missing:
            yield tag, "missing", look.missing
    found = power(job)
    here, things = job.of(Box), job.of(Equipment)
    for tag, box in here.items():
        if box.switched == "half":
            for half in ("switched", "always on", "either"):
                users = [called(job, one) for one in found.users.get(tag, ()) if things[one].half == half]
                yield tag, f"{half.replace(' ', '_')}_half", users
        if box.what in ("receptacle", "quick-connect"):
            yield tag, "places", places_of(box, found.gear[tag])
            yield (
                tag,
                "places_taken",
                sum(places_needed(things[one]) for one in found.users.get(tag, ()) if has_plug(things[one])),
            )
    yield from _nearest(here)


def _nearest(boxes: Mapping[str, Box]) -> Iterable[Figure]:
    """The nearest power box that was there already, for each new box on the same wall."""
    old: dict[str, list[tuple[Box, Point]]] = {}
    places = {tag: (box.x.nm, box.y.nm) for tag, box in boxes.items() if box.x is not None and box.y is not None}
    for tag, at in places.items():
        if not boxes[tag].new and boxes[tag].what in ("receptacle", "switch", "junction"):
            old.setdefault(boxes[tag].wall, []).append((boxes[tag], at))
    for tag, at in places.items():
        near = old.get(boxes[tag].wall) if boxes[tag].new else None
        if near:
            distance, nearest = min((straight_nm(at, there), each.tag) for each, there in near)
            yield tag, "nearest_power", nearest
            yield tag, "nearest_power_distance", Length(distance)


@figures_of("circuit")
def circuits(job: Job) -> Iterable[Figure]:
    """Watts and amperes of each circuit, what it may carry, what is left, and the drop to its farthest box."""
    for tag, state in states(job).items():
        breaker = state.on.circuit.breaker
        yield tag, "connected_w", round(state.on.watts, 3)
        yield tag, "connected_a", round(state.connected_a, 6)
        yield tag, "design_a", round(state.design_a, 6)
        if state.limit_a is not None and state.room_a is not None:
            yield tag, "limit_a", round(state.limit_a, 6)
            yield tag, "room_a", round(state.room_a, 6)
            yield tag, "room_w", round(state.room_a * state.on.volts, 1)
        yield tag, "loads", list(_loads(job, state.on))
        if is_us(job) and breaker is not None:
            yield tag, "continuous_limit_a", round(breaker / CONTINUOUS_FACTOR, 6)
            if breaker <= SHARED_RULES_UP_TO_A:
                yield tag, "plug_in_limit_a", round(PLUG_IN_SHARE * breaker, 6)
                yield tag, "fixed_limit_a", half_a(state.on.circuit)
        if state.drop is not None:
            yield tag, "drop_v", round(state.drop.volts, 6)
            yield tag, "drop_pct", round(state.drop.percent, 6)
            yield tag, "drop_length", state.drop.length
            yield tag, "drop_lines", list(state.drop.lines)
            if state.drop.to:
                yield tag, "drop_to", state.drop.to
        if state.missing:
            yield tag, "missing", state.missing


def _loads(job: Job, on: OnCircuit) -> Iterable[str]:
    """What is on a circuit, a line each: the thing, its watts, its box, and whether it is counted at 125 %."""
    if on.circuit.load:
        yield f"there already: {plain(on.circuit.load)} W"
    at_125 = is_us(job)
    for load in on.loads:
        more = ", counted at 125 %" if at_125 and load.at_125 else ""
        yield f"{called(job, load.name)}: {plain(load.watts)} W at {power(job).feeds[load.name].box}{more}"
    for tag in on.no_watts:
        yield f"{called(job, tag)}: watts not noted"


@figures_of("equipment")
def strips(job: Job) -> Iterable[Figure]:
    """Watts and places taken on each strip and driver."""
    things = job.of(Equipment)
    for tag, one in things.items():
        if one.what in ("strip", "driver") and one.retired is None:
            users = power(job).users.get(tag, ())
            yield tag, "connected_w", round(strip_w(job, tag), 3)
            yield tag, "places_taken", sum(places_needed(things[each], one) for each in users)
