"""Asking for the thing that takes the place of an old one, and doing the change."""

from __future__ import annotations

from typing import Any

from store.measure.errors import StudbookError
from store.records.access import Visit
from store.records.equipment import Equipment
from store.records.field import fields_of
from store.records.gate import Passage
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.core.taken_off import reopened
from store.rules.core.wording import date_text
from store.rules.gate.gate import CLOSED
from store.rules.service.outcome import what_follows
from store.rules.service.replacement import Exchange, exchange, next_tag, panel_for, successor
from tui.acts.retiring import retire
from tui.view.desk import Desk
from tui.view.view import name_of


def change(desk: Desk, old_tag: str) -> None:
    """Ask why, then for the new thing; then retire the old one, put the new one in its place and log the opening."""
    old = desk.state.job.get(old_tag)
    if not isinstance(old, Equipment | Cable):
        desk.say(f"{old_tag} is not equipment or a cable. You can replace only those.", bad=True)
        return
    if old.retired is not None:
        after = f"; {old.replaced_by} replaced it" if old.replaced_by else ""
        desk.say(f"{old_tag} was retired {date_text(desk.state.job, old.retired)}{after}", bad=True)
        return
    about = f"{old_tag} {name_of(old)} is retired and kept on file. Next: the form for its replacement."
    desk.ask(f"Why replace {old_tag}?", lambda why: _form(desk, old, why), about=about)


def _form(desk: Desk, old: Equipment | Cable, why: str) -> None:
    cls = type(old)
    values = {field.key: getattr(successor(desk.state.job, old), field.key) for field in fields_of(cls)}

    told: list[tuple[str, str]] = []

    def save(typed: dict[str, Any]) -> str:
        new = cls(tag="", **typed)
        before = desk.state.job
        try:
            work = retire(old.tag, new, desk.who(), why)
            plan = exchange(before, old.tag, new, desk.who(), why)
        except StudbookError as error:
            return error.sentence
        # The reason was given before anybody knew what opens behind drywall: then that is told first, and asked again.
        early, done = _opens_behind_drywall(before, plan), f"Replace {old.tag} {name_of(old)} with {name_of(new)}"
        panel = panel_for(before, old.tag)
        coming = next_tag(before, cls)
        if not desk.act(done, work, "" if early else why, at=coming, offered=why):
            return "Not saved. What you typed is still here."
        after = desk.state.job
        tag = next((each for each in after.of(cls) if each not in before.of(cls)), "")
        visit = next((each for each in after.of(Visit) if each not in before.of(Visit)), "")
        logged = f", logged a visit to {panel}" if visit else ""
        desk.done(f"Replaced {old.tag} with {tag}{logged}. u = undo")
        note = [f"{visit} in the log of {panel} records it. Add what you found there: e = edit", ""] if visit else []
        told.append((f"{tag} replaced {old.tag}", "\n".join([*note, *what_follows(before, after, tag)])))
        return ""

    def tell() -> None:
        for title, text in told:
            desk.read(title, text)

    desk.fill_out(f"Replacement for {old.tag} {name_of(old)}", cls, values, save, tell)


def _opens_behind_drywall(job: Job, plan: Exchange) -> bool:
    """Whether an exchange opens an item that was signed off before the wall was covered."""
    covered = any(each.stage == CLOSED for each in job.of(Passage).values())
    after = job
    for each in (plan.new, *plan.following, plan.old):
        after = after.having(each)
    return covered and bool(reopened(job, after))
