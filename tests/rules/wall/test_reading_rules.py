"""The wall as measured: governing sizes, scribe, squareness, old and doubtful readings, studs and bays."""

from __future__ import annotations

from datetime import date

import pytest

from store.measure.length import INCH_NM, Length, inches
from store.records.wall import Reading
from store.records.whole import Job
from store.records.wiring import Box
from tests.jobs.wall_jobs import ROOM, figure, found, job_of, made, one, opening, read, wall
from tests.rows import rows


def test_the_least_governs_and_the_scribe_covers_the_rest() -> None:
    job = job_of(
        wall(),
        read("D1", "width", "11' 11 3/4\""),
        read("D2", "width", "12'"),
        read("D3", "width", "11' 11 13/16\""),
        read("D4", "height", 96),
        read("D5", "depth", "22 1/8"),
        read("D6", "depth", "22"),
    )
    assert figure(job, "W1", "width_to_build") == inches(143.75)
    assert figure(job, "W1", "height_to_build") == inches(96)
    assert figure(job, "W1", "depth_to_build") == inches(22)
    assert figure(job, "W1", "scribe") == inches(0.25)
    assert figure(job, "W1", "width_readings") == 3


def test_a_spread_is_told_beyond_the_tolerance_only() -> None:
    within = job_of(wall(), read("D1", "width", 144), read("D2", "width", "144 1/8"))
    beyond = job_of(wall(), read("D1", "width", 144), read("D2", "width", "144 3/16"))
    assert not found(within, "spread_beyond_tolerance")
    assert one(beyond, "spread_beyond_tolerance").tags == ("W1", "D1", "D2")
    assert '3/16"' in one(beyond, "spread_beyond_tolerance").says


def test_trim_that_covers_less_than_the_width_varies_is_to_be_fixed() -> None:
    readings = (read("D1", "width", 144), read("D2", "width", "144 1/2"))
    assert not found(job_of(wall(scribe="1/2"), *readings), "scribe_too_small")
    assert one(job_of(wall(scribe="7/16"), *readings), "scribe_too_small").severity == "fix"


def test_readings_from_before_the_framing_are_stale() -> None:
    framed = date(2026, 4, 10)
    job = job_of(
        wall(framed=framed),
        read("D1", "width", 144, date=date(2026, 4, 9)),
        read("D2", "width", 144, date=framed),
        read("D3", "height", 96),
    )
    assert one(job, "stale_readings").tags == ("W1", "D1")
    assert one(job, "undated_readings").tags == ("W1", "D3")
    assert not found(job_of(wall(), read("D1", "width", 144)), "undated_readings")


@rows(
    ("second", "slip"),
    [("132", "one foot"), ("132 1/2", "one foot"), ("134", "ten inches"), ("133 1/4", ""), ("143 1/2", "")],
)
def test_a_difference_like_a_slip_is_called_one(second: str, slip: str) -> None:
    job = job_of(wall(), read("D1", "width", 144), read("D2", "width", second))
    assert [each.numbers["slip"] for each in found(job, "likely_slip")] == ([slip] if slip else [])


def test_a_lean_follows_from_two_diagonals() -> None:
    # 144 in wide, sides 96 in along the slope, top 1 in to the right: by coordinates, not by the law of cosines.
    up = (96**2 - 1) ** 0.5
    rising, falling = (145**2 + up**2) ** 0.5, (143**2 + up**2) ** 0.5
    job = job_of(
        *ROOM,
        read("D3", "diagonal", Length(round(rising * INCH_NM)), where="A to C"),
        read("D4", "diagonal", Length(round(falling * INCH_NM)), where="B to D"),
    )
    assert figure(job, "W1", "out_of_square").inches == pytest.approx(1, abs=1e-6)
    assert figure(job, "W1", "out_of_square_deg") == pytest.approx(0.597, abs=1e-3)
    assert one(job, "out_of_square").severity == "look"


def test_of_one_diagonal_read_twice_the_least_counts() -> None:
    job = job_of(
        wall(),
        read("D1", "width", 36),
        read("D2", "height", 48),
        read("D3", "diagonal", 60, where="A to C"),
        read("D4", "diagonal", "60 1/2", where="a to  c"),
        read("D5", "diagonal", 60, where="B to D"),
    )
    assert figure(job, "W1", "out_of_square") == inches(0)
    assert not found(job, "out_of_square")


def test_three_four_five_shows_a_corner_out_of_square_by_one_diagonal() -> None:
    square = job_of(wall(), read("D1", "width", 36), read("D2", "height", 48), read("D3", "diagonal", 60))
    open_corner = job_of(wall(), read("D1", "width", 36), read("D2", "height", 48), read("D3", "diagonal", "60 3/8"))
    assert figure(square, "W1", "out_of_square") == inches(0)
    # (60.375² - 36² - 48²) / (2 · 36), by hand.
    assert figure(open_corner, "W1", "out_of_square").inches == pytest.approx(45.140625 / 72, abs=1e-6)
    assert not found(square, "out_of_square")
    assert '5/8"' in one(open_corner, "out_of_square").says
    assert "the other diagonal" in one(open_corner, "out_of_square").remedy


def test_diagonals_that_the_sides_do_not_allow_are_told() -> None:
    # 36, 48, 60 is right; both diagonals long by as much cannot come from a lean.
    sides = (wall(), read("D1", "width", 36), read("D2", "height", 48))

    def both(size: str, *more: Reading) -> Job:
        return job_of(
            *sides, *more, read("D3", "diagonal", size, where="A to C"), read("D4", "diagonal", size, where="B to D")
        )

    assert not found(both("60 1/8"), "diagonals_misfit")
    assert one(both("60 9/64"), "diagonals_misfit").severity == "look"
    assert one(both("60 1/4"), "diagonals_misfit").numbers == {"by": '1/4"', "way": "longer"}
    assert one(both("59 3/4"), "diagonals_misfit").numbers == {"by": '1/4"', "way": "shorter"}
    # Where the width itself varies by 1/8 in, so may the diagonals.
    assert not found(both("60 1/4", read("D5", "width", "36 1/8")), "diagonals_misfit")


def test_a_slip_is_seen_between_any_two_readings() -> None:
    job = job_of(wall(), read("D1", "width", 100), read("D2", "width", "100 1/4"), read("D3", "width", 110))
    slip = one(job, "likely_slip")
    assert slip.tags == ("D3", "D1")
    assert slip.numbers["slip"] == "ten inches"


def test_diagonals_that_no_wall_has_are_told() -> None:
    job = job_of(*ROOM, read("D3", "diagonal", 60, where="A to C"), read("D4", "diagonal", 300, where="B to D"))
    assert one(job, "diagonals_impossible").tags == ("W1", "D3", "D4")
    assert figure(job, "W1", "out_of_square") is None


def test_studs_and_bays() -> None:
    job = job_of(
        wall(first_stud=16),
        *ROOM[1:],
        opening("N1", 16.75, 40, 14.5, 10),
        opening("N2", 16, 60, 30, 10),
        made(Box, "B1", what="receptacle", wall="W1", x=24, y=12),
        made(Box, "B2", what="receptacle", wall="W1", x=32, y=12),
    )
    assert figure(job, "W1", "studs")[:4] == ['3/4"', "1'-4\"", "2'-8\"", "4'-0\""]
    # Bay 1 from the end stud's 1 1/2 in to 15 1/4 in; bay 2 from 16 3/4 in to 31 1/4 in.
    assert figure(job, "W1", "bays")[:2] == ["1'-1 3/4\"", "1'-2 1/2\""]
    assert figure(job, "N1", "bay") == 2
    assert figure(job, "N1", "studs_cut") is None
    assert figure(job, "N2", "bay") == "2 to 3"
    assert figure(job, "N2", "studs_cut") == ["1'-4\"", "2'-8\""]
    assert figure(job, "B1", "bay") == 2
    assert figure(job, "B2", "bay") == "on the stud at 2'-8\""


def test_without_first_stud_no_bay_is_known() -> None:
    job = job_of(*ROOM, opening("N1", 16, 40, 30, 10))
    assert figure(job, "N1", "bay") is None
    assert figure(job, "W1", "studs") is None
