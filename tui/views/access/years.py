"""The years after: service, warranties, panels, and what is wanted later."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from store.records.base import Record
from store.rules.core.wording import date_text, plural
from store.rules.service.years_after import KINDS, Later, years_after
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, View
from tui.widgets.record_table import Column, Line

SIGNS = {"due": "▲", "service": "◷", "warranty": "◷", "panel": "▢", "later": "▸"}
"""What each line is, as a sign; its words say it too."""


def _find(state: State, key: str) -> Later | None:
    return next((each for each in years_after(state.job, state.found) if each.key == key), None)


def _open(desk: Desk, key: str) -> None:
    if (row := _find(desk.state, key)) is not None:
        desk.go_to(row.tag)


class Years(View):
    """What there is to look after once the wall is in use."""

    name = "years"
    title = "Years after"
    follows = "Looking at the years after"
    about = (
        "The years after: what is due now, service and warranty days, when each access panel was opened last, and what "
        "you want later, with what is ready for it in the wall. Enter = go to the record. Esc = back. Enter the days "
        "on the equipment."
    )
    first = "Enter on the top line: it is due first."
    sheets = ("owners-book",)
    keys = (Key("enter", "Go there", _open),)

    def columns(self, state: State) -> tuple[Column, ...]:
        """What it is, the day, what, what to do."""
        return (Column("", 1), Column("day", 12), Column("what", 60), Column("do", 20, grow=True))

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """What is due first."""
        return years_after(state.job, state.found)

    def key(self, row: Any) -> str:
        """The line's name."""
        return str(row.key)

    def subject(self, state: State, key: str) -> str:
        """The record that it is about."""
        row = _find(state, key)
        return row.tag if row is not None else ""

    def words(self, row: Any) -> str:
        """All that is shown of it."""
        return f"{row.kind} {row.tag} {row.what} {row.do}".lower()

    def line(self, state: State, row: Any) -> Line:
        """One line."""
        day = date_text(state.job, row.day) if row.day else ""
        return Line((SIGNS[row.kind], day, row.what, row.do), "warn" if row.kind == "due" else "")

    def order(self, state: State, row: Any, column: int) -> Any:
        """Kinds in their own order, days by the calendar."""
        if column == 0:
            return KINDS.index(row.kind)
        if column == 1:
            return row.day.toordinal() if row.day else None
        return super().order(state, row, column)

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many are due."""
        due = sum(each.kind == "due" for each in rows)
        if not rows:
            return "Nothing entered yet"
        later = f", {plural(len(rows) - due, 'other')}" if len(rows) > due else ""
        return f"{plural(due, 'thing') if due else 'Nothing'} due now{later}"

    def record(self, state: State, key: str) -> Record | None:
        """A line is worked out, and is no record."""
        return None

    def page(self, state: State, key: str) -> tuple[str, str] | None:
        """The line in full."""
        row = _find(state, key)
        return None if row is None else (row.what, row.do)

    def opened(self, desk: Desk, key: str) -> None:
        """Enter, or a second click: to the record."""
        _open(desk, key)
