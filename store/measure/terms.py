"""The one table of words that differ by region, and the one door that turns US words into those of a metric job.

Texts are written once, in US trade English. In a metric (230 V) job `regional` puts British and IEC words in their
place, so no other module has a trade word behind a question of region. What a person typed goes through unchanged.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import Literal, get_args

from store.measure.counts import many

Concept = Literal[
    "afci", "aluminum", "antenna", "baseboard", "blocking", "breaker", "building_department", "canceled", "center",
    "centered", "close_in", "color", "crown", "dead", "drywall", "electrical_code", "electrical_panel", "emt", "ent",
    "fiber", "fireblocking", "free_wire", "gfci", "gray", "ground", "ground_fault", "ground_wire", "grounded",
    "grounding", "header", "home_run", "hvac", "inspector", "jacket", "jacket_rating", "labeled",
    "lag_five_sixteenths", "lag_or_wood", "lag_quarter", "lag_screw", "lag_three_eighths", "license", "line_voltage",
    "low_voltage", "meter", "mil_18", "mil_27", "mil_30", "mil_33", "mil_43", "millimeter", "mitered", "mud_ring",
    "nail_plate", "nameplate", "neighbor", "on_center", "permit", "pigtail", "plug_in_adapter", "pull_string",
    "punch_list", "raceway", "receptacle", "retainage", "rough_in_inspection", "rough_in_item", "rough_opening",
    "splice", "spool", "staple", "stapled", "tamper_resistant", "trim_out", "vise", "wall_wart", "whip",
]  # fmt: skip
"""What a word stands for."""

TERMS: Mapping[str, Mapping[Concept, str]] = {
    "us": {
        "afci": "AFCI",
        "aluminum": "aluminum",
        "antenna": "antenna",
        "baseboard": "baseboard",
        "blocking": "blocking",
        "breaker": "breaker",
        "building_department": "building department",
        "canceled": "canceled",
        "center": "center",
        "centered": "centered",
        "close_in": "close-in",
        "color": "color",
        "crown": "crown",
        "dead": "Turn off the breaker, tag it and test that the wires are dead",
        "drywall": "drywall",
        "electrical_code": "the National Electrical Code",
        "electrical_panel": "electrical panel",
        "emt": "EMT",
        "ent": "ENT",
        "fiber": "fiber",
        "fireblocking": "fireblocking",
        "free_wire": "free wire",
        "gfci": "GFCI",
        "gray": "gray",
        "ground": "equipment ground",
        "ground_fault": "ground fault",
        "ground_wire": "ground wire",
        "grounded": "grounded",
        "grounding": "grounding",
        "header": "framing header",
        "home_run": "home run",
        "hvac": "HVAC",
        "inspector": "electrical inspector",
        "jacket": "jacket",
        "jacket_rating": "jacket rating",
        "labeled": "labeled",
        "lag_five_sixteenths": "lag 5/16",
        "lag_or_wood": "lag or wood screws",
        "lag_quarter": "lag 1/4",
        "lag_screw": "lag screw",
        "lag_three_eighths": "lag 3/8",
        "license": "license",
        "line_voltage": "line voltage",
        "low_voltage": "low voltage",
        "meter": "meter",
        "mil_18": "18 mil",
        "mil_27": "27 mil",
        "mil_30": "30 mil",
        "mil_33": "33 mil",
        "mil_43": "43 mil",
        "millimeter": "millimeter",
        "mitered": "mitered",
        "mud_ring": "mud ring",
        "nail_plate": "nail plate",
        "nameplate": "nameplate",
        "neighbor": "neighbor",
        "on_center": "on center",
        "permit": "permit",
        "pigtail": "pigtail",
        "plug_in_adapter": "plug-in adapter",
        "pull_string": "pull string",
        "punch_list": "punch list",
        "raceway": "raceway",
        "receptacle": "receptacle",
        "retainage": "retainage",
        "rough_in_inspection": "rough-in inspection",
        "rough_in_item": "rough-in item",
        "rough_opening": "rough opening",
        "splice": "splice",
        "spool": "spool",
        "staple": "staple",
        "stapled": "stapled",
        "tamper_resistant": "tamper-resistant",
        "trim_out": "trim-out",
        "vise": "vise",
        "wall_wart": "wall wart",
        "whip": "whip",
    },
    "metric": {
        "afci": "AFDD",
        "aluminum": "aluminium",
        "antenna": "aerial",
        "baseboard": "skirting",
        "blocking": "noggins",
        "breaker": "MCB",
        "building_department": "building control office",
        "canceled": "cancelled",
        "center": "centre",
        "centered": "centred",
        "close_in": "close-up",
        "color": "colour",
        "crown": "coving",
        "dead": "Isolate the circuit, lock it off and prove it dead",
        "drywall": "plasterboard",
        "electrical_code": "the wiring rules in force",
        "electrical_panel": "consumer unit",
        "emt": "steel conduit",
        "ent": "flexible conduit",
        "fiber": "fibre",
        "fireblocking": "cavity barriers",
        "free_wire": "tail",
        "gfci": "RCD",
        "gray": "grey",
        "ground": "earth (cpc)",
        "ground_fault": "earth fault",
        "ground_wire": "earth wire (cpc)",
        "grounded": "earthed",
        "grounding": "earthing",
        "header": "lintel",
        "home_run": "radial feed",
        "hvac": "ventilation",
        "inspector": "electrical inspector",
        "jacket": "sheath",
        "jacket_rating": "sheath marking",
        "labeled": "labelled",
        "lag_five_sixteenths": "coach screw 8 mm",
        "lag_or_wood": "coach or wood screws",
        "lag_quarter": "coach screw 6 mm",
        "lag_screw": "coach screw",
        "lag_three_eighths": "coach screw 10 mm",
        "license": "licence",
        "line_voltage": "mains",
        "low_voltage": "extra-low voltage",
        "meter": "metre",
        "mil_18": "0.46 mm",
        "mil_27": "0.69 mm",
        "mil_30": "0.75 mm",
        "mil_33": "0.84 mm",
        "mil_43": "1.09 mm",
        "millimeter": "millimetre",
        "mitered": "mitred",
        "mud_ring": "extension ring",
        "nail_plate": "steel protection plate",
        "nameplate": "rating plate",
        "neighbor": "neighbour",
        "on_center": "centres",
        "permit": "building-control notice",
        "pigtail": "tail",
        "plug_in_adapter": "plug-in power supply",
        "pull_string": "draw wire",
        "punch_list": "snag list",
        "raceway": "conduit",
        "receptacle": "socket-outlet",
        "retainage": "retention",
        "rough_in_inspection": "first-fix inspection and test",
        "rough_in_item": "first-fix item",
        "rough_opening": "structural opening",
        "splice": "join",
        "spool": "reel",
        "staple": "clip",
        "stapled": "clipped",
        "tamper_resistant": "shuttered",
        "trim_out": "second fix",
        "vise": "vice",
        "wall_wart": "plug-in power supply",
        "whip": "flex",
    },
}
"""By region and concept."""

CONCEPTS: tuple[Concept, ...] = get_args(Concept)
_SAID_WITH_A_VOWEL = ("MCB", "RCD", "AFDD")
_NO_PLURAL = frozenset({
    "blocking", "building_department", "canceled", "centered", "crown", "dead", "drywall", "electrical_code", "emt",
    "ent", "fireblocking", "gray", "grounded", "grounding", "hvac", "labeled", "lag_five_sixteenths", "lag_or_wood",
    "lag_quarter", "lag_three_eighths", "line_voltage", "low_voltage", "mil_18", "mil_27", "mil_30", "mil_33",
    "mil_43", "mitered", "on_center", "stapled", "tamper_resistant", "trim_out",
})  # fmt: skip


def term(key: Concept, metric: bool = False) -> str:
    """The word of a concept in a US job, or in a metric one."""
    return TERMS["metric" if metric else "us"][key]


def regional(text: str, metric: bool, keep: Iterable[str] = ()) -> str:
    """A text of the program in the words of the job's region; texts are written in US words.

    `keep` are words that a person typed and that stand in the text: they stay as they are.
    """
    return _turned(text, _kept(frozenset(keep))) if metric and text else text


@lru_cache(maxsize=64)
def _kept(keep: frozenset[str]) -> tuple[str, ...]:
    """What of typed words a term could be found in, the longest first: sorted once for all the texts of a screen."""
    return tuple(sorted((each for each in keep if each and holds_term(each)), key=len, reverse=True))


@lru_cache(maxsize=8192)
def _turned(text: str, kept: tuple[str, ...]) -> str:
    pattern, words = _table()
    if not kept:
        return pattern.sub(lambda found: _worded(found, words), text)
    # Typed words first: what they cover is taken before any term can be.
    parts = re.split(f"({'|'.join(map(re.escape, kept))})", text)
    return "".join(part if part in kept else pattern.sub(lambda found: _worded(found, words), part) for part in parts)


@lru_cache(maxsize=4096)
def holds_term(text: str) -> bool:
    """True when a US word of the table, which has another in a metric job, stands in the text."""
    return _table()[0].search(text) is not None


@lru_cache(maxsize=1)
def _table() -> tuple[re.Pattern[str], dict[str, str]]:
    """The pattern of every US word that has another in a metric job, and what to put for each, singular and plural."""
    words: dict[str, str] = {}
    for key in CONCEPTS:
        us, metric = TERMS["us"][key], TERMS["metric"][key]
        if us == metric:
            continue
        for one, other in ((us, metric), *(() if key in _NO_PLURAL else ((many(us), many(metric)),))):
            words[one] = other
            if " " in one and key != "dead":
                words[one.replace(" ", "-")] = other.replace(" ", "-")
    longest = sorted(words, key=len, reverse=True)
    forms = "|".join(re.escape(each) if each.isupper() else _either_case(each) for each in longest)
    return re.compile(rf"(?<![\w-])(?<!\d/)(?:(?<!\d )(?P<article>[Aa]n?) )?(?P<term>{forms})(?![\w-])"), words


def _either_case(word: str) -> str:
    return f"[{word[0].upper()}{word[0].lower()}]{re.escape(word[1:])}" if word[0].isalpha() else re.escape(word)


def _worded(found: re.Match[str], words: Mapping[str, str]) -> str:
    us = found["term"]
    lower = us[0].lower() + us[1:]
    word = words.get(us) or words.get(lower) or words[us[0].upper() + us[1:]]
    if us not in words and us[0].isupper():
        word = word[0].upper() + word[1:]
    if not found["article"]:
        return word
    vowel = word.startswith(_SAID_WITH_A_VOWEL) or word[0].lower() in "aeio"
    return f"{found['article'][0]}{'n' if vowel else ''} {word}"
