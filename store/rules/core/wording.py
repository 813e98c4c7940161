"""Small words of findings and sheets: lengths and dates as the owner reads them, names, lists, words of the region."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date

from store.measure.compare import Compared, compare, limit_length, need_length
from store.measure.counts import plural
from store.measure.dates import short_date, show_date, week_date
from store.measure.length import Length, kept_length, show_length, show_pair, show_size
from store.measure.terms import Concept, regional, term
from store.records.whole import Job

__all__ = [
    "at_least",
    "at_most",
    "compared",
    "dated",
    "day_in_week",
    "day_short",
    "kept",
    "listed",
    "local",
    "name_of",
    "named",
    "paired",
    "plural",
    "said",
    "sized",
    "word",
]
_TAG = re.compile(r"\b[A-Z]\d+\b")

# --- lengths ---


def said(job: Job, nm: int) -> str:
    """A place, a run or the size of a wall, nanometers, as this job's owner reads it: `8'-0 1/16"`."""
    return show_length(Length(nm), job.settings.metric)


def sized(job: Job, nm: int) -> str:
    """The size or depth of a thing, or a clearance, nanometers: `17-1/8"`."""
    return show_size(Length(nm), job.settings.metric)


def paired(job: Job, width_nm: int, height_nm: int) -> str:
    """Width by height, nanometers: `12" x 10"`."""
    return show_pair(Length(width_nm), Length(height_nm), job.settings.metric)


def at_most(job: Job, nm: int) -> str:
    """A limit on the size of a thing, rounded down to what a tape shows."""
    return limit_length(Length(nm), job.settings.metric)


def at_least(job: Job, nm: int) -> str:
    """A need, rounded up to what a tape shows."""
    return need_length(Length(nm), job.settings.metric)


def compared(job: Job, have_nm: int, need_nm: int, *, size: bool = True) -> Compared:
    """What there is, what is needed and what is missing, rounded so that they never contradict the verdict."""
    return compare(Length(have_nm), Length(need_nm), job.settings.metric, size=size)


def kept(job: Job, nm: int) -> str:
    """A length in the form that answers and sign-offs are compared by; it never changes with the screen."""
    return kept_length(Length(nm), job.settings.metric)


# --- dates ---


def dated(job: Job, day: date) -> str:
    """`Dec 9, 2026`, or `9 Dec 2026`."""
    return show_date(day, job.manner.day_first)


def day_short(job: Job, day: date) -> str:
    """For a table: `Dec 9`, or `9 Dec`."""
    return short_date(day, job.today, job.manner.day_first)


def day_in_week(job: Job, day: date) -> str:
    """For a schedule: `Mon Dec 28`, or `Mon 28 Dec`."""
    return week_date(day, job.today, job.manner.day_first)


# --- words ---


def word(job: Job, key: Concept) -> str:
    """The word of a concept in the job's region."""
    return term(key, job.settings.region != "us")


def local(job: Job, text: str) -> str:
    """A text of the program in the words of the job's region; names of things in it stay as typed."""
    if job.settings.region == "us" or not text:
        return text
    return regional(text, True, {name_of(job, each) for each in _TAG.findall(text)})


def listed(words: Sequence[str]) -> str:
    """`a`, `a and b`, or `a, b and c`."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def name_of(job: Job, tag: str) -> str:
    """The name of a record; what it says, where its kind has no name; empty for none."""
    record = job.get(tag)
    return str(getattr(record, "name", "") or getattr(record, "what", "")) if record is not None else ""


def named(job: Job, tag: str) -> str:
    """`N2 Fireplace`: a tag, with the name of its record where there is one."""
    name = getattr(job.get(tag), "name", "")
    return f"{tag} {name}" if name else tag
