"""What to do next over the whole job; each line goes to the place where it is done."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from store.records.base import Record
from store.rules.agenda.due import GROUPS, TITLES, Due
from store.rules.core.wording import day_short, plural
from tui.acts.places import go_to_place
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, View
from tui.widgets.record_table import Column, Line

SIGNS = {"danger": "■", "stage": "▸", "missing": "?", "days": "◷", "packet": "≡", "photo": "▣"}
"""A sign before each line, so that its group is told on every one of them."""


def _open(desk: Desk, key: str) -> None:
    due = desk.state.due(key)
    if due is not None:
        go_to_place(desk, due.place)


def due_text(due: Due) -> str:
    """One line of the agenda in full."""
    tags = [each for each in due.tags if each[-1:].isdecimal()]  # a hold of the stage itself names nothing
    parts = [due.do, due.why if due.why != due.do else "", f"About: {' '.join(tags)}" if tags else ""]
    return "\n\n".join(each for each in parts if each)


class Agenda(View):
    """What to do next."""

    name = "agenda"
    title = "What to do next"
    follows = "Looking through the job"
    about = (
        "What to do next, calculated from everything you entered: dangers first, then what locks the next stage, "
        "figures that are missing (the most needed first), calls, orders and returns by their "
        "day, packets that wait, photos to take. W = walk through the open items."
    )
    first = "Enter on the top line: it goes to the place where that is done. Esc = back."
    often = ("W",)
    filters = ("all", "danger", "stage", "missing", "days", "packet", "photo")
    keys = (Key("enter", "Go there", _open),)

    def columns(self, state: State) -> tuple[Column, ...]:
        """The group, the day, what to do, how."""
        return (Column("", 8), Column("by", 6), Column("what to do next", 60), Column("how", 20, grow=True))

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """All of them, or a group."""
        return [each for each in state.agenda if chosen in ("all", each.group)]

    def subject(self, state: State, key: str) -> str:
        """The first thing that it is about."""
        due = state.due(key)
        return due.tags[0].partition("/")[0] if due is not None and due.tags else ""

    def words(self, row: Any) -> str:
        """All that is shown of it, and the tags that it is about."""
        return f"{TITLES[row.group]} {row.what} {row.do} {' '.join(row.tags)}".lower()

    def key(self, row: Any) -> str:
        """The line's name."""
        return str(row.key)

    def line(self, state: State, row: Any) -> Line:
        """One line."""
        today = state.job.today
        late = row.day is not None and row.day < today
        day = "" if row.day is None else "today" if row.day == today else day_short(state.job, row.day)
        tone = "stop" if row.group == "danger" else "warn" if late else ""
        return Line((f"{SIGNS[row.group]} {TITLES[row.group]}", f"!{day}" if late else day, row.what, row.do), tone)

    def order(self, state: State, row: Any, column: int) -> Any:
        """Groups in their own order, days by the calendar."""
        if column == 0:
            return GROUPS.index(row.group)
        if column == 1:
            return row.day.toordinal() if row.day else None
        return super().order(state, row, column)

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many lines; what to do with them."""
        return f"{plural(len(rows), 'line')}. Enter = go there  Esc = back" if rows else "Nothing to do now"

    def record(self, state: State, key: str) -> Record | None:
        """A line is worked out, and is no record."""
        return None

    def page(self, state: State, key: str) -> tuple[str, str] | None:
        """The page of a line."""
        due = state.due(key)
        return None if due is None else (due.what, due_text(due))

    def opened(self, desk: Desk, key: str) -> None:
        """Enter, or a second click: to the place where it is done."""
        _open(desk, key)
