"""A new job from a dozen answers: on the command line, and on the screen."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec
import pytest

from store.book.book import Book
from store.book.changes import edit
from store.records.field import fields_of
from store.records.people import Contact, Step
from store.records.wall import Opening
from store.records.whole import references
from store.rules.core.proposed import proposals
from store.rules.first_plan.layout import Asked
from templates.starters.first_plan import PLANNED, Questions, asked_of, manner_of, planned, usual
from templates.starters.load import BadStarter

TODAY = date(2026, 3, 2)


@pytest.mark.parametrize("region", ["us", "metric"])
def test_the_usual_answers_make_a_job_whose_references_hold(tmp_path: Path, region: str) -> None:
    place = "us" if region == "us" else "metric"
    path = tmp_path / "job.json"
    book = Book.create(path, planned(asked_of(usual(place), place), TODAY), "Robin", "Start")  # type: ignore[arg-type]
    job = book.job
    assert job.of(Contact)
    assert job.of(Step)
    for record in job.each():
        for _, tag, _ in references(record):
            assert job.get(tag) is not None, (record.tag, tag)
    assert "N1" in proposals(job)
    one = job.of(Opening)["N1"]
    book.act("Edit N1", [edit(one, msgspec.structs.replace(one, name="Mine"))])
    assert "N1" not in proposals(book.job)
    assert "N2" in proposals(book.job)
    book.close()


def test_what_does_not_fit_is_refused_with_the_length_in_the_units_of_the_region() -> None:
    small = msgspec.structs.replace(Asked(), width_nm=Asked().width_nm // 2)
    with pytest.raises(BadStarter, match=r"wall too narrow by 3'-2"):
        planned(small, TODAY)
    with pytest.raises(BadStarter, match=r"by ~?\d+ mm"):
        planned(msgspec.structs.replace(small, region="metric"), TODAY)


def test_the_starters_with_a_plan_are_shipped() -> None:
    assert set(PLANNED.values()) == {"us", "metric"}


def test_the_answers_that_stand_there_are_in_the_units_of_the_region() -> None:
    field = next(each for each in fields_of(Questions) if each.key == "fireplace")
    for region, text in (("us", '50"'), ("metric", "1270 mm")):
        assert field.edit(usual(region)["fireplace"], manner_of(region, TODAY)) == text  # type: ignore[arg-type]
