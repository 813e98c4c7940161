"""Bends: radius and the room that a turn takes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from store.trade.cable.bends import least_radius_nm, room_for_turn_nm

MM = 1_000_000


def test_a_radius_is_rounded_up_never_down() -> None:
    assert least_radius_nm(3, Fraction(7, 2)) == 11
    with pytest.raises(ValueError, match="above nothing"):
        least_radius_nm(0, 4)


def test_room_behind_a_socket() -> None:
    assert room_for_turn_nm(30 * MM, 6 * MM, 4) == 60 * MM
