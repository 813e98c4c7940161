"""Wire that is not copper: which metal a text names, and the breaker that such wire may stand behind."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal

from store.measure.spelling import MOST_KEPT

Metal = Literal["copper", "aluminum", "copper-clad aluminum"]

_CLAD = re.compile(r"\bcca\b|copper[- ]clad(?: alumin(?:i)?um| al)?", re.IGNORECASE)
_ALUMINUM = re.compile(r"\balumin(?:i)?um\b|\balu?\b", re.IGNORECASE)

AMPACITY_60C_A = {12: 15, 10: 25, 8: 35, 6: 40}
"""Aluminum and copper-clad aluminum, A by AWG. NFPA 70 Table 310.16, 2011 edition and later (secondary copies)."""
MAX_BREAKER_A = {12: 15, 10: 25}
"""NFPA 70 240.4(D); 8 and 6 AWG take the next standard size above their ampacity."""

SOLID_OHM_PER_KFT = {14: 5.06, 12: 3.18, 10: 2.00, 8: 1.26}
STRANDED_OHM_PER_KFT = {14: 5.17, 12: 3.25, 10: 2.04, 8: 1.28, 6: 0.808}
"""Aluminum, DC at 75 °C, ohm per 1000 ft by AWG: NFPA 70 Chapter 9, Table 8 (14 and 12 from secondary copies, the rest
from memory). Copper-clad aluminum conducts a little better; the table has no column for it, so it is taken as this."""


def aluminum_ohm_per_kft(gauge: int, *, stranded: bool = False) -> float:
    """Resistance of one aluminum conductor, ohm per 1000 ft at 75 °C; of a size that is stranded only, that column.

    Raises ValueError for a size that is not listed.
    """
    table = STRANDED_OHM_PER_KFT if stranded or gauge not in SOLID_OHM_PER_KFT else SOLID_OHM_PER_KFT
    if gauge not in table:
        raise ValueError(f"{gauge} AWG aluminum is not in the table; it has {', '.join(map(str, table))}")
    return table[gauge]


@lru_cache(MOST_KEPT)
def metal_of(text: str) -> Metal:
    """The metal that a conductor or a cable is said to be of; copper where nothing else is said."""
    if _CLAD.search(text):
        return "copper-clad aluminum"
    return "aluminum" if _ALUMINUM.search(text) else "copper"


@lru_cache(MOST_KEPT)
def without_metal(text: str) -> str:
    """The text without the words of its metal, so that its size can be read."""
    return " ".join(_ALUMINUM.sub(" ", _CLAD.sub(" ", text)).split())


def aluminum_ampacity_a(gauge: int) -> float | None:
    """Ampacity in A of a size, 60 °C column; 0 for 14 AWG, which is not made for wiring; None for other sizes.

    NFPA 70 310.3(A): 12 AWG is the least size of aluminum or copper-clad aluminum.
    """
    return 0.0 if gauge > max(AMPACITY_60C_A) else AMPACITY_60C_A.get(gauge)


def aluminum_max_breaker_a(gauge: int) -> float | None:
    """Largest breaker in A: 240.4(D) for 12 and 10 AWG, else the ampacity; 0 for thinner; None where not listed."""
    return aluminum_ampacity_a(gauge) if gauge not in MAX_BREAKER_A else float(MAX_BREAKER_A[gauge])
