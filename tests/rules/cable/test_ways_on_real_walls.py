"""Real walls, each worked out by hand before the program was asked: the way, the way round, its length, its bends."""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.length import INCH_NM, MM_NM
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Obstacle, Opening
from store.records.whole import Job
from store.records.wiring import Circuit, Raceway
from store.rules.cable.crossing_rules import cable_off_wall, cable_through_hole, raceway_off_wall
from store.rules.cable.raceway_ways import raceway_ways
from store.rules.cable.routes import routes
from store.rules.cable.ways import ways_round
from tests.jobs.cable_jobs import at, box, cable, job_of, make, told, wall
from tests.rows import rows


def hole(tag: str, what: Any, x: str, y: str, width: str, height: str, on: str = "W1") -> Obstacle:
    return make(Obstacle, tag, wall=on, what=what, x=x, y=y, width=width, height=height)


def raceway(**more: Any) -> Raceway:
    """1 in ENT: its middle keeps 3/4 in farther off than a cable."""
    return make(Raceway, "R1", start="B1", end="B2", **{"type": "ENT", "size": "1", **more})


def led(job: Job) -> tuple[float, float, float]:
    """The way round of K1 and of R1, inches, and the bends of R1."""
    cabled, tubed = ways_round(job)["K1"], raceway_ways(job)["R1"]
    assert cabled.route.path is not None
    return cabled.route.path / INCH_NM, tubed.course.length / INCH_NM, tubed.course.turned


def test_a_door_in_the_run() -> None:
    """From 24 to 120 in at 12 in up, a door of 80 in: over it at 83 in: 71 + 96 + 71; the raceway at 83-3/4 in."""
    job = job_of(wall(), box("B1", "24", "12"), box("B2", "120", "12"), cable(), raceway(),
                 hole("O1", "door", "60", "0", "32", "80"))  # fmt: skip
    assert led(job) == (238, 239.5, 180)
    thick = raceway_ways(job.having(raceway(size="2")))["R1"]
    assert (thick.raceway.route, thick.course.length / INCH_NM) == ("down and under", 120), "12 + 96 + 12"


def test_a_window_in_an_attic() -> None:
    """20 to 44 across, 36 to 72 up; both ends at 48 in up, 42 in apart: under it at 33 in, 15 + 42 + 15. Over it there
    is no more than the slope, which the plates of a 78 in ceiling at 44 in shut at 75 in."""
    attic = wall(ceiling_line=("0/8'", "12'/4'"))
    job = job_of(attic, box("B1", "10", "48"), box("B2", "52", "48"), cable(), raceway(),
                 hole("O1", "window", "20", "36", "24", "36"))  # fmt: skip
    assert led(job) == (72, 73.5, 180)
    # With the floor shut too, by a vent under the window, there is none left in the wall.
    shut = job.having(hole("O2", "vent", "20", "0", "24", "36"))
    assert ways_round(shut)["K1"].cable.route in ("up and over", "down and under")


def test_a_vent_under_a_soffit_and_a_box_in_its_underside() -> None:
    """Vent 70 to 84 across, 20 to 60 up, both ends at 30 in up, 100 in apart: under it at 17 in, 13 + 100 + 13. To the
    underside of the soffit, at 84 in up and 6 in out: 10 across, 54 up, 6 out."""
    soffit = make(BuildOut, "U1", name="Soffit", wall="W1", x=at("0"), width=at("12'"), y=at("84"), depth=at("12"))
    job = job_of(wall(width="12'"), soffit, box("B1", "20", "30"), box("B2", "120", "30"), cable(), raceway(),
                 hole("O1", "vent", "70", "20", "14", "40"), box("B3", "30", "6", face="underside"),
                 cable("K2", end="B3"))  # fmt: skip
    assert led(job) == (126, 127.5, 180)
    assert routes(job)["K2"].path == 70 * INCH_NM


def test_a_vent_and_a_pipe_from_floor_to_ceiling() -> None:
    """The vent is passed over at 33 in; a pipe over the whole height leaves the floor: 20 + 96 + 20."""
    job = job_of(wall(width="12'"), box("B1", "24", "20"), box("B2", "80", "20"), cable(), raceway(),
                 hole("O1", "vent", "50", "0", "14", "30"), hole("O2", "pipe", "90", "0", "4", "96"),
                 box("B3", "120", "20"), cable("K2", end="B3"))  # fmt: skip
    assert led(job) == (82, 83.5, 180)
    way = ways_round(job)["K2"]
    assert (way.cable.route, way.route.path) == ("down and under", 136 * INCH_NM)
    head = next(each.head for each in cable_through_hole(job) if each.tags[0] == "K2")
    assert head == "Runs through the vent O1 and the pipe O2"


def test_a_fireplace_under_a_tv_with_what_its_manual_asks() -> None:
    """A fireplace of 44 x 20 in, from 50 and 8 in; level at 16 in both runs go through it. Up first they are as long:
    60 across, 40 up, and 24 in out to the front of the breast."""
    breast = make(BuildOut, "U1", name="Breast", wall="W1", x=at("42"), width=at("60"), depth=at("24"))
    fire = make(
        Opening, "N1", name="Fire", use="fireplace", wall="W1", x="50", y="8", width="44", height="20", depth="8"
    )
    job = job_of(wall(width="12'"), breast, fire, box("B1", "20", "16"), box("B2", "80", "56"), cable())
    assert routes(job)["K1"].path == 124 * INCH_NM
    way = ways_round(job)["K1"]
    assert (way.longer_nm, way.route.path) == (0, 124 * INCH_NM)
    unit = make(Equipment, "E1", name="Fire", what="fireplace", heats=True, opening="N1", width="42", height="18",
                clear_top=at("40"))  # fmt: skip
    above = job.having(unit)
    # Standing at 8 in its clearance ends at 66 in: B2 at 56 in is in it, and no way in the wall ends there.
    assert "K1" not in ways_round(above) or ways_round(above)["K1"].cable.route != "points"


def test_over_three_walls_past_a_window_in_the_middle_one() -> None:
    """60 in of W1, 96 of W2, 60 of W3, level at 40 in: 216. The window of W2, 10 to 70 in up: 33 in up or down, and
    back. The raceway turns at both corners of the room as well: 360°."""
    walls = [*wall("W1", "10'", meets_right="W2"), *wall("W2", "8'", meets_right="W3"), *wall("W3", "10'")]
    job = job_of(tuple(walls), box("B1", "60", "40"), box("B2", "60", "40", on="W3"), cable(), raceway(),
                 hole("O1", "window", "30", "10", "36", "60", on="W2"))  # fmt: skip
    assert routes(job)["K1"].path == 216 * INCH_NM
    assert led(job) == (282, 283.5, 360)


@pytest.mark.parametrize(("high", "path"), [("1000", 4154), ("1800", 3754)])
def test_a_window_in_millimetres(high: str, path: int) -> None:
    """1600 to 2600 across, 900 to 2100 up, from 600 / `high` to 3600 / 1800: kept 76.2 mm clear of, to the millimetre
    outward: under it at 823 mm, over it at 2177 mm. From 1000: 177 + 3000 + 977; from 1800: 377 + 3000 + 377."""
    ends = box("B1", "600 mm", f"{high} mm"), box("B2", "3600 mm", "1800 mm")
    window = hole("O1", "window", "1600 mm", "900 mm", "1000 mm", "1200 mm")
    flat = wall(width="4200 mm", height="2400 mm")
    job = job_of(flat, *ends, cable(), window, units="millimetres", region="metric")
    way = ways_round(job)["K1"]
    assert way.route.path == path * MM_NM
    assert not told(cable_through_hole, job.having(way.cable))


def test_a_way_to_the_left_round_a_corner_names_the_wall_that_each_corner_is_on() -> None:
    """W2 meets the right end of W1, 144 wide. From 100 in along W2 at 36 in up to 126 in along W1 at 56: a window on
    W2, 40 to 80 across and 27 to 76 up, is passed under at 24: 12 down, 118 along, 32 up."""
    job = job_of(
        wall(width="144", meets_right="W2"), wall("W2", width="120"), box("B1", "100", "36", on="W2"),
        box("B2", "126", "56"), cable(), hole("O1", "window", "40", "27", "40", "49", "W2"),
    )  # fmt: skip
    way = ways_round(job)["K1"]
    assert way.cable.points == ("W2 8'-4\"/2'-0\"", "W1 10'-6\"/2'-0\"")
    assert way.route.path == (12 + 118 + 32) * INCH_NM


@rows(
    ("level", "told"), [("96", ()), ("97", ("cable_off_wall",)), ("40", ())],
)  # fmt: skip
def test_a_height_above_the_ceiling_leaves_the_wall(level: str, told: tuple[str, ...]) -> None:
    job = job_of(wall(), box("B1", "24", "12"), box("B2", "120", "12"), cable(level=at(level)))
    assert tuple(each.rule for each in cable_off_wall(job)) == told


def test_under_a_slope_a_run_at_its_first_height_leaves_the_wall_and_is_led_under_it() -> None:
    """8 ft to 4 ft over 12 ft: level at 80 in from 12 in it is above the ceiling, 56 in at 120 in along, by 24 in. Down
    first and then along is as long: 40 + 108."""
    attic = wall(width="144", ceiling_line=("0/8'", "12'/4'"))
    job = job_of(attic, box("B1", "12", "80"), box("B2", "120", "40"), cable(), raceway())
    (off,) = cable_off_wall(job)
    assert (off.numbers["by"], off.numbers["past"]) == ('24"', "ceiling")
    way = ways_round(job)["K1"]
    assert way.route.path == (40 + 108) * INCH_NM
    assert way.longer_nm == 0
    # A raceway rises last, so it runs low from the start.
    assert [each.rule for each in raceway_off_wall(job)] in ([], ["raceway_off_wall"])


def test_a_home_run_goes_up_to_the_ceiling_that_is_there() -> None:
    """The height that governs is 48 in at the right end; above the box, at 24 in along, the ceiling is at 88 in."""
    attic = wall(width="144", height="48", ceiling_line=("0/8'", "12'/4'"))
    job = job_of(attic, box("B1", "24", "60", what="receptacle", circuit="C1"), make(Circuit, "C1", name="TV",
                 length=at("40'")), cable("K1", "nm-12-2", end=""))  # fmt: skip
    (leg,) = routes(job)["K1"].legs
    assert leg.end == (24 * INCH_NM, 88 * INCH_NM)


@pytest.mark.parametrize("height", ["96 1/16", "108"])
def test_over_walls_of_two_heights_a_run_leaves_the_lower_one_by_right(height: str) -> None:
    """W1 reads 96 in: over both walls the run is above it, where it leaves it anyway."""
    walls = [*wall(meets_right="W2"), *wall("W2", width="10'", height=height)]
    job = job_of(*walls, box("B1", "24", "12"), box("B2", "60", "12", on="W2"), cable(route="up and over"))
    assert not list(cable_off_wall(job))
    assert "K1" not in ways_round(job)
