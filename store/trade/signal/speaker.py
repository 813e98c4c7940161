"""Speaker cable: resistance of the run, and how long it may be for its gauge and the speaker's impedance."""

from __future__ import annotations

from collections.abc import Iterable
from math import floor

from store.measure.length import FOOT_NM
from store.trade.measured.bounds import not_negative, positive
from store.trade.power.conductors import annealed_ohm_per_kft

MOST_LOSS_PERCENT = 5.0
"""Loop resistance as a share of the nominal impedance. Common practice, widely printed as a table."""
STRANDED = 1.02
"""The strands of a speaker cable are this much longer than the cable: ASTM B8, class B lay (2 %)."""
GAUGES_AWG = (18, 16, 14, 12, 10)
"""Gauges sold for speakers, thin to thick. Common practice, no source."""


def loop_ohm(length_nm: int, awg: int, *, stranded: bool = False) -> float:
    """Return the resistance at 20 °C, out and back, of a run `length_nm` long, in ohm.

    Sources: ASTM B258 for the size, 100 % IACS (IEC 60028) for the copper, ASTM B8 for what strands add. Does not
    hold for copper-clad aluminium, which resists about half as much again. Raises ValueError on a negative length.
    """
    return 2 * not_negative("the length of a run", length_nm) / FOOT_NM * _ohm_per_kft(awg, stranded) / 1000


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
