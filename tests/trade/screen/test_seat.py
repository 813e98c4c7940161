"""Sight from a seat: signs, limits and the band of heights."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM
from store.trade.screen import seat
from tests.rows import rows

EYE = seat.DEFAULT_EYE_HEIGHT_NM


def test_a_picture_at_eye_level_is_seen_evenly_up_and_down() -> None:
    seen = seat.sight(EYE, EYE, 30 * INCH_NM, 15 * INCH_NM)
    assert (seen.centre_deg, seen.top_deg, seen.bottom_deg) == pytest.approx((0, 45, -45))


@given(st.integers(30, 60), st.integers(10, 60), st.integers(40, 300))
def test_a_picture_hung_at_the_top_of_the_band_meets_the_limit_that_holds_it(
    eye: int, height: int, distance: int
) -> None:
    eye_nm, height_nm, distance_nm = eye * INCH_NM, height * INCH_NM, distance * INCH_NM
    band = seat.centre_band(eye_nm, height_nm, distance_nm)
    seen = seat.sight(eye_nm, band.highest_nm, height_nm, distance_nm)
    held = seen.centre_deg if band.held_by is seat.CENTRE_LIMIT else seen.top_deg
    assert held == pytest.approx(band.held_by.degrees, abs=1e-5)
    assert seen.centre_deg <= 15 + 1e-5
    assert seen.top_deg <= 35 + 1e-5


def test_close_to_a_tall_picture_the_top_of_it_holds_the_height() -> None:
    assert seat.centre_band(EYE, 50 * INCH_NM, 40 * INCH_NM).held_by is seat.TOP_LIMIT
    assert seat.centre_band(EYE, 32 * INCH_NM, 108 * INCH_NM).held_by is seat.CENTRE_LIMIT


def test_the_band_keeps_the_picture_above_the_floor() -> None:
    band = seat.centre_band(EYE, 49 * INCH_NM + 1, 200 * INCH_NM)
    assert band.lowest_nm == 49 * INCH_NM // 2 + 1
    assert band.level_nm == EYE


@rows(("height", "distance"), [(10, 0), (-1, 10), (10, -5)])
def test_sight_from_nowhere_is_refused(height: int, distance: int) -> None:
    with pytest.raises(ValueError, match="distance above 0"):
        seat.sight(EYE, EYE, height, distance)
    with pytest.raises(ValueError, match="distance above 0"):
        seat.centre_band(EYE, height, distance)
