"""What a sheet of an xlsx file says beside its values: formats that add a unit, errors, formulas nobody calculated.

The parts and attributes are those of ECMA-376 (Office Open XML, part 1, SpreadsheetML, sections 18.3, 18.8).
"""

from __future__ import annotations

import re
import zipfile
import zlib
from collections.abc import Iterator
from xml.etree import ElementTree

import msgspec

from store.measure.errors import BadValue, quoted

_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_STRICT = "{http://purl.oclc.org/ooxml/spreadsheetml/main}"
_LINK = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
_STRICT_LINK = "{http://purl.oclc.org/ooxml/officeDocument/relationships}id"
_BUILT_IN = {9: "0%", 10: "0.00%"}
"""Formats without a text of their own that add a sign (18.8.30)."""
_WORDS = re.compile(r'"([^"]*)"|\\(.)|\[\$([^\]-]*)(?:-[^\]]*)?\]|\[[^\]]*\]|_.|\*.')
_DATES = re.compile(r"[ymdhs]", re.IGNORECASE)
_CURRENCY = re.compile(r"[$€£¥₩₹₪₺₴฿₱₫]")


_DAMAGED = (ElementTree.ParseError, zipfile.BadZipFile, zlib.error, EOFError, ValueError)
"""What reading a damaged part raises."""


class NotASheet(ValueError):
    """A part that is missing, or is not what it should be."""


class Marks(msgspec.Struct):
    """What was found beside the values; places are row and column, from 1."""

    shown: dict[tuple[int, int], tuple[str, str]]
    """What the format of a number writes before and after it."""
    errors: dict[tuple[int, int], str]
    down: int = 0
    across: int = 0


def marks_of(parts: zipfile.ZipFile, sheet: str) -> Marks:
    """Look through one sheet. Raises NotASheet, or BadValue for a formula that has no value."""
    signs = _signs(parts)
    marks = Marks({}, {})
    unworked: list[str] = []
    for cell in _cells(parts, _part_of(parts, sheet)):
        name = cell.get("r", "")
        place = _place(name)
        value, formula = _child(cell, "v"), _child(cell, "f")
        has_value = (value is not None and bool(value.text)) or _child(cell, "is") is not None
        if not has_value and formula is None:
            continue
        marks.down, marks.across = max(marks.down, place[0]), max(marks.across, place[1])
        kind = cell.get("t", "n")
        if kind == "e":
            marks.errors[place] = (value.text if value is not None else "") or "#N/A"
        elif formula is not None and not has_value and kind != "str":
            unworked.append(name)
        elif kind == "n" and (sign := signs.get(cell.get("s", "0"))):
            marks.shown[place] = sign
    if unworked:
        names = ", ".join(unworked[:8]) + (", ..." if len(unworked) > 8 else "")
        raise BadValue(
            f"formula with no value yet, sheet {quoted(sheet)}. Open it in a spreadsheet, and save it: {names}."
        )
    return marks


def _cells(parts: zipfile.ZipFile, part: str) -> Iterator[ElementTree.Element]:
    """The cells of a sheet, one at a time."""
    with _open(parts, part) as stream:
        try:
            for _, element in ElementTree.iterparse(stream):
                if element.tag in (f"{_MAIN}c", f"{_STRICT}c"):
                    yield element
                elif element.tag in (f"{_MAIN}row", f"{_STRICT}row"):
                    element.clear()
        except _DAMAGED as error:
            raise NotASheet(f"{part}: {error}") from error


def _open(parts: zipfile.ZipFile, part: str) -> zipfile.ZipExtFile:
    try:
        with parts.open(part) as stream:
            # An entity that stands for another, a thousand times over, is a trap; no spreadsheet writes a DTD.
            if b"<!DOCTYPE" in stream.read(1000).upper():
                raise NotASheet(f"{part} has a document type")
        return parts.open(part)  # type: ignore[return-value,unused-ignore]
    except (KeyError, RuntimeError, NotImplementedError, OSError, *_DAMAGED) as error:
        raise NotASheet(f"{part} is missing or damaged") from error


def _tree(parts: zipfile.ZipFile, part: str) -> ElementTree.Element:
    with _open(parts, part) as stream:
        try:
            return ElementTree.parse(stream).getroot()
        except _DAMAGED as error:
            raise NotASheet(f"{part}: {error}") from error


def _child(element: ElementTree.Element, name: str) -> ElementTree.Element | None:
    found = element.find(f"{_MAIN}{name}")
    return found if found is not None else element.find(f"{_STRICT}{name}")


def _part_of(parts: zipfile.ZipFile, sheet: str) -> str:
    """The part of a sheet, by its name (18.2.19)."""
    for element in _tree(parts, "xl/workbook.xml").iter():
        if element.tag.endswith("}sheet") and element.get("name") == sheet:
            wanted = element.get(_LINK) or element.get(_STRICT_LINK)
            for link in _tree(parts, "xl/_rels/workbook.xml.rels").iter():
                if link.get("Id") == wanted:
                    target = link.get("Target", "")
                    return target.lstrip("/") if target.startswith("/") else f"xl/{target}"
    raise NotASheet(f"sheet {sheet!r} has no part")


def _place(name: str) -> tuple[int, int]:
    """Row and column of `C4`: (4, 3)."""
    found = re.fullmatch(r"([A-Z]{1,3})(\d{1,7})", name, re.ASCII)
    if found is None:
        raise NotASheet(f"{name[:20]!r} is not a cell")
    column = 0
    for letter in found[1]:
        column = column * 26 + ord(letter) - 64
    return int(found[2]), column


def _signs(parts: zipfile.ZipFile) -> dict[str, tuple[str, str]]:
    """What each style writes before and after a number, for those that write anything."""
    if "xl/styles.xml" not in parts.namelist():
        return {}
    root = _tree(parts, "xl/styles.xml")
    formats = dict(_BUILT_IN)
    for element in root.iter():
        if element.tag.endswith("}numFmt") and (number := element.get("numFmtId", "")).isdecimal():
            formats[int(number)] = element.get("formatCode", "")
    found = {}
    styles = _child(root, "cellXfs")
    for at, style in enumerate(styles if styles is not None else ()):
        number = style.get("numFmtId", "0")
        if number.isdecimal() and (signs := signs_of(formats.get(int(number), ""))):
            found[str(at)] = signs
    return found


def signs_of(code: str) -> tuple[str, str] | None:
    """What a number format writes before and after the digits: `0.0" kW"` gives `kW` after; None for neither.

    A date has none, and neither has a format for text. A currency without a name is that of whoever opens the file.
    """
    first = re.split(r';(?=(?:[^"]*"[^"]*")*[^"]*$)', code)[0].replace("General", "0")
    first = re.sub(r"/\d+", "", first)  # a fraction to a denominator that is written out
    bare = _WORDS.sub("", first)
    if _DATES.search(bare) or not re.search(r"[0#?]", bare):
        return None
    plain = _WORDS.sub(lambda each: next((part for part in each.groups() if part), ""), first)
    digits = _digits_at(first)
    before, after = _plain(first[: digits[0]]), _plain(first[digits[1] :])
    if "%" in bare:
        after = "%"
    return (before, after) if plain and (before or after) else None


def _digits_at(code: str) -> tuple[int, int]:
    """Where the digits of a format begin and end, outside of its quoted words."""
    masked = _WORDS.sub(lambda each: " " * len(each[0]), code)
    at = [found.start() for found in re.finditer(r"[0#?]", masked)]
    return at[0], at[-1] + 1


def _plain(part: str) -> str:
    """The words and signs of a part of a format."""
    words = _WORDS.sub(lambda each: next((group for group in each.groups() if group), ""), part)
    found = re.sub(r"[(),.\s+-]+", " ", words).strip()
    return found if _CURRENCY.search(found) or re.search(r"\w|%", found) else ""
