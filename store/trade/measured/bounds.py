"""What a number handed to the arithmetic must be; said once, in the same words everywhere."""

from __future__ import annotations

from math import isfinite

ROUNDING = 1e-9  # far below any figure here, far above the error of a few floating-point steps


def positive(name: str, value: float) -> float:
    """Return `value` if it is a finite number above zero, else raise ValueError naming it."""
    if not (isfinite(value) and value > 0):
        raise ValueError(f"{name} must be above zero, not {value!r}")
    return value


def not_negative(name: str, value: float) -> float:
    """Return `value` if it is a finite number of zero or more, else raise ValueError naming it."""
    if not (isfinite(value) and value >= 0):
        raise ValueError(f"{name} must be zero or more, not {value!r}")
    return value


def exceeds(value: float, limit: float) -> bool:
    """Whether `value` is truly above `limit`: what is exactly at a limit is within it, however it was computed."""
    return value > limit + max(1.0, abs(limit)) * ROUNDING


def past(value: float, limit: float) -> str:
    """`value`, which exceeds `limit`, with one decimal, or as many as it takes to be read as more: `12.01` past 12."""
    for places in range(1, 9):
        text = f"{value:.{places}f}"
        if float(text) > limit:
            return text
    return f"{value:.9f}"
