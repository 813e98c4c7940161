"""Steps: the work over the weeks, what decides the end, and what a slip moves."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Any

from msgspec.structs import replace

from store.book.changes import add, edit
from store.measure.dates import echo_date
from store.measure.errors import BadValue
from store.measure.numbers import parse_count
from store.records.people import Contact, Step
from store.rules.build.coats import coat_steps
from store.rules.core.wording import day_short, plural
from store.rules.schedule.bars import LEGEND, bars, text_bar, week_line
from store.rules.schedule.calendar import calendar, slip_words
from store.trade.schedule.critical_path import BadNetwork
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, KindView, tag_order
from tui.widgets.record_table import Column, Line

BAR_CELLS = 27
NAME_AND_DATES = 32
"""Cells of a step's name, its start and its finish, beside which 80 cells still have room for the bar."""
DAY_CELLS = 6
"""`Dec 28`; a day of another year is longer."""
PAST_DAYS = 14
"""What was longer ago is left of the bars."""


def _move(desk: Desk, key: str) -> None:
    one = desk.state.job.of(Step).get(key)
    if one is None:
        return
    if one.done is not None:
        desk.say(f"{key} is done. e = edit")
        return
    today = desk.state.job.today
    new, says = (replace(one, began=today), "begun") if one.began is None else (replace(one, done=today), "done")
    if desk.act(f"{key} {one.what}: {says}", [edit(one, new)]):
        desk.done(f"{key} {says} today. u = undo")


def _back(desk: Desk, key: str) -> None:
    one = desk.state.job.of(Step).get(key)
    if one is None:
        return
    if one.began is None and one.done is None:
        desk.say(f"{key} is not begun: nothing before that")
        return
    new, says = (
        (replace(one, done=None), "not done") if one.done is not None else (replace(one, began=None), "not begun")
    )
    if desk.act(f"{key} {one.what}: {says}", [edit(one, new)]):
        desk.done(f"{key} is {says} now. u = undo")


def _late(desk: Desk, key: str) -> None:
    one = desk.state.job.of(Step).get(key)
    if one is None:
        return

    def told(text: str) -> None:
        try:
            lines = slip_words(desk.state.job, key, parse_count(text))
        except (BadValue, BadNetwork) as error:
            desk.say(str(error), bad=True)
            return
        desk.read(f"If {key} is late", "\n".join(lines))

    desk.ask(f"How many working days is {key} late?", told, about="A what-if: nothing is changed.")


def _coats(desk: Desk, key: str) -> None:
    steps = coat_steps(desk.state.job)
    if not steps:
        desk.say("No coat to add: set a wall's finish level and its drywall first, or they are all here.")
    elif desk.act("Add the coats of the drywall", [add(one, keep_tag=True) for one in steps], at=steps[0].tag):
        desk.done(f"Added {plural(len(steps), 'coat')} with drying days. u = undo")


class Steps(KindView):
    """Each step with its dates, its time to spare and its bar."""

    name = "steps"
    title = "Steps"
    about = (
        "The work in order, in the working days of whoever does it. Space = began today, then done. "
        f"v = what moves if a step is late. j = add the coats of joint compound. Bars: {LEGEND}."
    )
    first = "Look at the days of each step; e = edit. Space on the one that begins today."
    sheets = ("schedule", "calendar")
    kinds = (Step,)
    filters = ("all", "to do", "decides the end")
    keys = (
        Key("space", "Begun, done", _move),
        Key("backspace", "State before", _back),
        Key("v", "If late", _late),
        Key("j", "Coats", _coats, alone=True),
    )

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, step, start, finish, spare, bar, who; the bar's title has the weeks."""
        dated = calendar(state.job).dated.values()
        days = max(
            (len(day_short(state.job, day)) for one in dated for day in (one.start, one.finish)), default=DAY_CELLS
        )
        return (
            Column("tag", 5),
            Column("step", NAME_AND_DATES - 2 * days, grow=True),
            Column("start", days),
            Column("finish", days),
            Column("float", 5, right=True),
            Column(week_line(_bars(state))[:BAR_CELLS] or "weeks", BAR_CELLS),
            Column("who", 12),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """In the order of their tags."""
        dated = calendar(state.job).dated
        steps = list(state.job.of(Step).values())
        if chosen == "to do":
            return [one for one in steps if one.done is None]
        if chosen == "decides the end":
            return [one for one in steps if one.tag in dated and dated[one.tag].critical]
        return steps

    def line(self, state: State, row: Any) -> Line:
        """One step; `!` tells a booking that cannot hold, `*` what decides the end."""
        contact = state.job.of(Contact).get(row.who)
        who = contact.name if contact else ""
        one = calendar(state.job).dated.get(row.tag)
        if one is None:
            return Line((row.tag, row.what, "no date", "", "", calendar(state.job).wrong, who), "warn")
        sign = "! " if one.misses_booking_days and not one.done else "* " if one.critical else ""
        spare = "done" if one.done else str(one.total_float)
        bar = text_bar(_bars(state), row.tag)
        tone = "done" if one.done else "warn" if sign == "! " else ""
        days = (day_short(state.job, each) for each in (one.start, one.finish))
        cells = (row.tag, f"{sign}{row.what}", *days, spare, bar, who)
        return Line(cells, tone)

    def order(self, state: State, row: Any, column: int) -> Any:
        """Dates and days by value."""
        one = calendar(state.job).dated.get(row.tag)
        if column == 0:
            return tag_order(row.tag)
        if column in (2, 3, 4, 5):
            values = (one.start, one.finish, one.total_float, one.start) if one else (None,) * 4
            return values[column - 2]
        return (row.what if column == 1 else row.who).lower() or None

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """When it ends, and what decides it."""
        found = calendar(state.job)
        if found.wrong:
            return f"no dates: {found.wrong}"
        if not found.schedule.steps:
            return "no steps yet"
        chain = " ".join(found.schedule.chain)
        change = sum(bool(one.misses_booking_days) and not one.done for one in found.schedule.steps)
        bookings = f" · {plural(change, 'booking')} to change (!)" if change else ""
        return f"ends {echo_date(found.schedule.finish, state.job.manner.day_first)}{bookings} · decided by {chain}"


def _bars(state: State) -> Any:
    return bars(state.job, BAR_CELLS, since=state.job.today - timedelta(days=PAST_DAYS))
