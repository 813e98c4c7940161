"""The packet of one trade as a page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from store.measure.dates import echo_date
from store.measure.errors import BadValue
from store.records.people import Contact, Step, Trade
from store.records.whole import Job
from store.rules.core.checks import Item, closed_line
from store.rules.core.code import METRIC_CODE, edition
from store.rules.core.wording import date_text, local, plural
from store.rules.handoff.changes import Entry
from store.rules.handoff.on_site import on_site
from store.rules.handoff.packet import Listed, Packet, packet
from store.rules.schedule.calendar import calendar, span
from templates.sheets.drawing.paper import sheet_named
from templates.sheets.drawing.title import revision
from templates.sheets.drawing.whole import Ask, pages
from templates.sheets.layout.page import Asked, Block, Boxes, Drawing, Heading, Page, Signatures, Table, Words
from templates.sheets.layout.page import Box as Tick
from templates.sheets.trades.check_grid import grids
from templates.sheets.trades.electrician import worked

COLUMNS = 7
"""Columns of a schedule that fit an upright page; what is beyond them goes into one more, in words."""
NOT_DRAWN: tuple[Trade, ...] = ("owner", "supplier")
"""Trades that work from no drawing of the wall."""
THE_JOB = "The job"
"""The schedule whose values stand with what is asked at the door."""
CODED: tuple[Trade, ...] = ("electrician", "inspector")
"""Trades whose packet says by which electrical code it was worked out."""
SAID_ABOVE = ("name", "permit")


def packet_page(job: Job, trade: Trade, entries: Sequence[Entry] = ()) -> Page:
    """The packet of a trade; `entries` is the history as plain data, for what changed since it was given."""
    found = packet(job, trade, entries)
    title = f"{'DRAFT: ' if found.draft else ''}Handoff packet: {trade}"
    changed = revision(job, trade, entries)
    draft = ". DRAFT: not to work from" if found.draft else ""
    foot = f"Handoff packet: {trade}, revision {changed.letter}, {date_text(job, job.today)}{draft}"
    made = echo_date(job.today, job.manner.day_first)
    return Page(title, found.job, made, tuple(_blocks(job, found, entries)), foot)


def _blocks(job: Job, found: Packet, entries: Sequence[Entry]) -> Iterator[Block]:
    yield from _banner(job, found)
    yield Table(("at the door", ""), tuple(_door(job, found)))
    yield from _scope(found)
    yield Heading("Done before you come")
    rows = tuple(("☑" if one.met else "☐", one.what, one.why) for one in found.ready)
    yield Table(("", "what", "status"), rows)
    yield from _drawings(job, found.trade, entries)
    for each in found.listed:
        if each.title != THE_JOB:
            yield Heading(each.title)
            yield as_table(each)
    if found.trade in ("electrician", "inspector"):
        yield from worked(job)
    yield from _materials(job, found.trade)
    if found.leaves:
        yield Heading("How to leave it")
        yield Words(("Tick, enter the proof, sign. Nothing is covered while one of these is open.",))
        yield from grids(job, found.leaves)
    yield from _next(job, found)
    if found.questions:
        yield Heading("Questions for you")
        yield Asked(found.questions)
    yield Heading("Cautions")
    yield Words(found.cautions, "caution")
    yield Signatures(("received, date", "handed back as listed, date", "owner"))


def _scope(found: Packet) -> Iterator[Block]:
    yield Heading("Scope")
    if found.scope:
        keys = [each.partition(" ") for each in found.scope]
        yield Boxes(tuple(Tick(key, what) for key, _, what in keys), sign=False)
    else:
        yield Words(("Not entered yet. Write here what is agreed:",))
        yield Asked(("", "", ""))


def _materials(job: Job, trade: Trade) -> Iterator[Block]:
    lines = on_site(job, trade)
    if lines:
        yield Heading("Materials: ☑ on site, ☐ still to buy")
        rows = tuple(("☑" if one.there else "☐", str(one.count or ""), one.what, one.used_for) for one in lines)
        yield Table(("", "count", "what", "for"), rows, right=frozenset({1}))


def _next(job: Job, found: Packet) -> Iterator[Block]:
    """The steps that wait for this visit: who comes next, and when."""
    mine = {step.tag for step in found.visit}
    rows = []
    for tag, step in job.of(Step).items():
        if tag in mine or not mine & set(step.after) or step.done is not None:
            continue
        who = job.of(Contact).get(step.who)
        dated = calendar(job).dated.get(tag)
        when = span(job, dated.start, dated.finish) if dated is not None else ""
        rows.append((f"{tag} {step.what}", who.name if who else "", who.phone if who else "", when))
    if rows:
        yield Heading("What the next trade waits for")
        yield Words(("Leave it so that they can start: signed off, swept, and nothing in front of the wall.",))
        yield Table(("step", "who", "phone", "when"), tuple(rows))


def _banner(job: Job, found: Packet) -> Iterator[Block]:
    if found.draft:
        missing = plural(len(found.missing), "thing")
        yield Words((f"DRAFT, not to work from: {missing} missing", "See ☐ under Done before you come."), "banner")
    given = found.given
    if given is None or given.given is None:
        return
    when = f"{given.tag}, given {date_text(job, given.given)}"
    signed = f", signed back {date_text(job, given.signed)}" if given.signed else ""
    if found.changed:
        lines = [f"The packet they hold is OUT OF DATE ({when}{signed})", "Show them:"]
        yield Words((*lines, *(one.says for one in found.changed)), "banner")
    else:
        yield Words((f"{when}{signed}; no changes for them since.",))


def tick(item: Item) -> Tick:
    """A rough-in check as a box to tick."""
    check = item.check
    done = closed_line(item.closing) if item.closing is not None and not item.open else ""
    why = "" if item.why_open in ("", "open") else item.why_open
    return Tick(check.key, check.full, check.where, check.wants, done, why)


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


def _door(job: Job, found: Packet) -> Iterator[tuple[str, str]]:
    """What is asked at the door; what nobody entered is said."""
    one = job.settings
    permit = {"unknown": "not settled: ask the building department", "not needed": "not needed"}.get(
        one.permit, "needed, no number entered"
    )
    if found.contacts:
        yield "for", "; ".join(_person(each) for each in found.contacts)
    yield "address", one.address or "not entered"
    yield "getting in", one.getting_in or "not entered"
    yield "call on site", ", ".join(each for each in (one.owner, one.phone) if each) or "not entered"
    yield "permit", f"no. {one.permit_no}" if one.permit_no else local(job, permit)
    inspectors = [each for each in job.of(Contact).values() if each.trade == "inspector"]
    if inspectors and found.trade != "inspector":
        yield "inspector", "; ".join(_person(each) for each in inspectors)
    yield "when", _when(job, found)
    if found.trade in CODED:
        yield "code", METRIC_CODE if one.metric else f"NEC {edition(job)}, unless local code differs"
    for each in found.listed:
        if each.title == THE_JOB:
            values = zip(each.titles[1:], each.rows[0][1:], strict=True)
            yield from (one for one in values if one[0] not in SAID_ABOVE)


def _when(job: Job, found: Packet) -> str:
    """The days of the visit, by bookings and schedule."""
    dated = [one for step in found.visit if (one := calendar(job).dated.get(step.tag)) is not None]
    if not dated:
        return f"no date entered, in the stage {found.stage}"
    days = span(job, min(one.start for one in dated), max(one.finish for one in dated))
    booked = all(step.booked is not None or step.done is not None for step in found.visit)
    return f"{days}, {'booked' if booked else 'not booked yet'}, stage {found.stage}"


def _drawings(job: Job, trade: Trade, entries: Sequence[Entry]) -> Iterator[Block]:
    if trade in NOT_DRAWN:
        return
    paper = sheet_named("", job.settings.metric)
    try:
        found = pages(job, Ask(trade=trade, changes=entries))
    except BadValue:
        return  # no wall, or nothing of this trade on one
    yield Heading("Drawings")
    where = f"{plural(len(found), 'drawing sheet')}, {paper.name}, in the HTML and PDF packet"
    yield Words((f"{where}: to scale when printed at full size.",))
    for one in found:
        yield Drawing(one, paper.wide, paper.high, "")
