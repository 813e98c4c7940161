"""How long a passive cord may be by what goes over it: USB by its rate, and plastic optical sound cords."""

from __future__ import annotations

from store.trade.cable.length import METRE_NM

USB_SOURCE = "USB-IF for USB 2.0 (5 m); faster: makers' usual figures for passive cables, no limit is specified"
USB_NM: tuple[tuple[float, int], ...] = (
    (0.48, 5 * METRE_NM), (5.0, 2 * METRE_NM), (20.0, METRE_NM), (40.0, METRE_NM * 4 // 5), (80.0, METRE_NM * 4 // 5),
)  # fmt: skip
"""Up to which rate, Gbit/s, and the longest passive cord: 5, 2, 1 and 0.8 m."""
TOSLINK_SOURCE = "common practice: plastic fiber of JIS F05 plugs, 5 m planned, 10 m the most"
TOSLINK_PLAN_NM, TOSLINK_MOST_NM = 5 * METRE_NM, 10 * METRE_NM


def usb_limit_nm(gbit_s: float) -> int:
    """Longest passive USB cord at a rate, nanometres (USB_SOURCE); the shortest beyond the table."""
    return next((longest for rate, longest in USB_NM if gbit_s <= rate), USB_NM[-1][1])
