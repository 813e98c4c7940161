"""Copper conductors: the tables against the physics they print, and the breaker that each size allows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.measured.bounds import exceeds, not_negative, positive
from store.trade.measured.citations import NEC_EDITIONS, cite, nec
from store.trade.power import conductors, tables_metric, tables_us
from tests.rows import rows
from tests.units import FLOATS as UNITS

FORMULA_TOLERANCE = 0.005


@rows("gauge", sorted(tables_us.SOLID_OHM_PER_KFT))
def test_solid_column_is_what_the_geometry_gives(gauge: int) -> None:
    """ASTM B258 geometry with IACS copper at 75 °C reproduces the solid column of Chapter 9, Table 8."""
    printed = tables_us.SOLID_OHM_PER_KFT[gauge]
    assert conductors.annealed_ohm_per_kft(gauge, 75.0) == pytest.approx(printed, rel=FORMULA_TOLERANCE)


@rows("gauge", sorted(tables_us.STRANDED_OHM_PER_KFT))
def test_stranded_is_a_little_more_than_solid(gauge: int) -> None:
    """A stranded conductor of the same circular mils is 1 to 3 % longer along its lay."""
    physics = conductors.annealed_ohm_per_kft(gauge, 75.0)
    assert 1.01 < tables_us.STRANDED_OHM_PER_KFT[gauge] / physics < 1.03


@rows(("gauge", "inches"), [(36, 0.0050), (-3, 0.4600), (10, 0.1019), (14, 0.0641)])
def test_diameters_of_astm_b258(gauge: int, inches: float) -> None:
    assert conductors.awg_diameter_in(gauge) == pytest.approx(inches, abs=0.00005)


def test_ohm_per_kft_is_the_metric_resistance_in_other_units() -> None:
    """The two resistances of the same copper differ by the unit alone, by an independent unit library."""
    area = conductors.awg_area_mm2(12)
    per_m = conductors.IACS_OHM_MM2_PER_M / area
    per_kft = (per_m * UNITS.ohm / UNITS.meter).to(UNITS.ohm / UNITS.kilofoot).magnitude
    assert conductors.annealed_ohm_per_kft(12) == pytest.approx(per_kft, rel=1e-6)


def test_table_8_temperature_rule() -> None:
    """Note 2 of Table 8: 3.07 at 75 °C is 2.525 ohm/kft at 20 °C, and the ratio at 60 °C is 0.9516."""
    assert conductors.ohm_per_kft(14, temp_c=20) == pytest.approx(2.525, abs=0.0005)
    warm = conductors.ohm_per_kft(14, temp_c=60) / conductors.ohm_per_kft(14)
    assert warm == pytest.approx(0.9516, abs=0.0001)


@rows(
    ("gauge", "together", "ampacity"),
    [
        (14, 2, 15.0),
        (12, 2, 20.0),
        (10, 2, 30.0),
        (12, 6, 20.0),  # 30 × 0.80 = 24, held at the 60 °C column
        (12, 9, 20.0),  # 30 × 0.70 = 21, held
        (12, 10, 15.0),  # 30 × 0.50
        (14, 9, 15.0),  # 25 × 0.70 = 17.5, held
        (14, 20, 12.5),  # 25 × 0.50
    ],
)
def test_nm_cable_starts_at_90_and_stops_at_60(gauge: int, together: int, ampacity: float) -> None:
    """NEC 334.80: adjust from the 90 °C column, never end above the 60 °C column."""
    assert conductors.nm_ampacity_a(gauge, together) == pytest.approx(ampacity)


@rows(("gauge", "breaker"), [(14, 15), (12, 20), (10, 30), (8, 40), (6, 60)])
def test_largest_breaker_for_a_cable(gauge: int, breaker: int) -> None:
    """NEC 240.4(D) for the small sizes; 6 AWG carries 55 A, which is no standard size, so 60 A by 240.4(B)."""
    assert conductors.max_breaker_a(gauge) == breaker


def test_a_crowded_hole_can_take_the_breaker_down_a_size() -> None:
    assert conductors.max_breaker_a(12, 10) == 15


@given(st.floats(0, 100), st.sampled_from(tables_us.STANDARD_BREAKERS_A))
def test_cable_chosen_carries_the_current_and_suits_the_breaker(amps: float, breaker: int) -> None:
    """The choice holds, and one size thinner would not."""
    try:
        gauge = conductors.smallest_nm_gauge(amps, breaker)
    except ValueError:
        assert amps > 55 or breaker > 60
        return
    assert conductors.nm_ampacity_a(gauge) * (1 + 2e-9) >= amps
    assert conductors.max_breaker_a(gauge) >= breaker
    thinner = gauge + 2
    if thinner in tables_us.AMPACITY_60C_A:
        too_little = conductors.nm_ampacity_a(thinner) < amps
        assert too_little or conductors.max_breaker_a(thinner) < breaker


@given(st.floats(0, 100))
def test_breaker_is_the_smallest_that_is_not_below(amps: float) -> None:
    size = conductors.standard_breaker_a(amps)
    assert size * (1 + 2e-9) >= amps
    smaller = [each for each in tables_us.STANDARD_BREAKERS_A if each < size]
    assert all(each < amps for each in smaller)


def test_every_4d5_row_grows_with_its_size_and_clipped_direct_is_best() -> None:
    """BS 7671 Table 4D5: more copper carries more, and no method beats clipped direct."""
    for method, row in tables_metric.CAPACITY_A.items():
        assert list(row) == list(tables_metric.MV_PER_A_M)
        assert sorted(row.values()) == list(row.values())
        assert all(row[size] <= tables_metric.CAPACITY_A["C"][size] for size in row), method


def test_cable_buried_in_insulation() -> None:
    """BS 7671: 0.78 for 100 mm and half from 500 mm; a length between takes the longer printed one."""
    assert conductors.buried_factor(0) == 1.0
    assert conductors.buried_factor(100) == 0.78
    assert conductors.buried_factor(101) == 0.63
    assert conductors.buried_factor(500) == 0.5
    assert conductors.flat_cable_capacity_a(2.5, "C", buried_mm=500) == 13.5
    with pytest.raises(ValueError, match="already allows"):
        conductors.flat_cable_capacity_a(2.5, "103", buried_mm=500)


@rows(
    "call",
    [
        lambda: conductors.ohm_per_kft(6),
        lambda: conductors.ohm_per_kft(13),
        lambda: conductors.nm_ampacity_a(18),
        lambda: conductors.bundle_factor(0),
        lambda: conductors.standard_breaker_a(100.1),
        lambda: conductors.standard_breaker_a(float("nan")),
        lambda: conductors.smallest_nm_gauge(56, 60),
        lambda: conductors.awg_diameter_in(41),
        lambda: conductors.buried_factor(-1),
        lambda: positive("x", 0),
        lambda: positive("x", float("inf")),
        lambda: not_negative("x", -0.1),
    ],
)
def test_what_the_tables_lack_is_refused(call: object) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=r"\w"):
        call()


def test_sections_move_with_the_edition() -> None:
    """Fixed heating went from 424.3(B) to 424.4(B) in 2020; the 50 % rule to 210.23(B)(2) in 2023."""
    assert cite("fixed heating 125 %", 2017) == "NEC 2017 424.3(B)"
    assert cite("fixed heating 125 %", 2023) == "NEC 2023 424.4(B)"
    assert cite("fixed 50 %", 2020) == "NEC 2020 210.23(A)(2)"
    assert cite("fixed 50 %", 2023) == "NEC 2023 210.23(B)(2)"
    assert [cite("continuous breaker", year)[-9:] for year in NEC_EDITIONS] == ["210.20(A)"] * 3
    with pytest.raises(ValueError, match="2019"):
        nec("314.16", 2019)


def test_exactly_at_a_limit_is_within_it() -> None:
    """3.6 V of 120 V is 3.0000000000000004 % in floating point, and still 3 %."""
    assert 3.6 / 120 * 100 > 3
    assert not exceeds(3.6 / 120 * 100, 3)
    assert exceeds(3.001, 3)
    assert not exceeds(-1, 0)


def test_iec_temperature_rule() -> None:
    """IEC 60228 brings 70 °C to 20 °C by 0.833, and 75 °C by 0.820."""
    cold = conductors.ohm_per_km(2.5, temp_c=20)
    assert cold == 7.41
    assert cold / conductors.ohm_per_km(2.5) == pytest.approx(0.833, abs=0.0005)
    assert cold / conductors.ohm_per_km(2.5, temp_c=75) == pytest.approx(0.820, abs=0.0005)


@rows("mm2", tables_metric.OHM_PER_KM_20C)
def test_iec_limits_are_near_the_resistance_of_their_copper(mm2: float) -> None:
    """The limit is for a nominal size, so it lies within 8 % of ideal copper of that area, flexible above solid."""
    ideal = conductors.IACS_OHM_MM2_PER_M * 1000 / mm2
    assert conductors.ohm_per_km(mm2, temp_c=20) == pytest.approx(ideal, rel=0.08)
    assert conductors.ohm_per_km(mm2, flexible=True) > conductors.ohm_per_km(mm2)


def test_a_size_that_iec_does_not_list_here_is_refused() -> None:
    with pytest.raises(ValueError, match=r"size in mm² 3\.0 is not in the table"):
        conductors.ohm_per_km(3.0)
