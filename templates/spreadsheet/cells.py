"""The cells of someone's spreadsheet: read as the form reads them, and where that fails, as spreadsheets write them.

What the form takes is always read by the form, so that an export comes back unchanged.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from msgspec.structs import replace

from store.measure.errors import BadValue
from store.measure.numbers import pointed, show_number
from store.measure.quantity import unit_named, worth
from store.records.field import NUMERIC, Field, Manner
from store.records.metric_units import own_unit
from templates.spreadsheet.habits import with_comma
from templates.spreadsheet.workbook import Broken, Number

YES = ("x", "1", "✓", "✔", "☑", "on", "ok", "done")
NO = ("0", "-", "off", "☐", "n/a", "none")
OTHER_WORDS: dict[str, str] = {
    "tv": "screen", "television": "screen", "display": "screen", "projector": "other", "avr": "receiver",
    "amplifier": "receiver", "amp": "receiver", "sub": "subwoofer", "bracket": "mount", "wallmount": "mount",
    "network switch": "switch", "power strip": "strip", "surge strip": "strip", "lamp": "light", "led": "light",
    "purchased": "owned", "bought": "owned", "have": "owned", "delivered": "owned", "arrived": "owned",
    "in hand": "owned", "received": "owned", "on order": "ordered", "not bought": "to buy", "needed": "to buy",
    "need": "to buy", "wanted": "to buy", "planned": "to buy",
    "outlet": "receptacle", "socket": "receptacle", "socket-outlet": "receptacle", "duplex": "receptacle",
    "gfci": "receptacle", "jbox": "junction", "j-box": "junction", "junction box": "junction",
    "av": "low-voltage", "a/v": "low-voltage", "low voltage": "low-voltage", "data": "low-voltage",
    "electrical": "electrician", "carpentry": "carpenter", "painting": "painter", "decorator": "painter",
    "heating": "hvac", "inspection": "inspector", "drywalling": "drywall", "plasterer": "drywall",
    "plasterboard": "drywall", "gypsum": "drywall", "joiner": "carpenter",
    "framer": "carpenter", "cabinet maker": "carpenter", "cabinetmaker": "carpenter", "me": "owner", "self": "owner",
    "homeowner": "owner", "building office": "inspector", "building inspector": "inspector", "shop": "supplier",
    "hired": "booked", "signed": "booked", "confirmed": "booked", "finished": "done", "complete": "done",
    "quote received": "quoted", "call": "to ask", "not asked": "to ask",
    "installed": "pulled", "terminated": "connected", "run": "pulled",
}  # fmt: skip
"""What people write for a choice, where the choice is one of the field's."""
_FIRM = " (?:contractor|company|crew|firm|installer|work)"
_WORKER = f"(?:s|er|ers)?(?:{_FIRM})?"
_GROUPED = re.compile(r"(?<![\d.,])[1-9]\d{0,2}(?:,\d{3})+(?![\d,])", re.ASCII)
_BARE = re.compile(r"\d[\d./ -]*|\.\d+", re.ASCII)
"""A number without a unit: `435`, `17 1/4`, `6.5`."""
ERRORS = ("#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!", "#SPILL!", "#CALC!")
"""What a spreadsheet shows in place of a value that it cannot calculate."""


def read_cell(field: Field, text: str, manner: Manner, *, unit: str = "", commas: bool = False) -> object:
    """The value of a cell. `unit` goes to bare numbers; `commas` says that the file writes fractions with a comma.

    Raises BadValue.
    """
    plain = text.strip()
    if isinstance(text, Broken) or (plain.upper() in ERRORS and field.codec.name not in ("text", "note", "words")):
        raise BadValue(f"{plain} is an error from the spreadsheet. Fix it there, or clear the cell.")
    if field.codec.name in NUMERIC:
        plain = _with_unit(field, plain if isinstance(text, Number) else _with_point(plain, commas), unit)
    manner = replace(manner, comma=False)
    if not plain:
        return field.read(text, manner)
    try:
        return field.read(plain, manner)
    except BadValue as error:
        other = _other_form(field, plain)
        if other == plain:
            raise
        try:
            return field.read(other, manner)
        except BadValue:
            raise error from None


def _with_point(text: str, commas: bool) -> str:
    """Numbers with a point before their fraction, and with nothing between their thousands."""
    return _GROUPED.sub(lambda found: found[0].replace(",", ""), pointed(text, with_comma(text, commas)))


def _with_unit(field: Field, text: str, unit: str) -> str:
    """A number with the unit of its column, where it has none of its own; in one that its field reads."""
    bare = _BARE.fullmatch(text) is not None
    if unit and bare:
        text = f"{text} {unit}"
    elif field.codec.name == "number":
        text = own_unit(text, field.says.unit)
    if field.codec.name == "length" and text.lower().endswith(("yd", "yds", "yard", "yards", "yd.")):
        digits = re.match(r"[\d.]+", text)
        each = worth("yd", "ft")
        if digits and each and unit_named(text[digits.end() :]) == "yd":
            return f"{show_number(float(digits[0]) * float(each))} ft"
    return text


def _other_form(field: Field, text: str) -> str:
    """The cell in the form that the field takes; the same when there is none."""
    low = " ".join(text.lower().split())
    name = field.codec.name
    if name == "yes":
        return "yes" if low in YES else "no" if low in NO else text
    if name == "choice":
        return _choice(field.choices, low) or text
    if name == "count":
        return _count(field, low) or text
    return text


_DAYS_IN = {"": 1, "d": 1, "day": 1, "days": 1, "w": 7, "wk": 7, "wks": 7, "week": 7, "weeks": 7}
_PIECES = ("", "x", "pc", "pcs", "piece", "pieces", "gang", "gangs", "place", "places", "p", "lines")
_YEARS = ("", "y", "yr", "yrs", "year", "years")


def _count(field: Field, low: str) -> str:
    """A whole number of what the field counts: days (also given in weeks), years or pieces; empty for another."""
    found = re.fullmatch(r"(\d{1,9})(?:\.0+)? ?([a-z]*)\.?", low)
    if not found:
        return ""
    if "day" in field.says.title:
        return str(int(found[1]) * _DAYS_IN[found[2]]) if found[2] in _DAYS_IN else ""
    known = _YEARS if "year" in field.says.title else _PIECES
    return str(int(found[1])) if found[2] in known else ""


def _choice(choices: tuple[str, ...], low: str) -> str:
    """The choice that a word stands for: another word for it, or the word for who does it (`drywaller`)."""
    by_name: Mapping[str, str] = {each.lower(): each for each in choices}
    other = OTHER_WORDS.get(low) or OTHER_WORDS.get(re.sub(f"{_FIRM}$", "", low))
    if other is not None and other in by_name.values():
        return other
    joined = low.replace(" ", "-")
    if joined in by_name:
        return by_name[joined]
    begun = [each for each in by_name if re.fullmatch(rf"{re.escape(each)}{_WORKER}", low)]
    return by_name[begun[0]] if begun else ""
