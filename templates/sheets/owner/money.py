"""The money on paper and as csv for the owner's own spreadsheet."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.dates import echo_date
from store.measure.money import show_money
from store.records.whole import Job
from store.rules.money.ledger import Row, ledger
from store.rules.money.words import GROUP_TITLES, changed_lines, groups, sums
from templates.sheets.layout.page import Block, Heading, Page, Table, Words
from templates.spreadsheet.text import csv_text, plain_money

TITLES = ("planned", "quoted", "committed", "paid", "to pay", "retainage", "projected cost", "change")
RIGHT = frozenset(range(2, 8))


def money_page(job: Job) -> Page:
    """The money as a page."""
    return Page("Money", job.settings.name, echo_date(job.today, job.manner.day_first), tuple(_blocks(job)))


def _blocks(job: Job) -> Iterator[Block]:
    currency = job.settings.currency
    rows = sums(job)
    strong = frozenset(at for at, one in enumerate(rows) if one.strong)
    cells = tuple((one.name, show_money(one.amount, currency)) for one in rows)
    yield Table(("", "amount"), cells, frozenset({1}), strong)
    yield Heading("By trade and kind")
    yield Table(("", *GROUP_TITLES), groups(job), frozenset(range(1, len(GROUP_TITLES) + 1)))
    if lines := changed_lines(job):
        yield Heading("What changed since the plan")
        yield Words(tuple(lines), "list")
    yield Heading("Line by line")
    titles = ("tag", "name", "planned", "promised", "paid", "to pay", "retainage", "projected cost")
    yield Table(titles, tuple((row.key, row.name, *_cells(row, job.settings.currency)) for row in ledger(job)), RIGHT)


def _cells(row: Row, currency: str) -> tuple[str, ...]:
    line = row.line
    amounts = (line.planned, line.committed, line.paid, row.to_pay, row.held, row.expected)
    return tuple("" if each is None else show_money(each, currency, bare=True) for each in amounts)


def money_csv(job: Job) -> str:
    """Every line as csv: amounts with a point and two decimals and nothing else, so that a spreadsheet adds them."""
    rows = [["tag", "name", "sort", "category", *TITLES, "currency"]]
    for row in ledger(job):
        line = row.line
        amounts = (line.planned, line.quoted, line.committed, line.paid, row.to_pay, row.held, row.expected, row.change)
        plain = ["" if each is None else plain_money(each, job.settings.currency, job.manner.comma) for each in amounts]
        rows.append([row.key, row.name, row.sort, row.category, *plain, job.settings.currency])
    return csv_text(rows, job.manner.comma)
