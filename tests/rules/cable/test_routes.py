"""Routes: lengths worked out by hand, for every way a cable can take."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import FOOT_NM, INCH_NM
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.wall import Opening, Reading, Wall
from store.records.whole import Job
from store.records.wiring import Cable, Circuit, Raceway
from store.rules.cable.routes import Route, place_text, route_of, routes, studs_between
from tests.jobs.cable_jobs import TODAY, at, box, cable, job_of, make, plain, put, wall
from tests.rows import rows


def route(job: Job, tag: str = "K1") -> Route:
    """The route of a cable, asked for as everybody does."""
    return routes(job)[tag]


BY_HAND: dict[str, tuple[dict[str, Any], str]] = {
    # B1 is at 2 ft / 1 ft, B2 at 8 ft / 5 ft, the wall 8 ft high.
    "level, at the height of its start": ({}, "10'"),
    "level at 3 ft: 2 up, 6 across, 2 up": ({"level": "3'"}, "10'"),
    "level at 7 ft: 6 up, 6 across, 2 down": ({"level": "7'"}, "14'"),
    "over the top: 7 up, 6 across, 3 down": ({"route": "up and over"}, "16'"),
    "under the floor: 1 down, 6 across, 5 up": ({"route": "down and under"}, "12'"),
    "by one point, 2 down-right 3-4-5": ({"route": "points", "points": ("5'/5'",)}, "8'"),
    "by points square to each other": ({"route": "points", "points": ("2'/2'", "8'/2'")}, "10'"),
}


@rows("case", BY_HAND)
def test_a_path_is_as_long_as_worked_out_by_hand(case: str) -> None:
    values, length = BY_HAND[case]
    assert route(plain(cable(**values))).path == at(length).nm


def test_in_a_cabinet_a_cable_goes_straight() -> None:
    job = plain(box("B3", "5'", "5'"), cable(end="B3", route="cabinet", in_wall=False))
    assert route(job).path == 5 * FOOT_NM


def test_a_measured_length_wins_and_is_marked() -> None:
    found = route(plain(cable(measured="31'")))
    assert (found.path, found.found) == (31 * FOOT_NM, "measured by hand")
    assert found.studs == 5


def test_what_stays_in_the_cabinet_goes_straight() -> None:
    assert route(plain(cable(in_wall=False))).path == route(plain(cable(in_wall=False, route="cabinet"))).path


def test_a_raceway_with_a_length_needs_no_places() -> None:
    job = job_of(
        make(Raceway, "R1", start="B1", end="B2", length="12'"),
        make(type(box("B1", "1", "1")), "B1", what="low-voltage"),
        make(type(box("B1", "1", "1")), "B2", what="low-voltage"),
        cable(route="raceway", raceway="R1"),
        cable("K2", start="B2", end="B1", route="raceway", raceway="R1"),
    )
    assert route(job).path == route(job, "K2").path == 12 * FOOT_NM
    assert route(job).found == "the plan, along R1"


def test_a_raceway_without_a_length_is_square_to_the_framing() -> None:
    job = plain(make(Raceway, "R1", start="B1", end="B2"), cable(route="raceway", raceway="R1"))
    assert route(job).path == 10 * FOOT_NM


def test_the_way_to_a_raceway_counts_whichever_end_is_nearer() -> None:
    job = plain(
        box("B3", "3'", "1'"),
        box("B4", "7'", "1'"),
        make(Raceway, "R1", start="B4", end="B3", length="5'"),
        cable(route="raceway", raceway="R1"),
    )
    # 1 ft to B3, 5 ft along, then 1 ft across and 4 ft up to B2.
    assert route(job).path == 11 * FOOT_NM


def test_a_feed_takes_the_length_of_its_circuit() -> None:
    circuit = make(Circuit, "C1", name="media", length="46'")
    job = plain(circuit, box("B3", "1'", "1'", "receptacle", circuit="C1"), cable(kind="12-2 nm", start="", end="B3"))
    assert (route(job).path, route(job).found) == (46 * FOOT_NM, "the length of C1 to the panel")


@rows(
    ("values", "why"),
    [
        ({"end": ""}, "its “to” end not entered"),
        ({"end": "B9"}, "B9 is not placed yet"),
        ({"route": "raceway"}, "no raceway entered"),
        ({"route": "raceway", "raceway": "R1"}, "no length entered for R1, and its “from” end not entered"),
    ],
)
def test_what_is_missing_is_said(values: dict[str, Any], why: str) -> None:
    job = plain(make(type(box("B9", "1", "1")), "B9", what="low-voltage"), make(Raceway, "R1"), cable(**values))
    assert (route(job).path, route(job).why) == (None, why)


def test_without_a_height_nothing_goes_over_the_top() -> None:
    one, width, _ = wall()
    job = job_of(one, width, box("B1", "2'", "1'"), box("B2", "8'", "5'"), cable(route="up and over"))
    assert route(job).why == "it goes over the top, and the height of W1 is not read yet"


# --- round the corner ---


def corner_job(*more: Any, first: dict[str, Any] | None = None, **values: Any) -> Job:
    """Two walls, 14 ft and 7 ft wide; B1 on the first 2 ft from its right end, B2 on the second 3 ft from its left."""
    ends = (box("B1", "12'", "1'"), box("B2", "3'", "2'", on="W2"))
    return job_of(wall(**(first or {})), wall("W2", "7'", "8'"), *ends, cable(**values), *more)


def test_round_the_corner_the_two_walls_continue_each_other() -> None:
    found = route(corner_job())
    assert found.path == (2 + 3 + 1) * FOOT_NM
    assert found.walls == ("W1", "W2")
    assert (found.noted, found.other_by) == (False, (12 + 4 - 5) * FOOT_NM)
    assert found.found.startswith("the plan, around the nearer corner")
    assert [(leg.wall, leg.start, leg.end) for leg in found.legs] == [
        ("W1", (12 * FOOT_NM, FOOT_NM), (14 * FOOT_NM, FOOT_NM)),
        ("W2", (0, FOOT_NM), (3 * FOOT_NM, FOOT_NM)),
        ("W2", (3 * FOOT_NM, FOOT_NM), (3 * FOOT_NM, 2 * FOOT_NM)),
    ]


def test_what_is_noted_of_the_corner_holds_for_all_cables_between_the_two_walls() -> None:
    job = corner_job(cable("K2", start="B2", end="B1"), first={"meets_left": "W2"})
    for tag in ("K1", "K2"):
        assert route(job, tag).path == (12 + 4 + 1) * FOOT_NM
        assert (route(job, tag).noted, route(job, tag).found) == (True, "the plan")


def test_the_corner_may_be_noted_on_either_wall() -> None:
    on_second = job_of(
        wall(),
        wall("W2", "7'", "8'", meets_right="W1"),
        box("B1", "12'", "1'"),
        box("B2", "3'", "2'", on="W2"),
        cable(),
    )
    assert route(on_second).path == (12 + 4 + 1) * FOOT_NM


def test_over_a_wall_between_two_others() -> None:
    """W1 14 ft, then W2 7 ft, then W3: 2 ft left of W1, all of W2, 1 ft of W3, and 3 ft up."""
    job = job_of(
        wall(meets_right="W2"),
        wall("W2", "7'", "8'", meets_right="W3"),
        wall("W3", "9'", "8'"),
        box("B1", "12'", "1'"),
        box("B2", "1'", "4'", on="W3"),
        cable(),
        cable("K2", start="B2", end="B1"),
    )
    assert route(job).path == (2 + 7 + 1 + 3) * FOOT_NM
    assert route(job).walls == ("W1", "W2", "W3")
    # Back at the height of B2, 4 ft, and down at the end: as long.
    assert route(job, "K2").path == route(job).path
    assert [leg.wall for leg in route(job, "K2").legs] == ["W3", "W2", "W1", "W1"]


def test_an_end_that_meets_a_third_wall_is_not_taken_for_the_corner() -> None:
    job = corner_job(wall("W3"), first={"meets_right": "W3"})
    assert (route(job).path, route(job).noted, route(job).other_by) == ((12 + 4 + 1) * FOOT_NM, False, 0)
    both = corner_job(wall("W3"), wall("W4"), first={"meets_right": "W3", "meets_left": "W4"})
    assert route(both).path is None
    assert route(both).why.startswith("no corner entered between W1 and W2")


def test_only_the_width_of_what_is_passed_is_needed() -> None:
    one, _, height = wall("W2")
    job = job_of(wall(meets_right="W2"), one, height, box("B1", "12'", "1'"), box("B2", "3'", "2'", on="W2"), cable())
    assert route(job).path == 6 * FOOT_NM


def test_points_may_lie_on_another_wall_or_be_named_by_their_tags() -> None:
    # 2 ft to the corner, 1 ft on; 5 ft up to the point's 6 ft; 2 ft to the left, then 4 ft down to B2: slanted 3-4-5.
    by_hand = corner_job(route="points", points=("14'/1'", "W2 0/6'", "W2 3'/6'"))
    assert route(by_hand).path == (2 + 5 + 3 + 4) * FOOT_NM
    named = corner_job(box("B3", "3'", "6'", on="W2"), route="points", points=("14'/1'", "W2 0/6'", "b3"))
    assert route(named).path == route(by_hand).path
    assert route(plain(box("B3", "5'", "5'"), cable(route="points", points=("B3",)))).path == 8 * FOOT_NM


def test_a_raceway_goes_round_a_corner_too() -> None:
    job = corner_job(
        make(Raceway, "R1", start="B1", end="B2"),
        box("B3", "11'", "1'"),
        cable("K2", start="B3", end="B2", route="raceway", raceway="R1"),
        first={"meets_right": "W2"},
        route="raceway",
        raceway="R1",
    )
    assert route(job).path == (2 + 3 + 1) * FOOT_NM
    assert route(job, "K2").path == (1 + 2 + 3 + 1) * FOOT_NM
    assert [leg.place for leg in route(job, "K2").legs] == ["wall", "raceway", "raceway", "raceway"]


def test_two_walls_meet_in_one_corner_only() -> None:
    """Each cable alone would take another corner; together they take the one that is shorter for both."""
    job = job_of(
        wall(),
        wall("W2", "7'", "8'"),
        box("B1", "12'", "1'"),
        box("B2", "3'", "1'", on="W2"),
        box("B3", "6'", "1'"),
        box("B4", "6'", "1'", on="W2"),
        cable(),
        cable("K2", start="B4", end="B3"),
    )
    assert route(job).path == 5 * FOOT_NM
    assert route(job, "K2").path == (8 + 6) * FOOT_NM


def test_over_the_top_round_a_corner() -> None:
    assert route(corner_job(route="up and over")).path == (7 + 5 + 6) * FOOT_NM


def test_without_a_width_nothing_goes_round_a_corner() -> None:
    one, _, height = wall()
    job = job_of(one, height, wall("W2"), box("B1", "1'", "1'"), box("B2", "1'", "1'", on="W2"), cable())
    assert route(job).why == "it goes around a corner, and W1 has no width reading yet"


# --- studs ---


def test_studs_are_counted_between_the_ends() -> None:
    # Studs at 16, 32, 48, 64, 80, 96 in: from 24 in to 96 in a run meets 32, 48, 64, 80 and half of the one at 96.
    assert route(plain(cable())).studs == 5
    inch = INCH_NM
    assert studs_between(plain(), "W1", 17 * inch, 31 * inch) == ()
    assert studs_between(plain(), "W1", 15 * inch, 33 * inch) == (16 * inch, 32 * inch)


def test_a_run_within_a_bay_a_run_over_the_top_and_one_in_the_cabinet_bore_no_stud() -> None:
    job = plain(box("B3", "26", "5'"), cable(end="B3"), cable("K2", route="up and over"), cable("K3", in_wall=False))
    assert [routes(job)[tag].studs for tag in ("K1", "K2", "K3")] == [0, 0, 0]
    assert routes(job)["K2"].plates_bored == 2


def test_round_a_corner_the_end_studs_of_both_walls_are_met() -> None:
    # W1 from 144 in: studs at 144 (half met), 160 and the end stud; W2 to 36 in: end stud, 16, 32.
    assert route(corner_job()).studs == 6


def test_without_the_first_stud_the_count_is_not_known() -> None:
    job = job_of(wall(first_stud=None), box("B1", "2'", "1'"), box("B2", "8'", "5'"), cable())
    assert route(job).studs is None
    assert route(job).path == 10 * FOOT_NM


def test_a_cable_ends_at_the_middle_of_a_device_or_an_opening() -> None:
    opening = make(Opening, "N1", name="bay", wall="W1", x="8'", y="4'", width="2'", height="2'")
    device = make(Equipment, "E1", name="box", opening="N1", width="12", height="6")
    job = plain(opening, device, cable(end="N1"), cable("K2", end="E1"))
    assert route(job).path == (7 + 4) * FOOT_NM
    assert route(job, "K2").path == 7 * FOOT_NM + 3 * FOOT_NM + 3 * INCH_NM


def test_a_device_whose_size_is_not_noted_is_taken_as_amid_its_opening() -> None:
    opening = make(Opening, "N1", name="bay", wall="W1", x="8'", y="4'", width="2'", height="2'")
    job = plain(opening, make(Equipment, "E1", name="box", opening="N1"), cable(end="E1"), cable("K2", end="N1"))
    assert route(job).path == route(job, "K2").path == (7 + 4) * FOOT_NM
    assert route(job).found == "the plan; E1 taken at the middle of the opening"


EDITS: dict[str, Callable[[int], Record]] = {
    "a box is moved": lambda n: box("B2", f"{n + 30}", "5'"),
    "the box of the second wall is moved": lambda n: box("B3", f"{n + 10}", "2'", on="W2"),
    "the opening is moved": lambda n: make(
        Opening, "N1", name="bay", wall="W1", x=f"{n}", y="4'", width="2'", height="2'"
    ),
    "the device grows": lambda n: make(Equipment, "E1", name="box", opening="N1", width=f"{n + 1}", height="6"),
    "the raceway is longer": lambda n: make(Raceway, "R1", start="B1", end="B2", length=f"{n + 40}"),
    "the raceway ends elsewhere": lambda n: make(Raceway, "R1", start="B1", end="B3" if n % 2 else "B2"),
    "the wall meets the other at its left": lambda n: make(
        Wall, "W1", name="wall", first_stud="16", meets_left="W2" if n % 2 else ""
    ),
    "the wall is read again": lambda n: make(Reading, "D11", wall="W1", what="width", value=f"{n + 150}"),
    "the circuit is longer": lambda n: make(Circuit, "C1", name="media", length=f"{n + 1}'"),
    "a cable runs at another height": lambda n: cable(level=f"{n + 1}"),
    "another cable goes round the corner": lambda n: cable("K9", start=f"B{n % 2 + 1}", end="B3"),
}


@given(st.lists(st.tuples(st.sampled_from(sorted(EDITS)), st.integers(0, 60)), max_size=8))
def test_what_is_kept_of_routes_is_what_is_made_anew(steps: list[tuple[str, int]]) -> None:
    job = plain(
        wall("W2", "7'", "8'"),
        make(Circuit, "C1", name="media", length="20'"),
        box("B3", "3'", "2'", on="W2"),
        box("B4", "1'", "1'", "receptacle", circuit="C1"),
        make(Opening, "N1", name="bay", wall="W1", x="8'", y="4'", width="2'", height="2'"),
        make(Equipment, "E1", name="box", opening="N1"),
        make(Raceway, "R1", start="B1", end="B2"),
        cable(),
        cable("K2", end="E1"),
        cable("K3", end="B3"),
        cable("K4", route="raceway", raceway="R1", end="N1"),
        cable("K5", route="points", points=("B2", "N1"), end="B3"),
        cable("K6", kind="12-2 nm", start="", end="B4"),
    )
    for step in [None, *steps]:
        job = put(job, EDITS[step[0]](step[1])) if step else job
        assert routes(job) == {tag: route_of(job, each) for tag, each in job.of(Cable).items()}


def test_a_cable_that_was_given_up_has_no_route() -> None:
    job = plain(cable(), cable("K2", retired=TODAY))
    assert list(routes(job)) == ["K1"]


def test_what_lies_in_the_opening_of_a_device_goes_through_no_stud() -> None:
    """A device at one side of its cabinet, the tube in the middle: the way to it crosses the studs that are cut out."""
    job = plain(
        make(Opening, "N1", name="cabinet", wall="W1", x="1'", y="0", width="5'", height="2'"),
        make(Equipment, "E1", name="player", opening="N1", offset=at("1"), width="17", height="3"),
        make(Raceway, "R1", size="1", start="N1", end="B2", length="9'"),
        cable(start="E1", route="raceway", raceway="R1"),
    )
    found = route(job)
    # Its middle is at 12 + 1 + 8.5 = 21.5 in, 1.5 in up; that of the cabinet at 42 in, 12 in up.
    assert found.path == at("9'").nm + at("20 1/2").nm + at("10 1/2").nm
    assert (found.studs, found.legs[0].place) == (0, "cabinet")
    outside = put(job, cable(start="B1", route="raceway", raceway="R1"))
    assert {leg.place for leg in route(outside).legs} == {"wall", "raceway"}


def test_a_cabinet_cable_with_a_height_of_its_own_goes_by_that_height() -> None:
    level = plain(cable(in_wall=False, level="6'"))
    assert route(level).path == 5 * FOOT_NM + 6 * FOOT_NM + FOOT_NM  # up 5 ft, along 6 ft, down 1 ft
    assert route(plain(cable(in_wall=False))).path != route(level).path


def test_a_place_in_words() -> None:
    job = plain(cable())
    assert place_text(job, "B1").startswith("B1 at ")
    assert place_text(job, "B1").endswith(" on W1")
    assert place_text(job, "E9") == "E9"
    assert place_text(job, "") == "an end that is not on the list"


def test_from_a_device_to_the_raceway_in_its_own_opening_it_stays_in_the_cabinet() -> None:
    bay = make(Opening, "N1", name="bay", use="equipment", wall="W1", x="1'", y="1'", width="2'", height="2'")
    device = make(Equipment, "E1", name="player", opening="N1", width="10", height="4")
    tube = make(Raceway, "R1", start="N1", end="B2", size="1")
    job = plain(bay, device, tube, cable(start="E1", route="raceway", raceway="R1"))
    assert {leg.place for leg in route(job).legs} == {"cabinet", "raceway"}
    other = make(Opening, "N2", name="other", use="equipment", wall="W1", x="4'", y="1'", width="2'", height="2'")
    elsewhere = make(Equipment, "E1", name="player", opening="N2", width="10", height="4")
    away = plain(bay, other, elsewhere, tube, cable(start="E1", route="raceway", raceway="R1"))
    assert "wall" in {leg.place for leg in route(away).legs}
