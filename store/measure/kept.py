"""The form of lengths that is kept: in answers, sign-offs and `--json`. It never changes with what the screen shows.

An answer stands while the numbers of its finding stay the same; they are compared as text, so both sides are first
brought into this one form.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from store.measure.errors import BadValue
from store.measure.length import SIXTY_FOURTH_NM, kept_length, parse_length, show_length
from store.measure.mass import mass_text, parse_mass

_LENGTH = r"(?<![\w'/.])(?:\d+'(?:[- ](?:\d+(?: \d+/\d+)?|\d+/\d+)\")?|\d+(?:[- ]\d+/\d+)?\"|\d+/\d+\")"
_AS_FILED = r"(?<![\w./-])\d+(?: \d+/\d+|/\d+|\.\d+)? (?:in|mm)(?![\w-])"
"""A length as the job file has it: `27 1/4 in`, `1917.7 mm`."""
_MASS = r"(?<![\w./-])\d+(?:\.\d+)? kg(?![\w-])"
ROUNDING_LB = 0.001
"""A mass is kept to a ten-thousandth of a kilogram."""
_NAMED = r"\b([A-Z]\d+) \(([^()]*)\)"


@lru_cache(8_192)
def kept_text(text: str) -> str:
    """A text with every length in feet and inches in the form that is kept: `8'-0 1/16"` becomes `8' 1/16"`.

    However long it is, as a run may be longer than anything that is typed; what only looks like one stays as it is.
    """
    if "'" not in text and '"' not in text:
        return text
    return re.sub(_LENGTH, _kept, text)


def _kept(found: re.Match[str]) -> str:
    try:
        length = parse_length(found[0], most=None)
    except BadValue:  # a name that somebody typed, such as `Shelf 5'-14"`
        return found[0]
    return kept_length(length) if length.nm % SIXTY_FOURTH_NM == 0 else found[0]


@lru_cache(8_192)
def shown_kept(text: str, metric: bool = False) -> str:
    """A kept text as a person reads it: `E9 at 27 1/4 in` becomes `E9 at 2'-3 1/4"`, or `E9 at 692 mm`; a mass too."""

    def shown(found: re.Match[str]) -> str:
        try:
            return show_length(parse_length(found[0], most=None), metric)
        except BadValue:  # what somebody typed, such as `12/2 in the loft`
            return found[0]

    return re.sub(_MASS, lambda found: _mass(found, metric), re.sub(_AS_FILED, shown, text))


def _mass(found: re.Match[str], metric: bool) -> str:
    """Kept in kilograms, and said in pounds where the job is in feet and inches."""
    try:
        mass = parse_mass(found[0])
    except BadValue:
        return found[0]
    whole = abs(mass.pounds - round(mass.pounds, 1)) < ROUNDING_LB  # as it was typed, then
    text = mass_text(mass, metric)
    return text.removeprefix("~") if whole else text


def same_kept(one: Mapping[str, str], other: Mapping[str, str]) -> bool:
    """True when two sets of kept texts say the same, in whatever form their lengths and names are written."""
    return one == other or (one.keys() == other.keys() and all(_bare(one[key]) == _bare(other[key]) for key in one))


def _bare(text: str) -> str:
    return re.sub(_NAMED, r"\1 \2", kept_text(text))
