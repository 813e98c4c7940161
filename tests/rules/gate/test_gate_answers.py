"""Answers to problems, passages of a new file, and inspections in one line: what each must have."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import msgspec
import pytest

from store.book.book import Book
from store.book.changes import add
from store.measure.errors import BadValue
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.gate import Answer, Passage
from store.rules.core.findings import NO_ANSWER, findings
from store.rules.core.proof import inspection_in
from store.rules.gate.gate import standing
from store.rules.gate.guard import Held
from tests.book.build import TODAY, puts, settings
from tests.jobs.gate_job import job_before, pass_to, refused
from tests.rows import rows
from tui.cli.main import main

STRIPS = (
    Equipment(tag="E1", name="one strip", what="strip", state="owned", plug=Ref("E2")),
    Equipment(tag="E2", name="strip", what="strip", state="owned"),
)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """A job that nothing but a strip on a strip holds."""
    return job_before("Drywall", tmp_path / "wall.json", *STRIPS)


def answer(book: Book, **given: object) -> Answer:
    (stop,) = (each for each in findings(book.job) if each.rule == "strip_on_strip")
    whole = Answer(
        tag=stop.key, date=TODAY, by="R. Wells", office="building department", reference="R-112",
        says="allowed for the test fit", vouches=dict(stop.numbers),
    )  # fmt: skip
    return msgspec.structs.replace(whole, **given)


def test_a_whole_answer_counts_and_is_shown_for_good(book: Book, capsys: pytest.CaptureFixture[str]) -> None:
    (stop,) = (each for each in findings(book.job) if each.rule == "strip_on_strip")
    for reference in ("1147", "letter of May 4", "R-112"):
        assert msgspec.structs.replace(stop, answer=answer(book, reference=reference)).answered, reference
    nobody = answer(book, office="", reference="")
    assert not msgspec.structs.replace(stop, answer=nobody).answered
    assert msgspec.structs.replace(stop, answer=nobody, severity="fix").answered
    book.act("Answer", [add(answer(book, says="allowed for testing"), keep_tag=True)])
    assert standing(book.job).holds == ()
    assert main(["status", str(book.path), "--all"]) == 0
    shown = "E1 one strip. Accepted by R. Wells, building department, R-112, Nov 25, 2026: allowed for testing"
    assert shown in capsys.readouterr().out


@pytest.mark.parametrize(
    "lacks",
    [
        {"by": "x"}, {"office": ""}, {"office": "ok"}, {"reference": ""}, {"reference": "x"}, {"says": "is fine"},
        {"says": "ok ok ok"}, {"date": TODAY + timedelta(days=1)},
    ],
    ids=str,
)  # fmt: skip
def test_an_answer_that_lacks_something_is_not_written(book: Book, lacks: dict[str, object]) -> None:
    refused(book, [add(answer(book, **lacks), keep_tag=True)], BadValue)
    assert standing(book.job).holds


def test_an_answer_to_nothing_is_not_written(book: Book) -> None:
    refused(book, [add(answer(book, tag="strip_on_strip:E8,E9"), keep_tag=True)], BadValue, says="no such problem")


def test_what_nobody_may_allow_takes_no_answer(tmp_path: Path) -> None:
    heater = Equipment(tag="E1", name="heater", what="heater", heats=True, state="owned", plug=Ref("E2"))
    book = job_before("Drywall", tmp_path / "wall.json", heater, STRIPS[1])
    (stop,) = (each for each in findings(book.job) if each.rule == "heater_on_strip")
    assert stop.rule in NO_ANSWER
    given = Answer(
        tag=stop.key, date=TODAY, by="R. Wells", office="building department", reference="R-112",
        says="allowed for the test fit", vouches=dict(stop.numbers),
    )  # fmt: skip
    refused(book, [add(given, keep_tag=True)], BadValue, says="No one can accept this")
    assert not msgspec.structs.replace(stop, answer=given).answered


def test_a_new_file_passes_no_stage_twice_and_none_before_its_time(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    one = pass_to("Design", reason="measured on paper")
    cases: list[tuple[list[Passage], str]] = [
        ([one, one], "recorded twice"),
        ([pass_to("Design", reason="x")], "without a reason"),
        ([pass_to("Design", reason="measured on paper", day=TODAY + timedelta(days=1))], "still to come"),
        ([one, pass_to("Mock-up", day=TODAY - timedelta(days=9))], "dated before"),
    ]
    for passages, says in cases:
        with pytest.raises((Held, BadValue), match=says):
            Book.create(path, puts([settings(), *passages]), "Eve", "Begin", lambda: TODAY)
        assert not path.exists()


@rows(
    ("words", "wanted"),
    [
        ("R. Wells, R-112", ("R. Wells", "R-112", TODAY)),
        ("R. Wells; R-112; 2026-11-20", ("R. Wells", "R-112", date(2026, 11, 20))),
        ("R. Wells, R-112, some day", ("R. Wells", "R-112", None)),
        ("R. Wells", ("R. Wells", "", TODAY)),
    ],
)
def test_an_inspection_is_read_from_one_line(words: str, wanted: tuple[str, str, date | None]) -> None:
    assert inspection_in(words, TODAY) == wanted
