"""Screens, seats and screen mounts against printed figures; each table names where its figures come from."""

from __future__ import annotations

import pytest

from store.measure.length import INCH_NM, MM_NM
from store.measure.mass import KILOGRAM_UG, POUND_UG
from store.trade.screen import seat, viewing
from tests.rows import rows


def inches(number: float) -> int:
    return round(number * INCH_NM)


# Pythagoras with 16:9, calculated by hand to the tenth of a millimetre.
PICTURES = [
    (32, 27.89, 15.69, 708.4, 398.5),
    (43, 37.48, 21.08, 951.9, 535.5),
    (50, 43.58, 24.51, 1106.9, 622.6),
    (55, 47.94, 26.96, 1217.6, 684.9),
    (65, 56.65, 31.87, 1439.0, 809.4),
    (75, 65.37, 36.77, 1660.4, 933.9),
    (77, 67.11, 37.75, 1704.6, 958.9),
    (83, 72.34, 40.69, 1837.5, 1033.6),
    (85, 74.08, 41.67, 1881.7, 1058.5),
    (98, 85.41, 48.05, 2169.5, 1220.4),
    (100, 87.16, 49.03, 2213.8, 1245.3),
]


@rows(("diagonal", "width", "height", "width_mm", "height_mm"), PICTURES)
def test_picture_sizes(diagonal: int, width: float, height: float, width_mm: float, height_mm: float) -> None:
    picture = viewing.picture_size(inches(diagonal))
    assert picture.width_nm / INCH_NM == pytest.approx(width, abs=0.005)
    assert picture.height_nm / INCH_NM == pytest.approx(height, abs=0.005)
    assert picture.width_nm / MM_NM == pytest.approx(width_mm, abs=0.051)
    assert picture.height_nm / MM_NM == pytest.approx(height_mm, abs=0.051)


# 30° for the farthest seat: SMPTE EG 18-1994 (secondary copy). The multipliers of width, height and diagonal
# follow.
ANGLES = [
    (20, 2.8356, 5.0411, 2.4715),
    (30, 1.8660, 3.3174, 1.6264),
    (36, 1.5388, 2.7357, 1.3412),
    (40, 1.3737, 2.4422, 1.1973),
    (45, 1.2071, 2.1460, 1.0521),
    (60, 0.8660, 1.5396, 0.7548),
]


@rows(("angle", "by_width", "by_height", "by_diagonal"), ANGLES)
def test_distances_for_an_angle(angle: int, by_width: float, by_height: float, by_diagonal: float) -> None:
    picture = viewing.picture_size(inches(100))
    distance = viewing.distance_for_angle(picture.width_nm, angle)
    assert distance / picture.width_nm == pytest.approx(by_width, abs=6e-5)
    assert distance / picture.height_nm == pytest.approx(by_height, abs=6e-5)
    assert distance / inches(100) == pytest.approx(by_diagonal, abs=6e-5)


@rows(("distance", "angle"), [(96, 32.88), (108, 29.39), (120, 26.56)])
def test_a_65_inch_screen_from_three_seats(distance: int, angle: float) -> None:
    width = viewing.picture_size(inches(65)).width_nm
    assert viewing.horizontal_angle(width, inches(distance)) == pytest.approx(angle, abs=0.005)


# One minute of arc a picture line; distances in picture heights, widths and diagonals, and the angle there.
ACUITY = [
    (720, 4.7746, 2.6857, 2.3408, 21.09),
    (1080, 3.1831, 1.7905, 1.5605, 31.21),
    (1440, 2.3873, 1.3429, 1.1704, 40.84),
    (2160, 1.5915, 0.8952, 0.7803, 58.37),
    (4320, 0.7958, 0.4476, 0.3901, 96.33),
]


@rows(("lines", "by_height", "by_width", "by_diagonal", "angle"), ACUITY)
def test_acuity_distances(lines: int, by_height: float, by_width: float, by_diagonal: float, angle: float) -> None:
    picture = viewing.picture_size(inches(100))
    distance = viewing.acuity_distance(picture.height_nm, lines)
    assert distance / picture.height_nm == pytest.approx(by_height, abs=6e-5)
    assert distance / picture.width_nm == pytest.approx(by_width, abs=6e-5)
    assert distance / inches(100) == pytest.approx(by_diagonal, abs=6e-5)
    assert viewing.horizontal_angle(picture.width_nm, distance) == pytest.approx(angle, abs=0.006)


# Rounded pairs of ITU-R BT.1845 and BT.2022 (from memory, high): picture heights and the angle that belongs
# to them.
@rows(("lines", "heights", "angle"), [(1080, 3.2, 31), (2160, 1.6, 58), (4320, 0.8, 96)])
def test_acuity_lies_close_to_the_rounded_broadcast_pairs(lines: int, heights: float, angle: int) -> None:
    picture = viewing.picture_size(inches(65))
    assert viewing.acuity_distance(picture.height_nm, lines) / picture.height_nm == pytest.approx(heights, abs=0.02)
    distance = round(heights * picture.height_nm)
    assert viewing.horizontal_angle(picture.width_nm, distance) == pytest.approx(angle, abs=0.5)


# tan 15° = 0.26795; SMPTE EG 18-1994 (from memory, medium) for the 15°.
@pytest.mark.parametrize(("distance", "rise"), [(108, 28.94), (120, 32.15)])
def test_the_rise_that_makes_fifteen_degrees(distance: int, rise: float) -> None:
    band = seat.centre_band(inches(42), inches(31.87), inches(distance))
    assert (band.highest_nm - inches(42)) / INCH_NM == pytest.approx(rise, abs=0.006)


# Eye at 42 in, 65 in picture; by hand with atan.
@pytest.mark.parametrize(
    ("centre", "distance", "angles"),
    [(60, 108, (9.46, 17.44, 1.10)), (66, 120, (11.31, 18.41, 3.84))],
)
def test_angles_up_to_a_high_screen(centre: int, distance: int, angles: tuple[float, ...]) -> None:
    height = viewing.picture_size(inches(65)).height_nm
    seen = seat.sight(inches(42), inches(centre), height, inches(distance))
    assert (seen.centre_deg, seen.top_deg, seen.bottom_deg) == pytest.approx(angles, abs=0.006)


# VESA FDMI as secondary copies print it: class, diagonal, pattern, largest mass.
@rows(
    ("diagonal", "name", "pattern", "mass_ug"),
    [
        (7.9, "MIS-B", (50, 20), 2 * KILOGRAM_UG),
        (11.9, "MIS-C", (75, 35), 4_500_000_000),
        (22.9, "MIS-D", (100, 100), 14 * KILOGRAM_UG),
        (30.9, "MIS-E", (200, 100), 50 * POUND_UG),
        (65, "MIS-F", (400, 400), 250 * POUND_UG),
        (90, "MIS-F", (800, 400), 250 * POUND_UG),
    ],
)
def test_mounting_classes(diagonal: float, name: str, pattern: tuple[int, int], mass_ug: int) -> None:
    holes = (pattern[0] * MM_NM, pattern[1] * MM_NM)
    look = viewing.look_at_mounting(inches(diagonal), holes, mass_ug)
    assert look.expected is not None
    assert look.expected.name == name
    assert look.pattern_expected is True
    assert look.mass_expected is True
    assert viewing.look_at_mounting(inches(diagonal), holes, mass_ug + 1).mass_expected is False
