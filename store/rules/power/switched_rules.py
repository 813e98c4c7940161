"""Findings about switched power: what must stay on, and lights that no switch would act on."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import ELECTRICIAN, few_of, were
from store.rules.core.wording import named as called
from store.rules.power.halves import half_it_gets
from store.rules.power.plan import Feed, always_on, in_use, is_light, places_of, power
from store.trade.measured.citations import COMMON_PRACTICE


@rule
@from_each(Equipment)
def always_on_is_switched(job: Job, one: Equipment) -> Iterable[Finding]:
    """A router, a recorder or the like on a switch."""
    if not in_use(one):
        return
    if always_on(one) and half_it_gets(job, one) == "switched":
        box = power(job).feeds[one.tag].box
        yield Finding(
            "always_on_is_switched",
            "fix",
            (one.tag, box),
            "Must stay on, but plugged into switched power",
            "Plug it into a receptacle, or the half of one, that is always on.",
            COMMON_PRACTICE,
            {"gets": "switched"},
            why=f"{called(job, box)} gives it switched power.",
            about=(one.tag,),
        )


@rule
@from_each(Equipment)
def half_not_said(job: Job, one: Equipment) -> Iterable[Finding]:
    """Something for which it matters which half of a half-switched receptacle it takes."""
    if not in_use(one):
        return
    feed = power(job).feeds.get(one.tag, Feed())
    box = job.of(Box).get(feed.box)
    matters = always_on(one) or is_light(one)
    if box is not None and box.switched == "half" and matters and not half_it_gets(job, one):
        yield Finding(
            "half_not_said",
            "look",
            (one.tag, box.tag),
            "Which half of the receptacle?",
            "Enter the half: always on, or switched.",
            COMMON_PRACTICE,
            {"half": "either"},
            why=f"{called(job, box.tag)} is half switched, and {one.tag} has no half entered.",
            about=(one.tag,),
        )


@rule
@from_each(Equipment)
def half_not_there(job: Job, one: Equipment) -> Iterable[Finding]:
    """A thing meant for a switch where none acts, or meant to stay on where all is switched."""
    if not in_use(one):
        return
    feed = power(job).feeds.get(one.tag, Feed())
    if feed.ended or one.half == "either":
        return
    gets = half_it_gets(job, one)
    if gets and gets != one.half:
        yield Finding(
            "half_not_there",
            "fix",
            (one.tag, feed.box),
            f"Needs {one.half}, gets {gets}",
            (f"Plug it into the other half or another receptacle, or plan the switching that way. {ELECTRICIAN}"),
            COMMON_PRACTICE,
            {"meant": one.half, "gets": gets},
            why=f"Its receptacle at {called(job, feed.box)} is {gets}.",
            about=(one.tag,),
        )


@rule
@from_each(Equipment)
def lamp_on_unswitched_half(job: Job, one: Equipment) -> Iterable[Finding]:
    """A lamp on the half of a half-switched receptacle that no switch acts on."""
    if not in_use(one):
        return
    box = job.of(Box).get(power(job).feeds.get(one.tag, Feed()).box)
    if box is not None and box.switched == "half" and is_light(one) and half_it_gets(job, one) == "always on":
        yield Finding(
            "lamp_on_unswitched_half",
            "fix",
            (one.tag, box.tag),
            "Light on the always-on half",
            "Plug it into the switched half. If it should be switched, accept this with the reason.",
            COMMON_PRACTICE,
            {"half": "always on"},
            why=f"The switch at {called(job, box.tag)} will not turn it off.",
            about=(one.tag,),
        )


@rule
def halves_too_few(job: Job) -> Iterable[Finding]:
    """More plugs meant for one half of a half-switched box than the half has places."""
    for tag, users in power(job).users.items():
        box = job.of(Box).get(tag)
        if box is None or box.switched != "half":
            continue
        places = places_of(box, power(job).gear[tag])
        for name, half, have in (
            ("too_few_switched", "switched", places // 2),
            ("too_few_always_on", "always on", places - places // 2),
        ):
            wanted = [each for each in users if job.of(Equipment)[each].half == half]
            need = sum(job.of(Equipment)[each].count for each in wanted)
            if need > have:
                yield Finding(
                    name,
                    "fix",
                    (tag,),
                    f"{need} plugs for {have} {half.replace(' ', '-')} {were(have, 'receptacle', 'receptacles')}",
                    "Move one to another receptacle, or plan one more.",
                    COMMON_PRACTICE,
                    {"places": str(have), "wanted": str(need)},
                    why=f"{few_of(wanted)} {were(len(wanted), 'needs', 'need')} {half} power here.",
                )
