"""Cable and boxes in the wall: free conductor, support and setback."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade import cable_install as ci


@pytest.mark.parametrize(
    ("free", "opening", "outside", "failures"),
    [
        (6, 2, 3, 0),
        (5.5, 2, 3, 1),
        (6, 2, 2.9, 1),
        (6, 8, 0, 0),  # 8 in in its smallest dimension: nothing need reach outside
        (5, 2, 1, 2),
    ],
)
def test_free_conductor(free: float, opening: float, outside: float, failures: int) -> None:
    """NEC 300.14: 6 in from the sheath, and 3 in outside an opening under 8 in."""
    notes = ci.free_conductor_notes(free, opening, outside, 2020)
    assert [note.level for note in notes] == ["fail"] * failures
    assert all(note.source == "NEC 2020 300.14" for note in notes)


def test_support_of_a_run() -> None:
    """NEC 334.30: within 12 in of each box and every 4-1/2 ft."""
    assert ci.unsupported(120, [12, 60, 108]) == ()
    assert ci.unsupported(120, [13, 60, 108]) == (ci.Overreach(0, 13, 12),)
    assert ci.unsupported(120, [108, 12]) == (ci.Overreach(12, 108, 54),)
    assert ci.unsupported(120, [8, 60, 108], first_in=ci.SUPPORT_FROM_CLAMPLESS_BOX_IN) == ()
    assert ci.unsupported(120, []) == (ci.Overreach(0, 120, 12),)
    assert ci.unsupported(10, []) == ()


@given(st.integers(30, 600), st.lists(st.integers(0, 30), max_size=20))
def test_what_is_flagged_is_what_walking_the_cable_finds(length: int, supports: list[int]) -> None:
    """Walking inch by inch from support to support finds the same stretches."""
    places = sorted({place * length // 30 for place in supports})
    if not places:
        return
    walked = []
    since, limit = 0, 12
    for inch in range(length + 1):
        if inch in places or inch == length:
            end_limit = 12 if inch == length and inch not in places else limit
            if inch - since > end_limit:
                walked.append((since, inch))
            since, limit = inch, 54
    assert [(each.start_in, each.end_in) for each in ci.unsupported(length, places)] == walked


def test_raceways_are_supported_by_their_own_distances() -> None:
    """358.30 and 362.30: EMT every 10 ft, ENT every 3 ft, both within 3 ft of a box."""
    emt = ci.unsupported(150, [30, 120], apart_in=ci.RACEWAY_SUPPORT_APART_IN["EMT"], first_in=36, last_in=36)
    ent = ci.unsupported(150, [30, 120], apart_in=ci.RACEWAY_SUPPORT_APART_IN["ENT"], first_in=36, last_in=36)
    assert emt == ()
    assert [(each.start_in, each.end_in) for each in ent] == [(30, 120)]


@pytest.mark.parametrize(
    ("setback", "surface", "right"),
    [
        (0.25, "noncombustible", True),
        (0.26, "noncombustible", False),
        (0.0, "combustible", True),
        (-0.1, "combustible", True),
        (0.05, "combustible", False),
    ],
)
def test_box_setback(setback: float, surface: ci.Surface, right: bool) -> None:
    """NEC 314.20: 1/4 in behind gypsum at most, flush in wood."""
    note = ci.setback_note(setback, surface, 2023)
    assert (note is None) == right
    assert note is None or note.source == "NEC 2023 314.20"


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="outside the cable"):
        ci.unsupported(100, [101])
    with pytest.raises(ValueError, match="length"):
        ci.unsupported(0, [])
    with pytest.raises(ValueError, match="free conductor"):
        ci.free_conductor_notes(-1, 2, 3, 2020)
