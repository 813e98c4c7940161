"""The command that takes in a phone's folder: at a terminal photo by photo, else as a list, or all to one thing."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from store.book.book import Book
from store.book.phone import Folder, Shot, folder_of, keep
from store.measure.errors import BadValue, quoted
from store.measure.text import clean
from tui.acts.photos.photo_places import changes_of, found_as
from tui.cli.progress import progress
from tui.shared.who import who


def add_words(sub: argparse.ArgumentParser) -> None:
    """Give the parser of the command its words."""
    sub.add_argument("folder", type=Path, metavar="FOLDER", help="the photos, copied from the phone")
    sub.add_argument(
        "--of", default="", metavar="TAG", help="file all under this, without asking: A1, K3/photographed, Q30"
    )
    sub.add_argument("--list", action="store_true", help="only list them, in the order they were taken")


def photos(options: argparse.Namespace) -> int:
    """Show them one by one; with `--of` put all; with `--list`, or where there is no terminal, list them."""
    if not options.folder.is_dir():
        raise BadValue(f"{options.folder}: there is no such folder")
    if options.of or options.list or not (sys.stdin.isatty() and sys.stdout.isatty()):
        return _without_screen(options)
    from tui.screen.app import run

    return run(options.job, photos=options.folder)


def _without_screen(options: argparse.Namespace) -> int:
    book = Book.open(options.job, who())
    target = found_as(book.job, options.of)
    if options.of and not target:
        raise BadValue(f"no {quoted(clean(options.of))} in this job. Give a tag with --of.")
    home = book.path.resolve().parent
    with progress() as told:
        found = folder_of(options.folder, book.job, home, lambda at, of: told(f"Reading {at} of {of} files"))
    put = 0
    for shot in found.shots:
        line = f"{shot.taken:%Y-%m-%d %H:%M}  {shot.path.name}"
        if shot.same_as:
            line += f"  duplicate of {shot.same_as}"
        elif shot.like:
            line += f"  looks the same as {shot.like}"
        if target and not shot.same_as:
            _put(book, target, shot, home)
            put += 1
            line += f"  -> {target}"
        print(clean(line))
    _tell_rest(found)
    if target:
        print(clean(f"Filed {put} under {target}"))
    return 0


def _put(book: Book, target: str, shot: Shot, home: Path) -> None:
    file = keep(shot, home)
    what = f"Photo of {target}: {shot.path.name}"
    book.act(what, lambda job: changes_of(job, target, file, shot.taken.date(), book.who))


def _tell_rest(found: Folder) -> None:
    """What could not be read, and why, on standard error."""
    for shot in found.unread:
        print(clean(f"studbook: {shot.path.name}: {shot.why}"), file=sys.stderr)
    if found.others:
        print(f"studbook: not photos: {found.others}", file=sys.stderr)
