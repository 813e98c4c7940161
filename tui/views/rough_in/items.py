"""Rough-in: what must be done and seen before the wall is covered."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from store.measure.counts import plural
from store.records.base import Record
from store.records.gate import Check
from store.rules.core.checks import Item, closed_line
from store.rules.core.proof import wants_photo
from store.rules.core.taken_off import taken_off
from tui.acts.closings import reopening_changes
from tui.acts.sign_off import call_not_needed, sign_off, sign_off_alike
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, View, tag_order
from tui.widgets.record_table import Column, Line


def _close(desk: Desk, key: str) -> None:
    item = desk.state.item(key)
    if item is None or not item.open:
        desk.say(f"{key} is already signed off")
        return
    sign_off(desk, item)


def alike(state: State, key: str) -> list[Item]:
    """The open checks of the same aspect and the same trade as this one: all `labelled` of the electrician."""
    item = state.item(key)
    _, slash, aspect = key.partition("/")
    if item is None or not slash:
        return []
    return [
        each
        for each in state.standing.open
        if each.key.partition("/")[2] == aspect and each.check.trade == item.check.trade
    ]


def _close_alike(desk: Desk, key: str) -> None:
    group = alike(desk.state, key)
    if not group:
        desk.say("You can sign off together only items built from the plan. Put the cursor on one.", bad=True)
        return
    sign_off_alike(desk, group, key.partition("/")[2], group[0].check.trade)


def _not_needed(desk: Desk, key: str) -> None:
    item = desk.state.item(key)
    if item is None or not item.open:
        desk.say(f"{key} is already signed off")
        return
    call_not_needed(desk, item)


def _open_again(desk: Desk, key: str) -> None:
    item = desk.state.item(key)
    if item is None or item.closing is None:
        desk.say(f"{key} is open")
        return
    if desk.act(f"Reopen {key}: {item.check.what}", reopening_changes(desk.state.job, item.closing)):
        desk.done(f"Reopened {key}. u = undo")


class RoughIn(View):
    """Every rough-in check, the open ones first."""

    name = "rough-in"
    title = "Rough-in items"
    about = (
        "Rough-in items: what must be done and seen before the wall is covered. c = sign off "
        "with proof  C = sign off all of its kind and trade  n = not needed  o = reopen. Drywall "
        "is locked while one is open. There is no way around that."
    )
    first = "W = walk: one item at a time, large. Or c = sign off the one you are on."
    often = ("W",)
    sheets = ("checklist",)
    kinds = (Check,)
    filters = ("by trade", "open only", "by place", "closed")
    keys = (
        Key("c", "Sign off", _close),
        Key("C", "Sign off alike", _close_alike),
        Key("n", "Not needed", _not_needed),
        Key("o", "Reopen", _open_again),
    )

    def columns(self, state: State) -> tuple[Column, ...]:
        """Sign, key, what, trade, place, how it stands."""
        return (
            Column("item", 13),
            Column("", 1),
            Column("what", 60),
            Column("trade", 11),
            Column("where", 15),
            Column("proof", 22, grow=True),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """Open before closed within each trade, or by place."""
        listed = list(state.standing.items)
        if chosen == "open only":
            listed = [each for each in listed if each.open]
        elif chosen == "closed":
            listed = [each for each in listed if not each.open]
        if chosen == "by place":
            return sorted(listed, key=lambda each: (each.check.where.lower(), not each.open))
        return sorted(listed, key=lambda each: (each.check.trade, not each.open))

    def key(self, row: Any) -> str:
        """The check's key."""
        return str(row.key)

    def words(self, row: Any) -> str:
        """Everything that is shown of it; its trade and its kind of proof also by a word that nothing else has."""
        check = row.check
        parts = (row.key, check.what, check.trade, check.where, check.wants, "open" if row.open else "closed")
        exact = f"trade:{check.trade} {'proof:photo' if wants_photo(check) else ''}"
        return " ".join((*parts, exact)).lower()

    def line(self, state: State, row: Any) -> Line:
        """One check; the box tells open from closed without colour."""
        check = row.check
        if row.open:
            note = f"needs {check.wants}" if row.why_open == "open" and check.wants else row.why_open
            note = "" if note == "open" else note
            tone = "warn" if row.why_open != "open" else ""
            return Line((row.key, "□", check.what, check.trade, check.where, note), tone)
        sign = "–" if row.closing and row.closing.outcome == "not needed" else "✓"
        said = closed_line(row.closing, state.job.manner.day_first) if row.closing else ""
        return Line((row.key, sign, check.what, check.trade, check.where, said), "done")

    def order(self, state: State, row: Any, column: int) -> Any:
        """By key as a number."""
        return tag_order(row.key) if column == 0 else super().order(state, row, column)

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many are open, by trade."""
        trades: dict[str, int] = {}
        for item in state.standing.open:
            trades[item.check.trade] = trades.get(item.check.trade, 0) + 1
        split = ", ".join(f"{trade} {count}" for trade, count in sorted(trades.items()))
        total = len(state.standing.items)
        removed = f" · {len(off)} removed from the list" if (off := taken_off(state.job)) else ""
        left = (
            f"{len(state.standing.open)} of {total} open"
            if state.standing.open
            else f"None of {plural(total, 'item')} open"
            if total
            else "No items"
        )
        return left + (f": {split}" if split else "") + removed

    def record(self, state: State, key: str) -> Record | None:
        """The hand-written item; what follows from the plan is changed in the plan."""
        return state.job.of(Check).get(key)

    def start_values(self, state: State, key: str | None, cls: type[Record]) -> dict[str, Any]:
        """The same trade and place as the row under the cursor."""
        item = state.item(key) if key else None
        return {"trade": item.check.trade, "where": item.check.where} if item else {}
