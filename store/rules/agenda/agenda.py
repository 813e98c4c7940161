"""The agenda: everything there is to do next, worked out, in the order in which to do it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from store.records.equipment import Equipment
from store.records.people import Trade
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.agenda.days import days, packets
from store.rules.agenda.due import GROUPS, Due, Place, capped
from store.rules.agenda.missing import Blank, missing
from store.rules.agenda.way_out import way_out
from store.rules.core.findings import Finding
from store.rules.core.headline import MOST
from store.rules.core.proof import wants_photo
from store.rules.core.together import Told
from store.rules.core.wording import few_of, named, plural
from store.rules.gate.by_trade import aspects, by_trade, trade_title
from store.rules.gate.gate import CLOSED, Hold, Standing, item_line
from store.rules.wall.places import wall_of


def agenda(job: Job, now: Standing, found: Sequence[Finding], changed: Mapping[Trade, int]) -> list[Due]:
    """Everything there is to do next.

    `found` are the findings as the screen has them, `changed` the changes that a trade with a packet was not told of.
    """
    blank = missing(job)
    lines = [
        *capped(_dangers(found), "kinds of danger", Place("problems", subset="stop")),
        *capped(_stage(job, now, blank), f"things before {now.next}", Place("gate")),
        *capped(_blanks(job, now, blank), "things with blank figures", Place("equipment")),
        *capped(days(job), "dates to keep", Place("contacts")),
        *capped(packets(job, changed, now.next is None), "packets", Place("packets")),
        *capped(_photos(job, now), "walls to photograph", Place("items", words="proof:photo", subset="open only")),
    ]
    return sorted(lines, key=lambda each: GROUPS.index(each.group))


def _dangers(found: Iterable[Finding]) -> Iterator[Due]:
    """The Stops that nobody answered: several of one kind on one line."""
    kinds: dict[str, list[Finding]] = {}
    for each in found:
        if each.severity == "stop" and not each.answered:
            kinds.setdefault(each.rule, []).append(each)
    for rule, group in kinds.items():
        first = group[0]
        tags = tuple(dict.fromkeys(tag for each in group for tag in each.tags))
        many = len(group) > 1
        yield Due(
            group="danger", key=f"stop:{rule}", tags=tags, do=first.do,
            why="\n".join(each.says for each in group[:20]) if many else first.why,
            what=Told(tuple(group)).headline,
            place=Place("problems", first.key, rule if many else "", "stop" if many else ""),
        )  # fmt: skip


def _stage(job: Job, now: Standing, blank: Sequence[Blank]) -> Iterator[Due]:
    """What holds the next stage. Stops are told above, sizes among what is missing."""
    if now.claimed:
        yield Due(
            group="stage", key="claimed", what=f"{now.claimed} is recorded, not earned", do="Look at the gate",
            place=Place("gate"), why=now.unearned,
        )  # fmt: skip
    if now.next is not None and not now.holds:
        yield Due(group="stage", key="ready", what=f"Ready for {now.next}", do="y = move on", place=Place("gate"))
    if now.next is None and now.found_after:  # before the last stage they are among what holds it
        keys = [each.key for each in now.found_after]
        yield Due(
            group="stage", key="after", what=f"Found after close-in: {few_of(keys)}", tags=tuple(keys),
            do="Sign off each with proof", place=Place("items", keys[0], subset="open only"),
            why="\n".join(item_line(each) for each in now.found_after),
        )  # fmt: skip
    outside = [each for each in now.holds if each.kind == "outside"]
    if outside:
        yield Due(
            group="stage", key="outside", what=plural(len(outside), "change outside of Studbook", _CHANGES),
            do="Look at each: restore it or keep it", place=Place("gate", outside[0].key),
            why="\n".join(each.what for each in outside),
        )  # fmt: skip
    yield from _items(now)
    told = {each.tag for each in blank}
    yield from _others(job, now, [each for each in now.holds if each.kind == "other"], told)


_CHANGES = "changes outside of Studbook"


def _items(now: Standing) -> Iterator[Due]:
    """The open items, a line for each trade, by the same count as the gate's."""
    if not any(each.kind == "item" for each in now.holds):
        return
    for trade in by_trade(now):
        if left := trade.open:
            yield Due(
                group="stage",
                key=f"items:{trade.trade}",
                what=f"{trade_title(trade.trade)}: {plural(len(left), 'item')} open",
                do=aspects(left),
                place=Place("items", left[0].key, f"trade:{trade.trade}", "open only"),
                tags=tuple(each.key for each in left),
            )


def _others(job: Job, now: Standing, holds: Sequence[Hold], told: set[str]) -> Iterator[Due]:
    """What holds a stage that may be passed for a reason, a line each; what is still to buy on one."""
    things = [each for each in holds if each.key in job.of(Equipment) and each.key not in told]
    if things:
        tags = tuple(each.key for each in things)
        yield Due(
            group="stage", key="things", what=f"{plural(len(tags), 'thing')} not on site: {few_of(tags, 5)}", tags=tags,
            do=f"Needed for {now.next}", place=Place("equipment", tags[0]), why="\n".join(each.what for each in things),
        )  # fmt: skip
    for each in holds:
        tag = each.key.partition("/")[0]
        if each.key in job.of(Equipment) or tag in told:
            continue
        do, place = way_out(job, now, each)
        place = place or Place("gate", each.key)
        yield Due(group="stage", key=f"hold:{each.key}", what=each.what, do=do, place=place, tags=(tag,))


def _blanks(job: Job, now: Standing, blank: Sequence[Blank]) -> Iterator[Due]:
    """What is missing: what holds the next stage first, then what unblocks most."""
    held = {each.key.partition("/")[0] for each in now.holds if each.kind == "other"}
    for each in sorted(blank, key=lambda one: one.tag not in held):
        wall = each.tag.startswith("W")
        holds = f", locks {now.next}" if each.tag in held else ""
        waits = (
            f"{plural(len(each.waits), 'thing')} {'waits' if len(each.waits) == 1 else 'wait'}" if each.waits else ""
        )
        yield Due(
            group="missing", key=f"blank:{each.tag}", tags=(each.tag, *each.waits),
            what=_wanted(f"{named(job, each.tag)}: {'read' if wall else 'look up'}", each.titles),
            do=f"{waits or 'Nothing waits for it yet'}{holds}",
            why=f"Not entered: {', '.join(each.titles)}."
            + (f"\nWaits for it: {' '.join(each.waits)}" if each.waits else ""),
            place=Place("readings" if wall else "equipment", each.tag),
        )  # fmt: skip


def _wanted(begins: str, titles: Sequence[str]) -> str:
    """What to look up, as many titles as go on a line: `E4 Receiver: look up width, height and 4 more`."""
    if len(titles) > 1 and all(title.startswith(CLEARANCE) for title in titles):
        return f"{begins} {len(titles)} clearances"
    lines = [f"{begins} {few_of(titles, count)}" for count in (3, 2, 1)]
    return next((each for each in lines if len(each) <= MOST), lines[-1])


CLEARANCE = "clearance "


def _photos(job: Job, now: Standing) -> Iterator[Due]:
    """The pictures to take while the wall is open, by wall."""
    if now.next != CLOSED:
        return
    walls: dict[str, list[str]] = {}
    for each in now.open:
        if wants_photo(each.check):
            walls.setdefault(_wall(job, each.check.tags), []).append(each.key)
    for wall, keys in sorted(walls.items(), key=lambda each: -len(each[1])):
        yield Due(
            group="photo",
            key=f"photo:{wall}",
            what=f"Photograph {plural(len(keys), 'item')}, {named(job, wall) if wall else 'no wall entered'}",
            do="One photo can cover several",
            tags=tuple(keys),
            place=Place("items", keys[0], "proof:photo", "open only"),
        )


def _wall(job: Job, tags: Sequence[str]) -> str:
    """The wall of the first of some things that is on one; of a cable that of its ends."""
    for tag in tags:
        record = job.get(tag)
        ends = (str(record.start), str(record.end)) if isinstance(record, Cable | Raceway) else (tag,)
        for end in ends:
            if end and (wall := wall_of(job, end)):
                return wall
    return ""
