"""Handoffs: the packets that were given, whether they are ready to give, and signing them back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from store.book.changes import Change, edit, set_down
from store.records.people import Handoff
from store.records.whole import Job
from store.rules.handoff import packet, signed_back
from store.rules.wording import plural
from tui.views.base import Desk, Key, KindView, State


def _give(desk: Desk, key: str) -> None:
    job = desk.state.job
    one = job.of(Handoff).get(key)
    if one is None:
        return
    if missing := packet(job, one.trade, found=desk.state.found).missing:
        desk.read(f"{key} is still a draft", "\n".join(_ready(each.what, each.why) for each in missing))
        return
    point = max(job.marks.values(), default=0)
    new = Handoff(tag=key, notes=one.notes, trade=one.trade, contact=one.contact, given=job.today, point=point)
    if desk.act(f"Give {key} to the {one.trade}", [edit(one, new)]):
        desk.say(f"{key} is noted as given today, at change {point}. u takes it back.")


def _ready(what: str, why: str) -> str:
    return f"{what} ({why})" if why else what


def _sign(desk: Desk, key: str) -> None:
    one = desk.state.job.of(Handoff).get(key)
    if one is None or one.signed is not None:
        desk.say(f"{key} is signed back already" if one else "there is no packet here")
        return
    handoff = one

    def done(name: str) -> None:
        def changes(job: Job) -> Sequence[Change]:
            back = signed_back(job, handoff, name, job.today, {})
            return [edit(handoff, back.handoff), *(set_down(job, each) for each in back.closings)]

        before = sum(item.open for item in desk.state.standing.items)
        if desk.act(f"{key} signed back by {name}", changes):
            after = sum(item.open for item in desk.state.standing.items)
            desk.say(f"{key} is signed back; {plural(before - after, 'check')} closed. u takes it back.")

    back = signed_back(desk.state.job, handoff, "", desk.state.job.today, {})
    about = f"Closes {plural(len(back.closings), 'check')} that ask for no evidence."
    if back.still_open:
        about += f" {len(back.still_open)} stay open until their evidence is noted in Rough-in."
    desk.ask(f"Who signs {key} back?", done, about=about)


class Handoffs(KindView):
    """The packets given to the trades."""

    name = "handoffs"
    title = "Handoffs"
    about = (
        "A packet for each trade, printed with `studbook print packet-TRADE`. t notes it as given today, once "
        "everything it waits for is there; c has it signed back, which closes the checks that ask for no evidence."
    )
    kinds = (Handoff,)
    keys = (Key("t", "Given today", _give), Key("c", "Signed back", _sign))

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many are out and how many came back."""
        signed = sum(one.signed is not None for one in state.job.of(Handoff).values())
        return f"{plural(len(rows), 'packet')}, {signed} signed back"
