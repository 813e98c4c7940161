"""Findings about plugs: whether everything has a place, and the right one."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.code import edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.wording import ELECTRICIAN, MAKER, all_called, few_of, plain, were
from store.rules.core.wording import named as called
from store.rules.plug.places import UNPOWERED
from store.rules.power.plan import PLUG_BOXES, has_plug, in_use, places_needed, places_of, power, strip_w, things
from store.trade.measured.bounds import exceeds
from store.trade.measured.citations import COMMON_PRACTICE, nec

COVERS_TWO = ": a wall-wart, a plug with a transformer, covers two"
STRIP_SOURCE = "UL 1363: a power strip is plugged directly into a permanently installed receptacle"


@rule
def no_place_to_plug(job: Job) -> Iterable[Finding]:
    """Something with a plug or a wire, and no place noted for it."""
    for one in things(job):
        if one.plug or one.power not in ("cord", "wall-wart", "hard-wired"):
            continue
        wired = one.power == "hard-wired"
        yield Finding(
            "no_place_to_plug",
            "fix",
            (one.tag,),
            f"{called(job, one.tag)} is {'hard-wired' if wired else 'powered by a cord'}, and no "
            f"{'box' if wired else 'receptacle or strip'} is named for it.",
            (
                f"Name the box it is wired in. {ELECTRICIAN}"
                if wired
                else "Name the receptacle or strip it plugs into; p in the list of equipment proposes one."
            ),
            COMMON_PRACTICE,
            {"power": one.power, "plugs into": "nothing"},
        )


@rule
def power_unknown(job: Job) -> Iterable[Finding]:
    """Things that surely need power, and nobody noted how they get it."""
    unknown = [one.tag for one in things(job) if one.power == "unknown" and one.what not in UNPOWERED]
    if unknown:
        yield Finding(
            "power_unknown",
            "look",
            tuple(unknown),
            f"How {all_called(job, unknown)} {were(len(unknown))} powered is not noted; those with a plug count as "
            "plugged in.",
            "Read the maker's sheet: cord, wall-wart, hard-wired or none, and the watts on the plate.",
            "the maker's figures",
            {"things": plain(len(unknown))},
        )


@rule
def wrong_kind_of_place(job: Job) -> Iterable[Finding]:
    """A plug in a box without a receptacle, a wire in nothing, or something plugged into what is no strip."""
    boxes, equipment = job.of(Box), job.of(Equipment)
    for one in things(job):
        if not one.plug or one.power == "none":
            continue
        box, other = boxes.get(one.plug), equipment.get(one.plug)
        why = ""
        if power(job).feeds[one.tag].loop:
            why = "the chain of plugs comes back to itself"
        elif box is not None and one.power in ("cord", "wall-wart") and box.what not in PLUG_BOXES:
            why = f"{box.tag} is a {box.what} box, which takes no plug"
        elif box is not None and one.power == "hard-wired" and box.what in ("low-voltage", "pass-through"):
            why = f"{box.tag} is a {box.what} box, which holds no mains wiring"
        elif other is not None and not in_use(other):
            why = f"{other.tag} was retired"
        elif other is not None and one.power == "hard-wired" and other.what != "driver":
            why = f"a hard-wired thing is wired in a box, and {other.tag} is a {other.what}"
        elif other is not None and other.what not in ("strip", "driver") and not other.places:
            why = f"{called(job, other.tag)} is neither a strip nor a driver, and offers no place"
        if why:
            yield Finding(
                "wrong_kind_of_place",
                "fix",
                (one.tag, str(one.plug)),
                f"{called(job, one.tag)} cannot get its power from {one.plug}: {why}.",
                "Name the receptacle or strip it plugs into, or the box it is wired in.",
                COMMON_PRACTICE,
                {"why": why},
            )


@rule
def too_few_places(job: Job) -> Iterable[Finding]:
    """More plugs than places, a wall-wart taking two."""
    for tag, users in power(job).users.items():
        at = job.get(tag)
        if isinstance(at, Box):
            have = places_of(at, power(job).gear[tag])
            plugged = [each for each in users if has_plug(job.of(Equipment)[each])]
            if at.what not in PLUG_BOXES:
                continue
        elif isinstance(at, Equipment) and at.places:
            have, plugged = at.places, list(users)
        else:
            continue
        need = sum(places_needed(job.of(Equipment)[each], at) for each in plugged)
        if need > have:
            wart = any(job.of(Equipment)[each].power == "wall-wart" for each in plugged)
            yield Finding(
                "too_few_places",
                "fix",
                (tag,),
                f"{called(job, tag)} has {have} {were(have, 'place', 'places')}; {few_of(plugged)} "
                f"{were(len(plugged), 'needs', 'need')} {need}{COVERS_TWO if wart else ''}.",
                "Move something to a free place, or plan more receptacles here while the wall is open.",
                "common practice: a wall-wart covers the place beside it",
                {"places": str(have), "needed": str(need)},
            )


@rule
def strip_places_unknown(job: Job) -> Iterable[Finding]:
    """A strip in use whose number of places is not noted: whether all fits in it cannot be told."""
    for one in things(job):
        users = power(job).users.get(one.tag, ())
        if one.what == "strip" and users and not one.places:
            yield Finding(
                "strip_places_unknown",
                "look",
                (one.tag,),
                f"How many places {called(job, one.tag)} has is not noted, and {few_of(users)} "
                f"{were(len(users), 'plugs', 'plug')} into it.",
                "Count them and note it as its plug places; a wall-wart takes two.",
                COMMON_PRACTICE,
                {"places": "not noted", "in it": few_of(users, 99)},
            )


@rule
def strip_on_strip(job: Job) -> Iterable[Finding]:
    """A power strip plugged into another."""
    equipment = job.of(Equipment)
    for one in things(job):
        other = equipment.get(one.plug)
        if one.what == "strip" and other is not None and other.what == "strip" and in_use(other):
            yield Finding(
                "strip_on_strip",
                "stop",
                (one.tag, other.tag),
                f"{called(job, one.tag)} is plugged into {called(job, other.tag)}: a strip on a strip, which can "
                "overheat.",
                "Plug each strip straight into a receptacle of the wall; plan one more receptacle if there is none. "
                f"{ELECTRICIAN}",
                STRIP_SOURCE,
                {"strip": one.tag, "plugged into": other.tag},
            )


@rule
def strip_over_rating(job: Job) -> Iterable[Finding]:
    """More on a strip, or on a driver, than it is rated for."""
    for one in things(job):
        if one.rating is None:
            continue
        watts = strip_w(job, one.tag)
        if exceeds(watts, one.rating):
            yield Finding(
                "strip_over_rating",
                "fix",
                (one.tag,),
                f"{called(job, one.tag)} is rated {plain(one.rating)} W, and {plain(watts)} W hang on it.",
                f"Move the largest elsewhere, or choose a {one.what} rated for what hangs on it. {MAKER}",
                f"{nec('110.3(B)', edition(job))}: the rating on its label"
                if is_us(job)
                else "the rating on its label",
                {"rated": f"{plain(one.rating)} W", "on it": f"{plain(watts)} W"},
            )
