"""The packet of one trade as a page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import msgspec

from store.measure.dates import echo_date
from store.measure.errors import BadValue
from store.measure.length import Length, show_length
from store.records.people import Contact, Trade
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.core.checks import Item, closed_line
from store.rules.core.wording import date_text, plural
from store.rules.drawing.elevation import Scene, Shape, Spot, scene
from store.rules.handoff.changes import Entry
from store.rules.handoff.packet import Listed, Packet, packet
from templates.sheets.drawing.paper import sheet_named
from templates.sheets.drawing.title import revision
from templates.sheets.drawing.whole import Ask, pages
from templates.sheets.layout.elevation import svg
from templates.sheets.layout.page import Block, Boxes, Drawing, Heading, Page, Picture, Signatures, Table, Words
from templates.sheets.layout.page import Box as Tick
from templates.sheets.trades.electrician import worked

COLUMNS = 7
"""Columns of a schedule that fit an upright page; what is beyond them goes into one more, in words."""
DRAWN: dict[Trade, tuple[str, ...]] = {
    "electrician": ("studs", "boxes", "cables:power"),
    "low-voltage": ("studs", "boxes", "raceways", "cables:signal"),
    "carpenter": ("studs", "obstacles", "openings", "panels"),
    "drywall": ("studs", "obstacles", "openings", "panels", "boxes"),
    "painter": ("openings", "panels"),
    "hvac": ("studs", "obstacles", "openings"),
    "inspector": ("studs", "boxes", "cables:power"),
}
"""What is drawn for a trade: layers of the scene, or only the runs of one sort in a layer."""
SHEET_OF: dict[Trade, str] = {
    "electrician": "electrician",
    "inspector": "electrician",
    "low-voltage": "low-voltage",
    "carpenter": "carpenter",
    "drywall": "drywall",
}
"""Trades that get drawing sheets, and whose."""
ROOM_TO_WRITE = "_" * 60
BOXES_DRAWN: dict[Trade, tuple[str, ...]] = {
    "electrician": ("receptacle", "switch", "junction"),
    "inspector": ("receptacle", "switch", "junction"),
    "low-voltage": ("low-voltage", "pass-through", "quick-connect"),
}


def packet_page(job: Job, trade: Trade, entries: Sequence[Entry] = ()) -> Page:
    """The packet of a trade; `entries` is the history as plain data, for what changed since it was given."""
    found = packet(job, trade, entries)
    title = f"{'DRAFT: ' if found.draft else ''}Handoff packet: {trade}"
    changed = revision(job, trade, entries)
    draft = ". DRAFT: not to work from" if found.draft else ""
    foot = f"{title}, revision {changed.letter}, {date_text(job, job.today)}{draft}"
    made = echo_date(job.today, job.manner.day_first)
    return Page(title, found.job, made, tuple(_blocks(job, found, entries)), foot)


def _blocks(job: Job, found: Packet, entries: Sequence[Entry]) -> Iterator[Block]:
    yield from _banner(job, found)
    people = [_person(one) for one in found.contacts] or ["nobody is named for this trade yet"]
    yield Words((f"For: {'; '.join(people)}", f"Stage: {found.stage}"))
    yield Table(("at the door", ""), tuple(_door(job)))
    yield Heading("Scope")
    yield Words(found.scope or ("No step of this trade is on the list.",), "list")
    yield Heading("Ready before you come")
    rows = tuple(("☑" if one.met else "☐", one.what, one.why) for one in found.ready)
    yield Table(("", "what", "how it stands"), rows)
    yield from _drawings(job, found.trade, entries)
    for each in found.listed:
        yield Heading(each.title)
        yield as_table(each)
    if found.trade in ("electrician", "inspector"):
        yield from worked(job)
    yield Heading("What you leave behind")
    if found.leaves:
        yield Words(("Tick, note the evidence, sign. Nothing is covered while one of these is open.",))
        yield Boxes(tuple(tick(item) for item in found.leaves))
    else:
        yield Words(("No rough-in check is yours.",))
    if found.questions:
        yield Heading("Questions for you")
        yield Words(found.questions, "numbers")
        yield Words(("Answers, with name and date:", *[ROOM_TO_WRITE] * min(len(found.questions), 6)))
    yield Heading("Cautions")
    yield Words(found.cautions, "caution")
    yield Heading("Before and after you")
    yield _neighbours(found)
    yield Signatures(("received, date", "handed back as listed, date", "owner"))


def _banner(job: Job, found: Packet) -> Iterator[Block]:
    if found.draft:
        missing = plural(len(found.missing), "thing")
        yield Words((f"DRAFT, not to work from: {missing} missing", "See ☐ under Ready before you come."), "banner")
    given = found.given
    if given is None or given.given is None:
        return
    when = f"{given.tag}, given {date_text(job, given.given)}"
    signed = f", signed back {date_text(job, given.signed)}" if given.signed else ""
    if found.changed:
        lines = [f"The packet they hold is OUT OF DATE ({when}{signed})", "Tell them:"]
        yield Words((*lines, *(one.says for one in found.changed)), "banner")
    else:
        yield Words((f"{when}{signed}; nothing that concerns them has changed since.",))


def tick(item: Item) -> Tick:
    """A rough-in check as a box to tick."""
    check = item.check
    done = closed_line(item.closing) if item.closing is not None and not item.open else ""
    why = "" if item.why_open in ("", "open") else item.why_open
    return Tick(check.key, check.what, check.where, check.wants, done, why)


def as_table(each: Listed) -> Table:
    """A schedule as a table of an upright page: what does not fit goes into one column, in words."""
    if len(each.titles) <= COLUMNS + 1:
        return Table(each.titles, each.rows)
    rows = []
    for row in each.rows:
        more = zip(each.titles[COLUMNS:], row[COLUMNS:], strict=True)
        rows.append((*row[:COLUMNS], "; ".join(f"{title}: {cell}" for title, cell in more if cell)))
    return Table((*each.titles[:COLUMNS], "more"), tuple(rows))


def _person(one: Contact) -> str:
    return ", ".join(each for each in (f"{one.tag} {one.name}", one.phone, one.mail) if each)


def _neighbours(found: Packet) -> Block:
    rows = [("before you", one.name, one.trade, one.phone, one.mail) for one in found.before]
    rows += [("after you", one.name, one.trade, one.phone, one.mail) for one in found.after]
    if not rows:
        return Words(("Nobody is named for the steps before and after.",))
    return Table(("", "name", "trade", "phone", "mail"), tuple(rows))


def _door(job: Job) -> Iterator[tuple[str, str]]:
    """What is asked at the door; what nobody entered is said."""
    one = job.settings
    permit = {"unknown": "not settled: ask the building department", "not needed": "not needed"}.get(
        one.permit, "needed"
    )
    yield "address", one.address or "not entered"
    yield "getting in", one.getting_in or "not entered"
    yield "call on site", ", ".join(each for each in (one.owner, one.phone) if each) or "not entered"
    yield "permit", f"no. {one.permit_no}" if one.permit_no else f"{permit}, no number entered"


def _drawings(job: Job, trade: Trade, entries: Sequence[Entry]) -> Iterator[Block]:
    if (view := SHEET_OF.get(trade)) is not None:
        paper = sheet_named("", job.settings.metric)
        try:
            found = pages(job, Ask(trade=view, changes=entries))
        except BadValue:
            return  # no wall, or nothing of this trade on one
        yield Heading("Drawings")
        yield Words((f"{plural(len(found), 'drawing sheet')}, {paper.name}, to scale when printed at full size.",))
        for one in found:
            yield Drawing(one, paper.wide, paper.high, "The drawing sheets are in the HTML and PDF packet.")
        return
    if trade not in DRAWN:
        return
    for tag in job.of(Wall):
        whole = scene(job, tag)
        if not whole.width or not whole.height:
            continue
        mine = for_trade(whole, trade)
        if any(shape.tag for shape in mine.shapes):
            yield Heading(f"Drawing of {tag} {whole.name}")
            yield Picture(svg(mine, job.settings.metric), f"The drawing of {tag} is in the HTML packet.")


def for_trade(whole: Scene, trade: Trade) -> Scene:
    """The scene with just what a trade works from."""
    wanted, boxes = DRAWN[trade], BOXES_DRAWN.get(trade)
    shapes = [
        _dimensioned(whole, shape)
        for shape in whole.shapes
        if (shape.layer in wanted or f"{shape.layer}:{shape.kind}" in wanted)
        and (shape.layer != "boxes" or boxes is None or shape.kind in boxes)
    ]
    return msgspec.structs.replace(whole, shapes=tuple(shapes), unplaced=())


def _dimensioned(whole: Scene, shape: Shape) -> Shape:
    """A box says where its centre is, from the left corner and from the floor, in place of its name."""
    if not isinstance(shape, Spot):
        return shape
    x, y = (show_length(Length(each), whole.metric) for each in (shape.x, shape.y))
    return msgspec.structs.replace(shape, label=f"→{x} ↑{y}")
