"""Upgrades ahead: for what is wanted in some years, the way a cable could take, how to get at it, and the power.

A wish with a number of years is one. What it names as serving it says where it goes: an opening, or equipment or boxes
in one, or a box at the face of the wall; a raceway named there is the one to be used.
"""

from __future__ import annotations

import msgspec

from store.measure.length import INCH_NM
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.people import Wish
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Raceway
from store.rules.access.means import best_means, blocked_panels
from store.rules.cable.raceway_later import cable_wished, is_ahead
from store.rules.cable.raceway_plugs import items_of
from store.rules.cable.raceways import Inside, insides, takes
from store.rules.core.memo import once
from store.rules.core.wording import listed, named
from store.rules.power.plan import places_needed, places_of, power
from store.rules.wall.contents import opening_of, opening_of_box
from store.trade.cable.raceway_fill import how_many_more
from store.trade.cable.types import CableType


class Upgrade(msgspec.Struct, frozen=True):
    """One thing wanted in some years, and how far the wall is ready for it."""

    wish: str
    places: tuple[str, ...]
    """Openings it goes to, and boxes that are in none."""
    room: tuple[tuple[str, int, str], ...]
    """Raceways that lead there with room: tag, how many more cables, of what kind."""
    ways: tuple[str, ...]
    """Panels and openings through which a cable is drawn in."""
    power: tuple[tuple[str, int], ...]
    """Receptacles there with places free, and how many."""
    missing: tuple[str, ...]
    """What is not there, each in words."""


@once
def upgrades(job: Job) -> tuple[Upgrade, ...]:
    """Everything that is wanted in some years, the dropped left out."""
    wanted = [one for one in job.of(Wish).values() if is_ahead(one)]
    return tuple(_upgrade(job, wish) for wish in wanted)


def _upgrade(job: Job, wish: Wish) -> Upgrade:
    places = _places(job, wish)
    leading = _leading(job, wish, places)
    kind = cable_wished(wish)
    room = []
    for tag in leading:
        more, of = _room(job, insides(job)[tag], kind)
        if more > 0:
            room.append((tag, more, of))
    ways = tuple(dict.fromkeys(way for tag, _, _ in room for way in _ways_in(job, tag)))
    free = _free(job, places)
    missing = list(_missing(job, places, leading, room, free))
    return Upgrade(wish.tag, places, tuple(room), ways, free, tuple(missing))


def _places(job: Job, wish: Wish) -> tuple[str, ...]:
    found = []
    for tag in map(str, wish.served_by):
        record = job.get(tag)
        if isinstance(record, Opening):
            found.append(tag)
        elif isinstance(record, Equipment):
            found.append(opening_of(job, record))
        elif isinstance(record, Box):
            found.append(_place_of(job, tag))
    return tuple(each for each in dict.fromkeys(found) if each)


def _place_of(job: Job, box: str) -> str:
    """The opening that a box is in, else the box itself; anything else stays what it is."""
    return opening_of_box(job).get(box) or box


def _leading(job: Job, wish: Wish, places: tuple[str, ...]) -> list[str]:
    """The raceways that the wish names, else those with an end at one of its places."""
    named_ = [tag for tag in map(str, wish.served_by) if tag in job.of(Raceway)]
    if named_:
        return named_
    wanted = set(places)
    return [
        tag
        for tag, one in job.of(Raceway).items()
        if wanted & {_place_of(job, str(end)) for end in (one.start, one.end)}
    ]


def _room(job: Job, inside: Inside, kind: CableType | None) -> tuple[int, str]:
    """How many more cables go in, and of what kind: the wanted one, else one like those in it."""
    if kind is None or inside.bore_in is None:
        return inside.more, inside.more_of
    # What a wish wants of it stands on its list of what comes later already.
    own = [each for each in inside.lying if each.later and each.name == kind.key]
    others = tuple(each for each in inside.lying if each not in own)
    bare = msgspec.structs.replace(inside, lying=others)
    most = how_many_more(inside.bore_in, items_of(others), kind.outside_nm / INCH_NM)
    return next((more for more in range(most, 0, -1) if takes(job, bare, kind, more)), 0), kind.key


def _ways_in(job: Job, raceway: str) -> list[str]:
    """What is opened at both mouths of a raceway, as far as it counts."""
    one = job.of(Raceway)[raceway]
    found = []
    for end in map(str, (one.start, one.end)):
        if (end in job.of(Panel) and end not in blocked_panels(job)) or end in job.of(Opening):
            found.append(end)
        elif end in job.of(Box) and (way := best_means(job, end, wires=True)) is not None and way.counts:
            found.append(way.by)
    return found


def _free(job: Job, places: tuple[str, ...]) -> tuple[tuple[str, int], ...]:
    """Receptacles in the openings with places to plug in that nothing takes."""
    plan = power(job)
    found = []
    for tag, box in job.of(Box).items():
        if box.what == "receptacle" and _place_of(job, tag) in places:
            taken = sum(places_needed(job.of(Equipment)[each], box) for each in plan.users.get(tag, ()))
            left = places_of(box, plan.gear.get(tag, ())) - taken
            if left > 0:
                found.append((tag, left))
    return tuple(found)


def _missing(
    job: Job,
    places: tuple[str, ...],
    leading: list[str],
    room: list[tuple[str, int, str]],
    free: tuple[tuple[str, int], ...],
) -> list[str]:
    if not places:
        return ["the place it will go: enter an opening or a box as serving it"]
    found = []
    where = listed([named(job, each) for each in places])
    if not leading:
        found.append(f"a raceway to {where}")
    elif not room:
        found.append(f"a raceway with room: {listed(leading)} is full, too tight for a plug, or has no size entered")
    for tag, _, _ in room:
        if len(_ways_in(job, tag)) < 2:
            found.append(f"access to both ends of {tag}: an access panel, or an open front")
        if not job.of(Raceway)[tag].string:
            found.append(f"a pull string in {tag}")
    if not free:
        found.append(f"a free place to plug in at {where}")
    return found


def ready_text(job: Job, one: Upgrade) -> str:
    """What is there for an upgrade, in one sentence; empty when nothing is."""
    words = [f"{tag} has room for {more} more like {of}" for tag, more, of in one.room]
    words += [f"pull it in through {listed([named(job, way) for way in one.ways])}"] if one.ways else []
    words += [f"{tag} has {left} free {'place' if left == 1 else 'places'} to plug in" for tag, left in one.power]
    return "; ".join(words)
