"""The cells of somebody's spreadsheet: read as the form reads them, and where that fails, as spreadsheets write them.

What the form takes is always read by the form, so that an export comes back unchanged.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from store.measure.errors import BadValue
from store.records.field import Field, Manner

NUMBERS = ("length", "mass", "money", "number", "count")
"""Codecs of values that have digits."""
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
_COMMA = re.compile(r"\d,\d{1,2}(?!\d)|\d,\d{4,}|\d\.\d{3},\d")
_POINTED = re.compile(r"\d,\d{3}\.\d{1,2}(?!\d)")
_POINT_THREE = re.compile(r"(?<!\d)\d{1,3}(?:\.\d{3})+(?![\d.])")
_FIRM = " (?:contractor|company|crew|firm|installer|work)"
_WORKER = f"(?:s|er|ers)?(?:{_FIRM})?"
_DATE = re.compile(r"(\d{1,2})([/.-])(\d{1,2})\2(\d{2}|\d{4})")


def has_decimal_commas(cells: Iterable[str]) -> bool:
    """True when a cell of numbers has a comma that can only stand before a fraction: `57,1`, `1.299,00`."""
    return any(_COMMA.search(cell) for cell in cells)


def is_day_first(cells: Iterable[str], manner: Manner) -> bool:
    """Whether dates like `13/11/2026` in a column have the day first: as the job's owner writes, unless one cannot.

    Raises BadValue where some can only be one and some only the other.
    """
    first = second = False
    for cell in cells:
        if found := _DATE.fullmatch(cell.strip()):
            first |= int(found[1]) > 12
            second |= int(found[3]) > 12
    if first and second:
        raise BadValue("some dates here have the day first and some the month: write them like 2026-12-04")
    return first or (manner.day_first and not second)


def read_cell(field: Field, text: str, manner: Manner, *, unit: str = "", commas: bool = False) -> object:
    """The value of a cell. `unit` goes to bare numbers; `commas` says that the file writes fractions with a comma.

    Raises BadValue.
    """
    name = field.codec.name
    plain = text.strip()
    if name in NUMBERS and commas:
        plain = _pointed(plain)
    if unit and re.fullmatch(r"\d+(?:[.]\d+)?", plain):
        plain = f"{plain} {unit}"
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


def _pointed(text: str) -> str:
    """A number with a comma before its fraction, written with a point. Raises BadValue where it could be either."""
    if _POINTED.search(text):
        return text  # `1,299.00` stands among others of the other kind, and can mean one thing only
    if re.search(r"\d,\d", text):
        return re.sub(r"(?<=\d),(?=\d)", ".", re.sub(r"(?<=\d)\.(?=\d{3}(?:\D|$))", "", text))
    if _POINT_THREE.search(text):
        raise BadValue(f"{text[:40]!r} could be thousands or a fraction: other numbers of the file have a comma")
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
        return _count(low) or text
    if name == "number":
        found = re.fullmatch(r"(\d{1,3}(?:,\d{3})*|\d+)(\.\d+)?(?: ?[a-zµ²³°]{1,8})?", low)
        return (found[1].replace(",", "") + (found[2] or "")) if found else text
    return text


def _count(low: str) -> str:
    found = re.fullmatch(r"(\d{1,9})(?:\.0+)?(?: ?(x|pcs?|pieces?|days?|d|weeks?|wks?|w))?", low)
    if not found:
        return ""
    return str(int(found[1]) * (7 if (found[2] or "").startswith("w") else 1))


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
