"""The inside of a cabinet by random boards and gear, against shapely; and pins by their rows."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import box

from store.measure.length import INCH_NM
from store.trade.fit.inside import Asked, Gear, arranged, lay, on_pins, spaces, under
from tests.rows import rows
from tests.tries import tries

WIDE, HIGH, THICK = 36, 30, 1
BOARDS = st.lists(
    st.tuples(st.booleans(), st.integers(1, HIGH), st.integers(0, WIDE - THICK), st.none() | st.integers(1, HIGH)),
    max_size=6,
)


@tries(30)
@given(BOARDS)
def test_no_space_reaches_into_a_board_or_into_another_space(drawn: list[tuple[bool, int, int, int | None]]) -> None:
    asked = [
        Asked(
            f"G{at}",
            divider,
            up if divider is False else up // 8 * 8,
            along if divider or at % 2 else None,
            high,
            THICK,
        )
        for at, (divider, up, along, high) in enumerate(drawn)
    ]
    laid = lay(WIDE, HIGH, asked)
    assert {one.tag for one in laid} == {one.tag for one in asked}
    there = [each for each in spaces(WIDE, HIGH, laid) if each.top_nm > each.bottom_nm]
    drawn_spaces = [box(each.left_nm, each.bottom_nm, each.right_nm, each.top_nm) for each in there]
    dividers = [box(one.left_nm, one.bottom_nm, one.right_nm, one.top_nm) for one in laid if one.divider]
    shelves = [
        box(one.left_nm, one.bottom_nm, one.right_nm, one.top_nm)
        for one in laid
        if not one.divider and one.right_nm > one.left_nm and one.bottom_nm >= 0
    ]
    for space, shape in zip(there, drawn_spaces, strict=True):
        # A shelf that lies across the floor of a space is a fault of its own; none begins above it within it.
        assert all(shape.intersection(each).area == 0 for each in dividers)
        assert all(shape.intersection(each).area == 0 for each in shelves if each.bounds[1] >= space.bottom_nm)
        assert under(laid, HIGH, space.left_nm, space.right_nm, space.bottom_nm) == (space.top_nm, space.above)
    by_floor: dict[str, list[int]] = {}
    for at, space in enumerate(there):
        by_floor.setdefault(space.floor, []).append(at)
    for same in by_floor.values():
        assert all(drawn_spaces[a].intersection(drawn_spaces[b]).area == 0 for a, b in combinations(same, 2))


GEAR = st.lists(
    st.tuples(st.integers(1, 12), st.integers(0, 3), st.integers(0, 3), st.none() | st.integers(0, 30)),
    min_size=1, max_size=5,
)  # fmt: skip


@tries(40)
@given(GEAR, st.integers(20, 60))
def test_what_fits_side_by_side_keeps_every_clearance(drawn: list[tuple[int, int, int, int | None]], wide: int) -> None:
    group = [Gear(f"E{at}", *each) for at, each in enumerate(drawn)]
    lefts, row = arranged(group, 0, wide)
    assert set(lefts) == {one.tag for one in group}
    order = sorted(group, key=lambda one: lefts[one.tag])
    gaps = [(lefts[order[0].tag], 0, order[0].left_nm or 0)]
    gaps += [
        (lefts[after.tag] - lefts[one.tag] - (one.width_nm or 0), one.right_nm or 0, after.left_nm or 0)
        for one, after in pairwise(order)
    ]
    last = order[-1]
    gaps.append((wide - lefts[last.tag] - (last.width_nm or 0), last.right_nm or 0, 0))
    kept = all(gap >= max(asked) for gap, *asked in gaps)
    assert kept == (row.verdict != "does not fit")
    # With none placed by hand the row is as short as its clearances let it be, the larger one between two.
    if all(one.offset_nm is None for one in group):
        clears = [(one.left_nm or 0, one.right_nm or 0) for one in group]
        between = sum(max(a[1], b[0]) for a, b in pairwise(clears))
        needed = clears[0][0] + between + clears[-1][1] + sum(one.width_nm or 0 for one in group)
        assert (row.needed_nm, row.verdict == "does not fit") == (needed, needed > wide)


@rows(
    ("inches", "told"),
    [(6, None), (7.25, None), (7.3, None), (7.75, (7.25, 8.5)), (5, (6, 6)), (5.95, None), (8.45, None)],
)
def test_a_shelf_is_on_its_pins_within_a_sixteenth(inches: float, told: tuple[float, float] | None) -> None:
    found = on_pins(round(inches * INCH_NM), 6 * INCH_NM, round(1.25 * INCH_NM))
    assert found == (None if told is None else tuple(round(each * INCH_NM) for each in told))
    with pytest.raises(ValueError, match="some way apart"):
        on_pins(INCH_NM, INCH_NM, 0)


@rows(
    ("offset", "width", "wide", "at", "verdict"),
    [
        # 1 + 4 + 1 = 6 in go before what is at 6 in; what is at 5 in has it in the middle of the 15 behind it.
        (6, 4, 30, 1, "tight"), (5, 4, 30, 20.5, "fits"),
        # 10 are needed, 5 are free before it and 9 after it: in the wider gap, and too wide for it.
        (5, 8, 24, 16, "does not fit"), (9, 8, 24, 1, "does not fit"),
    ],
)  # fmt: skip
def test_what_has_no_place_goes_beside_what_has(offset: int, width: int, wide: int, at: float, verdict: str) -> None:
    scale = INCH_NM
    fixed = Gear("E1", 10 * scale, 0, 0, offset * scale)
    lefts, row = arranged([fixed, Gear("E2", width * scale, scale, scale)], 0, wide * scale)
    assert (lefts["E2"], row.verdict) == (at * scale, verdict)


def test_two_without_a_place_share_what_is_free() -> None:
    # 60 before E1, less 2 · 12 and the 6 between them: 30 to spare in three gaps, 10 in each.
    group = [Gear("E1", 30, offset_nm=60), Gear("E2", 12, 0, 6), Gear("E3", 12, 0, 0)]
    lefts, row = arranged(group, 0, 120)
    assert lefts == {"E1": 60, "E2": 10, "E3": 38}
    assert row.spare_nm == 10
