"""Tables of metric practice (IEC, and BS 7671 for the United Kingdom); conductor sizes are mm².

BS 7671:2018 Appendix 4, Table 4D5, for flat twin-and-earth cable; IEC 60228 for flexible copper. A planning aid:
the national rules, the manufacturer's instructions and whoever certifies the work win.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

# BS 7671 Table 4D5: drop in both conductors together, at 70 °C.
MV_PER_A_M = {1.0: 44.0, 1.5: 29.0, 2.5: 18.0, 4.0: 11.0, 6.0: 7.3, 10.0: 4.4}

# IEC 60228, classes 1 (solid) and 2 (stranded), and class 5 (flexible): largest ohm per km of plain copper at 20 °C.
OHM_PER_KM_20C = {1.0: 18.1, 1.5: 12.1, 2.5: 7.41, 4.0: 4.61, 6.0: 3.08, 10.0: 1.83}
FLEXIBLE_OHM_PER_KM_20C = {1.0: 19.5, 1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.30, 10.0: 1.91}
# IEC 60228 brings copper to 20 °C by 250 / (230 + t).
COPPER_ZERO_C = -230.0
RUNS_AT_C = 70.0
"""A conductor under load in 70 °C thermoplastic, as Table 4D5 has it."""

Method = Literal["100", "101", "102", "103", "C", "A"]

METHODS: dict[Method, str] = {
    "100": "above a plasterboard ceiling, insulation up to 100 mm",
    "101": "above a plasterboard ceiling, insulation over 100 mm",
    "102": "in an insulated stud wall, touching the inner surface",
    "103": "in an insulated stud wall, not touching the inner surface",
    "C": "clipped direct",
    "A": "in conduit in an insulated wall",
}

# BS 7671 Table 4D5: current capacity, 70 °C thermoplastic, 30 °C round it, one circuit.
CAPACITY_A: dict[Method, dict[float, float]] = {
    "100": {1.0: 13, 1.5: 16, 2.5: 21, 4.0: 27, 6.0: 34, 10.0: 45},
    "101": {1.0: 10.5, 1.5: 13, 2.5: 17, 4.0: 22, 6.0: 27, 10.0: 36},
    "102": {1.0: 13, 1.5: 16, 2.5: 21, 4.0: 27, 6.0: 35, 10.0: 47},
    "103": {1.0: 8, 1.5: 10, 2.5: 13.5, 4.0: 17.5, 6.0: 23.5, 10.0: 32},
    "C": {1.0: 16, 1.5: 20, 2.5: 27, 4.0: 37, 6.0: 47, 10.0: 64},
    "A": {1.0: 11.5, 1.5: 14.5, 2.5: 20, 4.0: 26, 6.0: 32, 10.0: 44},
}

# BS 7671 Table 52.2: cable wholly inside insulation, up to this length in mm, and the factor; beyond 500
# mm, half.
BURIED_FACTORS = ((0, 1.0), (50, 0.88), (100, 0.78), (200, 0.63), (400, 0.51))
BURIED_FACTOR_BEYOND = 0.5

# BS EN 60898 ratings in common stock.
STANDARD_BREAKERS_A = (6, 10, 16, 20, 25, 32, 40, 50, 63)
PLUG_FUSES_A = (3, 13)  # BS 1362


class DropLimit(Struct, frozen=True):
    """A recommended voltage-drop limit from the origin of the installation, in percent."""

    use: str
    percent: float


# BS 7671:2018 Appendix 4, section 6.4, public supply.
LIGHTING_DROP = DropLimit("lighting", 3.0)
OTHER_DROP = DropLimit("other uses", 5.0)
LONG_RUN_FROM_M = 100.0
LONG_RUN_PERCENT_PER_M = 0.005
LONG_RUN_MOST_PERCENT = 0.5
