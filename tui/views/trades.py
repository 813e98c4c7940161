"""Trades: who works on the wall, and whose papers ran out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from msgspec.structs import replace

from store.book.changes import edit
from store.measure.dates import show_date
from store.records.people import Contact
from tui.views.base import Desk, Key, KindView, State
from tui.widgets.record_table import Column, Line

STATES = ("to ask", "quoted", "booked", "done")
PAPER_DAYS = 30
"""A paper that ends within this many days is told (our own choice: a month to ask for the new one)."""


def _move(desk: Desk, key: str) -> None:
    one = desk.state.job.of(Contact).get(key)
    if one is None:
        return
    if one.state == STATES[-1]:
        desk.say(f"{key} is done; e changes it back")
        return
    new = replace(one, state=STATES[STATES.index(one.state) + 1])
    if desk.act(f"{key} {one.name}: {new.state}", [edit(one, new)]):
        desk.say(f"{key} {one.name} is {new.state} now. u takes it back.")


class Trades(KindView):
    """Contacts with their state and their papers."""

    name = "trades"
    title = "Trades"
    about = (
        "Who works on the wall, sells for it or inspects it. Space moves a contact along from to ask to quoted, "
        "booked and done. A licence or an insurance that ran out is marked."
    )
    kinds = (Contact,)
    filters = ("all", *STATES)
    keys = (Key("space", "Move along", _move),)

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, name, trade, state, papers, phone, mail."""
        return (
            Column("tag", 5),
            Column("name", 15, grow=True),
            Column("trade", 11),
            Column("state", 6),
            Column("insured", 14),
            Column("licence", 14),
            Column("phone", 14),
            Column("mail", 20, grow=True),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """By trade."""
        listed = sorted(state.job.of(Contact).values(), key=lambda one: one.trade)
        return [one for one in listed if chosen in ("all", one.state)]

    def line(self, state: State, row: Any) -> Line:
        """One contact; a paper that ran out has a sign."""
        papers = [_paper(until, state.job.today) for until in (row.insured_until, row.licence_until)]
        warn = row.state != "done" and any(each.startswith("!") for each in papers)
        cells = (row.tag, row.name, row.trade, row.state, *papers, row.phone, row.mail)
        return Line(cells, "warn" if warn else "done" if row.state == "done" else "")

    def order(self, state: State, row: Any, column: int) -> Any:
        """Papers by date, the rest by what is shown."""
        if column in (4, 5):
            until = row.insured_until if column == 4 else row.licence_until
            return until.toordinal() if until else None
        return super().order(state, row, 0) if column == 0 else self.line(state, row).cells[column].lower() or None

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many in each state, and the next call."""
        counts = dict.fromkeys(STATES, 0)
        calls: list[tuple[date, str]] = []
        for one in state.job.of(Contact).values():
            counts[one.state] += 1
            if one.call_on and one.state != "done":
                calls.append((one.call_on, f"{one.tag} {one.name}"))
        text = ", ".join(f"{count} {name}" for name, count in counts.items() if count)
        if calls:
            day, name = min(calls)
            text += f" · next call: {name}, {show_date(day)}"
        return text or "nobody yet"


def _paper(until: date | None, today: date) -> str:
    if until is None:
        return "not noted"
    if until < today:
        return "! ran out"
    left = (until - today).days
    return f"! {left} days left" if left <= PAPER_DAYS else show_date(until)
