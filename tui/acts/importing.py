"""Reading a spreadsheet from the screen: what lists what, what it would do, then all of it or nothing."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from store.book.changes import Change
from store.book.pictures import full_path
from store.measure.dates import show_date
from store.measure.errors import StudbookError
from store.records.base import Record
from store.records.whole import KINDS, Job
from templates.spreadsheet.reading import BadRows, Import, read_import
from templates.spreadsheet.rows import read_file
from templates.spreadsheet.writing import KIND_NAMES
from tui.widgets.dialogs import ReadPage

if TYPE_CHECKING:
    from textual.app import App

    from tui.view.desk import Desk

MOST_FILES = 200
"""Files that are offered, the newest first; another one is typed."""
ANOTHER = ""


def import_csv(app: App[Any], desk: Desk, kinds: Sequence[type[Record]]) -> None:
    """Ask what is on the list, and in which file; `kinds` are those of the view, offered first."""
    first = [cls.kind for cls in kinds if cls.kind in KIND_NAMES]
    names = [*first, *(name for name in KIND_NAMES if name not in first)]
    choices = [(name, f"{KINDS[name].many}: {KINDS[name].about}") for name in names]
    desk.pick("What does the csv file list?", choices, lambda name: _ask_file(app, desk, KINDS[name]))


def _ask_file(app: App[Any], desk: Desk, cls: type[Record]) -> None:
    def typed(text: str) -> None:
        _read(app, desk, cls, full_path(text, desk.folder))

    def ask() -> None:
        desk.ask(
            f"Which csv file lists the {cls.many}?", typed, about=f"A path; a bare name is looked for in {desk.folder}"
        )

    files = _files(desk.folder)
    if not files:
        ask()
        return
    choices = [(each.name, f"{each.name}, {_day_of(each)}") for each in files]
    choices.append((ANOTHER, "another file: type where it is"))
    desk.pick(f"Which file lists the {cls.many}?", choices, lambda name: typed(name) if name != ANOTHER else ask())


def _files(folder: Path) -> list[Path]:
    """The csv files beside the job, the newest first."""
    try:
        found = [each for each in folder.iterdir() if each.suffix.lower() in (".csv", ".tsv") and each.is_file()]
        return sorted(found, key=lambda each: -each.stat().st_mtime)[:MOST_FILES]
    except OSError:
        return []


def _day_of(path: Path) -> str:
    try:
        return show_date(datetime.fromtimestamp(path.stat().st_mtime, UTC).date())
    except OSError:
        return "gone"


def _read(app: App[Any], desk: Desk, cls: type[Record], path: Path) -> None:
    """Read the file in a thread, and tell what it would do."""
    job = desk.book.job
    desk.say(f"Reading {path.name} ...")

    def work() -> None:
        try:
            raw = read_file(path)
            found = read_import(job, cls, raw)
        except StudbookError as error:
            app.call_from_thread(_refused, app, desk, path, error)
        else:
            app.call_from_thread(_offer, app, desk, path, raw, job, found)

    app.run_worker(work, thread=True, group="importing", exclusive=True)


def _refused(app: App[Any], desk: Desk, path: Path, error: StudbookError) -> None:
    """Every bad row, and how the columns were understood."""
    desk.say(f"Nothing was imported from {path.name}", bad=True)
    columns = [f"  {each.says()}" for each in error.columns] if isinstance(error, BadRows) else []
    text = "\n".join([str(error), *(["", "The columns were taken so:", *columns] if columns else [])])
    app.push_screen(ReadPage(f"Nothing was imported from {path.name}", text))


def _offer(app: App[Any], desk: Desk, path: Path, raw: bytes, job: Job, found: Import) -> None:
    """Show what it would do, and do it when told to."""
    cls = KINDS[found.kind]
    desk.say("Nothing is changed yet")
    lines = [found.says() + ".", "", "The columns are taken so:", *(f"  {each.says()}" for each in found.columns)]
    if found.notes:
        lines += ["", *found.notes]

    def then(key: str | None) -> None:
        if key != "y":
            desk.say(f"Nothing was imported from {path.name}")
            return

        def changes(newest: Job) -> Sequence[Change]:
            # A long list is read again only when somebody changed the job meanwhile.
            return found.changes if newest is job else read_import(newest, cls, raw).changes

        if desk.act(f"Import {len(found.changes)} {cls.many} from {path.name}", changes):
            desk.done(f"{found.new} new, {found.changed} changed. u takes all of it back.")

    keys = [("y", f"import the {len(found.changes)}")] if found.changes else []
    app.push_screen(
        ReadPage(f"Import {path.name}?" if keys else f"{path.name} brings nothing new", "\n".join(lines), keys), then
    )
