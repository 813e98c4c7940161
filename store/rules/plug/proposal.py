"""A plan for what is not plugged in: one place for each thing, the nearest that suits it; the owner changes it."""

from __future__ import annotations

from collections.abc import Callable
from math import inf

import msgspec

from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.code import is_us
from store.rules.plug.places import reach_nm, strip_opening
from store.rules.power.load import State, receptacle_a, states
from store.rules.power.plan import (
    PLUG_BOXES,
    Power,
    always_on,
    drawn_w,
    has_plug,
    is_heater,
    is_light,
    places_needed,
    places_of,
    power,
    strip_w,
    things,
)
from store.rules.wall.contents import IN_THE_WALL, known_place, opening_of, opening_of_box
from store.trade.measured.bounds import exceeds
from store.trade.power.circuit_load import CONTINUOUS_FACTOR, PLUG_IN_SHARE
from store.trade.power.tables_us import RECEPTACLE_MAX_LOAD_A

Proposal = tuple[str, str, str]
"""Tag of the thing, tag of the box or strip, and the half: `either`, `always on` or `switched`."""
FAR_NM = 10**12
"""Farther than anything on a wall: what is not placed comes after what is."""
SMALL_W = 100.0
"""What draws less goes on a strip before it takes a receptacle of the wall (our own choice)."""

ROOM = "the circuits in reach have no room left, or are kept for a heater or something else"
HEATER_ROOM = "a heater needs a circuit of its own with a receptacle rated for it, and there is none in reach"


class _Place(msgspec.Struct):
    """A box or a strip, and what is still free in it as things are given places one after another."""

    tag: str
    box: Box
    """The box at the end of its chain."""
    strip: Equipment | None
    opening: str | None
    """Empty on the face of the wall; None where it cannot be told."""
    free: int
    free_switched: int = 0
    free_on: int = 0
    watts_left: float | None = None

    @property
    def halved(self) -> bool:
        """True for a box of which one half is switched."""
        return self.strip is None and self.box.switched == "half"

    @property
    def stays_on(self) -> bool:
        """True where power does not go off with a switch, or a place is left where it does not."""
        if self.strip is not None and self.box.switched == "half":
            return self.strip.half == "always on"
        return self.box.switched == "none" or (self.halved and self.free_on > 0)

    @property
    def has_switched(self) -> bool:
        """True where a place is left that a switch acts on."""
        return self.box.switched == "all" or (self.halved and self.free_switched > 0)


class PlugPlan(msgspec.Struct, frozen=True):
    """What is proposed, and what found no place, each with the reason in words."""

    placed: list[Proposal]
    left: list[tuple[str, str]]


def plan_plugs(job: Job) -> PlugPlan:
    """Places for everything with a cord that names none, and why the others find none.

    A heater gets a receptacle alone on its circuit and never a strip; a strip gets a receptacle; what must stay on
    gets nothing switched; a light the switched half where there is one. No place is given twice, no strip or circuit
    is loaded beyond its rating, and no cord is stretched, or led through a wall, as far as places are known.
    """
    waiting = [one for one in things(job) if one.power in ("cord", "wall-wart") and not one.plug]
    if not waiting:
        return PlugPlan([], [])
    planner = _Planner(job)
    found: dict[str, tuple[str, str]] = {}
    why: dict[str, str] = {}
    for one in sorted(waiting, key=_pickiness):
        place = planner.give(one)
        if place is None:
            why[one.tag] = planner.why_none(one)
        else:
            found[one.tag] = place
    placed = [(one.tag, *found[one.tag]) for one in waiting if one.tag in found]
    return PlugPlan(placed, [(one.tag, why[one.tag]) for one in waiting if one.tag in why])


def _pickiness(one: Equipment) -> tuple[int, int]:
    """Heaters, strips, what must stay on, screens, lights, then the rest; in each, the larger plugs first."""
    order = (is_heater(one), one.what == "strip", always_on(one), one.what == "screen", is_light(one), True)
    return order.index(True), -places_needed(one)


class _Planner:
    """Gives places one after another, and remembers what they took."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._plan: Power = power(job)
        self._busy = {tag for tag, on in self._plan.circuits.items() if on.direct}
        self._hot = {tag for tag, on in self._plan.circuits.items() if any(load.heating for load in on.loads)}
        self._added_a: dict[str, float] = {}
        self._places = [place for tag in job.of(Box) if (place := self._box(tag)) is not None]
        for one in things(job):
            feed = self._plan.feeds.get(one.tag)
            if one.what == "strip" and feed is not None and feed.box and not feed.via:
                self._places.append(self._strip(one, job.of(Box)[feed.box], strip_opening(job, one)))

    def give(self, one: Equipment) -> tuple[str, str] | None:
        """The place that suits a thing best and its half, taken from what is free; None when none suits."""
        fitting = [place for place in self._places if self._suits(one, place)]
        if not fitting:
            return None
        place = min(fitting, key=lambda each: self._order(one, each))
        half = _half(one, place)
        place.free -= places_needed(one)
        place.free_switched -= one.count if half == "switched" else 0
        place.free_on -= one.count if half == "always on" else 0
        if place.watts_left is not None:
            place.watts_left -= self._watts(one)
        circuit = place.box.circuit
        self._busy.add(circuit)
        self._added_a[circuit] = self._added_a.get(circuit, 0.0) + self._amps(one, circuit)
        if is_heater(one):
            self._hot.add(circuit)
        if one.what == "strip":
            fed = msgspec.structs.replace(one, half=half)
            self._places.append(self._strip(fed, place.box, opening_of(self._job, one) or place.opening))
        return place.tag, half

    def _box(self, tag: str) -> _Place | None:
        box = self._job.of(Box)[tag]
        have = places_of(box, self._plan.gear[tag]) if box.what in PLUG_BOXES else 0
        if not have:
            return None
        users = [one for each in self._plan.users.get(tag, ()) if has_plug(one := self._job.of(Equipment)[each])]
        switched = have // 2
        taken = {half: sum(one.count for one in users if one.half == half) for half in ("switched", "always on")}
        either = sum(one.count for one in users if one.half == "either")
        opening = opening_of_box(self._job).get(tag, "") if known_place(self._job, box) else None
        return _Place(
            tag,
            box,
            None,
            opening,
            have - sum(map(places_needed, users)),
            switched - taken["switched"] - either,
            have - switched - taken["always on"] - either,
        )

    def _strip(self, strip: Equipment, box: Box, opening: str | None) -> _Place:
        users = [self._job.of(Equipment)[each] for each in self._plan.users.get(strip.tag, ())]
        left = None if strip.rating is None else strip.rating - strip_w(self._job, strip.tag)
        return _Place(strip.tag, box, strip, opening, strip.places - sum(map(places_needed, users)), watts_left=left)

    def _watts(self, one: Equipment) -> float:
        return strip_w(self._job, one.tag) if one.what == "strip" else drawn_w(one) or 0.0

    def _amps(self, one: Equipment, circuit: str) -> float:
        """What it adds to a circuit, at 125 %: whether it runs for hours may not be known."""
        on = self._plan.circuits.get(circuit)
        return CONTINUOUS_FACTOR * self._watts(one) / on.volts if on is not None else 0.0

    def why_none(self, one: Equipment) -> str:
        """Why nothing suits a thing: the first test that no place passes of those that passed the ones before.

        Asked at its turn, when those that choose later have taken nothing yet.
        """
        left = self._places
        why = "no receptacle and no strip is planned"
        for reason, passes in self._tests():
            if not left:
                break
            left, why = [place for place in left if passes(one, place)], reason
        return HEATER_ROOM if is_heater(one) and why == ROOM else why

    def _suits(self, one: Equipment, place: _Place) -> bool:
        return all(passes(one, place) for _, passes in self._tests())

    def _tests(self) -> tuple[tuple[str, Callable[[Equipment, _Place], bool]], ...]:
        """What a place must pass, what is hardest to change first, and what it means when no place passes."""
        return (
            ("its cord reaches no receptacle, or only through the wall", self._cord_goes),
            ("it needs a wall receptacle, never a strip, and none is in reach", self._wall_where_needed),
            ("the receptacles in reach are taken", lambda one, place: places_needed(one) <= place.free),
            (
                "the receptacles in reach are switched and it must stay on, or the other way around",
                self._switching_suits,
            ),
            (ROOM, self._circuit_takes),
            ("the strips in reach would be over their rating", self._rating_takes),
        )

    @staticmethod
    def _wall_where_needed(one: Equipment, place: _Place) -> bool:
        return place.strip is None or not (one.what == "strip" or is_heater(one))

    def _rating_takes(self, one: Equipment, place: _Place) -> bool:
        return place.watts_left is None or not exceeds(self._watts(one), place.watts_left)

    def _switching_suits(self, one: Equipment, place: _Place) -> bool:
        if place.halved and max(place.free_on, place.free_switched) < one.count:
            return False
        if (always_on(one) or one.what == "strip" or is_heater(one) or one.half == "always on") and not place.stays_on:
            return False
        if is_light(one) and place.box.switched == "half" and not self._lit(one, place):
            return False
        # Something that must stay on and was noted as switched is a contradiction for its owner to settle.
        return one.half != "switched" or (place.has_switched and not always_on(one))

    @staticmethod
    def _lit(one: Equipment, place: _Place) -> bool:
        """Whether a light gets the switched half of a half-switched box, and is meant to."""
        switched = place.free_switched >= one.count if place.strip is None else place.strip.half == "switched"
        return switched and one.half != "always on" and not always_on(one)

    def _circuit_takes(self, one: Equipment, place: _Place) -> bool:
        """Whether the circuit may feed it: a heater alone, nothing beside a heater, and no more than it carries."""
        tag = place.box.circuit
        state = states(self._job).get(tag)
        if state is None:
            return not is_heater(one)
        circuit = state.on.circuit
        if circuit.only_for not in ("", one.tag) or exceeds(self._watts(one) / state.on.volts, self._most_a(state)):
            return False
        if is_heater(one):
            alone = tag not in self._busy and not circuit.load and not circuit.lighting
            return alone and (state.limit_a is None or not exceeds(self._amps(one, tag), state.limit_a))
        if tag in self._hot:
            return False
        added = self._added_a.get(tag, 0.0) + self._amps(one, tag)
        return state.room_a is None or not exceeds(added, max(0.0, state.room_a))

    def _most_a(self, state: State) -> float:
        """The most that one plug may take: NEC Table 210.21(B)(2) and 210.23 where there are two places or more."""
        breaker = state.on.circuit.breaker
        if not is_us(self._job) or state.on.places < 2:
            return inf if breaker is None else breaker
        rated = RECEPTACLE_MAX_LOAD_A.get(receptacle_a(self._job, state.on), inf)
        return rated if breaker is None else min(rated, PLUG_IN_SHARE * breaker)

    def _cord_goes(self, one: Equipment, place: _Place) -> bool:
        """False where the cord is known not to reach, or would have to leave a recess of the wall."""
        at = opening_of(self._job, one)
        if place.opening is not None and place.opening != at:
            uses = {self._job.of(Opening)[each].use for each in (at, place.opening) if each}
            if uses & set(IN_THE_WALL):
                return False
        cords = [one.cord] + ([place.strip.cord] if place.strip is not None else [])
        reach = reach_nm(self._job, one, place.box)
        if reach is None or any(cord is None for cord in cords):
            return True
        return reach[0] <= sum(cord.nm for cord in cords if cord is not None)

    def _order(self, one: Equipment, place: _Place) -> tuple[bool, bool, bool, int]:
        """What comes first: its own opening, a switch for a light, a strip for a small thing, the shortest way."""
        at = opening_of(self._job, one)
        small = one.power == "wall-wart" or (one.watts or 0.0) < SMALL_W
        reach = reach_nm(self._job, one, place.box)
        return (
            at != place.opening,
            is_light(one) and not place.has_switched,
            small != (place.strip is not None),
            reach[1] if reach is not None else FAR_NM,
        )


def _half(one: Equipment, place: _Place) -> str:
    """Which half it takes: its own wish, a light the switched one, all else the one that stays on if it has room."""
    if one.half != "either" or not place.halved:
        return one.half
    if is_light(one) and place.free_switched >= one.count:
        return "switched"
    return "always on" if place.free_on >= one.count else "switched"
