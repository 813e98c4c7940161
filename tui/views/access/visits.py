"""Visits: the log of every access panel that was opened, the newest first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from store.records.access import Panel, Visit
from store.records.base import Record
from store.rules.core.wording import date_text, plural
from tui.view.state import State
from tui.view.view import KindView
from tui.widgets.record_table import Column, Line


class Visits(KindView):
    """Every opening of a panel."""

    name = "visits"
    title = "Visits"
    about = (
        "Every time an access panel was opened: when, by whom, why, what was seen, what was changed. a = log a visit. "
        "Access panels has the same log under each panel."
    )
    first = "a = log a visit whenever a panel was open."
    kinds = (Visit,)

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, day, panel, who, why, found, changed."""
        return (
            Column("tag", 5),
            Column("day", 12),
            Column("panel", 6),
            Column("who", 10),
            Column("why", 14, grow=True),
            Column("found", 12, grow=True),
            Column("changed", 12, grow=True),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """The newest first."""
        return sorted(state.job.of(Visit).values(), key=lambda each: each.date, reverse=True)

    def subject(self, state: State, key: str) -> str:
        """The panel that was opened."""
        visit = state.job.of(Visit).get(key)
        return str(visit.panel) if visit is not None else ""

    def line(self, state: State, row: Any) -> Line:
        """One visit."""
        return Line((row.tag, date_text(state.job, row.date), row.panel, row.who, row.why, row.found, row.changed))

    def order(self, state: State, row: Any, column: int) -> Any:
        """Days by the calendar."""
        return row.date.toordinal() if column == 1 else self.line(state, row).cells[column].lower() or None

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many, of how many panels."""
        opened = len({each.panel for each in state.job.of(Visit).values()})
        return f"{plural(len(rows), 'visit')}, {opened} of {plural(len(state.job.of(Panel)), 'access panel')} opened"

    def start_values(self, state: State, key: str | None, cls: type[Record]) -> dict[str, Any]:
        """The panel of the row under the cursor, today."""
        visit = state.job.of(Visit).get(key) if key else None
        return {"date": state.job.today} | ({"panel": visit.panel} if visit is not None else {})
