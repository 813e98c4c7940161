"""How often a property is tried: a few times with each run of the tests, and many times in the long profile."""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, settings

USUAL, LONG = 30, 2000
"""Examples of a property that says no number of its own."""
SLOW = [HealthCheck.too_slow]


def tries(usual: int, **more: Any) -> settings:
    """A property's settings: `usual` examples in a run of the house, and as many times more in the long profile as
    any other property has there.
    """
    times = settings.default.max_examples / USUAL  # type: ignore[union-attr]
    return settings(max_examples=round(usual * times), **more)
