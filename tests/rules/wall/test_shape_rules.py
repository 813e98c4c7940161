"""Findings about the shape of a wall: the smallest job that raises each, and the nearest that does not."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from store.records.base import Record
from store.records.wall import BuildOut, Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box
from tests.jobs.wall_jobs import ROOM, found, job_of, made, one, opening, panel, read, wall
from tests.rows import rows

ON_SIDE: dict[str, Any] = {"wall": "W1", "face": "left return"}


def build_out(tag: str = "U1", x: float = 42, width: float = 60, depth: float = 24, **values: Any) -> BuildOut:
    """A build-out on W1, inches, up to the ceiling unless said otherwise."""
    return made(BuildOut, tag, **{"name": "Breast", "wall": "W1", "x": x, "width": width, "depth": depth, **values})


def in_breast(*more: Record, **values: Any) -> Job:
    """A recess amid a breast 24 in deep; with 3-1/2 in studs and 1/2 in board there are 28 in."""
    return job_of(*ROOM, build_out(), opening("N1", 50, 40, 40, 24, **values), *more)


def test_an_opening_deeper_than_build_out_and_wall_is_told() -> None:
    assert not found(in_breast(depth=28), "deeper_than_there")
    finding = one(in_breast(depth=48), "deeper_than_there")
    assert (finding.severity, finding.tags) == ("fix", ("N1", "U1"))
    assert finding.numbers == {"depth": "4'", "there": "2' 4\""}
    assert '20"' in finding.says


def test_masonry_has_nothing_behind_it() -> None:
    there = (*ROOM, build_out(work="masonry"))
    assert not found(job_of(*there, opening("N1", 50, 40, 40, 24, depth=24)), "deeper_than_there")
    assert found(job_of(*there, opening("N1", 50, 40, 40, 24, depth=24.25)), "deeper_than_there")


def test_a_recess_deeper_than_the_bare_wall_is_asked_about_until_its_depth_was_read() -> None:
    """Nobody read how deep it is: 4 in of studs and board are all that is known."""
    assert not found(job_of(*ROOM, opening("N1", 50, 40, 40, 24, depth=4)), "deeper_than_there")
    assert one(job_of(*ROOM, opening("N1", 50, 40, 40, 24, depth=5)), "deeper_than_there").severity == "look"
    deep = read("D3", "depth", 22)
    assert not found(job_of(*ROOM, deep, opening("N1", 50, 40, 40, 24, depth=22)), "deeper_than_there")
    assert one(job_of(*ROOM, deep, opening("N1", 50, 40, 40, 24, depth=23)), "deeper_than_there").severity == "fix"


def test_cabinets_in_a_build_out_cut_no_stud_of_the_wall() -> None:
    """Eight cabinets before a wall that carries: none of them cuts, none is asked about; a recess through it does."""
    carries = (wall(first_stud=16, bearing="yes"), *ROOM[1:])
    cabinets = [
        opening(f"N{at}", 10 + 15 * at, 10, 14.5, 30, depth=20, thickness=0.75, use="equipment") for at in range(1, 9)
    ]
    job = job_of(*carries, build_out(x=0, width=144, work="cabinet"), *cabinets)
    for rule in ("cuts_studs", "deeper_than_studs", "notches_studs", "interrupts_studs", "deeper_than_there"):
        assert not found(job, rule)
    # With no build-out noted it is asked; a cabinet that is tied to the framing stands in front of it.
    alone = opening("N1", 20, 0, 40, 30, depth=20, thickness=0.75, use="equipment")
    assert one(job_of(*carries, alone), "deeper_than_studs").severity == "look"
    assert not found(job_of(*carries, msgspec.structs.replace(alone, tied="yes")), "deeper_than_studs")
    through = opening("N9", 20, 50, 40, 24, depth=27)
    assert one(job.having(through), "cuts_studs").tags == ("N9", "W1")
    within = opening("N9", 20, 50, 40, 24, depth=24)
    assert not found(job.having(within), "cuts_studs")


def test_an_opening_over_the_edge_of_a_build_out() -> None:
    assert not found(job_of(*ROOM, build_out(), opening("N1", 62, 40, 40, 24)), "half_on_build_out")
    finding = one(job_of(*ROOM, build_out(), opening("N1", 62.5, 40, 40, 24)), "half_on_build_out")
    assert (finding.severity, finding.tags) == ("fix", ("N1", "U1"))
    assert found(job_of(*ROOM, build_out(), panel("A1", 30, 40, 20, 12)), "half_on_build_out")


def test_a_cabinet_under_a_soffit_and_one_that_runs_into_it() -> None:
    """A soffit 12 in deep from 84 in up to the ceiling."""
    soffit = build_out(x=0, width=144, depth=12, y=84)
    assert not found(job_of(*ROOM, soffit, opening("N1", 10, 60, 30, 24, depth=12)), "half_on_build_out")
    assert found(job_of(*ROOM, soffit, opening("N1", 10, 60, 30, 25, depth=12)), "half_on_build_out")


def test_under_a_sloped_ceiling_the_top_corner_decides() -> None:
    """8 ft to 6 ft along, 5 ft at 12 ft: from 60 in to 84 in along the least height is 7'-6"."""
    attic = wall(ceiling_line=("0/8'", "6'/8'", "12'/5'"))
    fits = job_of(attic, ROOM[1], opening("N1", 60, 60, 24, 30))
    assert not found(fits, "outside_wall")
    finding = one(job_of(attic, ROOM[1], opening("N1", 60, 60, 24, 31)), "outside_wall")
    assert finding.numbers == {"top": 'by 1" at the top'}


def test_a_floor_that_rises_is_in_the_way_of_what_stands_on_nought() -> None:
    uneven = wall(floor_line=("0/0", "12'/3/4"))
    assert found(job_of(uneven, *ROOM[1:], opening("N1", 10, 0, 24, 30)), "outside_wall")
    assert not found(job_of(uneven, *ROOM[1:], opening("N1", 10, 1, 24, 30)), "outside_wall")


def test_on_a_return_there_is_as_much_room_as_the_build_out_is_deep() -> None:
    """A panel 12 in wide on a return of 24 in: 12 in from the wall it just goes, 13 in it does not."""
    job = in_breast(made(type(panel("A1", 0, 0, 1, 1)), "A1", name="p", x=12, y=8, width=12, height=12, **ON_SIDE))
    assert not found(job, "past_the_face")
    assert not found(job, "half_on_build_out")
    moved = made(type(panel("A1", 0, 0, 1, 1)), "A1", name="p", x=13, y=8, width=12, height=12, **ON_SIDE)
    assert one(job.having(moved), "past_the_face").tags == ("A1", "U1")
    niche = made(Opening, "N8", name="niche", x=20, y=10, width=4, height=4, depth=4, **ON_SIDE)
    assert one(job.having(niche), "overlap_on_return").tags == ("N8", "A1")


def test_a_return_of_nothing_and_of_one_of_two() -> None:
    box = made(Box, "B1", what="receptacle", x=6, y=18, **ON_SIDE)
    assert one(job_of(*ROOM, box), "face_not_there").tags == ("B1", "W1")
    assert not found(job_of(*ROOM, build_out(), box), "face_not_there")
    two = job_of(*ROOM, build_out(), build_out("U2", 110, 30), box)
    assert "which" in one(two, "face_not_there").says
    named = made(Box, "B1", what="receptacle", x=6, y=18, on="U2", **ON_SIDE)
    assert not found(two.having(named), "face_not_there")


def test_a_build_out_past_its_wall() -> None:
    assert not found(job_of(*ROOM, build_out(x=84)), "build_out_past_edge")
    assert one(job_of(*ROOM, build_out(x=84.5)), "build_out_past_edge").numbers == {"right": '1/2" past the right end'}
    assert not found(job_of(*ROOM, build_out(height=96)), "build_out_past_edge")
    assert found(job_of(*ROOM, build_out(height=97)), "build_out_past_edge")


@pytest.mark.parametrize(("line", "told"), [(("0/8'", "6'/8'"), False), (("0/8'", "6'"), True)])
def test_a_height_that_cannot_be_read_is_told(line: tuple[str, ...], told: bool) -> None:
    assert bool(found(job_of(wall(ceiling_line=line)), "line_not_read")) is told


def test_a_ceiling_line_and_readings_that_contradict_it() -> None:
    sloped: Wall = wall(ceiling_line=("0/8'", "12'/5'"))
    assert not found(job_of(sloped, ROOM[1], read("D2", "height", 70)), "line_against_reading")
    assert found(job_of(sloped, ROOM[1], read("D2", "height", 97)), "line_against_reading")


def test_an_opening_in_the_wall_behind_a_cabinet_run_does_not_overlap_what_is_in_front() -> None:
    behind = opening("N2", 50, 40, 40, 24, depth=3.5, face="wall")
    assert not found(in_breast(behind, depth=20), "openings_overlap")
    assert found(in_breast(behind, depth=27), "openings_overlap")


@rows(
    ("out", "face", "against"),
    [
        ({"x": 0, "width": 144, "y": 84}, "left return", "the left corner"),
        ({"x": 0, "width": 144, "y": 84}, "right return", "the right corner"),
        ({"x": 0, "width": 144, "y": 84}, "underside", ""), ({"x": 1, "width": 142, "y": 84}, "left return", ""),
        ({"x": 20, "width": 40}, "underside", "the floor"), ({"x": 20, "width": 40}, "top", "the ceiling"),
        ({"x": 20, "width": 40, "height": 40}, "top", ""),
    ],
)  # fmt: skip
def test_a_side_that_is_against_a_corner_the_floor_or_the_ceiling_is_no_face(out: Any, face: str, against: str) -> None:
    job = job_of(*ROOM, made(BuildOut, "U1", name="Soffit", wall="W1", depth=12, **out),
                 made(Box, "B1", what="junction", wall="W1", x=6, y=6 if face in ("underside", "top") else 90,
                      face=face))  # fmt: skip
    assert [each.numbers.get("against") for each in found(job, "face_not_there")] == ([against] if against else [])
    # Round an outside corner the return is seen.
    open_end = job.having(msgspec.structs.replace(job.of(Wall)["W1"], left_corner="outside"))
    assert not [each for each in found(open_end, "face_not_there") if each.numbers.get("against") == "the left corner"]


@rows(
    ("studs", "told"),
    [({"first_stud": 16}, ""), ({"first_stud": 145}, "12' 1\""), ({"odd_studs": ("143.5",)}, "143.5"),
     ({"odd_studs": ("143",)}, ""), ({"odd_studs": ("2 x 142.75",)}, "2 x 142.75")],
)  # fmt: skip
def test_a_stud_past_the_end_of_its_wall(studs: Any, told: str) -> None:
    """144 wide: one about 143-1/2 ends at 144-1/4; a double about 142-3/4 too."""
    said = found(job_of(wall(**studs), *ROOM[1:]), "stud_past_end")
    assert [each.numbers["studs"] for each in said] == ([told] if told else [])
