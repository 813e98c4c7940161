"""The mock-up: the plan marked on the wall full size, and the word of somebody that it is good so.

The word is a closing like that of a rough-in check, but it is none of those: it vouches for the place and the size
of every opening and access panel, and whatever is moved later makes it stale.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from store.measure.errors import BadValue
from store.measure.length import Length, from_file, to_file
from store.records.access import Panel
from store.records.gate import Closing
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.checks import PICTURE, RoughIn
from store.rules.core.proof import proof_missing
from store.rules.core.wording import listed, named, said

AGREED = "mockup/agreed"
"""Its key."""
MOST_TOLD = 6
"""Changes told one by one; of more, only their number."""


def agreement(job: Job) -> RoughIn:
    """The act of agreeing on the mock-up as the plan is now; `checks.close` makes its closing."""
    things: list[Opening | Panel] = [*job.of(Opening).values(), *job.of(Panel).values()]
    return RoughIn(
        AGREED,
        "Mock-up marked full size, seen from the seat, agreed",
        "owner",
        "",
        "who looked at it, and a photo",
        tuple(one.tag for one in things),
        {one.tag: _geometry(one) for one in things},
    )


def _geometry(one: Opening | Panel) -> str:
    """Wall, place and size, in millimetres, so that a length typed in another unit is the same."""
    lengths = (one.x, one.y, one.width, one.height)
    return " | ".join([one.wall, *("" if each is None else to_file(Length(each.nm, True)) for each in lengths)])


def why_not_agreed(job: Job) -> str:
    """Why the mock-up does not count as agreed, in words; empty when it does, or when there is nothing to mark."""
    now = agreement(job)
    closing = job.of(Closing).get(AGREED)
    if not now.vouches:
        return ""
    if closing is None:
        return "Mock-up not agreed yet"
    if any(each.kind == "closing" and each.tag == AGREED for each in job.outside):
        return "Mock-up: the agreement was not recorded by Studbook"
    lost = {each.tag for each in job.outside if each.kind == PICTURE}
    if wrong := proof_missing(now, closing, lost):
        return f"Mock-up not agreed: {wrong}"
    if closing.vouches == now.vouches:
        return ""
    changes = list(moves(job, closing.vouches, now.vouches))
    told = changes if len(changes) <= MOST_TOLD else [*changes[:MOST_TOLD], f"{len(changes) - MOST_TOLD} more"]
    return f"Mock-up changed since you agreed: {listed(told)}"


def moves(job: Job, before: Mapping[str, str], after: Mapping[str, str]) -> Iterator[str]:
    """What changed between two agreements, one thing at a time: `N2 (Fireplace) moved right 2"`."""
    for tag in {**before, **after}:
        if before.get(tag) == after.get(tag):
            continue
        if tag not in before:
            yield f"{named(job, tag)} is new"
        elif tag not in after:
            yield f"{tag} is deleted"
        else:
            yield f"{named(job, tag)} {_move(job, before[tag], after[tag])}"


def _move(job: Job, before: str, after: str) -> str:
    (was_on, *was), (is_on, *now) = before.split(" | "), after.split(" | ")
    words = [f"is on {is_on or 'no wall'}, was on {was_on or 'none'}"] if was_on != is_on else []
    for what, one, other in zip(("right left", "up down", "width", "height"), was, now, strict=False):
        if one == other:
            continue
        first, second = _read(one), _read(other)
        if first is None or second is None:
            words.append(f"has {'a' if first is None else 'no'} {_place(what)} now")
        elif " " in what:
            forth, back = what.split()
            differ = second - first
            words.append(f"moved {forth if differ > 0 else back} {said(job, abs(differ))}")
        else:
            words.append(f"is {said(job, abs(second - first))} {_larger(what, second > first)}")
    return listed(words) if words else "changed"


def _place(what: str) -> str:
    return {"right left": "place from the left", "up down": "place from the floor"}.get(what, what)


def _larger(what: str, more: bool) -> str:
    return {"width": ("narrower", "wider"), "height": ("lower", "higher")}[what][more]


def _read(text: str) -> int | None:
    try:
        return from_file(text).nm if text else None
    except BadValue:
        return None
