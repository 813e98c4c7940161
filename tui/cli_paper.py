"""The commands that make and read files: print, export, import. None of them imports the screen."""

from __future__ import annotations

import tui.quick  # isort: skip  # noqa: F401 - first, for what it does
import argparse
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import cast

from store.book.book import Book
from store.book.changes import Change, add
from store.measure.errors import BadValue
from store.measure.text import clean
from store.records.people import Trade
from store.records.whole import Job
from store.rules.guard import Held
from templates.sheets.catalogue import FORMS, PACKET, SHEETS, Context, NoSheet, make, usual_form
from templates.sheets.csv_export import KIND_NAMES, export_csv, kind_named
from templates.sheets.write import target, write_sheet

PACKETS = "packets"
MOST_CSV_BYTES = 50_000_000


def add_command(command: Callable[[str, str], argparse.ArgumentParser], name: str) -> None:
    """Add one of the three commands to the parser through the function that makes one."""
    if name == "print":
        _add_print(command)
        return
    abouts = {"export": "write records as csv that import takes back", "import": "read records from csv"}
    sub = command(name, abouts[name])
    sub.add_argument("kind", metavar="KIND", help=f"one of {', '.join(KIND_NAMES)}")
    sub.add_argument("job", type=Path, metavar="JOB", help="the job's file")
    sub.add_argument("file", metavar="FILE", nargs="?" if name == "export" else None, help="the csv file")
    if name == "export":
        sub.add_argument("--force", action="store_true", help="write over a file that is not such a list")
    else:
        sub.add_argument("--dry-run", action="store_true", help="say what it would do, and do nothing")


def _add_print(command: Callable[[str, str], argparse.ArgumentParser]) -> None:
    names = ", ".join([PACKETS, *SHEETS])
    out = command("print", f"write a sheet: {names}")
    out.add_argument("sheet", metavar="SHEET", help=f"one of {names}")
    out.add_argument("job", type=Path, metavar="JOB", help="the job's file")
    out.add_argument("--to", metavar="P", help="a file, a folder, or - for standard output; without it, here")
    out.add_argument("--format", choices=FORMS, default="", help="without it, as --to ends, or the usual one")
    out.add_argument("--wall", default="", metavar="W1", help="the wall to draw, where a sheet is of one")
    out.add_argument("--paper", default="", metavar="NAME", help="the label paper; without it, that of the job")
    out.add_argument("--skip", type=int, default=0, metavar="N", help="labels of the first page that are used already")
    out.add_argument("--force", action="store_true", help="write over a file that is not a sheet of this program")
    out.add_argument("--final", action="store_true", help="refuse (3) a packet that is still a draft")
    out.add_argument("--give", action="store_true", help="note that the packet is given today, as the job is now")


def print_sheet(options: argparse.Namespace, who: str) -> int:
    """Write a sheet, or every packet; says where it went."""
    book = Book.open(options.job, who)
    form = options.format or _form_of(options.to)
    if options.sheet == PACKETS:
        from store.rules.handoff import trades_with_packets

        if options.to == "-" or (options.to and Path(options.to).suffix):
            raise NoSheet("packets are several files: name a folder with --to")
        names = [f"{PACKET}{trade}" for trade in trades_with_packets(book.job)]
        if options.to:
            _make_folder(Path(options.to))
    else:
        names = [options.sheet]
    for name in names:
        _print_one(book, options, name, form)
    return 0


def _print_one(book: Book, options: argparse.Namespace, name: str, form: str) -> None:
    form = form or usual_form(name)
    context = context_of(book, options.wall.upper(), options.paper, options.skip)
    text = make(name, form, book.job, context)
    draft = missing_of(book.job, name)
    if draft and options.final:
        raise Held(f"{name} is still a draft, and was not printed:\n" + "\n".join(f"  {line}" for line in draft))
    if options.give and not name.startswith(PACKET):
        raise NoSheet("--give is for packets")
    if options.to == "-":
        sys.stdout.write(text)
    else:
        path = target(Path(options.to) if options.to else None, book.path.stem, name, form)
        written = write_sheet(path, text, form, force=options.force)
        print(clean(f"{name}: {written}{' (draft)' if draft else ''}"))
    if options.give:
        _give(book, name, bool(draft))


def context_of(book: Book, wall: str = "", paper: str = "", skip: int = 0) -> Context:
    """What a sheet may need besides the job."""
    return Context(wall=wall, paper=paper, skip=skip, sign=_sign(book), folder=book.path.parent, entries=_entries(book))


def missing_of(job: Job, name: str) -> list[str]:
    """What is missing of a packet; nothing for another sheet."""
    if not name.startswith(PACKET):
        return []
    from store.rules.handoff import packet

    found = packet(job, cast(Trade, name.removeprefix(PACKET)))
    return [f"{one.what}{f' ({one.why})' if one.why else ''}" for one in found.missing]


def _give(book: Book, name: str, draft: bool) -> None:
    from store.rules.handoff import handed

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


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise BadValue(f"{folder}: cannot be made: {error.strerror}") from error


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
