"""Panels in ceilings, floors and cabinets, how deep an arm reaches, and furniture in front: worked out by hand first.

The wall is 12 ft wide and 8 ft high; all places in inches.
"""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.length import INCH_NM
from store.records.access import Panel
from store.records.base import Record
from store.records.room import Furniture
from store.records.wall import BuildOut
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.access.means import means_of
from store.rules.access.panel_contents import panel_contents
from store.rules.access.steps import reach
from store.rules.drawing.cuts import plan
from store.rules.drawing.elevation import scene
from store.rules.drawing.tape_marks import tape_sheet
from store.rules.wall.layout import walls
from tests.jobs.wall_jobs import ROOM, board, device, found, job_of, made, one, opening
from tests.rows import rows


def panel(**values: Any) -> Panel:
    return made(Panel, "A1", **{"name": "panel", "wall": "W1", "x": 60, "y": 10, "width": 12, "height": 12, **values})


def bench(**values: Any) -> Furniture:
    given = {"name": "Bench", "wall": "W1", "x": 50, "width": 40, "depth": 18, "height": 30, "off": 6}
    return made(Furniture, "J1", **{**given, **values})


def junction(x: float, y: float, **values: Any) -> Box:
    return made(Box, "B1", **{"name": "joint", "what": "junction", "wall": "W1", "reached": "A1", **values}, x=x, y=y)


def way(*records: Record, **settings: Any) -> tuple[bool, float, float]:
    """Whether the way to B1 counts, how long it is and how much of it goes into the depth."""
    (only,) = means_of(job_of(*ROOM, *records, **settings), "B1")
    return only.counts, round((only.far_nm or 0) / INCH_NM, 2), only.deep_nm / INCH_NM


def test_a_door_and_a_drawer_want_the_room_that_they_sweep() -> None:
    def job(off: float, **values: Any) -> Job:
        given = {"door": "solid", "hinge": "left", **values}
        return job_of(*ROOM, opening("N1", 55, 0, given.pop("wide", 20), 30, **given), bench(off=off))

    # A leaf of 20 in reaches 20 in into the room; a bench 15 in off the wall lacks 5.
    hit = one(job(15), "door_meets_furniture")
    assert (hit.tags, hit.do[:40]) == (("N1", "J1"), 'Move J1 5" farther from the wall, or bes')
    assert found(job(20), "door_meets_furniture") == []
    # 30 in wide it has two leaves of 15 in.
    assert found(job(15, wide=30), "door_meets_furniture") == []
    assert len(found(job(14, wide=30), "door_meets_furniture")) == 1
    # A drawer comes out by the depth of its opening, 20 in; a flap hinged at its foot by its height, 30 in.
    assert one(job(19, use="drawer", door="none", hinge="drawer"), "door_meets_furniture").head == "Drawer runs into J1"
    assert found(job(20, use="drawer", door="none", hinge="drawer"), "door_meets_furniture") == []
    assert len(found(job(29, hinge="bottom"), "door_meets_furniture")) == 1
    # Beside the opening, which ends at 75 in, it is in nobody's way.
    side = job_of(*ROOM, opening("N1", 55, 0, 20, 30, door="solid", hinge="left"), bench(x=75, off=0))
    assert found(side, "door_meets_furniture") == []
    # Over the bench, which is 30 in high, nothing is in the way.
    high = job_of(*ROOM, opening("N1", 55, 30, 20, 30, door="solid", hinge="left"), bench(off=0))
    assert found(high, "door_meets_furniture") == []


def test_furniture_before_a_panel_is_told_with_what_would_do() -> None:
    near = job_of(*ROOM, panel(opens="magnets"), bench())
    told = one(near, "panel_behind_furniture")
    assert (told.severity, told.tags, told.head) == ("look", ("A1", "J1"), "J1 is in front of it")
    assert told.why == 'J1 Bench is 6" in front of it; a person needs to work at it 2\'-0".'
    assert "Take out first: J1." in reach(near, "A1").lines
    assert found(job_of(*ROOM, panel(opens="magnets"), bench(off=24)), "panel_behind_furniture") == []
    assert found(job_of(*ROOM, panel(opens="magnets", y=30), bench()), "panel_behind_furniture") == []
    assert one(job_of(*ROOM, panel(), bench(moves="never")), "panel_behind_furniture").severity == "fix"
    # On the floor: the panel is from 3 to 15 in off the wall, the bench from 6 to 24.
    upon = one(job_of(*ROOM, panel(face="floor", y=3), bench()), "panel_behind_furniture")
    assert upon.head == "J1 is on it"
    stuck = one(job_of(*ROOM, panel(face="floor", y=3), bench(moves="never")), "panel_behind_furniture")
    assert stuck.do.startswith("Put the panel")
    kept = one(job_of(*ROOM, panel(opens="magnets"), bench(moves="never")), "panel_behind_furniture")
    assert kept.do.startswith("Keep 2'-0\" free")
    assert found(job_of(*ROOM, panel(face="floor", y=30), bench()), "panel_behind_furniture") == []


def test_a_leaf_is_hinged_where_it_swings_free() -> None:
    # The leaf is 12 in; a bench up to 63 in, 11 in off: about 60 it is 11 in away, about 72 it is (9² + 11²)^½ = 14.2.
    job = job_of(*ROOM, panel(hinge="left"), bench(width=13, off=11))
    assert one(job, "panel_swing_hits").do == "Hinge it on the right, or make it lift out."
    assert found(job_of(*ROOM, panel(hinge="right"), bench(width=13, off=11)), "panel_swing_hits") == []
    # A leaf of 30 in that hits on either side needs its 30 in, more than a person does.
    wide = job_of(*ROOM, panel(width=30, height=20), bench(off=20))
    assert "its leaf needs to swing open 2'-6\"" in one(wide, "panel_behind_furniture").why


def test_a_lift_out_cover_is_raised_first() -> None:
    def job(up: float, **values: Any) -> Job:
        bar = device("E1", 30, 4, 3, opening="", wall="W1", x=66, y=22 + up + 2, what="soundbar")
        return job_of(*ROOM, panel(opens="lift-out", **values), bar)

    assert one(job(0.25), "panel_cannot_lift").tags == ("A1", "E1")
    assert found(job(0.5), "panel_cannot_lift") == []
    aside = device("E1", 30, 4, 3, opening="", wall="W1", x=100, y=24.25, what="soundbar")
    assert found(job_of(*ROOM, panel(opens="lift-out"), aside), "panel_cannot_lift") == []
    assert one(job(40, y=83.75), "panel_cannot_lift").head == "No room to lift it out, the ceiling above"


def test_panels_in_ceiling_and_floor_have_their_place_in_the_room() -> None:
    # Under the ceiling at 96 in: a joint 6 in down, the panel 12 in out from the wall: (6² + 12²)^½ = 13.42 in.
    assert way(panel(face="ceiling", y=12), junction(66, 90)) == (True, 13.42, 12)
    assert way(panel(face="ceiling", y=30), junction(66, 90)) == (False, 30.59, 30)
    assert way(panel(face="floor", y=0), junction(66, 9)) == (True, 9, 0)
    job = job_of(*ROOM, panel(face="ceiling", y=12), junction(66, 90))
    assert walls(job)["W1"].panels == ()
    drawn = scene(job, "W1").get("A1")
    assert drawn is not None
    assert [each / INCH_NM for each in drawn.extent] == [60, 95.5, 72, 96]
    (side,) = tape_sheet(job, "W1").sides
    assert (side.name, side.note) == ("ceiling", "bottom and top mean out from the wall")
    assert "B1" in panel_contents(job)["A1"].all
    assert any(
        "in the ceiling, 5'-0\" from the left of W1 and 1'-0\" out from it." in line for line in reach(job, "A1").open
    )
    # 12 in out and 6 down it is near; 30 in out it is not.
    assert "B1" in panel_contents(job)["A1"].near
    out = job_of(*ROOM, panel(face="ceiling", y=30), junction(66, 90, reached=""))
    assert panel_contents(out)["A1"].near == ()
    # A joint at 40 in is 56 in under it: nobody takes it for one behind the panel.
    assert panel_contents(job_of(*ROOM, panel(face="ceiling", y=12), junction(66, 40)))["A1"].straight == ()


def test_an_arm_reaches_into_the_depth() -> None:
    # The front of the build-out is 20 in out; the joint is on the wall's own face behind it.
    out = made(BuildOut, "U1", name="bay", wall="W1", x=40, width=60, depth=20)
    joint = junction(66, 16, face="wall")
    assert way(out, panel(), joint) == (False, 20, 20)  # two hands work 18 in in
    assert way(out, panel(passes="an arm"), joint) == (True, 20, 20)
    assert way(out, panel(passes="an arm"), joint, arm=18) == (False, 20, 20)
    # 9 in beside its edge and 20 in deep: (9² + 20²)^½ = 21.93.
    assert way(out, panel(passes="an arm"), junction(81, 16, face="wall")) == (True, 21.93, 20)
    far = job_of(*ROOM, out, panel(), joint)
    (told,) = [each for each in found(far, "way_too_far") if "B1" in each.tags]
    assert "1'-8\" of that in depth" in told.why


def test_a_cabinet_is_gone_into_where_shoulders_go() -> None:
    # A cabinet of 3/4 in boards 20 in deep stands before a wall of 4 in: its back is at the wall's face.
    joint, back = junction(26, 20, face="wall"), panel(x=20, y=15, face="cabinet back", on="N1")
    wide = opening("N1", 10, 10, 37.5, 31.5, thickness=0.75, use="equipment")
    assert way(wide, back, joint) == (True, 0, 0)
    # The cabinet need not be named, where the panel is within its outline; beside it, it is in no cabinet.
    assert way(wide, panel(x=20, y=15, face="cabinet back"), joint) == (True, 0, 0)
    narrow = opening(
        "N1", 10, 10, 37.5, 31.5, thickness=0.75, use="equipment", door="solid", door_width=12, door_height=30
    )
    for place, deep in ((20, 20), (50, 0)):
        away = panel(x=place, y=15, face="cabinet back")
        assert way(narrow, away, junction(place + 6, 20, face="wall")) == (deep == 0, deep, deep)
    low = opening("N1", 10, 10, 37.5, 15, thickness=0.75, use="equipment")
    assert way(low, panel(x=20, y=12, height=8, face="cabinet back", on="N1"), joint) == (False, 20, 20)
    # A box in the back of a bay that is not high enough for shoulders: 16 in of depth, and 26.
    for deep, counts in ((16, True), (26, False)):
        bay = opening("N1", 10, 10, 37.5, 15, use="equipment", depth=deep)
        assert way(bay, made(Box, "B1", what="receptacle", wall="W1", x=26, y=18, reached="N1")) == (counts, deep, deep)
    # In its left side, from 2 to 14 in out from the back; a joint 5 in beside that side, at the wall.
    aside = panel(x=2, y=15, face="cabinet left side", on="N1")
    assert way(wide, aside, junction(5, 20, face="wall"))[0]
    drawn = scene(job_of(*ROOM, wide, aside), "W1").get("A1")
    assert drawn is not None
    assert [each / INCH_NM for each in drawn.extent] == [10, 15, 10.5, 27]
    assert one(job_of(*ROOM, wide, panel(face="cabinet left side")), "panel_of_which_cabinet").tags == ("A1",)


def test_a_fixed_shelf_across_a_panel_in_the_back() -> None:
    cabinet = opening("N1", 10, 10, 37.5, 31.5, thickness=0.75, use="equipment")
    back = panel(x=20, y=15, face="cabinet back", on="N1")
    # The shelf is from 22 to 22-3/4 in off the floor, the panel from 15 to 27.
    assert one(job_of(*ROOM, cabinet, back, board("G1", 12, what="fixed shelf")), "shelf_across_panel").tags == (
        "A1", "G1", "N1",
    )  # fmt: skip
    for other in (board("G1", 12), board("G1", 20, what="fixed shelf")):
        assert found(job_of(*ROOM, cabinet, back, other), "shelf_across_panel") == []
    # A lift-out one under a shelf: its top at 27 in, the shelf from 27-1/4.
    lift = job_of(*ROOM, cabinet, panel(x=20, y=15, face="cabinet back", on="N1", opens="lift-out"), board("G1", 17.25))
    assert one(lift, "panel_cannot_lift").tags == ("A1", "G1")


@pytest.mark.parametrize("height", [12, 40])
def test_furniture_is_drawn_from_the_front_and_from_above(height: int) -> None:
    job = job_of(*ROOM, bench())
    drawn = scene(job, "W1").get("J1")
    assert drawn is not None
    assert [each / INCH_NM for each in drawn.extent] == [50, 0, 90, 30]
    above = plan(job, "W1", height * INCH_NM).get("J1")
    assert (above is None) == (height > 30)
    if above is not None:
        assert [each / INCH_NM for each in above.extent] == [50, -24, 90, -6]


@rows(
    ("values", "over"),
    [
        ({"face": "ceiling", "x": 130, "y": 6}, ""), ({"face": "ceiling", "x": 131, "y": 6}, '1"'),
        ({"face": "floor", "x": 0, "y": 0}, ""),
        ({"face": "cabinet left side", "on": "N1", "x": 2, "y": 22}, ""),
        ({"face": "cabinet left side", "on": "N1", "x": 3, "y": 22}, '1"'),
        ({"face": "cabinet right side", "on": "N1", "x": 2, "y": 37}, '1"'),
        ({"face": "cabinet back", "on": "N1", "x": 20, "y": 20}, ""),
        ({"face": "cabinet back", "on": "N1", "x": 18, "y": 20}, '2"'),
    ],
)  # fmt: skip
def test_a_panel_is_whole_in_the_face_that_it_is_in(values: Any, over: str) -> None:
    """14 x 14 in: a wall 144 wide; a cabinet 40 wide, 16 deep and 30 high, from 20 in along and 20 up."""
    cabinet = opening("N1", 20, 20, 40, 30, depth=16, thickness=0.75, use="equipment")
    one_panel = made(Panel, "A1", name="Panel", wall="W1", width=14, height=14, **values)
    said = found(job_of(*ROOM, cabinet, one_panel), "panel_off_face")
    assert [each.numbers["over"] for each in said] == ([over] if over else [])
