"""Boards on sheets: none is lost, none overlaps, known cases, and never fewer sheets than the area asks for."""

from __future__ import annotations

from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM
from store.trade.build.panels import KERF_NM, SHEET_NM, lay
from tests.tries import tries


def inches(*pieces: tuple[float, float]) -> list[tuple[int, int]]:
    return [(round(long * INCH_NM), round(wide * INCH_NM)) for long, wide in pieces]


@pytest.mark.parametrize(
    ("pieces", "sheets", "large"),
    [
        ([(96, 48)], 1, 0), ([(48, 96)], 1, 0), ([(97, 12)], 0, 1), ([], 0, 0),
        # Four of 23-7/8 across with three saw cuts are 95-7/8; 24 wide go two to a row, which is 48-1/8 with a cut.
        ([(95, 11.9)] * 4, 1, 0), ([(95, 12)] * 4, 2, 0), ([(47.9, 47.9)] * 2, 1, 0), ([(48, 48)] * 2, 2, 0),
        # A bookcase: two sides, and a top and a bottom end to end beside them; 23 in are left, too short for a shelf.
        ([(72, 12)] * 2 + [(35.9, 12)] * 2, 1, 0), ([(72, 12)] * 2 + [(35.9, 12)] * 3, 2, 0),
    ],
)  # fmt: skip
def test_known_cases(pieces: list[tuple[float, float]], sheets: int, large: int) -> None:
    found = lay(inches(*pieces))
    assert (len(found.sheets), len(found.too_large)) == (sheets, large)


@given(st.lists(st.tuples(st.integers(1, 110), st.integers(1, 60)), max_size=40))
@tries(30)
def test_all_pieces_are_there_and_each_row_and_sheet_has_room(pieces: list[tuple[int, int]]) -> None:
    wanted = inches(*pieces)
    found = lay(wanted)
    put = [piece for sheet in found.sheets for row in sheet for strip in row for piece in strip]
    assert sorted(sorted(one) for one in (*put, *found.too_large)) == sorted(sorted(one) for one in wanted)
    for sheet in found.sheets:
        assert sum(row[0][0][0] + KERF_NM for row in sheet) - KERF_NM <= SHEET_NM[0]
        for row in sheet:
            assert sum(max(wide for _, wide in strip) + KERF_NM for strip in row) - KERF_NM <= SHEET_NM[1]
            for strip in row:
                assert sum(long + KERF_NM for long, _ in strip) - KERF_NM <= row[0][0][0]
                assert all(wide <= strip[0][1] for _, wide in strip)
    assert len(found.sheets) >= ceil(sum(long * wide for long, wide in put) / (SHEET_NM[0] * SHEET_NM[1]))


def test_what_cannot_be_is_refused() -> None:
    for pieces in ([(0, 1)], [(1, -1)], [(1, 1)] * 401):
        with pytest.raises(ValueError, match="sizes above 0"):
            lay(pieces)
