"""Board on five walls counted by hand, and what every layout keeps to."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import box
from shapely.ops import unary_union

from store.measure.length import INCH_NM
from store.trade.build.sheets import CORNER_NM, LENGTHS_NM, SHEET_NM, STAGGER_NM, Boarded, CannotBoard, board
from store.trade.measured.plane import Rect, overlap_rect
from store.trade.measured.profile import profile
from tests.tries import tries


def inches(number: float) -> int:
    return round(number * INCH_NM)


def centres(width: float, spacing: float = 16) -> list[int]:
    return [inches(spacing * at) for at in range(1, int(width // spacing) + 1)]


def rect(x: float, y: float, wide: float, high: float) -> Rect:
    return Rect(inches(x), inches(y), inches(wide), inches(high))


def sheets(found: Boarded) -> list[tuple[int, int, int]]:
    return [(wide // INCH_NM, long // INCH_NM, number) for wide, long, number in found.sheets]


def test_twelve_by_eight_feet_is_two_sheets_of_twelve() -> None:
    found = board(inches(144), inches(96), centres(144))
    assert sheets(found) == [(48, 144, 2)]
    assert (found.level, found.tapered_nm, found.butt_nm) == (True, inches(144), 0)
    assert found.waste == 0


def test_eighteen_feet_joins_each_course_once_and_not_in_line() -> None:
    # 216 in: 96 + 120 buys it exactly, with the end on the stud at 96. The other course cannot end there; of the studs
    # left the best is 112: sheets of 120 and 108, 228 in.
    found = board(inches(216), inches(96), centres(216))
    assert found.butt_nm == 2 * inches(48)
    assert sum(wide * long * number for wide, long, number in found.sheets) == inches(216 + 228) * inches(48)
    ends = [one.rect.right_nm for one in found.pieces if one.rect.right_nm < inches(216)]
    assert abs(ends[0] - ends[1]) >= STAGGER_NM


def test_eight_foot_sheets_only_get_up_the_stairs() -> None:
    # 144 in with sheets of 96: each course is 96 + 48, the joint on a stud, one bay and more apart: 4 sheets of 96.
    found = board(inches(144), inches(96), centres(144), longest_nm=inches(96))
    assert max(long for _, long, _ in found.sheets) == inches(96)
    upright = board(inches(96), inches(96), centres(96), longest_nm=inches(96))
    assert sheets(upright) == [(48, 96, 2)]


def test_nine_foot_wall_has_a_rip_at_the_floor() -> None:
    # 108 in: two courses of 48 and one of 12 behind the base; its pieces come two out of a sheet's width.
    found = board(inches(120), inches(108), centres(120))
    if found.level:
        assert min(one.rect.height_nm for one in found.pieces) == inches(12)
        assert sheets(found) == [(48, 120, 3)]
    # Upright: 120 / 48 is 3 sheets of 9 ft, joints 2 x 108 = 216 in against 240 in level: upright it is.
    assert not found.level
    assert sheets(found) == [(48, 108, 3)]


def test_no_joint_is_in_line_with_the_edge_of_a_screen_recess() -> None:
    # Recess 64 to 128 across on a wall of 17 ft: the studs at 64 and 128 are out.
    hole = rect(64, 44, 64, 36)
    found = board(inches(204), inches(96), centres(204), [hole])
    ends = {one.rect.right_nm for one in found.pieces if one.rect.right_nm < inches(204)}
    assert not ends & {inches(64), inches(128)}
    assert found.face_nm2 == inches(204) * inches(96) - hole.width_nm * hole.height_nm


@given(
    st.integers(40, 260), st.integers(60, 130), st.sampled_from([16, 24]), st.sampled_from([96, 120, 144, 192]),
    st.integers(0, 200), st.integers(0, 80), st.integers(10, 80), st.integers(10, 60),
)  # fmt: skip
@tries(40)
def test_every_layout_covers_the_wall_once_and_keeps_to_its_rules(
    width: int, height: int, spacing: int, longest: int, x: int, y: int, wide: int, high: int
) -> None:
    hole = rect(x, y, wide, high)
    places = centres(width, spacing)
    try:
        found = board(inches(width), inches(height), places, [hole], longest_nm=inches(longest))
    except CannotBoard:
        return
    shapes = [box(one.rect.x_nm, one.rect.y_nm, one.rect.right_nm, one.rect.top_nm) for one in found.pieces]
    assert unary_union(shapes).area == pytest.approx(inches(width) * inches(height))
    assert sum(each.area for each in shapes) == pytest.approx(inches(width) * inches(height))
    for one in found.pieces:
        assert max(one.rect.width_nm, one.rect.height_nm) <= max(inches(longest), SHEET_NM)
        assert min(one.rect.width_nm, one.rect.height_nm) <= SHEET_NM
        end = one.rect.right_nm
        if end < inches(width):
            middle = hole.x_nm + hole.width_nm // 2
            assert end in places or end == middle
            if overlap_rect(Rect(end - 1, one.rect.y_nm, 2, one.rect.height_nm), hole) and end != middle:
                assert min(abs(end - hole.x_nm), abs(end - hole.right_nm)) >= CORNER_NM
    assert found.bought_nm2 >= sum(one.rect.width_nm * one.rect.height_nm for one in found.pieces) * 0.99
    assert 0 <= found.waste < 1


def test_what_cannot_be_boarded_is_refused() -> None:
    with pytest.raises(CannotBoard, match="get in"):
        board(inches(96), inches(96), centres(96), longest_nm=inches(60))
    with pytest.raises(CannotBoard, match="no stud"):
        board(inches(300), inches(300), [])
    with pytest.raises(ValueError, match="above 0"):
        board(0, 1, [])
    assert min(LENGTHS_NM) == inches(96)


def test_what_gets_no_board_parts_a_face_or_shortens_its_pieces() -> None:
    """A build-out 72 to 132 of 204 from floor to ceiling: two faces of 72, upright in 48 + 24 against 72 level: level.

    A soffit from wall to wall leaves what is below it. Tile 60 x 48 in the middle at the floor: the lower course ends
    at it on both sides, 42 and 42, which one sheet of 8 ft gives; nothing is cut out of a sheet.
    """
    parted = board(inches(204), inches(96), centres(204), gone=[rect(72, 0, 60, 96)])
    assert {(one.rect.x_nm, one.rect.right_nm) for one in parted.pieces} == {
        (0, inches(72)), (inches(132), inches(204))
    }  # fmt: skip
    assert (parted.tapered_nm, parted.face_nm2) == (inches(144), inches(144) * inches(96))
    assert sheets(parted) == [(48, 144, 2)]
    below = board(inches(144), inches(96), centres(144), gone=[rect(0, 84, 144, 12)])
    assert max(one.rect.top_nm for one in below.pieces) == inches(84)
    tiled = board(inches(144), inches(96), centres(144), gone=[rect(42, 0, 60, 48)])
    assert sorted((one.rect.width_nm // INCH_NM, one.rect.height_nm // INCH_NM) for one in tiled.pieces) == [
        (42, 48), (42, 48), (144, 48)
    ]  # fmt: skip
    assert sheets(tiled) == [(48, 144, 1), (48, 96, 1)]
    assert tiled.waste == pytest.approx(12 / 240)
    assert board(inches(96), inches(96), [], gone=[rect(-1, -1, 98, 98)]).pieces == ()


def test_under_a_slope_what_is_above_it_is_not_boarded() -> None:
    """From 8 ft at the left to 4 ft at 12 ft: upper courses end where they would be above, the face is a trapezium."""
    ceiling = profile([(0, 96 * INCH_NM), (144 * INCH_NM, 48 * INCH_NM)])
    made = board(144 * INCH_NM, 96 * INCH_NM, [at * INCH_NM for at in range(16, 144, 16)], ceiling=ceiling)
    assert made.face_nm2 == 144 * 72 * INCH_NM**2
    for each in made.pieces:
        assert each.rect.top_nm <= ceiling.highest(each.rect.x_nm, each.rect.right_nm)
