"""Panels: large enough, in a bay, and free to open; each finding by the smallest job and the nearest without it."""

from __future__ import annotations

import pytest

from store.measure.mass import parse_mass
from store.records.access import Visit
from store.records.equipment import Equipment
from store.rules.access.panel_rules import (
    panel_across_edge,
    panel_behind_things,
    panel_cannot_swing,
    panel_is_blocked,
    panel_not_measured,
    panel_on_stud,
    panel_tight,
    panel_too_small,
    panels_overlap,
    part_does_not_pass,
)
from store.rules.core.figures import figures
from store.rules.fit.in_front import standing_before
from tests.jobs.access_jobs import TODAY, at, job_of, make, only, opening, panel, told, wall
from tests.rows import rows

BAY = "17"
"""Left edge of a panel that stands free in the bay between the studs at 16 in and 32 in."""


@rows(
    ("passes", "width", "height", "small"),
    [
        ("one hand", "3 7/16", "5", True),  # MIL-STD-1472, from memory: clenched hand 3.5 x 5 in
        ("one hand", "3 1/2", "5", False),
        ("one hand", "5", "3 1/2", False),
        ("an arm", "5", "4 15/16", True),  # arm to the shoulder: 5 x 5 in
        ("an arm", "5", "5", False),
        ("two hands", "7 15/16", "12", False),  # turned: 12 by 7 15/16 still takes 8 by 5
        ("two hands", "7 15/16", "7 15/16", True),
    ],
)
def test_less_than_a_body_passes_is_mended(passes: str, width: str, height: str, small: bool) -> None:
    job = job_of(panel("A1", BAY, "10", width, height, passes=passes))
    assert told(panel_too_small, job) == ([("panel_too_small", "fix", ("A1",))] if small else [])


def test_less_than_usual_is_looked_at_until_somebody_has_worked_through_it() -> None:
    tight = panel("A1", BAY, "10", "12", "10")
    assert told(panel_tight, job_of(tight)) == [("panel_tight", "look", ("A1",))]
    assert not told(panel_tight, job_of(panel("A1", BAY, "10", "12", "12")))
    visit = make(Visit, "V1", panel="A1", date=TODAY, who="Robin")
    assert not told(panel_tight, job_of(tight, visit))
    assert not told(panel_tight, job_of(panel("A1", BAY, "10", "3", "3")))  # that one is too small already


def test_a_part_larger_than_its_panel_cannot_be_swapped() -> None:
    size = {"width": at("13"), "height": at("11"), "depth": at("2")}
    part = make(Equipment, "E1", name="driver", what="driver", reached="A1", **size)
    assert told(part_does_not_pass, job_of(panel("A1", BAY, "10", "10", "10"), part)) == [
        ("part_does_not_pass", "fix", ("A1", "E1"))
    ]
    # On edge 11 in by 2 in go in, with hands at its flat sides: 6 1/2 in by 11 1/2 in.
    assert not told(part_does_not_pass, job_of(panel("A1", BAY, "10", "12", "12"), part))


def test_hands_beside_a_part_are_looked_at() -> None:
    cube = make(Equipment, "E1", name="box", what="part", reached="A1", width=at("8"), height=at("8"), depth=at("8"))
    assert told(part_does_not_pass, job_of(panel("A1", BAY, "10", "12", "12"), cube)) == [
        ("part_passes_unheld", "look", ("A1", "E1"))
    ]
    assert not told(part_does_not_pass, job_of(panel("A1", BAY, "10", "12 1/2", "8 1/2"), cube))
    assert told(part_does_not_pass, job_of(panel("A1", BAY, "10", "7", "12"), cube)) == [
        ("part_does_not_pass", "fix", ("A1", "E1"))
    ]


def test_a_part_without_sizes_and_one_that_left_say_nothing() -> None:
    unknown = make(Equipment, "E1", name="box", what="part", reached="A1")
    assert not told(part_does_not_pass, job_of(panel("A1", BAY, "10"), unknown))
    gone = make(
        Equipment, "E1", name="box", what="part", reached="A1",
        width=at("30"), height=at("30"), depth=at("30"), retired=TODAY,
    )  # fmt: skip
    assert not told(part_does_not_pass, job_of(panel("A1", BAY, "10"), gone))


def test_panels_without_a_size_are_told_once() -> None:
    first = panel("A1", BAY, "10", holds="slack", width="")
    second = panel("A2", BAY, "40", holds="slack", height="")
    empty = panel("A3", BAY, "60", width="")
    assert told(panel_not_measured, job_of(first, second, empty)) == [("panel_not_measured", "look", ("A1", "A2"))]


@rows(("bearing", "severity"), [("yes", "fix"), ("unknown", "fix"), ("no", "look")])
def test_a_stud_in_the_way_weighs_by_what_it_carries(bearing: str, severity: str) -> None:
    across = panel("A1", "26", "10")
    found = only(panel_on_stud(job_of(across).having(wall(bearing=bearing))))
    assert (found.severity, found.tags) == (severity, ("A1", "W1"))
    assert "2'-8\"" in found.says


@pytest.mark.parametrize(("x", "on_stud"), [("16 7/8", False), ("16 13/16", True)])
def test_the_framed_hole_counts_and_not_the_clear_opening_alone(x: str, on_stud: bool) -> None:
    # The stud at 16 in ends at 16 3/4; the frame takes 1/8 in on each side of the clear opening.
    assert bool(told(panel_on_stud, job_of(panel("A1", x, "10")))) is on_stud


def test_a_panel_in_the_back_of_a_cabinet_is_not_framed_in_the_studs() -> None:
    cabinet = opening("N1", "equipment", "20", "4", "30", "30")
    assert not told(panel_on_stud, job_of(cabinet, panel("A1", "26", "10")))


def test_a_hinged_panel_needs_depth_to_swing_in() -> None:
    shallow = opening("N1", "shelf", "10", "4", "30", "30", depth=at("11"))
    deep = opening("N1", "shelf", "10", "4", "30", "30", depth=at("12"))
    hinged = panel("A1", "15", "10")
    assert told(panel_cannot_swing, job_of(shallow, hinged)) == [("panel_cannot_swing", "fix", ("A1", "N1"))]
    assert not told(panel_cannot_swing, job_of(deep, hinged))
    assert not told(panel_cannot_swing, job_of(shallow, panel("A1", "15", "10", opens="lift-out")))


def test_a_blocked_panel_is_told_of_even_with_nothing_behind_it() -> None:
    hearth = opening("N2", "fireplace", "40", "8", "50", "20")
    unit = make(Equipment, "E2", name="unit", what="fireplace", opening="N2", mounting="made to be recessed")
    assert told(panel_is_blocked, job_of(hearth, unit, panel("A1", "50", "10"))) == [
        ("panel_is_blocked", "fix", ("A1", "E2"))
    ]
    assert not told(panel_is_blocked, job_of(hearth, unit, panel("A1", "91", "10")))


def test_the_figures_of_a_panel_name_the_door_and_the_frame() -> None:
    found = figures(job_of(panel("A1", BAY, "10", "9", "6", passes="one hand")))["A1"]
    assert (found["door_sold_width"].inches, found["door_sold_height"].inches) == (9, 6)
    assert found["framed_width"].inches == 9.25
    assert found["least_source"].startswith("MIL-STD-1472")


def test_what_stands_before_a_panel_comes_out_first_and_is_told_with_its_weight() -> None:
    cabinet = opening("N1", "equipment", "10", "4", "40", "30", depth=at("20"))
    hatch = panel("A1", "15", "6", opens="screwed")
    size = {"width": at("17"), "height": at("6"), "depth": at("14"), "weight": parse_mass("24 lb")}
    heavy = make(Equipment, "E1", name="receiver", what="receiver", opening="N1", offset=at("3"), **size)
    found = only(panel_behind_things(job_of(cabinet, hatch, heavy)))
    assert (found.severity, found.tags) == ("look", ("A1",))
    assert "E1 receiver, 24 lb" in found.says
    # What stands on a shelf and one person can lift is drawn forward: no word about it.
    shelf = make(Equipment, "E1", name="receiver", what="receiver", opening="N1", mounting="shelf", **size)
    assert not told(panel_behind_things, job_of(cabinet, hatch, shelf))
    much = make(Equipment, "E1", name="amp", opening="N1", mounting="shelf", **{**size, "weight": parse_mass("36 lb")})
    assert told(panel_behind_things, job_of(cabinet, hatch, much))
    aside = make(Equipment, "E1", name="receiver", what="receiver", opening="N1", offset=at("22"), **size)
    assert not told(panel_behind_things, job_of(cabinet, hatch, aside))
    gone = make(Equipment, "E1", name="receiver", what="receiver", opening="N1", retired=TODAY, **size)
    assert not told(panel_behind_things, job_of(cabinet, hatch, gone))


def test_a_screen_that_hangs_over_a_panel_beside_its_recess_is_told() -> None:
    recess = opening("N1", "screen", "40", "40", "50", "30", depth=at("4"))
    screen = make(
        Equipment, "E1", name="screen", what="screen", opening="N1", mounting="wall bracket", width=at("62"),
        height=at("34"), depth=at("6"), power="cord",
    )  # fmt: skip
    beside = panel("A1", "92", "44", "12")
    assert standing_before(job_of(recess, screen, beside)) == {"A1": ("E1",)}
    assert told(panel_behind_things, job_of(recess, screen, beside)) == [("panel_behind_things", "look", ("A1",))]
    assert standing_before(job_of(recess, screen, panel("A1", "96", "44", "12"))) == {}


def test_a_light_in_a_cabinet_of_which_no_place_is_known_stands_before_no_panel() -> None:
    cabinet = opening("N1", "equipment", "10", "4", "40", "30", depth=at("20"))
    light = make(Equipment, "E1", name="light", what="light", opening="N1", power="hard-wired")
    assert standing_before(job_of(cabinet, panel("A1", "15", "6"), light)) == {}
    player = make(Equipment, "E1", name="player", what="player", opening="N1", power="cord")
    assert standing_before(job_of(cabinet, panel("A1", "15", "6"), player)) == {"A1": ("E1",)}


@rows(
    ("x", "y", "opens", "cut"),
    [
        ("15", "10", "hinged", False),  # wholly in the back of it
        ("10", "4", "hinged", False),  # in its corner, edge on edge
        ("9 15/16", "4", "hinged", True),
        ("15", "28", "screwed", True),
        ("15", "34", "hinged", False),  # above it, edge on edge
        ("15", "28", "removable shelf", False),
        ("15", "28", "door", False),
    ],
)
def test_the_edge_of_an_opening_runs_through_no_panel(x: str, y: str, opens: str, cut: bool) -> None:
    cabinet = opening("N1", "equipment", "10", "4", "40", "30", depth=at("20"))
    job = job_of(cabinet, panel("A1", x, y, opens=opens))
    assert told(panel_across_edge, job) == ([("panel_across_edge", "fix", ("A1", "N1"))] if cut else [])


def test_a_panel_that_is_the_front_of_an_opening_is_no_slip() -> None:
    small = opening("N1", "other", "20", "10", "8", "8", depth=at("6"))
    assert not told(panel_across_edge, job_of(small, panel("A1", "18", "8")))


def test_two_panels_do_not_take_one_place() -> None:
    one = panel("A2", "20", "10")
    found = only(panels_overlap(job_of(one, panel("A10", "31", "21"))))
    assert (found.severity, found.tags, found.numbers) == ("fix", ("A2", "A10"), {"shared": '1" x 1"'})
    assert not told(panels_overlap, job_of(one, panel("A10", "32", "10")))


def test_a_fixed_piece_blocks_the_panel_behind_where_it_stands_in_its_opening() -> None:
    recess = opening("N1", "equipment", "10", "4", "60", "20", depth=at("20"))
    size = {"width": at("14"), "height": at("6"), "depth": at("14")}
    aside = make(Equipment, "E1", name="amplifier", opening="N1", power="hard-wired", offset=at("1"), **size)
    assert told(panel_is_blocked, job_of(recess, panel("A1", "12", "10"), aside)) == [
        ("panel_is_blocked", "fix", ("A1", "E1"))
    ]
    assert not told(panel_is_blocked, job_of(recess, panel("A1", "34", "10"), aside))
