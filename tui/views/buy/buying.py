"""The buying list: what is still to buy, ticked off line by line, and what to cut from the spools that were bought."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Any

from store.book.changes import edit
from store.measure.money import show_money
from store.records.base import Record
from store.records.whole import Job
from store.rules.buying.buying_list import CUTTING, GROUPS, bought, buying_list, cutting_list, total_of
from store.rules.buying.line import Line as Wanted
from store.rules.core.memo import once
from store.rules.core.wording import named, plural
from tui.view.desk import SAME_LINE, Desk
from tui.view.state import State
from tui.view.view import Key, View
from tui.widgets.record_table import Column, Line


@once
def _lines(job: Job) -> dict[str, Wanted]:
    """Every line by the key of its row: its first record, so that the wall shows where it is needed, and its own."""
    return {_key(line): line for line in (*buying_list(job), *cutting_list(job))}


def _key(line: Wanted) -> str:
    return f"{line.tags[0] if line.tags else ''}/{line.key}"


def _buy(desk: Desk, key: str) -> None:
    line = _lines(desk.state.job).get(key)
    group = key.removeprefix("/") if line is None else line.group
    if group == CUTTING:
        desk.say("You mark these bought when their cables are pulled. See Cables.", bad=True)
    elif line is not None:
        _tick(desk, [line.key], line.what)
    else:
        keys = [each.key for each in buying_list(desk.state.job) if each.group == group]
        _tick(desk, keys, f"all of {group.lower()}")


def _tick(desk: Desk, keys: Collection[str], what: str) -> None:
    """Say in the records that these are bought, in one action."""
    count = len(bought(desk.state.job, keys))
    if desk.act(f"Bought: {what}", lambda job: [edit(*pair) for pair in bought(job, keys)], at=SAME_LINE):
        desk.done(f"Bought: {what}, entered on {plural(count, 'record')}. u = undo")


class Buying(View):
    """Everything still to buy, by group; then what to cut from what is bought."""

    name = "buying"
    title = "Buying list"
    about = (
        "Everything still to buy, less what you own. Space on a group name marks the whole group. Enter = where "
        "each is needed, and for a spool the cutting order and what is left. P = print, also as csv. Lengths are "
        "a planning aid: measure the route before you cut. Never splice a cable inside a wall."
    )
    first = "Go down the list in the store. Space = bought."
    sheets = ("buying",)
    built = "Nothing to buy. Built automatically from the plan."
    filters = ("all", *GROUPS, CUTTING)
    keys = (Key("space", "Bought", _buy),)

    def columns(self, state: State) -> tuple[Column, ...]:
        """A box to tick, how many, what, where, the price, and what to cut."""
        return (
            Column("", 1),
            Column("count", 5, right=True),
            Column("what", 36, grow=True),
            Column("needed at", 14, grow=True),
            Column("total", 10, right=True),
            Column("cut in this order", 24, grow=True),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """Each group with its lines below it."""
        listed: list[Any] = []
        for group in (*GROUPS, CUTTING):
            mine = [each for each in _lines(state.job).values() if each.group == group]
            if mine and chosen in ("all", group):
                listed += [group, *mine]
        return listed

    def key(self, row: Any) -> str:
        """The key of the line; of a group its name."""
        return f"/{row}" if isinstance(row, str) else _key(row)

    def words(self, row: Any) -> str:
        """What stands there."""
        return (row if isinstance(row, str) else f"{row.group} {row.what} {row.where} {row.note}").lower()

    def line(self, state: State, row: Any) -> Line:
        """A line, or the name of a group in its own tone."""
        if isinstance(row, str):
            return Line(("", "", row, "", _sum(state, row), ""), "head")
        sign = "·" if row.group == CUTTING else "□"
        count = str(row.count) if row.count else ""
        price = "" if row.total is None else show_money(row.total, state.job.settings.currency)
        return Line((sign, count, row.what, row.where, price, ", ".join(row.cuts) or row.note))

    def order(self, state: State, row: Any, column: int) -> Any:
        """Counts and prices by value; the names of groups come last."""
        if isinstance(row, str):
            return None
        return (row.group == CUTTING, row.count, row.what.lower(), row.where, row.total, row.note)[column]

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """What it comes to."""
        lines = buying_list(state.job)
        total, unpriced = total_of(lines)
        text = f"{plural(len(lines), 'line')} · {show_money(total, state.job.settings.currency)}"
        text += f" + {unpriced} with no price" if unpriced else ""
        cut = len(cutting_list(state.job))
        return text + (f" · {plural(cut, 'spool')} to cut from" if cut else "")

    def record(self, state: State, key: str) -> Record | None:
        """The record of a line that comes from one alone."""
        line = _lines(state.job).get(key)
        return state.job.get(line.tags[0]) if line is not None and len(line.tags) == 1 else None

    def page(self, state: State, key: str) -> tuple[str, str]:
        """All of a line: each record it comes from, and the order of cutting."""
        line = _lines(state.job).get(key)
        if line is None:
            return key.removeprefix("/"), "Space = mark the whole group bought" if key != f"/{CUTTING}" else ""
        currency = state.job.settings.currency
        parts = [f"{line.count} to buy" if line.count else "nothing to buy: you have it"]
        if line.total is not None:
            each = f" ({show_money(line.each, currency)} each)" if line.each is not None and line.count > 1 else ""
            parts.append(f"total {show_money(line.total, currency)}{each}")
        if line.unpriced:
            parts.append(f"{line.unpriced} with no price")
        blocks = [", ".join(parts), line.note]
        if line.cuts:
            blocks.append("\n".join(["Cut in this order:", *(f"  {each}" for each in line.cuts)]))
        blocks.append("\n".join(["Needed at:", *(f"  {named(state.job, tag)}" for tag in dict.fromkeys(line.tags))]))
        return line.what, "\n\n".join(each for each in blocks if each)


def _sum(state: State, group: str) -> str:
    total, _ = total_of(each for each in buying_list(state.job) if each.group == group)
    return show_money(total, state.job.settings.currency) if total else ""
