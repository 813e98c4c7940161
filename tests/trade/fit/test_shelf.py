"""Shelves: the laws of scale, the elastic line integrated by itself, and refusals."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from store.measure.length import INCH_NM
from store.trade.fit import shelf
from tests.rows import rows

PLAIN = shelf.stiffness_in4(11 * INCH_NM, 3 * INCH_NM // 4)


@given(st.integers(10, 90), st.floats(1, 500))
def test_double_the_thickness_is_an_eighth_of_the_sag_and_half_the_span_a_sixteenth(span: int, per_ft: float) -> None:
    def sag(inches: float, stiffness: float) -> int:
        span_nm = round(inches * INCH_NM)
        return shelf.sag_nm(span_nm, stiffness, 1e6, shelf.even_load_lbf(span_nm, per_ft))

    thick = shelf.stiffness_in4(11 * INCH_NM, 3 * INCH_NM // 2)
    assert sag(span, PLAIN) == pytest.approx(8 * sag(span, thick), abs=8)
    assert sag(span, PLAIN) == pytest.approx(16 * sag(span / 2, PLAIN), abs=16)


def unit_load_sag(moment: Callable[[float], float], unit: Callable[[float], float], kinks: list[float]) -> float:
    """Sag in parts of load · span³ / EI by the unit load method: the integral of moment · unit moment over
    the span."""
    return float(quad(lambda x: moment(x) * unit(x), 0, 1, points=kinks)[0])


@rows(
    ("support", "load", "moment", "unit", "kinks"),
    [
        ("simple", "even", lambda x: x * (1 - x) / 2, lambda x: min(x, 1 - x) / 2, [0.5]),
        ("simple", "centre", lambda x: min(x, 1 - x) / 2, lambda x: min(x, 1 - x) / 2, [0.5]),
        ("simple", "third points", lambda x: min(x, 1 - x, 1 / 3) / 2, lambda x: min(x, 1 - x) / 2, [1 / 3, 0.5]),
        # The unit load on the simple beam serves for clamped ends too (reduction theorem).
        ("fixed", "even", lambda x: x * (1 - x) / 2 - 1 / 12, lambda x: min(x, 1 - x) / 2, [0.5]),
        ("fixed", "centre", lambda x: min(x, 1 - x) / 2 - 1 / 8, lambda x: min(x, 1 - x) / 2, [0.5]),
        ("cantilever", "even", lambda x: (1 - x) ** 2 / 2, lambda x: 1 - x, [0.5]),
        ("cantilever", "end", lambda x: 1 - x, lambda x: 1 - x, [0.5]),
    ],
)  # fmt: skip
def test_each_case_agrees_with_the_integrated_elastic_line(
    support: shelf.Support,
    load: shelf.Load,
    moment: Callable[[float], float],
    unit: Callable[[float], float],
    kinks: list[float],
) -> None:
    span, stiff = 30 * INCH_NM, 1.5e6
    share = unit_load_sag(moment, unit, kinks)
    wanted = share * 60 * 30**3 / (stiff * PLAIN)
    assert shelf.sag_nm(span, PLAIN, stiff, 60, support, load) == pytest.approx(wanted * INCH_NM, rel=1e-9, abs=1)


def test_the_propped_case_agrees_with_the_highest_point_of_its_elastic_line() -> None:
    # Clamped at 0, on a pin at 1, even load in all 1: y = x²(1 - x)(3 - 2x) / 48, largest near x = 0.578.
    largest = max(x * x * (1 - x) * (3 - 2 * x) / 48 for x in (at / 10_000 for at in range(10_001)))
    sag = shelf.sag_nm(30 * INCH_NM, PLAIN, 1.5e6, 60, "fixed and simple") / INCH_NM
    assert sag == pytest.approx(largest * 60 * 30**3 / (1.5e6 * PLAIN), rel=1e-5)


@given(st.floats(0.05, 3), st.floats(3e5, 3e6), st.floats(1, 100), st.floats(1, 3), st.sampled_from([360, 384, 600]))
def test_the_longest_span_just_keeps_its_limit(
    stiffness: float, stiff: float, per_ft: float, creep: float, ratio: int
) -> None:
    span = shelf.longest_span_nm(stiffness, stiff, per_ft, creep=creep, ratio=ratio)
    sag = shelf.sag_nm(span, stiffness, stiff, shelf.even_load_lbf(span, per_ft), creep=creep)
    assert sag == pytest.approx(shelf.sag_limit_nm(span, ratio), rel=1e-9, abs=2)


def test_every_material_names_its_table_and_has_its_creep() -> None:
    for material in shelf.MATERIALS.values():
        assert 0 < material.low_psi <= material.high_psi
        assert "Table" in material.source
    assert shelf.MATERIALS["plywood"].creep > shelf.MATERIALS["white oak"].creep


@rows(
    "refused",
    [
        lambda: shelf.sag_nm(1, 1, 1, 1, "fixed", "end"),
        lambda: shelf.sag_nm(0, 1, 1, 1),
        lambda: shelf.sag_nm(1, 1, 1, -1),
        lambda: shelf.sag_nm(1, 1, 1, 1, creep=0.5),
        lambda: shelf.stiffness_in4(0, 1),
        lambda: shelf.longest_span_nm(1, 1, 0),
    ],
)
def test_shelves_that_cannot_be_are_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"no formula|above 0"):
        refused()
