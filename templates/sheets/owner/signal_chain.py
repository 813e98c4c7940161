"""The signal chain on paper: the same tree as plain text, as one HTML page and as an SVG picture."""

from __future__ import annotations

from html import escape

from store.measure.text import clean
from store.records.whole import Job
from store.rules.signal.tree import Branch, signal_tree, tree_lines
from templates.sheets.layout.marks import safe

LINE_PX, STEP_PX, EDGE_PX, TEXT_PX = 26.0, 28.0, 24.0, 14.0
LONGEST = 90
"""Characters of a line in the picture; the rest is cut."""
_STYLE = """
body { font: 11pt/1.4 sans-serif; margin: 1.5cm; color: #000; background: #fff; }
ul { list-style: none; border-left: 1px solid #555; padding-left: 1.2em; } body > ul { border: 0; padding: 0; }
body { overflow-wrap: anywhere; } li { break-inside: avoid; } @media print { body { margin: 0; } }
"""


def signal_text(job: Job) -> str:
    """The tree as plain text."""
    lines = tree_lines(signal_tree(job)) or ["No device with ports is on the list yet."]
    return "\n".join([f"Signal chain: {clean(job.settings.name)}", "", *(clean(each) for each in lines)]) + "\n"


def signal_html(job: Job) -> str:
    """The tree as one HTML page of lists within lists."""
    title = escape(clean(f"Signal chain: {job.settings.name}"))
    return (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">'
        f"<title>{title}</title><style>{_STYLE}</style></head><body><h1>{title}</h1>\n"
        f"{_list(signal_tree(job))}</body></html>\n"
    )


def _list(branches: tuple[Branch, ...]) -> str:
    rows = "".join(f"<li>{escape(clean(each.text))}{_list(each.under)}</li>\n" for each in branches)
    return f"<ul>\n{rows}</ul>" if rows else ""


def signal_svg(job: Job) -> str:
    """The tree as an SVG picture: a line to each device from the one it is joined to."""
    rows: list[tuple[int, str]] = []
    joints: list[tuple[int, int, int]] = []
    _lay(signal_tree(job), 0, None, rows, joints)
    deepest = max((depth for depth, _ in rows), default=0)
    longest = max((min(len(text), LONGEST) for _, text in rows), default=20)
    width = 2 * EDGE_PX + deepest * STEP_PX + longest * TEXT_PX * 0.62
    height = 2 * EDGE_PX + (len(rows) + 1) * LINE_PX
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0f} {height:.0f}" width="{width:.0f}" '
        f'height="{height:.0f}" font-family="sans-serif" font-size="{TEXT_PX:g}">',
        f'<rect width="100%" height="100%" fill="#fff"/><title>{safe(f"Signal chain: {job.settings.name}")}</title>',
    ]
    for depth, top, row in joints:
        x, y = EDGE_PX + depth * STEP_PX + 6, EDGE_PX + (row + 1) * LINE_PX - 5
        start = EDGE_PX + (top + 1) * LINE_PX + 4
        parts.append(f'<path d="M{x:.1f} {start:.1f}V{y:.1f}H{x + STEP_PX - 10:.1f}" fill="none" stroke="#444"/>')
    for row, (depth, text) in enumerate(rows):
        weight = ' font-weight="bold"' if depth == 0 else ""
        x, y = EDGE_PX + depth * STEP_PX, EDGE_PX + (row + 1) * LINE_PX
        parts.append(f'<text x="{x:.1f}" y="{y:.1f}"{weight}>{safe(text, LONGEST)}</text>')
    return "\n".join([*parts, "</svg>\n"])


def _lay(
    branches: tuple[Branch, ...],
    depth: int,
    above: int | None,
    rows: list[tuple[int, str]],
    joints: list[tuple[int, int, int]],
) -> None:
    for each in branches:
        row = len(rows)
        rows.append((depth, each.text))
        if above is not None:
            joints.append((depth - 1, above, row))
        _lay(each.under, depth + 1, row, rows, joints)
