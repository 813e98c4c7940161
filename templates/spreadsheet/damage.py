"""What a spreadsheet makes of a text that looks like a time, a day or a number, when it opens a csv file and saves it.

`16:9` comes back as `16:09`, `3/4` as `4-Mar`, `00417` as `417`. Where the record is there, its text is known, and a
cell that is just such a copy of it changes nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_NUMBER = re.compile(r"\d+(?:\.\d+)?(?:e[+-]?\d+)?", re.ASCII | re.IGNORECASE)


def is_damaged_copy(cell: str, text: str) -> bool:
    """True where a cell is what a spreadsheet shows of a text that it took for something else."""
    plain = cell.strip()
    return (plain != text and plain.lower() in {each.lower() for each in _copies(text)}) or _same_number(plain, text)


def _copies(text: str) -> Iterator[str]:
    """What a text becomes as a time or a day, in the forms of the usual spreadsheets."""
    if found := re.fullmatch(r"(\d{1,2}):(\d{1,2})", text, re.ASCII):
        hours, minutes = int(found[1]), int(found[2])
        for hour in {f"{hours}", f"{hours:02d}"}:
            yield f"{hour}:{minutes:02d}"
            yield f"{hour}:{minutes:02d}:00"
        if hours >= 12:
            yield f"{hours - 12 or 12}:{minutes:02d} PM"
            yield f"{hours - 12 or 12}:{minutes:02d}:00 PM"
    if found := re.fullmatch(r"(\d{1,2})[/.-](\d{1,2})", text, re.ASCII):
        for month, day in ((int(found[1]), int(found[2])), (int(found[2]), int(found[1]))):
            if 1 <= month <= 12 and 1 <= day <= 31:
                name = _MONTHS[month - 1]
                yield f"{day}-{name}"
                yield f"{day:02d}-{name}"
                yield f"{name}-{day:02d}"
                yield f"{name} {day}"
                yield f"{day}. {name}"
                yield f"{day:02d}. {name}"


def _same_number(cell: str, text: str) -> bool:
    """True for a text of digits whose zeros in front, or whose last digits, a spreadsheet dropped."""
    if cell == text or not _NUMBER.fullmatch(cell.replace(",", ".")) or not _NUMBER.fullmatch(text):
        return False
    plain = cell.replace(",", ".")
    if text.isdigit() and plain.isdigit():
        return text.lstrip("0") == plain.lstrip("0") or (len(text) > 15 and text[:15] == plain[:15])
    return any(sign in text.lower() + plain.lower() for sign in "e") and f"{float(text):.5g}" == f"{float(plain):.5g}"
