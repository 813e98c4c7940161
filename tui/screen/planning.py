"""A new job from a dozen answers: the form that asks, and what does not fit told under it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any, Literal

from textual.app import App

from store.book.book import Book
from store.measure.errors import StudbookError
from templates.starters.first_plan import Questions, asked_of, manner_of, planned, usual
from tui.forms.record_form import FormSpec, RecordForm
from tui.shared.who import who
from tui.widgets.dialogs import Pick

REGIONS = (("us", "feet and inches, 120 V"), ("metric", "millimeters, 230 V"))


def ask_plan(app: App[Any], path: Path, then: Callable[[Path], None]) -> None:
    """Ask the region, then the rest."""

    def chosen(region: str | None) -> None:
        if region is not None:
            _ask(app, "us" if region == "us" else "metric", path, then)

    app.push_screen(Pick("Units and voltage of the job", REGIONS), chosen)


def _ask(app: App[Any], place: Literal["us", "metric"], path: Path, then: Callable[[Path], None]) -> None:
    """Ask, lay the wall out, and make the job; `then` opens it."""
    today = date.today()

    def save(values: dict[str, Any]) -> str:
        try:
            Book.create(path, planned(asked_of(values, place), today), who(), "Start the job from a first plan").close()
        except StudbookError as error:
            return error.sentence
        return ""

    def left(saved: bool | None) -> None:
        if saved:
            then(path)

    title = "First plan: everything in it is a proposal. Change it, or agree to it"
    spec = FormSpec(
        title, Questions, usual(place), manner_of(place, today), save, lambda field: (), first="name", new=True
    )
    app.push_screen(RecordForm(spec, lambda kind, done: None), left)
