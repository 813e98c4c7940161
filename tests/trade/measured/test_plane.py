"""Geometry against shapely, an independent geometry library, and against shapes whose area is known."""

from __future__ import annotations

from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, box
from shapely.geometry.base import BaseGeometry

from store.trade.measured import plane
from store.trade.measured.plane import Rect, Swing
from tests.rows import rows

SPAN = st.integers(-400, 400)
SIZE = st.integers(1, 300)
RECTS = st.builds(Rect, SPAN, SPAN, SIZE, SIZE)
WAYS = st.sampled_from([-1, 1])
SWINGS = st.builds(Swing, SPAN, SPAN, SIZE, WAYS, WAYS)

QUARTER_SEGMENTS = 512
"""A disc drawn with 2,048 chords is short by about 1.6 millionths of its area."""


def drawn(rect: Rect) -> BaseGeometry:
    return box(rect.x_nm, rect.y_nm, rect.right_nm, rect.top_nm)


def swept(swing: Swing) -> BaseGeometry:
    disc = Point(swing.hinge_x_nm, swing.hinge_y_nm).buffer(swing.width_nm, quad_segs=QUARTER_SEGMENTS)
    return disc.intersection(drawn(swing.box))


@given(RECTS, RECTS)
def test_rectangles_agree_with_shapely(one: Rect, other: Rect) -> None:
    a, b = drawn(one), drawn(other)
    assert plane.distance_squared(one, other) == pytest.approx(a.distance(b) ** 2)
    assert plane.inside(one, other) == b.covers(a)
    shared = plane.overlap_rect(one, other)
    assert (shared is not None) == (a.intersection(b).area > 0)
    if shared is not None:
        assert drawn(shared).equals(a.intersection(b))


@given(RECTS, RECTS, st.integers(0, 50))
def test_inside_with_a_margin_is_inside_the_shrunken_rectangle(one: Rect, other: Rect, margin: int) -> None:
    shrunk = Rect(other.x_nm + margin, other.y_nm + margin, other.width_nm - 2 * margin, other.height_nm - 2 * margin)
    wanted = shrunk.width_nm > 0 and shrunk.height_nm > 0 and drawn(shrunk).covers(drawn(one))
    assert plane.inside(one, other, margin) == wanted


@given(SWINGS, RECTS)
@settings(deadline=None)
def test_a_swing_and_a_rectangle_agree_with_shapely(swing: Swing, rect: Rect) -> None:
    area = swept(swing).intersection(drawn(rect)).area
    if area > 1e-6:
        assert plane.swing_hits(swing, rect)
    near = drawn(rect).intersection(drawn(swing.box))
    hinge = Point(swing.hinge_x_nm, swing.hinge_y_nm)
    if near.area == 0 or hinge.distance(near) > swing.width_nm + 1e-6:
        assert not plane.swing_hits(swing, rect)


def test_a_cupboard_touching_the_arc_is_not_hit_and_one_nanometre_nearer_is() -> None:
    swing = Swing(0, 0, 5_000, 1, 1)
    assert not plane.swing_hits(swing, Rect(3_000, 4_000, 100, 100))
    assert plane.swing_hits(swing, Rect(2_999, 4_000, 100, 100))


def test_the_distance_is_taken_between_the_nearest_corners() -> None:
    assert plane.distance_nm(Rect(0, 0, 10, 10), Rect(40, 50, 5, 5)) == hypot(30, 40)
    assert plane.distance_nm(Rect(0, 0, 10, 10), Rect(10, 3, 5, 5)) == 0


@given(st.integers(0, 10**24), st.integers(1, 10**6))
def test_the_nearest_root_is_within_half_of_the_true_one(numerator: int, denominator: int) -> None:
    root = plane.nearest_root(numerator, denominator)
    assert (2 * root + 1) ** 2 * denominator >= 4 * numerator
    assert root == 0 or (2 * root - 1) ** 2 * denominator <= 4 * numerator


@rows(("numerator", "denominator"), [(-1, 1), (1, 0), (1, -4)])
def test_a_root_of_nothing_sensible_is_refused(numerator: int, denominator: int) -> None:
    with pytest.raises(ValueError, match="a root needs"):
        plane.nearest_root(numerator, denominator)
