"""Paper and scale of a drawing sheet: the sizes of landscape sheets, the round scales, and how one is asked for."""

from __future__ import annotations

import re
from fractions import Fraction

import msgspec

from store.measure.errors import BadValue, quoted
from store.measure.length import MM_NM


class Sheet(msgspec.Struct, frozen=True):
    """A sheet of paper lying on its side, millimeters."""

    name: str
    wide: float
    high: float
    column: float
    """Width of the schedule at the right."""


SHEETS = {
    "letter": Sheet("Letter", 279.4, 215.9, 60.0),
    "tabloid": Sheet("Tabloid", 431.8, 279.4, 80.0),
    "a4": Sheet("A4", 297.0, 210.0, 66.0),
    "a3": Sheet("A3", 420.0, 297.0, 80.0),
}
"""ANSI/ASME Y14.1 (A and B), ISO 216 (A4 and A3)."""
USUAL = {True: "a4", False: "letter"}
"""By metric or not."""

US_SCALES = {
    4: '3" = 1\'-0"',
    8: '1-1/2" = 1\'-0"',
    12: '1" = 1\'-0"',
    16: '3/4" = 1\'-0"',
    24: '1/2" = 1\'-0"',
    32: '3/8" = 1\'-0"',
    48: '1/4" = 1\'-0"',
    64: '3/16" = 1\'-0"',
    96: '1/8" = 1\'-0"',
    128: '3/32" = 1\'-0"',
    192: '1/16" = 1\'-0"',
}
"""The scales of an architect's rule, by how much larger the wall is."""
METRIC_SCALES = {each: f"1:{each}" for each in (5, 10, 20, 25, 50, 100, 200)}
"""ISO 5455, with the 1:25 that is usual on site."""
LEAST_PT = 7.0
POINT_MM = 25.4 / 72
_RATIO = re.compile(r"1\s*:\s*(\d{1,4})")
_PER_FOOT = re.compile(r"(?:(\d+)(?:-|\s+))?(\d+)(?:/(\d+))?\s*(?:\"|in)?\s*(?:=\s*1'\s*(?:-?0\"?)?)?")


def sheet_named(name: str, metric: bool) -> Sheet:
    """The paper of a name; without one, the usual of the job's units. Raises BadValue."""
    known = SHEETS.get((name or USUAL[metric]).lower())
    if known is None:
        raise BadValue(f"no drawing paper {quoted(name)}. There are: {', '.join(SHEETS)}")
    return known


def scales(metric: bool) -> dict[int, str]:
    """The round scales by their factor, the largest drawing first."""
    return METRIC_SCALES if metric else US_SCALES


def scale_named(text: str) -> int | None:
    """The factor of a scale as a person types it: `1:20`, `1/2`, `1/2" = 1'-0"`; None where none is asked for.

    Raises BadValue.
    """
    plain = text.strip()
    if not plain:
        return None
    if (found := _RATIO.fullmatch(plain)) and int(found[1]):
        return int(found[1])
    if (found := _PER_FOOT.fullmatch(plain)) and int(found[2]) and found[3] != "0":
        inches = Fraction(int(found[1] or 0)) + Fraction(int(found[2]), int(found[3] or 1))
        factor = 12 / inches
        if factor.denominator == 1:
            return int(factor)
    raise BadValue(f"{quoted(text)} is not a scale. Write 1:20, or inches to the foot like 1/2")


def scale_words(factor: int, metric: bool) -> str:
    """A scale as it is written down: `1/2" = 1'-0" (1:24)`, `1:20`."""
    named = scales(metric).get(factor)
    return f"1:{factor}" if metric or named is None else f"{named} (1:{factor})"


def largest(width_nm: int, height_nm: int, room: tuple[float, float], metric: bool, asked: int | None) -> int:
    """The factor of the largest round scale at which a wall goes into a room of paper, millimeters; or the one asked.

    A wall larger than every scale takes the smallest. Raises BadValue when the scale asked for is too large.
    """

    def fits(factor: int) -> bool:
        return width_nm <= room[0] * MM_NM * factor and height_nm <= room[1] * MM_NM * factor

    known = list(scales(metric))
    found = next((each for each in known if fits(each)), known[-1])
    if asked is None:
        return found
    if not fits(asked):
        best = scale_words(found, metric)
        raise BadValue(
            f"too large for the paper at {scale_words(asked, metric)}. Use {best}, the largest scale that fits."
        )
    return asked
