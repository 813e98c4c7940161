"""HDMI: the data rate a picture needs, the cable grade that is made for it, and advice by length.

The specification sets no length: a cable passes or fails as a finished thing. So all that is said about length
here is advice, and the test that counts is a picture at full rate before the wall is closed.
"""

from __future__ import annotations

from enum import StrEnum

import msgspec

from store.trade.cable_length import METRE_NM

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

TMDS_MOST_GBIT_S = 18.0
"""Above this the link changes from TMDS (10 bits sent for 8) to FRL (18 for 16). HDMI 2.0 and 2.1."""


class Advice(StrEnum):
    """What to think of a passive copper cable of that length at that rate."""

    PASSIVE = "passive copper usually passes"
    TRY = "passive copper may pass: try it at full rate before it goes into the wall"
    ACTIVE = "beyond passive copper: active optical or an extender over category cable; mark the source end"
    ASK = "no usual figure at this rate: take the maker's certified length"


class HdmiAdvice(msgspec.Struct, frozen=True):
    """Advice with the grade to buy; `directional` when the cable works one way round only."""

    grade: str
    advice: Advice
    directional: bool
    source: str = SOURCE_ADVICE


def rate_gbit_s(pixel_clock_mhz: float, bits_per_colour: int = 8) -> float:
    """Return the rate on the wire, in Gbit/s, for full colour (4:4:4) at that pixel clock and depth.

    Three colours; TMDS sends 10 bits for 8 up to 18 Gbit/s, FRL 18 for 16 above (HDMI 2.0, 2.1). Pixel clocks
    include blanking: 148.5 MHz for 1080 lines at 60 Hz, 594 for 2160 at 60, 1188 for 2160 at 120 (CTA-861).
    Compression and 4:2:0 need less. Raises ValueError unless both are positive.
    """
    if pixel_clock_mhz <= 0 or bits_per_colour <= 0:
        raise ValueError("a pixel clock and a colour depth are above nothing")
    payload = pixel_clock_mhz * 3 * bits_per_colour / 1000
    tmds = payload * 10 / 8
    return tmds if tmds <= TMDS_MOST_GBIT_S else payload * 18 / 16


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
