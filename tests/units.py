"""The independent table of units, read when a test first asks it: reading it takes a third of a second."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pint.registry

_read_later: Any = pint.registry.LazyRegistry

FLOATS = _read_later()
"""In floating point."""
EXACT = _read_later((), {"non_int_type": Fraction})
"""In fractions."""
