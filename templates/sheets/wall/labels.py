"""Label sheets: plain text, and pages of HTML or SVG laid out for common label paper; what a label says stands on it
twice, so that it is read from both sides of the cable."""

from __future__ import annotations

import re
from collections.abc import Sequence
from html import escape

from store.measure.errors import BadValue, quoted
from store.measure.text import clean
from store.rules.cable.labels import WITHIN_MM, Label
from templates.sheets.layout.marks import safe
from templates.sheets.wall.label_papers import TEST_FIRST, Paper

WHERE = f"One label goes on each end, within {WITHIN_MM} mm of it."
MARGIN_MM = 1.5
POINT_MM = 25.4 / 72
LARGEST_PT, SMALLEST_PT = 14.0, 6.0
SET = 0.92
"""Size of type, of the height of its line."""
FIRST = 1.25
"""Height of the line of the tag, of that of the others."""
MOST_NUDGE_MM = 5.0
CHARACTER = 0.62
"""Width of a character, of its size."""


def labels_text(found: Sequence[Label]) -> str:
    """The labels as plain text, one line each, the tag first: also for a hand label printer."""
    return "".join(f"{'  |  '.join(clean(line) for line in each.lines)}\n" for each in found)


def labels_svg(
    found: Sequence[Label], paper: Paper, *, skip: int = 0, nudge: tuple[float, float] = (0.0, 0.0)
) -> list[str]:
    """The pages of a label sheet, each an SVG of the size of the page; `skip` labels of the first are used already.

    `nudge` moves everything right and down, mm. Raises BadValue when `skip` is not a number of labels of one page.
    """
    if not 0 <= skip < paper.most:
        raise BadValue(f"{skip} labels can't be used already. A page of {paper.name} has {paper.most}: enter fewer.")
    places = [None] * skip + list(found)
    pages = [places[at : at + paper.most] for at in range(0, len(places), paper.most)]
    return [_page(page, paper, nudge) for page in pages]


def labels_html(
    found: Sequence[Label],
    paper: Paper,
    *,
    skip: int = 0,
    thick: Sequence[str] = (),
    nudge: tuple[float, float] = (0.0, 0.0),
) -> str:
    """The label sheet as one HTML document that prints a page a sheet, without margins.

    On the screen, and not on paper, it says how to print it, shows the edges of the labels, and names the cables that
    are too `thick` for a wrap-round one. Raises as `labels_svg`.
    """
    use = (
        "Fold each around its cable and stick the two halves to each other." if paper.flag
        else "Wrap the printed end on first; the clear end wraps over it."
    )  # fmt: skip
    notes = [
        f"{paper.name}. Print at full size (100 %), without margins; {paper.source}. {TEST_FIRST}",
        f"{WHERE} {use}",
    ]
    if thick:
        notes.append(f"Too thick for this label to wrap around and cover its print: {', '.join(thick)}.")
    return _document("Labels", labels_svg(found, paper, skip=skip, nudge=nudge), paper, notes)


def trial_html(paper: Paper, nudge: tuple[float, float] = (0.0, 0.0)) -> str:
    """One page for plain paper: the edge of every label with its number, and two rulers to measure the scale by."""
    wide, high = paper.page
    parts = [_head(paper)]
    for at in range(paper.most):
        x, y = _corner(paper, at, nudge)
        w, h = paper.label
        parts.append(
            f'<rect x="{x:.2f}" y="{y:.2f}" width="{w:g}" height="{h:g}" fill="none" stroke="#000" stroke-width="0.2"/>'
        )
        parts.append(
            f'<text x="{x + w / 2:.2f}" y="{y + h / 2 + 1:.2f}" font-size="3" text-anchor="middle">{at + 1}</text>'
        )
    parts += _rulers(wide, high)
    notes = [
        f"Test print for {paper.name}. Print at full size (100 %) on plain paper, and measure the rulers: 100 mm.",
        "Hold it against a label sheet at a window. If the frames are off, print the labels with --nudge RIGHT,DOWN "
        "in mm, like --nudge 0.5,-1.",
    ]
    return _document("Test print for labels", ["\n".join([*parts, "</svg>\n"])], paper, notes)


def without_edges(page: str) -> str:
    """A label sheet of which only what is to be read is printed."""
    return re.sub(r'<rect class="edge"[^>]*/>\n?', "", page)


def _rulers(wide: float, high: float) -> list[str]:
    """A ruler across and one down, as long as goes on the page, up to 100 mm."""
    across, down = (min(100.0, (each // 20) * 10) for each in (wide, high))
    x, y = wide / 2 - across / 2, high / 2
    return [
        f'<path d="M{x:.2f} {y:.2f}h{across:g}m0 -2v4m{-across:g} -4v4" fill="none" stroke="#000" stroke-width="0.4"/>',
        f'<text x="{x + 1:.2f}" y="{y - 0.8:.2f}" font-size="2.5">{across:g} mm</text>',
        f'<path d="M{wide / 2:.2f} {high / 2 - down / 2:.2f}v{down:g}m-2 0h4m-4 {-down:g}h4" fill="none" stroke="#000" '
        'stroke-width="0.4"/>',
    ]


def nudged(text: str) -> tuple[float, float]:
    """`0.5,-1`: millimeters right and down. Raises BadValue."""
    if not text:
        return 0.0, 0.0
    try:
        across, down = (float(each) for each in text.split(","))
    except ValueError as error:
        raise BadValue(f"--nudge {quoted(text)} can't be read. Write RIGHT,DOWN in mm, like 0.5,-1.") from error
    if max(abs(across), abs(down)) > MOST_NUDGE_MM:
        raise BadValue(f"--nudge moves by {MOST_NUDGE_MM:g} mm at most. Choose the paper that fits with --paper.")
    return across, down


def _document(title: str, pages: Sequence[str], paper: Paper, notes: Sequence[str]) -> str:
    wide, high = paper.page
    style = (
        f"@page {{ size: {wide}mm {high}mm; margin: 0; }} body {{ margin: 0; }} "
        "svg { display: block; page-break-after: always; } svg:last-of-type { page-break-after: auto; } "
        "p { font: 11pt sans-serif; margin: 0.6em 1em; } @media print { p, .edge { display: none; } }"
    )
    head = "".join(f"<p>{escape(clean(each))}</p>\n" for each in notes)
    return (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">'
        f"<title>{title}</title><style>{style}</style></head><body>\n{head}{''.join(pages)}</body></html>\n"
    )


def too_thick(paper: Paper, outside_mm: float) -> bool:
    """Whether a cable is too thick for a wrap-round label: its clear part would not cover the print once round."""
    return bool(paper.print_high) and outside_mm > paper.thickest_mm


def _head(paper: Paper) -> str:
    wide, high = paper.page
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}" '
        'font-family="sans-serif">'
    )


def _corner(paper: Paper, at: int, nudge: tuple[float, float]) -> tuple[float, float]:
    """The upper left corner of a label, mm from that of the page."""
    row, column = divmod(at, paper.columns)
    return (
        paper.first[0] + column * paper.pitch[0] + nudge[0],
        paper.first[1] + row * paper.pitch[1] + nudge[1],
    )


def _page(page: Sequence[Label | None], paper: Paper, nudge: tuple[float, float]) -> str:
    parts = [_head(paper)]
    for at, label in enumerate(page):
        if label is not None:
            x, y = _corner(paper, at, nudge)
            wide, high = paper.label
            parts.append(
                f'<rect class="edge" x="{x:.2f}" y="{y:.2f}" width="{wide:g}" height="{high:g}" fill="none" '
                'stroke="#bbb" stroke-width="0.1"/>'
            )
            for left, top, across, down in _faces(paper, x, y):
                parts += _face(label, left, top, across, down)
    return "\n".join([*parts, "</svg>\n"])


def _faces(paper: Paper, x: float, y: float) -> list[tuple[float, float, float, float]]:
    """The two places on a label that say all of it: left, top, width and height of each.

    A flag's are its halves, side by side; a wound-round label's lie one below the other, half way round the cable.
    """
    wide, high = paper.label
    if paper.flag:
        return [(x, y, wide / 2, high), (x + wide / 2, y, wide / 2, high)]
    half = paper.print_high / 2
    return [(x, y, wide, half), (x, y + half, wide, half)]


def _face(label: Label, x: float, y: float, wide: float, high: float) -> list[str]:
    """The lines of one face: the tag large, then as many as are read there."""
    margin = min(MARGIN_MM, high * 0.08)
    room, across = high - 2 * margin, wide - 2 * MARGIN_MM
    lines = _lines(label, across)
    # No type is smaller than is read: on a low label what stands last, name and kind, gives way; the tag finds them.
    lines = lines[: max(1, int(room * SET / (SMALLEST_PT * POINT_MM) - (FIRST - 1)))]
    step = room / (len(lines) + FIRST - 1)
    parts, top = [], y + margin
    for number, text in enumerate(lines):
        tall = step * (FIRST if number == 0 else 1.0)
        size = max(SMALLEST_PT * POINT_MM, min(LARGEST_PT * POINT_MM, tall * SET, _fitting(text, across)))
        top += tall
        weight = ' font-weight="bold"' if number == 0 else ""
        parts.append(
            f'<text x="{x + MARGIN_MM:.2f}" y="{top - tall * 0.2:.2f}" font-size="{size:.2f}"{weight}>'
            f"{safe(text, _most(wide))}</text>"
        )
    return parts


def _lines(label: Label, across: float) -> list[str]:
    """What a face says: where it does not go on one line, its end and the other end take one each."""
    way = label.lines[1]
    short = len(way) * CHARACTER * SMALLEST_PT * POINT_MM <= across
    ends = [way] if short else [f"at {label.here}", f"to {label.there}"]
    return [label.tag, *ends, *label.lines[2:]]


def _fitting(text: str, room: float) -> float:
    """Size of type, mm, at which a text goes into a width; not below the smallest that is read."""
    return max(SMALLEST_PT * POINT_MM, room / (max(1, len(text)) * CHARACTER))


def _most(wide: float) -> int:
    """Characters that go on a line in the smallest type."""
    return int((wide - 2 * MARGIN_MM) / (SMALLEST_PT * POINT_MM * CHARACTER))
