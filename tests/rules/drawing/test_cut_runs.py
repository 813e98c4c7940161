"""Cables, raceways, boxes and panels in the cuts of a wall; places by hand.

Board 1/2 in and studs 3-1/2 in: what is bored through the studs is 1/2 + 3-1/2 / 2 = 2-1/4 in behind the face.
"""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.length import INCH_NM
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Obstacle, Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.drawing.cut_runs import ACROSS, UP, bundles, sliced
from store.rules.drawing.cuts import best_cuts, plan, section
from store.rules.drawing.shapes import Block, Run, Scene, Spot
from templates.sheets.layout.elevation import svg
from tests.jobs.wall_jobs import ROOM, job_of, made, obstacle, opening, read, wall
from tui.drawing.frame import Frame
from tui.drawing.wall_picture import about, draw, nearest

STUDS = (wall(first_stud=16), *ROOM[1:])


def box(tag: str, x: float, y: float, **values: Any) -> Box:
    return made(Box, tag, **{"what": "receptacle", "wall": "W1", "x": x, "y": y, **values})


def cable(tag: str, start: str, end: str, **values: Any) -> Cable:
    return made(Cable, tag, **{"type": "cat6", "start": start, "end": end, "in_wall": True, **values})


def at(job: Job, inches: float, *, upright: bool = True) -> Scene:
    return (section if upright else plan)(job, "W1", round(inches * INCH_NM))


def marks(cut: Scene) -> dict[str, tuple[float, float]]:
    """Where runs pass through a cut, inches."""
    spots = [each for each in cut.shapes if isinstance(each, Spot) and each.layer in ("cables", "raceways")]
    return {each.tag: (each.x / INCH_NM, each.y / INCH_NM) for each in spots}


def lines(cut: Scene) -> dict[str, list[tuple[float, float]]]:
    """The runs that lie in a cut, inches."""
    runs = [each for each in cut.shapes if isinstance(each, Run) and each.layer in ("cables", "raceways")]
    return {each.tag: [(x / INCH_NM, y / INCH_NM) for x, y in each.points] for each in runs}


def edges(cut: Scene, tag: str) -> tuple[float, ...]:
    shape = cut.get(tag)
    assert isinstance(shape, Block)
    return tuple(each / INCH_NM for each in shape.extent)


def two_cables() -> Job:
    """From a box at 24 in to one at 80, both 16 in up; and one straight up from 60 in to 70 in up, in a raceway."""
    return job_of(
        *STUDS, box("B1", 24, 16), box("B2", 80, 16), box("B3", 60, 30), box("B4", 60, 70),
        cable("K1", "B1", "B2"), cable("K2", "B1", "B2", type="nm-12-2"),
        made(Raceway, "R1", type="ENT", size="1", start="B3", end="B4"),
        cable("K3", "B3", "B4", route="raceway", raceway="R1"),
    )  # fmt: skip


def test_a_run_is_a_mark_where_it_passes_through_and_a_line_where_it_lies_in_the_cut() -> None:
    job = two_cables()
    across = at(job, 50)
    assert marks(across) == {"K1": (2.25, 16), "K2": (2.25, 16)}
    assert lines(across) == {}
    through_boxes = at(job, 60)
    assert marks(through_boxes) == {"K1": (2.25, 16), "K2": (2.25, 16)}
    assert lines(through_boxes) == {tag: [(0, 30), (2.25, 30), (2.25, 70), (0, 70)] for tag in ("R1", "K3")}
    # ENT of trade size 1 is 1.315 in thick: a cut 0.65 in beside its middle still goes through it, not through K3.
    assert set(lines(at(job, 60.65))) == {"R1"}
    level = at(job, 16, upright=False)
    assert lines(level)["K1"] == [(24, 0), (24, 2.25), (80, 2.25), (80, 0)]
    assert marks(level) == {}
    assert marks(at(job, 50, upright=False)) == {"R1": (60, 2.25), "K3": (60, 2.25)}
    # A box of one gang is 2-1/4 in wide.
    for x, met in ((60, {"B3", "B4"}), (61.1, {"B3", "B4"}), (61.2, set())):
        assert {each.tag for each in at(job, x).shapes if each.layer == "boxes"} == met


def test_a_run_goes_out_over_a_return_to_the_front_of_a_build_out() -> None:
    """To a box on the front of a breast 24 in deep: 24 in farther out from the return on, 42 in along."""
    breast = made(BuildOut, "U1", name="Breast", wall="W1", x=42, width=60, depth=24, first_stud=66)
    job = job_of(*STUDS, breast, box("B1", 24, 16), box("B2", 80, 16), cable("K1", "B1", "B2"))
    assert lines(at(job, 16, upright=False))["K1"][-1] == (80, -24)
    depths = {marks(at(job, x))["K1"][0] for x in (30, 41)}
    assert depths == {2.25}
    # It stays in the wall behind the breast and steps out where it ends: as little stepping as there can be.
    assert {marks(at(job, x))["K1"][0] for x in (50, 79)} <= {2.25, 2.25 - 24}


@pytest.mark.parametrize(("deep", "there"), [(5, 5.5), (1, 2.25)])
def test_behind_a_recess_a_run_is_behind_its_back(deep: float, there: float) -> None:
    """In a wall 22 in deep a recess of 5 in: the run behind it is half an inch behind; of 1 in: as it was."""
    job = job_of(*STUDS, read("D3", "depth", 22), opening("N1", 40, 10, 20, 20, depth=deep, use="other"),
                 box("B1", 24, 16), box("B2", 80, 16), cable("K1", "B1", "B2"))  # fmt: skip
    assert marks(at(job, 50))["K1"] == (there, 16)
    assert marks(at(job, 30))["K1"] == (2.25, 16)


def test_what_stays_in_a_cabinet_is_along_its_back_and_ends_at_the_back_of_its_device() -> None:
    """A cabinet 16 in deep before the bare wall; a device 14 in deep that asks for 2 in behind it."""
    carcass = opening("N1", 40, 10, 40, 20, depth=16, thickness=0.75, use="equipment")
    device = made(Equipment, "E1", name="Receiver", opening="N1", width=10, height=6, depth=14, clear_back=2,
                  mounting="shelf", offset=0)  # fmt: skip
    job = job_of(*STUDS, carcass, device, box("B1", 70, 13.75), cable("K1", "B1", "E1", in_wall=False))
    # The box is in the wall at the back of the cabinet; E1's middle is 40 + 3/4 + 5 in along, 10 + 3/4 + 3 up.
    way = lines(at(job, 13.75, upright=False))["K1"]
    assert way == [(70, 0), (70, -0.5), (45.75, -0.5), (45.75, -2)]
    assert edges(at(job, 45.75), "E1") == (-16, 10.75, -2, 16.75)


def test_windows_doors_and_panels_are_cut_where_they_are() -> None:
    """A window through the whole wall; panels in the ceiling, on a return and in the back of a cabinet."""
    panels = [
        made(Panel, "A1", name="ceiling", wall="W1", x=10, y=6, width=14, height=12, face="ceiling"),
        made(Panel, "A2", name="return", wall="W1", x=4, y=30, width=10, height=12, face="left return"),
        made(Panel, "A3", name="back", wall="W1", x=10, y=12, width=10, height=10, face="cabinet back", on="N1"),
    ]
    job = job_of(
        *STUDS, made(BuildOut, "U1", name="Breast", wall="W1", x=42, width=60, depth=24), *panels,
        obstacle("O1", "window", 110, 40, 24, 30), obstacle("O2", "pipe", 130, 0, 2, 96),
        opening("N1", 4, 10, 30, 14, depth=16, thickness=0.75, use="equipment"),
    )  # fmt: skip
    assert edges(at(job, 15), "A1") == (-18, 96, -6, 96.5)
    assert edges(at(job, 35, upright=False), "A2") == (42, -14, 42.5, -4)
    assert edges(at(job, 15), "A3") == (0, 12, 0.5, 22)
    window = at(job, 120)
    assert edges(window, "O1") == (0, 40, 4, 70)
    boards = [each.extent[1::2] for each in window.shapes if isinstance(each, Block) and each.kind == "board"]
    assert boards == [(0, 40 * INCH_NM), (70 * INCH_NM, 96 * INCH_NM)]
    assert edges(at(job, 50, upright=False), "O2") == (130, 0.5, 132, 4)
    assert isinstance(job.get("O1"), Obstacle)
    # No level cut is made for the sake of a panel in the ceiling.
    assert max(best_cuts(job, "W1")) < 90 * INCH_NM


def test_what_is_on_a_return_is_seen_from_above() -> None:
    """A niche 10 in deep in the right return, from 4 to 16 in out: behind the return is to its left."""
    job = job_of(*STUDS, made(BuildOut, "U1", name="Breast", wall="W1", x=42, width=60, depth=24),
                 opening("N1", 4, 30, 12, 12, depth=10, face="right return", use="other"))  # fmt: skip
    assert edges(at(job, 35, upright=False), "N1") == (92, -16, 102, -4)
    assert isinstance(job.get("N1"), Opening)


def test_under_a_slope_a_build_out_ends_at_the_ceiling() -> None:
    breast = made(BuildOut, "U1", name="Breast", wall="W1", x=42, width=60, depth=24)
    job = job_of(wall(first_stud=16, ceiling_line=("0/8'", "12'/4'")), *ROOM[1:], breast)
    # 8 ft less 72/144 of 4 ft.
    assert edges(at(job, 72), "U1")[3] == 72


def test_a_way_is_sliced_by_its_straight_pieces() -> None:
    way = ((0, 0, 5), (100, 0, 5), (100, 80, 5), (40, 80, 9))
    assert sliced(way, ACROSS, 50, 1) == ([], [(5, 0), (8, 80)])
    assert sliced(way, ACROSS, 100, 1) == ([((5, 0), (5, 80))], [])
    assert sliced(way, UP, 40, 1) == ([], [(100, 5)])
    assert sliced(way, UP, 200, 1) == ([], [])
    heights = [Spot(tag, "cables", "signal", "", 0, y * INCH_NM) for tag, y in (("K1", 10), ("K2", 40), ("K3", 11))]
    assert [[each.tag for each in group] for group in bundles(heights)] == [["K2"], ["K3", "K1"]]


def test_tags_at_one_height_stand_together_in_cells_and_on_paper() -> None:
    job = two_cables()
    cut = at(job, 50)
    cells = draw(cut, Frame.fit(cut.extent, 60, 30), "K2").grid.lines()
    (row,) = [line for line in cells if "K1" in line]
    assert row.rstrip().endswith("▸K2 K1")
    assert row.index("•") < row.index("▸K2")
    assert "K1 K2 at 1'-4\"" in " ".join(cut.remarks)
    page = svg(cut, False)
    assert ">K1 K2<" in page
    assert ">cable through the cut<" in page
    assert page.count('class="run"') == 3  # two marks at one place, and the legend
    assert about(cut, "K1").endswith('signal · cable · 1\'-4" off the floor, 2-1/4" behind the face')
    crowd = [cable(f"K{number}", "B1", "B2") for number in range(10, 40)]
    for each in crowd:
        job = job.having(each)
    many = at(job, 50)
    (row,) = [line for line in draw(many, Frame.fit(many.extent, 60, 30)).grid.lines() if "•" in line]
    *named, more = row.split("│")[-1].split()
    assert len(named) + int(more) == 32
    ring = at(two_cables(), 50, upright=False)
    assert any("∘" in line for line in draw(ring, Frame.fit(ring.extent, 100, 20)).grid.lines())
    # Arrows go from thing to thing, not from place to place of one run.
    assert nearest(ring.shapes, "R1", 1, 0) != "R1"
