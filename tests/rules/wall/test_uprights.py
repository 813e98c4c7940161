"""The studs that are there: a row from any one found, odd, double and missing ones, and what openings change."""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.length import INCH_NM
from store.records.build import Fixing
from store.records.wall import BuildOut
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.build.backing import backing
from store.rules.cable.routes import studs_between
from store.rules.wall.layout import walls
from store.rules.wall.uprights import bays_at, studs_at, uprights
from tests.jobs.wall_jobs import ROOM, device, figure, found, job_of, made, obstacle, one, opening, panel, wall
from tests.rows import rows


def with_row(*more: Any, **values: Any) -> Job:
    """A wall of 144 x 96 in that carries nothing, one plate at the top, unless said otherwise."""
    return job_of(wall(top_plates="1", **values), *ROOM[1:], *more)


def centres(job: Job) -> list[float]:
    """Centres of the studs of W1 as found, inches."""
    return [each.centre_nm / INCH_NM for each in walls(job)["W1"].studs]


def at(job: Job, low: float, high: float, out: str = "") -> list[tuple[float, float]]:
    """Faces of what is upright between two heights, inches."""
    there = studs_at(job, "W1", round(low * INCH_NM), round(high * INCH_NM), out)
    return [(each.left_nm / INCH_NM, each.right_nm / INCH_NM) for each in there]


def test_any_stud_found_lays_out_the_row_to_both_sides() -> None:
    """Found at 80 in, 16 in apart: 16, 32, 48, 64 lie left of it as well; ends at 3/4 and 143-1/4."""
    row = [0.75, *range(16, 129, 16), 143.25]
    assert centres(with_row(first_stud=80)) == row
    assert centres(with_row(first_stud=16)) == row
    # Found at 8 in, the row is at 8, 24, 40 and so on.
    assert centres(with_row(first_stud=72))[1:4] == [8, 24, 40]


def test_missing_odd_and_double_studs_by_hand() -> None:
    """None at 48; one at 54; a double about 80, in place of the row's stud there."""
    job = with_row(first_stud=16, missing_studs=("48",), odd_studs=("54", "2 x 80"))
    assert centres(job) == [0.75, 16, 32, 54, 64, 79.25, 80.75, 96, 112, 128, 143.25]
    # The bay between 32 and 54: from 32-3/4 to 53-1/4.
    assert [each / INCH_NM for each in _bay(job, 40)] == [32.75, 53.25]


def _bay(job: Job, x: float) -> tuple[int, int]:
    return next(
        (each.left_nm, each.right_nm)
        for each in bays_at(job, "W1", 30 * INCH_NM, 30 * INCH_NM)
        if each.left_nm < x * INCH_NM < each.right_nm
    )


def test_studs_by_hand_alone_need_no_row() -> None:
    assert centres(with_row(odd_studs=("20", "51-1/2"))) == [20, 51.5]
    assert one(with_row(odd_studs=("twenty",)), "stud_not_read").tags == ("W1",)
    assert not found(with_row(odd_studs=("3 x 20",), missing_studs=("16",)), "stud_not_read")


def test_an_opening_takes_studs_and_brings_its_own() -> None:
    """An opening from 40 to 72 in, 30 to 60 in up, through studs at 48 and 64 in.

    Trimmers 1-1/2 in outside: 38-1/2 to 40 and 72 to 73-1/2; kings beside them: 37 to 38-1/2 and 73-1/2 to 75. Amid it
    the studs at 48 and 64 are gone; under its sill of 28-1/2 they stand as cripples; the row goes on at 32 and 80 in.
    """
    job = with_row(opening("N1", 40, 30, 32, 30, depth=4), first_stud=16)
    amid = at(job, 45, 45)
    assert [each for each in amid if 31 < each[0] < 80] == [
        (31.25, 32.75), (37, 38.5), (38.5, 40), (72, 73.5), (73.5, 75), (79.25, 80.75),
    ]  # fmt: skip
    assert (47.25, 48.75) in at(job, 20, 20)
    parts = {each.part for each in uprights(job, "W1")}
    assert parts == {"stud", "king stud", "trimmer", "cripple"}


def test_a_recess_no_deeper_than_a_notch_takes_none() -> None:
    """1-3/8 in less 1/2 in of board: 7/8 in into 3-1/2 in studs."""
    job = with_row(opening("N1", 40, 30, 32, 30, depth=1.375), first_stud=16)
    assert (47.25, 48.75) in at(job, 45, 45)


def test_a_cable_is_bored_through_what_is_there() -> None:
    """At 45 in up, from 30 to 80: stud 32, kings and trimmers of both sides, no 48 and 64; at 20 in the cripples."""
    job = with_row(opening("N1", 40, 30, 32, 30, depth=4), first_stud=16)
    amid = studs_between(job, "W1", 30 * INCH_NM, 79 * INCH_NM, level=45 * INCH_NM)
    assert amid is not None
    assert [each / INCH_NM for each in amid] == [32, 37.75, 39.25, 72.75, 74.25]
    low = studs_between(job, "W1", 41 * INCH_NM, 71 * INCH_NM, level=20 * INCH_NM)
    assert low is not None
    assert [each / INCH_NM for each in low] == [48, 64]


def test_a_box_and_a_panel_beside_a_king_stud() -> None:
    """Between stud 80 and king 75 there are 4-1/4 in: a box at 77 is in a bay; at 74 it is on the king stud."""
    there = opening("N1", 40, 30, 32, 30, depth=4)

    def bay(x: float) -> Any:
        return figure(with_row(there, made(Box, "B1", what="switch", wall="W1", x=x, y=45), first_stud=16), "B1", "bay")

    assert bay(74.25) == "on the stud at 6'-2 1/4\""
    assert isinstance(bay(77), int)
    assert found(with_row(there, panel("A1", 74, 40, 4, 6), first_stud=16), "panel_on_stud")
    # Under the opening there is no king, but the stud at 80 goes on: 66 to 78 in is clear of 64-3/4 and 79-1/4.
    assert not found(with_row(panel("A1", 67, 8, 10, 6), first_stud=16), "panel_on_stud")


def test_blocking_goes_between_the_studs_that_are_there() -> None:
    """Stud 48 is missing: the piece behind a bracket of 20 in about 48 in is 30-1/2 in, from 32-3/4 to 63-1/4."""
    screen = device("E1", 20, 12, 2, opening="", what="speaker", wall="W1", x=48, y=50)
    fixing = made(Fixing, "X1", of="E1", into="blocking", apart=3)
    pieces = backing(with_row(screen, fixing, first_stud=16, missing_studs=("48",)))["X1"]
    assert pieces is not None
    assert [(each.left_nm / INCH_NM, each.length_nm / INCH_NM) for each in pieces.blocks] == [(32.75, 30.5)]


def test_a_build_out_has_studs_of_its_own() -> None:
    """60 in wide from 42 in, a stud found at 66: 50 in and 82 too; ends at 42 and 100-1/2 (left faces)."""
    job = with_row(
        made(BuildOut, "U1", name="Breast", wall="W1", x=42, width=60, depth=24, first_stud=66), first_stud=16
    )
    assert at(job, 40, 40, "U1") == [(42, 43.5), (49.25, 50.75), (65.25, 66.75), (81.25, 82.75), (97.25, 98.75),
                                     (100.5, 102)]  # fmt: skip


def test_under_a_slope_a_stud_ends_at_the_ceiling() -> None:
    """At 128 in, where the line from 8 ft at 72 in to 5 ft at 144 in is at 68 in; less a plate that lies along it.

    The slope is 36 in 72, so that a plate of 1-1/2 in is 1-1/2 x √1.25 = 1.6771 in thick upright.
    """
    job = with_row(first_stud=16, ceiling_line=("0/8'", "6'/8'", "12'/5'"))
    (stud,) = [each for each in uprights(job, "W1") if each.left_nm == round(127.25 * INCH_NM)]
    assert stud.high_nm / INCH_NM == pytest.approx(68 - 1.5 * 1.25**0.5, abs=1e-6)


@rows(("depth", "work", "studs"), [(24, "framing", 0), (4, "framing", 2), (24, "cabinet", 0), (24, "masonry", 2)])
def test_a_cable_within_a_build_out_leaves_the_studs_behind_it_alone(depth: float, work: str, studs: int) -> None:
    """From 55 to 90 in: in 24 in of depth it runs behind the front's studs; furred out 4 in it goes through 66 and 82.

    Round masonry it runs in the wall, through 64 and 80 in.
    """
    job = with_row(
        made(BuildOut, "U1", name="Front", wall="W1", x=42, width=60, depth=depth, first_stud=66, work=work),
        made(Box, "B1", what="low-voltage", wall="W1", x=55, y=40),
        made(Box, "B2", what="low-voltage", wall="W1", x=90, y=40),
        made(Cable, "K1", type="cat6", rating="CMR", start="B1", end="B2"),
        first_stud=16,
    )
    assert figure(job, "K1", "studs_crossed") == studs


def test_studs_make_way_for_a_window_that_is_there() -> None:
    """36 to 60 in across and 30 to 60 up: those at 48 in end at its sill and begin over its header; king studs and
    trimmers stand beside it, and a run under it meets the cripple."""
    job = job_of(wall(first_stud=16), *ROOM[1:], obstacle("O1", "window", 36, 30, 24, 30))
    at = [(each.left_nm + each.right_nm) / 2 / INCH_NM for each in studs_at(job, "W1", 45 * INCH_NM, 45 * INCH_NM)]
    assert 48 not in at
    assert {33.75, 35.25, 60.75, 62.25} <= set(at), "a king stud and a trimmer at each side"
    below = [(each.left_nm + each.right_nm) / 2 / INCH_NM for each in studs_at(job, "W1", 10 * INCH_NM, 10 * INCH_NM)]
    assert 48 in below
    vent = job_of(wall(first_stud=16), *ROOM[1:], obstacle("O1", "vent", 36, 30, 24, 30))
    assert 48 * INCH_NM in [each.centre_nm for each in studs_at(vent, "W1", 45 * INCH_NM, 45 * INCH_NM)]
