"""The tape sheet on paper: Markdown that reads as plain text, and one HTML page that needs nothing else."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from store.measure.length import Length, show_length
from store.measure.terms import regional
from store.measure.text import clean
from store.rules.drawing.tape_marks import TapeRow, TapeSheet
from templates.sheets.layout.lying import LYING

HEADINGS = (
    "tag", "name", "left", "right", "bottom", "top", "bottom from line", "top from line",
    "center across", "center up", "both diagonals",
)  # fmt: skip
_MARKS = str.maketrans({sign: f"\\{sign}" for sign in "\\`*_{}[]<>#|~"})
_STYLE = """
body { font: 11pt/1.4 sans-serif; margin: 1.5cm; color: #000; background: #fff; }
table { border-collapse: collapse; margin: 0.5em 0 1em; width: 100%; }
th, td { border: 1px solid #555; padding: 0.2em 0.5em; text-align: right; }
th { background: #eee; } td { white-space: nowrap; } .t { text-align: left; }
td.t { white-space: normal; overflow-wrap: anywhere; min-width: 6em; } 
td.t:first-child { min-width: 2em; overflow-wrap: normal; }
h1, h2, p, li { overflow-wrap: anywhere; }
.caution { border-left: 4px solid #000; padding-left: 0.8em; }
@media print { body { margin: 0; font-size: 9pt; } table { font-size: 8pt; } th, td { padding: 0.2em 0.2em; }
  td.t { min-width: 5em; } td.t:first-child { min-width: 2em; }
  tr, .caution { page-break-inside: avoid; } }
"""


BROKEN = ' style="page-break-before: always"'
"""Of the second wall and on: a page of its own."""


def tape_markdown(sheet: TapeSheet) -> str:
    """The sheet in Markdown. What people typed stays text: its marks are escaped, control characters made visible."""
    parts = [
        f"# Mock-up sheet: {_plain(sheet.wall_name)} ({_plain(sheet.wall)})",
        _plain(sheet.job),
        "\n".join(f"> {each}" for each in sheet.cautions),
        "## Before you start",
        "\n".join(f"{at}. {each}" for at, each in enumerate(_before(sheet), 1)),
        "## Outlines, from left to right",
        _table(_headings(sheet), [[_plain(cell) for cell in _cells(sheet, row)] for row in sheet.rows], 2),
        "## Along each level, tape kept at the marked corner",
        _table(("level", "from line", "marks"), [[*_level(sheet, at)] for at in range(len(sheet.lines))], 0),
    ]
    for side in sheet.sides:
        parts += [
            f"## On the {_plain(side.name)}: {side.note}",
            _table(HEADINGS, [[_plain(cell) for cell in _cells(sheet, row)] for row in side.rows], 2),
        ]
    if sheet.left_out:
        parts += ["## Not on this sheet", "\n".join(f"- {_plain(each)}" for each in sheet.left_out)]
    return "\n\n".join(parts) + "\n"


def tape_html(sheet: TapeSheet, day: str = "", drawing: str = "") -> str:
    """The sheet as one HTML page, everything that people typed escaped; with the day and a `drawing` of the wall."""
    return tape_pages([(sheet, drawing)], day)


def tape_pages(sheets: Sequence[tuple[TapeSheet, str]], day: str = "") -> str:
    """The sheets of several walls as one HTML page, each with its drawing and beginning on paper of its own."""
    titles = [f"{sheet.wall_name} ({sheet.wall})" for sheet, _ in sheets]
    title = escape(clean(f"Mock-up sheet: {', '.join(titles)}"))
    lying = LYING if any(drawing for _, drawing in sheets) else ""
    return "\n".join(
        [
            '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>{title}</title><style>{_STYLE}{lying}</style></head><body>",
            *(_body(sheet, day, drawing, first=not at) for at, (sheet, drawing) in enumerate(sheets)),
            "</body></html>\n",
        ]
    )


def _body(sheet: TapeSheet, day: str, drawing: str, *, first: bool) -> str:
    """All about one wall."""
    title = escape(clean(f"Mock-up sheet: {sheet.wall_name} ({sheet.wall})"))
    rows = [_cells(sheet, row) for row in sheet.rows]
    levels = [_level(sheet, at, plain=False) for at in range(len(sheet.lines))]
    left_out = "".join(f"<li>{escape(clean(each))}</li>" for each in sheet.left_out)
    return "\n".join(
        [
            f"<h1{'' if first else BROKEN}>{title}</h1>",
            f"<p>{escape(clean(', '.join(each for each in (sheet.job, day) if each)))}</p>",
            *(f'<p class="caution">{escape(each)}</p>' for each in sheet.cautions),
            "<h2>Before you start</h2><ol>",
            *(f"<li>{escape(each)}</li>" for each in _before(sheet)),
            "</ol><h2>Outlines, from left to right</h2>",
            _html_table((*_headings(sheet), "done"), [[*cells, "☐"] for cells in rows], 2),
            "<h2>Along each level, tape kept at the marked corner</h2>",
            _html_table(("level", "from line", "marks"), levels, 3),
            *(
                f"<h2>On the {escape(clean(side.name))}: {side.note}</h2>"
                + _html_table((*HEADINGS, "done"), [[*_cells(sheet, row), "☐"] for row in side.rows], 2)
                for side in sheet.sides
            ),
            f"<h2>Not on this sheet</h2><ul>{left_out}</ul>" if left_out else "",
            drawing,
        ]
    )


def _headings(sheet: TapeSheet) -> tuple[str, ...]:
    return tuple(regional(each, sheet.metric) for each in HEADINGS)


def _before(sheet: TapeSheet) -> tuple[str, ...]:
    """What to do first, and how to read the sheet."""
    line = _length(sheet, sheet.level_line_nm)
    finest = "1 mm" if sheet.metric else "1/16 in"
    return (
        f"Mark the left corner of the wall at the finished floor. Mark one level line across the wall, {line} above "
        "that mark.",
        "Keep the end of the tape in the marked corner and walk across once. Left and right are from that corner.",
        "Bottom and top are above the mark at the floor; from line: + above the level line, - below it.",
        "Read both diagonals of each outline: when both show the figure of the sheet, it is square.",
        f"Tape: {_length(sheet, sheet.tape_nm)} around all outlines, {sheet.rolls} "
        f"{'roll' if sheet.rolls == 1 else 'rolls'} of {'55 m' if sheet.metric else '60 yd'} with a tenth to spare.",
        f"Figures are to {finest}; ~ marks one that was rounded.",
        "Then sit, look, walk past, open what opens; leave it for a few days, and write down what you move and why.",
    )


def _cells(sheet: TapeSheet, row: TapeRow) -> list[str]:
    lengths = (row.left_nm, row.right_nm, row.bottom_nm, row.top_nm)
    return [
        row.tag,
        row.name,
        *(_length(sheet, each) for each in lengths),
        _signed(sheet, row.line_bottom_nm),
        _signed(sheet, row.line_top_nm),
        *(_length(sheet, each) for each in (row.centre_x_nm, row.centre_y_nm, row.diagonal_nm)),
    ]


def _level(sheet: TapeSheet, at: int, plain: bool = True) -> list[str]:
    line = sheet.lines[at]
    stops = [
        f"{_length(sheet, stop.at_nm)} ({', '.join(f'{tag} {edge}' for tag, edge in stop.edges)})"
        for stop in line.stops
    ]
    cells = [_length(sheet, line.level_nm), _signed(sheet, line.level_nm - sheet.level_line_nm), "; ".join(stops)]
    return [_plain(each) for each in cells] if plain else cells


def _length(sheet: TapeSheet, nm: int) -> str:
    return show_length(Length(nm), sheet.metric)


def _signed(sheet: TapeSheet, nm: int) -> str:
    return f"+{_length(sheet, nm)}" if nm > 0 else _length(sheet, nm)


def _plain(text: str) -> str:
    """Text that Markdown does not obey. A `~` of a rounded figure stays readable behind its backslash."""
    return clean(text).translate(_MARKS)


def _table(headings: Sequence[str], rows: Sequence[Sequence[str]], left: int) -> str:
    """A table of even columns, so that the text reads as it is."""
    widths = [
        max(len(heading), *(len(row[at]) for row in rows), 3) if rows else len(heading)
        for at, heading in enumerate(headings)
    ]
    flush = [at < left or left == 0 for at in range(len(headings))]

    def line(cells: Sequence[str]) -> str:
        padded = (
            cell.ljust(width) if to_left else cell.rjust(width)
            for cell, width, to_left in zip(cells, widths, flush, strict=True)
        )
        return f"| {' | '.join(padded)} |"

    rule = "|".join(
        f" {'-' * width} " if to_left else f" {'-' * (width - 1)}: "
        for width, to_left in zip(widths, flush, strict=True)
    )
    return "\n".join([line(headings), f"|{rule}|", *(line(row) for row in rows)])


def _html_table(headings: Sequence[str], rows: Sequence[Sequence[str]], left: int) -> str:
    def cell(mark: str, at: int, text: str) -> str:
        flush = ' class="t"' if at < left else ""
        return f"<{mark}{flush}>{escape(clean(text))}</{mark}>"

    head = "".join(cell("th", at, each) for at, each in enumerate(headings))
    body = "".join(f"<tr>{''.join(cell('td', at, each) for at, each in enumerate(row))}</tr>\n" for row in rows)
    return f"<table><thead><tr>{head}</tr></thead><tbody>\n{body}</tbody></table>"
