"""The commands that write and read lists as csv."""

from __future__ import annotations

import tui.shared.quick  # isort: skip  # noqa: F401 - first, for what it does
import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from store.book.book import Book
from store.book.changes import Change
from store.measure.text import clean
from store.records.whole import Job
from templates.sheets.write import write_sheet
from templates.spreadsheet.reading import read_file
from templates.spreadsheet.writing import KIND_NAMES, export_csv, kind_named


def add_command(sub: argparse.ArgumentParser, name: str) -> None:
    """Give the parser of one of the two commands its words."""
    kinds = ", ".join(KIND_NAMES)
    sub.add_argument("kind", metavar="KIND", help=f"one of {kinds}")
    sub.add_argument("job", type=Path, metavar="JOB", help="the job's file")
    sub.add_argument("file", metavar="FILE", nargs="?" if name == "export" else None, help="the csv file")
    if name == "export":
        sub.add_argument("--force", action="store_true", help="write over a file that is not such a list")
    else:
        sub.add_argument("--dry-run", action="store_true", help="say what it would do, and do nothing")


def export_kind(options: argparse.Namespace, who: str) -> int:
    """Write the records of a kind as csv, to a file or to standard output."""
    cls = kind_named(options.kind)
    text = export_csv(Book.open(options.job, who).job, cls)
    if options.file in (None, "-"):
        sys.stdout.write(text)
        return 0
    print(clean(f"{cls.many}: {write_sheet(Path(options.file), text, 'csv', force=options.force, job=options.job)}"))
    return 0


def import_kind(options: argparse.Namespace, who: str) -> int:
    """Read records from csv: all of them in one action, or nothing."""
    from templates.spreadsheet.reading import BadRows, read_import

    cls = kind_named(options.kind)
    book = Book.open(options.job, who)
    raw = read_file(Path(options.file))
    try:
        found = read_import(book.job, cls, raw)
    except BadRows as error:
        for column in error.columns:
            print(clean(column.says()))
        raise
    for line in (*(column.says() for column in found.columns), *found.notes):
        print(clean(line))
    if options.dry_run:
        print(f"{found.says()}. Nothing was done (dry run).")
        return 0
    if found.changes:

        def changes(job: Job) -> Sequence[Change]:
            return read_import(job, cls, raw).changes

        book.act(f"Import {len(found.changes)} {cls.many} from {Path(options.file).name}", changes)
    print(f"{found.says()}.")
    return 0
