"""Coax: what is lost along a run and in its splitters, by frequency."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from itertools import pairwise
from math import sqrt

from store.measure.length import FOOT_NM

LOSS_DB_PER_100_FT: dict[str, tuple[tuple[float, float], ...]] = {
    "rg6": ((57.0, 1.5), (213.0, 3.0), (473.0, 4.5), (695.0, 5.6), (950.0, 6.4), (2150.0, 9.7)),
    "rg59": ((55.0, 2.05), (211.0, 3.8), (1000.0, 8.1)),
    "rg11": ((55.0, 0.96), (211.0, 1.9), (1000.0, 4.3)),
}
"""Frequency in MHz and loss in dB per 100 ft, ascending; sources in LOSS_SOURCE."""

LOSS_SOURCE = {
    "rg6": "a manufacturer's note on RG-6: television channels 2, 13, 14 and 51 (at mid-channel), 950 and 2150 MHz",
    "rg59": "common practice: cable data sheets, from memory",
    "rg11": "common practice: cable data sheets, from memory",
}

SPLITTER_DB = {2: 3.5, 3: 7.0, 4: 7.0, 8: 11.0}
"""Loss of one output by number of outputs; of an uneven 3-way, its worse outputs. Common practice."""


def loss_db_per_100_ft(mhz: float, kind: str = "rg6") -> float:
    """Return the loss of 100 ft at a frequency, in dB: the table, and between its rows straight in √f.

    Loss in copper goes nearly with the square root of frequency, so the √. Raises KeyError on an unknown
    kind and ValueError outside the table, as nothing is known there.
    """
    rows = LOSS_DB_PER_100_FT[kind]
    if not rows[0][0] <= mhz <= rows[-1][0]:
        raise ValueError(f"{kind}: loss is known from {rows[0][0]:g} to {rows[-1][0]:g} MHz, not at {mhz:g}")
    at = min(bisect_right([row[0] for row in rows], mhz), len(rows) - 1)
    (low_mhz, low_db), (high_mhz, high_db) = list(pairwise(rows))[at - 1]
    share = (sqrt(mhz) - sqrt(low_mhz)) / (sqrt(high_mhz) - sqrt(low_mhz))
    return low_db + share * (high_db - low_db)


def splitter_db(outputs: int) -> float:
    """Return the loss in dB from a splitter's input to one output; 0 for a single output.

    SPLITTER_DB where the size is usual (common practice); otherwise the next larger usual size. Raises
    ValueError below 1 and above the largest usual size.
    """
    if outputs == 1:
        return 0.0
    usual = [size for size in SPLITTER_DB if size >= outputs]
    if outputs < 1 or not usual:
        raise ValueError(f"no usual splitter has {outputs} outputs")
    return SPLITTER_DB[min(usual)]


def run_loss_db(length_nm: int, mhz: float, kind: str = "rg6", splitters: Iterable[int] = ()) -> float:
    """Return the loss in dB of a run with the splitters in it, each given by its number of outputs.

    Connectors and wall plates are not counted. Raises as its parts do, and ValueError on a negative length.
    """
    if length_nm < 0:
        raise ValueError("a run cannot be shorter than nothing")
    return length_nm / FOOT_NM / 100 * loss_db_per_100_ft(mhz, kind) + sum(map(splitter_db, splitters))
