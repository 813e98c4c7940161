"""Hatches of a drawing, drawn as lines that end at their rectangle: a pattern would be printed as a picture of itself,
large, slow and blurred."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import chain
from math import ceil, floor

INK, GREY = "#111", "#777"
Rect = tuple[float, float, float, float]
"""Left, top, right, bottom, pixels."""
SHORTEST = 0.05
"""A line that is no longer would be written as a dot, pixels."""


def _steps(low: float, high: float, step: float, start: float = 0.0) -> Iterator[float]:
    """Where a row of marks stands that runs through the whole drawing, so that neighbours are hatched in one run."""
    first, last = ceil((low - start) / step), floor((high - start) / step)
    return (start + at * step for at in range(first, last + 1))


def _line(x1: float, y1: float, x2: float, y2: float) -> str:
    return f"M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}"


def rising(rect: Rect, step: float) -> Iterator[str]:
    """Lines at 45 degrees, upwards to the right, so many px apart: pieces of a path."""
    left, top, right, bottom = rect
    for sum_of in _steps(left + top, right + bottom, step):
        start, end = max(left, sum_of - bottom), min(right, sum_of - top)
        if end - start > SHORTEST:
            yield _line(start, sum_of - start, end, sum_of - end)


def _falling(rect: Rect, step: float) -> Iterator[str]:
    left, top, right, bottom = rect
    for over in _steps(left - bottom, right - top, step):
        start, end = max(left, top + over), min(right, bottom + over)
        if end - start > SHORTEST:
            yield _line(start, start - over, end, end - over)


def _upright(rect: Rect) -> Iterator[str]:
    left, top, right, bottom = rect
    for x in chain(_steps(left, right, 8, 2), _steps(left, right, 8, 5)):
        yield _line(x, top, x, bottom)


def _crossed(rect: Rect) -> Iterator[str]:
    return chain(rising(rect, 6), _falling(rect, 6))


def _dashed(rect: Rect) -> Iterator[str]:
    """Short level dashes, each row shifted against the one before."""
    left, top, right, bottom = rect
    for down, across in ((6.0, 2.0), (2.0, 8.0)):
        for y in _steps(top, bottom, 14, down):
            for x in _steps(left - 5, right, 14, across):
                if (start := max(left, x)) + SHORTEST < (end := min(right, x + 5)):
                    yield _line(start, y, end, y)


def _dotted(rect: Rect) -> Iterator[str]:
    left, top, right, bottom = rect
    reach = DOT_PX / 2
    for y in _steps(top + reach, bottom - reach, 6, 3):
        for x in _steps(left + reach, right - reach, 6, 3):
            yield f"M{x:.1f} {y:.1f}h0"


def _nothing(_rect: Rect) -> Iterator[str]:
    return iter(())


DOT_PX = 1.8
HATCHES: dict[str, tuple[str, Callable[[Rect], Iterator[str]], str, str]] = {
    "stud": ("stud", _upright, f'stroke="{GREY}" stroke-width=".5"', 'stroke-width=".5"'),
    "board": (
        "wall finish", lambda rect: rising(rect, 8), f'stroke="{GREY}" stroke-width=".6"', 'stroke-width=".8"',
    ),
    "openings": (
        "opening", lambda rect: rising(rect, 16), f'stroke="{GREY}" stroke-width=".35"', 'stroke-width="1.8"',
    ),
    "equipment": ("device", _nothing, "", 'stroke-width="1.2" rx="4"'),
    "obstacles": ("obstacle", _crossed, f'stroke="{INK}" stroke-width=".6"', 'stroke-width="1"'),
    "furniture": ("furniture", _nothing, "", 'stroke-width="1" stroke-dasharray="4 3"'),
    "build-outs": ("build-out", _nothing, "", 'stroke-width="1.5" stroke-dasharray="14 3"'),
    "finishes": (
        "finish zone", _dashed, f'stroke="{GREY}" stroke-width=".5"', 'stroke-width=".8" stroke-dasharray="2 2"',
    ),
    "panels": (
        "access panel", _dotted, f'stroke="{INK}" stroke-width="{DOT_PX:g}" stroke-linecap="round"',
        'stroke-width="1.2" stroke-dasharray="7 3"',
    ),
}  # fmt: skip
"""By kind or layer: the word for the legend, the hatch, how its lines are drawn, and the outline."""
COVERS = ("equipment",)
"""Hides what is behind it."""


def hatched(name: str, x: float, y: float, width: float, height: float) -> str:
    """A rectangle by its upper left corner, hatched and outlined as its kind is; its class says which."""
    _, lines, pen, outline = HATCHES[name]
    path = "".join(lines((x, y, x + width, y + height)))
    inside = f'<path d="{path}" fill="none" {pen}/>' if path else ""
    fill = "#fff" if name in COVERS else "none"
    return (
        f'{inside}<rect class="hatch-{name}" x="{x:.1f}" y="{y:.1f}" width="{width:.1f}" height="{height:.1f}" '
        f'fill="{fill}" stroke="{INK}" {outline}/>'
    )
