"""Working something out once for a job, however many ask."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

from store.records.whole import Job

T = TypeVar("T")


def once(function: Callable[[Job], T]) -> Callable[[Job], T]:
    """Keep the last answer of a function of the job; a job never changes, so the same job has the same answer."""
    kept: list[tuple[Job, T]] = []

    @wraps(function)
    def asked(job: Job) -> T:
        if not kept or kept[0][0] is not job:
            kept[:] = [(job, function(job))]
        return kept[0][1]

    return asked
