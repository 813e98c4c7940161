"""Screen and seat: pictures, angles and distances by independent trigonometry, and what is doubted."""

from __future__ import annotations

from math import atan, degrees, radians, sqrt, tan
from typing import Any

import pytest

from store.measure.length import inches
from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.screen.view import read_aspect, read_holes
from tests.jobs.wall_jobs import ROOM, figure, found, job_of, length, made, one, opening
from tests.rows import rows


def screen(**values: Any) -> Equipment:
    given = {"name": "screen", "what": "screen", "opening": "N1", "diagonal": 65, "width": 57.1, "height": 32.7}
    return made(Equipment, "E1", **{**given, **values})


def job(y: float = 42, seat: Any = 108, eye: Any = 42, **values: Any) -> Job:
    """A 65 in screen in a recess 36 in high: at y = 42 in its centre is 60 in up."""
    return job_of(*ROOM, opening("N1", 40, y, 64, 36, use="screen"), screen(**values), seat=seat, eye=eye)


def test_the_picture_is_kept_apart_from_the_outside() -> None:
    one_job = job()
    assert figure(one_job, "E1", "picture_width").inches == pytest.approx(65 * 16 / sqrt(337), abs=1e-6)
    assert figure(one_job, "E1", "picture_height").inches == pytest.approx(65 * 9 / sqrt(337), abs=1e-6)
    assert figure(one_job, "E1", "outside_width") == length(57.1)


def test_angles_and_distances_from_the_seat() -> None:
    wide, high = 65 * 16 / sqrt(337), 65 * 9 / sqrt(337)
    one_job = job(lines=2160)
    assert figure(one_job, "E1", "viewing_angle_deg") == pytest.approx(2 * degrees(atan(wide / 216)), abs=1e-3)
    assert figure(one_job, "E1", "distance_30").inches == pytest.approx(wide / 2 / tan(radians(15)), abs=1e-6)
    assert figure(one_job, "E1", "distance_40").inches == pytest.approx(wide / 2 / tan(radians(20)), abs=1e-6)
    assert figure(one_job, "E1", "distance_acuity").inches == pytest.approx(
        high / 2160 / tan(radians(1 / 60)), abs=1e-6
    )
    assert figure(one_job, "E1", "centre_height") == inches(60)
    assert figure(one_job, "E1", "centre_above_eye") == inches(18)
    assert figure(one_job, "E1", "centre_angle_deg") == pytest.approx(degrees(atan(18 / 108)), abs=1e-3)
    assert figure(one_job, "E1", "top_angle_deg") == pytest.approx(degrees(atan((18 + high / 2) / 108)), abs=1e-3)
    assert figure(one_job, "E1", "suggested_centre") == inches(42)


def test_a_screen_on_its_foot_stands_on_the_floor_of_its_opening() -> None:
    assert figure(job(mounting="shelf", height=30), "E1", "centre_height") == inches(57)


def test_without_a_seat_no_angle_is_made_up() -> None:
    unknown = job(seat=None, eye=None)
    assert figure(unknown, "E1", "viewing_angle_deg") is None
    assert figure(unknown, "E1", "centre_angle_deg") is None
    assert one(unknown, "seat_not_noted").numbers == {"missing": "seat to screen, seated eye height"}
    assert not found(job(), "seat_not_noted")


def test_too_high_is_beyond_fifteen_degrees() -> None:
    limit = 42 + 108 * tan(radians(15))
    assert not found(job(y=limit - 18 - 0.01), "screen_too_high")
    assert one(job(y=limit - 18 + 0.1), "screen_too_high").severity == "look"


def test_size_for_the_seat() -> None:
    at_30 = 65 * 16 / sqrt(337) / 2 / tan(radians(15))
    assert not found(job(seat=at_30 - 0.1), "screen_size_for_seat")
    assert "less than 30°" in one(job(seat=at_30 + 0.1), "screen_size_for_seat").says
    assert "more than 60°" in one(job(seat=48), "screen_size_for_seat").says
    # An angle that rounds to the limit is shown with the decimals that tell them apart.
    assert "fills 29.99°, less than 30°" in one(job(seat=105.75), "screen_size_for_seat").says


@rows(
    ("values", "doubted"),
    [
        ({"holes": "400x400"}, False),
        ({"holes": "300x300"}, True),
        ({"holes": "200 × 100 mm"}, False),
        ({"diagonal": 27, "holes": "600x400"}, True),
    ],
)
def test_a_hole_pattern_is_doubted_when_it_is_listed_nowhere_or_for_larger_sets(values: Any, doubted: bool) -> None:
    assert bool(found(job(**values), "mounting_unusual")) is doubted


def test_figures_that_do_not_go_together_are_doubted() -> None:
    assert not found(job(), "screen_figures_doubtful")
    assert "less than its picture's" in one(job(width=56), "screen_figures_doubtful").says
    assert "is not like 16:9" in one(job(aspect="wide"), "screen_figures_doubtful").says
    assert "is not like 400x400" in one(job(holes="four"), "screen_figures_doubtful").says


def test_reading_aspects_and_holes() -> None:
    assert read_aspect("16:9") == (16, 9)
    assert read_aspect("2.35 : 1") == (47, 20)
    assert read_aspect("16:0") is None
    assert read_holes("600 x 400") == (600_000_000, 400_000_000)
    assert read_holes("600") is None
