"""Printing from the screen: pick a sheet, it is made beside the work, and it is said where it went."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from store.measure.errors import StudbookError
from templates.sheets.catalogue import SHEETS, make, usual_form
from templates.sheets.write import NotOurs, target, write_sheet
from tui.cli_paper import context_of
from tui.widgets.dialogs import Confirm

if TYPE_CHECKING:
    from textual.app import App

    from tui.desk import WorkDesk


def print_sheet(app: App[Any], desk: WorkDesk) -> None:
    """Ask which sheet, and print it into the folder of the job's file."""
    choices = [(name, f"{name}: {sheet.title}") for name, sheet in SHEETS.items()]
    choices += [
        (f"{name}.{form}", f"{name}: {sheet.title}, as {form}")
        for name, sheet in SHEETS.items()
        for form in list(sheet.makers)[1:]
    ]
    desk.pick("Print what?", choices, lambda chosen: _begin(app, desk, *chosen.split(".")))


def _begin(app: App[Any], desk: WorkDesk, name: str, form: str = "", *, force: bool = False) -> None:
    """Make and write the sheet in a thread; the job never changes, so the work goes on meanwhile."""
    book, job = desk.book, desk.book.job
    context, form = context_of(book), form or usual_form(name)
    path = target(Path(f"{book.path.parent}/"), book.path.stem, name, form)
    desk.say(f"Printing {name} ...")

    def done(words: str, bad: bool) -> None:
        desk.say(words, bad=bad)

    def ask_over(error: StudbookError) -> None:
        def over(yes: bool | None) -> None:
            if yes:
                _begin(app, desk, name, form, force=True)
            else:
                desk.say(f"{path.name} was left as it is")

        app.push_screen(Confirm(f"Write over {path.name}?", str(error)), over)

    def work() -> None:
        try:
            text = make(name, form, job, context)
            written = write_sheet(path, text, form, force=force)
        except NotOurs as error:
            app.call_from_thread(ask_over, error)
        except StudbookError as error:
            app.call_from_thread(done, str(error), True)
        else:
            app.call_from_thread(done, f"{name} is in {written}", False)

    app.run_worker(work, thread=True, group="printing", exclusive=True)
