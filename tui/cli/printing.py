"""The command that prints. A sheet that was made before of just this file, on this day, is written out as it was."""

from __future__ import annotations

import argparse
import contextlib
import json
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from store.measure.errors import BadValue
from store.measure.text import clean
from templates.sheets.convert import MARKS, SOURCE
from tui.cli.answers import answer_to
from tui.cli.progress import working
from tui.shared.made import PACKETS, Made


def add_print(sub: argparse.ArgumentParser) -> None:
    """Give the parser of the command its words."""
    sub.add_argument("sheet", metavar="SHEET", help="one of those listed above")
    sub.add_argument("job", type=Path, metavar="JOB", help="the job's file")
    sub.add_argument("--to", metavar="P", help="a file, a folder, or - for standard output (default: here)")
    sub.add_argument(
        "--format", choices=tuple(MARKS), default="", help="file type (default: as --to ends, or the usual one)"
    )
    sub.add_argument("--wall", default="", metavar="W1", help="the wall to draw")
    sub.add_argument(
        "--paper", default="", metavar="NAME", help="letter, tabloid, a4, a3, or a label paper (default: the job's)"
    )
    sub.add_argument("--scale", default="", metavar="S", help="of a drawing: 1:20, or 1/2 for 1/2 in to the foot")
    sub.add_argument("--skip", type=int, default=0, metavar="N", help="labels already used on the first page")
    sub.add_argument("--nudge", default="", metavar="X,Y", help="move labels right and down by so many mm: 0.5,-1")
    sub.add_argument("--force", action="store_true", help="overwrite a file that Studbook did not write")
    sub.add_argument("--final", action="store_true", help="refuse (3) a packet that is still a draft")
    sub.add_argument("--give", action="store_true", help="enter that you send the packet today, as the job is now")


def about_print(given: Sequence[str] = ()) -> str:
    """What the command does, with the names of all sheets; of the sheet that is named among the words, all about it."""
    from templates.sheets.catalogue import SHEETS
    from tui.cli.meant import about

    if named := [each for each in given if each == PACKETS or each in SHEETS]:
        return about(named[0])
    wide = max(map(len, SHEETS)) + 2
    rows = {PACKETS: "a packet for each trade that there is one for"} | {
        name: one.title for name, one in SHEETS.items()
    }
    return "\n".join(["Write a sheet:", *(f"  {name:{wide}}{title}" for name, title in rows.items())])


def print_sheet(options: argparse.Namespace, who: Callable[[], str]) -> int:
    """Write a sheet, or every packet; says where it went."""
    if any((options.wall, options.scale, options.paper, options.skip, options.nudge, options.final, options.give)):
        from tui.cli.meant import refuse_idle

        refuse_idle(options)
    if options.sheet == PACKETS and options.to and (options.to == "-" or Path(options.to).suffix):
        from templates.sheets.catalogue import NoSheet

        raise NoSheet("packets are several files. Give a folder with --to")
    # A path forgets the sign at its end that says that it is a folder.
    if options.to and options.to != "-" and (options.sheet == PACKETS or options.to.endswith(os.sep)):
        _make_folder(Path(options.to))
    for made in _made(options, who):
        if made.missing and options.final:
            from store.rules.gate.guard import Held

            raise Held(f"{made.name} is still a draft, not printed:\n" + "\n".join(f"  {one}" for one in made.missing))
        if options.to == "-":
            _write_out(made)
        else:
            _write(options, made)
        if options.give:
            from tui.cli.sheets import give

            give(options.job, who(), made.name, bool(made.missing))
    return 0


def _write(options: argparse.Namespace, made: Made) -> None:
    """A sheet to a file; says where it went."""
    from templates.sheets.write import part_of, target, write_sheet  # what goes to standard output needs none of it

    to = Path(options.to) if options.to else None
    path = target(to, options.job.stem, made.name, made.form)
    told = f"Making {made.name} as {made.form}"
    with working(told, soon=True) if made.form in SOURCE else contextlib.nullcontext():
        written = write_sheet(path, made.text, made.form, force=options.force, job=options.job)
    print(clean(f"{made.name}: {written}{' (draft)' if made.missing else ''}{part_of(made.text, made.form)}"))


def _write_out(made: Made) -> None:
    """A sheet to standard output."""
    if made.form in SOURCE:
        from templates.sheets.write import as_bytes

        sys.stdout.buffer.write(as_bytes(made.text, made.form))
    else:
        sys.stdout.write(made.text)


def _made(options: argparse.Namespace, who: Callable[[], str]) -> list[Made]:
    """The sheets asked for: as they were made before, or made now."""

    def make() -> tuple[list[Made], bool]:
        from tui.cli.sheets import make_sheets

        with working(f"Preparing {options.sheet}"):
            return make_sheets(options, who())

    if options.give:
        return make()[0]

    def work_out() -> tuple[str, bool]:
        sheets, looks_elsewhere = make()
        return json.dumps([(one.name, one.form, one.text, one.missing) for one in sheets]), not looks_elsewhere

    ending = Path(options.to).suffix if options.to and options.to != "-" else str(options.to == "-")
    folder = str(bool(options.to) and Path(options.to).is_dir())
    words = (
        options.sheet,
        options.format,
        ending,
        folder,
        options.wall,
        options.paper,
        str(options.skip),
        options.scale,
        options.nudge,
    )
    return [Made(*each) for each in json.loads(answer_to(options.job, ("print", *words), work_out))]


def _make_folder(folder: Path) -> None:
    from store.book.ground.owner import make_folder

    try:
        make_folder(folder)
    except OSError as error:
        raise BadValue(f"{folder}: can't make it: {error.strerror}") from error
