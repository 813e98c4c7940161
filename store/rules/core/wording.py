"""Small words of findings and sheets: lengths and dates as the owner reads them, names, lists, words of the region."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date

from store.measure.compare import Compared, compare, floor_number, limit_length, need_length
from store.measure.counts import plural
from store.measure.dates import short_date, show_date, week_date
from store.measure.length import FOOT_NM, MM_NM, SIXTEENTH_NM, Length, kept_length, show_length, show_pair, show_size
from store.measure.numbers import show_number
from store.measure.terms import Concept, regional, term
from store.records.whole import Job

__all__ = [
    "ELECTRICIAN",
    "INSPECTOR",
    "MAKER",
    "all_called",
    "at_least",
    "at_most",
    "compared",
    "date_text",
    "day_in_week",
    "day_short",
    "few_of",
    "kept",
    "listed",
    "local",
    "name_of",
    "named",
    "paired",
    "plain",
    "plural",
    "run_at_most",
    "said",
    "shown",
    "sized",
    "tape_limit",
    "were",
    "word",
]
METRE_NM = 1000 * MM_NM
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


def run_at_most(job: Job, nm: int) -> str:
    """A limit on the run of a cable, rounded down to whole feet, or to tenths of a meter: `180 ft`, `54.8 m`."""
    if job.settings.metric:
        return f"{floor_number(nm / METRE_NM, 1):g} m"
    return f"{nm // FOOT_NM} ft"


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


def date_text(job: Job, day: date) -> str:
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


def sentence(text: str) -> str:
    """A text that begins with a capital letter and ends with a full stop."""
    return f"{text[:1].upper()}{text[1:].removesuffix('.')}."


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


# --- shared by findings of several rooms ---

ELECTRICIAN = "A licensed electrician and the local code decide."


MAKER = "The manufacturer's instructions win."


INSPECTOR = "Your inspector decides."


def few_of(words: Iterable[str], most: int = 6) -> str:
    """`a, b and c`; of many, the first few and how many more."""
    each = list(words)
    if len(each) > most:
        each = [*each[:most], f"{len(each) - most} more"]
    return f"{', '.join(each[:-1])} and {each[-1]}" if len(each) > 1 else "".join(each)


def all_called(job: Job, tags: Iterable[str]) -> str:
    """Several things, each by tag and name."""
    return few_of(named(job, tag) for tag in tags)


def plain(number: float, places: int = 1) -> str:
    """A number to a few places, without needless noughts: `12.5`, `20`."""
    return show_number(round(number, places))


def shown(length: Length, job: Job) -> str:
    """A length in the job's own units."""
    return show_length(length, job.settings.metric)


def tape_limit(length: Length, job: Job) -> Length:
    """A limit rounded down to what a tape in the job's units shows, so that nothing beyond it is ever allowed."""
    step = MM_NM if job.settings.metric else SIXTEENTH_NM
    return Length(length.nm // step * step, job.settings.metric)


def were(count: int, one: str = "is", many: str = "are") -> str:
    """The verb that suits a count."""
    return one if count == 1 else many
