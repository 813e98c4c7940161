"""Raceway fill: the printed areas and counts, and the geometry of plugs and bundles by other means."""

from __future__ import annotations

from math import cos, hypot, pi, sin, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize

from store.trade.cable import raceway_fill as rf
from store.trade.power import tables_us
from tests.rows import rows

# Chapter 9, Table 4, as printed: 100 %, 53 %, 31 %, 40 %, in².
PRINTED_AREAS = {
    ("EMT", "1/2"): (0.304, 0.161, 0.094, 0.122),
    ("EMT", "3/4"): (0.533, 0.283, 0.165, 0.213),
    ("EMT", "1"): (0.864, 0.458, 0.268, 0.346),
    ("EMT", "1-1/4"): (1.496, 0.793, 0.464, 0.598),
    ("EMT", "1-1/2"): (2.036, 1.079, 0.631, 0.814),
    ("EMT", "2"): (3.356, 1.778, 1.040, 1.342),
    ("ENT", "1/2"): (0.246, 0.131, 0.076, 0.099),
    ("ENT", "3/4"): (0.454, 0.240, 0.141, 0.181),
    ("ENT", "1"): (0.785, 0.416, 0.243, 0.314),
    ("ENT", "1-1/4"): (1.410, 0.747, 0.437, 0.564),
    ("ENT", "1-1/2"): (1.936, 1.026, 0.600, 0.774),
    ("ENT", "2"): (3.205, 1.699, 0.993, 1.282),
}

diameters = st.floats(0.1, 0.6)
plugs = st.builds(rf.Plug, st.floats(0.1, 1.5), st.floats(0.1, 1.5))


@rows("size", tables_us.RACEWAYS)
def test_printed_areas_follow_from_printed_bores(size: tables_us.RacewaySize) -> None:
    printed = PRINTED_AREAS[size.kind, size.trade_size]
    bore = rf.circle_in2(size.inside_in)
    shares = (1.0, rf.fill_limit(1), rf.fill_limit(2), rf.fill_limit(3))
    assert tuple(bore * share for share in shares) == pytest.approx(printed, abs=0.001)


def test_nipple_may_be_fuller() -> None:
    assert rf.fill_limit(2, length_in=24) == rf.fill_limit(9, length_in=6) == 0.60
    assert rf.fill_limit(2, length_in=24.1) == 0.31
    bore = rf.raceway("EMT", "1/2").inside_in
    items = [rf.Item(0.0133, 12)]
    assert not rf.fill(bore, items).fits
    assert rf.fill(bore, items, length_in=24).fits


def test_flat_cable_counts_as_one_circle_of_its_wider_side() -> None:
    """Chapter 9, note 9: two flat cables 0.4 in wide are two conductors, so 31 %."""
    filled = rf.fill(0.824, [rf.cable_item(0.4, 2)])
    assert filled.conductors == 2
    assert filled.limit_percent == pytest.approx(31)
    assert filled.percent == pytest.approx(2 * 0.4**2 / 0.824**2 * 100)
    assert not filled.fits


@given(st.floats(0.5, 3), st.lists(diameters, max_size=5), diameters)
def test_room_for_more_is_what_adding_them_one_by_one_finds(bore: float, present: list[float], extra: float) -> None:
    items = [rf.cable_item(each) for each in present]
    more = rf.how_many_more(bore, items, extra)

    def fits(added: int) -> bool:
        count = len(present) + added
        share = {0: 0.53, 1: 0.53, 2: 0.31}.get(count, 0.40)
        squares = sum(each**2 for each in present) + added * extra**2
        return squares <= share * bore**2 * (1 + 2e-9)

    assert more == 0 or fits(more)
    assert not any(fits(added) for added in range(more + 1, more + 60) if added * extra**2 > 1e-6 * bore**2)


def test_packings_that_have_a_closed_form() -> None:
    """Known optimal packings of equal circles: rings round a centre or round nothing, and 9, 13 and 19 of them."""
    for count in (2, 3, 4, 5, 6):
        assert rf.EQUAL_PACKING[count - 1] == pytest.approx(1 + 1 / sin(pi / count), abs=1e-4)
    for count in (7, 8, 9):
        ring = 1 + 1 / sin(pi / (count - 1))
        assert rf.EQUAL_PACKING[count - 1] == pytest.approx(ring, abs=1e-4)
    assert rf.EQUAL_PACKING[10] == pytest.approx(1 + 1 / sin(pi / 9), abs=1e-4)
    assert rf.EQUAL_PACKING[12] == pytest.approx(2 + sqrt(5), abs=1e-4)
    assert rf.EQUAL_PACKING[18] == pytest.approx(1 + sqrt(2) + sqrt(6), abs=1e-4)


@given(st.lists(diameters, min_size=1, max_size=25))
def test_bundle_is_never_thinner_than_its_copper_nor_than_two_side_by_side(sizes: list[float]) -> None:
    bundle = rf.bundle_diameter_in(sizes)
    widest = sorted(sizes, reverse=True)[:2]
    assert bundle * (1 + 1e-9) >= sum(widest)
    assert bundle**2 * (1 + 1e-9) >= sum(size**2 for size in sizes)
    assert rf.bundle_diameter_in([]) == 0


@given(plugs, st.floats(0.1, 2))
def test_hole_for_plug_and_bundle_is_the_smallest_circle_round_both(plug: rf.Plug, bundle: float) -> None:
    """A numerical search over the circle's centre finds no smaller circle round the plug with the bundle on it."""
    wide, high = max(plug.width_in, plug.height_in), min(plug.width_in, plug.height_in)
    corners = [(x, y) for x in (-wide / 2, wide / 2) for y in (0, high)]
    rim = [(bundle / 2 * cos(turn), high + bundle / 2 + bundle / 2 * sin(turn)) for turn in np.linspace(0, 2 * pi, 721)]

    def radius(centre: np.ndarray) -> float:
        return max(hypot(x - centre[0], y - centre[1]) for x, y in corners + rim)

    found = minimize(radius, (0.0, (high + bundle) / 2), method="Nelder-Mead", options={"xatol": 1e-7, "fatol": 1e-7})
    hole = rf.hole_for([bundle], plug)
    assert hole / 2 == pytest.approx(found.fun, rel=2e-4)
    assert plug.diagonal_in * (1 - 1e-9) <= hole <= (plug.diagonal_in + bundle) * (1 + 1e-9)


def test_plug_through_a_round_bore_goes_by_its_diagonal() -> None:
    """A 13.9 × 4.45 mm shell (HDMI type A) is 14.6 mm across its corners: 0.575 in."""
    shell = rf.Plug(13.9 / 25.4, 4.45 / 25.4)
    assert shell.diagonal_in == pytest.approx(0.5746, abs=0.0001)
    assert rf.plug_passes(0.622, shell)
    assert not rf.plug_passes(0.560, shell)
    assert not rf.plug_passes(0.622, shell, others_in=[0.5])
    assert rf.hole_for([0.25, 0.25]) == 0.5
    assert rf.hole_for([], shell) == shell.diagonal_in


def test_bends_between_pull_points() -> None:
    assert rf.bends_left_deg([90, 90, 90, 90]) == 0
    assert rf.bends_left_deg([90, 90, 90, 45, 60]) == -15


def test_smallest_raceway_holds_the_cables_and_passes_the_plug() -> None:
    cables = [rf.cable_item(0.25, 2)]
    by_area = rf.smallest_raceway("ENT", cables)
    by_plug = rf.smallest_raceway("ENT", cables, plug=rf.Plug(0.83, 0.45))
    assert by_area is not None
    assert by_plug is not None
    assert (by_area.trade_size, by_plug.trade_size) == ("3/4", "1")
    assert rf.smallest_raceway("EMT", [rf.cable_item(0.6, 9)]) is None


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="EMT has"):
        rf.raceway("EMT", "3")
    for bad in (rf.Item(-1), rf.Item(0.1, -1), rf.Item(0.1, 1.5)):  # type: ignore[arg-type]
        with pytest.raises(ValueError, match=r"\w"):
            rf.fill(1, [bad])
    with pytest.raises(ValueError, match="bend"):
        rf.bends_left_deg([-90])
    with pytest.raises(ValueError, match="width"):
        rf.hole_for([], rf.Plug(0, 1))
    with pytest.raises(ValueError, match="conductors"):
        rf.fill_limit(0)


@rows(
    ("bore", "radius", "turns"),
    # The usual grip of HDMI, 21 by 12 mm, 1.9 in stiff: √((R - d/2 + 0.952)² + 0.95²) against R + d/2, worked by hand:
    # 1 in 6.274 > 6.25; 1-1/4 7.592 ≤ 7.92; 1-1/2 8.470 ≤ 9.035; 2 in 9.490 ≤ 10.51.
    [(1.0, 5.75, False), (1.34, 7.25, True), (1.57, 8.25, True), (2.02, 9.5, True)],
)
def test_a_stiff_plug_in_a_bend(bore: float, radius: float, turns: bool) -> None:
    assert rf.plug_turns(bore, radius, rf.Plug(21 / 25.4, 12 / 25.4)) is turns
