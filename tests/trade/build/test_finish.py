"""Coats, drying and sundries."""

from __future__ import annotations

import pytest

from store.measure.length import FOOT_NM, INCH_NM
from store.trade.build.finish import COATS, TEXTBOOK, drying_days, drying_hours, sundries


def test_a_higher_level_never_has_fewer_coats() -> None:
    numbers = [len(COATS[level]) for level in sorted(COATS)]
    assert numbers == sorted(numbers)
    assert (numbers[4], numbers[5]) == (3, 4)


def test_damp_and_cold_dry_slower_and_what_is_between_counts_as_the_worse() -> None:
    for humid in range(0, 90, 10):
        assert drying_hours(humid, 60) <= drying_hours(humid + 10, 60)
        assert drying_hours(humid, 60) >= drying_hours(humid, 80)
    assert drying_hours(41, 79) == drying_hours(50, 60) == 24
    assert (drying_days(50, 60), drying_days(51, 60), drying_days(50, 40)) == (1, 2, 2)


@pytest.mark.parametrize(("humid", "warm"), [(50, 39), (91, 70), (-1, 70)])
def test_where_no_coat_goes_on(humid: float, warm: float) -> None:
    with pytest.raises(ValueError, match="not put on"):
        drying_hours(humid, warm)


def test_tape_by_the_joints_where_they_are_more_and_bead_by_the_corners() -> None:
    area = 100 * FOOT_NM**2
    by_joints = sundries(area, 80 * FOOT_NM, 20 * FOOT_NM, 16 * INCH_NM)
    assert (by_joints.tape_ft, by_joints.bead_ft) == (80, 21)
    assert sundries(area, 0, 0, 16 * INCH_NM).tape_ft == 37
    assert sundries(area, 0, 0, 16 * INCH_NM, TEXTBOOK).compound_gal == 0.5
    with pytest.raises(ValueError, match="0 or more"):
        sundries(-1, 0, 0, 0)
