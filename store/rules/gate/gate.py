"""The gate: where the job is, what holds its next stage, and whether a stage that is claimed was earned.

The stage is worked out from the passages, never stored. Nobody gets to Drywall while a rough-in check is open, and
there is no override: a check is closed with evidence, or called not needed with a reason and a name. The other
stages may be passed in spite of what holds them, with a written reason.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from operator import attrgetter
from typing import Literal, get_args

import msgspec

from store.measure.counts import plural
from store.measure.errors import BadValue
from store.measure.text import is_no_name
from store.records.equipment import Equipment
from store.records.gate import Passage
from store.records.people import Stage
from store.records.wall import Opening, Reading, Wall
from store.records.whole import Job, Outside
from store.rules.core.checks import PICTURE, Item, OfItems, items
from store.rules.core.findings import Finding, findings
from store.rules.core.headline import with_name
from store.rules.core.memo import cold
from store.rules.core.proposed import proposals
from store.rules.core.wording import few_of
from store.rules.gate.held import Held, told
from store.rules.gate.mock_up import AGREED, why_not_agreed

STAGES: tuple[Stage, ...] = get_args(Stage)
CLOSED: Stage = "Drywall"
"""The stage that covers the wall."""


_NO_CHECKS = frozenset({"answer", "contact", "handoff", "money", "photo", "step", "visit", "wish"})
"""Kinds that no rough-in check follows from; an answer that was forged counts as no answer anyway."""


class Hold(msgspec.Struct, frozen=True):
    """One thing that holds a stage."""

    key: str
    what: str
    strict: bool = False
    """True where no reason gets past it."""
    kind: Literal["stop", "item", "outside", "other"] = "other"
    """A problem that is a Stop, an open rough-in item, something done outside of the program, or anything else."""


class Standing(msgspec.Struct, frozen=True):
    """Where the job is."""

    stage: Stage
    next: Stage | None
    holds: tuple[Hold, ...]
    """What holds the next stage."""
    items: tuple[Item, ...]
    found_after: tuple[Item, ...]
    """Open checks that came up after the wall was closed."""
    claimed: Stage | None = None
    """A later stage that the file claims, but that was not earned."""
    unearned: str = ""
    """Why not, in words."""

    @property
    def open(self) -> tuple[Item, ...]:
        """The checks that are open."""
        return tuple(each for each in self.items if each.open)


def standing(job: Job, found: list[Finding] | None = None) -> Standing:
    """Where the job is and what holds it; `found` saves working the findings out again."""
    listed = tuple(items(job))
    passages = {each.stage: each for each in job.of(Passage).values()}
    stage: Stage = STAGES[0]
    unearned = ""
    before: Passage | None = None
    for step in STAGES[1:]:
        if step not in passages:
            break
        unearned = _unearned(job, passages[step], before)
        if unearned:
            break
        stage, before = step, passages[step]
    beyond = [each for each in STAGES[STAGES.index(stage) + 1 :] if each in passages]
    claimed = beyond[-1] if beyond else None
    if claimed and not unearned:
        unearned = f"the job was never moved to {STAGES[STAGES.index(stage) + 1]}"
    covered = CLOSED in passages and STAGES.index(stage) >= STAGES.index(CLOSED)
    after = tuple(each for each in listed if each.open) if covered else ()
    following = STAGES[STAGES.index(stage) + 1] if stage != STAGES[-1] else None
    holds = _holds(job, following, listed, after, found) if following else ()
    return Standing(stage, following, holds, listed, after, claimed, unearned)


def _unearned(job: Job, passage: Passage, before: Passage | None) -> str:
    """Why a passage does not count, or an empty text; `before` is the one to the stage before it.

    A passage rests on the one before it: where that was taken away and made anew, this one is made anew as well.
    No open check is a reason: none was open when the program let the wall be covered, so what is open now was found
    after, whatever opened it.
    """
    if any(each.kind == "passage" and each.tag == passage.tag for each in job.outside):
        return f"the move to {passage.stage} was not recorded by Studbook"
    if is_no_name(passage.by):
        return f"the move to {passage.stage} has no name with it"
    if before is not None and job.marks.get(passage.tag, 0) < job.marks.get(before.tag, 0):
        return f"the move to {passage.stage} is older than the move to {before.stage} that it depends on"
    if passage.stage == CLOSED and (tampered := [each for each in job.outside if _bears_on_gate(each)]):
        return outside_line(tampered[0])
    return ""


def _bears_on_gate(outside: Outside) -> bool:
    """Checks follow from the plan, so a plan changed behind the program's back could have lost some of them."""
    if outside.kind == PICTURE:
        return False  # the check that rests on it is open, and holds by itself
    return outside.kind not in _NO_CHECKS or outside.what == "vanished"


def outside_line(outside: Outside) -> str:
    """One line on something that happened outside of the program."""
    if outside.kind == "history":
        return outside.tag
    if outside.kind == PICTURE:
        return f"picture {outside.tag} {outside.what}, and items depend on it"
    fields = f": {', '.join(outside.fields)}" if outside.fields else ""
    where = f" outside of Studbook{fields}" if outside.became != outside.what else ""
    return f"{outside.kind} {outside.tag} {outside.became}{where}"


def _holds(
    job: Job, following: Stage, listed: tuple[Item, ...], after: tuple[Item, ...], found: list[Finding] | None
) -> tuple[Hold, ...]:
    """What holds the stage that follows."""
    if following == CLOSED:
        return _holds_closing(job, found)
    holds = [Hold(each.key, f"Found after close-in: {item_line(each)}", kind="item") for each in after]
    if following == "Design":
        holds += _unmeasured(job)
        if rough := [tag for tag in proposals(job) if tag in job.of(Reading)]:
            holds.append(
                Hold("proposed", f"{plural(len(rough), 'rough size')} to measure or agree to: {few_of(rough)}")
            )
    elif following in ("Mock-up", "Rough-in"):
        holds += _unsized(job)
        if tags := proposals(job):
            which = f": {few_of(tags)}" if len(tags) <= FEW else ""
            what = f"{plural(len(tags), 'thing')} of the first plan not agreed yet{which}"
            holds.append(Hold("proposed", what))
        if following == "Rough-in" and (why := why_not_agreed(job)):
            holds.append(Hold(AGREED, why))
    elif following in ("Hook-up", "In use"):
        holds += [
            Hold(tag, with_name("Still to buy" if one.state == "to buy" else "Not on site yet", tag, one.name))
            for tag, one in job.of(Equipment).items()
            if one.state != "owned" and one.retired is None
        ]
    return tuple(holds)


def _holds_closing(job: Job, found: list[Finding] | None) -> tuple[Hold, ...]:
    """What holds the drywall: stop findings first, then anything done behind the program's back, then open checks."""
    holds = [
        Hold(each.key, each.headline, True, "stop")
        for each in (findings(job) if found is None else found)
        if each.severity == "stop" and not each.answered
    ]
    holds += [Hold(each.tag, outside_line(each), True, "outside") for each in job.outside if _bears_on_gate(each)]
    return (*holds, *_holding_items(job))


def item_line(item: Item) -> str:
    """An open item on one line: `Q30 Blocks in for N1`, with why it is open again where it was signed off before."""
    tag = item.key.partition("/")[0]
    what = (
        item.check.what
        if tag in item.check.what or ("/" in item.key and not tag[1:].isdigit())
        else f"{tag} {item.check.what}"
    )
    return what if item.why_open == "open" else f"{what} ({item.why_open})"


_holding_items = OfItems(lambda item: Hold(item.key, item_line(item), True, "item") if item.open else None)
"""The open items, each as what holds the drywall."""


def locked_line(now: Standing) -> str:
    """What holds the next stage, in one sentence: `Drywall locked: 1 stop, 157 items`."""
    if any(each.strict for each in now.holds):
        return f"{now.next} locked: {held_counts(now.holds)}"
    more = f" · {plural(len(now.holds) - 1, 'other')}" if len(now.holds) > 1 else ""
    return f"Before {now.next}: {now.holds[0].what}{more}"


def held_counts(holds: Sequence[Hold]) -> str:
    """How many of each kind hold, the gravest first: `1 stop, 157 items`."""
    of_kind: Counter[str] = Counter(map(attrgetter("kind"), holds))
    counts = [(of_kind[kind], *words) for kind, words in HOLD_WORDS.items()]
    return ", ".join(plural(count, one, several) for count, one, several in counts if count)


def locked_text(stage: Stage, holds: Sequence[Hold]) -> str:
    """What locks a stage, one line each, the first of many."""
    return told(f"{stage} locked: {held_counts(holds)}:", [each.what for each in holds])


HOLD_WORDS = {
    "stop": ("stop", ""),
    "outside": ("change outside of Studbook", "changes outside of Studbook"),
    "item": ("item", ""),
    "other": ("other", "others"),
}
"""One and several of each kind of hold."""


FEW = 3
"""So many tags go on a line after what is said of them."""


def _unmeasured(job: Job) -> list[Hold]:
    walls = job.of(Wall)
    if not walls:
        return [Hold("walls", "No walls yet")]
    read = {(each.wall, each.what) for each in job.of(Reading).values()}
    return [
        Hold(f"{tag}/{what}", with_name(f"No reading of the {what}", tag, one.name))
        for tag, one in walls.items()
        for what in ("width", "height")
        if (tag, what) not in read
    ]


def _unsized(job: Job) -> list[Hold]:
    holds = [
        Hold(tag, with_name("No place or size entered", tag, one.name))
        for tag, one in job.of(Opening).items()
        if None in (one.x, one.y, one.width, one.height, one.depth) or not one.wall
    ]
    return holds + [
        Hold(tag, with_name("No manufacturer's sizes entered", tag, one.name))
        for tag, one in job.of(Equipment).items()
        if one.opening and None in (one.width, one.height, one.depth) and one.retired is None
    ]


def out_of_turn(now: Standing, wanted: str) -> str:
    """Why the job cannot move to a stage that is not the next one."""
    if now.next is None:
        return f"{now.stage} is the last stage. There is no stage to move to."
    return f"{wanted} is not the next stage, {now.next} is. The job is at {now.stage}: move to {now.next} first."


def passage(job: Job, by: str, reason: str = "", to: Stage | None = None) -> Passage:
    """The passage to the next stage, with the list of checks it relies on.

    `to` is the stage that was announced: where the job stands otherwise meanwhile, nothing else is passed in its place.
    Raises BadValue when there is no stage after this one, Held when the announced one is not the next.
    """
    now = standing(cold(job))
    if now.next is None:
        raise BadValue(out_of_turn(now, ""))
    if to is not None and to != now.next:
        raise Held(out_of_turn(now, to))
    checked = tuple(each.key for each in now.items) if now.next == CLOSED else ()
    return Passage(tag="", stage=now.next, date=job.today, by=by, reason=reason, checked=checked)
