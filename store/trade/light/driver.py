"""The LED driver: how large, how many Class 2 outputs, and whether it goes with its dimmer."""

from __future__ import annotations

from math import ceil
from typing import Literal, NamedTuple

HEADROOM = 0.8
"""A driver is loaded to 80 % of its rating: common practice (from memory, high)."""
CLASS_2_W = {12: 60.0, 24: 96.0}
"""Most watts of one Class 2 output as drivers are sold: 5 A at 12 V, 4 A at 24 V (trade article). The limit itself is
NEC Chapter 9 Table 11(B): 5.0 A up to 20 V, 100 VA up to 30 V."""
CLASS_2_VA = 100.0
CLASS_2_SOURCE = "NEC 2020 Chapter 9 Table 11(B)"
SIZES_W = (12, 20, 30, 40, 60, 75, 96, 100, 150, 200, 300)
"""Sizes that drivers are sold in: common practice."""

Dims = Literal["unknown", "none", "phase", "0-10 V", "low-voltage", "radio"]
"""How a dimmer or a driver dims: line voltage cut by phase; 0-10 V control pair; on the low-voltage side; by radio."""


class Wanted(NamedTuple):
    """The driver that a load wants."""

    watts: float
    """Least rating."""
    size_w: int | None
    """The next size sold; None above the largest."""
    outputs: int
    """Least number of Class 2 outputs; 1 where the volts have no Class 2 figure here."""


def wanted(load_w: float, volts: float) -> Wanted:
    """The driver for a load. Raises ValueError unless load and volts are above 0."""
    if min(load_w, volts) <= 0:
        raise ValueError("a driver has a load and volts above 0")
    least = load_w / HEADROOM
    one = CLASS_2_W.get(round(volts))
    size = next((each for each in SIZES_W if each >= least - 1e-9), None)
    return Wanted(least, size, 1 if one is None else ceil(load_w / (HEADROOM * one) - 1e-9))


def most_load_w(rating_w: float) -> float:
    """What a driver may carry. Raises ValueError for a rating below 0."""
    if rating_w < 0:
        raise ValueError("a driver has a rating of at least 0")
    return rating_w * HEADROOM


def go_together(dimmer: Dims, driver: Dims) -> bool | None:
    """Whether a dimmer works a driver; None where one of them is not known. A plain switch ("none") works any."""
    if "unknown" in (dimmer, driver):
        return None
    return dimmer in ("none", driver)
