"""Shelves with strips and on cleats: area laid out in thin layers, the two limits of a plate, and refusals."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM
from store.trade.build.section import Strip, cleat_share, stiffness_with_strips_in4
from store.trade.fit.shelf import stiffness_in4


def inches(number: float) -> int:
    return round(number * INCH_NM)


def in_layers(depth: float, thick: float, strips: list[tuple[float, float, float]]) -> float:
    """The same by summing thin level layers of the section about their common centre."""
    low = max([thick, *(high for _, high, _ in strips)])
    edges = np.linspace(0, low, 40_001)
    y, step = (edges[1:] + edges[:-1]) / 2, edges[1] - edges[0]
    wide = np.where(y < thick, depth, 0.0)
    for strip, high, stiffer in strips:
        wide = wide + np.where(y < high, strip * stiffer, 0.0)
    centre = (wide * y).sum() / wide.sum()
    return float((wide * (y - centre) ** 2).sum() * step)


@pytest.mark.parametrize(
    "strips", [[], [(0.75, 1.5, 1.0)], [(0.75, 1.5, 3.5)], [(0.75, 2.5, 1.2), (0.75, 3.5, 1.0)], [(1.5, 0.75, 2.0)]]
)
def test_strips_agree_with_thin_layers(strips: list[tuple[float, float, float]]) -> None:
    made = [Strip(inches(a), inches(b), n) for a, b, n in strips]
    found = stiffness_with_strips_in4(inches(11.25), inches(0.75), made)
    assert found == pytest.approx(in_layers(11.25, 0.75, strips), rel=1e-3)


@given(st.integers(4, 30), st.integers(1, 8), st.integers(1, 8), st.integers(0, 16))
def test_a_strip_only_ever_stiffens(depth: int, eighths: int, strip: int, lower: int) -> None:
    thick = eighths * INCH_NM // 8
    bare = stiffness_in4(depth * INCH_NM, thick)
    more = stiffness_with_strips_in4(
        depth * INCH_NM, thick, [Strip(strip * INCH_NM // 8, thick + lower * INCH_NM // 8)]
    )
    assert more > bare
    assert stiffness_with_strips_in4(depth * INCH_NM, thick, []) == pytest.approx(bare)


def test_a_very_deep_shelf_on_cleats_sags_as_a_plate_strip_between_its_ends() -> None:
    # Far from the back, bending between two ends only: a free edge sags a little more than 1 - ν² of a beam.
    assert cleat_share(40 * INCH_NM, 4 * INCH_NM) == pytest.approx(cleat_share(20 * INCH_NM, 4 * INCH_NM), rel=1e-3)
    assert 0.91 < cleat_share(40 * INCH_NM, 4 * INCH_NM) < 1.1


@given(st.integers(1, 300), st.integers(1, 300))
def test_the_deeper_the_shelf_the_less_its_back_cleat_helps(first: int, second: int) -> None:
    low, high = sorted((first, second))
    assert cleat_share(low * INCH_NM, 36 * INCH_NM) <= cleat_share(high * INCH_NM, 36 * INCH_NM) + 1e-9


def test_what_cannot_be_is_refused() -> None:
    for strips in ([Strip(0, INCH_NM)], [Strip(INCH_NM, INCH_NM // 4)], [Strip(INCH_NM, INCH_NM, 0)]):
        with pytest.raises(ValueError, match="a strip needs"):
            stiffness_with_strips_in4(INCH_NM, INCH_NM // 2, strips)
    with pytest.raises(ValueError, match="above 0"):
        stiffness_with_strips_in4(0, 1, [])
    with pytest.raises(ValueError, match="above 0"):
        cleat_share(0, 1)
