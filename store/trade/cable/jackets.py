"""Jacket markings: which one a cable needs in a wall, and which other markings may stand in for it.

The tables say "a cable with marking Y may be used where X is asked for". Local code and the inspector win
over them, and what is printed on the jacket wins over what a shop says.
"""

from __future__ import annotations

import re
from functools import lru_cache

import msgspec

from store.measure.spelling import MOST_KEPT, words

SOURCE_CL = "NFPA 70 (NEC) Table 725.154(A) and Figure 725.154(A), 2017 and 2020 editions; 722.135 in the 2023 edition"
SOURCE_CM = "NFPA 70 (NEC) Table 800.154(b), 2020 edition; 800.154, 2023 edition"
SOURCE_CATV = "NFPA 70 (NEC) Table 820.154(b), 2017 edition; 800.154 since the 2020 edition (partly from memory)"
SOURCE_FIBRE = "NFPA 70 (NEC) Table 770.154(b), 2017 and 2020 editions (from memory)"
SOURCE_LIMITED = "NFPA 70 (NEC) 725.154 and 800.113 (2020), rules for CL2X, CL3X and CMX"
SOURCE_CSA = "CSA C22.2 No. 0.3 flame tests: FT4 is about CMG, FT6 about CMP"

LIMITED_UNDER_NM = 6_350_000
"""Outside diameter, nm, under which a limited (X) cable may be used in a dwelling: 1/4 in. SOURCE_LIMITED."""

# Each row is complete: it repeats what its own stand-ins accept, so that one look is enough.
_CL3P = ("CMP",)
_CL2P = ("CL3P", "CMP")
_CL3R = ("CL3P", "CMP", "CMR")
_CL2R = ("CL2P", "CL3P", "CL3R", "CMP", "CMR")
_CL3 = ("CL3P", "CL3R", "CMP", "CMR", "CM", "CMG", "PLTC")
_CL2 = ("CL2P", "CL2R", "CL3", *_CL3)
_CATV = ("CATVP", "CATVR", "CMP", "CMR", "CM", "CMG")

SUBSTITUTES: dict[str, tuple[str, ...]] = {
    "CL3P": _CL3P,
    "CL2P": _CL2P,
    "CL3R": _CL3R,
    "CL2R": _CL2R,
    "CL3": _CL3,
    "CL2": _CL2,
    "CL3X": ("CL3", *_CL3, "CMX"),
    "CL2X": ("CL2", *_CL2, "CL3X", "CMX"),
    "CMP": (),
    "CMR": ("CMP",),
    "CM": ("CMG", "CMR", "CMP"),
    "CMG": ("CM", "CMR", "CMP"),
    "CMX": ("CM", "CMG", "CMR", "CMP"),
    "PLTC": (),
    "CATVP": ("CMP",),
    "CATVR": ("CATVP", "CMP", "CMR"),
    "CATV": _CATV,
    "CATVX": ("CATV", *_CATV, "CMX"),
    "OFNP": (),
    "OFCP": ("OFNP",),
    "OFNR": ("OFNP",),
    "OFCR": ("OFNP", "OFCP", "OFNR"),
    "OFN": ("OFNG", "OFNR", "OFNP"),
    "OFNG": ("OFN", "OFNR", "OFNP"),
    "OFC": ("OFCG", "OFN", "OFNG", "OFNR", "OFNP", "OFCR", "OFCP"),
    "OFCG": ("OFC", "OFN", "OFNG", "OFNR", "OFNP", "OFCR", "OFCP"),
    "NM-B": ("NMC-B",),
    "NMC-B": (),
    "UF-B": (),
    "MC": (),
    "AC": (),
    "THHN": ("THWN-2", "XHHW-2"),
    "THWN-2": ("XHHW-2",),
    "XHHW-2": (),
}
"""Markings that may stand in for the key. CL and CM: SOURCE_CL, SOURCE_CM; CATV: SOURCE_CATV; OF: SOURCE_FIBRE.

Wiring of a house: SOURCE_POWER; the single conductors that go in a raceway: all three are for dry places at 90 °C.
"""

SOURCE_POWER = "NFPA 70 (NEC) 320, 330, 334.10(B) and 340, 2020 edition (from memory)"
SOURCE_SINGLE = "NFPA 70 (NEC) Table 310.104(A), 2017 edition; 310.4(A) since the 2020 edition (from memory)"

SAME_AS: dict[str, str] = {"FT4": "CMG", "FT6": "CMP"}
"""Canadian flame-test marks and the marking they stand near. SOURCE_CSA."""

LIMITED = frozenset({"CL2X", "CL3X", "CMX", "CATVX"})
"""Markings of limited use (X). SOURCE_LIMITED."""


class Verdict(msgspec.Struct, frozen=True):
    """Whether a marking will do in a wall, why, and where that is printed."""

    ok: bool
    reason: str
    source: str


_PRINTED = re.compile(
    r"\b(?:cl ?[23](?: ?[prx])?|cm(?: ?[prgx])?|catv(?: ?[prx])?|of ?[nc](?: ?[prg])?|pltc|ft ?[46]|nmc? ?b|"
    r"uf ?b|mc|ac|"
    r"thhn|thwn ?2|xhhw ?2)\b"
)
"""The markings that are judged here, as they stand in what is printed on a jacket."""
_LENGTH = re.compile(r"(?<![a-z0-9])\d+ ?(?:ft|feet|cm|mm|m)\b")
_CURRENT = re.compile(r"\b\d+ ?v ?ac\b")
_APPLIANCE = re.compile(r"\bawm\b")
_NOT_PRINT = re.compile(
    r"\b(?:not|no|non|none|never|without|un ?rated|un ?marked|needs?|wants?|should|must|may ?be|probably|perhaps|"
    r"guess|tbd|"
    r"unknown|unsure|ask|like|similar|equivalent|equal|isn ?t|isnt|doesn ?t|missing|fake)\b|\?"
)
"""Words of a person about a jacket, which its maker never prints: then it is not what was read there."""


@lru_cache(MOST_KEPT)
def markings(printed: str) -> tuple[str, ...]:
    """The markings in what is printed on a jacket, as the tables spell them; empty when none is known.

    `c(UL)us CL3 FT4` is CL3 and CMG, `CMR/FT4` is CMR and CMG, `Type NM-B 600V` is NM-B. Several on one jacket all
    hold. Appliance wire (AWM) with a flame test alone is no cable for a wall: SOURCE_CSA, common practice.
    """
    if _NOT_PRINT.search(printed.lower()):
        return ()
    plain = re.sub(r"\bft-(?=[46])", "ft", printed.lower())
    plain = _CURRENT.sub(" ", _LENGTH.sub(" ", words(plain)))
    found = dict.fromkeys(_spelled(each) for each in _PRINTED.findall(plain))
    if _APPLIANCE.search(plain):
        found = {each: None for each in found if each not in SAME_AS.values()}
    return tuple(found)


def _spelled(found: str) -> str:
    """A marking as the tables spell it: capitals, Canadian marks translated."""
    plain = found.replace(" ", "").upper()
    for start in ("NMC", "NM", "UF"):
        if plain == f"{start}B":
            return f"{start}-B"
    plain = plain.replace("THWN2", "THWN-2").replace("XHHW2", "XHHW-2")
    return SAME_AS.get(plain, plain)


def tidy(marking: str) -> str:
    """Return a marking as the tables spell it; one that they do not have in capitals, without spaces round it."""
    known = markings(marking)
    return known[0] if known else marking.strip().upper()


def may_replace(needed: str, offered: str) -> bool:
    """Tell whether a cable marked `offered` may be used where `needed` is asked for; any of its markings is enough.

    Sources: see SUBSTITUTES. An unknown marking replaces nothing. Raises KeyError if `needed` is
    not in the tables, so that a misspelt requirement is not taken for one that nothing meets.
    """
    want = tidy(needed)
    good = (want, *SUBSTITUTES[want])
    return any(have in good for have in markings(offered))


def substitution_source(needed: str) -> str:
    """Name the printed table behind the row for `needed`."""
    want = tidy(needed)
    if want.startswith("CATV"):
        return SOURCE_CATV
    if want.startswith("OF"):
        return SOURCE_FIBRE
    if want.startswith(("NM", "UF", "MC", "AC")):
        return SOURCE_POWER
    if want.startswith(("THHN", "THWN", "XHHW")):
        return SOURCE_SINGLE
    return SOURCE_CL if want.startswith(("CL", "PLTC")) else SOURCE_CM


def in_wall(needed: str, offered: str, outside_nm: int, *, small_dwelling: bool, in_raceway: bool = False) -> Verdict:
    """Judge a jacket for a run inside a wall.

    `outside_nm` is the outside diameter in nm; `small_dwelling` means a one- or two-family house. A limited
    (X) marking passes in such a house when the cable is thinner than 1/4 in, or inside a raceway
    (SOURCE_LIMITED). It does not hold for ducts and plenums, where a plenum marking is asked for. Raises
    KeyError if `needed` is not in the tables.
    """
    want = tidy(needed)
    source = substitution_source(want)
    if not offered.strip():
        return Verdict(False, f"no jacket rating entered; read the jacket: it needs {want}", source)
    known = markings(offered)
    if not known:
        return Verdict(False, f"{offered.strip()[:60]!r} is no jacket rating that is known here", source)
    judged = [_one_mark(want, have, outside_nm, small_dwelling, in_raceway) for have in known]
    return next((each for each in judged if each.ok), judged[0])


def _one_mark(want: str, have: str, outside_nm: int, small_dwelling: bool, in_raceway: bool) -> Verdict:
    """Judge one marking of a jacket."""
    source = substitution_source(want)
    if have == want or have in SUBSTITUTES[want]:
        return Verdict(True, f"{have} is good where {want} is needed", source)
    if have in LIMITED and have in (f"{want}X", *SUBSTITUTES.get(f"{want}X", ())):
        if in_raceway:
            return Verdict(True, f"{have} is of limited use, allowed in a raceway", SOURCE_LIMITED)
        if small_dwelling and outside_nm < LIMITED_UNDER_NM:
            return Verdict(True, f"{have} is of limited use, allowed in a small dwelling under 1/4 in", SOURCE_LIMITED)
        why = "1/4 in or thicker" if small_dwelling else "not in a one- or two-family dwelling"
        return Verdict(False, f"{have} is of limited use: {why}", SOURCE_LIMITED)
    return Verdict(False, f"{have} does not replace {want}", source)
