"""The coats of a drywall finish as steps, each with the days that it dries; and whether the plan leaves them."""

from __future__ import annotations

import msgspec

from store.records.field import Ref
from store.records.people import Step
from store.records.whole import Job, serial_of
from store.rules.build.boards import Boards, boards
from store.rules.core.memo import once

COAT_DAYS = 1.0
"""Working days to put one coat on a room's wall: our own assumption; the crew says."""


class Plan(msgspec.Struct, frozen=True):
    """What the coats need, and what the steps of the drywall leave."""

    wall: str
    coats: tuple[str, ...]
    dry_days: int | None
    """Of one coat; None where no coat should go on in such air."""
    steps: tuple[str, ...]
    has_days: float
    """Working and waiting days of these steps."""

    @property
    def needs_days(self) -> float | None:
        """A day to hang, and for each coat the days that it dries."""
        return None if self.dry_days is None else 1 + len(self.coats) * self.dry_days


@once
def coat_plan(job: Job) -> Plan | None:
    """For the wall with the most coats among those that get drywall; None where there is none."""
    wanted = [one for one in boards(job).values() if one.boarded.cuts]
    most: Boards | None = max(wanted, key=lambda one: len(one.coats), default=None)
    if most is None:
        return None
    steps = [one for one in job.of(Step).values() if one.stage == "Drywall"]
    days = sum(one.days + one.wait for one in steps)
    return Plan(most.wall.tag, most.coats, most.coat_days, tuple(one.tag for one in steps), days)


def coat_steps(job: Job) -> list[Step]:
    """The steps of the coats that are not on the list yet, one after the other, after the last of the drywall."""
    plan = coat_plan(job)
    if plan is None or plan.dry_days is None:
        return []
    there = {one.what for one in job.of(Step).values()}
    last = job.of(Step)[plan.steps[-1]] if plan.steps else None
    number = max((serial_of("step", tag) for tag in (*job.of(Step), *job.marks) if tag[:1] == Step.letter), default=0)
    made: list[Step] = []
    for at, coat in enumerate(plan.coats, 1):
        what = f"Coat {at}: {coat}"
        if what in there:
            continue
        before = made[-1].tag if made else last.tag if last else ""
        number += 1
        made.append(
            Step(
                tag=f"{Step.letter}{number}",
                what=what,
                stage="Drywall",
                days=COAT_DAYS,
                wait=plan.dry_days,
                after=(Ref(before),) if before else (),
                who=last.who if last else Ref(""),
            )
        )
    return made
