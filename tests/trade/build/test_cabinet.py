"""Doors, drawers and what tips a cabinet."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM
from store.trade.build import cabinet


def inches(number: float) -> int:
    return round(number * INCH_NM)


def test_two_overlay_doors_leave_an_eighth_between_and_half_of_it_at_each_side() -> None:
    one = cabinet.doors(inches(36), inches(30), 2, "overlay", inches(0.75))
    assert one == (inches(17.875), inches(29.875))
    assert 2 * one.width_nm + 2 * cabinet.OVERLAY_GAP_NM == inches(36)


def test_two_inset_doors_fill_the_inside_but_for_three_gaps() -> None:
    one = cabinet.doors(inches(36), inches(30), 2, "inset", inches(0.75))
    assert 2 * one.width_nm + 3 * cabinet.INSET_GAP_NM == inches(34.5)
    assert one.height_nm + 2 * cabinet.INSET_GAP_NM == inches(28.5)


# 3/4 in MDF at 48 lb a cubic foot is 3 lb a square foot: 2 x 3 ft is 18 lb.
def test_a_door_weighs_its_volume() -> None:
    assert cabinet.weight_lb(inches(24), inches(36), inches(0.75), "MDF") == pytest.approx(18)
    unknown = cabinet.weight_lb(inches(24), inches(36), inches(0.75), "driftwood")
    assert unknown == cabinet.weight_lb(inches(24), inches(36), inches(0.75), "hardboard")


@pytest.mark.parametrize(
    ("inch", "pounds", "count"),
    [
        (35, 13, 2), (35, 13.1, 3), (36, 10, 3), (60, 26, 3), (60, 27, 4), (78, 37, 4), (90, 40, 5), (95, 40, None),
        (30, 49, None),
    ],
)  # fmt: skip
def test_hinges_by_height_and_weight(inch: float, pounds: float, count: int | None) -> None:
    assert cabinet.hinges(inches(inch), pounds) == count


@pytest.mark.parametrize(("deep", "slide"), [(11, 10), (10.9, None), (22.75, 20), (24, 22), (40, 28)])
def test_the_longest_slide_that_goes_in(deep: float, slide: int | None) -> None:
    found = cabinet.slide_nm(inches(deep))
    assert found == (None if slide is None else slide * INCH_NM)


def test_a_drawer_is_an_inch_narrower_than_the_inside() -> None:
    assert cabinet.drawer_width(inches(20)) == inches(19)


def test_a_light_tall_cabinet_tips_under_a_child_and_a_heavy_one_does_not() -> None:
    # 18 in deep, 100 lb: 900 in·lb hold it. Drawer of 20 lb out 16 in: its middle 7 in ahead, 140; child 60 x 16 = 960.
    light = cabinet.tip(inches(18), 100, 20, inches(16))
    assert (light.holds, light.tips) == (900, 1100)
    assert not light.stands
    assert cabinet.tie_back_lbf(light, inches(50)) == 4
    assert cabinet.tip(inches(18), 130, 20, inches(16)).stands
    assert cabinet.tie_back_lbf(cabinet.tip(inches(18), 130, 20, inches(16)), inches(50)) == 0


@given(st.integers(6, 30), st.floats(1, 300), st.floats(0, 100), st.integers(0, 30), st.floats(0, 100))
def test_a_drawer_pulled_farther_never_steadies_a_cabinet(
    deep: int, heavy: float, drawer: float, out: int, child: float
) -> None:
    def spare(inch: int) -> float:
        found = cabinet.tip(inches(deep), heavy, drawer, inches(inch), child)
        return found.holds - found.tips

    assert spare(out + 1) <= spare(out) + 1e-6


@pytest.mark.parametrize(
    "refused",
    [
        lambda: cabinet.doors(inches(36), inches(30), 0, "overlay", 0),
        lambda: cabinet.doors(inches(1), inches(30), 2, "inset", inches(0.75)),
        lambda: cabinet.weight_lb(-1, 1, 1, "MDF"),
        lambda: cabinet.drawer_width(inches(1)),
        lambda: cabinet.tip(0, 1, 1, 1),
        lambda: cabinet.tie_back_lbf(cabinet.Tip(1, 2), 0),
    ],
)
def test_cabinets_that_cannot_be_are_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"at least|no room|above"):
        refused()
