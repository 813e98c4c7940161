"""Plain numbers with a unit behind them: watts, amps, volts, cubic inches, degrees, counts."""

from __future__ import annotations

import re

from store.measure.errors import BadValue

_FORM = r"-?(?:\d{1,12}(?:\.\d{1,9})?|\.\d{1,9})"


def parse_number(text: str, unit: str = "") -> float:
    """Read `1500`, `12.5` or `12.5 W` (the field's own unit only; `in3` is in³). Raises BadValue."""
    plain = text.strip().replace("−", "-")
    for written in (unit, unit.replace("³", "3").replace("²", "2")):
        if written and plain.lower().endswith(written.lower()):
            plain = plain[: -len(written)].strip()
            break
    if not re.fullmatch(_FORM, plain, re.ASCII):
        like = f"12.5 {unit}".strip()
        raise BadValue(
            f"{text.strip()[:40]!r} is not a number: write it like {like}" if plain else "a number is missing"
        )
    number = float(plain)
    if number < 0:
        raise BadValue("a number here cannot be negative")
    return number


def parse_count(text: str) -> int:
    """Read a whole number, zero or more. Raises BadValue."""
    plain = text.strip()
    if not plain.isascii() or not plain.isdigit() or len(plain) > 9:
        raise BadValue(f"{plain[:40]!r} is not a whole number: write it like 2" if plain else "a number is missing")
    return int(plain)


def show_number(number: float) -> str:
    """The shortest text that reads back to the same number, without an exponent: `12.5`, `1500`."""
    if isinstance(number, int):
        return str(number)
    if abs(number) < 1e15 and number == int(number):
        return str(int(number))
    text = f"{number:.9f}".rstrip("0")
    return text if float(text) == number else repr(number)
