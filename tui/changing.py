"""Asking for the thing that takes the place of an old one, and doing the change."""

from __future__ import annotations

from typing import Any

from store.measure.errors import StudbookError
from store.records.equipment import Equipment
from store.records.field import fields_of
from store.records.wiring import Cable
from store.rules.retire import panel_for, successor
from tui.retiring import retire
from tui.views.base import Desk, name_of


def change(desk: Desk, old_tag: str) -> None:
    """Ask why, then for the new thing; then retire the old one, put the new one in its place and log the opening."""
    old = desk.state.job.get(old_tag)
    if not isinstance(old, Equipment | Cable):
        desk.say(f"{old_tag} is neither equipment nor a cable: only those are changed for another", bad=True)
        return
    about = f"{old_tag} {name_of(old)} is retired and stays on record. Next comes the form of what takes its place."
    desk.ask(f"Why is {old_tag} changed?", lambda why: _form(desk, old, why), about=about)


def _form(desk: Desk, old: Equipment | Cable, why: str) -> None:
    cls = type(old)
    values = {field.key: getattr(successor(desk.state.job, old), field.key) for field in fields_of(cls)}

    def save(typed: dict[str, Any]) -> str:
        new = cls(tag="", **typed)
        try:
            work = retire(old.tag, new, desk.who(), why)
            work(desk.state.job)
        except StudbookError as error:
            return str(error)
        known = set(desk.state.job.of(cls))
        panel = panel_for(desk.state.job, old.tag)
        if not desk.act(f"Change {old.tag} {name_of(old)} for {name_of(new)}", work, why):
            return "It was not saved; what was typed is still here."
        tag = next((each for each in desk.state.job.of(cls) if each not in known), "")
        logged = f"; the opening of {panel} is logged" if panel else ""
        desk.done(f"{old.tag} is retired, {tag} is in its place{logged}. u takes it back.")
        return ""

    desk.fill_out(f"In the place of {old.tag} {name_of(old)}", cls, values, save)
