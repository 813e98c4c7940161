"""Bends: radius, the room a turn takes, the sum of turns."""

from __future__ import annotations

from fractions import Fraction
from math import pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point

from store.measure.length import INCH_NM
from store.trade.bends import (
    bent_length_nm,
    least_radius_nm,
    room_for_loop_nm,
    room_for_turn_nm,
    turns_deg,
)
from store.trade.cable_length import path_length_nm

MM = 1_000_000


def test_a_radius_is_rounded_up_never_down() -> None:
    assert least_radius_nm(3, Fraction(7, 2)) == 11
    with pytest.raises(ValueError, match="above nothing"):
        least_radius_nm(0, 4)


def test_room_behind_a_socket_and_for_a_coil() -> None:
    assert room_for_turn_nm(30 * MM, 6 * MM, 4) == 60 * MM
    assert room_for_loop_nm(6 * MM, 4) == 60 * MM


def test_turns_along_a_path() -> None:
    path = [(0, 0, 0), (5, 0, 0), (5, 0, 0), (9, 0, 0), (9, 4, 0), (9, 4, 7), (9, 4, 2)]
    assert turns_deg(path) == pytest.approx((0, 90, 90, 180))
    assert turns_deg([(0, 0, 0), (1, 1, 0), (2, 1, 0)]) == pytest.approx((45,))
    assert turns_deg(path[:1]) == ()


def test_a_rounded_quarter_turn_saves_the_corner() -> None:
    path = [(0, 0, 0), (1000 * MM, 0, 0), (1000 * MM, 1000 * MM, 0)]
    assert bent_length_nm(path, 100 * MM) == pytest.approx(2000 * MM - (2 - pi / 2) * 100 * MM, abs=2)
    assert bent_length_nm(path, 0) == path_length_nm(path)


@given(st.integers(1, 400), st.integers(-1000, 1000), st.integers(1, 1000))
def test_a_rounded_corner_is_as_long_as_one_drawn_with_a_compass(radius: int, x: int, y: int) -> None:
    """Drawn independently: the fillet is the circle tangent to both legs, its arc measured as a fine polygon."""
    corner, far = (5000, 0), (5000 + 20 * x, 20 * y)
    path = [(0, 0, 0), (5000 * MM, 0, 0), (far[0] * MM, far[1] * MM, 0)]
    leg = sqrt((far[0] - 5000) ** 2 + far[1] ** 2)
    cosine = (far[0] - 5000) / leg
    tangent = radius * sqrt((1 - cosine) / (1 + cosine)) if cosine > -1 else float("inf")
    if tangent > min(leg, 5000) - 1:
        return
    centre = Point(5000 - tangent, radius)
    ring = centre.buffer(radius, quad_segs=4096).exterior
    first = ring.project(Point(5000 - tangent, 0))
    second = ring.project(Point(5000 + tangent * cosine, tangent * far[1] / leg))
    arc = abs(first - second)
    arc = min(arc, ring.length - arc)
    straight = LineString([(0, 0), corner, far]).length - 2 * tangent
    assert bent_length_nm(path, radius * MM) / MM == pytest.approx(straight + arc, abs=0.05)


def test_a_leg_too_short_for_its_bends_is_named() -> None:
    zigzag = [(0, 0, 0), (100, 0, 0), (100, 10, 0), (200, 10, 0)]
    with pytest.raises(ValueError, match="leg 2"):
        bent_length_nm(zigzag, 6)
    assert bent_length_nm(zigzag, 5) < path_length_nm(zigzag)


def test_straight_back_has_no_rounded_corner() -> None:
    with pytest.raises(ValueError, match="straight back"):
        bent_length_nm([(0, 0, 0), (9, 0, 0), (1, 0, 0)], INCH_NM)
