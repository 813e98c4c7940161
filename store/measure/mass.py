"""Masses: whole micrograms, and whether they were given in pounds or in kilograms, so that they are shown as they came.

One avoirdupois pound is 0.453 592 37 kg exactly (international agreement of 1959; NIST SP 811); pounds with decimals
are held to the nearest microgram, which is far below any scale, and shown with the decimals that were typed.
"""

from __future__ import annotations

import re
from decimal import Decimal

from store.measure.errors import BadValue, quoted

POUND_UG = 453_592_370
KILOGRAM_UG = 1_000_000_000
_UNITS_UG = {"lb": POUND_UG, "lbs": POUND_UG, "kg": KILOGRAM_UG, "g": KILOGRAM_UG // 1000}
_NAMES = {
    "pound": "lb", "pounds": "lb", "kgs": "kg", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg",
    "gram": "g", "grams": "g", "ounce": "oz", "ounces": "oz",
}  # fmt: skip
_GROUPED = r"[1-9]\d{0,2}(?:,\d{3})+(?![\d,])"
_FORM = r"(\d{1,12}(?:\.\d{1,9})?|\.\d{1,9})\s*([a-z]*)\.?"


class Mass:
    """A mass in micrograms; equal when as heavy, however it was written."""

    __slots__ = ("metric", "ug")
    ug: int
    metric: bool

    def __init__(self, ug: int, metric: bool = False) -> None:
        self.ug = ug
        self.metric = metric

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Mass) and self.ug == other.ug

    def __hash__(self) -> int:
        return hash(self.ug)

    def __repr__(self) -> str:
        return f"Mass({show_mass(self)!r})"

    @property
    def pounds(self) -> float:
        """The mass in pounds (the weight in pound-force on the wall)."""
        return self.ug / POUND_UG

    @property
    def kilograms(self) -> float:
        """The mass in kilograms."""
        return self.ug / KILOGRAM_UG


def parse_mass(text: str, metric: bool = False) -> Mass:
    """Read `65 lb`, `29.5 kg` or a bare number in the job's unit. Raises BadValue."""
    plain = text.strip().lower()
    if "," in plain:  # `1,500 lb`; any other comma is refused below
        plain = re.sub(rf"^{_GROUPED}", lambda found: found[0].replace(",", ""), plain, flags=re.ASCII)
    if not plain:
        raise BadValue("no weight entered. Write 65 lb or 29.5 kg.")
    found = re.fullmatch(_FORM, plain, re.ASCII) if len(plain) <= 30 else None
    unit = (_NAMES.get(found[2], found[2]) or ("kg" if metric else "lb")) if found else ""
    if found is not None and unit == "oz":
        return parse_mass(f"{Decimal(found[1]) / 16:.9f} lb")
    if found is None or unit not in _UNITS_UG:
        raise BadValue(f"{quoted(text)} is not a weight. Write 65 lb or 29.5 kg.")
    ug = _micrograms(found[1], _UNITS_UG[unit])
    if ug > 10_000 * KILOGRAM_UG:
        raise BadValue(f"{quoted(text)} is more than 10,000 kg (22,046 lb). Check the unit.")
    return Mass(ug, unit in ("kg", "g"))


def show_mass(mass: Mass) -> str:
    """The mass as it was given: `65 lb` or `29.5 kg`; reads back to the same value."""
    unit_ug, unit = (KILOGRAM_UG, "kg") if mass.metric else (POUND_UG, "lb")
    number = Decimal(mass.ug) / unit_ug
    # The fewest decimals that read back to the same mass; nine do, as no unit has more than 10**9 micrograms.
    places = 0
    while places < 9 and _micrograms(f"{number:.{places}f}", unit_ug) != mass.ug:
        places += 1
    return f"{number:.{places}f} {unit}"


def mass_text(mass: Mass, metric: bool) -> str:
    """The mass in the unit of the job; `~` before one that was given in the other unit."""
    if mass.metric == metric:
        return show_mass(mass)
    tenths = f"{mass.kilograms:.1f}" if metric else f"{mass.pounds:.1f}"
    return f"~{tenths.removesuffix('.0')} {'kg' if metric else 'lb'}"


def _micrograms(number: str, unit_ug: int) -> int:
    """A decimal number of a unit, to the nearest microgram."""
    return int((Decimal(number) * unit_ug).to_integral_value())
