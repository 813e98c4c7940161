"""Figures and findings of whole small jobs against printed limits; each case names where its figures come from."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.drawing.tape_marks import tape_sheet
from store.rules.fit.plug_room import CONNECTOR_NM
from tests.jobs.wall_jobs import ROOM, device, figure, found, job_of, made, one, opening, read, wall
from tests.rows import rows


def screen_job(centre: float = 60, seat: float = 108, lines: int = 2160) -> Job:
    screen = made(Equipment, "E1", name="screen", what="screen", opening="N1", diagonal=65, lines=lines)
    return job_of(*ROOM, opening("N1", 40, centre - 18, 64, 36), screen, seat=seat, eye=42)


# Horizontal angle 2·atan(W / 2d) of a 65 in 16:9 picture, computed to the hundredth of a degree.
@rows(("seat", "angle"), [(96, 32.88), (108, 29.39), (120, 26.56)])
def test_horizontal_angle(seat: float, angle: float) -> None:
    assert figure(screen_job(seat=seat), "E1", "viewing_angle_deg") == pytest.approx(angle, abs=0.005)


def test_smpte_eg_18_wants_thirty_degrees_at_the_farthest_seat() -> None:
    """SMPTE EG 18-1994 (secondary copy): 30°, which a 65 in picture fills from 105.71 in; 40° (practice) from 77.83."""
    job = screen_job()
    assert figure(job, "E1", "distance_30").inches == pytest.approx(105.71, abs=0.005)
    assert figure(job, "E1", "distance_40").inches == pytest.approx(77.83, abs=0.005)
    assert found(screen_job(seat=105.8), "screen_size_for_seat")
    assert not found(screen_job(seat=105.6), "screen_size_for_seat")


# One minute of arc a picture line: ITU-R BT.2022 and BT.1845 build on it; 65 in, computed.
@pytest.mark.parametrize(("lines", "distance"), [(1080, 101.44), (2160, 50.72)])
def test_distance_of_one_minute_of_arc_a_line(lines: int, distance: float) -> None:
    assert figure(screen_job(lines=lines), "E1", "distance_acuity").inches == pytest.approx(distance, abs=0.005)


# Eye 42 in, 65 in picture: angles to its centre, top and bottom, computed, rounded or cut to the hundredth.
@pytest.mark.parametrize(
    ("centre", "seat", "angles"), [(60, 108, (9.46, 17.44, 1.10)), (66, 120, (11.31, 18.41, 3.84))]
)
def test_vertical_angles(centre: float, seat: float, angles: tuple[float, ...]) -> None:
    job = screen_job(centre, seat)
    seen = [figure(job, "E1", name) for name in ("centre_angle_deg", "top_angle_deg", "bottom_angle_deg")]
    assert seen == pytest.approx(list(angles), abs=0.01)


def test_smpte_eg_18_limits_the_look_upwards() -> None:
    """SMPTE EG 18-1994 (from memory, medium): 15° to the centre; at 108 in that is a rise of 28.94 in."""
    assert not found(screen_job(42 + 28.93), "screen_too_high")
    assert found(screen_job(42 + 28.95), "screen_too_high")


def test_vesa_fdmi_class_f_begins_with_200_by_200() -> None:
    """VESA FDMI (secondary copies): 31 in to 90 in take 200×200 and up, at most 250 lb; 65 in is class F."""

    def of(**values: Any) -> Job:
        return job_of(made(Equipment, "E1", name="screen", what="screen", diagonal=65, **values))

    assert not found(of(holes="400x400"), "mounting_unusual")
    assert "in no VESA class" in one(of(holes="500x500"), "mounting_unusual").says


def test_bend_of_category_cable() -> None:
    """ANSI/TIA-568.0-D (2015): four diameters; 1.00 in for a cable of 0.25 in. Plug length: common practice."""
    cable = made(Cable, "K1", type="cat6", start="E1", outside=0.25)
    job = job_of(*ROOM, opening("N1", 10, 10, 30, 20), device("E1", 17, 6, 15), cable)
    behind = figure(job, "E1", "needs_depth").nm - 15 * 25_400_000 - CONNECTOR_NM["category"]
    assert behind / 25_400_000 == pytest.approx(1.00 + 0.25, abs=1e-9)


# IRC R602.6 (2018): a notch of at most 25 % of the depth where the wall carries, 40 % elsewhere; two-by-four.
@rows(("bearing", "limit_in"), [("yes", 0.875), ("unknown", 0.875), ("no", 1.4)])
def test_notch_limit_of_a_stud(bearing: Any, limit_in: float) -> None:
    def deep(into: float) -> Job:
        studs = wall(first_stud=16, bearing=bearing)
        return job_of(studs, *ROOM[1:], opening("N1", 20, 40, 20, 10, depth=0.5 + into))

    assert len(found(deep(limit_in - 0.001), "notches_studs")) == 1
    assert not found(deep(limit_in + 0.001), "notches_studs")
    assert len(found(deep(limit_in + 0.001), "cuts_studs" if bearing != "no" else "interrupts_studs")) == 1


def test_clear_bay_between_studs_at_16_in() -> None:
    """Two-by-four studs are 1 1/2 in (NIST PS 20, from memory): 14 1/2 in clear at 16 in from centre to centre."""
    job = job_of(wall(first_stud=16), read("D1", "width", 96))
    assert figure(job, "W1", "bays")[1:4] == ["1'-2 1/2\""] * 3


def test_three_four_five() -> None:
    """A triangle of 3, 4 and 5 has a square corner (Euclid, Elements I.48)."""
    job = job_of(wall(), read("D1", "width", 72), read("D2", "height", 96), read("D3", "diagonal", 120))
    assert figure(job, "W1", "out_of_square").nm == 0
    assert figure(job, "W1", "out_of_square_deg") == 0


def test_tape_round_a_65_in_picture() -> None:
    """2·(56.65 + 31.87) in = 177.04 in; a roll of 60 yd makes 12 such outlines (computed)."""
    pictures = [opening(f"N{at}", 0, 40 * at, 56.65, 31.87) for at in range(12)]
    sheet = tape_sheet(job_of(*ROOM, *pictures), "W1")
    assert sheet.tape_nm / 12 / 25_400_000 == pytest.approx(177.04, abs=0.005)
    assert sheet.tape_nm < 180 * 12 * 25_400_000
