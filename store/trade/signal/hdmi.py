"""HDMI: the cable grade that is made for a data rate, and advice by length.

The specification sets no length: a cable passes or fails as a finished thing. So all that is said about length
here is advice, and the test that counts is a picture at full rate before the wall is closed.
"""

from __future__ import annotations

from enum import StrEnum

import msgspec

from store.trade.cable.length import METRE_NM

SOURCE_GRADES = "HDMI specification 1.3/1.4, 2.0, 2.1 (cable categories); 96 Gbit/s: HDMI 2.2, from memory"
SOURCE_ADVICE = "common practice, no source: the HDMI specification sets no length limit"

GRADES: tuple[tuple[float, str], ...] = (
    (10.2, "High Speed"),
    (18.0, "Premium High Speed"),
    (48.0, "Ultra High Speed"),
    (96.0, "Ultra96"),
)
"""Largest data rate in Gbit/s and the cable grade certified for it. SOURCE_GRADES."""

PASSIVE_NM: dict[float, tuple[int, int]] = {
    10.2: (METRE_NM * 15 // 2, METRE_NM * 10),
    18.0: (METRE_NM * 5, METRE_NM * 15 // 2),
    48.0: (METRE_NM * 3, METRE_NM * 5),
}
"""By grade: the length at which passive copper usually passes, and the one at which it seldom does. SOURCE_ADVICE."""


class Advice(StrEnum):
    """What to think of a passive copper cable of that length at that rate."""

    PASSIVE = "passive copper usually passes"
    TRY = "passive copper may pass. Try it at full rate before it goes into the wall"
    ACTIVE = "beyond passive copper: active optical or an extender over category cable; mark the source end"
    ASK = "no usual figure at this rate: use the certified length on the data sheet"


class HdmiAdvice(msgspec.Struct, frozen=True):
    """Advice with the grade to buy; `directional` when the cable works one way round only."""

    grade: str
    advice: Advice
    directional: bool
    source: str = SOURCE_ADVICE


def grade_rate(gbit_s: float) -> float:
    """Return the certified rate of the lowest grade that carries a rate. Raises ValueError above the highest."""
    for rate, _name in GRADES:
        if 0 < gbit_s <= rate:
            return rate
    raise ValueError(f"no HDMI cable grade is certified for {gbit_s:g} Gbit/s")


def advise(length_nm: int, gbit_s: float) -> HdmiAdvice:
    """Advise on a run of that length at that rate. Advice only (SOURCE_ADVICE); raises as `grade_rate` does."""
    rate = grade_rate(gbit_s)
    name = dict(GRADES)[rate]
    if rate not in PASSIVE_NM:
        return HdmiAdvice(name, Advice.ASK, directional=False)
    usual, seldom = PASSIVE_NM[rate]
    if length_nm <= usual:
        return HdmiAdvice(name, Advice.PASSIVE, directional=False)
    if length_nm <= seldom:
        return HdmiAdvice(name, Advice.TRY, directional=False)
    return HdmiAdvice(name, Advice.ACTIVE, directional=True)
