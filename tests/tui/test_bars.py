"""Bars: full only when the whole is reached, begun as soon as something is there, marked when it is over."""

from __future__ import annotations

from store.rules.core.figures import figures
from tests.rows import rows
from tests.rules.core.edits import starter
from tui.shared.bars import SHARES, bar, share


@rows(
    ("part", "whole", "drawn"),
    [
        (0, 10, "░░░░"), (1, 1000, "█░░░"), (5, 10, "██░░"), (999, 1000, "███░"), (10, 10, "████"),
        (11, 10, "███▓"), (3, 0, "░░░░"), (0.0, 0.0, "░░░░"),
    ],
)  # fmt: skip
def test_a_bar_never_says_more_than_is_so(part: float, whole: float, drawn: str) -> None:
    assert bar(part, whole, 4) == drawn


def test_a_share_is_told_only_where_both_of_its_figures_are_known() -> None:
    assert share({"fill_in3": 16.0, "volume_in3": 18}, "box fill") == (16.0, 18.0)
    assert share({"fill_in3": 16.0}, "box fill") is None
    assert share({"fill_in3": 16.0, "volume_in3": 0}, "box fill") is None
    assert share({"drop_pct": 1.5}, "voltage drop") == (1.5, 3.0)
    assert share({"drop_pct": "not known"}, "voltage drop") is None


def test_every_share_is_of_figures_that_the_demo_has() -> None:
    known = {name for found in figures(starter()).values() for name in found}
    for part, whole in SHARES.values():
        assert part in known
        assert whole in known or isinstance(whole, float)
