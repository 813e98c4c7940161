"""The people on paper: contacts with their papers, quotes side by side, and the calls to make."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from store.measure.dates import echo_date, show_date
from store.measure.money import show_money
from store.records.people import Contact
from store.records.whole import Job
from store.rules.money.ledger import quotes
from store.rules.trades.calls import calls, open_steps
from templates.sheets.layout.page import Block, Heading, Page, Table, Words

CALLS_SHOWN = 20


def contacts_page(job: Job) -> Page:
    """The contacts as a page."""
    return Page("Contacts", job.settings.name, echo_date(job.today), tuple(_blocks(job)))


def _blocks(job: Job) -> Iterator[Block]:
    people = sorted(job.of(Contact).values(), key=lambda one: one.trade)
    if not people:
        yield Words(("Nobody is on the list yet.",))
        return
    titles = ("tag", "name", "trade", "state", "phone", "mail", "next step")
    yield Table(titles, tuple(_row(job, one) for one in people))
    yield Heading("Papers")
    papers = tuple(
        (one.tag, one.name, one.licence, _until(one.licence_until, job.today), _until(one.insured_until, job.today))
        for one in people
    )
    yield Table(("tag", "name", "licence", "licence until", "insured until"), papers)
    if coming := calls(job)[:CALLS_SHOWN]:
        yield Heading("Calls to make")
        known = job.of(Contact)
        rows = ((show_date(each.day), known[each.contact].name, known[each.contact].phone, each.why) for each in coming)
        yield Table(("by", "name", "phone", "why"), tuple(rows))
    yield from _quotes(job)


def _row(job: Job, one: Contact) -> tuple[str, ...]:
    first = min(open_steps(job, one), key=lambda each: each[1].start, default=None)
    step = f"{first[0].tag} {first[0].what}, {show_date(first[1].start)}" if first else ""
    return one.tag, one.name, one.trade, one.state, one.phone, one.mail, step


def _until(day: date | None, today: date) -> str:
    if day is None:
        return "not noted"
    return show_date(day) + (" - RAN OUT" if day < today else "")


def _quotes(job: Job) -> Iterator[Block]:
    currency = job.settings.currency
    for (trade, scope), rows in quotes(job).items():
        yield Heading(f"Quotes, {trade}: {scope or 'scope not noted'}")
        cells = tuple(
            (
                each.name,
                show_money(each.amount, currency),
                f"+{show_money(each.above_lowest, currency)}" if each.above_lowest else "lowest",
                each.leaves_out or "nothing noted",
                show_date(each.day) if each.day else "",
                each.state,
                "yes" if each.counted else "",
            )
            for each in rows
        )
        titles = ("from", "amount", "against the lowest", "leaves out", "date", "state", "counted")
        yield Table(titles, cells, frozenset({1, 2}))
