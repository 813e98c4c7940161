"""Finding anything in the job by its words, and going to it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from textual.app import App

from store.records.whole import Job
from store.rules.about.record import about
from store.rules.find.search import find
from tui.widgets.find import FindDialog


def find_anything(app: App[Any], job: Job, go_to: Callable[[str], None]) -> None:
    """Ask for words; what is taken from what has them is gone to."""

    def way(tag: str) -> str:
        """How it is reached, for what stands on the wall; for the rest what it is."""
        known = about(job, tag)
        if known is None:
            return ""
        return "\n".join(known.access.brief) if known.access is not None else known.record.one

    def taken(tag: str | None) -> None:
        if tag is not None:
            go_to(tag)

    app.push_screen(FindDialog(lambda words: find(job, words), way), taken)
