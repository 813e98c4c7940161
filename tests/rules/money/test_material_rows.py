"""Lumber, drywall and screws in the ledger."""

from __future__ import annotations

from typing import Any

import msgspec

from store.measure.money import Money
from store.records.build import Fixing
from store.records.whole import Job
from store.rules.buying.buying_list import buying_list, total_of
from store.rules.money.ledger import ledger, ledger_totals
from tests.jobs.wall_jobs import ROOM, figure, job_of, made, opening, wall


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


def test_a_cabinet_is_a_line_too_and_the_ledger_comes_to_what_the_buying_list_does() -> None:
    made_of = {"material": "birch plywood", "thickness": "3/4 in", "use": "shelf", "price": Money(9_500)}
    cupboard, other = opening("N1", 10, 10, 30, 40, **made_of), opening("N2", 60, 10, 30, 40, **made_of)
    whole = job_of(*ROOM, cupboard, other, made(Fixing, "X1", of="N1", what="lag 5/16", price=Money(900)))
    assert total_of(buying_list(whole))[0] == _to_pay(whole) == 19_900
    had = whole.having(msgspec.structs.replace(other, parts=("boards", "hardware")))
    rows = {row.key: row for row in ledger(had)}
    assert (rows["N1"].line.paid, rows["N2"].line.paid) == (0, 9_500)
    assert total_of(buying_list(had))[0] == _to_pay(had) == 10_400
    assert "N1" not in {row.key for row in ledger(whole.having(msgspec.structs.replace(cupboard, price=None)))}


def _to_pay(job: Job) -> int:
    return sum(row.to_pay for row in ledger(job))
