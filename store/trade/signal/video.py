"""Pictures: the data rate that a format takes over HDMI, and the rate that the version of a port stands for."""

from __future__ import annotations

import re
from functools import lru_cache

from store.measure.spelling import MOST_KEPT

SOURCE = "HDMI specification 2.0 and 2.1 (TMDS and FRL rates); CTA-861 timings, from memory"
COMPRESSED_GBIT_S = 48.0
"""The largest link of HDMI 2.1; a picture that takes more goes compressed (DSC), which both ends must have."""
TMDS_MOST_GBIT_S = 18.0

CLOCK_MHZ: dict[tuple[int, int], float] = {
    (1080, 60): 148.5, (1080, 120): 297.0, (2160, 24): 297.0, (2160, 30): 297.0, (2160, 60): 594.0,
    (2160, 120): 1188.0, (4320, 30): 1188.0, (4320, 60): 2376.0,
}  # fmt: skip
"""Pixel clock in MHz by picture lines and pictures a second: CTA-861 timings."""
USUAL_HZ = 60
VERSION_GBIT_S = {"1.4": 10.2, "2.0": 18.0, "2.1": 48.0, "2.2": 96.0}
"""The most that a port of a version of HDMI carries; a maker may give less: a stated rate wins."""

_LINES = {"8k": 4320, "4k": 2160, "uhd": 2160, "4320": 4320, "2160": 2160, "1080": 1080}
_FORMAT = re.compile(
    r"\b(?P<name>8k|4k|uhd|4320|2160|1080)(?:\s?[pi])?(?:\s*(?:@|at|/|x)?\s*(?P<hz>24|30|50|60|100|120|144)(?:\s?hz|p|fps)?\b)?",
    re.IGNORECASE | re.ASCII,
)
_HALF = re.compile(r"4\s?:\s?2\s?:\s?0")
_FULL = re.compile(r"4\s?:\s?4\s?:\s?4|\brgb\b", re.IGNORECASE)
_DEEP = re.compile(r"\b(?:hdr\w*|10[- ]?bit|12[- ]?bit|dolby)\b", re.IGNORECASE)
_TWELVE = re.compile(r"\b12[- ]?bit\b", re.IGNORECASE)
_VERSION = re.compile(r"\bhdmi\s*(?:v\.?\s*)?([12]\.[0-4])[ab]?\b", re.IGNORECASE)


def tmds_gbit_s(clock_mhz: float, bits: int = 8) -> float:
    """Rate on the three pairs of HDMI to 2.0, full color: clock x 30 x bits / 8. HDMI specification 2.0."""
    return clock_mhz * 30 * bits / 8 / 1000


def frl_gbit_s(clock_mhz: float, bits: int = 8) -> float:
    """Rate on a fixed-rate link of HDMI 2.1, full color: clock x 3 x bits x 18 / 16. HDMI specification 2.1."""
    return clock_mhz * 3 * bits * 18 / 16 / 1000


@lru_cache(MOST_KEPT)
def format_gbit_s(text: str) -> float | None:
    """The rate that a format in words takes: `4K 120`, `8K 60`, `2160p60 HDR`, `4K60 4:2:0`; None where none is named.

    60 pictures a second where none are said. More bits a color (HDR) at 60 Hz go as 4:2:2 in the room of 8 bits,
    unless 4:4:4 is said. What is beyond the largest link goes compressed over it.
    """
    found = _FORMAT.search(text)
    if found is None:
        return None
    lines, asked = _LINES[found["name"].lower()], int(found["hz"] or USUAL_HZ)
    rates = [hz for known, hz in CLOCK_MHZ if known == lines]
    hz = next((each for each in sorted(rates) if each >= asked), max(rates))
    clock, bits = CLOCK_MHZ[lines, hz], 8
    if _DEEP.search(text):
        bits = 12 if _TWELVE.search(text) else 10
    if bits > 8 and not _FULL.search(text) and tmds_gbit_s(clock) <= TMDS_MOST_GBIT_S:
        bits = 8
    share = 0.5 if _HALF.search(text) else 1.0
    tmds = tmds_gbit_s(clock, bits) * share
    return tmds if tmds <= TMDS_MOST_GBIT_S else min(frl_gbit_s(clock, bits) * share, COMPRESSED_GBIT_S)


@lru_cache(MOST_KEPT)
def version_gbit_s(text: str) -> float | None:
    """The most that a port carries by the version in its words, `hdmi 2.0 in`; None where none is named."""
    found = _VERSION.search(text)
    return VERSION_GBIT_S.get(found[1]) if found else None
