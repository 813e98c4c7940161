"""What makes and reads files: sheets, and lists as csv. Nothing here imports the screen."""

from __future__ import annotations

import tui.quick  # isort: skip  # noqa: F401 - first, for what it does
import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import cast

from store.book.book import Book
from store.book.changes import Change, add
from store.measure.errors import BadValue
from store.measure.text import clean
from store.records.people import Trade
from store.records.whole import Job
from store.rules.gate.guard import Held
from templates.sheets.catalogue import FORMS, PACKET, Context, NoSheet, make, sheet_named, usual_form
from templates.sheets.csv_export import KIND_NAMES, export_csv, kind_named
from templates.sheets.write import write_sheet
from tui.cli_print import PACKETS, Made

MOST_CSV_BYTES = 50_000_000


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


def make_sheets(options: argparse.Namespace, who: str) -> tuple[list[Made], bool]:
    """The sheets that the words ask for, and whether any of them has anything that is not in the job's file."""
    book = Book.open(options.job, who)
    form = options.format or _form_of(options.to)
    if options.sheet == PACKETS:
        from store.rules.handoff.packet import trades_with_packets

        names = [f"{PACKET}{trade}" for trade in trades_with_packets(book.job)]
    else:
        names = [options.sheet]
    if options.give and not all(name.startswith(PACKET) for name in names):
        raise NoSheet("--give is for packets")
    context = context_of(book, options.wall.upper(), options.paper, options.skip)
    sheets = []
    for name in names:
        one = form or usual_form(name)
        sheets.append(Made(name, one, make(name, one, book.job, context), missing_of(book.job, name)))
    return sheets, any(sheet_named(name).pictures for name in names)


def context_of(book: Book, wall: str = "", paper: str = "", skip: int = 0) -> Context:
    """What a sheet may need besides the job."""
    return Context(wall=wall, paper=paper, skip=skip, sign=_sign(book), folder=book.path.parent, entries=_entries(book))


def missing_of(job: Job, name: str) -> list[str]:
    """What is missing of a packet; nothing for another sheet."""
    if not name.startswith(PACKET):
        return []
    from store.rules.handoff.packet import packet

    found = packet(job, cast(Trade, name.removeprefix(PACKET)))
    return [f"{one.what}{f' ({one.why})' if one.why else ''}" for one in found.missing]


def give(path: Path, who: str, name: str, draft: bool) -> None:
    """Note that a packet is given today. Raises Held for a draft."""
    from store.rules.handoff.packet import handed

    book = Book.open(path, who)
    if draft:
        raise Held(f"{name} is still a draft: it is printed, and not noted as given")
    trade = cast(Trade, name.removeprefix(PACKET))
    point = max((entry.n for entry in book.entries()), default=0)
    book.act(f"Give the packet to the {trade}", lambda job: [add(handed(job, trade, point))])
    print(f"noted as given at change {point}")


def _entries(book: Book) -> Sequence[dict[str, object]]:
    import msgspec

    return cast("list[dict[str, object]]", msgspec.to_builtins(book.entries()))


def _sign(book: Book) -> str:
    """What tells this job from others for its life: the session in which it was made."""
    entries = book.entries()
    return entries[0].session if entries and entries[0].session else book.path.stem


def _form_of(to: str | None) -> str:
    ending = Path(to).suffix.removeprefix(".").lower() if to and to != "-" else ""
    if ending and ending not in FORMS and not Path(to or "").is_dir():
        raise NoSheet(f"{to}: no sheet comes as .{ending}; there are: {', '.join(FORMS)}")
    return ending if ending in FORMS else ""


def export_kind(options: argparse.Namespace, who: str) -> int:
    """Write the records of a kind as csv, to a file or to standard output."""
    cls = kind_named(options.kind)
    text = export_csv(Book.open(options.job, who).job, cls)
    if options.file in (None, "-"):
        sys.stdout.write(text)
        return 0
    print(clean(f"{cls.many}: {write_sheet(Path(options.file), text, 'csv', force=options.force)}"))
    return 0


def import_kind(options: argparse.Namespace, who: str) -> int:
    """Read records from csv: all of them in one action, or nothing."""
    from templates.sheets.csv_import import BadRows, read_import

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


def read_file(path: Path) -> bytes:
    """The bytes of a csv file. Raises BadValue where it cannot be read, or is no list by its size."""
    try:
        with path.open("rb") as stream:
            raw = stream.read(MOST_CSV_BYTES + 1)
    except OSError as error:
        raise BadValue(f"{path}: cannot be read: {error.strerror}") from error
    if len(raw) > MOST_CSV_BYTES:
        raise BadValue(f"{path}: is larger than {MOST_CSV_BYTES:,} bytes; that is no list of records")
    return raw
