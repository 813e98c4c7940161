"""What gets into the room: by its doors, by the corner on the way to them, and by what is entered."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from store.measure.length import FOOT_NM, INCH_NM, MM_NM
from store.records.wall import Obstacle
from store.records.whole import Job
from store.rules.core.memo import once
from store.rules.core.wording import named, paired, said
from store.trade.build.way_in import HANDS_NM, USUAL_DOOR_NM, longest_round_corner, longest_stick, widest_through

USUAL_LONGEST_NM = 12 * FOOT_NM
"""The longest sheet where nothing is entered: our own assumption."""


class WayIn(msgspec.Struct, frozen=True):
    """The limits of the way in, in nm."""

    longest_nm: int
    """Of a sheet."""
    door: str
    """The widest door of the room that is entered; empty without one."""
    widest_nm: int | None
    """Narrow side of a sheet that goes through it; None without one."""
    from_nm: int | None
    into_nm: int | None
    """Clear widths before and after the tightest corner; None where it is not known."""
    round_nm: int | None
    """The longest sheet that goes round it."""
    stick_nm: int | None
    """The longest stick that goes round it."""


@once
def way_in(job: Job) -> WayIn:
    """The corner turns into what is entered, else into the widest door of the room."""
    settings, door = job.settings, _door(job)
    before = None if settings.hallway is None else settings.hallway.nm
    after = settings.turns_into.nm if settings.turns_into is not None else None if door is None else door.width.nm
    turn = None
    if before is not None and after is not None and min(before, after) > HANDS_NM:
        turn = longest_round_corner(before, after)
    most = USUAL_LONGEST_NM if settings.longest_sheet is None else settings.longest_sheet.nm
    high = USUAL_DOOR_NM if door is None else door.height.nm
    return WayIn(
        min(most, turn or most),
        "" if door is None else door.tag,
        None if door is None else widest_through(door.width.nm, door.height.nm),
        before if turn else None,
        after if turn else None,
        turn,
        None if turn is None else longest_stick(turn, high),
    )


def _door(job: Job) -> Obstacle | None:
    """The widest door that hands get through; of two as wide, the higher one."""
    doors = [one for one in job.of(Obstacle).values() if one.what == "door"]
    doors = [one for one in doors if min(one.width.nm, one.height.nm) > HANDS_NM]
    return max(doors, key=lambda one: (one.width.nm, one.height.nm), default=None)


def sheet_way_lines(job: Job, wide_nm: int) -> Iterator[str]:
    """The longest sheet that was reckoned with, and why; and whether sheets so wide go through the door."""
    way = way_in(job)
    goes = said(job, way.longest_nm)
    if way.round_nm is not None and way.round_nm <= way.longest_nm:
        yield f"longest sheet {goes}: carried on edge, it turns {_turns(job, way)}"
    elif job.settings.longest_sheet is not None:
        yield f"longest sheet {goes}, as entered"
    else:
        yield f"longest sheet {goes}, usual; enter the tightest corner of the way in"
    if way.widest_nm is not None:
        door = job.of(Obstacle)[way.door]
        through = f"through {named(job, way.door)}, {paired(job, door.width.nm, door.height.nm)}"
        step = MM_NM if job.settings.metric else INCH_NM
        most = f"goes a sheet up to {said(job, way.widest_nm // step * step)} wide, tilted"
        if way.widest_nm < wide_nm:
            yield f"{through}, {most}: not these. Find another way in, or have them cut outside"
        else:
            yield f"{through}, {most}: these do, any length straight on"


def stick_way_line(job: Job, longest_nm: int) -> str:
    """The longest lumber that gets in, and whether all that is bought does; empty where nothing limits it."""
    way = way_in(job)
    if way.stick_nm is None:
        return ""
    goes = f"longest length that gets in, tilted, {_turns(job, way)}: {said(job, way.stick_nm)}"
    return f"{goes}. Longer ones here need another way in, such as a window" if longest_nm > way.stick_nm else goes


def _turns(job: Job, way: WayIn) -> str:
    assert way.from_nm is not None
    assert way.into_nm is not None
    into = f"the door {way.door}, " if job.settings.turns_into is None else ""
    return f"from {said(job, way.from_nm)} into {into}{said(job, way.into_nm)}"
