"""The money on paper and as csv for the owner's own spreadsheet."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.dates import echo_date
from store.measure.money import show_money
from store.records.whole import Job
from store.rules.purse import Row, by_category, changes, purse, purse_totals
from templates.sheets.csv_text import csv_text, plain_money
from templates.sheets.page import Block, Heading, Page, Table, Words

TITLES = ("planned", "quoted", "committed", "paid", "to pay", "held back", "will cost", "change")
RIGHT = frozenset(range(2, 8))


def money_page(job: Job) -> Page:
    """The money as a page."""
    return Page("Money", job.settings.name, echo_date(job.today), tuple(_blocks(job)))


def _blocks(job: Job) -> Iterator[Block]:
    found, currency = purse_totals(job), job.settings.currency
    budget = job.settings.budget
    rows = [
        ("planned", show_money(found.planned, currency)),
        ("quoted", show_money(found.quoted, currency)),
        ("promised (committed)", show_money(found.committed, currency)),
        ("paid", show_money(found.paid, currency)),
        ("still to pay", show_money(found.still_to_pay, currency)),
        ("of that, held back until signed", show_money(found.held_back, currency)),
        ("will have cost, if nothing changes", show_money(found.forecast, currency)),
        (f"kept for surprises, {job.settings.contingency:g} %", show_money(found.contingency, currency)),
        ("left of that", show_money(found.contingency_left, currency)),
    ]
    if budget is not None:
        rows.append(("budget", show_money(budget, currency)))
        rows.append(("left of the budget", show_money(budget - found.forecast, currency)))
    yield Table(("", "amount"), tuple(rows), frozenset({1}), frozenset({6}))
    yield Heading("By trade and sort")
    groups = tuple(
        (name, *(_amount(each) for each in (one.planned, one.committed, one.paid, one.still_to_pay, one.forecast)))
        for name, one in by_category(job).items()
    )
    yield Table(("", "planned", "promised", "paid", "to pay", "will cost"), groups, frozenset(range(1, 6)))
    if moved := changes(job):
        yield Heading("What changed since the plan")
        yield Words(tuple(change_words(row, currency) for row in moved), "list")
    yield Heading("Line by line")
    titles = ("tag", "name", "planned", "promised", "paid", "to pay", "held back", "will cost")
    yield Table(titles, tuple((row.key, row.name, *_cells(row)) for row in purse(job)), RIGHT)


def change_words(row: Row, currency: str) -> str:
    """`T4 Jo costs 150.00 more than planned (1,000.00, now 1,150.00)`."""
    way = "more" if row.change > 0 else "less"
    was, now, by = (show_money(each, currency) for each in (row.line.planned, row.expected, abs(row.change)))
    planned = f"{was}, now {now}" if row.line.planned else f"nothing was planned, now {now}"
    return f"{row.key} {row.name} costs {by} {way} than planned ({planned})"


def _cells(row: Row) -> tuple[str, ...]:
    line = row.line
    amounts = (line.planned, line.committed, line.paid, row.to_pay, row.held, row.expected)
    return tuple(_amount(each) for each in amounts)


def _amount(amount: int | None) -> str:
    return "" if amount is None else show_money(amount)


def money_csv(job: Job) -> str:
    """Every line as csv: amounts with a point and two decimals and nothing else, so that a spreadsheet adds them."""
    rows = [["tag", "name", "sort", "category", *TITLES, "currency"]]
    for row in purse(job):
        line = row.line
        amounts = (line.planned, line.quoted, line.committed, line.paid, row.to_pay, row.held, row.expected, row.change)
        plain = ["" if each is None else plain_money(each) for each in amounts]
        rows.append([row.key, row.name, row.sort, row.category, *plain, job.settings.currency])
    return csv_text(rows)
