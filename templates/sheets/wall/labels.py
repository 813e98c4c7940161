"""Label sheets: plain text, and pages of HTML or SVG laid out for common label paper, flat or wrapped round a cable."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from math import pi

import msgspec

from store.measure.errors import BadValue
from store.measure.text import clean
from store.rules.cable.labels import WITHIN_MM, Label
from templates.sheets.layout.marks import safe


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
    source: str = "common practice: usual sheets of label paper, from memory; print one page on plain paper first"

    @property
    def most(self) -> int:
        """Labels on one page."""
        return self.columns * self.rows

    @property
    def thickest_mm(self) -> float:
        """The thickest cable that a wrap-round label goes round with its print covered; 0 for a flat label."""
        return (self.label[1] - self.print_high) / pi if self.print_high else 0.0


PAPERS: dict[str, Paper] = {
    "letter-30": Paper(
        name="Letter, 30 labels 2-5/8 × 1 in",
        page=(215.9, 279.4),
        columns=3,
        rows=10,
        label=(66.675, 25.4),
        first=(4.7625, 12.7),
        pitch=(69.85, 25.4),
    ),
    "letter-80": Paper(
        name="Letter, 80 labels 1-3/4 × 1/2 in",
        page=(215.9, 279.4),
        columns=4,
        rows=20,
        label=(44.45, 12.7),
        first=(7.144, 12.7),
        pitch=(52.3875, 12.7),
    ),
    "letter-wrap-49": Paper(
        name="Letter, 49 wrap-round labels 1 × 1-1/3 in",
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
    ),
    "a4-65": Paper(
        name="A4, 65 labels 38.1 × 21.2 mm",
        page=(210.0, 297.0),
        columns=5,
        rows=13,
        label=(38.1, 21.2),
        first=(4.75, 10.7),
        pitch=(40.6, 21.2),
    ),
    "a4-wrap-40": Paper(
        name="A4, 40 wrap-round labels 25 × 50 mm",
        page=(210.0, 297.0),
        columns=8,
        rows=5,
        label=(25.0, 50.0),
        first=(4.0, 13.5),
        pitch=(25.3, 54.0),
        print_high=15.0,
    ),
}
"""Label papers by a short name."""

WHERE = f"One label goes on each end, within {WITHIN_MM} mm of it."
MARGIN_MM = 1.5
POINT_MM = 25.4 / 72
LARGEST_PT, SMALLEST_PT = 14.0, 6.0
CHARACTER = 0.62
"""Width of a character, of its size."""


def labels_text(found: Sequence[Label]) -> str:
    """The labels as plain text, one line each, the tag first: also for a hand label printer."""
    return "".join(f"{'  |  '.join(clean(line) for line in each.lines)}\n" for each in found)


def labels_svg(found: Sequence[Label], paper: Paper, *, skip: int = 0) -> list[str]:
    """The pages of a label sheet, each an SVG of the size of the page; `skip` labels of the first are used already.

    Raises BadValue when `skip` is not a number of labels of one page.
    """
    if not 0 <= skip < paper.most:
        raise BadValue(f"a page of {paper.name} has {paper.most} labels: {skip} cannot be used already")
    places = [None] * skip + list(found)
    pages = [places[at : at + paper.most] for at in range(0, len(places), paper.most)]
    return [_page(page, paper) for page in pages]


def labels_html(found: Sequence[Label], paper: Paper, *, skip: int = 0, thick: Sequence[str] = ()) -> str:
    """The label sheet as one HTML document that prints a page a sheet, without margins.

    On the screen, and not on paper, it says how to print it, shows the edges of the labels, and names the cables that
    are too `thick` for a wrap-round one. Raises as `labels_svg`.
    """
    wide, high = paper.page
    style = (
        f"@page {{ size: {wide}mm {high}mm; margin: 0; }} body {{ margin: 0; }} "
        "svg { display: block; page-break-after: always; } svg:last-of-type { page-break-after: auto; } "
        "p { font: 11pt sans-serif; margin: 0.6em 1em; } @media print { p, .edge { display: none; } }"
    )
    notes = [f"{paper.name}. Print at full size (100 %), without margins; {paper.source.partition('; ')[2]}. {WHERE}"]
    if thick:
        notes.append(f"Too thick for this label to be wound round and cover its print: {', '.join(thick)}.")
    head = "".join(f"<p>{escape(clean(each))}</p>\n" for each in notes)
    pages = "".join(labels_svg(found, paper, skip=skip))
    return (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">'
        f"<title>Labels</title><style>{style}</style></head><body>\n{head}{pages}</body></html>\n"
    )


def too_thick(paper: Paper, outside_mm: float) -> bool:
    """Whether a cable is too thick for a wrap-round label: its clear part would not cover the print once round."""
    return bool(paper.print_high) and outside_mm > paper.thickest_mm


def _page(page: Sequence[Label | None], paper: Paper) -> str:
    wide, high = paper.page
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}" '
        'font-family="sans-serif">'
    ]
    for at, label in enumerate(page):
        if label is not None:
            row, column = divmod(at, paper.columns)
            x = paper.first[0] + column * paper.pitch[0]
            y = paper.first[1] + row * paper.pitch[1]
            wide, high = paper.label
            parts.append(
                f'<rect class="edge" x="{x:.2f}" y="{y:.2f}" width="{wide:g}" height="{high:g}" fill="none" '
                'stroke="#bbb" stroke-width="0.1"/>'
            )
            parts += _label(label, x, y, paper)
    return "\n".join([*parts, "</svg>\n"])


def _label(label: Label, x: float, y: float, paper: Paper) -> list[str]:
    """The lines of one label; a wrap-round one says its tag twice, so that it reads from both sides."""
    wide, high = paper.label
    if paper.print_high:
        lines: tuple[str, ...] = (label.tag, *label.lines[1:2], label.tag)
        high = paper.print_high
    else:
        lines = label.lines
    room = high - 2 * MARGIN_MM
    # No type is smaller than is read: on a low label what stands last, name and kind, gives way; the tag finds them.
    lines = lines[: max(1, int(room * 0.85 / (SMALLEST_PT * POINT_MM) - 0.6))]
    step = room / (len(lines) + 0.6)
    parts, top = [], y + MARGIN_MM
    for number, text in enumerate(lines):
        big = number == 0 or text == label.tag
        tall = step * (1.6 if number == 0 else 1.0)
        size = min(LARGEST_PT * POINT_MM, tall * 0.85, _fitting(text, wide - 2 * MARGIN_MM))
        top += tall
        weight = ' font-weight="bold"' if big else ""
        parts.append(
            f'<text x="{x + MARGIN_MM:.2f}" y="{top - tall * 0.2:.2f}" font-size="{size:.2f}"{weight}>'
            f"{safe(text, _most(wide))}</text>"
        )
    return parts


def _fitting(text: str, room: float) -> float:
    """Size of type, mm, at which a text goes into a width; not below the smallest that is read."""
    return max(SMALLEST_PT * POINT_MM, room / (max(1, len(text)) * CHARACTER))


def _most(wide: float) -> int:
    """Characters that go on a line in the smallest type."""
    return int((wide - 2 * MARGIN_MM) / (SMALLEST_PT * POINT_MM * CHARACTER))
