"""Lumber, drywall and screws in the ledger."""

from __future__ import annotations

from typing import Any

from store.measure.money import Money
from store.records.build import Fixing
from store.records.whole import Job
from store.rules.money.ledger import ledger, ledger_totals
from tests.jobs.wall_jobs import figure, job_of, made, wall


def job(**values: Any) -> Job:
    """A wall with prices, and screws that are bought."""
    given = {"lumber_price": Money(12_000), "drywall_price": Money(8_000), **values}
    return job_of(wall(**given), made(Fixing, "X1", of="E1", what="lag 5/16", price=Money(900), bought=True))


def test_a_wall_and_its_screws_are_lines_of_the_ledger() -> None:
    rows = {row.key: row for row in ledger(job())}
    assert rows["W1"].expected == 20_000
    assert (rows["W1"].line.paid, rows["X1"].line.paid) == (0, 900)
    assert figure(job(), "W1", "will_cost_minor") == 20_000


def test_what_is_bought_is_paid() -> None:
    rows = {row.key: row for row in ledger(job(parts=("framing",)))}
    assert rows["W1"].line.paid == 12_000
    assert ledger_totals(job(parts=("framing", "drywall"))).paid == 20_900


def test_without_prices_there_is_no_line() -> None:
    assert "W1" not in {row.key for row in ledger(job(lumber_price=None, drywall_price=None))}
