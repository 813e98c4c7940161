"""`verify`: is the file whole, what of it can be put back, and a copy brought back where it is not."""

from __future__ import annotations

import argparse
import os
import shlex
import sys
from pathlib import Path
from typing import Any

from store.book.book import Book
from store.book.copies import Copy, seen_of
from store.book.errors import Busy, Damaged, NoFile
from store.measure.errors import BadValue, StudbookError
from store.measure.text import clean
from store.records.whole import KINDS
from tui.cli.report import verify_report
from tui.shared.who import who


def add_words(sub: argparse.ArgumentParser) -> None:
    """Give the parser of the command its words."""
    sub.add_argument("--put-back", action="store_true", help="undo what was changed outside of this program")
    sub.add_argument(
        "--restore", metavar="COPY", help="bring a copy back; what is there now is kept under another name"
    )
    sub.add_argument("--to", type=Path, metavar="FILE", help="with --restore: as this new file, JOB stays as it is")
    sub.add_argument("--force", action="store_true", help="with --restore: also over a job that opens and holds more")
    sub.add_argument("--take-over", metavar="TAG.FIELD", help="keep one field that was changed outside")
    sub.add_argument("--accept-history", action="store_true", help="accept a damaged history, on record")
    sub.add_argument("--by", default="", metavar="NAME", help="who changed it, or who accepts")
    sub.add_argument("--reason", default="", metavar="TEXT", help="why")
    sub.add_argument("--json", action="store_true", help="as JSON, only on standard output")


def verify(options: argparse.Namespace) -> int:
    """Check a file, or mend it; returns the exit status."""
    if options.restore is None and (options.to or options.force):
        raise BadValue("--to and --force go with --restore. Add --restore COPY.")
    if options.restore is not None:
        return _restore(options)
    try:
        book = Book.open(options.job, who())
    except (Damaged, NoFile, Busy) as error:
        return _not_opened(options, error)
    done = []
    if options.put_back:
        from store.book.putback import put_back

        done = put_back(book)
    if options.take_over:
        done = [*done, _take_over(book, options)]
    if options.accept_history:
        from store.book.outside.accepting import accept_history

        book.who = _named(options)
        accept_history(book, clean(options.reason))
        done = [*done, "Accepted the history as it is. This is kept on record."]
    lines, result = verify_report(book)
    if options.json:
        copies = [_as_json(each) for each in seen_of(book.path)]
        _write_json({"file": _name(book.path), "exit": result, "put_back": done, "says": lines, "copies": copies})
        return result
    for line in [*done, *lines]:
        print(clean(line))
    return result


def _take_over(book: Book, options: argparse.Namespace) -> str:
    """Take over an edit that was made outside of the program, one field of it."""
    from store.book.outside.confirming import confirm

    tag, _, field = options.take_over.partition(".")
    found = [each for each in book.job.outside if each.tag == tag and each.kind in KINDS]
    if not found:
        raise BadValue(
            f"nothing in {clean(tag)[:20]} was changed outside of Studbook. Run `studbook verify` to see what was."
        )
    confirm(book, found[0], [field] if field else [], _named(options), clean(options.reason))
    return f"kept: {options.take_over}"


def _named(options: argparse.Namespace) -> str:
    name = clean(options.by).strip()
    if not name:
        raise BadValue("no name or no reason. Write both: --by NAME --reason TEXT.")
    return name


def _not_opened(options: argparse.Namespace, error: StudbookError) -> int:
    """Tell what is wrong, and which copies there are."""
    from store.book.restore import newest_good

    try:
        copies, good = seen_of(options.job), newest_good(options.job)
    except OSError:  # not even the folder can be told
        copies, good = [], None
    # Who runs `verify` is not told to run it.
    said = error.plain if isinstance(error, Damaged) else str(error)
    if options.json:
        named = {"newest_good": _name(good) if good else None, "copies": [_as_json(each) for each in copies]}
        _write_json({"file": _name(options.job), "exit": error.exit_status, "says": [said], **named})
        return error.exit_status
    words = [f"studbook: {said}"]
    if good:
        words += ["Kept beside it:", *(f"  {each.says}" for each in copies)]
        words.append(f"Bring it back: studbook verify {shlex.quote(str(options.job))} --restore {good.name}")
        words.append(f"The newest copy that opens: {good}")
    else:
        words.append("None of the copies beside it opens." if copies else "No copies are kept beside it.")
    print(clean("\n".join(words), lines=True), file=sys.stderr)
    return error.exit_status


def _restore(options: argparse.Namespace) -> int:
    from store.book.restore import restore

    done = restore(options.job, options.restore, options.to, force=options.force, who=who())
    if options.json:
        kept = _name(done.kept) if done.kept else None
        _write_json({"file": _name(done.to), "exit": 0, "restored": _as_json(done.copy), "kept": kept})
        return 0
    print(clean(f"Restored {done.copy.says}: {done.to}"))
    if done.kept:
        print(clean(f"What was there is kept: {done.kept}"))
    return 0


def _as_json(copy: Copy) -> dict[str, Any]:
    return {"name": copy.path.name, "actions": copy.actions, "at": copy.at, "who": copy.who, "wrong": copy.wrong}


def _name(path: Path) -> str:
    return os.fsencode(path).decode("utf-8", "replace")


SCHEMA = 1
"""Form of what --json says; raised when a name in it changes its meaning."""


def _write_json(value: dict[str, Any]) -> None:
    import msgspec

    sys.stdout.write(msgspec.json.format(msgspec.json.encode({"schema": SCHEMA, **value}), indent=2).decode() + "\n")
