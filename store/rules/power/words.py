"""Words that every power finding and sheet shares: names, figures, editions, and who has the last word."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import MM_NM, SIXTEENTH_NM, Length, show_length
from store.measure.numbers import show_number
from store.records.whole import Job
from store.rules.core.cautions import CORDS, MAINS, PLANNING
from store.rules.core.wording import named as called

ELECTRICIAN = "A licensed electrician and the local code have the last word."
MAKER = "The maker's instructions win."
INSPECTOR = "Your inspector decides."
CAUTIONS = (
    MAINS,
    "Switch the breaker off and prove the wires dead before a box is opened.",
    CORDS,
    "A heater is never altered, and never recessed unless its maker made it for that.",
    PLANNING,
)
"""What stands on every power screen and sheet."""
METRIC_CODE = "BS 7671:2018"

__all__ = [
    "CAUTIONS",
    "ELECTRICIAN",
    "INSPECTOR",
    "MAKER",
    "METRIC_CODE",
    "all_called",
    "at_most",
    "called",
    "edition",
    "is_us",
    "listed",
    "plain",
    "shown",
    "tape_limit",
    "were",
]


def is_us(job: Job) -> bool:
    """True where the 120 V tables and the National Electrical Code are in force."""
    return job.settings.region == "us"


def edition(job: Job) -> int:
    """The edition of the National Electrical Code that the job is judged by."""
    return int(job.settings.edition)


def listed(words: Iterable[str], most: int = 6) -> str:
    """`a, b and c`; of many, the first few and how many more."""
    each = list(words)
    if len(each) > most:
        each = [*each[:most], f"{len(each) - most} more"]
    return f"{', '.join(each[:-1])} and {each[-1]}" if len(each) > 1 else "".join(each)


def all_called(job: Job, tags: Iterable[str]) -> str:
    """Several things, each by tag and name."""
    return listed(called(job, tag) for tag in tags)


def plain(number: float, places: int = 1) -> str:
    """A number to a few places, without needless noughts: `12.5`, `20`."""
    return show_number(round(number, places))


def shown(length: Length, job: Job) -> str:
    """A length in the job's own units."""
    return show_length(length, job.settings.metric)


def at_most(length: Length, job: Job) -> str:
    """A limit in the job's own units, as `tape_limit` has it."""
    return shown(tape_limit(length, job), job)


def tape_limit(length: Length, job: Job) -> Length:
    """A limit rounded down to what a tape in the job's units shows, so that nothing beyond it is ever allowed."""
    step = MM_NM if job.settings.metric else SIXTEENTH_NM
    return Length(length.nm // step * step, job.settings.metric)


def were(count: int, one: str = "is", many: str = "are") -> str:
    """The verb that suits a count."""
    return one if count == 1 else many
