"""The guided change of a thing through a panel, as one action: retired, replaced, logged."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from store.book.changes import Change, add, edit
from store.records.base import Record
from store.records.whole import Job
from store.rules.service.replacement import Exchange, exchange


def changes_of(job: Job, plan: Exchange) -> list[Change]:
    """The changes of an exchange: the new thing first, so that everything else may name it."""
    old = job.get(plan.old.tag)
    changes: list[Change] = [add(plan.new, keep_tag=True)]
    changes += [edit(now, each) for each in plan.following if (now := job.get(each.tag)) is not None]
    if old is not None:
        changes.append(edit(old, plan.old))
    if plan.visit is not None:
        changes.append(add(plan.visit))
    return changes


def retire(old_tag: str, new: Record, who: str, why: str = "", found: str = "") -> Callable[[Job], Sequence[Change]]:
    """The action that puts a new thing in the place of an old one, worked out on the newest job.

    Raises BadValue, when it is done, as `exchange` does.
    """

    def work_out(job: Job) -> Sequence[Change]:
        return changes_of(job, exchange(job, old_tag, new, who, why, found))

    return work_out
