"""Lengths, exact: an integer of nanometres that remembers whether it was given in inches or in millimetres.

One inch is 25.4 mm exactly (international yard agreement of 1959; NIST SP 811), so 1/64 in is 396 875 nm and
every fraction that a tape shows, and every decimal of a millimetre down to the nanometre, is held exactly.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Context, Decimal

from store.measure.errors import BadValue, quoted

INCH_NM = 25_400_000
FOOT_NM = 12 * INCH_NM
MM_NM = 1_000_000
SIXTY_FOURTH_NM = INCH_NM // 64
SIXTEENTH_NM = INCH_NM // 16
LONGEST_NM = 1_000 * FOOT_NM
"""Nothing about one wall is longer than 1,000 ft; a larger figure is a slip of the hand."""

_EXACTLY = Context(prec=60)
"""More digits than anything that can be typed here, so that no product is rounded on the way."""
_METRIC_NM = {"mm": MM_NM, "cm": 10 * MM_NM, "m": 1_000 * MM_NM}
_UNIT_WORDS = {
    "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    "inch": "in", "inches": "in", "ins": "in", "foot": "ft", "feet": "ft",
}  # fmt: skip
_SIGNS = str.maketrans({
    "’": "'", "‘": "'", "′": "'", "´": "'", "`": "'", "“": '"', "”": '"', "″": '"', "„": '"',
    "\u00a0": " ", "\u2009": " ", "\u202f": " ", "–": "-", "—": "-", "−": "-", "‐": "-", "‑": "-", "⁄": "/",
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
})  # fmt: skip
_NUMBER = r"(?:\d+(?:\.\d+)?|\.\d+)"
_INCHES = rf"(?:(?P<whole>{_NUMBER})(?:[ -]+(?P<num>\d+)/(?P<den>\d+))?|(?P<num2>\d+)/(?P<den2>\d+))"
# Patterns stay text: `re` compiles each once, when a length is first typed, and reading a file needs none of them.
_IMPERIAL = rf"(?:(?P<feet>{_NUMBER})\s*(?:'|ft\.?)\s*-?\s*)?(?:{_INCHES}\s*(?P<mark>\"|in\.?)?)?"
_METRIC = rf"(?P<number>{_NUMBER})\s*(?P<unit>mm|cm|m)"
_LIKE = "Write 17-1/8 or 435 mm."
_COMMA = r"(\d+),(\d{1,2})(?!\d)(?=\s*(?:mm|cm|m)?$)"


class Length:
    """A length in nanometres. Two lengths are equal when they are as long, however they were written."""

    __slots__ = ("metric", "nm")
    nm: int
    """The length, nanometres; may be negative as the result of a subtraction."""
    metric: bool
    """True when it was given in millimetres, so that it is written back as it came."""

    def __init__(self, nm: int, metric: bool = False) -> None:
        self.nm = nm
        self.metric = metric

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Length) and self.nm == other.nm

    def __hash__(self) -> int:
        return hash(self.nm)

    def __lt__(self, other: Length) -> bool:
        return self.nm < other.nm

    def __le__(self, other: Length) -> bool:
        return self.nm <= other.nm

    def __add__(self, other: Length) -> Length:
        return Length(self.nm + other.nm, self.metric)

    def __sub__(self, other: Length) -> Length:
        return Length(self.nm - other.nm, self.metric)

    def __neg__(self) -> Length:
        return Length(-self.nm, self.metric)

    def __repr__(self) -> str:
        return f"Length({to_file(self)!r})"

    @property
    def mm(self) -> float:
        """The length in millimetres."""
        return self.nm / MM_NM

    @property
    def inches(self) -> float:
        """The length in inches."""
        return self.nm / INCH_NM


def inches(number: float) -> Length:
    """A length from a number of inches, to the nearest nanometre."""
    return Length(round(number * INCH_NM))


def millimetres(number: float) -> Length:
    """A length from a number of millimetres, to the nearest nanometre."""
    return Length(round(number * MM_NM), metric=True)


def parse_length(text: str, metric: bool = False, *, signed: bool = False, most: int | None = LONGEST_NM) -> Length:
    """Read a length as people write it: `6' 3-1/2"`, `6ft 3 1/2in`, `75.5"`, `75 1/2`, `1.9m`, `190cm`.

    A bare number takes the job's unit: millimetres when `metric`, else inches. A decimal comma is taken only
    with one or two digits behind it and a metric unit (`1,9 m`); anything else with a comma is refused.
    `signed` allows a minus in front; `most` is the longest that is taken, nanometres, None for any that the program
    calculated itself. Raises BadValue with a sentence for the person.
    """
    plain = " ".join(text.translate(_SIGNS).replace("''", '"').lower().split())
    if not plain:
        raise BadValue(f"no length entered. {_LIKE}")
    if len(plain) > 40:
        raise BadValue(f"too long for a length. {_LIKE}")
    if plain.startswith("~"):
        raise BadValue("~ marks a rounded figure. Enter the exact length without it.")
    negative = plain.startswith("-")
    if negative and not signed:
        raise BadValue("a length can't be less than zero. Leave out the minus sign.")
    plain = re.sub(r"[a-z]+", lambda word: _UNIT_WORDS.get(word[0], word[0]), plain[negative:].strip())
    nm, in_metric = _read_plain(plain, metric, text.strip())
    if most is not None and nm > most:
        raise BadValue(f"{quoted(text)} is longer than 1,000 ft (305 m). Check the unit.")
    return Length(-nm if negative else nm, in_metric)


def _read_plain(plain: str, metric: bool, typed: str) -> tuple[int, bool]:
    """The nanometres of a cleaned text, and whether it was metric."""
    if "," in plain:
        plain = _read_comma(plain, metric)
    if plain.replace(".", "", 1).isdigit() and plain.isascii():
        plain += " mm" if metric else " in"
    if found := re.fullmatch(_METRIC, plain, re.ASCII):
        return _exact(found["number"], _METRIC_NM[found["unit"]], typed), True
    found = re.fullmatch(_IMPERIAL, plain, re.ASCII)
    if found is None or not any(found.groups()):
        raise BadValue(f"{quoted(typed)} is not a length. {_LIKE}")
    if metric and found["feet"] is None and found["mark"] is None:
        raise BadValue(f"{quoted(typed)} has no unit. This job is in millimeters: add in or mm.")
    return _read_imperial(found, typed), False


def _read_comma(plain: str, metric: bool) -> str:
    """The text with a decimal comma turned into a point, where that can mean one thing only."""
    found = re.match(_COMMA, plain, re.ASCII)
    if found and plain.count(",") == 1 and (metric or plain.endswith("m")):
        return plain.replace(",", ".")
    raise BadValue("a comma can mean two things. Write 1.9 m or 1900 mm: a point, and no mark for thousands.")


def _read_imperial(found: re.Match[str], typed: str) -> int:
    """Nanometres of a feet-and-inches match."""
    feet, whole = found["feet"], found["whole"]
    num, den = found["num"] or found["num2"], found["den"] or found["den2"]
    if feet is not None and "." in feet and (whole or num):
        raise BadValue(f"{quoted(typed)} mixes decimal feet with inches. Write 6.5 ft or 6'-6\".")
    if whole is not None and "." in whole and num:
        raise BadValue(f"{quoted(typed)} mixes a decimal with a fraction. Write 75.5 in or 75-1/2.")
    nm = _exact(feet or "0", FOOT_NM, typed) + _exact(whole or "0", INCH_NM, typed)
    if num:
        nm += _fraction(int(num), int(den), typed)
    if feet is not None and nm - _exact(feet, FOOT_NM, typed) >= FOOT_NM:
        raise BadValue(f"{quoted(typed)} has 12 inches or more after the feet. Write inches alone, or carry the foot.")
    return nm


def _fraction(num: int, den: int, typed: str) -> int:
    """Nanometres of a fraction of an inch as a tape shows it."""
    if den not in (2, 4, 8, 16, 32, 64):
        raise BadValue(
            f"{quoted(typed)} is not a tape fraction. Write halves, quarters, 8ths, 16ths, 32nds or 64ths, not /{den}."
        )
    if not 0 < num < den:
        raise BadValue(f"{quoted(typed)} has {num}/{den}, which is 1 or more. Write the whole inches in front.")
    return num * INCH_NM // den


def _exact(number: str, unit_nm: int, typed: str) -> int:
    """A decimal number of a unit as a whole count of nanometres."""
    nm = _EXACTLY.multiply(Decimal(number), unit_nm)
    if nm != nm.to_integral_value():
        raise BadValue(f"{quoted(typed)} is too fine to keep. Leave out the last decimals.")
    return int(nm)


# --- the text in the file ---

_FROM_FILE: dict[str, Length] = {}


def to_file(length: Length) -> str:
    """The exact text kept in the file: `75 1/2 in` or `1917.7 mm`; from_file reads back the same value."""
    nm = length.nm
    sign = "-" if nm < 0 else ""
    if not length.metric:
        if nm % SIXTY_FOURTH_NM == 0:
            return f"{sign}{_fraction_text(abs(nm) // SIXTY_FOURTH_NM)} in"
        tenths_of_micro_inch = Decimal(abs(nm)) * 10_000_000 / INCH_NM
        if tenths_of_micro_inch == tenths_of_micro_inch.to_integral_value():
            return f"{sign}{_decimal_text(Decimal(abs(nm)) / INCH_NM)} in"
    return f"{sign}{_decimal_text(Decimal(abs(nm)) / MM_NM)} mm"


def from_file(text: str) -> Length:
    """Read a length of the file; the unit must be there. Raises BadValue."""
    known = _FROM_FILE.get(text)
    if known is None:
        if not text.endswith((" in", " mm")):
            raise BadValue(
                f"{quoted(text)} is not a length of the file. Correct it: it needs ' in' or ' mm' at its end."
            )
        known = _plain_inches(text) or parse_length(text, signed=True)
        if len(_FROM_FILE) > 50_000:
            _FROM_FILE.clear()
        _FROM_FILE[text] = known
    return known


def _plain_inches(text: str) -> Length | None:
    """The most usual text of a file, `75 in` or `75 1/2 in`, without the patterns; None for any other."""
    words = text.split(" ")
    if words[-1] != "in" or not words[0].isdecimal() or len(words) > 3 or len(text) > 12 or not text.isascii():
        return None
    nm = int(words[0]) * INCH_NM
    if len(words) == 3:
        num, slash, den = words[1].partition("/")
        if not (slash and num.isdecimal() and den in ("2", "4", "8", "16", "32", "64") and 0 < int(num) < int(den)):
            return None
        nm += int(num) * INCH_NM // int(den)
    return Length(nm) if nm <= LONGEST_NM else None


def _fraction_text(sixty_fourths: int) -> str:
    """Inches with a fraction in lowest terms: 4832 -> `75 1/2`."""
    whole, rest = divmod(sixty_fourths, 64)
    if not rest:
        return str(whole)
    den = 64
    while rest % 2 == 0:
        rest, den = rest // 2, den // 2
    return f"{whole} {rest}/{den}" if whole else f"{rest}/{den}"


def _decimal_text(number: Decimal) -> str:
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


# --- the text on the screen ---

SIZE_MOST_NM = 6 * FOOT_NM
"""A size of a thing stays in inches up to 72 in, as manufacturers and shops write it."""


def show_length(length: Length, metric: bool = False) -> str:
    """A place, a run or the size of a wall, to 1/16 in (`8'-0 1/16"`) or to 1 mm (`1918 mm`); `~` when rounded.

    Feet and inches are written as on US construction drawings: from 12 in up with feet and a dash.
    """
    return _shown(length, metric, _feet_text)


def show_size(length: Length, metric: bool = False) -> str:
    """The size or depth of a thing, or a clearance: in inches up to 72 in (`17-1/8"`), above that as a place is."""
    return _shown(length, metric, _size_text)


def show_pair(width: Length, height: Length, metric: bool = False) -> str:
    """Width by height of a panel, a plate or a rough opening: `12" x 10"` or `300 x 250 mm`."""
    first, second = show_size(width, metric), show_size(height, metric)
    return f"{first.removesuffix(' mm')} x {second}"


def typed_length(length: Length, metric: bool = False, *, size: bool = False) -> str:
    """The text that a form shows for editing: never rounded, reads back to the same value."""
    if (metric and length.metric) or length.nm % SIXTY_FOURTH_NM:
        return to_file(Length(length.nm, True)) if metric and length.metric else to_file(length)
    sign = "-" if length.nm < 0 else ""
    return sign + (_size_text if size else _feet_text)(abs(length.nm) // SIXTY_FOURTH_NM)


def _shown(length: Length, metric: bool, imperial: Callable[[int], str]) -> str:
    step = MM_NM if metric else SIXTEENTH_NM
    steps = (abs(length.nm) + step // 2) // step
    mark = "" if steps * step == abs(length.nm) else "~"
    sign = "-" if length.nm < 0 and steps else ""
    return f"{mark}{sign}{steps} mm" if metric else f"{mark}{sign}{imperial(steps * 4)}"


def _feet_text(sixty_fourths: int) -> str:
    """`7-1/8"` under 12 in, from there on `8'-0 1/16"`."""
    feet, rest = divmod(sixty_fourths, 12 * 64)
    if not feet:
        return _inch_text(sixty_fourths)
    whole, part = divmod(rest, 64)
    return f"{feet}'-{whole}{f' {_fraction_text(part)}' if part else ''}\""


def _size_text(sixty_fourths: int) -> str:
    """`17-1/8"` up to 72 in."""
    long = sixty_fourths * SIXTY_FOURTH_NM > SIZE_MOST_NM
    return _feet_text(sixty_fourths) if long else _inch_text(sixty_fourths)


def _inch_text(sixty_fourths: int) -> str:
    return _fraction_text(sixty_fourths).replace(" ", "-") + '"'


# --- the text that is kept ---


def kept_length(length: Length, metric: bool = False) -> str:
    """A length as sign-offs, answers and `--json` keep it: `6' 3 1/2"`, `1918 mm`.

    Kept texts are compared with new ones later, so this form never changes with what the screen shows.
    """
    return _shown(length, metric, _kept_feet)


def exact_length(length: Length, metric: bool = False) -> str:
    """A length as csv has it: never rounded, reads back to the same value."""
    if metric:
        return to_file(Length(length.nm, True)) if length.metric else to_file(length)
    if length.nm % SIXTY_FOURTH_NM:
        return to_file(length)
    sign = "-" if length.nm < 0 else ""
    return sign + _kept_feet(abs(length.nm) // SIXTY_FOURTH_NM)


def _kept_feet(sixty_fourths: int) -> str:
    feet, rest = divmod(sixty_fourths, 12 * 64)
    if not feet:
        return f'{_fraction_text(rest)}"'
    return f"{feet}' {_fraction_text(rest)}\"" if rest else f"{feet}'"
