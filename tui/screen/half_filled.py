"""On the next start: the forms that were half filled when a terminal went away, offered again."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING

from store.book import drafts
from store.book.copies import when_made
from store.book.drafts import EDIT, LINES, NEW, Kept
from store.records.whole import KINDS
from tui.view.view import name_of
from tui.widgets.dialogs import Pick, ReadPage

if TYPE_CHECKING:
    from textual.screen import Screen

    from tui.screen.desk import WorkDesk


def offer(screen: Screen[None], desk: WorkDesk) -> None:
    """Ask about each of them in turn."""
    waiting = [each for each in drafts.left(desk.book.path) if each.draft.kind in KINDS and each.draft.typed]

    def ask_next() -> None:
        if waiting:
            _ask(screen, desk, waiting.pop(0), ask_next)

    ask_next()


def _ask(screen: Screen[None], desk: WorkDesk, kept: Kept, then: object) -> None:
    draft = kept.draft
    choices = [("open", "finish filling it in"), ("later", "keep it for later"), ("drop", "throw it away")]
    if _record_gone(desk, kept):
        choices[0] = ("read", "read it: its record was deleted")

    def chosen(which: str | None) -> None:
        if which == "drop":
            with contextlib.suppress(OSError):
                drafts.drop(kept.path)
        elif which == "open":
            open_again(screen, desk, kept)
            return  # one form at a time; the others are offered on the next start
        elif which == "read":
            lines = "\n".join(f"{key}: {text}" for key, text in draft.typed.items())
            screen.app.push_screen(ReadPage(draft.title, lines))
            return
        if callable(then):
            then()

    screen.app.push_screen(Pick(f"Half filled in, {when_made(draft.at)}: {draft.title}", choices), chosen)


def _record_gone(desk: WorkDesk, kept: Kept) -> bool:
    tag = kept.draft.tag
    return kept.draft.way == EDIT and tag != "job" and desk.state.job.get(tag) is None


def open_again(screen: Screen[None], desk: WorkDesk, kept: Kept) -> None:
    """Open the form of a draft with what was typed; one that only its own key opens is filled in when it is opened."""
    draft = kept.draft
    desk.pending[draft.title, draft.kind] = kept
    if draft.way == NEW:
        desk.fill_in(KINDS[draft.kind], {})
    elif draft.way == LINES:
        from tui.acts.many import add_many  # brings the reader of typed lines

        add_many(screen.app, desk, [KINDS[draft.kind]], lambda cls: {}, desk.pending)
    elif draft.way == EDIT:
        record = desk.state.job.settings if draft.tag == "job" else desk.state.job.get(draft.tag)
        if record is not None:
            desk.pending[f"{record.tag}  {name_of(record)}", draft.kind] = kept
            desk.edit(record)
    else:
        desk.say(f"{draft.title}: what was typed is filled in again when you open that form")
