"""Moving on to the next stage; a reason is asked for where the gate leaves a choice."""

from __future__ import annotations

from collections.abc import Callable

from store.book.changes import add
from store.records.people import Stage
from store.rules.gate.gate import Standing, passage
from tui.view.desk import Desk


def is_locked(now: Standing) -> bool:
    """True while no reason gets past what holds the next stage."""
    return bool(now.claimed) or any(hold.strict for hold in now.holds)


def move_on(desk: Desk, top: Callable[[], str | None] = lambda: None) -> None:
    """Move to the next stage; with something open only for a reason. The cursor goes to the row that `top` gives then:
    what the stage after it asks for is another list."""
    now = desk.state.standing
    following = now.next  # what was announced: nothing else is passed, whatever happens meanwhile
    if following is None or is_locked(now):
        return
    if now.holds:
        desk.ask(f"Why move to {following} with these open?", lambda reason: _pass(desk, following, reason, top))
    else:
        _pass(desk, following, "", top)


def _pass(desk: Desk, following: Stage, reason: str, top: Callable[[], str | None]) -> None:
    if desk.act(f"Move to {following}", lambda job: [add(passage(job, desk.who(), reason, following))], reason):
        desk.look_again(top())
        desk.say(f"Moved to {desk.state.standing.stage}. u = undo")
