"""The unit that the heading of a column names: `watts (kW)`, `Width [mm]`, `Depth in.`, `price EUR`, `Lead (weeks)`.

It goes to the bare numbers below it. One that does not fit the field is refused, rather than left out without a word.
"""

from __future__ import annotations

import re

from store.measure.money import currencies_of
from store.measure.quantity import about, kind_of, unit_named, worth
from store.records.field import NUMERIC, Field, Manner

_BRACKETED = re.compile(r"[(\[]([^)\]]*)[)\]]")
_PER = re.compile(r"(?:\bper\s+|/\s*)([A-Za-z.]+)")
_HARMLESS = frozenset({
    "each", "ea", "est", "max", "min", "net", "gross", "out", "all", "one", "new", "old", "now", "sum", "tot", "total",
    "x", "y", "z", "w", "h", "d", "l", "no", "nr", "yes", "or", "of", "to", "incl", "excl", "tax", "vat", "avg", "rms",
    "peak", "nom", "typ", "idle", "type", "left", "top", "side", "tag", "opt",
})  # fmt: skip
"""Short words in brackets that are not units."""
NOT_A_UNIT = "is not a known unit"
"""What is said of a word in brackets that looks like a unit; whoever names the field of a column is not told it."""
_COUNTED = {
    "day": "days",
    "days": "days",
    "d": "days",
    "week": "weeks",
    "weeks": "weeks",
    "wk": "weeks",
    "wks": "weeks",
}
_MULTIPLES = frozenset({
    "k", "m", "mn", "mio", "thousand", "thousands", "million", "millions", "000", "'000", "000s", "x1000", "x 1000",
    "1000s", "hundreds", "cent", "cents", "ct", "cts", "pence",
})  # fmt: skip
"""Words beside or in the place of a currency that say that an amount is many of it, or a part."""
_STRANGE = frozenset({
    "stone", "stones", "furlong", "furlongs", "chain", "chains", "rod", "rods", "hand", "hands", "pixel", "pixels",
    "point", "points", "horsepower", "ton", "tons", "tonne", "tonnes", "grain", "grains",
})  # fmt: skip
"""Units that are not known here, written out; other long words in brackets are remarks, like `overall`."""
_NO_DAYS = frozenset({"month", "months", "hours", "hrs", "h", "business days", "working days", "workdays"})


def unit_of_heading(name: str, field: Field, manner: Manner) -> tuple[str, str]:
    """The unit of a column's bare numbers (empty: that of the field or the job), and what is wrong with it in words."""
    if field.codec.name not in NUMERIC or name.strip().lower() == field.says.title.lower():
        return "", ""  # its very title, as `LEDs per foot`, says what it counts, and no unit
    bracketed = _BRACKETED.search(name)
    inside = " ".join(bracketed[1].split()).lower().rstrip(".") if bracketed else ""
    if field.codec.name == "money":
        return _currency(name, inside, manner.currency.strip().upper())
    last, alone = _last_word(name)
    if field.codec.name == "count":
        return _counted(field, inside or ("" if alone else last.lower()))
    return _measured(name, field, bracketed[1].strip() if bracketed else "", "" if alone else last)


def _last_word(name: str) -> tuple[str, bool]:
    """The last word of a heading, and whether it is the only one."""
    words = re.split(r"[\s,_]+", _BRACKETED.sub(" ", name).strip())
    return words[-1], len(words) < 2


def _measured(name: str, field: Field, inside: str, last: str) -> tuple[str, str]:
    """The unit of a length, a weight or a number."""
    own = {"length": "mm", "mass": "kg"}.get(field.codec.name, field.says.unit)
    initial = name.strip()[:1].lower()
    if inside and not (len(inside) == 1 and inside.lower() == initial and inside != own):
        unit = unit_named(inside)
        if not unit:
            short = re.fullmatch(r"[^\W\d_]{1,4}[²³23]?", inside) and inside.lower() not in _HARMLESS
            unknown = short or inside.lower() in _STRANGE
            return "", f"{inside!r} {NOT_A_UNIT} for {field.says.title}" if unknown else ""
        return (unit, "") if worth(unit, own) is not None else ("", _other_kind(unit, field, own))
    unit = unit_named(last)
    if not unit or (len(last) == 1 and last.lower() == initial):
        return "", ""
    if worth(unit, own) is not None:
        return unit, ""
    # The last word of a name may be many things (`Time in`); a unit of some length is meant as one.
    return "", _other_kind(unit, field, own) if len(last) > 2 and last.lower() not in _HARMLESS else ""


def _other_kind(unit: str, field: Field, own: str) -> str:
    wanted = f"in {own}" if kind_of(own) else "a number without a unit"
    return f"{about(unit)}, and {field.says.title} is {wanted}"


def _currency(name: str, inside: str, own: str) -> tuple[str, str]:
    """The currency of a column of amounts; only that of the job will do, as nobody here knows what another is worth."""
    if (per := _PER.search(name)) and unit_named(per[1]):
        return "", f"it is a price for each {per[1]}, and an amount here is for the whole"
    if (bare := re.sub(rf"[$€£¥₩₹₪₺₴฿₱₫]|\b{re.escape(own.lower())}\b|\bin\b", "", inside).strip()) in _MULTIPLES:
        return "", f"{bare} is not a whole amount: write whole amounts, in {own or 'the currency of the job'}"
    tokens = [inside, *re.findall(r"[A-Z]{0,3}[$€£¥₩₹₪₺₴฿₱₫]|\b[A-Z]{3}\b", name)]
    for token in tokens:
        meant = currencies_of(token) if token else ()
        if meant and own and own not in meant:
            return (
                "",
                f"amounts are in {token.strip().upper()}, not in {own}. Convert them first.",
            )
    return "", ""


def _counted(field: Field, words: str) -> tuple[str, str]:
    """What a column of whole numbers counts."""
    if "day" not in field.says.title:
        return "", ""
    if words in _NO_DAYS:
        return "", f"{words} cannot be read as days: write calendar days"
    unit = _COUNTED.get(words, "")
    return ("weeks", "") if unit == "weeks" else ("", "")
