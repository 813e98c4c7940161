"""Small words of findings and sheets: lengths as the owner writes them, and lists."""

from __future__ import annotations

from collections.abc import Sequence

from store.measure.length import Length, show_length
from store.records.whole import Job


def said(job: Job, nm: int) -> str:
    """A length in nanometres as this job's owner reads it."""
    return show_length(Length(nm), job.settings.metric)


def listed(words: Sequence[str]) -> str:
    """`a`, `a and b`, or `a, b and c`."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def plural(count: int, one: str) -> str:
    """`1 stud`, `2 studs`."""
    return f"{count} {one}" if count == 1 else f"{count} {one}s"


def named(job: Job, tag: str) -> str:
    """`N2 (Fireplace)`: a tag, with the name of its record where there is one."""
    name = getattr(job.get(tag), "name", "")
    return f"{tag} ({name})" if name else tag
