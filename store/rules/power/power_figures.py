"""Figures of power: boxes, circuits and heaters."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping

from store.measure.length import Length
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.code import is_us
from store.rules.core.figures import Figure, figures_of
from store.rules.core.keyed import by_key, from_each, said_by
from store.rules.core.wording import named as called
from store.rules.core.wording import plain
from store.rules.power.box_contents import BoxLook, looks, next_box
from store.rules.power.load import half_a, states
from store.rules.power.plan import OnCircuit, has_plug, places_needed, places_of, power, strip_w
from store.rules.wall.contents import straight_nm
from store.trade.power.circuit_load import CONTINUOUS_FACTOR, PLUG_IN_SHARE, SHARED_RULES_UP_TO_A


@figures_of("box")
@from_each(Box)
def boxes(job: Job, box: Box) -> Iterable[Figure]:
    """Fill and volume in in³ with the worked sum, places, and the nearest power that was there before."""
    tag, look = box.tag, looks(job).get(box.tag)
    if look is not None:
        yield from _fill(job, tag, look)
    found, things = power(job), job.of(Equipment)
    if box.switched == "half":
        for half in ("switched", "always on", "either"):
            users = [called(job, one) for one in found.users.get(tag, ()) if things[one].half == half]
            yield tag, f"{half.replace(' ', '_')}_half", users
    if box.what in ("receptacle", "quick-connect"):
        plugged = [one for each in found.users.get(tag, ()) if has_plug(one := things[each])]
        yield tag, "places", places_of(box, found.gear[tag])
        yield tag, "places_taken", sum(places_needed(one) for one in plugged)
    if box.new and (near := _nearest(job, box)):
        yield tag, "nearest_power", near[1]
        yield tag, "nearest_power_distance", Length(near[0])


def _fill(job: Job, tag: str, look: BoxLook) -> Iterable[Figure]:
    if look.volume_in3 is not None:
        yield tag, "volume_in3", round(look.volume_in3, 6)
    if look.fill is not None:
        yield tag, "fill_in3", round(look.fill.total_in3, 6)
        yield tag, "fill_lines", look.lines
        yield tag, "next_box", next_box(job, look)
    if look.missing:
        yield tag, "missing", look.missing


@by_key
def _old_power(job: Job) -> Mapping[str, tuple[tuple[int, int, str], ...]]:
    """The power boxes that were there already, by wall, from left to right: place and tag."""
    return {wall: tuple(sorted(places)) for wall, places in _old_places(job).items()}


@said_by(Box)
def _old_places(box: Box) -> Iterator[tuple[str, tuple[int, int, str]]]:
    if not box.new and box.what in ("receptacle", "switch", "junction") and box.x is not None and box.y is not None:
        yield str(box.wall), (box.x.nm, box.y.nm, box.tag)


def _nearest(job: Job, box: Box) -> tuple[int, str] | None:
    """The nearest power box that was there already on the same wall, and how far it is; None where there is none."""
    old = _old_power(job).get(box.wall)
    if not old or box.x is None or box.y is None:
        return None
    x, y = box.x.nm, box.y.nm
    right = bisect_left(old, (x,))
    near: list[tuple[int, str]] = []
    # Outwards to both sides, as long as one straight beside it could still be nearer.
    for places in (range(right, len(old)), range(right - 1, -1, -1)):
        for across, up, tag in (old[at] for at in places):
            if near and abs(across - x) > near[0][0]:
                break
            near = [min([*near, (straight_nm((x, y), (across, up)), tag)])]
    return near[0]


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
        yield f"existing load: {plain(on.circuit.load)} W"
    at_125 = is_us(job)
    for load in on.loads:
        more = ", counted at 125%" if at_125 and load.at_125 else ""
        yield f"{called(job, load.name)}: {plain(load.watts)} W at {power(job).feeds[load.name].box}{more}"
    for tag in on.no_watts:
        yield f"{called(job, tag)}: no watts entered"


@figures_of("equipment")
def strips(job: Job) -> Iterable[Figure]:
    """Watts and places taken on each strip and driver."""
    things = job.of(Equipment)
    for tag, one in things.items():
        if one.what in ("strip", "driver", "power supply") and one.retired is None:
            users = power(job).users.get(tag, ())
            yield tag, "connected_w", round(strip_w(job, tag), 3)
            yield tag, "places_taken", sum(places_needed(things[each], one) for each in users)
