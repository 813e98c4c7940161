"""The studs of a wall as found: the row that any one of them and the spacing lay out, the odd and the missing."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from store.measure.errors import BadValue
from store.measure.length import parse_length
from store.records.wall import Wall
from store.trade.measured.framing import Stud, studs, with_odd

MOST_TOGETHER = 8
"""Studs side by side that anybody nails up as one post; more is a slip of the pen."""
_SEVERAL = re.compile(r"\s*(\d)\s*[x×]\s+(.+)", re.IGNORECASE)


def read_odd(text: str, metric: bool, thick_nm: int) -> tuple[Stud, ...]:
    """The studs of an entry: `30-1/2` one about that center, `2 x 64` two side by side about it; none if unreadable."""
    found = _SEVERAL.fullmatch(text)
    count, place = (int(found[1]), found[2]) if found else (1, text)
    try:
        centre = parse_length(place, metric).nm
    except BadValue:
        return ()
    left = centre - count * thick_nm // 2
    if not 0 < count <= MOST_TOGETHER:
        return ()
    return tuple(Stud(left + at * thick_nm, left + (at + 1) * thick_nm) for at in range(count))


def bad_studs(wall: Wall, metric: bool) -> list[str]:
    """The entries of odd and missing studs that cannot be read."""
    odd = [text for text in wall.odd_studs if not read_odd(text, metric, wall.stud_width.nm)]
    return odd + [text for text in wall.missing_studs if _place(text, metric) is None]


def _place(text: str, metric: bool) -> int | None:
    try:
        return parse_length(text, metric).nm
    except BadValue:
        return None


def stud_line(wall: Wall, width_nm: int | None, metric: bool) -> tuple[Stud, ...]:
    """The studs of a wall; empty while a figure is missing or they cannot be so."""
    if width_nm is None:
        return ()
    row: Sequence[Stud] = ()
    if wall.first_stud is not None:
        try:
            row = studs(width_nm, wall.spacing.nm, wall.first_stud.nm, wall.stud_width.nm)
        except ValueError:
            return ()
    return with_odd(row, list(_odd(wall, width_nm, metric)), list(_missing(wall, metric)), wall.spacing.nm // 2)


def _odd(wall: Wall, width_nm: int, metric: bool) -> Iterator[Stud]:
    for text in wall.odd_studs:
        yield from (
            each
            for each in read_odd(text, metric, wall.stud_width.nm)
            if each.left_nm >= 0 and each.right_nm <= width_nm
        )


def _missing(wall: Wall, metric: bool) -> Iterator[int]:
    for text in wall.missing_studs:
        if (place := _place(text, metric)) is not None:
            yield place
