"""The way out of what holds a stage that may be passed for a reason: what to do, and the place where it is done."""

from __future__ import annotations

from store.records.people import Stage
from store.records.wall import Reading
from store.records.whole import Job
from store.rules.agenda.due import Place
from store.rules.core.proposed import proposals
from store.rules.gate.gate import Hold, Standing
from store.rules.gate.mock_up import AGREED

LATE: tuple[Stage, ...] = ("Hook-up", "In use")
"""Stages for which equipment has to be there; for those before, its sizes."""


def way_out(job: Job, now: Standing, hold: Hold) -> tuple[str, Place | None]:
    """What to do about a hold, and where; no place where there is none to lead to."""
    tag = hold.key.partition("/")[0]
    if hold.key == AGREED:
        return "Mark it full size. Enter, then y = agreed", Place("openings")
    if tag == "walls":
        return "a = add the wall", Place("readings")
    if hold.key == "proposed":
        return _of_proposals(job, now)
    if "/" in hold.key:
        return "a = add a reading", Place("readings", tag)
    where = Place("plan", tag) if job.get(tag) is not None else None
    if now.next in LATE:
        return "Space = ordered, then owned", where
    return "Enter the manufacturer's sizes" if tag.startswith("E") else "Enter it", where


def _of_proposals(job: Job, now: Standing) -> tuple[str, Place]:
    """Sizes are measured; the rest is agreed to from its problem."""
    if now.next == "Design":
        first = next((tag for tag in proposals(job) if tag in job.of(Reading)), "")
        return "A = enter what you read", Place("readings", first)
    return "Change it, or F = agree to it", Place("problems", "", "proposed")
