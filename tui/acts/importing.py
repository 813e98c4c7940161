"""Reading a spreadsheet from the screen: what lists what, what it would do, then all of it or nothing."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import msgspec

from store.book.changes import Change
from store.book.pictures import full_path
from store.measure.errors import StudbookError
from store.records.base import Record
from store.records.whole import KINDS, Job
from store.rules.core.wording import date_text, plural
from templates.spreadsheet.columns import Column
from templates.spreadsheet.fields import columns_for
from templates.spreadsheet.reading import Asked, BadRows, How, Import, read_import
from templates.spreadsheet.rows import read_file
from templates.spreadsheet.writing import KIND_NAMES
from tui.widgets.dialogs import ReadPage

if TYPE_CHECKING:
    from textual.app import App

    from tui.view.desk import Desk

MOST_FILES = 200
"""Files that are offered, the newest first; another one is typed."""
ENDINGS = (".csv", ".tsv", ".xlsx")
ANOTHER = ""
LEFT_OUT = "-"
MEANS = ("m", "choose what a column is")


def import_csv(app: App[Any], desk: Desk, kinds: Sequence[type[Record]]) -> None:
    """Ask what is on the list, and in which file; `kinds` are those of the view, offered first."""
    first = [cls.kind for cls in kinds if cls.kind in KIND_NAMES]
    names = [*first, *(name for name in KIND_NAMES if name not in first)]
    choices = [(name, f"{KINDS[name].many}: {KINDS[name].about}") for name in names]
    desk.pick("What does the file list?", choices, lambda name: _ask_file(app, desk, KINDS[name]))


def _ask_file(app: App[Any], desk: Desk, cls: type[Record]) -> None:
    def typed(text: str) -> None:
        _read(app, desk, cls, full_path(text, desk.folder))

    def ask() -> None:
        desk.ask(
            f"Which csv or xlsx file lists the {cls.many}?",
            typed,
            about=f"A path, or a file name in {desk.folder}",
        )

    files = _files(desk.folder)
    if not files:
        ask()
        return
    choices = [(each.name, f"{each.name}, {_day_of(desk, each)}") for each in files]
    choices.append((ANOTHER, "another file: type where it is"))
    desk.pick(f"Which file lists the {cls.many}?", choices, lambda name: typed(name) if name != ANOTHER else ask())


def _files(folder: Path) -> list[Path]:
    """The csv and xlsx files beside the job, the newest first."""
    try:
        found = [
            each for each in folder.iterdir() if each.suffix.lower() in (".csv", ".tsv", ".xlsx") and each.is_file()
        ]
        return sorted(found, key=lambda each: -each.stat().st_mtime)[:MOST_FILES]
    except OSError:
        return []


def _day_of(desk: Desk, path: Path) -> str:
    try:
        return date_text(desk.state.job, datetime.fromtimestamp(path.stat().st_mtime, UTC).date())
    except OSError:
        return "gone"


def _read(app: App[Any], desk: Desk, cls: type[Record], path: Path, how: How | None = None) -> None:
    """Read the file in a thread, and tell what it would do; `how` is what was answered so far."""
    job = desk.book.job
    said = how or How()
    desk.say(f"Reading {path.name} ...")

    def work() -> None:
        try:
            raw = read_file(path)
            found = read_import(job, cls, raw, said)
        except Asked as error:
            app.call_from_thread(_ask_how, app, desk, cls, path, said, error)
        except StudbookError as error:
            app.call_from_thread(_refused, app, desk, cls, path, said, error)
        else:
            app.call_from_thread(_offer, app, desk, path, raw, job, found, said)

    app.run_worker(work, thread=True, group="importing", exclusive=True)


def _ask_how(app: App[Any], desk: Desk, cls: type[Record], path: Path, how: How, asked: Asked) -> None:
    """Ask which of its two meanings something in the file has, and read on."""
    about = str(asked).partition(": say ")[0]
    desk.say("Nothing is changed yet")
    desk.pick(
        f"{about}. Which?",
        list(asked.choices),
        lambda answer: _read(app, desk, cls, path, msgspec.structs.replace(how, **{asked.question: answer})),
    )


def _ask_column(app: App[Any], desk: Desk, cls: type[Record], path: Path, how: How, columns: Sequence[Column]) -> None:
    """Ask what a column is, and read the file anew."""
    fields = [(field.key, field.says.title) for field in columns_for(cls)]

    def meant(heading: str) -> None:
        desk.pick(
            f"What is in the column {heading}?",
            [("tag", "tag"), *fields, (LEFT_OUT, "nothing that belongs here: leave it out")],
            lambda key: _read(
                app,
                desk,
                cls,
                path,
                msgspec.structs.replace(how, columns={**how.columns, heading: "" if key == LEFT_OUT else key}),
            ),
        )

    headings = dict.fromkeys(each.heading.strip() for each in columns if each.heading.strip())
    told = {each.heading.strip(): each.says() for each in columns}
    desk.pick("Which column?", [(heading, told[heading]) for heading in headings], meant)


def _refused(app: App[Any], desk: Desk, cls: type[Record], path: Path, how: How, error: StudbookError) -> None:
    """Every bad row, and how the columns were understood; what a column is can be said, and all is read anew."""
    desk.say(f"Can't import {path.name}. Nothing was changed.", bad=True)
    columns = error.columns if isinstance(error, BadRows) else ()
    lines = [f"  {each.says()}" for each in columns]
    text = "\n".join([error.sentence, *(["", "How the columns were read:", *lines] if lines else [])])

    def then(key: str | None) -> None:
        if key == "m":
            _ask_column(app, desk, cls, path, how, columns)

    keys = [MEANS] if columns else []
    app.push_screen(ReadPage(f"Can't import {path.name}. Nothing was changed.", text, keys), then)


def _offer(app: App[Any], desk: Desk, path: Path, raw: bytes, job: Job, found: Import, how: How) -> None:
    """Show what it would do, and do it when told to."""
    cls = KINDS[found.kind]
    desk.say("Nothing is changed yet")
    lines = [found.says() + ".", "", "How the columns are read:", *(f"  {each.says()}" for each in found.columns)]
    if found.notes:
        lines += ["", *found.notes]
    if found.rows:
        lines += ["", "Saved differently from how it is written:", *found.preview()]

    def then(key: str | None) -> None:
        if key == "m":
            _ask_column(app, desk, cls, path, how, found.columns)
            return
        if key != "y":
            desk.say(f"Can't import {path.name}. Nothing was changed.")
            return

        def changes(newest: Job) -> Sequence[Change]:
            # A long list is read again only when somebody changed the job meanwhile.
            return found.changes if newest is job else read_import(newest, cls, raw, how).changes

        if desk.act(f"Import {len(found.changes)} {cls.many} from {path.name}", changes):
            desk.done(f"Imported {found.new} new, {found.changed} changed. u = undo")

    keys = [*([("y", f"import {plural(len(found.changes), 'row')}")] if found.changes else []), MEANS]
    app.push_screen(
        ReadPage(f"Import {path.name}?" if found.changes else f"{path.name}: no new rows", "\n".join(lines), keys),
        then,
    )
