"""Jobs that stand before the gate, and the ways to act on them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from store.book.book import Book
from store.book.changes import Change, add, edit
from store.measure.errors import StudbookError
from store.records.base import BadRecord, Record
from store.records.field import Ref
from store.records.gate import Check, Closing, Passage
from store.records.people import Stage
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.core.checks import Item, close, rough_in
from store.rules.gate.gate import STAGES, Standing, passage, standing
from store.rules.gate.guard import Held
from tests.book.build import TODAY, check, make, reopen, rewrite, wall
from tests.jobs.proofs import SEEN, sound, take_picture
from tests.jobs.refusals import shaped

DRYWALL = STAGES.index("Drywall")


PLAN = (
    wall("W1"),
    Box(tag="B1", what="low-voltage", new=False, wall=Ref("W1")),
    Cable(tag="K1", type="cat6", start=Ref("B1"), end=Ref("B1")),
)
"""A cable at a box that was there before."""


def job_before(stage: Stage, path: Path, *records: Record) -> Book:
    """A job with these records that has got to the stage before the one named."""
    book = make(path, *records)
    while standing(book.job).next != stage:
        go_on(book, "as agreed with the crew")
    return book


def before_drywall(path: Path, *what: str) -> Book:
    """A job at Rough-in with these items on the list, none of them closed."""
    return job_before("Drywall", path, *[check(each, f"Q{n}") for n, each in enumerate(what or ("Blocks",), 1)])


def at_drywall(path: Path, *what: str) -> Book:
    """A job whose items were all closed, and that passed to Drywall."""
    book = before_drywall(path, *what)
    for key in list(book.job.of(Check)):
        shut(book, key)
    go_on(book)
    assert standing(book.job).stage == "Drywall"
    return book


def go_on(book: Book, reason: str = "", by: str = "Ann") -> None:
    """Pass to the next stage."""
    book.act("Pass on", lambda job: [add(passage(job, by, reason))], reason)


def pass_to(stage: str, *checked: str, by: str = "Ann", day: date = TODAY, reason: str = "") -> Passage:
    """A passage made by hand, true or not."""
    return Passage(tag="", stage=stage, date=day, by=by, reason=reason, checked=checked)  # type: ignore[arg-type]


def shut(book: Book, key: str, evidence: str = "", **given: Any) -> None:
    """Close a check on sound proof, or on what is given; again if it was closed before."""
    check = check_of(book.job, key)
    take_picture(book.path.parent)
    new = close(check, "Ann", book.job.today, evidence, **given) if evidence else sound(check, day=book.job.today)
    book.act(f"Close {key}", [_put(book, new)])


def _put(book: Book, new: Closing) -> Change:
    old = book.job.of(Closing).get(new.tag)
    return edit(old, new) if old else add(new, keep_tag=True)


def shut_all(book: Book) -> None:
    """Close every open check, at once."""
    take_picture(book.path.parent)
    if still := standing(book.job).open:
        book.act("Close all", [_put(book, sound(each.check, day=book.job.today)) for each in still])


def check_of(job: Job, key: str) -> Any:
    """The check of a key."""
    return next(each for each in rough_in(job) if each.key == key)


def item_of(job: Job, key: str) -> Item:
    """A check of a key with how it stands."""
    return next(each for each in standing(job).items if each.key == key)


def stands(path: Path) -> Standing:
    """Where the job of a file is, as a copy of the program that opens it now sees it."""
    book = Book.open(path, "Eve", lambda: TODAY)
    try:
        return standing(book.job)
    finally:
        book.close()


def refused(book: Book, changes: Sequence[Change], error: type[Exception] = Held, why: str = "", says: str = "") -> str:
    """Try an action that must be refused and leave every byte as it was."""
    before = book.path.read_bytes()
    with pytest.raises(error) as caught:
        book.act("Try", changes, why)
    assert book.path.read_bytes() == before
    assert says in str(caught.value)
    if isinstance(caught.value, StudbookError) and not isinstance(caught.value, BadRecord):
        shaped(caught.value)
    return str(caught.value)


def by_hand(path: Path, change: Callable[[Any], object]) -> None:
    """Edit the file with a text editor."""
    rewrite(path, change)


def next_number(table: dict[str, Any]) -> str:
    """A free number of a table of the file."""
    return str(max(map(int, table), default=0) + 1)


def forged_passage(tables: Any, stage: str, *checked: str) -> None:
    """Write a passage into the file."""
    table = tables.setdefault("passage", {})
    number = next_number(table)
    table[number] = {
        "tag": f"P{number}", "stage": stage, "date": "2026-11-25", "by": "Eve", "checked": list(checked),
    }  # fmt: skip


def forged_passages(tables: Any, *stages: str) -> bool:
    """Write several passages into the file, each relying on Q1."""
    for stage in stages:
        forged_passage(tables, stage, "Q1")
    return True


def forged_closing(tables: Any, key: str, **given: Any) -> bool:
    """Write a closing into the file that looks like a whole one."""
    item = next(each for each in tables["check"].values() if each["tag"] == key)
    vouches = {"what": item["what"], "where": "", "evidence wanted": "", "belongs to": ""}
    table = tables.setdefault("closing", {})
    doc = {
        "tag": key, "date": "2026-11-25", "by": "Eve", "proof": "seen", "evidence": SEEN, "vouches": vouches, **given
    }  # fmt: skip
    table[next_number(table)] = {name: value for name, value in doc.items() if value is not None}
    return True


def forged_entry(tables: Any, *changes: tuple[str, str, Any, Any]) -> None:
    """Write an entry into the history that says these changes were made by the program."""
    number = next_number(tables["history"])
    tables["history"][number] = {
        "n": int(number), "at": "2026-11-25T10:00:00Z", "who": "Ann", "what": "Pass on", "seal": "0" * 24,
        "changes": [dict(zip(("kind", "tag", "before", "after"), each, strict=True)) for each in changes],
    }  # fmt: skip
    tables["_meta"]["1"]["last"] = int(number)


def claimed(path: Path, says: str = "", stage: str = "Drywall") -> None:
    """The file must open as claimed and not earned, and no passage on top of it may be made either."""
    now = stands(path)
    assert now.stage == "Rough-in"
    assert now.claimed == stage
    assert now.unearned
    assert says in now.unearned
    book = reopen(path, "Eve")
    with pytest.raises(Held):
        go_on(book, "a reason")
    assert standing(book.job).stage == "Rough-in"


def held(path: Path, says: str = "") -> None:
    """The gate must hold, and say what was done to the file."""
    book = reopen(path, "Eve")
    assert standing(book.job).stage == "Rough-in"
    with pytest.raises(Held) as caught:
        go_on(book, "a reason")
    assert says in str(caught.value)
    assert standing(reopen(path).job).stage == "Rough-in"


def never_gets_there(path: Path) -> None:
    """Whatever reasons are written, the job does not get past Rough-in; what was cut out may put it further back."""
    book = reopen(path, "Eve")
    with pytest.raises(Held) as caught:
        _go_as_far_as_it_goes(book)
    assert "outside of" in str(caught.value) or "history" in str(caught.value)
    assert STAGES.index(stands(path).stage) < DRYWALL


def _go_as_far_as_it_goes(book: Book) -> None:
    for _ in STAGES:
        assert STAGES.index(standing(book.job).stage) < DRYWALL
        go_on(book, "a reason")
