"""What a test said: values with their units against the limits of what was tested, or the word of a kind of tester.

A test is one line as a person types it: `0.3 ohm`, `wire map: pass, 12.4 m`, `2160p60 shown for an hour`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import msgspec

from store.measure.late import Late
from store.measure.length import FOOT_NM, INCH_NM, MM_NM
from store.measure.text import is_junk

MEND = "fix it, and enter the test that passes"
AGAIN = "measure again, and enter what the tester shows"


class Limit(msgspec.Struct, frozen=True):
    """What one value may be."""

    what: str
    """`loop resistance`."""
    unit: str
    """One of UNITS' base units: `ohm`, `dB`, `Gb/s`, `m`, `V`."""
    least: float | None = None
    most: float | None = None
    source: str = ""
    low: float | None = None
    """Less than this a reading of such a cable cannot be, and was misread or is of something else."""
    high: float | None = None
    """More than this it cannot be."""
    reason: str = ""
    """Why `low` and `high`."""
    loss: bool = False
    """True for a loss, which meters show with a minus or without."""

    def wrong(self, value: float) -> str:
        """Why a value in the limit's unit does not pass, or an empty text."""
        said = f"{shown(value, self.unit)} of {self.what} is"
        if self.most is not None and value > self.most:
            return f"{said} more than {shown(self.most, self.unit)} ({self.source}): {MEND}"
        if self.least is not None and value < self.least:
            return f"{said} less than {shown(self.least, self.unit)} ({self.source}): {MEND}"
        if self.low is not None and value < self.low:
            return f"{said} less than is possible, {shown(self.low, self.unit)} or more ({self.reason}): {AGAIN}"
        if self.high is not None and value > self.high:
            return f"{said} more than is possible, {shown(self.high, self.unit)} at most ({self.reason}): {AGAIN}"
        return ""


class Test(msgspec.Struct, frozen=True):
    """How a thing is tested, and what passes."""

    limits: tuple[Limit, ...] = ()
    testers: tuple[str, ...] = ()
    """Kinds of tester or try whose word counts, like `wire map`; empty: any that is named."""
    mode: tuple[int, int] | None = None
    """Lines and frames a second that a picture must have; (0, 0) where any picture will do. None: no picture."""
    licensed: bool = False
    """True where the words of a licensed person count as well."""
    example: str = "`1.2 ohm`, or what the tester is and what it said: `continuity: pass`"
    """What would do, in words."""


ANY = Test()
"""The test of something of which no limit is known: a value with a unit, or a named tester that says pass."""

UNITS: dict[str, tuple[str, float]] = {
    "ohm": ("ohm", 1), "ohms": ("ohm", 1), "ω": ("ohm", 1), "ω.": ("ohm", 1),
    "kohm": ("ohm", 1e3), "kω": ("ohm", 1e3),
    "Mohm": ("ohm", 1e6), "MΩ": ("ohm", 1e6), "megohm": ("ohm", 1e6), "megohms": ("ohm", 1e6), "megaohm": ("ohm", 1e6),
    "Gohm": ("ohm", 1e9), "GΩ": ("ohm", 1e9),
    "mohm": ("ohm", 1e-3), "mΩ": ("ohm", 1e-3), "milliohm": ("ohm", 1e-3),
    "db": ("dB", 1), "dbmv": ("dBmV", 1), "dbuv": ("dBµV", 1), "dbµv": ("dBµV", 1), "dbm": ("dBm", 1),
    "g": ("Gb/s", 1), "gb/s": ("Gb/s", 1), "gbit/s": ("Gb/s", 1), "gbps": ("Gb/s", 1), "gigabit": ("Gb/s", 1),
    "tb/s": ("Gb/s", 1e3), "tbit/s": ("Gb/s", 1e3), "tbps": ("Gb/s", 1e3), "terabit": ("Gb/s", 1e3),
    "mb/s": ("Gb/s", 1e-3), "mbit/s": ("Gb/s", 1e-3), "mbps": ("Gb/s", 1e-3),
    "m": ("m", 1), "cm": ("m", 0.01), "mm": ("m", MM_NM / 1e9), "ft": ("m", FOOT_NM / 1e9), "'": ("m", FOOT_NM / 1e9),
    "feet": ("m", FOOT_NM / 1e9), "in": ("m", INCH_NM / 1e9), '"': ("m", INCH_NM / 1e9),
    "v": ("V", 1), "mv": ("V", 1e-3), "kv": ("V", 1e3), "a": ("A", 1), "ma": ("A", 1e-3), "w": ("W", 1),
    "hz": ("Hz", 1), "khz": ("Hz", 1e3), "mhz": ("Hz", 1e6), "%": ("%", 1), "min": ("min", 1), "h": ("min", 60),
}  # fmt: skip
"""Units as they are written, each with its base unit and factor; where large and small letters differ in meaning
(mega and milli) they are kept, else small."""
NEVER_NONE = ("m", "ohm", "Gb/s", "min", "Hz", "%")
"""Units of which nothing that was tested can have none at all."""
_EXACT = {key for key in UNITS if key != key.lower()} | {"mohm", "mΩ"}
_UNIT = "|".join(sorted((re.escape(each) for each in (*UNITS, "Ω", "kΩ", "Ohm", "Ohms")), key=len, reverse=True))
_VALUE = Late(rf"(?<![\w.,])([<>≤≥~]?)\s*((?<![\w)])[-−–])?(\d+(?:[.,]\d+)?)\s*({_UNIT})(?![\w/])", re.IGNORECASE)
_MODE = Late(
    r"(?<!\w)(?:(480|576|720|1080|1440|2160|4320)\s*[pi]?|(4k|8k|uhd|full hd))"
    r"(?:\s*(?:@|at|/|x)?\s*(24|25|30|50|60|100|120)\b(?:\s*(?:hz|p|fps))?)?",
    re.IGNORECASE,
)
_NAMED_MODE = {"4k": 2160, "uhd": 2160, "8k": 4320, "full hd": 1080}
_FAULTS = (
    r"fail(?:s|ed|ures?|ing)?|opens?|shorts?|shorted|crossed|reversed|mis-?wired?|split pairs?|broken|faulty|"
    r"(?<!proved )(?<!proven )(?<!tested )dead|"
    r"faults?|bad|wrong|"
    r"hum(?:s|ming)?(?! test)|buzz(?:es|ing)?|hiss(?:es|ing)?|nois[ey](?! (?:floor|level|margin))|crackl(?:es?|ing)|"
    r"drop[- ]?outs?|drops? out|dropped out|flickers?|flickering|sparkles?|ghosts?|ghosting|"
    r"intermittent(?:ly)?|sometimes|unstable|except"
)
"""Words of what is wrong with a cable, or of what was not tested with the rest."""
_BAD = Late(
    rf"\b(?:{_FAULTS}|(?:does|did|do|is|was|has|could|can) ?n(?:o|['’])?t|can ?not|"
    r"no(?:t|t yet|t to) (?:pass(?:ed|es)?|ok(?:ay)?|good|work(?:s|ed|ing)?|lit|shown?|seen|steady|clean|clear|"
    r"continuous|tested|tried|measured|done|finished|sure)|"
    r"no (?:pass|light|link|picture|signal|sound|continuity))\b",
    re.IGNORECASE,
)
_NOT_YET = Late(
    r"\?|\b(?:untested|unmeasured|to be (?:tested|measured|done)|(?:will|may|might) (?:be|pass|work|do)|should|would|"
    r"maybe|perhaps|probably|nearly|almost|guess(?:ed)?|estimated?|assumed?|supposed)\b",
    re.IGNORECASE,
)
"""Words of what is hoped for, not of what was read."""
_NO_BAD = Late(
    rf"\b(?:no|not|without|never|zero|0)\s+(?:any\s+)?(?:{_FAULTS})\b(?:\s*(?:,|or|and|nor)\s*(?:no\s+)?(?:{_FAULTS})\b)*",
    re.IGNORECASE,
)
_NONE = Late(rf"\b(?:{_FAULTS})\b\s*[:=]?\s*(?:none|no|nil|zero|0|free|absent)\b", re.IGNORECASE)
"""`hum: none`."""
_GOOD = Late(
    r"\b(?:pass(?:es|ed)?|work(?:s|ed)?|steady|clear|clean|lit|light through|obey(?:s|ed)|shown?|shows|seen|"
    r"plays|played|good|ok|okay|fine|all pairs|all conductors|continuous|"
    r"(?:no|without|without any) (?:hum|noise|drop-?outs?|faults?|opens?|shorts?)|(?:hum|noise) ?: ?none)\b",
    re.IGNORECASE,
)
_SAID = Late(rf"(?!\b(?:seen|shown?|shows|fine)\b){_GOOD.pattern}", re.IGNORECASE)
"""What an unknown tester may say: to have been seen is no word of a tester."""
_A_FILE = Late(r"\S+\.[a-z]{3,4}\b", re.IGNORECASE)
_LICENSE = Late(r"\blicen[cs]e[ds]?\b[^\n]{0,40}?\b[\w/-]*\d[\w/-]*", re.IGNORECASE)


def shown(value: float, unit: str) -> str:
    """A value with its unit: `0.4 ohm`, `1 Mohm`."""
    if unit == "ohm" and value >= 1e6:
        return f"{value / 1e6:g} Mohm"
    return f"{value:.4g} {unit}"


def values_of(text: str) -> Iterator[tuple[float, str]]:
    """The values with units of a text, in base units: `0,3 Ω` gives (0.3, "ohm")."""
    for found in _VALUE.finditer(text):
        base, factor = _unit(found[4])
        value = float(found[3].replace(",", ".")) * factor
        yield -value if found[2] else value, base


def _unit(written: str) -> tuple[str, float]:
    for each in (written, written.replace("Ohm", "ohm").replace("OHM", "ohm")):
        if each in _EXACT:
            return UNITS[each]
    return UNITS[written.lower()]


def modes_of(text: str) -> Iterator[tuple[int, int]]:
    """The pictures that a text names, as lines and frames a second; 0 frames where none are told."""
    for found in _MODE.finditer(text):
        lines = int(found[1]) if found[1] else _NAMED_MODE[found[2].lower()]
        yield lines, int(found[3] or 0)


def why_not(text: str, test: Test) -> str:
    """Why a test does not pass, in words; empty when it does."""
    values = list(values_of(text))
    if wrong := _no_test(text, values):
        return wrong
    judged = 0
    for limit in test.limits:
        for value, unit in values:
            if unit == limit.unit:
                judged += 1
                if wrong := limit.wrong(abs(value) if limit.loss else value):
                    return wrong
    modes = list(modes_of(text))
    if test.mode is not None and modes:
        return _mode_wrong(max(modes), test.mode)
    if judged or (not (test.limits or test.testers) and test.mode is None and values):
        return ""
    if _GOOD.search(text) and _names_tester(text, test):
        return ""
    if test.licensed and _LICENSE.search(text) and not is_junk(_LICENSE.sub(" ", text)):
        return ""
    return f"no reading in it that can be judged: write {test.example}"


def _no_test(text: str, values: list[tuple[float, str]]) -> str:
    """Why a text is none of a test that passed, whatever is tested: it failed, is still to come, or cannot be."""
    if _BAD.search(_NONE.sub(" ", _NO_BAD.sub(" ", text))):
        return f"this test failed: {MEND}"
    if _NOT_YET.search(text):
        return "not a test yet: enter what was read or seen"
    for value, unit in values:
        if (value < 0 and not unit.startswith("dB")) or (value == 0 and unit in NEVER_NONE):
            zeros = ". Where it shows nothing but zeros, write less than its last digit, like `<0.1 ohm`"
            more = zeros if (value, unit) == (0, "ohm") else ""
            return f"{shown(value, unit)} is not possible: enter the reading as the tester shows it{more}"
    return ""


def _mode_wrong(got: tuple[int, int], wanted: tuple[int, int]) -> str:
    if got[0] < wanted[0] or (got[1] and got[1] < wanted[1]):
        return (
            f"a picture of {mode_text(got)} was shown, and {mode_text(wanted)} is needed: fix it, and enter the test "
            "that passes"
        )
    return ""


def mode_text(mode: tuple[int, int]) -> str:
    """`2160p60`, `2160p`."""
    return f"{mode[0]}p{mode[1] or ''}"


def _names_tester(text: str, test: Test) -> bool:
    plain = " ".join(text.lower().replace("-", " ").replace("wiremap", "wire map").split())
    if test.testers:
        return any(re.search(rf"\b{re.escape(each)}", plain) for each in test.testers)
    bare = _A_FILE.sub(" ", text)
    return not is_junk(_GOOD.sub(" ", bare)) and bool(_SAID.search(bare))
