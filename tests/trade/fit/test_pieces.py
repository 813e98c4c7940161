"""Fitting: what is known decides, what is not known is named, and the way in is found."""

from __future__ import annotations

from collections.abc import Callable
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.cable.bends import room_for_turn_nm
from store.trade.fit import pieces
from store.trade.fit.pieces import Clearances, Size
from tests.rows import rows

NUMBERS = st.integers(1, 60)
MAYBE = st.none() | NUMBERS
SIZES = st.builds(Size, NUMBERS, NUMBERS, NUMBERS)
ROOMY = Size(100, 100, 100)


def test_a_plain_box_loses_its_sides_and_not_its_depth() -> None:
    assert pieces.clear_size(Size(30, 20, 16), 2) == Size(26, 16, 16)
    assert pieces.clear_size(Size(30, 20, 16), 2, ("left", "back", "front")) == Size(28, 20, 12)


def test_an_unknown_thickness_leaves_only_what_has_no_sides() -> None:
    assert pieces.clear_size(Size(30, 20, 16), None) == Size(None, None, 16)
    assert pieces.clear_size(Size(None, 20, 16), 2) == Size(None, 16, 16)


def test_behind_a_thing_the_deepest_turn_or_the_clearance_decides() -> None:
    turns = [room_for_turn_nm(30, 6, 4), room_for_turn_nm(20, 7, 10)]
    assert turns == [30 + 24 + 6, 20 + 70 + 7]
    clear = Clearances(1, 2, 3, 4, 5, 50)
    assert pieces.space_needed(Size(10, 10, 10), clear, turns) == Size(13, 17, 10 + 5 + 97)
    assert pieces.space_needed(Size(10, 10, 10), clear) == Size(13, 17, 10 + 5 + 50)
    assert pieces.space_needed(Size(10, 10, 10), clear, [40, None]).depth_nm is None


def test_spare_is_halved_in_the_middle_and_counted_from_the_place_otherwise() -> None:
    size, clear = Size(60, 60, 60), Clearances(5, 8, 0, 0, 0, 0)
    centred = pieces.fit(size, clear, ROOMY, tight_nm=5)
    assert (centred.verdict, centred.width_spare_nm) == ("fits", 27)
    assert (centred.left_spare_nm, centred.right_spare_nm) == (13, 14)
    placed = pieces.fit(size, clear, ROOMY, tight_nm=5, offset_nm=8)
    assert (placed.verdict, placed.left_spare_nm, placed.right_spare_nm) == ("tight", 3, 24)
    outside = pieces.fit(size, clear, ROOMY, tight_nm=5, offset_nm=33)
    assert (outside.verdict, outside.right_spare_nm) == ("does not fit", -1)


@rows(("width", "verdict"), [(90, "fits"), (91, "tight"), (100, "tight"), (101, "does not fit")])
def test_the_threshold_for_tight_is_given(width: int, verdict: str) -> None:
    assert pieces.fit(Size(width, 50, 50), Clearances(0, 0, 0, 0, 0, 0), ROOMY, tight_nm=10).verdict == verdict


def test_each_missing_figure_is_named() -> None:
    found = pieces.fit(Size(None, 5, 5), Clearances(0, 0, None, 0, 0, None), Size(50, 50, None), [None])
    assert found.verdict == "not known"
    assert found.missing == (
        "width of equipment",
        "clearance above",
        "clearance behind",
        "room for plug and bend behind",
        "clear depth of opening",
    )


@rows(
    ("size", "clear", "turns", "offset"),
    [
        (Size(None, 101, None), Clearances(), (), None),
        (Size(90, None, None), Clearances(11), (), None),
        (Size(None, None, 60), Clearances(front_nm=1), (40, None), None),
        (Size(60, None, None), Clearances(), (), 41),
        (Size(), Clearances(left_nm=5), (), 4),
    ],
)
def test_what_is_known_to_be_too_big_does_not_fit_whatever_else_is_missing(
    size: Size, clear: Clearances, turns: tuple[int | None, ...], offset: int | None
) -> None:
    found = pieces.fit(size, clear, ROOMY, turns, offset_nm=offset)
    assert found.verdict == "does not fit"
    assert found.missing


@given(st.builds(Size, MAYBE, MAYBE, MAYBE), st.builds(Clearances, *[MAYBE] * 6), st.builds(Size, MAYBE, MAYBE, MAYBE))
def test_a_verdict_never_changes_from_fit_to_misfit_by_learning_that_a_figure_is_nothing(
    size: Size, clear: Clearances, space: Size
) -> None:
    found = pieces.fit(size, clear, space, tight_nm=3)
    known = (size.width_nm, size.height_nm, size.depth_nm, space.width_nm, space.height_nm, space.depth_nm,
             clear.left_nm, clear.right_nm, clear.top_nm, clear.bottom_nm, clear.front_nm, clear.back_nm)  # fmt: skip
    assert bool(found.missing) == (None in known)
    if found.verdict in ("fits", "tight"):
        assert found.missing == ()
    filled = Clearances(*(getattr(clear, name) or 0 for name in clear.__struct_fields__))
    if None not in known[:6]:
        least = pieces.fit(size, filled, space, tight_nm=3).verdict
        assert (least == "does not fit") == (found.verdict == "does not fit")


@given(SIZES, st.builds(Size, NUMBERS, NUMBERS))
def test_a_box_passes_if_some_two_of_its_three_sizes_do(box: Size, opening: Size) -> None:
    found = pieces.passes(box, opening, tight_nm=0)
    sizes = (box.width_nm or 0, box.height_nm or 0, box.depth_nm or 0)
    wanted = any(
        across <= (opening.width_nm or 0) and up <= (opening.height_nm or 0) for across, up, _ in permutations(sizes)
    )
    assert found.verdict == ("fits" if wanted else "does not fit")
    assert found.spare_nm == max(
        min((opening.width_nm or 0) - across, (opening.height_nm or 0) - up) for across, up, _ in permutations(sizes)
    )


def test_a_receiver_goes_in_end_first_when_the_door_is_narrow() -> None:
    found = pieces.passes(Size(17, 7, 15), Size(16, 10), ["upright"], tight_nm=1)
    assert (found.verdict, found.turn, found.ahead, found.spare_nm) == ("fits", "upright", "left", 1)


@rows(
    ("box", "opening", "turn", "ahead"),
    [
        (Size(10, 20, 30), Size(10, 20), "upright", "front"),
        (Size(30, 20, 10), Size(10, 20), "upright", "left"),
        (Size(10, 20, 30), Size(20, 10), "on its side", "front"),
        (Size(10, 30, 20), Size(20, 10), "on its side", "top"),
        (Size(10, 20, 30), Size(10, 30), "on its back", "top"),
        (Size(20, 10, 30), Size(10, 30), "on its back", "left"),
    ],
)
def test_an_opening_cut_to_one_face_of_a_box_lets_that_face_through_ahead(
    box: Size, opening: Size, turn: pieces.Turn, ahead: pieces.Side
) -> None:
    found = pieces.passes(box, opening, [turn], tight_nm=0)
    assert (found.turn, found.ahead, found.spare_nm) == (turn, ahead, 0)


def test_what_must_stay_upright_is_not_turned() -> None:
    tall = Size(10, 30, 10)
    assert pieces.passes(tall, Size(40, 20), ["upright"]).verdict == "does not fit"
    turned = pieces.passes(tall, Size(40, 20), tight_nm=0)
    assert (turned.verdict, turned.turn) == ("fits", "on its side")


def test_a_box_of_unknown_depth_passes_front_first_or_is_not_known() -> None:
    front = pieces.passes(Size(10, 10, None), Size(12, 12), tight_nm=1)
    assert (front.verdict, front.ahead, front.missing) == ("fits", "front", ("depth of box",))
    assert pieces.passes(Size(20, 10, None), Size(12, 12)).verdict == "not known"
    assert pieces.passes(Size(20, 13, None), Size(12, 12)).verdict == "does not fit"
    assert pieces.passes(Size(1, 1, 1), Size(None, 12)).missing == ("width of opening",)


def test_pieces_side_by_side_share_the_larger_clearance_between_them() -> None:
    row = pieces.side_by_side([17, 12], 40, [(2, 3), (1, 2)], tight_nm=2)
    assert (row.verdict, row.needed_nm, row.spare_nm) == ("fits", 2 + 17 + 3 + 12 + 2, 4)
    assert row.offsets_nm == (2 + 1, 2 + 1 + 17 + 3 + 1)
    assert pieces.side_by_side([17, 12], 36, [(2, 3), (1, 2)]).verdict == "tight"
    assert pieces.side_by_side([17, 12], 35, [(2, 3), (1, 2)]).verdict == "does not fit"


def test_pieces_side_by_side_name_what_is_missing_and_may_be_too_wide_already() -> None:
    row = pieces.side_by_side([17, None], 40, [(2, 2), (None, 2)])
    assert row.verdict == "not known"
    assert row.missing == ("width of piece 2", "clearances of piece 2")
    assert pieces.side_by_side([41, None], 40).verdict == "does not fit"
    assert pieces.side_by_side([1], None).missing == ("clear width",)


@given(st.lists(NUMBERS, min_size=1, max_size=6), st.integers(0, 500))
def test_offsets_keep_the_pieces_in_order_and_inside(widths: list[int], clear: int) -> None:
    row = pieces.side_by_side(widths, clear)
    assert bool(row.offsets_nm) == (sum(widths) <= clear)
    ends = [0]
    for place, width in zip(row.offsets_nm, widths, strict=False):
        assert place >= ends[-1]
        ends.append(place + width)
    assert ends[-1] <= clear


def test_no_pieces_leave_the_whole_width() -> None:
    assert pieces.side_by_side([], 40).spare_nm == 40


@rows(
    "refused",
    [
        lambda: pieces.clear_size(ROOMY, -1),
        lambda: pieces.passes(ROOMY, ROOMY, ()),
        lambda: pieces.side_by_side([1, 2], 3, [(0, 0)]),
    ],
)
def test_questions_without_sense_are_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"at least|every piece"):
        refused()
