"""Findings about plugs: whether everything has a place, and the right one."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.compare import compare_numbers
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.code import edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import ELECTRICIAN, MAKER, all_called, few_of, plain, plural, were
from store.rules.core.wording import named as called
from store.rules.plug.places import UNPOWERED
from store.rules.power.plan import PLUG_BOXES, has_plug, in_use, places_needed, places_of, power, strip_w, things
from store.trade.measured.bounds import exceeds
from store.trade.measured.citations import COMMON_PRACTICE, nec

SUPPLIES = ("driver", "power supply")
"""Sorts of equipment that others are wired or plugged into."""
COVERS_TWO = " (a wall wart covers two)"
STRIP_SOURCE = "UL 1363: a power strip is plugged directly into a permanently installed receptacle"


@rule
@from_each(Equipment)
def no_place_to_plug(job: Job, one: Equipment) -> Iterable[Finding]:
    """Something with a plug or a wire, and no place noted for it."""
    if not in_use(one):
        return
    if one.plug or one.power not in ("cord", "wall-wart", "hard-wired"):
        return
    wired = one.power == "hard-wired"
    yield Finding(
        "no_place_to_plug",
        "fix",
        (one.tag,),
        "Hardwired, but no box entered" if wired else "Cord has nowhere to plug in",
        (
            f"Enter the box it is wired in. {ELECTRICIAN}"
            if wired
            else "Enter the receptacle or power strip it plugs into. p in Equipment proposes one."
        ),
        COMMON_PRACTICE,
        {"power": one.power, "plugs into": "nothing"},
        why=f"No {'box' if wired else 'receptacle or power strip'} is entered for it.",
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
            "No power entered" if len(unknown) == 1 else f"{len(unknown)} things have no power entered",
            ("Read the manual: cord, plug-in adapter, hardwired or none, and the watts on the nameplate."),
            "the nameplate or data sheet",
            {"things": plain(len(unknown))},
            why=(
                f"{all_called(job, unknown)} {were(len(unknown), 'has', 'have')} no kind of power "
                "entered. One with a plug counts as plugged in."
            ),
        )


@rule
@from_each(Equipment)
def wrong_kind_of_place(job: Job, one: Equipment) -> Iterable[Finding]:
    """A plug in a box without a receptacle, a wire in nothing, or something plugged into what is no strip."""
    boxes, equipment = job.of(Box), job.of(Equipment)
    if not in_use(one):
        return
    if not one.plug or one.power == "none":
        return
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
    elif other is not None and one.power == "hard-wired" and other.what not in SUPPLIES:
        why = f"a hard-wired thing is wired in a box, and {other.tag} is a {other.what}"
    elif other is not None and other.what not in ("strip", *SUPPLIES) and not other.places:
        why = f"{called(job, other.tag)} is neither a strip nor a driver, and offers no place"
    if why:
        yield Finding(
            "wrong_kind_of_place",
            "fix",
            (one.tag, str(one.plug)),
            f"Can't get its power from {one.plug}",
            "Enter the receptacle or power strip it plugs into, or the box it is wired in.",
            COMMON_PRACTICE,
            {"why": why},
            why=f"{_shown_why(why)[0].upper()}{_shown_why(why)[1:]}.",
            about=(one.tag,),
        )


def _shown_why(why: str) -> str:
    """A reason as it is shown; the one that answers are compared by stays as it is."""
    for kept, shown in (
        ("the chain of plugs comes back to itself", "the plugs go around in a circle"),
        (", which takes no plug", ", with no receptacle"),
        (", which holds no mains wiring", ", not for line voltage"),
        ("a hard-wired thing is wired in a box, and ", "hardwired equipment is wired in a box, and "),
        (
            " is neither a strip nor a driver, and offers no place",
            " is no power strip and no driver, and has no outlets",
        ),
    ):
        why = why.replace(kept, shown)
    return why


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
                (f"{need} plugs for {plural(have, 'outlet' if isinstance(at, Equipment) else 'receptacle')}"),
                "Move something to a free receptacle, or plan more here while the wall is open.",
                "common practice: a plug-in adapter covers the place beside it",
                {"places": str(have), "needed": str(need)},
                why=(
                    f"{few_of(plugged)} {were(len(plugged), 'needs', 'need')} {need}, and there {were(have)} "
                    f"{have}{COVERS_TWO if wart else ''}."
                ),
            )


@rule
@from_each(Equipment)
def strip_places_unknown(job: Job, one: Equipment) -> Iterable[Finding]:
    """A strip in use whose number of places is not noted: whether all fits in it cannot be told."""
    if not in_use(one):
        return
    users = power(job).users.get(one.tag, ())
    if one.what == "strip" and users and not one.places:
        yield Finding(
            "strip_places_unknown",
            "look",
            (one.tag,),
            "No number of outlets entered",
            "Count its outlets and enter them. A wall wart covers two.",
            COMMON_PRACTICE,
            {"places": "not entered", "in it": few_of(users, 99)},
            why=f"{few_of(users)} {were(len(users), 'plugs', 'plug')} into it.",
        )


@rule
@from_each(Equipment)
def strip_on_strip(job: Job, one: Equipment) -> Iterable[Finding]:
    """A power strip plugged into another."""
    equipment = job.of(Equipment)
    if not in_use(one):
        return
    other = equipment.get(one.plug)
    if one.what == "strip" and other is not None and other.what == "strip" and in_use(other):
        yield Finding(
            "strip_on_strip",
            "stop",
            (one.tag, other.tag),
            f"Power strip plugged into a power strip, {other.tag}",
            (
                "Plug each power strip straight into a wall receptacle. Plan one more receptacle if "
                f"there is none. {ELECTRICIAN}"
            ),
            STRIP_SOURCE,
            {"strip": one.tag, "plugged into": other.tag},
            why=f"{one.tag} is plugged into {called(job, other.tag)}. That can overheat.",
            about=(one.tag,),
        )


def _load(watts: float, rating: float) -> str:
    """`1,500 W on 1,000 W`."""
    both = compare_numbers(rating, watts, "W")
    return f"{both.need} on {both.have}"


@rule
@from_each(Equipment)
def strip_over_rating(job: Job, one: Equipment) -> Iterable[Finding]:
    """More on a strip, or on a driver, than it is rated for."""
    if not in_use(one):
        return
    if one.rating is None:
        return
    watts = strip_w(job, one.tag)
    if exceeds(watts, one.rating):
        yield Finding(
            "strip_over_rating",
            "fix",
            (one.tag,),
            (f"{'Power strip' if one.what == 'strip' else 'Driver'} overloaded: {_load(watts, one.rating)}"),
            f"Move the largest load somewhere else, or pick one rated for the load. {MAKER}",
            f"{nec('110.3(B)', edition(job))}: the rating on its label" if is_us(job) else "the rating on its label",
            {"rated": f"{plain(one.rating)} W", "on it": f"{plain(watts)} W"},
            why=f"It is rated {plain(one.rating)} W, and {plain(watts)} W are on it.",
        )
