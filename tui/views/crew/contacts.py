"""Trades: who works on the wall, whose papers run out, what they quote side by side, and the calls to make."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from msgspec.structs import replace

from store.book.changes import edit
from store.measure.money import show_money
from store.records.people import Contact
from store.records.whole import Job
from store.rules.core.wording import date_text, plural
from store.rules.money.ledger import quotes
from store.rules.trades.calls import Call, calls, papers_short
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, KindView
from tui.widgets.record_table import Column, Line

STATES = ("to ask", "quoted", "booked", "done")
PAPER_DAYS = 30
"""A paper that ends within this many days is told (our own choice: a month to ask for the new one)."""


def _move(desk: Desk, key: str, by: int) -> None:
    one = desk.state.job.of(Contact).get(key)
    if one is None:
        return
    at = STATES.index(one.state) + by
    if not 0 <= at < len(STATES):
        desk.say(f"{key} is {one.state}: nothing {'after' if by > 0 else 'before'} that")
        return
    new = replace(one, state=STATES[at])
    if desk.act(f"{key} {one.name}: {new.state}", [edit(one, new)]):
        desk.done(f"{key} {one.name} is {new.state} now. u = undo")


def _quotes(desk: Desk, key: str) -> None:
    one = desk.state.job.of(Contact).get(key)
    trade = one.trade if one else ""
    desk.read(f"Quotes, {trade}", "\n".join(quote_lines(desk.state.job, trade)) or f"No quotes from the {trade} yet.")


def quote_lines(job: Job, trade: str) -> list[str]:
    """The quotes of a trade, by scope, side by side, with what each leaves out."""
    currency, lines = job.settings.currency, list[str]()
    for (of, scope), rows in quotes(job).items():
        if of != trade:
            continue
        lines += ["", f"For: {scope or 'no scope entered'}"] if lines else [f"For: {scope or 'no scope entered'}"]
        for each in rows:
            above = f"+{show_money(each.above_lowest, currency)}" if each.above_lowest else "lowest"
            counted = ", counted" if each.counted else ""
            lines.append(f"  {show_money(each.amount, currency):>12}  {above:12}  {each.contact} {each.name}")
            when = f"{date_text(job, each.day)}, " if each.day else ""
            lines.append(
                f"                leaves out: {each.leaves_out or 'nothing entered'} ({when}{each.state}{counted})"
            )
    return lines


def _calls(desk: Desk, key: str) -> None:
    lines = [call_words(desk.state.job, each) for each in calls(desk.state.job)]
    desk.read("Calls to make", "\n".join(lines) or "No calls to make.")


def call_words(job: Job, call: Call) -> str:
    """`25 Nov 2026: T4 Jo (555-0104), book S9 ...`."""
    one = job.of(Contact)[call.contact]
    phone = f" ({one.phone})" if one.phone else ""
    return f"{date_text(job, call.day)}: {one.tag} {one.name}{phone}, {call.why}"


class Trades(KindView):
    """Contacts with their state and their papers."""

    name = "trades"
    title = "Contacts"
    about = (
        "Who works on the wall, sells for it or inspects it. Space = next state: to ask, quoted, booked, "
        "done; Backspace = the one before. A license or insurance that ran out, or ends before their work does, is "
        "marked. v = compare the quotes of a trade. k = calls to make, most urgent first."
    )
    first = "a = add the electrician. k = calls to make, most urgent first."
    sheets = ("contacts",)
    kinds = (Contact,)
    filters = ("all", *STATES)
    keys = (
        Key("space", "Next state", lambda desk, key: _move(desk, key, 1)),
        Key("backspace", "State before", lambda desk, key: _move(desk, key, -1)),
        Key("v", "Quotes", _quotes),
        Key("k", "Calls", _calls),
    )

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, name, trade, state, papers, phone, mail."""
        return (
            Column("tag", 5),
            Column("name", 15, grow=True),
            Column("trade", 11, grow=True),
            Column("state", 6),
            Column("insured", 14),
            Column("license", 14),
            Column("phone", 14),
            Column("email", 20, grow=True),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """By trade."""
        listed = sorted(state.job.of(Contact).values(), key=lambda one: one.trade)
        return [one for one in listed if chosen in ("all", one.state)]

    def line(self, state: State, row: Any) -> Line:
        """One contact; a paper that ran out has a sign."""
        short = {paper for paper, _, _ in papers_short(state.job, row)}
        papers = [
            _paper(state.job, until, paper in short)
            for paper, until in (("insurance", row.insured_until), ("licence", row.licence_until))
        ]
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
        for one in state.job.of(Contact).values():
            counts[one.state] += 1
        text = ", ".join(f"{count} {name}" for name, count in counts.items() if count)
        if found := calls(state.job):
            text = f"next call {call_words(state.job, found[0])} · {text}"
        return text or "no contacts yet"


def _paper(job: Job, until: date | None, short: bool) -> str:
    today = job.today
    if until is None:
        return "not entered"
    if until < today:
        return "! ran out"
    if short:
        return f"! {date_text(job, until)}"
    left = (until - today).days
    return f"! {plural(left, 'day')} left" if left <= PAPER_DAYS else date_text(job, until)
