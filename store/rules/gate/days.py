"""Which days a job can speak of: none to come, and none from long before it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from store.measure.errors import BadValue
from store.records.access import Photo
from store.records.gate import Closing, Passage
from store.records.people import Amount, Step
from store.records.wall import Reading
from store.records.whole import Job
from store.rules.core.wording import date_text

BEFORE_DAYS = 180
"""How long before the first day on record work may have begun: IRC R105.5 lets a permit lapse when nothing is begun
within 180 days of it (from memory). The book may be begun late, but not by more."""
MOST_YEARS = 10
"""No job is older; our own assumption."""


def earliest_day(job: Job) -> date:
    """The earliest day that anything of the job can be of: a while before the first day on record."""
    first = min((day for day in _on_record(job) if day <= job.today), default=job.today)
    return max(first - timedelta(days=BEFORE_DAYS), job.today - timedelta(days=366 * MOST_YEARS))


def _on_record(job: Job) -> Iterator[date]:
    """The days that are noted: of stages, readings, photos, steps and payments."""
    yield from (passage.date for passage in job.of(Passage).values())
    dated: tuple[Reading | Photo | Amount, ...] = (
        *job.of(Reading).values(),
        *job.of(Photo).values(),
        *job.of(Amount).values(),
    )
    yield from (day for one in dated if (day := one.date) is not None)
    yield from (day for step in job.of(Step).values() if (day := step.done) is not None)


def guard_day(job: Job, day: date, of: str) -> None:
    """A day that somebody vouches for has come, and is not from long before the job. Raises BadValue.

    `of` says what is refused: `can't sign off K1/tested`.
    """
    if day > job.today:
        raise BadValue(f"{of}: {date_text(job, day)} is still to come. Enter the day it was done, today at the latest.")
    first = earliest_day(job)
    if day < first:
        raise BadValue(
            f"{of}: {date_text(job, day)} is too early. Enter the day it was done, {date_text(job, first)} or later."
        )


def guard_closing_days(job: Job, closing: Closing) -> None:
    """The days of a sign-off: each can be, and what was inspected was so before it was signed off. Raises BadValue."""
    of = f"can't sign off {closing.tag}"
    for day in (closing.date, closing.inspected):
        if day is not None:
            guard_day(job, day, of)
    if closing.inspected is not None and closing.inspected > closing.date:
        raise BadValue(
            f"{of}: dated before its inspection. It was inspected on {date_text(job, closing.inspected)}: enter "
            "that day or a later one."
        )
