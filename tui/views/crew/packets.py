"""Handoffs: the packets of the trades, whether they are ready, what to tell since they were given, who signed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from store.book.changes import edit
from store.measure.counts import plural, some
from store.records.people import Contact, Handoff
from store.records.whole import Job
from store.rules.core.wording import date_text
from store.rules.handoff.changes import Changed
from store.rules.handoff.packet import Packet, by_signature, signed_back
from tui.acts.signing import sign_back
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, KindView, tag_order
from tui.widgets.record_table import Column, Line


def told(state: State, one: Handoff) -> tuple[Changed, ...]:
    """What changed for a trade since this packet was given; nothing while it is not, or when a newer one is out."""
    if one.given is None:
        return ()
    found = state.packet(one.trade)
    return found.changed if found.given is not None and found.given.tag == one.tag else ()


def stands(state: State, one: Handoff) -> str:
    """How a packet stands, in a few words; `!` before what must be done."""
    changed, found = told(state, one), state.packet(one.trade)
    if one.signed is not None:
        since = f", {len(changed)} changed since" if changed else ""
        return f"{'! ' if changed else ''}signed {date_text(state.job, one.signed)}{since}"
    if changed:
        return f"! OUT OF DATE: {plural(len(changed), 'change')} to send"
    if one.given is not None:
        newer = found.given is not None and found.given.tag != one.tag
        return f"replaced by {found.given.tag}" if newer and found.given else "sent, nothing changed since"
    return f"draft: {plural(len(found.missing), 'thing')} missing" if found.missing else "ready to send"


def packet_words(state: State, one: Handoff) -> str:
    """How a packet stands, in full: what to tell, what is missing, what signing it back closes."""
    found = state.packet(one.trade)
    lines = [f"{one.tag}, {one.trade}, {_name(state.job, one)}: {stands(state, one).removeprefix('! ')}"]
    if changed := told(state, one):
        lines += ["", "Changed for them. Print the packet again:", *(f"  {each.says}" for each in changed)]
    if one.given is None and found.missing:
        lines += [
            "",
            "A draft until these are done:",
            *(f"  {_ready(each.what, each.why)}" for each in found.missing),
        ]
    if one.signed is None:
        lines += ["", *_closing_words(state, one)]
    return "\n".join([*lines, *_before_words(found)])


def _closing_words(state: State, one: Handoff) -> list[str]:
    words = by_signature(state.job, one, told(state, one))
    back = signed_back(state.job, one, "", state.job.today, words)
    if not back.closings and not back.still_open:
        return ["No open rough-in items for them."]
    closes = ", ".join(each.tag for each in back.closings)
    lines = [f"Signing it back signs off: {closes}." if closes else "Signing it back signs off no items by itself."]
    if back.still_open:
        lines.append(f"{plural(len(back.still_open), 'item')} of theirs need proof. c = enter it from the signed sheet")
        lines += [f"  {each.key}: {each.check.wants or each.check.what}" for each in back.still_open]
    return lines


def _before_words(found: Packet) -> list[str]:
    people = [("before them", each) for each in found.before] + [("after them", each) for each in found.after]
    return ["", *(f"{when}: {each.tag} {each.name} {each.phone}".rstrip() for when, each in people)] if people else []


def _ready(what: str, why: str) -> str:
    return f"{what} ({why})" if why else what


def _name(job: Job, one: Handoff) -> str:
    contact = job.of(Contact).get(one.contact)
    return contact.name if contact else "no name"


def _look(desk: Desk, key: str) -> None:
    one = desk.state.job.of(Handoff).get(key)
    if one is not None:
        desk.read(f"Packet {key}", packet_words(desk.state, one))


def _print(desk: Desk, key: str) -> None:
    one = desk.state.job.of(Handoff).get(key)
    desk.print(f"packet-{one.trade}" if one is not None else "")


def _give(desk: Desk, key: str) -> None:
    job = desk.state.job
    one = job.of(Handoff).get(key)
    if one is None:
        return
    if one.signed is not None:
        desk.say(f"{key} is signed back. a = add the next packet", bad=True)
        return
    if missing := desk.state.packet(one.trade).missing:
        desk.read(f"{key} is still a draft", "\n".join(_ready(each.what, each.why) for each in missing))
        return
    point = max(job.marks.values(), default=0)
    new = Handoff(tag=key, notes=one.notes, trade=one.trade, contact=one.contact, given=job.today, point=point)
    if desk.act(f"Send {key} to the {one.trade}", [edit(one, new)]):
        desk.done(f"Sent {key} to the {one.trade} today. u = undo")


def _sign(desk: Desk, key: str) -> None:
    one = desk.state.job.of(Handoff).get(key)
    if one is None or one.signed is not None:
        desk.say(f"{key} is signed back already" if one else "no packet here")
        return
    sign_back(desk, one, told(desk.state, one))


class Handoffs(KindView):
    """The packets of the trades."""

    name = "handoffs"
    title = "Packets"
    about = (
        "A packet for each trade. a = add  P = print. v = what it waits for, or what is new for them "
        "because it changed since they got it. Space = sent today, once everything it waits for is there. "
        "c = enter the signed sheet line by line and sign off those items in one act."
    )
    first = "a = add a packet for a trade. v = what it still waits for."
    kinds = (Handoff,)
    keys = (
        Key("v", "Status", _look),
        Key("P", "Print it", _print, alone=True),
        Key("space", "Sent today", _give),
        Key("c", "Signed back", _sign),
    )

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, trade, contact, how it stands, the days."""
        return (
            Column("tag", 5),
            Column("trade", 11),
            Column("contact", 16, grow=True),
            Column("status", 26, grow=True),
            Column("sent", 11),
        )

    def line(self, state: State, row: Any) -> Line:
        """One packet; what is out of date stands out."""
        how = stands(state, row)
        given = date_text(state.job, row.given) if row.given else ""
        tone = "warn" if how.startswith("!") else "done" if row.signed else ""
        return Line((row.tag, row.trade, _name(state.job, row), how, given), tone)

    def order(self, state: State, row: Any, column: int) -> Any:
        """Days by date, the rest by what is shown."""
        if column == 0:
            return tag_order(row.tag)
        if column == 4:
            return row.given.toordinal() if row.given else None
        return self.line(state, row).cells[column].lower() or None

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many are out, came back, and are out of date."""
        packets = state.job.of(Handoff).values()
        signed = sum(one.signed is not None for one in packets)
        stale = sum(bool(told(state, one)) for one in packets)
        back = f", {signed} signed back" if signed else ""
        return some(len(rows), "packet") + back + (f", {stale} out of date" if stale else "")
