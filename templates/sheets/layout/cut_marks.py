"""Runs that pass through a cut, on paper: a dot for a cable, a ring for a raceway, their tags together beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from store.rules.drawing.cut_runs import WIRING
from store.rules.drawing.elevation import Spot
from templates.sheets.layout.hatches import INK

RUN_PX = 5.0
"""Radius of a raceway; a cable is half as wide."""
APART_PX = 40.0, 9.0
"""Marks farther apart than this, across or up, are named apart."""
MOST_TAGS = 8
"""Of a bundle in one label; the rest is counted."""
Passing = tuple[float, float, Spot]
"""The mark of a run and its place on the paper."""


def run_mark(x: float, y: float, *, raceway: bool, radius: float = RUN_PX, wide: float = 1.5) -> str:
    """The sign of a run that passes through a cut: a dot, or the ring of a raceway."""
    if raceway:
        ring = f'fill="#fff" stroke="{INK}" stroke-width="{wide:g}"'
        return f'<circle class="run" cx="{x:.2f}" cy="{y:.2f}" r="{radius:g}" {ring}/>'
    return f'<circle class="run" cx="{x:.2f}" cy="{y:.2f}" r="{radius / 2:g}" fill="{INK}"/>'


def together(marks: Sequence[Passing], apart: tuple[float, float] = APART_PX) -> list[list[Passing]]:
    """The marks close to one another: those from left to right at about one height; raceways first, under cables."""
    found: list[list[Passing]] = []
    for each in sorted(marks, key=lambda one: (one[0], one[1])):
        near = (
            group for group in found if each[0] - group[-1][0] <= apart[0] and abs(each[1] - group[-1][1]) <= apart[1]
        )
        group = next(near, None)
        if group is None:
            found.append([each])
        else:
            group.append(each)
    return [sorted(group, key=lambda one: WIRING.index(one[2].layer)) for group in found]


def tag_wordings(tags: Sequence[str]) -> Iterator[str]:
    """The tags of a bundle in one label, then shorter."""
    names = list(dict.fromkeys(tags))
    for most in (MOST_TAGS, 3, 1):
        if most == MOST_TAGS or most < len(names):
            kept = names[:most]
            yield " ".join(kept) + (f" +{len(names) - len(kept)}" if len(names) > len(kept) else "")
