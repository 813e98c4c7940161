"""Dimension chains from one datum: every stop says how far it is from the left corner, or from the finished floor.

Where stops are closer than their texts are high, the texts are moved apart and a kinked line leads to each.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec

from templates.sheets.drawing.ink import TEXT, THIN, line, path, wide, words

PITCH = TEXT * 1.12
"""The least between two texts, mm."""
LEAD, KINK, GAP = 1.5, 3.5, 0.8
"""The straight part at the wall, the sloping part, and the space before the text, mm."""


class Stop(msgspec.Struct, frozen=True):
    """One place on a chain."""

    at_nm: int
    text: str


def merged(stops: Iterable[tuple[int, str, str]]) -> tuple[Stop, ...]:
    """Stops at one place become one: (place, what it reads, tag) gives `4'-2"  B3 B7`."""
    found: dict[tuple[int, str], list[str]] = {}
    for at, reads, tag in stops:
        tags = found.setdefault((at, reads), [])
        if tag and tag not in tags:
            tags.append(tag)
    return tuple(Stop(at, f"{reads}  {' '.join(tags)}".strip()) for (at, reads), tags in sorted(found.items()))


def room(stops: Sequence[Stop]) -> float:
    """What a chain needs away from the wall, mm; nothing for none."""
    return LEAD + KINK + GAP + max(wide(each.text) for each in stops) if stops else 0.0


def apart(places: Sequence[float], least: float, low: float, high: float) -> list[float]:
    """Places in their order moved as little as needed to be `least` apart between two limits.

    Where they do not all go between the limits, they are spaced evenly beyond the upper one.
    """
    moved: list[float] = []
    for place in places:
        moved.append(max(place, moved[-1] + least if moved else low))
    limit = max(high, low + least * (len(places) - 1))
    for number in range(len(moved) - 1, -1, -1):
        moved[number] = min(moved[number], limit)
        limit = moved[number] - least
    # Groups that were pushed one way only are brought back to the middle of where they want to be.
    start = 0
    while start < len(moved):
        end = start
        while end + 1 < len(moved) and moved[end + 1] - moved[end] <= least + 1e-9:
            end += 1
        wanted = sum(places[start : end + 1]) / (end - start + 1)
        shift = wanted - (moved[start] + moved[end]) / 2
        under = (moved[start - 1] + least if start else low) - moved[start]
        over = (moved[end + 1] - least if end + 1 < len(moved) else max(high, moved[end])) - moved[end]
        shift = min(max(shift, under), over)
        for number in range(start, end + 1):
            moved[number] += shift
        start = end + 1
    return moved


def across(stops: Sequence[Stop], places: Sequence[float], edge: float, away: int, limits: tuple[float, float]) -> str:
    """A chain above (`away` -1) or below (1) the wall: `places` are x on paper, `edge` the y where it begins."""
    parts, at = [], apart(places, PITCH, *limits)
    end = edge + away * (LEAD + KINK)
    for stop, x, to in zip(stops, places, at, strict=True):
        parts.append(path([(x, edge), (x, edge + away * LEAD), (to, end)], THIN))
        start = end + away * GAP
        parts.append(words(to + TEXT * 0.35, start, stop.text, anchor="start" if away < 0 else "end", turn=-90))
    return "".join(parts)


def up(stops: Sequence[Stop], places: Sequence[float], edge: float, away: int, limits: tuple[float, float]) -> str:
    """A chain at the left (`away` -1) or the right (1): `places` are y on paper, upwards smaller."""
    turned = [-each for each in places]
    at = [-each for each in apart(turned, PITCH, -limits[1], -limits[0])]
    parts, end = [], edge + away * (LEAD + KINK)
    for stop, y, to in zip(stops, places, at, strict=True):
        parts.append(path([(edge, y), (edge + away * LEAD, y), (end, to)], THIN))
        parts.append(words(end + away * GAP, to + TEXT * 0.35, stop.text, anchor="end" if away < 0 else "start"))
    return "".join(parts)


def datum(x: float, y: float) -> str:
    """The sign of the datum: left corner, finished floor."""
    return (
        f'<circle cx="{x:.2f}" cy="{y:.2f}" r="1.6" fill="#fff" stroke="#000" stroke-width="0.25"/>'
        f'<path d="M{x:.2f} {y:.2f}h1.6a1.6 1.6 0 0 0 -1.6 -1.6zM{x:.2f} {y:.2f}h-1.6a1.6 1.6 0 0 0 1.6 1.6z"/>'
        + line(x - 2.4, y, x + 2.4, y, THIN)
        + line(x, y - 2.4, x, y + 2.4, THIN)
    )
