"""Under a ceiling that slopes: the front of a build-out, its studs, its row on the tape sheet, and a run above it."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from store.measure.length import INCH_NM
from store.records.wall import BuildOut, Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.drawing.elevation import scene
from store.rules.drawing.shapes import Block, Run
from store.rules.drawing.tape_marks import tape_sheet
from store.rules.wall.uprights import uprights
from store.trade.measured.profile import profile
from templates.sheets.catalogue import Context
from templates.sheets.drawing.dxf import dxf
from templates.sheets.layout.elevation import svg
from templates.sheets.makers import tape_html, tape_md
from tests.jobs.wall_jobs import ROOM, job_of, made, opening, wall
from tui.drawing.frame import Frame
from tui.drawing.wall_picture import draw


def inches(points: Any) -> list[tuple[float, float]]:
    return [(x / INCH_NM, y / INCH_NM) for x, y in points]


def attic(*records: Any, **out: Any) -> Job:
    """8 ft up to 6 ft along, 5 ft at 12 ft; a build-out from 60 to 120 in, with studs from 66 in on."""
    front = {"name": "Front", "wall": "W1", "x": 60, "width": 60, "depth": 12, "first_stud": 66, **out}
    line = wall(first_stud=16, ceiling_line=("0/8'", "6'/8'", "12'/5'"))
    return job_of(line, *ROOM[1:], made(BuildOut, "U1", **front), *records)


def test_the_front_of_a_build_out_ends_at_the_slope() -> None:
    """At 120 in the ceiling is 96 - 48 / 2 = 72 in up."""
    job = attic()
    front = scene(job, "W1").get("U1")
    assert isinstance(front, Block)
    assert inches(front.corners) == [(60, 0), (120, 0), (120, 72), (72, 96), (60, 96)]
    assert all(each.high_nm <= (96 - max(0, each.left_nm / INCH_NM - 72) / 2) * INCH_NM for each in
               uprights(job, "W1", "U1"))  # fmt: skip
    assert 'stroke-dasharray="14 3"' in svg(scene(job, "W1"), False)
    # Its corner at 120 / 72 in is a corner in the file too.
    assert "\n 10\n120.000000\n 20\n72.000000\n" in dxf(scene(job, "W1"))
    # One that is lower than the slope is a rectangle; one of 84 in is cut only where the slope is lower: from 96 in on.
    low = scene(attic(height=60), "W1").get("U1")
    assert isinstance(low, Block)
    assert low.outline == ()
    cut = scene(attic(height=84), "W1").get("U1")
    assert isinstance(cut, Block)
    assert inches(cut.corners) == [(60, 0), (120, 0), (120, 72), (96, 84), (72, 84), (60, 84)]


def test_a_line_clipped() -> None:
    line = profile([(0, 0), (10, 20)])
    assert line.clipped(0, 10, 10) == ((0, 0), (5, 10), (10, 10))
    assert line.clipped(0, 10, 30) == ((0, 0), (10, 20))


def test_a_run_above_a_slope_does_not_come_back_to_its_edge() -> None:
    boxes = [made(Box, f"B{at}", what="low-voltage", wall="W1", x=x, y=40) for at, x in ((1, 10), (2, 110))]
    cable = made(Cable, "K1", type="cat6", rating="CMP", start="B1", end="B2", route="up and over")
    run = scene(attic(*boxes, cable), "W1").get("K1")
    assert isinstance(run, Run)
    ceiling = profile([(0, 96 * INCH_NM), (72 * INCH_NM, 96 * INCH_NM), (144 * INCH_NM, 60 * INCH_NM)])
    above = [(a, b) for a, b in pairwise(run.points) if a[0] != b[0]]
    assert [each[0] / INCH_NM for each in (above[0][0], *(b for _, b in above))] == [10, 72, 110]
    assert all(y - ceiling.at(x) == 6 * INCH_NM for pair in above for x, y in pair)


def test_the_tape_sheet_says_where_the_top_goes_and_has_every_wall() -> None:
    others = [made(Wall, f"W{at}", name=f"side {at}", bearing="no", burns="no") for at in (2, 3)]
    sizes = [made(Reading, f"D{at}9", wall=f"W{at}", what="width", value=60) for at in (2, 3)]
    job = attic(*others, *sizes, opening("N2", 10, 10, 20, 20, wall="W2"))
    (row,) = [each for each in tape_sheet(job, "W1").rows if each.tag == "U1"]
    assert row.top_nm == 72 * INCH_NM
    assert row.name == "Front: its top runs from 8'-0\" at the left to 6'-0\" at the right"
    context = Context()
    text, page = tape_md(job, context), tape_html(job, context)
    for tag in ("W1", "W2", "W3"):
        assert f"({tag})" in text
        assert f"({tag})</h1>" in page
    assert page.count("</html>") == 1
    only = tape_md(job, Context(wall="W2"))
    assert "(W2)" in only
    assert "(W1)" not in only


def test_a_build_out_round_the_corner_is_seen_before_the_wall() -> None:
    """On W2, at its left end, 24 wide, 30 deep and 84 high: before W1 from 114 to 144 in."""
    other = made(Wall, "W2", name="side", bearing="no", burns="no", meets_left="W1")
    sizes = [made(Reading, f"D{at}", wall="W2", what=what, value=each)
             for at, what, each in ((3, "width", 120), (4, "height", 96))]  # fmt: skip
    out = made(BuildOut, "U2", name="Corner", wall="W2", x=0, width=24, depth=30, height=84)
    drawn = scene(job_of(*ROOM, other, *sizes, out), "W1")
    (seen,) = [each for each in drawn.shapes if isinstance(each, Block) and each.layer == "build-outs"]
    assert (seen.tag, inches([(seen.x, seen.y + seen.height)])) == ("", [(114, 84)])
    assert "U2 Corner on W2 is in front of this wall from 9'-6\" to 12'-0\"." in drawn.remarks
    around = made(Wall, "W2", name="side", bearing="no", burns="no", meets_left="W1", left_corner="outside")
    assert not [each for each in scene(job_of(*ROOM, around, *sizes, out), "W1").shapes if each.layer == "build-outs"]


def test_the_outline_of_a_wall_ends_at_its_ceiling_in_cells_and_on_paper() -> None:
    """From 8 ft at 6 ft to 5 ft at 12 ft: nothing is drawn at the right above 5 ft, and no rectangle on paper."""
    job = job_of(wall(first_stud=16, ceiling_line=("0/8'", "6'/8'", "12'/5'")), *ROOM[1:])
    drawn = scene(job, "W1")
    assert [(x // INCH_NM, y // INCH_NM) for x, y in drawn.corners] == [
        (0, 0), (144, 0), (144, 60), (72, 96), (0, 96)
    ]  # fmt: skip
    assert not drawn.is_square
    assert scene(job_of(*ROOM), "W1").is_square
    lines = draw(drawn, Frame.fit(drawn.extent, 73, 25)).grid.lines()
    right = [line[-1] for line in lines]
    assert right[4] == " "
    assert right[-5] == "│"
    assert 'stroke-width="2.5"/>' in svg(drawn, False)
