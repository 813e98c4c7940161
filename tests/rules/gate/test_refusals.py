"""Every refusal has the shape of a finding: the problem in 60 characters, each tag once, then why and what to do.

Those of the gate are looked at by `refused` of `tests/jobs/gate_job.py`; here are their texts in the
code, wherever one is raised, and those of records, imports, undo and edits outside of the program as they come.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import pytest

import store
import templates
import tui
from store.book.changes import Put, drop
from store.book.outside.accepting import accept_history
from store.book.outside.confirming import confirm
from store.measure.errors import StudbookError, headed
from store.records.equipment import Equipment
from store.records.field import Manner, fields_of
from store.records.gate import Check
from store.records.whole import KINDS, Outside
from store.rules.core.headline import MOST
from store.rules.drawing.moving import movable
from store.rules.gate.held import NeedsReason
from templates.spreadsheet.reading import How, read_import
from tests.book.build import check, make, reopen, rewrite, wall
from tests.jobs.refusals import DOES, shaped
from tests.sources import nodes

REFUSALS = {"BadValue", "Held", "NeedsReason", "Conflict", "BadRows", "Asked"}
PLACEHOLDER = "mmmm"
"""A placeholder is at least about as long as a tag."""


def _raised(package: str) -> Iterator[tuple[str, str]]:
    """Each text with which a refusal is raised, with its place; placeholders are cut to a few letters."""
    for path in sorted(Path(package).rglob("*.py")):
        for node in nodes(path):
            if not isinstance(node, ast.Raise) or not isinstance(call := node.exc, ast.Call):
                continue
            if not isinstance(call.func, ast.Name) or call.func.id not in REFUSALS:
                continue
            text = call.args[0]
            if isinstance(text, ast.Constant):
                yield f"{path.name}:{node.lineno}", str(text.value)
            elif isinstance(text, ast.JoinedStr):
                parts = [str(each.value) if isinstance(each, ast.Constant) else PLACEHOLDER for each in text.values]
                yield f"{path.name}:{node.lineno}", "".join(parts)


def test_every_text_of_a_refusal_begins_with_a_headline_and_says_what_to_do() -> None:
    texts = [each for package in (store, templates, tui) for each in _raised(next(iter(package.__path__)))]
    assert len(texts) > 120
    # A path comes before its reason, and a reason in a file is told with file and place by what reads it.
    reasons = (f"{PLACEHOLDER}:", "it ")
    ours = [(at, text) for at, text in texts if not text.startswith(reasons) and not text.endswith(f": {PLACEHOLDER}")]
    long = [(at, headed(text)[0]) for at, text in ours if len(headed(text)[0]) > MOST]
    assert long == []
    idle = [(at, text) for at, text in ours if not DOES.search(headed(text)[1]) and PLACEHOLDER not in headed(text)[1]]
    assert idle == []


def test_what_no_field_takes_is_told_in_that_shape() -> None:
    """Of each field of each kind of record: a long text that is of no sort, and nothing where something must be."""
    manner = Manner(date(2026, 11, 25))
    refused = 0
    for kind in KINDS.values():
        for field in fields_of(kind):
            for typed in ("x" * 30 + " no such thing", "-5", "", "1/0"):
                try:
                    field.read(typed, manner)
                except StudbookError as error:
                    shaped(error)
                    refused += 1
    assert refused > 300


def test_refusals_of_records_imports_undo_and_outside_edits(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = make(path, wall("W1"), check("Blocks behind the screen, and straps at every stud of it", "Q1"))
    long = "A very long name of a receiver that goes on and on to the end"
    book.act("Add", [Put("equipment", "E1", {"name": long}, new=True)])
    one = book.job.of(Equipment)["E1"]

    def of_csv(text: str) -> Callable[[], object]:
        return lambda: read_import(book.job, Equipment, text.encode(), How())

    acts: list[Callable[[], object]] = [
        lambda: book.act("Edit", [Put("equipment", "E1", {"opening": "N9"})]),
        lambda: book.act("Edit", [Put("equipment", "E1", {"opening": "W1"})]),
        lambda: book.act("Edit", [Put("equipment", "E1", {"plug": "E1"})]),
        lambda: book.act("Edit", [Put("equipment", "E1", {"name": " "})]),
        lambda: book.act("Edit", [Put("equipment", "E1", {"tag": "E2"})]),
        lambda: book.act("Edit", [Put("equipment", "E7", {"name": "x"})]),
        lambda: book.act("Edit", [Put("equipment", "E1", {"name": "x"}, {"name": "seen"})]),
        lambda: book.act("Add", [Put("equipment", "E1", {"name": "x"}, new=True)]),
        lambda: book.act("Add", [Put("equipment", "K1", {"name": "x"}, new=True)]),
        lambda: book.act("Add", [Put("closing", "", {}, new=True)]),
        lambda: book.act("Drop", [drop(book.job.settings)]),
        lambda: book.act("Drop", [drop(book.job.of(Check)["Q1"])]),
        lambda: confirm(book, Outside("equipment", "E1", "changed", ("name",)), ["name"], "Ann", "a slip"),
        lambda: accept_history(book, "a slip of the hand"),
        lambda: movable(book.job, "E1"),
        of_csv(""),
        of_csv("colour,taste\nred,sweet\n"),
        of_csv(f"name,opening\n{long},N9\n"),
        of_csv("name,width\nFan,wide\n"),
        of_csv('name\n"Fan\n'),
    ]
    for act in acts:
        with pytest.raises(StudbookError) as caught:
            act()
        shaped(caught.value)
    assert book.job.of(Equipment)["E1"] == one
    with pytest.raises(NeedsReason, match="no reason to delete a rough-in item, Q1"):
        book.act("Drop", [drop(book.job.of(Check)["Q1"])])


def test_what_was_changed_outside_is_refused_in_that_shape(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    make(path, wall("W1")).act("Add", [Put("equipment", "E1", {"name": "Receiver"}, new=True)])

    def longer(tables: dict[str, dict[str, dict[str, object]]]) -> None:
        tables["equipment"]["1"]["name"] = "Another receiver"

    rewrite(path, longer)
    book = reopen(path)
    (edit,) = book.job.outside
    for act in (
        lambda: confirm(book, edit, [], "Ann", "a slip of the hand"),
        lambda: confirm(book, edit, ["depth"], "Ann", "a slip of the hand"),
        lambda: confirm(book, edit, ["name"], "", ""),
        lambda: book.act("Edit", [Put("equipment", "E1", {"name": "Amplifier"})]),
    ):
        with pytest.raises(StudbookError) as caught:
            act()
        shaped(caught.value)
