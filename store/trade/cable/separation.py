"""Low-voltage cable beside power: what the code asks, and what is only good practice.

NEC 725.136 and 800.133: Class 2 and 3 and communications cable never share a box, raceway or cable with
power unless a divider parts them; loose power conductors stay 2 in away. The 2 in are not asked for where
the power is in a raceway or in NM, AC, MC or UF cable, though some inspectors do not let them share one
hole.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from store.measure.length import INCH_NM, Length, show_size
from store.trade.measured.bounds import exceeds, not_negative
from store.trade.measured.citations import COMMON_PRACTICE, Note, cite

LEAST_APART_IN = 2.0  # NEC 725.136, 800.133
INSIDE_EQUIPMENT_IN = 0.25  # NEC 725.136(D): in an enclosure where power serves that equipment only
PRACTICE_APART_IN = 6.0  # common practice on parallel runs, against interference; 12 in is often advised

Power = Literal["cable", "raceway", "loose conductors"]
Signal = Literal["class 2", "communications"]
Together = Literal["apart", "crossing", "one hole", "one box", "one box with divider", "one raceway", "in equipment"]
_RULE: dict[Signal, str] = {
    "class 2": "power apart, class 2",
    "communications": "power apart, communications",
}
_NEVER = {
    "one box": "low voltage and power share a box without a divider",
    "one raceway": "low voltage and power share a raceway",
}


class Neighbours(Struct, frozen=True):
    """A low-voltage cable and the power beside it: how far apart (in), how they meet, and how the power is cased.

    Data cable within the house is commonly read as Class 2; cable from the utility is communications. Fibre
    without metal is under neither rule.
    """

    apart_in: float
    power: Power = "cable"
    signal: Signal = "class 2"
    together: Together = "apart"


def separation_note(pair: Neighbours, edition: int, *, metric: bool = False) -> Note | None:
    """What to say about a low-voltage cable beside power; None when there is nothing.

    Fails a shared box or raceway, and loose conductors within 2 in; warns about NM or a raceway within 2
    in; notes a parallel run within 6 in as practice, not code. Crossing at a right angle is well. `metric`: in a job
    under other rules the NEC's 2 in are not asked for; what is practice is said in millimetres.
    ValueError for a negative distance or an unknown edition.
    """
    not_negative("the distance", pair.apart_in)
    source = cite(_RULE[pair.signal], edition)
    if pair.together in _NEVER:
        return Note("fail", _NEVER[pair.together], source)
    if pair.together == "one box with divider":
        return None
    if pair.together == "in equipment":
        near = exceeds(INSIDE_EQUIPMENT_IN, pair.apart_in)
        return Note("fail", "keep 1/4 in from power inside the equipment", source) if near else None
    apart = 0.0 if pair.together == "one hole" else pair.apart_in
    if not metric and exceeds(LEAST_APART_IN, apart):
        return _near(pair.power, apart, source)
    if pair.together == "apart" and exceeds(PRACTICE_APART_IN, apart):
        usual, there = ("150 to 300 mm", f"{apart * 25.4:.0f} mm") if metric else ("6 to 12 in", _inches(apart))
        text = f"parallel runs are commonly kept {usual} from power, against interference; this is {there}"
        return Note("note", text, COMMON_PRACTICE)
    return None


def _near(power: Power, apart_in: float, source: str) -> Note:
    if power == "loose conductors":
        return Note("fail", f"loose power conductors stay 2 in away; these are {_inches(apart_in)}", source)
    text = (
        f"{_inches(apart_in)} from power in a {power}: the 2 in rule does not apply to it, but some inspectors want "
        "separate holes, and signals are cleaner apart"
    )
    return Note("warn", text, source)


def _inches(apart_in: float) -> str:
    """A distance as a tape shows it: `1-1/4"`."""
    return show_size(Length(round(apart_in * INCH_NM)), False)
