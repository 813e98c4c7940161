"""The commands that write and read lists as csv and xlsx, one kind of record or the whole job."""

from __future__ import annotations

from store.measure.errors import quoted

import tui.shared.quick  # isort: skip  # noqa: F401 - first, for what it does
import argparse
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from store.book.book import Book
from store.book.changes import Change
from store.book.ground.owner import make_folder
from store.measure.errors import BadValue
from store.measure.text import clean
from store.records.whole import Job
from store.rules.gate.held import NeedsReason
from templates.sheets.write import write_sheet
from templates.spreadsheet.rows import read_file
from templates.spreadsheet.writing import KIND_NAMES, export_csv, kind_named

if TYPE_CHECKING:
    from templates.spreadsheet.habits import How
    from templates.spreadsheet.reading import Import
    from templates.spreadsheet.whole import Whole

ALL = "all"
"""In place of a kind: the whole job, in a folder."""
SCHEMA = 1
"""Form of what --json says; raised when a name in it changes its meaning."""


def add_command(sub: argparse.ArgumentParser, name: str) -> None:
    """Give the parser of one of the two commands its words."""
    kinds = ", ".join(KIND_NAMES)
    sub.add_argument("kind", metavar="KIND", help=f"one of {kinds}; or {ALL} for the whole job, in a folder")
    sub.add_argument("job", type=Path, metavar="JOB", help="the job's file")
    if name == "export":
        sub.add_argument("file", metavar="FILE", nargs="?", help="the csv file; - or none: standard output")
        sub.add_argument("--force", action="store_true", help="overwrite a file that export did not write")
        sub.add_argument("--bom", choices=("yes", "no"), help="a UTF-8 mark for spreadsheets (default for files)")
        return
    sub.add_argument("file", metavar="FILE", help="the csv or xlsx file")
    sub.add_argument("--dry-run", action="store_true", help="show what it would do and change nothing")
    sub.add_argument(
        "--map", action="append", default=[], metavar="COLUMN=FIELD", help="what a column is; COLUMN= leaves it out"
    )
    sub.add_argument("--dates", choices=("day", "month"), default="", help="what comes first in dates like 3/4/2026")
    sub.add_argument(
        "--decimal",
        choices=("point", "comma"),
        default="",
        help="the sign before a fraction: point (1.5) or comma (1,5)",
    )
    sub.add_argument("--sheet", default="", metavar="NAME", help="the sheet of an xlsx file; without it, the first")
    sub.add_argument("--reason", default="", metavar="TEXT", help="why, if it removes or reopens rough-in items")
    sub.add_argument("--again", action="store_true", help="add rows even if the job has the same ones")
    sub.add_argument("--json", action="store_true", help="as JSON, only on standard output")


def export_kind(options: argparse.Namespace, who: str) -> int:
    """Write the records of a kind as csv, to a file or to standard output; or of all kinds, into a folder."""
    if options.kind.strip().lower() == ALL:
        return _export_all(options, who)
    cls = kind_named(options.kind)
    text = export_csv(Book.open(options.job, who).job, cls)
    if options.file in (None, "-"):
        sys.stdout.write(("\ufeff" if options.bom == "yes" else "") + text)
        return 0
    path = write_sheet(Path(options.file), text, "csv", force=options.force, bom=options.bom != "no", job=options.job)
    print(clean(f"{cls.many}: {path}"))
    return 0


def _export_all(options: argparse.Namespace, who: str) -> int:
    """The whole job: a file for each kind."""
    from templates.spreadsheet.whole import export_whole

    if options.file in (None, "-"):
        raise BadValue("the whole job is several files. Give a folder.")
    job = Book.open(options.job, who).job
    folder = Path(options.file)
    try:
        make_folder(folder)
    except OSError as error:
        raise BadValue(f"{folder}: can't make it: {error.strerror}") from error
    lists = export_whole(job)
    for name, text in lists.items():
        write_sheet(folder / name, text, "csv", force=options.force, bom=options.bom != "no", job=options.job)
    count = sum(len(table) for table in job.tables.values())
    print(clean(f"the whole job: {count} records in {len(lists)} files: {folder}"))
    print("The history and the pictures stay where they are.", file=sys.stderr)
    return 0


def _how(options: argparse.Namespace) -> How:
    """What the options say of a file. Raises BadValue."""
    from templates.spreadsheet.habits import How

    columns = {}
    for each in options.map:
        heading, sign, field = each.rpartition("=")
        if not sign or not heading.strip():
            raise BadValue(f"--map {quoted(each)} can't be read. Write it like --map 'Power (W)=watts'.")
        columns[heading] = field
    return How(columns, options.decimal, options.dates, options.sheet, options.again)


def import_kind(options: argparse.Namespace, who: str) -> int:
    """Read records from a list: all of them in one action, or nothing."""
    from templates.spreadsheet.reading import BadRows, read_import

    if options.kind.strip().lower() == ALL:
        return _import_all(options, who)
    cls = kind_named(options.kind)
    how = _how(options)
    book = Book.open(options.job, who)
    raw = read_file(Path(options.file))
    try:
        found = read_import(book.job, cls, raw, how)
    except BadRows as error:
        for column in () if options.json else error.columns:
            print(clean(column.says()))
        raise
    if not options.json:
        for line in (*(column.says() for column in found.columns), *found.notes, *found.preview()):
            print(clean(line))
    what = f"Import {len(found.changes)} {cls.many} from {Path(options.file).name}"
    done = _act(options, book, what, found, lambda job: read_import(job, cls, raw, how).changes)
    if options.json:
        _print_json(found.says(), [found], done)
    return 0


def _import_all(options: argparse.Namespace, who: str) -> int:
    """Read a whole job from a folder."""
    from templates.spreadsheet.whole import files_of, read_whole

    if options.map or options.sheet:
        raise BadValue("--map and --sheet are for one list. Leave them out for the whole job.")
    how = _how(options)
    book = Book.open(options.job, who)
    files, notes = files_of(Path(options.file))
    found = read_whole(book.job, files, how)
    if not options.json:
        for line in (*notes, *found.notes, *(f"  {one.says()}" for one in found.kinds)):
            print(clean(line))
    what = f"Import the whole job from {Path(options.file).name}"
    done = _act(options, book, what, found, lambda job: read_whole(job, files, how).changes)
    if options.json:
        _print_json(found.says(), found.kinds, done)
    return 0


def _act(
    options: argparse.Namespace,
    book: Book,
    what: str,
    found: Import | Whole,
    changes: Callable[[Job], Sequence[Change]],
) -> bool:
    """Do what was found, on the newest state, and say so; True where anything was done."""
    if found.changes and not options.dry_run:
        try:
            book.act(what, changes, clean(options.reason))
        except NeedsReason as held:
            raise NeedsReason(f"{held}\nGive it with --reason TEXT. Nothing was changed.") from held
    if not options.json:
        nothing = "" if found.changes else " Nothing is new."
        print(f"{found.says()}.{' Nothing was done (dry run).' if options.dry_run else nothing}")
    return bool(found.changes) and not options.dry_run


def _print_json(says: str, found: Sequence[Import], done: bool) -> None:
    import msgspec

    kinds: list[dict[str, Any]] = [
        {
            "kind": one.kind,
            "new": one.new,
            "changed": one.changed,
            "same": one.same,
            "columns": [msgspec.to_builtins(column) for column in one.columns],
            "notes": one.notes,
            "rows": [msgspec.to_builtins(row) for row in one.rows],
        }
        for one in found
    ]
    answer = {"schema": SCHEMA, "says": says, "done": done, "kinds": kinds}
    sys.stdout.write(msgspec.json.format(msgspec.json.encode(answer), indent=2).decode() + "\n")
