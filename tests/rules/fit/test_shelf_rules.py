"""Shelves: what sags is told, what does not is not, and the figures agree with the beam formula worked by hand."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from store.measure.length import INCH_NM
from store.measure.mass import parse_mass
from store.records.whole import Job
from tests.jobs.wall_jobs import ROOM, device, figure, found, job_of, one, opening


def shelf(weight: str = "60 lb", *, width: float = 37.5, more: tuple[Any, ...] = (), **values: Any) -> Job:
    """A board of 3/4 in plywood, 36 in between its sides and 12 in deep, with something on it."""
    given = {"use": "shelf", "material": "plywood", "thickness": "3/4 in", "depth": 12, **values}
    return job_of(
        *ROOM, opening("N1", 10, 10, width, 20, **given), device("E1", 17, 6, 11, weight=parse_mass(weight)), *more
    )


def test_the_sag_is_that_of_the_beam_formula() -> None:
    # I = 12 · 0.75³ / 12 = 0.421875 in⁴; 5/384 · 60 · 36³ / (1.01e6 · 0.421875) · 2 for a lasting load = 0.1711 in.
    job = shelf()
    assert figure(job, "N1", "sag").nm / INCH_NM == pytest.approx(0.1711, abs=0.0005)
    # Books, 20 lb a foot, are 60 lb on 3 ft too.
    assert figure(job, "N1", "sag_with_books") == figure(job, "N1", "sag")
    assert figure(job, "N1", "sag_seen").nm / INCH_NM == pytest.approx(0.06)
    longest = figure(job, "N1", "longest_with_books").nm / INCH_NM
    # At the longest span the sag is just what is seen: 36 · (0.06 / 0.1711)^(1/3), as it grows by the fourth power.
    assert longest == pytest.approx(36 * (0.06 / 0.1711) ** (1 / 3), rel=0.001)


def test_a_board_that_bends_is_told_and_a_stiffer_or_lighter_one_is_not() -> None:
    finding = one(shelf(), "shelf_sags")
    assert (finding.severity, finding.tags) == ("look", ("N1", "E1"))
    assert "60 lb" in finding.says
    assert found(shelf(thickness="1-1/2 in", width=39), "shelf_sags") == []
    assert found(shelf("15 lb"), "shelf_sags") == []


@pytest.mark.parametrize("values", [{"material": ""}, {"material": "glass"}, {"use": "screen"}, {"thickness": None}])
def test_of_what_is_not_noted_nothing_is_said(values: dict[str, Any]) -> None:
    assert found(shelf(**values), "shelf_sags") == []
    assert figure(shelf(**values), "N1", "sag_seen") is None


def test_what_hangs_or_is_gone_does_not_press_on_the_board() -> None:
    heavy = parse_mass("200 lb")
    gone = device("E2", 9, 6, 9, weight=heavy, retired=date(2026, 1, 1))
    hung = device("E3", 9, 6, 9, weight=heavy, mounting="wall bracket")
    assert found(shelf("10 lb", more=(gone, hung)), "shelf_sags") == []


def test_a_metric_job_reads_kilograms() -> None:
    assert (
        "27 kg"
        in one(job_of(*(each for each in shelf().each() if each.kind != "job"), units="millimetres"), "shelf_sags").says
    )
