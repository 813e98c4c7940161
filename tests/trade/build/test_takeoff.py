"""Framing of five walls counted by hand, what every framed wall keeps to, and cutting against an exact solver."""

from __future__ import annotations

import random
from collections import Counter

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, milp

from store.measure.length import FOOT_NM, INCH_NM
from store.trade.build.blocking import blocks
from store.trade.build.lumber import KERF_NM, STOCK_NM, by_section, cut_from, nails
from store.trade.build.takeoff import Framing, Hole, Stick, frame
from store.trade.measured.framing import Bay
from store.trade.measured.plane import Rect, overlap_rect
from tests.tries import tries

THICK = 3 * INCH_NM // 2


def inches(number: float) -> int:
    return round(number * INCH_NM)


def hole(tag: str, x: float, y: float, wide: float, high: float, header: float | None = None) -> Hole:
    rect = Rect(inches(x), inches(y), inches(wide), inches(high))
    return Hole(tag, rect, None if header is None else inches(header))


def counts(made: Framing) -> dict[str, int]:
    return dict(Counter(one.part for one in made.sticks))


def test_plain_wall_of_eight_feet() -> None:
    # Studs at 0.75, 16, 32, 48, 64, 80, 95.25; 96 - 3 plates of 1-1/2 = 91-1/2.
    made = frame(inches(96), inches(96), inches(16), inches(16))
    assert counts(made) == {"bottom plate": 1, "top plate": 2, "stud": 7}
    assert {one.length_nm for one in made.sticks if one.part == "stud"} == {inches(91.5)}


def test_furred_wall_with_one_top_plate_at_24() -> None:
    # 144 in at 24: 0.75, 24 ... 120, 143.25.
    made = frame(inches(144), inches(97), inches(24), inches(24), top_plates=1)
    assert counts(made) == {"bottom plate": 1, "top plate": 1, "stud": 7}
    assert {one.length_nm for one in made.sticks if one.part == "stud"} == {inches(94)}


def test_wall_with_a_screen_recess_that_has_a_sill() -> None:
    # Opening 40 to 80 across, 48 to 72 up; trimmers at 38.5 and 80, kings at 37 and 81.5. The layout stud at 80 stands
    # half in the place of the right trimmer: above the header it is a cripple, like 48 and 64; below it is left out.
    made = frame(inches(120), inches(96), inches(16), inches(16), [hole("N1", 40, 48, 40, 24)])
    assert counts(made) == {
        "bottom plate": 1, "top plate": 2, "stud": 6, "king stud": 2, "trimmer": 2, "header": 1, "sill": 1,
        "cripple": 5,
    }  # fmt: skip
    by_part = {one.part: one.length_nm for one in made.sticks}
    assert by_part["header"] == inches(43)
    assert by_part["sill"] == inches(40)
    assert by_part["trimmer"] == inches(72 - 1.5)
    # Below: from the plate at 1.5 to the sill's lower face at 46.5; above: from the flat header at 73.5 to 93.
    assert sorted({one.length_nm for one in made.sticks if one.part == "cripple"}) == [inches(19.5), inches(45)]


def test_wall_with_a_fireplace_below_a_screen_of_the_same_width() -> None:
    # Both 36 to 84: the kings are shared; the screen's trimmers stand on the header below. Header 3-1/2, two plies.
    below, above = hole("N1", 36, 0, 48, 24, 3.5), hole("N2", 36, 44, 48, 30, 3.5)
    made = frame(inches(120), inches(96), inches(16), inches(16), [below, above])
    assert counts(made)["king stud"] == 2
    assert sorted(one.length_nm for one in made.sticks if one.part == "trimmer") == [
        inches(24 - 1.5), inches(24 - 1.5), inches(74 - 27.5), inches(74 - 27.5),
    ]  # fmt: skip
    assert counts(made)["header"] == 4
    assert counts(made)["sill"] == 1


def test_bearing_wall_whose_header_nobody_sized() -> None:
    made = frame(inches(144), inches(97), inches(16), inches(16), [hole("N1", 40, 0, 60, 80)], bearing=True)
    assert made.unsized == ("N1",)
    sized = frame(inches(144), inches(97), inches(16), inches(16), [hole("N1", 40, 0, 60, 80, 7.25)], bearing=True)
    assert sized.unsized == ()
    # A wall that carries nothing takes a flat two-by up to 8 ft, within 24 in of the plate: 92.5 - 80 = 12.5.
    assert frame(inches(144), inches(97), inches(16), inches(16), [hole("N1", 40, 0, 60, 80)]).unsized == ()
    assert frame(inches(144), inches(97), inches(16), inches(16), [hole("N1", 20, 0, 97, 80)]).unsized == ("N1",)
    assert frame(inches(144), inches(97), inches(16), inches(16), [hole("N1", 40, 0, 60, 68)]).unsized == ("N1",)


def solid(one: Stick) -> Rect:
    """The face of a stick on the wall."""
    if one.part in ("header", "sill", "bottom plate", "top plate"):
        return Rect(one.x_nm, one.y_nm, one.length_nm, one.face_nm or THICK)
    return Rect(one.x_nm, one.y_nm, THICK, one.length_nm)


@given(
    st.integers(96, 200), st.integers(84, 120), st.sampled_from([16, 24]), st.integers(8, 24),
    st.integers(12, 60), st.integers(0, 40), st.integers(12, 60), st.integers(12, 36), st.booleans(),
)  # fmt: skip
@tries(50)
def test_no_stick_stands_in_another_or_in_an_opening(
    width: int, height: int, spacing: int, first: int, x: int, y: int, wide: int, high: int, sized: bool
) -> None:
    x = min(x, width - wide - 6)
    one = hole("N1", x, y, wide, min(high, height - y - 12), 5.5 if sized else None)
    made = frame(width * INCH_NM, height * INCH_NM, spacing * INCH_NM, min(first, spacing) * INCH_NM, [one])
    faces = [solid(each) for each in made.sticks]
    for at, face in enumerate(faces):
        if made.sticks[at].y_nm >= THICK:  # the bottom plate is cut out of a door once the wall stands
            assert overlap_rect(face, one.rect) is None, made.sticks[at]
        for other in range(at + 1, len(faces)):
            twins = made.sticks[at].part == made.sticks[other].part == "header"
            assert twins or overlap_rect(face, faces[other]) is None, (made.sticks[at], made.sticks[other])


@given(
    st.sampled_from([16, 24]), st.integers(6, 24), st.integers(3, 30), st.integers(10, 60), st.integers(10, 60),
    st.integers(0, 30), st.integers(0, 30), st.integers(20, 50), st.integers(20, 50),
)  # fmt: skip
@tries(50)
def test_neighbors_with_room_for_two_members_between_keep_apart(
    spacing: int, x: int, gap: int, wide: int, other: int, y: int, up: int, high: int, tall: int
) -> None:
    one, two = hole("N1", x, y, wide, high, 3.5), hole("N2", x + wide + gap, up, other, tall, 3.5)
    made = frame(200 * INCH_NM, 96 * INCH_NM, spacing * INCH_NM, 16 * INCH_NM, [one, two])
    faces = [(each, solid(each)) for each in made.sticks]
    for at, (stick, face) in enumerate(faces):
        if stick.y_nm >= THICK:
            assert overlap_rect(face, one.rect) is None, stick
            assert overlap_rect(face, two.rect) is None, stick
        for each, other_face in faces[at + 1 :]:
            twins = stick.part == each.part == "header" and stick.of == each.of
            assert twins or overlap_rect(face, other_face) is None, (stick, each)


def test_nonsense_walls_are_refused() -> None:
    with pytest.raises(ValueError, match="above its plates"):
        frame(inches(96), inches(4), inches(16), inches(16))


def test_blocks_stand_in_the_bays_that_a_load_reaches() -> None:
    bays = (
        Bay(1, inches(1.5), inches(15.25)),
        Bay(2, inches(16.75), inches(31.25)),
        Bay(3, inches(32.75), inches(47.25)),
    )
    found = blocks(bays, inches(20), inches(40), [inches(60), inches(52)])
    assert [(one.length_nm, one.at_nm) for one in found] == [
        (inches(14.5), inches(52)), (inches(14.5), inches(52)), (inches(14.5), inches(60)), (inches(14.5), inches(60)),
    ]  # fmt: skip
    assert blocks(bays, inches(15.25), inches(16.75), [inches(60)]) == ()


def least_length(pieces: list[int], stock: list[int], kerf: int) -> int:
    """The least length of stock, by an integer programme: a bin of each kind for every piece."""
    bins = [room for room in stock for _ in pieces]
    n, m = len(pieces), len(bins)
    cost = np.concatenate([np.zeros(n * m), np.array(bins, dtype=float)])
    whole, full = np.zeros((n, n * m + m)), np.zeros((m, n * m + m))
    for piece in range(n):
        whole[piece, piece * m : (piece + 1) * m] = 1
        for room in range(m):
            full[room, piece * m + room] = pieces[piece] + kerf
    for room in range(m):
        full[room, n * m + room] = -(bins[room] + kerf)
    found = milp(
        cost,
        constraints=[LinearConstraint(whole, 1, 1), LinearConstraint(full, -np.inf, 0)],
        integrality=np.ones(n * m + m),
        bounds=(0, 1),
    )
    least: int = round(found.fun)
    return least


@given(st.lists(st.sampled_from([14, 23, 30, 43, 45, 61, 92]), min_size=1, max_size=6))
@tries(12)
def test_no_less_lumber_gives_the_pieces(inch: list[int]) -> None:
    stock = [96, 120, 144]
    found = cut_from([each * 8 for each in inch], [each * 8 for each in stock], 1)
    assert found.proved
    # In eighths of an inch, so that the kerf is one.
    assert sum(one.stock_nm for one in found.cuts) == least_length(
        [each * 8 for each in inch], [8 * s for s in stock], 1
    )


# Known best cases, in inches with a kerf of 1/8: what is bought.
@pytest.mark.parametrize(
    ("pieces", "bought"),
    [
        ([91.5] * 7, {96: 7}),
        ([47.875, 47.875], {96: 1}),  # two halves and one saw cut come out of eight feet
        ([48, 48], {120: 1}),  # two of four feet do not
        ([14.5] * 6, {96: 1}),  # 6 x 14.5 + 5 x 1/8 = 87.625
        ([96, 48, 47.875], {96: 2}),
    ],
)
def test_known_best_cuttings(pieces: list[float], bought: dict[int, int]) -> None:
    found = cut_from([inches(each) for each in pieces], STOCK_NM, KERF_NM)
    assert {stock // INCH_NM: count for stock, count in found.counts.items()} == bought


def test_a_plate_longer_than_any_stock_is_joined_on_a_stud() -> None:
    found = cut_from([21 * FOOT_NM], STOCK_NM, joint_nm=16 * INCH_NM)
    assert sorted(piece for one in found.cuts for piece in one.pieces_nm) == [5 * FOOT_NM, 16 * FOOT_NM]
    assert found.waste_nm == sum(one.stock_nm for one in found.cuts) - 21 * FOOT_NM


def test_headers_on_edge_are_bought_apart_and_nails_follow_the_schedule() -> None:
    one = hole("N1", 40, 0, 40, 80, 5.5)
    made = frame(inches(120), inches(96), inches(16), inches(16), [one])
    sections = by_section(made.sticks)
    assert sections[inches(5.5)] == [inches(43), inches(43)]
    plain = frame(inches(96), inches(96), inches(16), inches(16))
    # 7 studs, 2 nails at each end; sole plate 96 / 16 + 1; the second top plate the same.
    assert nails(plain.sticks) == {"16d": 7 * 4 + 7 + 7}
    assert nails(made.sticks)["8d"] == 16


@pytest.mark.parametrize("count", [60, 120, 219])
def test_many_pieces_come_near_the_bound(count: int) -> None:
    """What no choice can undercut is the sum of the pieces with their saw cuts, in whole boards."""
    numbers = random.Random(count)
    pieces = [numbers.randint(14 * 16, 90 * 16) * INCH_NM // 16 for _ in range(count)]
    bought = cut_from(pieces)
    taken = sum(one.stock_nm for one in bought.cuts)
    assert Counter(each for one in bought.cuts for each in one.pieces_nm) == Counter(pieces)
    assert sum(pieces) <= bought.least_nm <= taken <= 1.02 * bought.least_nm
