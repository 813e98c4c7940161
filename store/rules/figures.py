"""Every computed figure of a job, by tag: what `studbook figures` prints and other programs may check."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from store.measure.length import Length, show_length
from store.records.whole import Job
from store.rules.families import import_families
from store.rules.once import once

Figure = tuple[str, str, Any]
"""Tag, name, value: a Length, a number, a text, or a list of texts."""
Source = Callable[[Job], Iterable[Figure]]
_SOURCES: list[Source] = []


def figures_of(function: Source) -> Source:
    """Mark a function that works out figures."""
    _SOURCES.append(function)
    return function


@once
def figures(job: Job) -> dict[str, dict[str, Any]]:
    """Every figure, by tag and name, lengths as they are."""
    import_families("_figures")
    found: dict[str, dict[str, Any]] = {}
    for source in _SOURCES:
        for tag, name, value in source(job):
            found.setdefault(tag, {})[name] = value
    return found


def plain(found: dict[str, dict[str, Any]], metric: bool) -> dict[str, dict[str, Any]]:
    """Figures as JSON has them: a length both as text and, under `name_mm`, in millimetres."""
    out: dict[str, dict[str, Any]] = {}
    for tag, named in found.items():
        for name, value in named.items():
            row = out.setdefault(tag, {})
            if isinstance(value, Length):
                row[name] = show_length(value, metric)
                row[f"{name}_mm"] = value.mm
            else:
                row[name] = value
    return out
