"""xlsx as people have it: made by another library, with formats, errors, several sheets and odd parts."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from datetime import date, time
from typing import Any

import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from store.measure.errors import BadValue
from store.records.equipment import Equipment
from store.records.people import Contact
from templates.spreadsheet.reading import BadRows, How, Import, read_import
from templates.spreadsheet.sheet_xml import signs_of
from templates.spreadsheet.workbook import Number, is_workbook, read_workbook
from tests.jobs.order_jobs import job_of
from tests.rows import rows


def made(write: Callable[[Any], None]) -> bytes:
    """The bytes of a workbook that was written by `write`."""
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True, "strings_to_formulas": False})
    write(book)
    book.close()
    return out.getvalue()


def table(rows: list[list[Any]], formats: dict[tuple[int, int], str] | None = None, first: int = 0) -> bytes:
    """A workbook of one sheet; formats by row and column, from 0."""

    def write(book: Any) -> None:
        sheet = book.add_worksheet("Gear")
        for at, row in enumerate(rows):
            for column, value in enumerate(row):
                code = (formats or {}).get((at, column))
                style = book.add_format({"num_format": code}) if code else None
                if isinstance(value, date | time):
                    style = style or book.add_format({"num_format": "yyyy-mm-dd"})
                sheet.write(at + first, column, value, style)

    return made(write)


def fields(found: Import) -> dict[str, Any]:
    """The fields of the only change."""
    assert len(found.changes) == 1
    return dict(found.changes[0].fields)


def test_a_list_as_a_spreadsheet_has_it() -> None:
    raw = table([
        ["Our wall"], [], ["Item", "Width (mm)", "Watts", "Price", "Ordered", "Wireless", "Aspect", "Serial"],
        ["Fan", 435.5, 0.1 + 0.2, 1299, date(2026, 12, 3), True, time(16, 9), "=1+1"],
    ], first=2)  # fmt: skip
    assert is_workbook(raw)
    found = read_import(job_of(), Equipment, raw)
    assert fields(found) == {
        "name": "Fan", "width": "435.5 mm", "watts": 0.3, "price": 129_900, "ordered": "2026-12-03", "wireless": True,
        "aspect": "16:09", "serial": "=1+1",
    }  # fmt: skip
    assert "left out above the names of the columns: Our wall" in found.notes


def test_what_a_format_adds_to_a_number_is_read_with_it() -> None:
    raw = table([["name", "watts", "price"], ["Fan", 1.5, 520]], {(1, 1): '0.0" kW"', (1, 2): "[$€-407]#,##0.00"})
    assert fields(read_import(job_of(currency="EUR"), Equipment, raw)) == {
        "name": "Fan", "watts": 1500.0, "price": 52_000,
    }  # fmt: skip
    with pytest.raises(BadRows, match='row 2, column price: "€ 520" is not in USD'):
        read_import(job_of(), Equipment, raw)


def test_a_number_of_a_spreadsheet_has_a_point_whatever_the_owner_writes() -> None:
    raw = table([["name", "watts", "price"], ["Fan", 1.234, 1234.5]])
    assert fields(read_import(job_of(decimal="comma"), Equipment, raw)) == {
        "name": "Fan", "watts": 1.234, "price": 123_450,
    }  # fmt: skip


@rows(("code", "signs"), [
    ("[$€-407]#,##0.00", ("€", "")), ('#,##0.00 "€"', ("", "€")), ('0.0" kW"', ("", "kW")), ("0%", ("", "%")),
    ("\\$#,##0", ("$", "")), ('"$"#,##0.00_);[Red]\\("$"#,##0.00\\)', ("$", "")), ("[$USD] 0.00", ("USD", "")),
    ("_-* #,##0.00 [$€-40C]_-;-* #,##0.00", ("", "€")), ('General" W"', ("", "W")), ('# ??/16 "in"', ("", "in")),
    ("dd/mm/yyyy", None), ("General", None), ("@", None), ("[Red]0.0", None), ("0.00E+00", None), ("# ?/?", None),
    ("", None), ('"', None), ("[$", None), (";;;", None),
])  # fmt: skip
def test_formats_of_numbers(code: str, signs: tuple[str, str] | None) -> None:
    assert signs_of(code) == signs


@given(st.text('0#?.,;"[]$€-_*\\%kWdE ', max_size=12))
def test_any_text_may_be_a_format(code: str) -> None:
    found = signs_of(code)
    assert found is None or any(found)


def test_a_formula_that_nobody_worked_out_and_an_error_are_told_with_their_cell() -> None:
    def unworked(book: Any) -> None:
        sheet = book.add_worksheet()
        sheet.write_row(0, 0, ["name", "watts"])
        sheet.write(1, 0, "Fan")
        sheet.write_formula(1, 1, "=1+1", None, "")

    def broken(book: Any) -> None:
        sheet = book.add_worksheet()
        sheet.write_row(0, 0, ["name", "notes"])
        sheet.write(1, 0, "Fan")
        sheet.write_formula(1, 1, "=1/0", None, "#DIV/0!")

    with pytest.raises(BadValue, match="formula with no value yet"):
        read_import(job_of(), Equipment, made(unworked))
    with pytest.raises(BadRows, match="row 2, column notes: #DIV/0! is an error"):
        read_import(job_of(), Equipment, made(broken))


def test_the_first_sheet_with_anything_in_it_is_read_or_the_one_that_is_named() -> None:
    def write(book: Any) -> None:
        book.add_worksheet("Empty")
        book.add_worksheet("People").write_column(0, 0, ["name", "Dana"])
        book.add_worksheet("Gear").write_column(0, 0, ["name", "Fan"])
        hidden = book.add_worksheet("Hidden")
        hidden.hide()

    raw = made(write)
    found = read_import(job_of(), Equipment, raw)
    assert fields(found) == {"name": "Dana"}
    assert found.notes == ("sheet 'People' is read; there are also: Empty, Gear (--sheet)",)
    assert fields(read_import(job_of(), Equipment, raw, How(sheet="Gear"))) == {"name": "Fan"}
    with pytest.raises(BadValue, match=r'no sheet "Hidden" in the file\. There are: Empty, People, Gear'):
        read_import(job_of(), Equipment, raw, How(sheet="Hidden"))
    with pytest.raises(BadValue, match="no rows"):
        read_import(job_of(), Equipment, raw, How(sheet="Empty"))


def other(raw: bytes, part: str, text: bytes | None) -> bytes:
    """The workbook with another text in a part, or without the part."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(raw)) as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            if name != part:
                new.writestr(name, old.read(name))
            elif text is not None:
                new.writestr(name, text)
    return out.getvalue()


SHEET = b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>%s</sheetData></worksheet>'


@rows(("part", "text"), [
    ("xl/workbook.xml", None), ("xl/worksheets/sheet1.xml", None), ("xl/worksheets/sheet1.xml", b"<"),
    ("xl/worksheets/sheet1.xml", b"<!DOCTYPE a [<!ENTITY b 'c'>]><a>&b;</a>"), ("xl/styles.xml", b"<styleSheet"),
    ("xl/_rels/workbook.xml.rels", None), ("xl/worksheets/sheet1.xml", SHEET % b'<row><c r="??"><v>1</v></c></row>'),
    ("xl/worksheets/sheet1.xml", SHEET % b'<row r="1"><c r="XFD1048576"><v>1</v></c></row>'),
])  # fmt: skip
def test_a_workbook_that_is_damaged_or_a_trap_is_refused(part: str, text: bytes | None) -> None:
    with pytest.raises(BadValue):
        read_workbook(other(table([["name"], ["Fan"]]), part, text))


@rows("raw", [b"PK\x03\x04", b"PK\x03\x04" + b"\0" * 500, b"\xd0\xcf\x11\xe0" + b"\0" * 600])
def test_what_only_begins_like_a_workbook_is_refused(raw: bytes) -> None:
    assert is_workbook(raw)
    with pytest.raises(BadValue):
        read_import(job_of(), Contact, raw)


@given(st.integers(0, 5000), st.binary(min_size=1, max_size=4))
def test_a_workbook_with_other_bytes_in_it_is_read_or_refused(at: int, other_bytes: bytes) -> None:
    at %= len(WORKBOOK)
    raw = WORKBOOK[:at] + other_bytes + WORKBOOK[at + len(other_bytes) :]
    try:
        found = read_import(job_of(), Equipment, raw)
    except BadValue as error:
        assert str(error)  # noqa: PT017 - the sentence is what is asserted
    else:
        assert len(found.changes) <= 1


WORKBOOK = table([["name", "watts"], ["Fan", 35]])


def test_numbers_are_written_without_exponents() -> None:
    raw = table([["name", "a", "b", "c"], ["Fan", 1e-7, 1e15, 123456789012]])
    cells = read_workbook(raw).rows[1][1]
    assert cells == ["Fan", "0.0000001", "1000000000000000", "123456789012"]
    assert isinstance(cells[1], Number)
