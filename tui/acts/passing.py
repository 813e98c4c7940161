"""Moving on to the next stage; a reason is asked for where the gate leaves a choice."""

from __future__ import annotations

from store.book.changes import add
from store.records.whole import KINDS
from store.rules.gate.gate import Standing, passage
from tui.view.desk import Desk


def is_locked(now: Standing) -> bool:
    """True while no reason gets past what holds the next stage."""
    return bool(now.claimed) or any(hold.strict for hold in now.holds)


def gate_keys(desk: Desk) -> list[tuple[str, str]]:
    """What can be done at the gate as the job stands."""
    now, keys = desk.state.standing, []
    if any(each.kind in KINDS for each in desk.state.job.outside):
        keys.append(("m", "restore what was changed outside of Studbook"))
    if now.next is not None and not is_locked(now):
        keys.append(("y", f"move to {now.next}"))
    return keys


def move_on(desk: Desk) -> None:
    """Move to the next stage; with something open only for a reason."""
    now = desk.state.standing
    if now.next is None or is_locked(now):
        return
    if now.holds:
        desk.ask(f"Why move to {now.next} with these open?", lambda reason: _pass(desk, reason))
    else:
        _pass(desk, "")


def _pass(desk: Desk, reason: str) -> None:
    following = desk.state.standing.next
    if desk.act(f"Move to {following}", lambda job: [add(passage(job, desk.who(), reason, following))], reason):
        desk.say(f"Moved to {desk.state.standing.stage}. u = undo")
