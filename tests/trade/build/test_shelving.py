"""One shelf in every make: the closed forms, what each remedy leaves, and what only helps sheet."""

from __future__ import annotations

import msgspec
import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from store.measure.length import INCH_NM
from store.trade.build.section import Strip
from store.trade.build.shelving import (
    HIDDEN_RATIO,
    SEEN_RATIO,
    Board,
    Patch,
    Supported,
    longest_nm,
    on_supports_lbf,
    sag_of,
    would_do,
)
from store.trade.fit.shelf import MATERIALS
from tests.tries import tries


def inches(number: float) -> int:
    return round(number * INCH_NM)


def board(material: str = "red oak", span: float = 36, thick: float = 0.75, **more: object) -> Board:
    return msgspec.structs.replace(Board(material, inches(span), inches(11.25), inches(thick)), **more)


# Wood Handbook stiffness, 11-1/4 x 3/4 in, 75 lb on 36 in; 1.5 for a lasting load of solid wood. Red oak 0.0633 in.
@pytest.mark.parametrize(
    ("held", "middle", "inch"),
    [("pins", 0, 0.0633), ("fixed", 0, 0.01266), ("cleats on 2 sides", 0, 0.0633), ("cleats on 3 sides", 0, 0.0633)],
)
def test_solid_wood_is_a_beam_whatever_its_back_lies_on(held: Supported, middle: int, inch: float) -> None:
    assert sag_of(board(held=held, middle=middle), 75) / INCH_NM == pytest.approx(1.5 * inch, rel=0.002)


def test_a_weight_in_the_middle_and_a_support_there() -> None:
    assert sag_of(board(), 75, "middle") / INCH_NM == pytest.approx(1.5 * 0.1013, rel=0.002)
    # Two spans of 18 in: the load of one is half, L⁴ / 185 of each.
    assert sag_of(board(span=72, middle=1), 150) / INCH_NM == pytest.approx(1.5 * 0.02628, rel=0.003)


def test_sheet_on_three_cleats_is_a_plate_and_on_a_strong_strip_a_beam_again() -> None:
    mdf = board("MDF", held="cleats on 3 sides")
    assert sag_of(mdf, 75) < 0.5 * sag_of(board("MDF"), 75)
    strong = msgspec.structs.replace(mdf, strips=(Strip(inches(0.75), inches(3)),))
    assert sag_of(strong, 75) == sag_of(board("MDF", strips=strong.strips), 75)


def test_brackets_under_a_floating_shelf_stand_in_from_its_ends() -> None:
    two = sag_of(board(held="brackets"), 75)
    assert two == sag_of(board(held="brackets", middle=2), 75)
    assert sag_of(board(held="brackets", middle=3), 75) < two < sag_of(board(), 75)
    assert sag_of(board(held="brackets", middle=1), 75) > two


@given(
    st.sampled_from(sorted(MATERIALS)), st.integers(20, 70), st.sampled_from([0.5, 0.75, 1.0]), st.floats(5, 200),
    st.sampled_from(["pins", "cleats on 3 sides", "fixed", "brackets"]), st.booleans(),
    st.sampled_from([SEEN_RATIO, HIDDEN_RATIO]),
)  # fmt: skip
@tries(30)
def test_whatever_would_do_does(
    material: str, span: int, thick: float, load: float, held: Supported, books: bool, ratio: int
) -> None:
    made = board(material, span, thick, held=held)
    assume(sag_of(made, load) > made.span_nm // ratio)
    for each in would_do(made, load, "spread", ratio, by_foot=books):
        assert each.sag_nm <= made.span_nm // ratio + 1
        if each.what == "thicker":
            assert sag_of(msgspec.structs.replace(made, thick_nm=each.nm), load) == each.sag_nm
        if each.what == "shorter":
            there = load * each.nm / made.span_nm if books else load
            assert sag_of(msgspec.structs.replace(made, span_nm=each.nm), there) * ratio <= each.nm + ratio
        if each.what == "material":
            assert sag_of(msgspec.structs.replace(made, material=each.material), load) == each.sag_nm


def test_no_load_has_no_longest_span() -> None:
    assert longest_nm(board(), 0, SEEN_RATIO, by_foot=True) is None


def test_a_board_is_not_made_thicker_than_its_strip_is_high() -> None:
    low = board("MDF", 48, strips=(Strip(inches(0.75), inches(1)),))
    for each in would_do(low, 100, "spread", SEEN_RATIO, by_foot=False):
        assert each.what != "thicker" or each.nm <= inches(1)


def by_differences(board: Board, load: float, patches: tuple[Patch, ...], parts: int = 1200) -> float:
    """Sag of a board on two pins, inches: its moments by statics, its slope and sag by summing them twice."""
    span, share = board.span_nm / INCH_NM, np.linspace(0, 1, parts + 1)
    rest = load - sum(one.lbf for one in patches)
    dense = np.full(parts, rest / parts)
    middles = (share[1:] + share[:-1]) / 2
    for one in patches:
        under = (middles > one.left) & (middles < one.right)
        dense += np.where(under, one.lbf / under.sum(), 0.0)
    right = float((dense * middles).sum())
    shear = dense.sum() - right - np.concatenate(([0.0], np.cumsum(dense)))
    moment = np.concatenate(([0.0], np.cumsum((shear[1:] + shear[:-1]) / 2))) * span / parts
    stiff = MATERIALS[board.material].low_psi * 11.25 * (board.thick_nm / INCH_NM) ** 3 / 12
    slope = np.concatenate(([0.0], np.cumsum((moment[1:] + moment[:-1]) / 2))) / stiff * span / parts
    sag = np.concatenate(([0.0], np.cumsum((slope[1:] + slope[:-1]) / 2))) * span / parts
    return float((sag[-1] * share - sag).max() * MATERIALS[board.material].creep)


@pytest.mark.parametrize(
    "patches",
    [
        (Patch(40, 0.3, 0.7),), (Patch(40, 0.0, 0.25),), (Patch(25, 0.05, 0.4), Patch(30, 0.5, 0.95)),
        (Patch(60, 0.5, 0.5001),),
    ],
)  # fmt: skip
def test_what_stands_at_a_place_agrees_with_summing_the_moments_twice(patches: tuple[Patch, ...]) -> None:
    parts = 1200 if patches[0].right - patches[0].left > 0.01 else 20_000
    assert sag_of(board(), 60, patches=patches) / INCH_NM == pytest.approx(
        by_differences(board(), 60, patches, parts), rel=0.01
    )


def test_a_patch_over_all_of_it_is_an_even_load_and_supports_carry_it_all() -> None:
    assert sag_of(board(), 60, patches=(Patch(60, 0, 1),)) == pytest.approx(sag_of(board(), 60), rel=0.02)
    ends = on_supports_lbf(board(), 60, patches=(Patch(40, 0, 0.5),))
    # 40 lb at a quarter, 20 lb even: 30 + 10 and 10 + 10.
    assert ends == pytest.approx((40, 20))
    assert on_supports_lbf(board(middle=1), 60) == pytest.approx((60 * 3 / 16, 60 * 5 / 8, 60 * 3 / 16), rel=1e-4)


def test_on_three_cleats_a_sheet_sags_no_more_than_under_its_densest_part_everywhere() -> None:
    mdf = board("MDF", held="cleats on 3 sides")
    part = (Patch(30, 0.25, 0.75),)
    assert sag_of(mdf, 30) < sag_of(mdf, 30, patches=part) <= sag_of(mdf, 60)


def test_a_board_on_pins_comes_off_an_end_that_would_have_to_hold_it_down() -> None:
    # 48 in with a support in the middle, 40 lb along the left half: that half alone sags as a board of 24 in, and the
    # right end hangs free; in a dado it is held down, and sags less.
    left = (Patch(40, 0.0, 0.5),)
    pins, fast = (Board("MDF", 48 * INCH_NM, 12 * INCH_NM, 3 * INCH_NM // 4, held, 1) for held in ("pins", "fixed"))
    alone = Board("MDF", 24 * INCH_NM, 12 * INCH_NM, 3 * INCH_NM // 4)
    assert sag_of(pins, 40, patches=left) == pytest.approx(sag_of(alone, 40), rel=0.01)
    assert sag_of(fast, 40, patches=left) < sag_of(pins, 40, patches=left)
    assert on_supports_lbf(pins, 40, patches=left) == pytest.approx((20, 20, 0), abs=1e-6)
    # Under an even load nothing lifts: 3/16, 10/16, 3/16 of it.
    assert on_supports_lbf(pins, 40) == pytest.approx((7.5, 25, 7.5))
