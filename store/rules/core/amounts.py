"""Weights and forces as the owner of a job reads them."""

from __future__ import annotations

from store.measure.length import INCH_NM, MM_NM
from store.measure.mass import KILOGRAM_UG, POUND_UG
from store.records.whole import Job

NEWTON_PER_LBF = 4.4482216152605
"""Exact: the international pound and standard gravity."""


def heavy(job: Job, pounds: float) -> str:
    """A weight: `60 lb`, or `27 kg`."""
    if job.settings.metric:
        return f"{pounds * POUND_UG / KILOGRAM_UG:.0f} kg"
    return f"{pounds:.0f} lb"


def force(job: Job, lbf: float) -> str:
    """A force: `95 lb`, or `423 N`."""
    return f"{lbf * NEWTON_PER_LBF:.0f} N" if job.settings.metric else f"{lbf:.0f} lb"


def moment(job: Job, inch_pounds: float) -> str:
    """A turning: `900 in·lb`, or `102 N·m`."""
    if job.settings.metric:
        return f"{inch_pounds * NEWTON_PER_LBF * INCH_NM / 1e9:.0f} N·m"
    return f"{inch_pounds:.0f} in·lb"


def fine(job: Job, nm: int) -> str:
    """A length too small for a tape: `0.17 in`, or `4.3 mm`."""
    return f"{nm / MM_NM:.1f} mm" if job.settings.metric else f"{nm / INCH_NM:.2f} in"


def newtons(lbf: float) -> float:
    """Pounds-force in newtons."""
    return lbf * NEWTON_PER_LBF
