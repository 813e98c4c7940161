"""Low voltage beside power: what fails, what is warned about and what is only practice."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.cable.separation import Neighbours, Power, separation_note
from store.trade.measured.citations import COMMON_PRACTICE
from tests.rows import rows

RANK = {None: 0, "note": 1, "warn": 2, "fail": 3}
POWER: list[Power] = ["cable", "raceway", "loose conductors"]


def level(pair: Neighbours) -> str | None:
    note = separation_note(pair, 2020)
    return None if note is None else note.level


@rows(
    ("pair", "expected"),
    [
        (Neighbours(1.9, "loose conductors"), "fail"),
        (Neighbours(2.0, "loose conductors"), "note"),
        (Neighbours(1.9, "cable"), "warn"),
        (Neighbours(1.9, "raceway"), "warn"),
        (Neighbours(2.0, "cable"), "note"),
        (Neighbours(6.0, "cable"), None),
        (Neighbours(2.0, "cable", together="crossing"), None),
        (Neighbours(1.0, "loose conductors", together="crossing"), "fail"),
        (Neighbours(30, "cable", together="one hole"), "warn"),
        (Neighbours(30, "loose conductors", together="one hole"), "fail"),
        (Neighbours(30, "cable", together="one box"), "fail"),
        (Neighbours(0, "cable", together="one box with divider"), None),
        (Neighbours(0, "cable", together="one raceway"), "fail"),
        (Neighbours(0.25, "loose conductors", together="in equipment"), None),
        (Neighbours(0.2, "loose conductors", together="in equipment"), "fail"),
    ],
)
def test_two_inches_bind_loose_conductors_and_only_advise_beside_cable(pair: Neighbours, expected: str | None) -> None:
    """NEC 725.136 and 800.133: 2 in, excepting power in a raceway or in NM and like cable; never one box."""
    assert level(pair) == expected


@given(st.floats(0, 40), st.floats(0, 40), st.sampled_from(POWER))
def test_farther_apart_is_never_worse(one: float, other: float, power: Power) -> None:
    near, far = sorted((one, other))
    assert RANK[level(Neighbours(far, power))] <= RANK[level(Neighbours(near, power))]


def test_section_follows_the_kind_of_signal() -> None:
    box = separation_note(Neighbours(0, together="one box"), 2020)
    utility = separation_note(Neighbours(0, signal="communications", together="one box"), 2020)
    practice = separation_note(Neighbours(4), 2020)
    assert box is not None
    assert utility is not None
    assert practice is not None
    assert box.source == "NEC 2020 725.136"
    assert utility.source == "NEC 2020 800.133"
    assert practice.source == "common practice"


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="distance"):
        separation_note(Neighbours(-1), 2020)
    with pytest.raises(ValueError, match="2026"):
        separation_note(Neighbours(9), 2026)


def test_a_metric_job_is_told_of_practice_in_millimetres() -> None:
    """1 in is closer than the NEC's 2 in, which binds no metric job; 6 in or more is well in both."""
    note = separation_note(Neighbours(1), 2020, metric=True)
    assert note is not None
    assert (note.level, note.source) == ("note", COMMON_PRACTICE)
    assert "150 to 300 mm" in note.text
    assert "25 mm" in note.text
    assert separation_note(Neighbours(6), 2020, metric=True) is None
