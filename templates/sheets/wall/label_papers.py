"""Label papers by their sizes: sheets of Letter and A4, and rolls; flat labels are folded to flags, others wound round.

Sizes of the flat sheets are those published for sheets of that count; the grids of Letter 80 and A4 65 add up to the
page. The wound-round sheets and the rolls are from memory.
"""

from __future__ import annotations

from math import pi

import msgspec

INCH = 25.4
KNOWN = "as published for sheets of this count"
CENTRED = "size as published for sheets of this count; margins from centering the grid on the page"
MEMORY = "common practice, from memory"
TEST_FIRST = "Print the test sheet on plain paper first and hold it against a label sheet."


class Paper(msgspec.Struct, frozen=True, kw_only=True):
    """One size of label paper, millimetres."""

    name: str
    page: tuple[float, float]
    columns: int
    rows: int
    label: tuple[float, float]
    """Width and height of one label."""
    first: tuple[float, float]
    """From the left and the top edge of the page to the first label."""
    pitch: tuple[float, float]
    """From one label to the next, across and down."""
    print_high: float = 0.0
    """For a wrap-round label: height of the part that is printed; the clear rest is wound over it."""
    source: str = MEMORY

    @property
    def flag(self) -> bool:
        """True for a flat label: it is folded round the cable and stuck to itself, and says all of it on both faces."""
        return not self.print_high

    @property
    def roll(self) -> bool:
        """True where each label is a page of its own."""
        return self.most == 1

    @property
    def most(self) -> int:
        """Labels on one page."""
        return self.columns * self.rows

    @property
    def thickest_mm(self) -> float:
        """The thickest cable that a wrap-round label goes round with its print covered; 0 for a flat label."""
        return (self.label[1] - self.print_high) / pi if self.print_high else 0.0


def _roll(name: str, wide: float, high: float) -> Paper:
    size = (wide, high)
    return Paper(name=name, page=size, columns=1, rows=1, label=size, first=(0.0, 0.0), pitch=size)


PAPERS: dict[str, Paper] = {
    "letter-30": Paper(
        name="Letter, 30 labels 2-5/8 × 1 in",
        page=(215.9, 279.4),
        columns=3,
        rows=10,
        label=(66.675, 25.4),
        first=(4.7625, 12.7),
        pitch=(69.85, 25.4),
        source=KNOWN,
    ),
    "letter-10": Paper(
        name="Letter, 10 labels 4 × 2 in",
        page=(215.9, 279.4),
        columns=2,
        rows=5,
        label=(4 * INCH, 2 * INCH),
        first=(5 / 32 * INCH, 0.5 * INCH),
        pitch=(4.1875 * INCH, 2 * INCH),
        source=KNOWN,
    ),
    "letter-80": Paper(
        name="Letter, 80 labels 1-3/4 × 1/2 in",
        page=(215.9, 279.4),
        columns=4,
        rows=20,
        label=(44.45, 12.7),
        first=(7.144, 12.7),
        pitch=(52.3875, 12.7),
        source=CENTRED,
    ),
    "letter-wrap-49": Paper(
        name="Letter, 49 wrap-around labels 1 × 1-1/3 in",
        page=(215.9, 279.4),
        columns=7,
        rows=7,
        label=(25.4, 33.867),
        first=(13.0, 16.0),
        pitch=(27.5, 36.0),
        print_high=12.7,
    ),
    "a4-21": Paper(
        name="A4, 21 labels 63.5 × 38.1 mm",
        page=(210.0, 297.0),
        columns=3,
        rows=7,
        label=(63.5, 38.1),
        first=(7.21, 15.15),
        pitch=(66.04, 38.1),
        source=KNOWN,
    ),
    "a4-65": Paper(
        name="A4, 65 labels 38.1 × 21.2 mm",
        page=(210.0, 297.0),
        columns=5,
        rows=13,
        label=(38.1, 21.2),
        first=(4.75, 10.7),
        pitch=(40.6, 21.2),
        source=CENTRED,
    ),
    "a4-wrap-40": Paper(
        name="A4, 40 wrap-around labels 25 × 50 mm",
        page=(210.0, 297.0),
        columns=8,
        rows=5,
        label=(25.0, 50.0),
        first=(4.0, 13.5),
        pitch=(25.3, 54.0),
        print_high=15.0,
    ),
    "roll-12": _roll("Roll 12 mm wide, cut at 60 mm", 60.0, 12.0),
    "roll-24": _roll("Roll 24 mm wide, cut at 70 mm", 70.0, 24.0),
    "roll-2x1": _roll("Roll of labels 2 × 1 in", 2 * INCH, INCH),
}
"""Label papers by a short name."""
