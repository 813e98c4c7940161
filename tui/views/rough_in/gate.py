"""The gate: what holds the next stage, the gravest first, each with its own way out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

import msgspec

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.whole import KINDS, Removed
from store.rules.agenda.due import Place
from store.rules.agenda.way_out import LATE, way_out
from store.rules.core.taken_off import taken_off
from store.rules.core.wording import date_text, few_of, plural
from store.rules.gate.by_trade import aspects, by_trade, trade_title
from store.rules.gate.gate import Hold, Standing, held_counts, item_line, outside_line
from tui.acts.outside import settle_outside
from tui.acts.passing import is_locked, move_on
from tui.acts.places import go_to_place
from tui.shared.bars import bar
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, View
from tui.widgets.record_table import Column, Line

NO_OTHER_WAY = "Sign off each with proof, or say why it is not needed. There is no other way."
WITH_A_REASON = "You can move on with these open if you write down why."


class Row(msgspec.Struct, frozen=True):
    """One line of the gate."""

    key: str
    sign: str
    what: str
    how: str
    """The way out."""
    place: Place | None = None
    tone: str = ""
    count: str = ""
    """How far it is, where it is counted: a bar with its figures."""
    about: str = ""
    """All of it, for its page."""


def _rows(state: State) -> Iterator[Row]:
    """What is claimed, Stops, what was done outside, items by trade, what else holds, what was removed from the "
    "list."""
    now = state.standing
    if now.claimed:
        yield Row("claimed", "■", f"{now.claimed} is recorded, not earned", now.unearned, tone="stop")
    yield from _stops(state, now)
    yield from _outside(state)
    yield from _others(state, now)
    yield from _trades(now)
    if now.found_after:
        keys = [each.key for each in now.found_after]
        about = "\n".join(item_line(each) for each in now.found_after)
        found = Place("items", keys[0], subset="open only")
        yield Row("after", "□", f"Found after close-in: {few_of(keys)}", "Sign off each", found, "warn", "", about)
    if off := taken_off(state.job):
        about = "\n".join(f"{each.tag} {each.what}: {each.reason} ({each.by}, {_day(state, each)})" for each in off)
        what = f"{plural(len(off), 'item')} removed from the list: {few_of(each.tag for each in off)}"
        yield Row("off", "–", what, "Enter = who, when and why", tone="muted", about=about)
    if not now.holds and now.next is not None and not now.claimed:
        yield Row("ready", "✓", f"Ready for {now.next}", "y = move on", tone="done")
    if now.next is None:
        yield Row("last", "✓", "In use: no stage after this one", state.upkeep, tone="done")


def _day(state: State, one: Removed) -> str:
    return date_text(state.job, date.fromisoformat(one.at[:10]))


def _stops(state: State, now: Standing) -> Iterator[Row]:
    for hold in now.holds:
        if hold.kind == "stop" and (one := state.finding(hold.key)) is not None:
            yield Row(
                hold.key,
                "■",
                one.headline,
                one.do,
                Place("problems", hold.key, subset="stop"),
                "stop",
                about=one.why,
            )


def _outside(state: State) -> Iterator[Row]:
    for number, each in enumerate(state.job.outside):
        mends = each.kind in KINDS
        how = "v = restore it or keep it" if mends else "studbook verify says how to go on"
        yield Row(f"outside:{number}", "■", outside_line(each), how, tone="stop")


def _trades(now: Standing) -> Iterator[Row]:
    """The items of each trade: how many are done of how many, and what is still to do."""
    for one in by_trade(now):
        left, total = len(one.open), len(one.items)
        count = f"{bar(one.done, total, 3)} {one.done} of {total}"
        place = Place("items", one.open[0].key if left else "", f"trade:{one.trade}", "open only" if left else "")
        about = "\n".join(f"{item_line(each)}\n  Needs: {each.check.wants or 'who saw what'}" for each in one.open)
        what = f"{trade_title(one.trade)}: {plural(left, 'item') + ' open' if left else 'all done'}"
        how = aspects(one.open) if left else ""
        yield Row(f"trade:{one.trade}", "□" if left else "✓", what, how, place, "" if left else "done", count, about)


def _others(state: State, now: Standing) -> Iterator[Row]:
    """What else holds; equipment of which the same is missing on one line, as each by itself is cut before its tag."""
    others = [each for each in now.holds if each.kind == "other"]
    things = [each for each in others if each.key in state.job.of(Equipment)]
    if len(things) > 1:
        how, _ = way_out(state.job, now, things[0])
        tags = [each.key for each in things]
        what = f"{'Not on site' if now.next in LATE else 'No sizes entered'} ({len(tags)}): {few_of(tags)}"
        yield Row("things", "□", what, how, Place("equipment", tags[0]), about="\n".join(each.what for each in things))
        others = [each for each in others if each not in things]
    yield from (_other(state, now, each) for each in others)


def _other(state: State, now: Standing, hold: Hold) -> Row:
    how, place = way_out(state.job, now, hold)
    return Row(hold.key, "□", hold.what, how, place)


def _open(desk: Desk, key: str) -> None:
    row = next((each for each in _rows(desk.state) if each.key == key), None)
    if row is None:
        return
    if row.place is not None:
        go_to_place(desk, row.place)
    else:
        desk.read(row.what, "\n\n".join(each for each in (row.about, row.how) if each) or row.what)


def _move_on(desk: Desk, key: str) -> None:
    now = desk.state.standing
    if is_locked(now):
        words = (
            f"{now.next} locked: {held_counts(now.holds)}" if now.holds else f"{now.claimed} is recorded, not earned"
        )
        desk.say(f"{words}. A reason does not unlock it.", bad=True)
    else:
        move_on(desk, lambda: next((each.key for each in _rows(desk.state)), None))


def _outside_key(desk: Desk, key: str) -> None:
    if any(each.kind in KINDS for each in desk.state.job.outside):
        settle_outside(desk, desk.book)
    else:
        desk.say("Nothing was changed outside of Studbook")


class Gate(View):
    """What holds the next stage."""

    name = "gate"
    title = "Gate"
    follows = "Counting what is open"
    about = (
        "The gate: what locks the next stage. Stops first, then the rough-in items by trade with how many are done. "
        "y = move to the next stage once it is unlocked; before the other "
        f"stages also with a written reason. Before Drywall: {NO_OTHER_WAY} v = restore or keep what was changed "
        "outside of Studbook."
    )
    first = "Enter on the top line: it goes to what has to be done."
    keys = (Key("enter", "Go there", _open), Key("y", "Move on", _move_on), Key("v", "Changed outside", _outside_key))

    def columns(self, state: State) -> tuple[Column, ...]:
        """Sign, what holds, how far, the way out."""
        return (Column("", 1), Column("holds", 60), Column("done", 13), Column("way out", 20, grow=True))

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """The gravest first."""
        return list(_rows(state))

    def key(self, row: Any) -> str:
        """The line's name."""
        return str(row.key)

    def subject(self, state: State, key: str) -> str:
        """The first thing that a Stop names, or what else holds."""
        return key.partition(":")[2].partition(",")[0] if ":" in key else key.partition("/")[0]

    def words(self, row: Any) -> str:
        """All that is shown of it."""
        return f"{row.what} {row.how}".lower()

    def line(self, state: State, row: Any) -> Line:
        """One line."""
        return Line((row.sign, row.what, row.count, row.how), row.tone)

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many are done, and whether there is a choice."""
        now = state.standing
        done, total = len(now.items) - len(now.open), len(now.items)
        signed = f"{done} of {total} items done"
        if now.next is None:
            return signed
        if is_locked(now):
            return f"{signed}. Each needs proof or a reason. There is no other way."
        return f"{signed}. {WITH_A_REASON if now.holds else f'y = move to {now.next}'}"

    def record(self, state: State, key: str) -> Record | None:
        """A line is worked out, and is no record."""
        return None

    def page(self, state: State, key: str) -> tuple[str, str] | None:
        """What a line is about, and how to get past it."""
        row = next((each for each in _rows(state) if each.key == key), None)
        if row is None:
            return None
        ways = NO_OTHER_WAY if is_locked(state.standing) else WITH_A_REASON if state.standing.holds else ""
        return row.what, "\n\n".join(each for each in (row.how, row.about, ways) if each)

    def opened(self, desk: Desk, key: str) -> None:
        """Enter, or a second click: to the list."""
        _open(desk, key)
