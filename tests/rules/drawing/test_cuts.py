"""Walls that are not flat, drawn: from the front, from above and cut upright; places by hand."""

from __future__ import annotations

from typing import Any

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Opening, Zone
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.drawing.cuts import best_cuts, plan, section
from store.rules.drawing.elevation import Block, Run, Scene, scene
from store.rules.drawing.moving import movable, moved, snapped
from store.rules.drawing.tape_marks import tape_sheet
from templates.sheets.drawing.dxf import dxf
from templates.sheets.layout.elevation import svg
from templates.sheets.wall.tape import tape_markdown
from tests.jobs.wall_jobs import ROOM, job_of, made, opening, panel, wall


def chimney(**values: Any) -> Job:
    """A breast of 60 in, 24 in deep, from 42 in: a recess in its front, a box on its left return, stone, a cabinet."""
    return job_of(
        wall(first_stud=16, **values), *ROOM[1:],
        made(BuildOut, "U1", name="Breast", wall="W1", x=42, width=60, depth=24, first_stud=66),
        made(Zone, "Z1", name="Stone", wall="W1", x=42, y=0, width=60, height=48, thickness=2),
        opening("N1", 50, 50, 40, 24, depth=8, use="screen"),
        opening("N2", 4, 12, 30, 18, depth=16, thickness=0.75, use="equipment"),
        made(Box, "B1", what="receptacle", wall="W1", x=10, y=16, face="left return"),
        made(Equipment, "E1", name="Soundbar", what="soundbar", wall="W1", x=72, y=44, width=40, height=4, depth=4),
    )  # fmt: skip


def at(drawn: Scene, tag: str) -> tuple[float, ...]:
    """Left, bottom, width and height of a block, inches."""
    shape = drawn.get(tag)
    assert isinstance(shape, Block)
    return tuple(each / INCH_NM for each in (shape.x, shape.y, shape.width, shape.height))


def test_from_the_front_build_out_and_finish_are_under_what_is_on_them() -> None:
    drawn = scene(chimney(), "W1")
    assert at(drawn, "U1") == (42, 0, 60, 96)
    assert at(drawn, "E1") == (52, 42, 40, 4)
    order = [each.tag for each in drawn.shapes if each.tag]
    assert order.index("Z1") < order.index("U1") < order.index("N1")


def test_a_box_on_a_return_is_seen_at_its_edge() -> None:
    """10 in out on the left return: from the front at 42 in."""
    (box,) = [each for each in scene(chimney(), "W1").shapes if each.tag == "B1"]
    assert box.centre == (42 * INCH_NM, 16 * INCH_NM)


def test_from_above_a_breast_and_a_cabinet_come_towards_the_room() -> None:
    """Cut at 60 in: the breast 24 in before the face, the recess 8 in back from there. At 20 in the cabinet, 16 in."""
    high = plan(chimney(), "W1", 60 * INCH_NM)
    assert at(high, "U1") == (42, -24, 60, 24)
    assert at(high, "N1") == (50, -24, 40, 8)
    low = plan(chimney(), "W1", 20 * INCH_NM)
    assert at(low, "N2") == (4, -16, 30, 16)
    bar = plan(chimney(), "W1", 44 * INCH_NM)
    assert at(bar, "E1") == (52, -28, 40, 4)


def test_cut_upright_at_a_place() -> None:
    """At 72 in: breast, recess, soundbar and stone; the cabinet at 4 to 34 in is not there."""
    cut = section(chimney(), "W1", 72 * INCH_NM)
    assert at(cut, "U1") == (-24, 0, 24, 96)
    assert at(cut, "N1") == (-24, 50, 8, 24)
    assert at(cut, "E1") == (-28, 42, 4, 4)
    assert at(cut, "Z1") == (-24, 0, 2, 48)
    assert cut.get("N2") is None
    aside = section(chimney(), "W1", 20 * INCH_NM)
    assert at(aside, "N2") == (-16, 12, 16, 18)
    assert {each.kind for each in aside.shapes if each.layer == "studs"} == {"board", "stud"}


def test_a_sloped_ceiling_is_a_line() -> None:
    drawn = scene(chimney(ceiling_line=("0/8'", "6'/8'", "12'/5'")), "W1")
    (line,) = [each for each in drawn.shapes if isinstance(each, Run) and each.kind == "ceiling line"]
    assert [(x / INCH_NM, y / INCH_NM) for x, y in line.points] == [(0, 96), (72, 96), (144, 60)]
    assert drawn.height == 96 * INCH_NM
    assert section(chimney(ceiling_line=("0/8'", "6'/8'", "12'/5'")), "W1", 108 * INCH_NM).height == 78 * INCH_NM


def test_on_paper_build_outs_and_finishes_are_named_in_the_legend() -> None:
    page = svg(scene(chimney(), "W1"), False)
    assert ">build-out<" in page
    assert ">finish zone<" in page
    assert "Section, seen from the left end" in svg(section(chimney(), "W1", 72 * INCH_NM), False)
    assert "A-WALL-FURR" in dxf(scene(chimney(), "W1"))


def test_the_tape_sheet_has_things_build_outs_and_returns() -> None:
    job = chimney()
    sheet = tape_sheet(job.having(made(type(panel("A1", 0, 0, 1, 1)), "A1", name="side", wall="W1", x=6, y=30, width=12,
                                       height=10, face="left return")), "W1")  # fmt: skip
    rows = {row.tag: row for row in sheet.rows}
    assert list(rows) == ["N2", "U1", "N1", "E1"]
    assert (rows["E1"].left_nm / INCH_NM, rows["E1"].centre_x_nm / INCH_NM) == (52, 72)
    (side,) = sheet.sides
    assert side.name == "left return of U1 Breast"
    assert [(row.tag, row.left_nm / INCH_NM) for row in side.rows] == [("A1", 6)]
    assert "On the left return of U1 Breast" in tape_markdown(sheet)


def test_a_thing_on_a_face_is_moved_by_its_centre_and_snaps_to_a_stud_of_it() -> None:
    """The bar is from 52 to 92 in, 42 to 46 in up; there the trimmer of the recess at 90 in has a face at 91-1/2."""
    job = chimney()
    there = moved(movable(job, "E1"), INCH_NM, -INCH_NM)
    assert isinstance(there, Equipment)
    assert there.x is not None
    assert there.x.nm == 73 * INCH_NM
    on_stud = snapped(job, movable(job, "E1"), "stud")
    assert isinstance(on_stud, Equipment)
    assert on_stud.x is not None
    # Its right edge goes 1/2 in to the left; every other face is farther.
    assert on_stud.x.nm == round(71.5 * INCH_NM)


def test_a_recess_moved_off_its_breast_is_on_the_wall() -> None:
    job = chimney()
    off = moved(movable(job, "N1"), -46 * INCH_NM, 0)
    assert isinstance(off, Opening)
    assert at(plan(job.having(off), "W1", 60 * INCH_NM), "N1") == (4, 0, 40, 8)


def test_the_cuts_of_a_page_show_each_thing_at_least_once() -> None:
    """Level: recess and breast at 62 in, stone, bar, cabinet lower. Upright: through the breast, and the cabinet."""
    job = chimney()
    for upright in (False, True):
        cuts = [
            section(job, "W1", at) if upright else plan(job, "W1", at) for at in best_cuts(job, "W1", upright=upright)
        ]
        shown = {each.tag for cut in cuts for each in cut.shapes}
        assert {"U1", "Z1", "N1", "N2", "E1"} <= shown
        assert len(cuts) <= 3
    assert best_cuts(job_of(*ROOM), "W1") == (48 * INCH_NM,)
