"""The list of a cabinet for the carpenter, in words."""

from __future__ import annotations

from collections.abc import Iterator

from store.records.whole import Job
from store.rules.build.cabinets import Cabinet
from store.rules.core.amounts import heavy
from store.rules.core.wording import sized


def cabinet_lines(job: Job, one: Cabinet) -> Iterator[str]:
    """Boards, doors, drawer and hardware, with sizes."""
    for name, long, wide, count in one.boards:
        yield f"{count} x {name}: {sized(job, long)} x {sized(job, wide)}"
    if one.door is not None:
        size = f"{sized(job, one.door.width_nm)} x {sized(job, one.door.height_nm)}"
        yield f"{one.leaves} x door, {one.opening.door_laid}: {size}, {heavy(job, one.door_lb)} each"
    if one.drawer_nm is not None:
        yield f"drawer box {sized(job, one.drawer_nm)} wide on side-mount slides"
    yield from (f"{count} x {what}" for what, count in one.hardware)
