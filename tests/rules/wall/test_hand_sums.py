"""Twelve walls as people have them, with every stick, run and fit worked out by hand; lengths in inches.

Studs are 1-1/2 x 3-1/2, 16 on center; of a wall 96 high with two top plates a stud is 96 - 3 x 1-1/2 = 91-1/2. Beside
an opening are a king stud and a trimmer; above one of more than 24 under the plate nobody sized the header, and a flat
two-by is counted. The jobs are in `tests/jobs/real_walls`.
"""

from __future__ import annotations

import tempfile
from collections import Counter
from collections.abc import Iterator
from datetime import date
from functools import cache
from math import hypot
from pathlib import Path

import msgspec
import pytest

from store.measure.length import INCH_NM, Length
from store.records.wall import BuildOut, Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.build.boards import boards
from store.rules.build.framing import framed
from store.rules.cable.routes import routes
from store.rules.drawing.tape_marks import tape_sheet
from store.rules.fit.fit import pieces
from store.rules.wall.layout import walls
from tests.jobs.begun import begun
from tests.jobs.wall_jobs import figure, found

FOLDER = Path(__file__).parents[2] / "jobs" / "real_walls"
WALLS = sorted(each.stem for each in FOLDER.glob("*.toml"))
TODAY = date(2026, 5, 4)
FLAT = {("stud", 91.5): 10, ("bottom plate", 144): 1, ("top plate", 144): 2}
"""A wall of 144 x 96 in which nothing is cut: ends, and 16 to 128."""
FRAMING: dict[str, dict[tuple[str, float], int]] = {
    # Front 60 x 96 with studs 42, 50, 66, 82, 98, 102: the recess 50 to 94, 8 to 28 takes 50, 66, 82. Returns 20-1/2.
    # The hollow behind it is closed at the ceiling by a fire block.
    "01-breast": {**FLAT, ("fire block", 60): 1,
        ("bottom plate", 60): 1, ("top plate", 60): 1, ("bottom plate", 20.5): 2,
        ("top plate", 20.5): 2, ("stud", 93): 7, ("king stud", 93): 2, ("trimmer", 26.5): 2, ("cripple", 65): 3,
        ("cripple", 5): 2, ("header", 47): 1, ("sill", 44): 1},
    # Under 36 in 72 a plate is 1-1/2 x √1.25 thick upright: at 80 the ceiling is at 92, at 96 at 84, and so on.
    "02-attic": {("bottom plate", 144): 1, ("top plate", 72): 2, ("top plate", hypot(72, 36)): 2, ("stud", 91.5): 3,
        **{("stud", high - 1.5 - 3 * 1.25**0.5): 1 for high in (92, 84, 76, 68, 60.375)},
        ("king stud", 91.5): 1, ("king stud", 94.875 - 1.5 - 3 * 1.25**0.5): 1, ("trimmer", 88.5): 2,
        ("cripple", 57): 1, ("cripple", 1.5): 2, ("header", 27): 1, ("sill", 24): 1},
    # The soffit is 12 high and goes from wall to wall: studs of 9, and a joist of 8-1/2 at each.
    "03-soffit": {**FLAT, ("bottom plate", 144): 2, ("top plate", 144): 3, ("stud", 9): 10, ("blocking", 8.5): 10},
    "04-corner": {**FLAT, ("stud", 91.5): 7, ("king stud", 91.5): 2, ("trimmer", 42.5): 2, ("cripple", 47.5): 3,
        ("cripple", 17): 3, ("header", 43): 1, ("sill", 40): 1},
    "05-floating": FLAT,
    # The left king, 49 to 50-1/2, takes the place of the stud at 50. Returns 12 - 3-1/2.
    "06-stone": {**FLAT, ("fire block", 60): 1,
        ("bottom plate", 60): 1, ("top plate", 60): 1, ("bottom plate", 8.5): 2,
        ("top plate", 8.5): 2,
        ("stud", 93): 5, ("king stud", 93): 2, ("trimmer", 26.5): 2, ("cripple", 65): 2, ("cripple", 7): 2,
        ("header", 43): 1, ("sill", 40): 1},
    "07-mantel": {**FLAT, ("fire block", 60): 1,
        ("bottom plate", 60): 1, ("top plate", 60): 1, ("bottom plate", 16.5): 2,
        ("top plate", 16.5): 2, ("stud", 93): 7, ("king stud", 93): 2, ("trimmer", 26.5): 2, ("cripple", 65): 3,
        ("cripple", 5): 2, ("header", 47): 1, ("sill", 44): 1},
    # The door 70 to 102 takes 80 and 96, the recess 112 to 160.
    "08-door": {("bottom plate", 180): 1, ("top plate", 180): 2, ("stud", 91.5): 7, ("king stud", 91.5): 4,
        ("trimmer", 78.5): 2, ("trimmer", 70.5): 2, ("cripple", 37): 3, ("cripple", 19.5): 4, ("cripple", 11.5): 2,
        ("header", 53): 1, ("header", 35): 1, ("sill", 50): 1},
    # The window 50 to 90 takes 64 and 80; its left king, 47 to 48-1/2, the place of 48.
    "09-window": {**FLAT, ("stud", 91.5): 7, ("king stud", 91.5): 2, ("trimmer", 74.5): 2, ("cripple", 33): 2,
        ("cripple", 15.5): 2, ("header", 43): 1, ("sill", 40): 1},
    "10-vent": {**FLAT, ("stud", 91.5): 7, ("king stud", 91.5): 2, ("trimmer", 62.5): 2, ("cripple", 37): 3,
        ("cripple", 27.5): 3, ("header", 43): 1, ("sill", 40): 1},
    # Ends, 16, 30-1/2, 32, 48, a double at 64, none at 80, 96: and 112, 128 which the recess takes.
    "11-double": {**FLAT, ("stud", 91.5): 9, ("king stud", 91.5): 2, ("trimmer", 48.5): 2, ("cripple", 41.5): 2,
        ("cripple", 27): 2, ("header", 33): 1, ("sill", 30): 1},
    # Both kings of the niche take the places of the studs at 56 and 88. W2 alone here.
    "12-three": {**FLAT, ("fire block", 40): 1,
        ("bottom plate", 40): 1, ("top plate", 40): 1, ("bottom plate", 16.5): 2,
        ("top plate", 16.5): 2, ("stud", 93): 6, ("king stud", 93): 2, ("trimmer", 48.5): 2, ("cripple", 43): 1,
        ("cripple", 27): 1, ("header", 31): 1, ("sill", 28): 1},
}  # fmt: skip
"""By job: how many of each part and length."""
RUNS: dict[str, dict[str, tuple[float, int]]] = {
    "01-breast": {"K1": (52 + 36 + 24, 3), "K2": (100, 6), "K3": (72 + 100 + 72, 0)},
    "02-attic": {"K1": (78 + 32, 8), "K2": (80 + 42 + hypot(48, 24) + 56, 0), "K3": (90, 9)},
    "03-soffit": {"K1": (36 + 6, 0), "K2": (60 + 4, 4)},
    "04-corner": {"K1": (124 + 60, 16), "K2": (44 + 60 + 24, 7), "K3": (80 + 124 + 60 + 80, 0)},
    "05-floating": {"K1": (24.5 + 30, 2), "K2": (70, 4), "K3": (hypot(32, 1.5), 0)},
    "06-stone": {"K1": (42 + 50 + 12, 3)},
    "07-mantel": {"K1": (52 + 46 + 20, 3)},
    "08-door": {"K1": (105 + 40, 11), "K2": (80 + 105 + 40, 0), "K3": (68 + 105 + 28, 10)},
    "09-window": {"K1": (98 + 4, 7), "K2": (46 + 98 + 42, 0), "K3": (50 + 98 + 54, 0)},
    "10-vent": {"K1": (90 + 7, 7), "K2": (70 + 44, 5)},
    "11-double": {"K1": (96, 9), "K2": (80 + 54, 6)},
    "12-three": {"K1": (132 + 50 + 20, 10), "K2": (60 + 144 + 40 + 6, 18), "K3": (72 + 40 + 44 + 20, 8),
        "K4": (80 + 60 + 144 + 40 + 74, 0)},
}  # fmt: skip
"""Length of each cable on the plan, and the studs that it is bored through."""
FITS: dict[str, dict[str, tuple[float, float, float]]] = {
    "01-breast": {"E3": (34 - 1.5 - 17, 30 - 1.5 - 6 - 2, 0)},
    "02-attic": {"E2": (50 - 1.5 - 17, 20 - 1.5 - 5 - 2, 2)},
    "03-soffit": {"E2": (60 - 1.5 - 17, 24 - 1.5 - 5 - 2, 3)},
    "07-mantel": {"E1": (2, 1, 4)},
    "08-door": {"E1": (50 - 1.5 - 17, 24 - 1.5 - 6 - 2, 2)},
    "09-window": {"E2": (40 - 1.5 - 17, 20 - 1.5 - 6 - 2, 2)},
    "12-three": {"E2": (40 - 1.5 - 17, 24 - 1.5 - 5 - 2, 2)},
}
"""Spare across, up and deep: inside less body and what the maker asks for."""


@cache
def wall_of(name: str) -> Job:
    with tempfile.TemporaryDirectory() as folder:
        return begun(Path(folder, "job.json"), str(FOLDER / f"{name}.toml"), TODAY).job


def main_wall(name: str) -> str:
    return "W2" if name == "12-three" else "W1"


@pytest.mark.parametrize("name", WALLS)
def test_every_stick_run_and_fit(name: str) -> None:
    job = wall_of(name)
    frame = framed(job)[main_wall(name)]
    assert frame is not None
    sticks = Counter((each.part, round(each.length_nm / INCH_NM, 3)) for each in frame.all)
    assert dict(sticks) == {(part, round(long, 3)): count for (part, long), count in FRAMING[name].items()}
    runs = {tag: (route.path or 0, route.studs) for tag, route in routes(job).items()}
    assert {tag: (round(path / INCH_NM, 3), studs) for tag, (path, studs) in runs.items()} == {
        tag: (round(path, 3), studs) for tag, (path, studs) in RUNS[name].items()
    }
    for tag, spare in FITS.get(name, {}).items():
        one = pieces(job)[tag]
        there = (one.width_spare_nm, one.height_spare_nm, one.depth_spare_nm)
        assert [each / INCH_NM for each in there if each is not None] == list(spare)


def outlines(name: str) -> Iterator[tuple[str, tuple[float, ...]]]:
    """Left, right, bottom, top and diagonal of each row of a tape sheet, inches."""
    for row in tape_sheet(wall_of(name), main_wall(name)).rows:
        ends = row.left_nm, row.right_nm, row.bottom_nm, row.top_nm
        yield row.tag, tuple(round(each / INCH_NM, 3) for each in ends)


def test_tape_sheets_of_what_is_not_a_plain_opening() -> None:
    """What hangs is entered by its center, a build-out by its left return; on the tape all have edges."""
    assert dict(outlines("01-breast")) == {
        "N2": (4, 38, 10, 40), "U1": (42, 102, 0, 96), "E2": (43, 101, 31.5, 36.5), "E1": (43.5, 100.5, 39.5, 72.5),
        "N1": (50, 94, 8, 28), "N3": (106, 140, 10, 40),
    }  # fmt: skip
    assert dict(outlines("03-soffit"))["U1"] == (0, 144, 84, 96)
    assert dict(outlines("05-floating"))["E2"] == (52, 92, 30.25, 32.75)
    assert dict(outlines("12-three")) == {"U2": (52, 92, 0, 96), "E1": (54, 90, 55.5, 76.5), "N1": (58, 86, 30, 50)}


def test_studs_of_double_odd_and_missing_ones() -> None:
    row = [each.centre_nm / INCH_NM for each in walls(wall_of("11-double"))["W1"].studs]
    assert row == [0.75, 16, 30.5, 32, 48, 63.25, 64.75, 96, 112, 128, 143.25]


def test_board_of_a_breast_with_its_returns_and_under_a_slope() -> None:
    """Breast: its front 60 x 96 less the recess 44 x 20, two returns of 24 x 96; with the wall also 42 x 96 beside it.

    No sheet goes round its corners: the front from one of 10 ft that gives both courses of 60, both returns from one of
    8 ft, 42 and 42 upright from two. Slope: 72 x 96 and 72 x (96 + 60) / 2, less the recess 24 x 30.
    """
    job = wall_of("01-breast")
    alone, whole = (
        boards(job.having(msgspec.structs.replace(job.of(Wall)["W1"], to_board=said)))["W1"]
        for said in ("unknown", "yes")
    )
    assert alone is not None
    assert whole is not None
    foot = 12 * INCH_NM
    assert alone.boarded.face_nm2 == (60 * 96 - 44 * 20 + 2 * 24 * 96) * INCH_NM**2
    assert alone.boarded.sheets == ((4 * foot, 10 * foot, 1), (4 * foot, 8 * foot, 1))
    # Bead round the recess, 2 x 64, and up both corners.
    assert (alone.bead_nm, alone.boarded.tapered_nm) == ((128 + 192) * INCH_NM, 60 * INCH_NM)
    assert [(each.cover.name, len(each.boarded.pieces)) for each in whole.faces if each.boarded] == [
        ("wall", 2), ("front of U1", 2), ("left return of U1", 1), ("right return of U1", 1)
    ]  # fmt: skip
    assert whole.boarded.face_nm2 == alone.boarded.face_nm2 + 84 * 96 * INCH_NM**2
    assert whole.boarded.sheets == ((4 * foot, 10 * foot, 1), (4 * foot, 8 * foot, 3))
    slope = wall_of("02-attic")
    attic = boards(slope.having(msgspec.structs.replace(slope.of(Wall)["W1"], to_board="yes")))["W1"]
    assert attic is not None
    assert attic.boarded.face_nm2 == (72 * 96 + 72 * 78 - 24 * 30) * INCH_NM**2
    assert max(each.rect.top_nm for each in attic.boarded.pieces) == 96 * INCH_NM


def test_none_of_the_walls_is_left_out() -> None:
    assert len(WALLS) == 12
    assert set(WALLS) == set(FRAMING) == set(RUNS)


def test_on_a_front_the_studs_of_the_front_count() -> None:
    """Stone: B1 at 48 is on the breast, whose studs are at 42-3/4, 50, 66: in its first bay, and on no stud of W1."""
    job = wall_of("06-stone")
    assert figure(job, "B1", "bay") == 1
    assert figure(job, "N1", "studs_cut") == ["5'-6\"", "6'-10\""]
    assert not found(job, "box_on_stud")
    # One that stands: at 66 a box is on its stud, at 64, where the wall's own is, on none.
    breast = msgspec.structs.replace(job.of(BuildOut)["U1"], new=False)
    for x, told in ((66, [("B1", "U1")]), (64, [])):
        box = msgspec.structs.replace(job.of(Box)["B1"], x=Length(x * INCH_NM), y=Length(60 * INCH_NM))
        assert [each.tags for each in found(job.having(breast).having(box), "box_on_stud")] == told
    assert figure(wall_of("05-floating"), "N1", "studs_cut") is None  # a cabinet in front cuts none
