"""One line of what to do next, and the place where it is done."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import Literal, get_args

import msgspec

from store.records.people import Trade

Group = Literal["danger", "stage", "missing", "days", "packet", "photo"]
GROUPS: tuple[Group, ...] = get_args(Group)
"""In the order in which they are listed: what can hurt someone comes before everything."""
TITLES: dict[Group, str] = {
    "danger": "Danger",
    "stage": "Stage",
    "missing": "Blanks",
    "days": "Days",
    "packet": "Packet",
    "photo": "Photos",
}
"""What each group is called."""
Listing = Literal["gate", "problems", "items", "readings", "openings", "equipment", "contacts", "packets", "plan"]
"""A list of the job, by what is in it; `plan` is whichever list the record is in."""
MOST = 8
"""Lines that a group lists; of more, only their number. Our own choice: two groups fit 24 lines."""


class Place(msgspec.Struct, frozen=True):
    """Where a line is done: a list, filtered by words, with a row under the cursor."""

    list: Listing
    key: str = ""
    words: str = ""
    subset: str = ""
    """The part of the list that is shown; empty for the whole of it."""
    trade: Trade | None = None
    """For whom a new record of the list is to be begun, where none is there to go to."""


class Due(msgspec.Struct, frozen=True, kw_only=True):
    """One thing to do next."""

    group: Group
    key: str
    """Stable name, unique among all lines."""
    what: str
    do: str
    """How it is done, in a few words: starts with a verb."""
    place: Place
    day: date | None = None
    """By when, where a day is known."""
    tags: tuple[str, ...] = ()
    """Everything that it is about."""
    why: str = ""


def capped(lines: Iterable[Due], rest: str, place: Place) -> Iterator[Due]:
    """The first lines of a group, and one for the others: `rest` says of what they are."""
    listed = list(lines)
    yield from listed[:MOST]
    if more := listed[MOST:]:
        tags = tuple(tag for each in more for tag in each.tags)
        yield Due(
            group=more[0].group,
            key=f"more:{more[0].group}:{rest}",
            what=f"{len(more)} more {rest}",
            do="Open the list",
            place=place,
            tags=tags,
            day=more[0].day,
        )
