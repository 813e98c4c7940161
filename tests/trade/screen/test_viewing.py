"""Picture geometry away from the printed tables: other aspects, exactness, ranges and refusals."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM, MM_NM
from store.trade.screen import viewing
from tests.rows import rows

LENGTHS = st.integers(1, 10**11)


@given(LENGTHS, st.sampled_from([(16, 9), (4, 3), (21, 9), (1, 1)]))
def test_width_height_and_diagonal_make_a_right_triangle(diagonal: int, aspect: tuple[int, int]) -> None:
    picture = viewing.picture_size(diagonal, aspect)
    assert hypot(picture.width_nm, picture.height_nm) == pytest.approx(diagonal, abs=2)
    assert abs(picture.width_nm * aspect[1] - picture.height_nm * aspect[0]) <= max(aspect)


def test_a_three_four_five_picture_is_exact_to_the_nanometre() -> None:
    assert viewing.picture_size(50 * INCH_NM, (4, 3)) == viewing.Picture(40 * INCH_NM, 30 * INCH_NM)


@given(st.integers(10**8, 10**10), st.floats(5, 150))
def test_the_angle_from_the_distance_for_an_angle_is_that_angle(width: int, angle: float) -> None:
    assert viewing.horizontal_angle(width, viewing.distance_for_angle(width, angle)) == pytest.approx(angle, abs=1e-4)


@rows(
    "refused",
    [
        lambda: viewing.picture_size(0),
        lambda: viewing.picture_size(10, (16, 0)),
        lambda: viewing.horizontal_angle(0, 10),
        lambda: viewing.horizontal_angle(10, -1),
        lambda: viewing.distance_for_angle(10, 0),
        lambda: viewing.distance_for_angle(10, 180),
        lambda: viewing.distance_for_angle(0, 30),
        lambda: viewing.acuity_distance(10, 0),
        lambda: viewing.acuity_distance(0, 1080),
    ],
)
def test_figures_that_make_no_sense_are_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match="above 0"):
        refused()


@rows(("diagonal_nm", "known"), [(4 * INCH_NM - 1, False), (4 * INCH_NM, True),
                                                    (90 * INCH_NM, True), (90 * INCH_NM + 1, False)])  # fmt: skip
def test_the_mounting_classes_end_at_4_and_90_inches(diagonal_nm: int, known: bool) -> None:
    assert (viewing.mounting_class(diagonal_nm) is not None) is known


def test_a_pattern_of_a_smaller_class_is_doubted_and_named() -> None:
    look = viewing.look_at_mounting(43 * INCH_NM, (100 * MM_NM, 100 * MM_NM))
    assert look.pattern_expected is False
    assert look.pattern_class == "MIS-D"
    assert look.mass_expected is None


def test_a_pattern_of_no_class_is_doubted_without_a_name() -> None:
    look = viewing.look_at_mounting(65 * INCH_NM, (300 * MM_NM, 301 * MM_NM))
    assert (look.pattern_expected, look.pattern_class) == (False, None)


def test_nothing_is_said_of_a_screen_outside_the_classes() -> None:
    look = viewing.look_at_mounting(98 * INCH_NM, (800 * MM_NM, 400 * MM_NM), 1)
    assert (look.expected, look.pattern_expected, look.mass_expected) == (None, None, None)
    assert look.pattern_class == "MIS-F"
