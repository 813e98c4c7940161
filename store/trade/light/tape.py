"""Light tape: what it draws, the volts that its wire loses, and how far one feed reaches.

Lengths in whole nanometres. Copper at 20 °C, ohm per 1,000 ft, solid: 1.724e-8 ohm metre (IEC 60028) at the area of the
gauge. The manufacturer's longest run and own copper win.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from store.measure.length import FOOT_NM
from store.trade.power.tables_metric import FLEXIBLE_OHM_PER_KM_20C

Fed = Literal["one end", "both ends", "middle"]
OHM_PER_KFT = {22: 16.14, 20: 10.15, 18: 6.385, 16: 4.016, 14: 2.525, 12: 1.588}
"""Copper at 20 °C by AWG: NBS Handbook 100, from memory (high)."""
OHM_PER_KM = {0.75: 26.0, **{mm2: ohm for mm2, ohm in FLEXIBLE_OHM_PER_KM_20C.items() if mm2 <= 6}}
"""The same by metric size, mm², stranded: IEC 60228, class 5, at 20 °C."""
_KM_NM = 10**12
USUAL_RUN_NM = {12: 16 * FOOT_NM, 24: 32 * FOOT_NM}
"""The longest run fed from one end, by volts: manufacturers, from memory (medium)."""
GOOD_DROP_PCT = 3.0
MOST_DROP_PCT = 5.0
"""To keep to, and at most; beyond it white tape turns dull and warmer, coloured tape loses blue and green first: common
practice (from memory, medium)."""
SOURCE = "2 x length x ohm per foot x amperes, copper at 20 °C; 3 % to keep to is common practice"


class Draw(NamedTuple):
    """What a length of tape takes."""

    watts: float
    amps: float


class Drop(NamedTuple):
    """Volts lost on the way, and the share of the tape's volts, percent."""

    volts: float
    percent: float


def draw(length_nm: int, watts_per_ft: float, volts: float) -> Draw:
    """Watts and amperes of a length of tape. Raises ValueError unless length, watts and volts are above 0."""
    if min(length_nm, watts_per_ft, volts) <= 0:
        raise ValueError("tape has a length, watts a foot and volts above 0")
    watts = length_nm / FOOT_NM * watts_per_ft
    return Draw(watts, watts / volts)


def feeder_drop(amps: float, volts: float, one_way_nm: int, gauge: int) -> Drop:
    """Volts lost in the wire from the driver to the tape, there and back. Raises KeyError for a gauge not in
    `OHM_PER_KFT`, ValueError unless volts are above 0 and the others at least 0."""
    if volts <= 0 or amps < 0 or one_way_nm < 0:
        raise ValueError("a feeder has volts above 0, and amperes and a length of at least 0")
    lost = 2 * one_way_nm / FOOT_NM * OHM_PER_KFT[gauge] / 1000 * amps
    return Drop(lost, 100 * lost / volts)


def metric_feeder_drop(amps: float, volts: float, one_way_nm: int, mm2: float) -> Drop:
    """The same in a wire of a metric size. Raises KeyError for a size not in `OHM_PER_KM`, ValueError as above."""
    if volts <= 0 or amps < 0 or one_way_nm < 0:
        raise ValueError("a feeder has volts above 0, and amperes and a length of at least 0")
    lost = 2 * one_way_nm / _KM_NM * OHM_PER_KM[mm2] * amps
    return Drop(lost, 100 * lost / volts)


def tape_drop(drawn: Draw, volts: float, loop_ohm: float, fed: Fed = "one end") -> Drop:
    """Volts lost along the tape itself, at its darkest place, for its whole copper there and back in ohm.

    Even load: half of current times loop at one end; an eighth when it is fed in its middle or from both ends. Raises
    ValueError unless volts are above 0 and ohm at least 0.
    """
    if volts <= 0 or loop_ohm < 0:
        raise ValueError("tape has volts above 0 and ohm of at least 0")
    lost = drawn.amps * loop_ohm / (2 if fed == "one end" else 8)
    return Drop(lost, 100 * lost / volts)


def longest_run_nm(volts: float, fed: Fed, maker_nm: int | None = None) -> int | None:
    """The longest tape for a way of feeding: the maker's figure for one end, else the usual of its volts; double when
    fed in the middle or from both ends. None for volts that nothing is usual for."""
    one = USUAL_RUN_NM.get(round(volts)) if maker_nm is None else maker_nm
    return None if one is None else one * (1 if fed == "one end" else 2)


def longest_feeder_nm(watts: float, volts: float, gauge: int, percent: float = GOOD_DROP_PCT) -> int:
    """The longest wire from driver to tape that loses no more than so many percent: p · V² / (2 · r · W), nanometres,
    rounded down. Raises KeyError and ValueError as `feeder_drop` does."""
    if min(watts, volts, percent) <= 0:
        raise ValueError("a feeder has watts, volts and percent above 0")
    return int(percent / 100 * volts**2 / (2 * OHM_PER_KFT[gauge] / 1000 * watts) * FOOT_NM)


def gauge_for(amps: float, volts: float, one_way_nm: int, percent: float = GOOD_DROP_PCT) -> int | None:
    """The thinnest gauge that loses no more than so many percent; None where 12 AWG still loses more."""
    return next(
        (gauge for gauge in OHM_PER_KFT if feeder_drop(amps, volts, one_way_nm, gauge).percent <= percent + 1e-9), None
    )


def mm2_for(amps: float, volts: float, one_way_nm: int, percent: float = GOOD_DROP_PCT) -> float | None:
    """The thinnest metric size that loses no more than so many percent; None where 6 mm² still loses more."""
    return next(
        (mm2 for mm2 in OHM_PER_KM if metric_feeder_drop(amps, volts, one_way_nm, mm2).percent <= percent + 1e-9), None
    )
