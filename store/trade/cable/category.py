"""Category cable: the longest link and channel, and what a run can carry."""

from __future__ import annotations

from store.trade.cable.length import METRE_NM

LINK_LIMIT_NM = 90 * METRE_NM
"""Permanent link, outlet to panel. ANSI/TIA-568.1 and .2 (from memory)."""
CHANNEL_LIMIT_NM = 100 * METRE_NM
"""Channel, device to device with all cords. ANSI/TIA-568.1 and .2 (from memory)."""
CORDS_LIMIT_NM = 10 * METRE_NM
"""All cords of one channel together. ANSI/TIA-568 (from memory)."""
TEN_GIGABIT_CAT6_NM = 55 * METRE_NM
TEN_GIGABIT_CAT6_BUNDLED_NM = 37 * METRE_NM
"""10GBASE-T over Category 6, alone and in tight bundles. TIA TSB-155 (from memory)."""

BANDWIDTH_MHZ = {"5e": 100, "6": 250, "6A": 500, "7": 600, "8": 2000}
"""Bandwidth by category. ANSI/TIA-568.2-D; 7: ISO/IEC 11801, class F (from memory)."""

SOURCE_TEN_GIGABIT = "TIA TSB-155 (Category 6) and ANSI/TIA-568.2-D (Category 6A) (from memory)"


def ten_gigabit_limit_nm(category: str, *, bundled: bool = False) -> int | None:
    """Return the longest channel in nm for 10 Gbit/s, or None where the category is not meant for it.

    Source: SOURCE_TEN_GIGABIT. Category 6A and above carry it over the full channel; Category 8 is given the
    same figure here as it, too, carries 10 Gbit/s that far (common practice). Raises KeyError on an unknown
    category.
    """
    if BANDWIDTH_MHZ[category] >= BANDWIDTH_MHZ["6A"]:
        return CHANNEL_LIMIT_NM
    if category == "6":
        return TEN_GIGABIT_CAT6_BUNDLED_NM if bundled else TEN_GIGABIT_CAT6_NM
    return None
