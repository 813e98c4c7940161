"""Two figures side by side, rounded so that what is shown never contradicts the verdict.

What there is (a limit, an opening) is rounded down and what is needed is rounded up, to what the trade reads; where the
two would then read the same, or the other way round, the next digit is shown.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from typing import NamedTuple

from store.measure.length import INCH_NM, MM_NM, SIXTEENTH_NM, SIXTY_FOURTH_NM, Length, show_length, show_size, to_file
from store.measure.numbers import show_number

FINEST_PLACES = 9
"""Decimals after which two numbers that still read the same are called the same."""


class Compared(NamedTuple):
    """Two figures and what is between them, as text."""

    have: str
    need: str
    short: str
    """What is missing, rounded up; empty when nothing is."""


def limit_length(length: Length, metric: bool = False, *, size: bool = True) -> str:
    """A limit ("at most"), rounded down to 1/16 in or 1 mm, so that nothing beyond it is ever allowed."""
    step = MM_NM if metric else SIXTEENTH_NM
    return _show(length.nm // step * step, metric, size)


def need_length(length: Length, metric: bool = False, *, size: bool = True) -> str:
    """A need ("at least"), rounded up to 1/16 in or 1 mm, so that what is shown is always enough."""
    step = MM_NM if metric else SIXTEENTH_NM
    return _show(-(-length.nm // step) * step, metric, size)


def compare(have: Length, need: Length, metric: bool = False, *, size: bool = True) -> Compared:
    """What there is and what is needed, as texts that say which is more: `16"`, `20-1/16"`, short by `4-1/16"`.

    Both in a job's own units. Equal lengths read the same; others never do.
    """
    fits = have.nm >= need.nm
    for step in _steps(metric):
        low, high = have.nm // step * step, -(-need.nm // step) * step
        if (have.nm == need.nm and low == high) or (have.nm != need.nm and low != high and (low >= high) == fits):
            return Compared(
                _show_fine(low, step, metric, size),
                _show_fine(high, step, metric, size),
                "" if fits else _show_fine(high - low, step, metric, size),
            )
    short = "" if fits else to_file(Length(need.nm - have.nm, metric))
    return Compared(to_file(Length(have.nm, metric)), to_file(Length(need.nm, metric)), short)


def compare_numbers(have: float, need: float, unit: str = "", *, places: int = 0) -> Compared:
    """The same of plain numbers: `18 in³`, `24 in³`, short by `6 in³`; `places` is where the rounding starts."""
    fits = have >= need
    if have == need:
        shown = _number(round(have, max(places, 2)), unit)
        return Compared(shown, shown, "")
    for digits in range(places, FINEST_PLACES + 1):
        low, high = _rounded(have, digits, ROUND_FLOOR), _rounded(need, digits, ROUND_CEILING)
        if low != high and (low >= high) == fits:
            return Compared(
                _number(low, unit), _number(high, unit), "" if fits else _number(round(high - low, digits), unit)
            )
    alike = _number(round(have, FINEST_PLACES), unit)
    return Compared(alike, alike, "" if fits else _number(10**-FINEST_PLACES, unit))


def floor_number(number: float, places: int = 0) -> float:
    """A limit rounded down to so many decimals."""
    return _rounded(number, places, ROUND_FLOOR)


def ceiling_number(number: float, places: int = 0) -> float:
    """A need rounded up to so many decimals."""
    return _rounded(number, places, ROUND_CEILING)


def _steps(metric: bool) -> Iterator[int]:
    """Finer and finer steps, nanometers: what a tape shows first."""
    yield from (MM_NM, MM_NM // 10, MM_NM // 100) if metric else (SIXTEENTH_NM, SIXTEENTH_NM // 2, SIXTY_FOURTH_NM)
    if not metric:
        yield INCH_NM // 1000


def _show(nm: int, metric: bool, size: bool) -> str:
    return (show_size if size else show_length)(Length(nm, metric), metric)


def _show_fine(nm: int, step: int, metric: bool, size: bool) -> str:
    """A whole count of steps, exactly; decimals of an inch where no fraction of a tape is as fine."""
    if step in (MM_NM, SIXTEENTH_NM):
        return _show(nm, metric, size)
    if metric:
        return f"{show_number(round(nm / MM_NM, 2))} mm"
    if step == INCH_NM // 1000:
        return f'{show_number(round(nm / INCH_NM, 3))}"'
    return to_file(Length(nm)).removesuffix(" in").replace(" ", "-") + '"'


def _rounded(number: float, digits: int, how: str) -> float:
    # Through the shortest text of the number, so that 2.3 is 2.3 and not a hair beside it.
    return float(Decimal(repr(float(number))).quantize(Decimal(1).scaleb(-digits), rounding=how))


def _number(number: float, unit: str) -> str:
    return f"{show_number(number)} {unit}".strip() if unit != "%" else f"{show_number(number)}%"
