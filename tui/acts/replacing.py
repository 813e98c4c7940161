"""Asking for the thing that takes the place of an old one, and doing the change."""

from __future__ import annotations

from typing import Any

from store.measure.dates import show_date
from store.measure.errors import StudbookError
from store.records.access import Visit
from store.records.equipment import Equipment
from store.records.field import fields_of
from store.records.wiring import Cable
from store.rules.service.outcome import what_follows
from store.rules.service.replacement import next_tag, panel_for, successor
from tui.acts.retiring import retire
from tui.view.desk import Desk
from tui.view.view import name_of


def change(desk: Desk, old_tag: str) -> None:
    """Ask why, then for the new thing; then retire the old one, put the new one in its place and log the opening."""
    old = desk.state.job.get(old_tag)
    if not isinstance(old, Equipment | Cable):
        desk.say(f"{old_tag} is neither equipment nor a cable: only those are changed for another", bad=True)
        return
    if old.retired is not None:
        after = f": {old.replaced_by} is in its place" if old.replaced_by else ""
        desk.say(f"{old_tag} was retired on {show_date(old.retired)}{after}", bad=True)
        return
    about = f"{old_tag} {name_of(old)} is retired and stays on record. Next comes the form of what takes its place."
    desk.ask(f"Why is {old_tag} changed?", lambda why: _form(desk, old, why), about=about)


def _form(desk: Desk, old: Equipment | Cable, why: str) -> None:
    cls = type(old)
    values = {field.key: getattr(successor(desk.state.job, old), field.key) for field in fields_of(cls)}

    told: list[tuple[str, str]] = []

    def save(typed: dict[str, Any]) -> str:
        new = cls(tag="", **typed)
        try:
            work = retire(old.tag, new, desk.who(), why)
            work(desk.state.job)
        except StudbookError as error:
            return str(error)
        before = desk.state.job
        panel = panel_for(before, old.tag)
        coming = next_tag(before, cls)
        if not desk.act(f"Change {old.tag} {name_of(old)} for {name_of(new)}", work, why, at=coming):
            return "It was not saved; what was typed is still here."
        after = desk.state.job
        tag = next((each for each in after.of(cls) if each not in before.of(cls)), "")
        visit = next((each for each in after.of(Visit) if each not in before.of(Visit)), "")
        logged = f"; the opening of {panel} is logged" if visit else ""
        desk.done(f"{old.tag} is retired, {tag} is in its place{logged}. u takes it back.")
        note = [f"{visit} in the log of {panel} says so: e there adds what was found.", ""] if visit else []
        told.append((f"{tag} is in the place of {old.tag}", "\n".join([*note, *what_follows(before, after, tag)])))
        return ""

    def tell() -> None:
        for title, text in told:
            desk.read(title, text)

    desk.fill_out(f"In the place of {old.tag} {name_of(old)}", cls, values, save, tell)
