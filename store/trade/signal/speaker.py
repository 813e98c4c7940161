"""Speaker cable: resistance of the run, and how long it may be for its gauge and the speaker's impedance."""

from __future__ import annotations

from collections.abc import Iterable
from math import floor

from store.measure.length import FOOT_NM
from store.trade.measured.bounds import not_negative, positive
from store.trade.power.conductors import annealed_ohm_per_kft
from store.trade.power.tables_metric import FLEXIBLE_OHM_PER_KM_20C

MOST_LOSS_PERCENT = 5.0
"""Loop resistance as a share of the nominal impedance. Common practice, widely printed as a table."""
STRANDED = 1.02
"""The strands of a speaker cable are this much longer than the cable: ASTM B8, class B lay (2 %)."""
GAUGES_AWG = (18, 16, 14, 12, 10)
"""Gauges sold for speakers, thin to thick. Common practice, no source."""
_KM_NM = 10**12
OHM_PER_KM = {0.75: 26.0} | {mm2: ohm for mm2, ohm in FLEXIBLE_OHM_PER_KM_20C.items() if mm2 <= 6}
"""Metric sizes sold for speakers, mm², and the largest ohm per km of their copper: IEC 60228, class 5, at 20 °C."""


def loop_ohm(length_nm: int, awg: int, *, stranded: bool = False) -> float:
    """Return the resistance at 20 °C, out and back, of a run `length_nm` long, in ohm.

    Sources: ASTM B258 for the size, 100 % IACS (IEC 60028) for the copper, ASTM B8 for what strands add. Does not
    hold for copper-clad aluminium, which resists about half as much again. Raises ValueError on a negative length.
    """
    return 2 * not_negative("the length of a run", length_nm) / FOOT_NM * _ohm_per_kft(awg, stranded) / 1000


def metric_loop_ohm(length_nm: int, mm2: float) -> float:
    """Return the resistance at 20 °C, out and back, of a run `length_nm` long of flexible copper, in ohm.

    Source: IEC 60228, class 5. Raises ValueError on a negative length, KeyError for a size that is not of `OHM_PER_KM`.
    """
    return 2 * not_negative("the length of a run", length_nm) / _KM_NM * OHM_PER_KM[mm2]


def metric_loss_percent(length_nm: int, mm2: float, impedance_ohm: float) -> float:
    """Return the loop resistance of a metric size as a percentage of the speaker's nominal impedance."""
    return 100 * metric_loop_ohm(length_nm, mm2) / positive("the impedance", impedance_ohm)


def metric_longest_run_nm(mm2: float, impedance_ohm: float, most_percent: float = MOST_LOSS_PERCENT) -> int:
    """Return the longest one-way run in nm of a metric size, as `longest_run_nm` does."""
    allowed = positive("the impedance", impedance_ohm) * positive("the share", most_percent) / 100
    return floor(allowed / (2 * OHM_PER_KM[mm2]) * _KM_NM)


def thinnest_mm2(length_nm: int, impedance_ohm: float) -> float | None:
    """Return the thinnest metric size that carries the run within 5 %, in mm², or None when none of them does."""
    return min((mm2 for mm2 in OHM_PER_KM if length_nm <= metric_longest_run_nm(mm2, impedance_ohm)), default=None)


def _ohm_per_kft(awg: int, stranded: bool) -> float:
    return (STRANDED if stranded else 1.0) * annealed_ohm_per_kft(awg)


def loss_percent(length_nm: int, awg: int, impedance_ohm: float, *, stranded: bool = False) -> float:
    """Return the loop resistance as a percentage of the speaker's nominal impedance."""
    return 100 * loop_ohm(length_nm, awg, stranded=stranded) / positive("the impedance", impedance_ohm)


def longest_run_nm(
    awg: int, impedance_ohm: float, most_percent: float = MOST_LOSS_PERCENT, *, stranded: bool = False
) -> int:
    """Return the longest one-way run in nm that keeps the loop within the share: 0.05·Z / (2·r).

    `impedance_ohm` is the nominal impedance of all that hangs on the run: two 8 ohm speakers side by side are
    4 ohm. Common practice; printed tables differ by up to 5 % as they round. Raises ValueError unless the
    impedance and the share are positive.
    """
    allowed = positive("the impedance", impedance_ohm) * positive("the share", most_percent) / 100
    return floor(allowed / (2 * _ohm_per_kft(awg, stranded) / 1000) * FOOT_NM)


def thinnest_gauge(
    length_nm: int,
    impedance_ohm: float,
    gauges: Iterable[int] = GAUGES_AWG,
    most_percent: float = MOST_LOSS_PERCENT,
    *,
    stranded: bool = False,
) -> int | None:
    """Return the thinnest gauge that carries the run within the share, or None when none of them does."""
    fit = [awg for awg in gauges if length_nm <= longest_run_nm(awg, impedance_ohm, most_percent, stranded=stranded)]
    return max(fit, default=None)
