"""Units that people write beside a number: a closed table, each exact in the unit that a field is kept in.

Factors are those of NIST SP 811 (2008), appendix B.8; litre, minute and hour by the SI brochure (9th edition, table 8).
A unit that is not on the table is no unit; one of another kind is shown as what it is.
"""

from __future__ import annotations

from fractions import Fraction

_INCH_CM = Fraction(254, 100)
_BTU_J = Fraction("1055.05585262")
_HORSEPOWER_W = 550 * Fraction("0.3048") * Fraction("0.45359237") * Fraction("9.80665")
_CUBIC_CM = 1 / _INCH_CM**3
_SQUARE_CM = 1 / _INCH_CM**2
_CUBIC_METRE_FT = 1 / Fraction("0.3048") ** 3

UNITS: dict[str, dict[str, Fraction]] = {
    "W": {"W": Fraction(1), "kW": Fraction(1000), "mW": Fraction(1, 1000), "BTU/h": _BTU_J / 3600, "hp": _HORSEPOWER_W},
    "A": {"A": Fraction(1), "mA": Fraction(1, 1000)},
    "V": {"V": Fraction(1), "kV": Fraction(1000), "mV": Fraction(1, 1000)},
    "h": {"h": Fraction(1), "min": Fraction(1, 60), "s": Fraction(1, 3600)},
    "in³": {
        "in³": Fraction(1), "cm³": _CUBIC_CM, "L": 1000 * _CUBIC_CM, "mm³": _CUBIC_CM / 1000, "ft³": Fraction(1728),
        "gal": Fraction(231),
    },
    "in²": {"in²": Fraction(1), "cm²": _SQUARE_CM, "mm²": _SQUARE_CM / 100, "ft²": Fraction(144)},
    "cfm": {
        "cfm": Fraction(1), "m³/h": _CUBIC_METRE_FT / 60, "L/s": _CUBIC_METRE_FT * 60 / 1000,
        "m³/min": _CUBIC_METRE_FT,
    },
    "%": {"%": Fraction(1)},
    "°": {"°": Fraction(1)},
    "d": {"d": Fraction(1)},
    "mm": {
        "mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": Fraction(254, 10),
        "ft": Fraction(3048, 10), "yd": Fraction(9144, 10),
    },
    "kg": {
        "kg": Fraction(1), "g": Fraction(1, 1000), "lb": Fraction("0.45359237"), "oz": Fraction("0.45359237") / 16,
    },
}  # fmt: skip
"""What each unit is worth in the unit that heads its row: the one that a field of that kind is kept in."""

KINDS = {
    "W": "power", "A": "current", "V": "voltage", "h": "time", "in³": "volume", "in²": "area", "cfm": "air flow",
    "%": "share", "°": "angle", "d": "days", "mm": "length", "kg": "weight",
}  # fmt: skip
_ALIASES = {
    "W": "watt,watts,w", "kW": "kw,kilowatt,kilowatts", "mW": "milliwatt,milliwatts",
    "BTU/h": "btu/h,btu/hr,btuh,btu per hour", "hp": "horsepower",
    "A": "a,amp,amps,ampere,amperes", "mA": "ma,milliamp,milliamps,milliampere,milliamperes",
    "V": "v,volt,volts,vac,vdc,v ac,v dc", "kV": "kv,kilovolt,kilovolts", "mV": "millivolt,millivolts",
    "h": "hr,hrs,hour,hours", "min": "mins,minute,minutes", "s": "sec,secs,second,seconds",
    "in³": "in3,in^3,cu in,cu.in,cu. in,cuin,cubic in,cubic inch,cubic inches",
    "cm³": "cm3,cm^3,cc,ccm,ml,cubic cm,cubic centimetres,cubic centimeters", "mm³": "mm3,mm^3",
    "L": "l,liter,liters,litre,litres", "ft³": "ft3,ft^3,cu ft,cubic ft,cubic feet", "gal": "gallon,gallons",
    "in²": "in2,in^2,sq in,sq.in,sq. in,sqin,square inch,square inches", "cm²": "cm2,cm^2,sq cm,sqcm",
    "mm²": "mm2,mm^2,sq mm", "ft²": "ft2,ft^2,sq ft,sqft,square feet",
    "cfm": "cu ft/min,ft3/min,ft³/min", "m³/h": "m3/h,m^3/h,m3/hr,m³/hr,cmh,cbm/h", "L/s": "l/s",
    "m³/min": "m3/min,m^3/min",
    "%": "percent,pct,per cent", "°": "deg,degree,degrees",
    "d": "day,days,working day,working days,workday,workdays,business days",
    "mm": "millimetre,millimetres,millimeter,millimeters",
    "cm": "centimetre,centimetres,centimeter,centimeters", "m": "metre,metres,meter,meters",
    "in": 'ins,inch,inches,"', "ft": "foot,feet,'", "yd": "yds,yard,yards",
    "kg": "kgs,kilo,kilos,kilogram,kilograms", "g": "gram,grams,gramme,grammes", "lb": "lbs,pound,pounds",
    "oz": "ounce,ounces",
}  # fmt: skip
_EXACT = frozenset({"mW", "MW", "mA", "MA", "mV", "MV"})
"""Where a large first letter would mean a thousand million times as much."""
_NAMES = {name: unit for unit, names in _ALIASES.items() for name in (unit.lower(), *names.split(","))}
_KIND_OF = {unit: kind for kind, row in UNITS.items() for unit in row}


def unit_named(words: str) -> str:
    """The unit of the table that is meant: `cm3` is `cm³`, `Amps` is `A`; empty where it is none.

    `MW`, `MA` and `MV` are none: who writes them may mean a thousandth, or a million.
    """
    plain = " ".join(words.split()).rstrip(".") if words.strip() != "." else ""
    if plain in _KIND_OF:
        return plain
    if plain.upper() in ("MW", "MA", "MV") and plain not in ("ma", "mw", "mv"):
        return ""
    if plain in ("mw", "mv"):
        return {"mw": "mW", "mv": "mV"}[plain]
    return _NAMES.get(plain.lower(), "")


def kind_of(unit: str) -> str:
    """The unit that a unit's own kind is kept in: `W` for `kW`; empty for a unit that is not on the table."""
    return _KIND_OF.get(unit, "")


def worth(unit: str, wanted: str) -> Fraction | None:
    """How many of the wanted unit one of a unit is, exactly; None where they are not of one kind.

    `wanted` may be any unit of the table, `unit` too.
    """
    kind = kind_of(wanted)
    if not kind or unit not in UNITS[kind]:
        return None
    return UNITS[kind][unit] / UNITS[kind][wanted]


def about(unit: str) -> str:
    """`kW is a power`: what a unit is, for who used it for something else."""
    return f"{unit} is {_article(KINDS[kind_of(unit)])}"


def _article(noun: str) -> str:
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}" if noun != "days" else "a number of days"
