"""The commands that need the job: what each does, once its words are read. `open` and `demo` are in `opening`."""

from __future__ import annotations

from store.measure.errors import quoted
from store.rules.gate.gate import out_of_turn

import tui.shared.quick  # isort: skip  # noqa: F401 - first, for what it does
import argparse
import os
from datetime import date
from pathlib import Path
from typing import Any

import msgspec

from store.book.book import Book
from store.book.changes import add
from store.measure.errors import BadValue
from store.measure.text import clean
from store.records.people import Stage
from store.rules.gate.gate import STAGES, passage, standing
from store.rules.gate.guard import Held
from tui.cli.words import ANSWERS
from tui.shared.who import who


def new(options: argparse.Namespace) -> int:
    import shlex

    from templates.starters import load

    starter = options.starter
    said = {key: text for key in ANSWERS if (text := getattr(options, key)) is not None}
    if said:
        from tui.cli.planning import plan_job

        changes = plan_job(starter, said, date.today())
    else:
        changes = load(starter, date.today())
    Book.create(options.job, changes, who(), f"Start the job from {Path(starter).name}").close()
    named = f"{'-- ' if str(options.job).startswith('-') else ''}{shlex.quote(str(options.job))}"
    print(clean(f"Made {options.job}. Open it: studbook {named}"))
    if said:
        print("All of it is a proposal: Problems lists what to read, change or agree to.")
    return 0


SCHEMA = 1
"""Form of what --json says; raised when a name in it changes its meaning."""


def status_text(path: Path, *, as_json: bool, whole: bool = False) -> str:
    """What `status` says of a job: on one screen, or the whole of it."""
    return status_of(Book.open(path, ""), as_json=as_json, whole=whole)


def status_of(book: Book, *, as_json: bool = False, whole: bool = False) -> str:
    """What `status` says of an open job: on one screen, the whole of it, or as JSON."""
    book.audit()
    if not (as_json or whole):
        import shlex

        from store.rules.agenda.days import untold
        from store.rules.core.findings import findings
        from tui.cli.brief import brief_lines

        changed = untold(book.job, lambda: msgspec.to_builtins(book.entries()))
        return _lines(brief_lines(book.job, findings(book.job), changed, shlex.quote(book.path.name)))
    from store.rules.gate.status import status

    found = status(book.job)
    if as_json:
        # A name may hold bytes that are no text.
        return _json({"schema": SCHEMA, "file": os.fsencode(book.path).decode("utf-8", "replace"), **found})
    from store.rules.core.findings import findings
    from store.rules.core.together import together
    from tui.cli.report import status_lines

    return _lines(status_lines(found, together(findings(book.job)), book.job.manner.day_first))


def figures_text(path: Path, *, as_json: bool) -> str:
    """What `figures` says of a job."""
    from store.rules.core.figures import figures, plain

    book = Book.open(path, "")
    found = plain(figures(book.job), book.job.settings.metric)
    if as_json:
        return _json({"schema": SCHEMA, **found})
    return _lines(
        [
            f"{tag:6} {name:24} {value}"
            for tag, named in found.items()
            for name, value in named.items()
            if not name.endswith("_mm") or name.removesuffix("_mm") not in named
        ]
    )


def _lines(lines: list[str]) -> str:
    return "".join(f"{clean(line)}\n" for line in lines)


def advance(options: argparse.Namespace) -> int:
    by = clean(options.by).strip()
    if not by:
        raise BadValue("no name for the move. Write who moves the job on: --by NAME.")
    book = Book.open(options.job, by)
    now = standing(book.job)
    if now.next is None:
        raise Held(out_of_turn(now, ""))
    to = stage_named(options.to) if options.to else now.next
    if to != now.next:
        raise Held(out_of_turn(now, to))
    reason = clean(options.reason)
    # What is passed is the stage announced here: where somebody else was faster, nothing is.
    book.act(f"Move to {now.next}", lambda job: [add(passage(job, by, reason, to))], reason)
    print(f"Moved to {standing(book.job).stage}")
    for hold in standing(book.job).holds[:20]:
        print(clean(f"  open: {hold.what}"))
    return 0


def stage_named(text: str) -> Stage:
    """The stage of a name, as written or in small letters. Raises BadValue."""
    plain = " ".join(text.lower().split())
    for each in STAGES:
        if each.lower() == plain:
            return each
    raise BadValue(f"no stage {quoted(clean(text))}. The stages for --to are: {', '.join(STAGES)}.")


def _json(value: dict[str, Any]) -> str:
    import msgspec

    return msgspec.json.format(msgspec.json.encode(value), indent=2).decode() + "\n"
