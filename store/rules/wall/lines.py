"""The floor line and the ceiling line of each wall: heights along it as typed, or level where none are."""

from __future__ import annotations

from collections.abc import Sequence

from store.measure.errors import BadValue
from store.measure.length import parse_length
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.core.keyed import of_each
from store.rules.wall.readings import sizes
from store.trade.measured.profile import Profile, level, profile


def read_height(text: str, metric: bool) -> tuple[int, int] | None:
    """A place along a wall and the height there, typed as `6'/8'`; the height may be below zero (`12'/-1/2`).

    None when it cannot be read as one place and one height and no other.
    """
    parts = text.split("/")
    found = []
    for cut in range(1, len(parts)):
        try:
            across = parse_length("/".join(parts[:cut]), metric)
            up = parse_length("/".join(parts[cut:]), metric, signed=True)
        except BadValue:
            continue
        found.append((across.nm, up.nm))
    return found[0] if len(found) == 1 else None


def bad_heights(texts: Sequence[str], metric: bool) -> list[str]:
    """The heights of a line that do not say one place and one height."""
    return [text for text in texts if read_height(text, metric) is None]


def _line(texts: Sequence[str], metric: bool) -> Profile | None:
    points = [point for text in texts if (point := read_height(text, metric)) is not None]
    return profile(points) if points else None


@of_each(Wall)
def floors(job: Job, wall: Wall) -> Profile | None:
    """The floor line of each wall over floor zero; level where none is entered."""
    return _line(wall.floor_line, job.settings.metric) or level(0)


@of_each(Wall)
def ceilings(job: Job, wall: Wall) -> Profile | None:
    """The ceiling line of each wall; level at its least height where none is entered, None while no height is known."""
    typed = _line(wall.ceiling_line, job.settings.metric)
    if typed is not None:
        return typed
    read = sizes(job).get((wall.tag, "height"))
    return level(read.least.nm) if read is not None else None
