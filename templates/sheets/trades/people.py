"""The people on paper: contacts with their papers, quotes side by side, and the calls to make."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from store.measure.dates import echo_date
from store.measure.money import show_money
from store.records.people import Contact
from store.records.whole import Job
from store.rules.core.wording import date_text
from store.rules.money.ledger import quotes
from store.rules.trades.calls import calls, open_steps
from templates.sheets.layout.page import Block, Heading, Page, Table, Words

CALLS_SHOWN = 20


def contacts_page(job: Job) -> Page:
    """The contacts as a page."""
    return Page("Contacts", job.settings.name, echo_date(job.today, job.manner.day_first), tuple(_blocks(job)))


def _blocks(job: Job) -> Iterator[Block]:
    people = sorted(job.of(Contact).values(), key=lambda one: one.trade)
    if not people:
        yield Words(("No contacts yet.",))
        return
    titles = ("tag", "name", "trade", "state", "phone", "email", "next step")
    yield Table(titles, tuple(_row(job, one) for one in people))
    yield Heading("Papers")
    papers = tuple(
        (one.tag, one.name, one.licence, _until(job, one.licence_until), _until(job, one.insured_until))
        for one in people
    )
    yield Table(("tag", "name", "license no.", "license until", "insured until"), papers)
    if coming := calls(job)[:CALLS_SHOWN]:
        yield Heading("Calls to make")
        known = job.of(Contact)
        rows = (
            (date_text(job, each.day), known[each.contact].name, known[each.contact].phone, each.why) for each in coming
        )
        yield Table(("by", "name", "phone", "why"), tuple(rows))
    yield from _quotes(job)


def _row(job: Job, one: Contact) -> tuple[str, ...]:
    first = min(open_steps(job, one), key=lambda each: each[1].start, default=None)
    step = f"{first[0].tag} {first[0].what}, {date_text(job, first[1].start)}" if first else ""
    return one.tag, one.name, one.trade, one.state, one.phone, one.mail, step


def _until(job: Job, day: date | None) -> str:
    if day is None:
        return "not entered"
    return date_text(job, day) + (" - RAN OUT" if day < job.today else "")


def _quotes(job: Job) -> Iterator[Block]:
    currency = job.settings.currency
    for (trade, scope), rows in quotes(job).items():
        yield Heading(f"Quotes, {trade}: {scope or 'no scope entered'}")
        cells = tuple(
            (
                each.name,
                show_money(each.amount, currency),
                f"+{show_money(each.above_lowest, currency)}" if each.above_lowest else "lowest",
                each.leaves_out or "nothing entered",
                date_text(job, each.day) if each.day else "",
                each.state,
                "yes" if each.counted else "",
            )
            for each in rows
        )
        titles = ("from", "amount", "against the lowest", "leaves out", "date", "state", "counted")
        yield Table(titles, cells, frozenset({1, 2}))
