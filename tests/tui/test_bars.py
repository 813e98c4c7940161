"""Bars: full only when the whole is reached, begun as soon as something is there, marked when it is over."""

from __future__ import annotations

import pytest

from tui.shared.bars import bar


@pytest.mark.parametrize(
    ("part", "whole", "drawn"),
    [
        (0, 10, "░░░░"), (1, 1000, "█░░░"), (5, 10, "██░░"), (999, 1000, "███░"), (10, 10, "████"),
        (11, 10, "███▓"), (3, 0, "░░░░"), (0.0, 0.0, "░░░░"),
    ],
)  # fmt: skip
def test_a_bar_never_says_more_than_is_so(part: float, whole: float, drawn: str) -> None:
    assert bar(part, whole, 4) == drawn
