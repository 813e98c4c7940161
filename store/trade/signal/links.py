"""How long a passive cord may be by what goes over it: USB by its rate, and plastic optical sound cords."""

from __future__ import annotations

import re
from functools import lru_cache

from store.measure.spelling import MOST_KEPT
from store.trade.cable.length import METRE_NM

USB_SOURCE = "USB-IF for USB 2.0 (5 m); faster: manufacturers' usual figures for passive cables, no limit is specified"
USB_NM: tuple[tuple[float, int], ...] = (
    (0.48, 5 * METRE_NM), (5.0, 2 * METRE_NM), (20.0, METRE_NM), (40.0, METRE_NM * 4 // 5), (80.0, METRE_NM * 4 // 5),
)  # fmt: skip
"""Up to which rate, Gbit/s, and the longest passive cord: 5, 2, 1 and 0.8 m."""
TOSLINK_SOURCE = "common practice: plastic fiber of JIS F05 plugs, 5 m planned, 10 m the most"
TOSLINK_PLAN_NM, TOSLINK_MOST_NM = 5 * METRE_NM, 10 * METRE_NM


def usb_limit_nm(gbit_s: float) -> int:
    """Longest passive USB cord at a rate, nanometres (USB_SOURCE); the shortest beyond the table."""
    return next((longest for rate, longest in USB_NM if gbit_s <= rate), USB_NM[-1][1])


_USB_NAMES: tuple[tuple[str, float], ...] = (
    (r"usb ?4|thunderbolt|40 ?g(?:bps|bit)?", 40.0),
    (r"gen ?2 ?x ?2|20 ?g(?:bps|bit)?", 20.0),
    (r"gen ?2|10 ?g(?:bps|bit)?|super ?speed ?(?:\+|plus)|usb ?(?:c )?3[.]2\b(?! gen ?1)", 10.0),
    (r"gen ?1|5 ?g(?:bps|bit)?|super ?speed|usb ?(?:c )?3(?:[.][01])?\b", 5.0),
    (r"usb ?2(?:[.]0)?\b|hi(?:gh)?[- ]?speed|480 ?m", 0.48),
)


@lru_cache(MOST_KEPT)
def usb_gbit_s(text: str) -> float | None:
    """The rate that the name of a USB cable stands for, Gbit/s: `USB 3.2 Gen 2`, `usb-c 10 Gbit/s`, `USB 2.0`.

    None where none is named. USB-IF: what each generation carries (from memory).
    """
    plain = " ".join(re.sub(r"[-_]", " ", text.lower()).split())
    if "usb" not in plain and "thunderbolt" not in plain:
        return None
    return next((rate for form, rate in _USB_NAMES if re.search(rf"\b(?:{form})", plain)), None)
