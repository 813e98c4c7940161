"""What is on the face of a wall: what it hides, hits and needs behind it; both sides of each edge."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from store.measure.length import INCH_NM, Length
from store.records.access import Panel
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.core.checks import rough_in
from store.rules.screen.view import views
from tests.jobs.wall_jobs import ROOM, figure, found, job_of, made, obstacle, one, opening, panel, wall
from tests.rows import rows


def thing(tag: str, x: float, y: float, width: float, height: float, **values: Any) -> Equipment:
    """A thing on the face of W1 by its centre, inches."""
    given = {"name": f"thing {tag}", "what": "screen", "wall": "W1", "depth": 2, **values}
    return made(Equipment, tag, x=x, y=y, width=width, height=height, **given)


TV = thing("E1", 72, 52, 57, 33)
"""From 43-1/2 to 100-1/2 in along, from 35-1/2 to 68-1/2 in up."""


def walled(*more: Record, **values: Any) -> Job:
    """The TV on the bare wall, with studs from 16 in."""
    return job_of(wall(first_stud=16, **values), *ROOM[1:], TV, *more)


def box(tag: str, what: Any, x: float, y: float, **values: Any) -> Box:
    """A box on W1."""
    return made(Box, tag, what=what, wall="W1", x=x, y=y, **values)


@pytest.mark.parametrize("what", ["switch", "junction"])
def test_a_switch_or_a_joint_behind_a_screen_is_told(what: str) -> None:
    assert not found(walled(box("B1", what, 103, 48)), "hides_what_is_used")
    finding = one(walled(box("B1", what, 99, 48)), "hides_what_is_used")
    assert (finding.severity, finding.tags) == ("fix", ("E1", "B1"))


def test_a_wall_switch_that_is_there_already_and_a_vent() -> None:
    assert one(walled(obstacle("O1", "switch", 95, 46, 2.75, 4.5)), "hides_what_is_used").tags == ("E1", "O1")
    assert one(walled(obstacle("O1", "vent", 90, 60, 14, 8)), "hides_what_is_used").severity == "fix"
    assert not found(walled(obstacle("O1", "vent", 95, 60, 14, 8)), "hides_what_is_used")


def test_a_receptacle_behind_it_is_told_unless_it_plugs_in_there() -> None:
    assert one(walled(box("B1", "receptacle", 72, 50)), "hides_receptacle").tags == ("E1", "B1")
    own = thing("E1", 72, 52, 57, 33, plug="B1")
    assert not found(walled(box("B1", "receptacle", 72, 50)).having(own), "hides_receptacle")
    bar = thing("E2", 72, 30, 40, 4, what="soundbar", plug="B1")
    assert not found(walled(box("B1", "receptacle", 72, 50), bar), "hides_receptacle")


def test_a_panel_behind_it_is_told() -> None:
    assert "E1" in one(walled(panel("A1", 90, 40, 12, 10)), "panel_behind_things").says
    assert not found(walled(panel("A1", 101, 40, 12, 10)), "panel_behind_things")


def test_what_is_on_a_return_is_not_behind_what_is_on_the_front() -> None:
    aside = made(Panel, "A1", name="side", wall="W1", x=60, y=40, width=12, height=10, face="left return")
    assert not found(walled(aside), "panel_behind_things")


def test_two_things_in_one_place() -> None:
    assert not found(walled(thing("E2", 72, 33.5, 40, 4, what="soundbar")), "things_overlap")
    assert one(walled(thing("E2", 72, 34, 40, 4, what="soundbar")), "things_overlap").numbers["up"] == '1/2"'
    assert not found(walled(thing("E2", 72, 52, 16, 16, what="mount")), "things_overlap")


def test_a_thing_past_the_edge_of_the_wall() -> None:
    assert not found(walled(thing("E2", 134, 52, 20, 10, what="picture")), "outside_wall")
    assert one(walled(thing("E2", 135, 52, 20, 10, what="picture")), "outside_wall").tags == ("E2", "W1")


def test_a_thing_over_a_framed_hole_and_one_that_runs_into_a_cabinet() -> None:
    assert one(walled(opening("N1", 60, 40, 20, 20, depth=4)), "on_a_hole").severity == "look"
    cabinet = opening("N1", 60, 15, 20, 21, depth=16, thickness=0.75, use="equipment")
    assert one(walled(cabinet), "on_a_hole").severity == "fix"
    below = opening("N1", 60, 15, 20, 20.5, depth=16, thickness=0.75, use="equipment")
    assert not found(walled(below), "on_a_hole")


def test_a_flat_bracket_over_a_plug() -> None:
    """1-1/4 in behind the TV; a straight plug takes 1-1/2; a box that is set back is meant for it."""
    flat = thing("E1", 72, 52, 57, 33, plug="B1", off_wall=made(Panel, "A9", name="-", width=1.25).width)
    assert found(walled(box("B1", "receptacle", 72, 50)).having(flat), "rests_on_plug")
    far = thing("E1", 72, 52, 57, 33, plug="B1", off_wall=made(Panel, "A9", name="-", width=1.5).width)
    assert not found(walled(box("B1", "receptacle", 72, 50)).having(far), "rests_on_plug")


def test_studs_backing_and_height_of_the_picture_follow_from_its_place() -> None:
    """Studs at 48, 64, 80 and 96 in are behind 43-1/2 to 100-1/2 in; the middle of the picture is 52 in up."""
    job = walled()
    assert figure(job, "E1", "studs_behind") == ["4'-0\"", "5'-4\"", "6'-8\"", "8'-0\""]
    assert [each.key for each in rough_in(job) if each.key == "E1/backing"] == ["E1/backing"]
    height = views(job)["E1"].centre_nm
    assert height is not None
    assert height == made(Panel, "A9", name="-", y=52).y.nm  # type: ignore[union-attr]


@rows(("what", "backed"), [("mantel", True), ("floating shelf", True), ("picture", False)])
def test_what_is_screwed_to_the_framing_wants_backing(what: str, backed: bool) -> None:
    job = job_of(*ROOM, thing("E2", 72, 52, 60, 6, what=what))
    assert bool([each for each in rough_in(job) if each.key == "E2/backing"]) is backed


def test_a_driver_with_a_place_stays_behind_the_wall() -> None:
    """As it was before things had faces: it hides nothing and wants access."""
    driver = made(Equipment, "E3", name="driver", what="driver", wall="W1", x=50, y=50, width=6, height=2, depth=1)
    job = job_of(*ROOM, driver, obstacle("O1", "switch", 48, 49, 2, 2))
    assert not found(job, "hides_what_is_used")
    assert found(job, "thing_without_way")


@rows(
    ("x", "y", "told"), [(66, 58, False), (99, 58, False), (104, 58, True), (66, 30, True)]
)  # fmt: skip
def test_a_cable_from_a_box_behind_a_screen_is_not_in_the_wall(x: float, y: float, told: bool) -> None:
    """The TV goes from 43-1/2 to 100-1/2 in and from 35-1/2 to 68-1/2 in up."""
    cable = made(Cable, "K1", type="hdmi", start="B2", end="E1", in_wall=False, route="cabinet")
    job = walled(box("B2", "low-voltage", x, y), cable)
    assert bool(found(job, "cable_out_of_wall_by_word")) is told


def test_a_soundbar_close_under_a_screen_is_joined_in_front_of_the_wall() -> None:
    cable = made(Cable, "K1", type="hdmi", start="E2", end="E1", in_wall=False, route="cabinet")
    near = thing("E2", 72, 22.5, 40, 2, what="soundbar")
    assert not found(walled(near, cable), "cable_out_of_wall_by_word")
    far = thing("E2", 72, 22.4, 40, 2, what="soundbar")
    assert found(walled(far, cable), "cable_out_of_wall_by_word")


def test_what_is_on_the_face_is_before_a_panel_and_not_behind_it() -> None:
    tv = made(Equipment, "E1", name="TV", what="screen", wall="W1", x=72, y=56, width=57, height=33, depth=3)
    job = job_of(*ROOM, tv, panel("A1", 66, 50, 12, 12))
    assert not found(job, "behind_but_not_said")
    assert found(job, "panel_behind_things")


@rows(("x", "told"), [(60, True), (39, False), (101, False), (70, True)])
def test_partly_over_a_window_a_thing_has_nothing_to_hold_it(x: float, told: bool) -> None:
    """A window from 50 to 90 in, 30 to 70 up; a picture 20 in wide: at 40 in its edge is at 50."""
    window = obstacle("O1", "window", 50, 30, 40, 40)
    picture = made(Equipment, "E1", name="Picture", what="picture", wall="W1", x=x, y=60, width=20, height=20, depth=1)
    said = found(job_of(*ROOM, window, picture), "over_an_edge")
    assert [each.tags for each in said] == ([("E1", "O1")] if told else [])
    # What covers most of it is told of that alone.
    blind = msgspec.structs.replace(picture, width=Length(44 * INCH_NM), height=Length(44 * INCH_NM))
    blind = msgspec.structs.replace(blind, x=Length(70 * INCH_NM), y=Length(50 * INCH_NM))
    over = job_of(*ROOM, window, blind)
    assert not found(over, "over_an_edge")
    assert found(over, "hides_what_is_used")
