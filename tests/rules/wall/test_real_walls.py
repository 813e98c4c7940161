"""Real walls as people have them, each worked out by hand: what is told, where studs are, what is cut, what fits."""

from __future__ import annotations

from typing import Any

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Opening, Reading, Wall, Zone
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.build.framing import framed
from store.rules.core.findings import findings
from store.rules.drawing.tape_marks import tape_sheet
from store.rules.fit.fit import pieces
from store.rules.wall.contents import opening_at
from store.rules.wall.places import point_of
from store.rules.wall.shape import spot
from store.rules.wall.uprights import studs_at
from tests.jobs.wall_jobs import ROOM, device, figure, found, job_of, made, one, opening, panel, read, wall
from tests.rows import rows

SHAPE = {
    "deeper_than_there", "half_on_build_out", "past_the_face", "overlap_on_return", "face_not_there",
    "build_out_past_edge", "line_not_read", "stud_not_read", "line_against_reading", "behind_corner_build_out",
    "outside_wall", "openings_overlap", "cuts_studs", "deeper_than_studs", "notches_studs", "hides_what_is_used",
    "hides_receptacle", "things_overlap", "on_a_hole", "box_on_finish_edge", "scribe_to_finish", "finish_too_heavy",
    "finish_past_edge", "finishes_overlap", "out_of_plumb",
}  # fmt: skip


def told(job: Job) -> dict[str, tuple[str, ...]]:
    """What the rules of the shape say of a wall, by rule, the tags of the first."""
    return {each.rule: each.tags for each in findings(job) if each.rule in SHAPE}


def breast(tag: str = "U1", **values: Any) -> BuildOut:
    """60 in wide and 24 in deep, from 42 in."""
    given = {"name": "Chimney breast", "wall": "W1", "x": 42, "width": 60, "depth": 24, "first_stud": 66, **values}
    return made(BuildOut, tag, **given)


def on_face(tag: str, what: Any, x: float, y: float, width: float, height: float, **values: Any) -> Equipment:
    """A thing on the face, by its centre."""
    given = {"name": tag, "what": what, "wall": "W1", "depth": 3, "power": "none", **values}
    return made(Equipment, tag, x=x, y=y, width=width, height=height, **given)


# The wall itself: 144 x 96 in, studs from 16 in, load-bearing.
PLAIN = (wall(first_stud=16, bearing="yes", scribe=0.5), *ROOM[1:])


def chimney() -> Job:
    """A breast with returns: TV over a fireplace in its front, shelves beside it, an outlet on its left return."""
    return job_of(
        *PLAIN, breast(),
        opening("N1", 50, 8, 44, 20, depth=8, use="fireplace"),
        opening("N2", 4, 10, 34, 30, depth=16, thickness=0.75, use="equipment"),
        opening("N3", 106, 10, 34, 30, depth=16, thickness=0.75, use="equipment"),
        on_face("E1", "screen", 72, 56, 57, 33), on_face("E2", "mantel", 72, 34, 58, 5, depth=8),
        made(Box, "B1", what="receptacle", wall="W1", x=12, y=16, face="left return"),
    )  # fmt: skip


def test_a_chimney_breast_with_returns() -> None:
    """Nothing of the wall that carries is cut; the outlet is 12 in out on the return, at 42 in along."""
    job = chimney()
    assert set(told(job)) == {"deeper_than_studs"}
    # From the front the outlet is at the edge of the breast, not in the cabinet whose place has the same figures.
    assert point_of(job, "B1") == (42 * INCH_NM, 16 * INCH_NM)
    assert opening_at(job, "B1") == ""
    place = spot(job, "B1")
    assert place is not None
    assert [each / INCH_NM for each in (place.x_nm, place.y_nm, place.out_nm)] == [42, 16, 12]
    assert [row.tag for row in tape_sheet(job, "W1").rows] == ["N2", "U1", "E2", "E1", "N1", "N3"]
    # Of the front, studs at 50, 66, 82, 98 and its ends; at 20 in up the fireplace takes 66 and 82.
    inside = studs_at(job, "W1", 20 * INCH_NM, 20 * INCH_NM, "U1")
    centres = [each.centre_nm / INCH_NM for each in inside]
    assert 66 not in centres
    assert centres[0] == 42.75
    assert centres[-1] == 101.25


def test_what_a_new_chimney_breast_takes_in_lumber() -> None:
    """Front 60 x 96 in; two returns 24 less 3-1/2 in deep: 20-1/2 in plates, above and below, and 2 studs each."""
    job = job_of(*PLAIN, breast())
    take = framed(job)["W1"]
    assert take is not None
    returns = [each for each in take.wanted if each.length_nm == round(20.5 * INCH_NM)]
    assert len(returns) == 4
    # Studs of 93 in: front ends, 50, 66, 82, 98; the returns' two each.
    assert len([each for each in take.wanted if each.part == "stud" and each.length_nm == 93 * INCH_NM]) == 6 + 4
    there = framed(job_of(*PLAIN, breast(new=False)))["W1"]
    assert there is not None
    assert not there.wanted


def test_an_attic_under_a_slope() -> None:
    """8 ft to 6 ft along, 5 ft at 12 ft. Shelves of 30 in from 60 in up end at 90: they fit up to 84 in along."""
    attic = wall(first_stud=16, ceiling_line=("0/8'", "6'/8'", "12'/5'"))
    job = job_of(attic, ROOM[1], read("D2", "height", 60), opening("N1", 48, 60, 24, 30, depth=4))
    assert told(job) == {}
    assert told(job.having(opening("N1", 61, 60, 24, 30, depth=4))) == {"outside_wall": ("N1", "W1")}
    # A TV whose middle is at 108 in, where the ceiling is 6'-6": its right corner at 132 in is under 5'-6".
    tv = on_face("E1", "screen", 108, 48, 48, 28)
    assert told(job.having(tv)) == {}
    assert told(job.having(on_face("E1", "screen", 108, 52.5, 48, 28)))["outside_wall"] == ("E1", "W1")


def test_a_soffit_over_cabinets() -> None:
    """12 in deep from 84 in up, all along: cabinets go to 84 in and not above."""
    soffit = breast(name="Soffit", x=0, width=144, y=84, depth=12, first_stud=None)
    cabinet = opening("N1", 10, 54, 40, 30, depth=12, thickness=0.75, use="equipment")
    assert told(job_of(*PLAIN, soffit, cabinet)) == {"deeper_than_studs": ("N1", "W1")}
    higher = opening("N1", 10, 55, 40, 30, depth=12, thickness=0.75, use="equipment")
    assert "half_on_build_out" in told(job_of(*PLAIN, soffit, higher))
    # Above a box on the soffit's underside: 6 in out from the wall, at 84 in.
    lamp = made(Box, "B1", what="junction", wall="W1", x=30, y=6, face="underside")
    place = spot(job_of(*PLAIN, soffit, lamp), "B1")
    assert place is not None
    assert [each / INCH_NM for each in (place.x_nm, place.y_nm, place.out_nm)] == [30, 84, 6]


def corner(**values: Any) -> Job:
    """Two walls that meet; on W2, at its left end, a build-out 30 in deep and 84 in high."""
    other = made(Wall, "W2", name="side", bearing="no", burns="no", meets_left="W1", **values)
    return job_of(
        *PLAIN, other, made(Reading, "D3", wall="W2", what="width", value=120), made(Reading, "D4", wall="W2",
        what="height", value=96), made(BuildOut, "U2", name="Corner cabinet", wall="W2", x=0, width=24, depth=30,
        height=84, work="cabinet"),
    )  # fmt: skip


def test_a_build_out_in_the_corner_stands_before_the_wall_beside_it() -> None:
    """It comes out 30 in along W1 from 114 to 144 in: what ends at 114 is clear of it, over 84 in up too."""
    job = corner()
    assert told(job.having(opening("N1", 84, 40, 30, 20, depth=4))) == {"cuts_studs": ("N1", "W1")}
    hit = job.having(on_face("E1", "picture", 110, 50, 10, 10))
    assert one(hit, "behind_corner_build_out").numbers["across"] == '1"'
    assert not found(job.having(on_face("E1", "picture", 110, 90, 10, 10)), "behind_corner_build_out")
    # Round an outside corner it goes away from W1.
    around = corner(left_corner="outside").having(on_face("E1", "picture", 110, 50, 10, 10))
    assert not found(around, "behind_corner_build_out")


def test_floating_cabinets_with_a_screen_on_the_bare_wall() -> None:
    """Cabinets 16 in deep hang from 12 to 30 in up; the TV is about 50 in. Nothing is cut, no build-out is needed."""
    job = job_of(
        *PLAIN,
        *(opening(f"N{at}", 24 + 32 * (at - 1), 12, 32, 18, depth=16, thickness=0.75, use="equipment")
          for at in (1, 2, 3)),
        on_face("E1", "screen", 72, 50, 57, 33, depth=2), device("E4", 17, 6, 14, opening="N1"),
        on_face("E2", "soundbar", 72, 31.5, 40, 2.5),
    )  # fmt: skip
    assert set(told(job)) == {"deeper_than_studs"}
    # Studs at 48, 64, 80 and 96 in are behind 43-1/2 to 100-1/2 in.
    assert figure(job, "E1", "studs_behind") == ["4'-0\"", "5'-4\"", "6'-8\"", "8'-0\""]
    fit = pieces(job)["E4"]
    # 16 in inside, 14 in of receiver.
    assert fit.depth_spare_nm == 2 * INCH_NM


def test_stone_over_part_of_a_breast() -> None:
    """1-3/4 in of stone on its front to 48 in: an outlet at 42 in is on it, its box comes forward by that."""
    rock = made(Zone, "Z1", name="Stone", wall="W1", x=42, y=0, width=60, height=48, thickness=1.75, weight=13.0,
                backing="cement board", burns="no", face="front", on="U1")  # fmt: skip
    box = made(Box, "B1", what="receptacle", wall="W1", x=48, y=20)
    assert told(job_of(*PLAIN, breast(), rock, box)) == {}
    edge = made(Box, "B1", what="receptacle", wall="W1", x=48, y=48)
    assert told(job_of(*PLAIN, breast(), rock, edge)) == {"box_on_finish_edge": ("B1", "Z1")}


def test_a_double_stud_and_a_missing_one() -> None:
    """A post about 64 in, none at 80: a panel 14 in wide goes from 65-1/2 to 95-1/4, where two bays were."""
    job = job_of(
        wall(first_stud=16, odd_studs=("2 x 64",), missing_studs=("80",)), *ROOM[1:], panel("A1", 70, 40, 20, 12)
    )
    assert not found(job, "panel_on_stud")
    assert found(job_of(wall(first_stud=16), *ROOM[1:], panel("A1", 70, 40, 20, 12)), "panel_on_stud")
    assert found(job.having(panel("A1", 63, 40, 10, 12)), "panel_on_stud")


def test_three_walls_each_with_its_own() -> None:
    """A niche wall with a build-out on every wall: what is on one is told of that one alone."""
    walls = [made(Wall, f"W{at}", name=f"wall {at}", bearing="no", burns="no", first_stud=16,
                  meets_right=f"W{at + 1}" if at < 3 else "") for at in (1, 2, 3)]  # fmt: skip
    sizes = [made(Reading, f"D{at}", wall=f"W{(at + 1) // 2}", what=("width", "height")[at % 2 == 0], value=(120, 96)[
        at % 2 == 0]) for at in range(1, 7)]  # fmt: skip
    outs = [breast(f"U{at}", wall=f"W{at}", x=40, width=40) for at in (1, 2, 3)]
    holes = [opening(f"N{at}", 50, 30, 20, 20, wall=f"W{at}", depth=(20, 28, 30)[at - 1]) for at in (1, 2, 3)]
    job = job_of(*walls, *sizes, *outs, *holes)
    assert told(job) == {"deeper_than_there": ("N3", "U3")}
    assert [row.tag for row in tape_sheet(job, "W2").rows] == ["U2", "N2"]


@rows(("reading", "scribe", "what"), [(0.25, 0.5, ""), (0.25, 0.375, "fix"), (0.25, None, "look")])
def test_a_wall_that_leans(reading: float, scribe: float | None, what: str) -> None:
    """1/4 in over a level of 48 in is 1/2 in over 96 in of wall."""
    lean = read("D3", "out of plumb", reading, over=made(Opening, "N9", name="-", width=48).width)
    job = job_of(wall(scribe=scribe), *ROOM[1:], lean)
    assert [each.severity for each in found(job, "out_of_plumb")] == ([what] if what else [])
