"""A packet that comes back signed: what is written on its lines is typed once, and saved as one act."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from msgspec.structs import replace

from store.book.changes import Change, edit
from store.measure.errors import BadValue
from store.records.people import Contact, Handoff
from store.records.whole import Job
from store.rules.core.checks import Item
from store.rules.core.proof import FOR_MANY, kind_meant
from store.rules.core.wording import date_text, plural
from store.rules.handoff.changes import Changed
from store.rules.handoff.packet import by_signature, open_of, signed_back
from tui.acts.closings import closing_changes
from tui.acts.sheet_form import DITTO, line_of, sheet_form
from tui.acts.sign_off import judged
from tui.view.desk import Desk

MOST_TOLD = 5
"""Lines that are no proof, told at once."""


def sign_back(desk: Desk, handoff: Handoff, changed: Sequence[Changed]) -> None:
    """Open the lines of a packet, to be filled in from the signed sheet; one save closes all that has evidence.

    `changed` is what changed since it was given: of that nothing is filled in beforehand.
    """
    job = desk.state.job
    items = open_of(job, handoff.trade)
    signed = by_signature(job, handoff, changed)
    contact = job.of(Contact).get(handoff.contact)
    values: dict[str, Any] = {"by": contact.name if contact else "", "day": job.today, "notes": handoff.notes}
    values |= {line_of(number): signed.get(item.key, "") for number, item in enumerate(items)}

    def save(typed: dict[str, Any]) -> str:
        if wrong := _wrong_day(job, handoff, typed["day"]):
            return wrong
        written = repeated([typed[line_of(number)] for number in range(len(items))])
        if written is None:
            return f"There is no line above for {DITTO} to repeat."
        return _save(desk, replace(handoff, notes=typed["notes"]), typed, items, written)

    desk.fill_out(f"{handoff.tag} comes back signed", sheet_form(items), values, save)


def _save(desk: Desk, new: Handoff, typed: dict[str, Any], items: Sequence[Item], written: Sequence[str]) -> str:
    old = desk.state.job.of(Handoff).get(new.tag)
    if old is None:
        return f"{new.tag} was deleted meanwhile."

    evidence, wrong = {}, []
    for number, (item, words) in enumerate(zip(items, written, strict=True)):
        try:
            if typed[line_of(number)] == DITTO and kind_meant(item.check, words) not in FOR_MANY:
                raise BadValue(f"a reading is for one item, {item.key}. Enter its own.")
            evidence[item.key] = judged(desk, item.check, words, typed["by"], typed["day"])
        except BadValue as error:
            wrong.append(error.sentence)
    if wrong:
        return "\n".join(wrong[:MOST_TOLD])
    # A line was written about what it named then: what somebody changed since, nobody has seen.
    vouched = {item.key: item.check.vouches for item in items}

    def work(job: Job) -> Sequence[Change]:
        back = signed_back(job, new, typed["by"], typed["day"], evidence)
        closings = [replace(each, vouches=vouched[each.tag]) for each in back.closings]
        return [edit(old, back.handoff), *closing_changes(job, closings)]

    before = len(open_of(desk.state.job, new.trade))
    if not desk.act(f"{new.tag} signed back by {typed['by']}", work):
        return "Not saved. What you typed is still here."
    left = len(open_of(desk.state.job, new.trade))
    desk.done(f"Signed back {new.tag}: {plural(before - left, 'item')} signed off, {left} open. u = undo")
    return ""


def repeated(lines: Sequence[str]) -> list[str] | None:
    """The lines with each ditto mark replaced by the line above; None where there is none."""
    found: list[str] = []
    for text in lines:
        if text == DITTO and (not found or not found[-1]):
            return None
        found.append(found[-1] if text == DITTO else text)
    return found


def _wrong_day(job: Job, handoff: Handoff, day: date) -> str:
    if day > job.today:
        return f"Signed back: {date_text(job, day)} is still to come."
    if handoff.given is not None and day < handoff.given:
        return f"Signed back: {date_text(job, day)} is before the packet was sent, {date_text(job, handoff.given)}."
    return ""
