"""Plain numbers with a unit behind them: watts, amps, volts, cubic inches, degrees, counts."""

from __future__ import annotations

import re
from fractions import Fraction

from store.measure.errors import BadValue, quoted

_FORM = (
    r"(?P<sign>-?)(?:(?P<whole>[1-9]\d{0,2}(?:,\d{3}){1,3}|[1-9]\d{0,2}(?: \d{3}){1,3}|\d{1,12})?(?P<part>\.\d{1,9})?)"
)
_BLANKS = str.maketrans({"\u00a0": " ", "\u2009": " ", "\u202f": " ", "−": "-"})
_DIGITS = r"\d[\d.,]*"
DECIMALS = 6
"""Decimals to which a number of another unit is converted."""
MOST = 10**12


def parse_number(text: str, unit: str = "") -> float:
    """Read `1500`, `1,500`, `12.5`, `12.5 W` or `1.5 kW`: in the field's own unit, or in one of its kind.

    A comma or a space only groups thousands. What is of another unit is converted exactly, to the nearest millionth.
    Raises BadValue, also for a unit of another kind.
    """
    typed = text.strip()
    plain = " ".join(typed.translate(_BLANKS).split())
    number, written = _split(plain, unit)
    found = re.fullmatch(_FORM, number, re.ASCII)
    if found is None or (found["whole"] is None and found["part"] is None):
        like = f"12.5 {unit}".strip()
        raise BadValue(
            f"{quoted(typed)} is not a number. Write {like}." if number else f"no number entered. Write {like}."
        )
    if found["sign"]:
        raise BadValue("a number here can't be less than zero. Leave out the minus sign.")
    digits = (found["whole"] or "0").replace(",", "").replace(" ", "") + (found["part"] or "")
    return float(digits) if not written else _converted(Fraction(digits), written, unit, typed)


def _split(plain: str, unit: str) -> tuple[str, str]:
    """The digits of a text, and its unit where that is not the field's own; the unit stays where it is unknown."""
    for own in (unit, unit.replace("³", "3").replace("²", "2")):
        if own and plain.lower().endswith(own.lower()) and not plain[: -len(own)].rstrip()[-1:].isalpha():
            return plain[: -len(own)].strip(), ""
    found = re.fullmatch(rf"(-?(?:{_DIGITS}(?: \d{{3}})*|\.\d+)) ?(\D.*)", plain, re.ASCII)
    if found is None or not unit:
        return plain, ""
    from store.measure.quantity import unit_named  # few numbers come with a unit of their own

    written = unit_named(found[2])
    return (found[1].rstrip(), "" if written == unit else written) if written else (plain, "")


def _converted(number: Fraction, written: str, unit: str, typed: str) -> float:
    """A number of one unit in another. Raises BadValue where they are of different kinds."""
    from store.measure.quantity import about, worth

    each = worth(written, unit)
    if each is None:
        raise BadValue(f"{quoted(typed)} is not in {unit}: {about(written)}. Enter it in {unit}.")
    found = round(number * each, DECIMALS)
    if number and not found:
        raise BadValue(f"{quoted(typed)} is less than a millionth of 1 {unit}. Check the unit.")
    if found >= MOST:
        raise BadValue(f"{quoted(typed)} is too large a number of {unit}. Check the unit.")
    return float(found)


def parse_count(text: str) -> int:
    """Read a whole number, zero or more; a comma only groups thousands. Raises BadValue."""
    plain = text.strip()
    digits = plain.replace(",", "") if re.fullmatch(r"[1-9]\d{0,2}(?:,\d{3})+", plain, re.ASCII) else plain
    if not digits.isascii() or not digits.isdigit() or len(digits) > 9:
        raise BadValue(f"{quoted(plain)} is not a whole number. Write 2." if plain else "no number entered. Write 2.")
    return int(digits)


def show_number(number: float) -> str:
    """The shortest text that reads back to the same number, without an exponent: `12.5`, `1500`."""
    if isinstance(number, int):
        return str(number)
    if abs(number) < 1e15 and number == int(number):
        return str(int(number))
    text = f"{number:.9f}".rstrip("0")
    return text if float(text) == number else repr(number)


# --- the sign before a fraction ---


def pointed(text: str, comma: bool) -> str:
    """A typed value with a point before each fraction, of someone who writes a comma there (`comma`), or not.

    `1.234,55` is 1234.55 to both, as both signs are there. Alone, a sign with three digits behind it is taken as its
    writer takes it: `1.234` is 1234 to whom a comma stands before the fraction, and so is `1,234` to anybody else.
    """
    if "," not in text and (not comma or "." not in text):
        return text
    return re.sub(_DIGITS, lambda found: _pointed(found[0], comma), text, flags=re.ASCII)


def _pointed(number: str, comma: bool) -> str:
    last = max(number.rfind(","), number.rfind("."))
    tail = "" if last < len(number) - 1 else number[last:]
    body = number[: len(number) - len(tail)] if tail else number
    if "," in body and "." in body:
        if body.rfind(",") > body.rfind(".") and re.fullmatch(r"[1-9]\d{0,2}(?:\.\d{3})+,\d+", body, re.ASCII):
            return body.replace(".", "").replace(",", ".") + tail
        return number
    if not comma:
        return number
    if re.fullmatch(r"[1-9]\d{0,2}(?:\.\d{3})+", body, re.ASCII):
        return body.replace(".", "") + tail
    return body.replace(",", ".") + tail if body.count(",") == 1 else number


def commaed(text: str) -> str:
    """The edited text of a value (`1,234.55`, `17.25 kg`) as someone writes it who has a comma before the fraction."""
    return re.sub(_DIGITS, lambda found: found[0].replace(",", "").replace(".", ","), text, flags=re.ASCII)


def with_unit(number: float, unit: str, *, metric: bool = False, places: int | None = None) -> str:
    """A number with its unit, as the trade writes it: `420 W`, `12.5 A`, `18 in³`; `3.2%`, in a metric job `3.2 %`.

    `places` rounds to so many decimals first; unneeded noughts are never shown.
    """
    shown = show_number(number if places is None else round(number, places))
    if unit == "%":
        return f"{shown} %" if metric else f"{shown}%"
    return f"{shown}°" if unit == "°" else f"{shown} {unit}".strip()
