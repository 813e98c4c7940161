"""A packet that comes back signed: what is written on its lines is typed once, and saved as one act."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Annotated, Any, cast

import msgspec
from msgspec.structs import replace

from store.book.changes import Change, edit, set_down
from store.book.pictures import look
from store.measure.dates import show_date
from store.records.base import Record
from store.records.field import F
from store.records.people import Contact, Handoff
from store.records.whole import Job
from store.rules.core.checks import Item
from store.rules.core.wording import plural
from store.rules.handoff.changes import Changed
from store.rules.handoff.packet import by_signature, open_of, signed_back
from store.rules.photo.pictures import pictures_named
from tui.view.desk import Desk

DITTO = '"'
"""Alone on a line it stands for the line above, as on paper."""
LINES = f"What is on its lines (empty: stays open; {DITTO}: as the line above)"


def sign_back(desk: Desk, handoff: Handoff, changed: Sequence[Changed]) -> None:
    """Open the lines of a packet, to be filled in from the signed sheet; one save closes all that has evidence.

    `changed` is what changed since it was given: of that nothing is filled in beforehand.
    """
    job = desk.state.job
    items = open_of(job, handoff.trade)
    signed = by_signature(job, handoff, changed)
    contact = job.of(Contact).get(handoff.contact)
    values: dict[str, Any] = {"by": contact.name if contact else "", "day": job.today, "notes": handoff.notes}
    values |= {_line(number): signed.get(item.key, "") for number, item in enumerate(items)}

    def save(typed: dict[str, Any]) -> str:
        if wrong := _wrong_day(handoff, typed["day"], job.today):
            return wrong
        written = repeated([typed[_line(number)] for number in range(len(items))])
        if written is None:
            return f"There is nothing above that {DITTO} could repeat."
        return _save(desk, replace(handoff, notes=typed["notes"]), typed, items, written)

    desk.fill_out(f"{handoff.tag} comes back signed", sheet_form(items), values, save)


def _save(desk: Desk, new: Handoff, typed: dict[str, Any], items: Sequence[Item], written: Sequence[str]) -> str:
    old = desk.state.job.of(Handoff).get(new.tag)
    if old is None:
        return f"{new.tag} is not there any more."

    evidence = dict(zip((item.key for item in items), written, strict=True))
    # A line was written about what it named then: what somebody changed since, nobody has seen.
    vouched = {item.key: item.check.vouches for item in items}

    def work(job: Job) -> Sequence[Change]:
        back = signed_back(job, new, typed["by"], typed["day"], evidence)
        closings = [replace(each, vouches=vouched[each.tag]) for each in back.closings]
        return [edit(old, back.handoff), *(set_down(job, each) for each in closings)]

    before = len(open_of(desk.state.job, new.trade))
    if not desk.act(f"{new.tag} signed back by {typed['by']}", work):
        return "It was not saved; what was typed is still here."
    left = len(open_of(desk.state.job, new.trade))
    lost = [file for text in evidence.values() for file in pictures_named(text) if look(file, desk.folder).why]
    missing = f" No such picture: {', '.join(dict.fromkeys(lost))}." if lost else ""
    closed = plural(before - left, "check")
    desk.say(f"{new.tag} is signed back; {closed} closed, {left} open.{missing} u takes it back.", bad=bool(lost))
    return ""


def sheet_form(items: Sequence[Item]) -> type[Record]:
    """A form with who signed, when, and one line for each check, in the order of the sheet."""
    lines = [
        (_line(number), Annotated[str, F(item.key, _help(item), group=LINES if number == 0 else "")], "")
        for number, item in enumerate(items)
    ]
    signed = [("by", Annotated[str, F("signed by", must=True)]), ("day", Annotated[date, F("signed on")])]
    made = msgspec.defstruct("SignedSheet", [*signed, *lines], bases=(Record,), frozen=True, kw_only=True)
    return cast("type[Record]", made)


def repeated(lines: Sequence[str]) -> list[str] | None:
    """The lines with each ditto mark replaced by the line above; None where there is none."""
    found: list[str] = []
    for text in lines:
        if text == DITTO and (not found or not found[-1]):
            return None
        found.append(found[-1] if text == DITTO else text)
    return found


def _line(number: int) -> str:
    return f"line{number}"


def _help(item: Item) -> str:
    return f"{item.check.what}. Wanted: {item.check.wants}" if item.check.wants else item.check.what


def _wrong_day(handoff: Handoff, day: date, today: date) -> str:
    if day > today:
        return f"It cannot be signed on {show_date(day)}, which has not come."
    if handoff.given is not None and day < handoff.given:
        return f"It cannot be signed on {show_date(day)}, before it was given on {show_date(handoff.given)}."
    return ""
