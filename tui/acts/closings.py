"""What signing off changes besides: a cable whose pulling is signed off is pulled, until that is reopened."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from store.book.changes import Change, drop, edit, set_down
from store.records.gate import Closing
from store.records.whole import Job
from store.records.wiring import Cable

PULLED = "pulled"


def closing_changes(job: Job, closings: Iterable[Closing]) -> list[Change]:
    """The closings, and the state of each cable that is pulled with them."""
    changes: list[Change] = []
    for each in closings:
        changes.append(set_down(job, each))
        cable = _cable(job, each)
        if cable is not None and each.outcome == "closed" and cable.state in ("planned", "bought"):
            changes.append(edit(cable, replace(cable, state=PULLED)))
    return changes


def reopening_changes(job: Job, closing: Closing) -> list[Change]:
    """A closing is taken back; a cable that was pulled by it is as it was bought."""
    cable = _cable(job, closing)
    changes: list[Change] = [drop(closing)]
    if cable is not None and closing.outcome == "closed" and cable.state == PULLED:
        changes.append(edit(cable, replace(cable, state="bought")))
    return changes


def _cable(job: Job, closing: Closing) -> Cable | None:
    """The cable whose pulling it is about."""
    tag, _, aspect = closing.tag.partition("/")
    return job.of(Cable).get(tag) if aspect == PULLED else None
