"""The rows of an xlsx file, each cell as text that says what a person saw there.

The values come through calamine; what it leaves out (the currency or unit that a number is shown with, errors, formulas
that nobody calculated) is looked up in the file itself, by `sheet_xml`.
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from typing import Any

import msgspec

from store.measure.errors import BadValue, quoted
from store.measure.text import capital
from templates.spreadsheet.sheet_xml import Marks, NotASheet, marks_of

SIGNATURE = b"PK\x03\x04"
OLD_SIGNATURE = b"\xd0\xcf\x11\xe0"
MOST_UNPACKED = 300_000_000
"""Bytes of all parts of a workbook together; one that unpacks to more is no list of records."""
MOST_DOWN, MOST_ACROSS = 100_000, 2_000
"""How far from its first cell a sheet may have anything in it."""


class Number(str):
    """A number that the spreadsheet itself holds: a point stands before its fraction, whatever its owner writes."""

    __slots__ = ()


class Broken(str):
    """What a spreadsheet shows in place of a value that it could not calculate."""

    __slots__ = ()


class Sheet(msgspec.Struct, frozen=True):
    """One sheet of a workbook."""

    name: str
    rows: list[tuple[int, list[str]]]
    """The rows that have something in them, each with its number in the sheet."""
    others: tuple[str, ...]
    """The other sheets that can be seen."""


def is_workbook(raw: bytes) -> bool:
    """True for bytes that are no text: a zip, or a spreadsheet of the kind before xlsx."""
    return raw.startswith((SIGNATURE, OLD_SIGNATURE))


def read_workbook(raw: bytes, wanted: str = "") -> Sheet:
    """The wanted sheet of an xlsx file, or the first that has anything in it. Raises BadValue."""
    if raw.startswith(OLD_SIGNATURE):
        raise BadValue("this spreadsheet is older than xlsx. Save it as xlsx, or as csv in UTF-8.")
    parts = _unpacked(raw)
    from python_calamine import CalamineError, CalamineWorkbook, SheetTypeEnum, SheetVisibleEnum

    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(raw))
        seen = [
            each.name
            for each in book.sheets_metadata
            if each.visible == SheetVisibleEnum.Visible and each.typ == SheetTypeEnum.WorkSheet
        ]
        if wanted and wanted not in seen:
            raise BadValue(f"no sheet {quoted(wanted)} in the file. There are: {', '.join(seen)}.")
        for name in [wanted] if wanted else seen:
            marks = marks_of(parts, name)
            if marks.down > MOST_DOWN or marks.across > MOST_ACROSS:
                raise BadValue(
                    f"sheet {quoted(name)} is too large. It has cells down to row {marks.down:,}: delete the "
                    "empty rows and columns."
                )
            rows = _rows(book.get_sheet_by_name(name).to_python(skip_empty_area=False), marks)
            if rows or name == wanted:
                return Sheet(name, rows, tuple(each for each in seen if each != name))
    except (CalamineError, NotASheet, zipfile.BadZipFile, ValueError, OverflowError) as error:
        if isinstance(error, BadValue):
            raise
        raise BadValue(_unread(error)) from error
    return Sheet(seen[0] if seen else "", [], tuple(seen[1:]))


def _unread(error: Exception) -> str:
    return (
        f"the file can't be read as xlsx. {capital(str(error)[:200])}. Save the list as xlsx again, or as csv in UTF-8."
    )


def _unpacked(raw: bytes) -> zipfile.ZipFile:
    """The parts of the file. Raises BadValue where it is none, or would unpack without end."""
    try:
        parts = zipfile.ZipFile(io.BytesIO(raw))
        sizes = [each.file_size for each in parts.infolist()]
    except (zipfile.BadZipFile, ValueError, NotImplementedError, OSError, RuntimeError) as error:
        raise BadValue(_unread(error)) from error
    if sum(sizes) > MOST_UNPACKED:
        raise BadValue(
            f"the file is too large for a list of records. It unpacks to {sum(sizes) >> 20:,} MB: save the list as csv."
        )
    if "xl/workbook.xml" not in parts.namelist():
        raise BadValue("this is not an xlsx file. Save the list as xlsx, or as csv in UTF-8.")
    return parts


def _rows(values: Sequence[Sequence[Any]], marks: Marks) -> list[tuple[int, list[str]]]:
    rows = []
    for number, row in enumerate(values, 1):
        cells = [_cell(value, marks, (number, at)) for at, value in enumerate(row, 1)]
        if any(cell.strip() for cell in cells):
            rows.append((number, cells))
    return rows


def _cell(value: Any, marks: Marks, place: tuple[int, int]) -> str:
    """A value as text: as it is shown, where its format adds a unit, a currency or a percent sign."""
    if place in marks.errors:
        return Broken(marks.errors[place])
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float | int):
        return _number(float(value), marks.shown.get(place))
    if isinstance(value, datetime):
        return value.strftime("%Y-%m-%d" if value.time() == time() else "%Y-%m-%d %H:%M")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, time):
        return value.strftime("%H:%M")
    if isinstance(value, timedelta):
        minutes = round(value.total_seconds() / 60)
        return f"{minutes // 60}:{minutes % 60:02d}"
    return str(value)


def _number(value: float, shown: tuple[str, str] | None) -> str:
    before, after = shown or ("", "")
    if after == "%":
        value *= 100
    digits = f"{value:.15g}"  # a spreadsheet counts with 15 digits, and shows no more
    if "e" in digits:
        digits = f"{value:.15f}".rstrip("0").rstrip(".") if abs(value) < 1 else f"{value:.0f}"
    return Number(" ".join(each for each in (before, digits, after) if each))
