"""Findings about the mock-up: what was moved after it was agreed."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.gate import Closing
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.wording import date_text, listed
from store.rules.gate.mock_up import AGREED, agreement, moves, why_not_agreed


@rule
def mock_up_stale(job: Job) -> Iterable[Finding]:
    """The plan is not any more what was marked on the wall and agreed."""
    closing = job.of(Closing).get(AGREED)
    now = agreement(job).vouches
    if closing is None or closing.vouches == now or not why_not_agreed(job):
        return
    changed = tuple(tag for tag in {**closing.vouches, **now} if closing.vouches.get(tag) != now.get(tag))
    there = tuple(tag for tag in changed if job.get(tag) is not None)
    words = list(moves(job, closing.vouches, now))
    yield Finding(
        "mock_up_stale",
        "look",
        there,
        "Mock-up out of date",
        "Move the tape, look again from the seat, and agree again.",
        "Owner's word",
        {tag: now.get(tag, "gone") for tag in changed},
        why=(
            f"Since {closing.by} agreed on {date_text(job, closing.date)}: "
            f"{listed(words[:6])}{f' and {len(words) - 6} more' if len(words) > 6 else ''}."
        ),
    )
