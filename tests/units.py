"""The independent table of units, read once for all tests that ask it: reading it takes a third of a second."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pint

FLOATS: Any = pint.UnitRegistry()
"""In floating point."""
EXACT: Any = pint.UnitRegistry(non_int_type=Fraction)
"""In fractions."""
