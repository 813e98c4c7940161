"""A change of framing dates itself: once work is done in the wall, whoever changes its studs changes the wall."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from store.book.changes import Doc, Step
from store.records.base import from_doc
from store.records.gate import Closing, Passage
from store.records.wall import BuildOut, Wall
from store.records.whole import Job

FRAMING = (
    "stud_width", "stud_depth", "spacing", "first_stud", "odd_studs", "missing_studs", "framing", "top_plates",
)  # fmt: skip
"""What says how a wall is framed."""


def dated(steps: Sequence[Step], job: Job, docs: Mapping[str, Mapping[str, Doc]]) -> list[Step]:
    """The steps of an action, with today as the day on which each wall's framing changed that they change.

    Only once something of the wall was signed off, or the job is at Rough-in: before that a figure is entered, not a
    wall rebuilt. A day that the action itself enters stays.
    """
    walls = {tag for step in steps for tag in _changed(step) if _built(job, tag)}
    if not walls:
        return list(steps)
    found = [_with_day(step, job) if step.kind == Wall.kind and step.tag in walls else step for step in steps]
    there = {step.tag for step in steps if step.kind == Wall.kind}
    for tag in sorted(walls - there):
        doc = docs.get(Wall.kind, {}).get(tag)
        if doc is not None:
            found.append(_with_day(Step(Wall.kind, tag, doc, doc), job))
    return found


def _changed(step: Step) -> set[str]:
    """The walls whose framing a step changes."""
    if step.kind == Wall.kind and step.before is not None and step.after is not None:
        before, after = from_doc(step.before, Wall), from_doc(step.after, Wall)
        framed = any(getattr(before, key) != getattr(after, key) for key in FRAMING)
        return {step.tag} if framed and before.framed == after.framed else set()
    if step.kind == BuildOut.kind:
        versions = [from_doc(doc, BuildOut) for doc in (step.before, step.after) if doc is not None]
        shapes = {tuple(getattr(each, key) for key in _SHAPE) for each in versions}
        same = len(versions) == 2 and len(shapes) == 1
        return set() if same else {each.wall for each in versions if each.work == "framing"}
    return set()


_SHAPE = tuple(key for key in BuildOut.__struct_fields__ if key not in ("tag", "name", "notes"))


def _built(job: Job, tag: str) -> bool:
    signed = any(key.startswith(f"{tag}/") for key in job.of(Closing))
    return tag in job.of(Wall) and (signed or any(each.stage == "Rough-in" for each in job.of(Passage).values()))


def _with_day(step: Step, job: Job) -> Step:
    after: dict[str, Any] = {**(step.after or {}), "framed": job.today.isoformat()}
    return Step(step.kind, step.tag, step.before, after)
