"""Money: each contact and thing with what it will cost, and under it the amounts that were noted."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from store.measure.money import show_money
from store.records.base import Record
from store.records.people import Amount
from store.rules.core.wording import date_text
from store.rules.money.ledger import Row, ledger, ledger_totals
from store.rules.money.words import changed_lines, groups, sums
from tui.shared.bars import bar
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, KindView, tag_order
from tui.widgets.record_table import Column, Line


def _totals(desk: Desk, key: str) -> None:
    desk.read("Money", "\n".join(total_lines(desk.state)))


def total_lines(state: State) -> list[str]:
    """The sums of the whole job, what changed since the plan, and the sums by trade and sort."""
    currency = state.job.settings.currency
    lines = [f"{one.name:36}{show_money(one.amount, currency):>14}" for one in sums(state.job)]
    if changed := changed_lines(state.job):
        lines += ["", "What changed since the plan:", *(f"  {line}" for line in changed)]
    lines += ["", "By trade and kind:", _group_line("", GROUPS_SHOWN)]
    for name, *amounts in groups(state.job):
        planned, _quoted, promised, paid, to_pay, _held, will = amounts
        lines.append(_group_line(name, (planned, promised, paid, to_pay, will)))
    return lines


GROUPS_SHOWN = ("planned", "promised", "paid", "to pay", "projected")
"""The sums of a group that fit a window of 80 cells."""


def _group_line(name: str, cells: Sequence[str]) -> str:
    return f"  {name[:13]:13}" + "".join(f"{cell:>11}" for cell in cells)


class MoneyView(KindView):
    """The lines of the ledger, each followed by its amounts."""

    name = "money"
    title = "Money"
    about = (
        "What each trade and each thing costs: planned, promised once booked or ordered, paid, still "
        "to pay, and the projected cost if nothing changes. a = add a quote, deposit, payment or refund. "
        "v = totals: retainage, contingency, and what changed since the plan."
    )
    first = "a = add a quote when it comes in, then each deposit and payment."
    sheets = ("money",)
    kinds = (Amount,)
    keys = (Key("v", "Totals", _totals),)
    filters = ("lines and amounts", "lines only", "amounts only")

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, name, and the amounts."""
        titles = ("planned", "promised", "paid", "to pay", "projected")
        found = ledger_totals(state.job)
        wide = max(9, *(len(_amount(state, each)) for each in (found.planned, found.forecast, found.paid)))
        return (
            Column("tag", 5),
            Column("name", 12, grow=True),
            *(Column(each, wide, right=True) for each in titles),
            Column("for", 16, grow=True),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """Each line, then its amounts by the day."""
        amounts: dict[str, list[Amount]] = {}
        for one in state.job.of(Amount).values():
            amounts.setdefault(one.of, []).append(one)
        if chosen == "amounts only":
            return list(state.job.of(Amount).values())
        listed: list[Any] = []
        for row in ledger(state.job):
            mine = amounts.get("" if row.sort == "other" else row.key, [])
            dated = sorted(mine, key=lambda each: (each.date is None, each.date))
            listed += [row, *(dated if chosen == "lines and amounts" else [])]
        return listed

    def key(self, row: Any) -> str:
        """The tag of the amount, or of the contact or thing of the line."""
        return str(row.key if isinstance(row, Row) else row.tag)

    def words(self, row: Any) -> str:
        """What a filter looks through."""
        return f"{row.key} {row.name} {row.category}".lower() if isinstance(row, Row) else super().words(row)

    def record(self, state: State, key: str) -> Record | None:
        """A line of the ledger is the contact or the thing itself."""
        return state.job.get(key)

    def line(self, state: State, row: Any) -> Line:
        """A line in the head's tone, an amount below it."""
        if isinstance(row, Row):
            line = row.line
            amounts = (line.planned, line.committed, line.paid, row.to_pay, row.expected)
            held = f"{_amount(state, row.held)} retainage" if row.held else row.category
            return Line((row.key, row.name, *(_amount(state, each) for each in amounts), held), "head")
        day = date_text(state.job, row.date) if row.date else "no date"
        column = {"planned": 0, "quote": 1, "deposit": 2, "paid": 2, "refund": 2}[row.what]
        cells = [""] * 5
        cells[column] = _amount(state, -row.amount if row.what == "refund" else row.amount)
        leaves = f" (leaves out {row.leaves_out})" if row.leaves_out else ""
        return Line((row.tag, f"  {row.what}, {day}", *cells, f"{row.scope}{leaves}"))

    def order(self, state: State, row: Any, column: int) -> Any:
        """Lines by their amounts; amounts come after them."""
        if column == 0:
            return tag_order(self.key(row))
        if not isinstance(row, Row):
            return None
        line = row.line
        amounts = (line.planned, line.committed, line.paid, row.to_pay, row.expected)
        return (row.name.lower(), *amounts, row.category)[column - 1]

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """The whole ledger in one line."""
        found, currency = ledger_totals(state.job), state.job.settings.currency
        will, paid, to_pay = (show_money(each, currency) for each in (found.forecast, found.paid, found.still_to_pay))
        text = f"projected {will} · paid {paid} · to pay {to_pay}"
        if state.job.settings.budget is not None:
            budget = state.job.settings.budget
            left = show_money(budget - found.forecast, currency)
            text = f"{bar(found.forecast, budget)} {text} · {left} of the budget left"
        return text


def _amount(state: State, amount: int | None) -> str:
    return "" if amount is None else show_money(amount, state.job.settings.currency, bare=True)
