"""Corners read by 3-4-5, and two readings that differ by right."""

from __future__ import annotations

from store.measure.length import INCH_NM
from store.rules.wall.squareness import corners
from tests.jobs.wall_jobs import ROOM, figure, found, job_of, one, opening, read
from tests.rows import rows


@rows(("across", "way"), [("5'", ""), ("5' 3/16", "open by 1/4"), ("4' 11 3/4", "closed by 5/16")])
def test_a_corner_by_three_four_five(across: str, way: str) -> None:
    """36 and 48 in. Law of cosines: 60-3/16 in across is 90.3°, the end of 48 in 5/16 - a hair out; 59-3/4 in closed.

    (36² + 48² - 60.1875²) / (2 · 36) = (3600 - 3622.535) / 72 = -0.313 in; (3600 - 3570.0625) / 72 = 0.416 in.
    """
    job = job_of(*ROOM, read("D3", "left corner", across))
    told = found(job, "corner_not_square")
    assert bool(told) == bool(way)
    (corner,) = corners(job)["W1"]
    assert corner.found is not None
    off = {"5'": 0, "5' 3/16": 0.31299, "4' 11 3/4": -0.41580}[across]
    assert abs(corner.found.off_nm / INCH_NM - off) < 1e-4
    if told:
        assert told[0].head.split(" by ")[0] == f"The left corner is {way.split(' by ', maxsplit=1)[0]}"
        assert figure(job, "W1", "left_corner_deg") == round(corner.found.angle_deg, 2)


def test_over_six_eight_ten_and_at_the_depth_of_a_cabinet() -> None:
    """72 and 96 in, 120-1/2 in across: 0.836 in out over 96 in; over a cabinet 24 in deep 0.209 in, about 3/16."""
    deep = opening("N1", 120, 0, 24, 30, depth=24)
    job = job_of(*ROOM, read("D3", "right corner", 120.5), deep)
    told = one(job, "corner_not_square")
    assert told.head == 'The right corner is open by ~13/16"'
    assert 'Over the 24" depth of N1 that is ~3/16".' in told.why
    assert "10'-0\"" in told.why
    clear = job_of(*ROOM, read("D3", "right corner", 120.5), opening("N1", 60, 0, 24, 30, depth=24))
    assert "N1" not in one(clear, "corner_not_square").why


def test_what_makes_no_triangle_is_read_again() -> None:
    assert "cannot read" in one(job_of(*ROOM, read("D3", "left corner", 6)), "corner_not_square").head


def test_two_different_diagonals_are_no_slip_of_the_tape() -> None:
    """A wall 1 ft out of square has diagonals 1 ft apart; two readings of one of them do not differ so."""
    differ = job_of(*ROOM, read("D3", "diagonal", 173, where="up"), read("D4", "diagonal", 174, where="down"))
    assert not found(differ, "likely_slip")
    assert found(differ, "out_of_square")
    assert not found(job_of(*ROOM, read("D3", "diagonal", 173), read("D4", "diagonal", 174)), "likely_slip")
    twice = job_of(*ROOM, read("D3", "diagonal", 173, where="Up"), read("D4", "diagonal", 174, where="up"))
    assert found(twice, "likely_slip")
    lean = read("D3", "out of plumb", 1, where="left"), read("D4", "out of plumb", 2, where="right")
    assert not found(job_of(*ROOM, *lean), "likely_slip")
