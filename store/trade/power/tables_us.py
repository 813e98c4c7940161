"""Tables of United States practice, as printed; conductor sizes are AWG numbers.

NFPA 70 (the National Electrical Code) unless another source stands beside the table. These figures are the
same in the 2017, 2020 and 2023 editions. They are a planning aid: the adopted code text and the inspector
win.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

GAUGES_AWG = (18, 16, 14, 12, 10, 8, 6)

SOLID_OHM_PER_KFT = {18: 7.77, 16: 4.89, 14: 3.07, 12: 1.93, 10: 1.21, 8: 0.764}
STRANDED_OHM_PER_KFT = {18: 7.95, 16: 4.99, 14: 3.14, 12: 1.98, 10: 1.24, 8: 0.778, 6: 0.491}
TABLE_8_TEMP_C = 75.0
TABLE_8_COPPER_PER_C = 0.00323  # Table 8, note 2

# Ampacity of copper, Table 310.16 (Table 310.15(B)(16) in 2017). The 60 °C column of 14 and 12 AWG has been
# 15 and 20 A since the 2011 edition. The 90 °C column serves only as the start of an adjustment (334.80).
AMPACITY_60C_A = {14: 15, 12: 20, 10: 30, 8: 40, 6: 55}
AMPACITY_90C_A = {14: 25, 12: 30, 10: 40, 8: 55, 6: 75}
THINNEST_AWG = 14  # of a branch circuit: Table 310.5 (Table 310.106(A) in 2017); from memory
SMALL_CONDUCTOR_MAX_BREAKER_A = {14: 15, 12: 20, 10: 30}  # 240.4(D), copper

# 240.6(A). The 10 A size added in 2023 is left out: it is not usual, and 14 AWG copper is kept at 15 A here.
STANDARD_BREAKERS_A = (15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100)

# More than three current-carrying conductors together for over 24 in: up to how many, and the factor.
# Table 310.15(C)(1) (Table 310.15(B)(3)(a) in 2017).
BUNDLE_FACTORS = ((3, 1.0), (6, 0.80), (9, 0.70), (20, 0.50), (30, 0.45), (40, 0.40))
BUNDLE_FACTOR_BEYOND = 0.35

# Table 210.21(B)(2): most a cord-and-plug load may take from one receptacle, circuits of two or more
# receptacles.
RECEPTACLE_MAX_LOAD_A = {15: 12, 20: 16, 30: 24}
# Table 210.21(B)(3): receptacle ratings allowed on a circuit of two or more receptacles.
RECEPTACLES_ON_BREAKER_A = {15: (15,), 20: (15, 20), 30: (30,)}

CONDUCTOR_IN3 = {18: 1.50, 16: 1.75, 14: 2.00, 12: 2.25, 10: 2.50, 8: 3.00, 6: 5.00}  # Table 314.16(B)

BoxKind = Literal["round", "square", "device", "masonry"]


class StandardBox(Struct, frozen=True):
    """A metal box of Table 314.16(A): size in inches, volume in cubic inches, conductors it takes by size.

    `most` counts conductors of one size, in the order of GAUGES_AWG, with nothing else in the box.
    """

    size: str
    kind: BoxKind
    volume_in3: float
    most: tuple[int, int, int, int, int, int, int]


# Table 314.16(A). FS and FD cast boxes are left out: they are made for the surface, not for a finished wall.
STANDARD_BOXES = (
    StandardBox("4 × 1-1/4 round or octagonal", "round", 12.5, (8, 7, 6, 5, 5, 4, 2)),
    StandardBox("4 × 1-1/2 round or octagonal", "round", 15.5, (10, 8, 7, 6, 6, 5, 3)),
    StandardBox("4 × 2-1/8 round or octagonal", "round", 21.5, (14, 12, 10, 9, 8, 7, 4)),
    StandardBox("4 × 1-1/4 square", "square", 18.0, (12, 10, 9, 8, 7, 6, 3)),
    StandardBox("4 × 1-1/2 square", "square", 21.0, (14, 12, 10, 9, 8, 7, 4)),
    StandardBox("4 × 2-1/8 square", "square", 30.3, (20, 17, 15, 13, 12, 10, 6)),
    StandardBox("4-11/16 × 1-1/4 square", "square", 25.5, (17, 14, 12, 11, 10, 8, 5)),
    StandardBox("4-11/16 × 1-1/2 square", "square", 29.5, (19, 16, 14, 13, 11, 9, 5)),
    StandardBox("4-11/16 × 2-1/8 square", "square", 42.0, (28, 24, 21, 18, 16, 14, 8)),
    StandardBox("3 × 2 × 1-1/2 device", "device", 7.5, (5, 4, 3, 3, 3, 2, 1)),
    StandardBox("3 × 2 × 2 device", "device", 10.0, (6, 5, 5, 4, 4, 3, 2)),
    StandardBox("3 × 2 × 2-1/4 device", "device", 10.5, (7, 6, 5, 4, 4, 3, 2)),
    StandardBox("3 × 2 × 2-1/2 device", "device", 12.5, (8, 7, 6, 5, 5, 4, 2)),
    StandardBox("3 × 2 × 2-3/4 device", "device", 14.0, (9, 8, 7, 6, 5, 4, 2)),
    StandardBox("3 × 2 × 3-1/2 device", "device", 18.0, (12, 10, 9, 8, 7, 6, 3)),
    StandardBox("4 × 2-1/8 × 1-1/2 device", "device", 10.3, (6, 5, 5, 4, 4, 3, 2)),
    StandardBox("4 × 2-1/8 × 1-7/8 device", "device", 13.0, (8, 7, 6, 5, 5, 4, 2)),
    StandardBox("4 × 2-1/8 × 2-1/8 device", "device", 14.5, (9, 8, 7, 6, 5, 4, 2)),
    StandardBox("3-3/4 × 2 × 2-1/2 masonry, a gang", "masonry", 14.0, (9, 8, 7, 6, 5, 4, 2)),
    StandardBox("3-3/4 × 2 × 3-1/2 masonry, a gang", "masonry", 21.0, (14, 12, 10, 9, 8, 7, 4)),
)

RacewayKind = Literal["EMT", "ENT"]


class RacewaySize(Struct, frozen=True):
    """One trade size of Chapter 9, Table 4, in inches; `bend_radius_in` is of Table 2 (one-shot benders)."""

    kind: RacewayKind
    trade_size: str
    inside_in: float
    bend_radius_in: float


# Chapter 9, Table 4 (inside diameter) and Table 2 (radius to the centre line, one-shot and full-shoe
# benders).
RACEWAYS = (
    RacewaySize("EMT", "1/2", 0.622, 4.0),
    RacewaySize("EMT", "3/4", 0.824, 4.5),
    RacewaySize("EMT", "1", 1.049, 5.75),
    RacewaySize("EMT", "1-1/4", 1.380, 7.25),
    RacewaySize("EMT", "1-1/2", 1.610, 8.25),
    RacewaySize("EMT", "2", 2.067, 9.5),
    RacewaySize("ENT", "1/2", 0.560, 4.0),
    RacewaySize("ENT", "3/4", 0.760, 4.5),
    RacewaySize("ENT", "1", 1.000, 5.75),
    RacewaySize("ENT", "1-1/4", 1.340, 7.25),
    RacewaySize("ENT", "1-1/2", 1.570, 8.25),
    RacewaySize("ENT", "2", 2.020, 9.5),
)
