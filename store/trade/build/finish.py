"""What goes over the joints of board: screws, tape, compound, bead, coats and how long each dries.

Rates are by 1,000 square feet of board and differ by two between sources, so the rate is named where its figure is
shown. Levels of finish in our words, after GA-214 and ASTM C840.
"""

from __future__ import annotations

from bisect import bisect_left
from math import ceil
from typing import Literal, NamedTuple

from store.measure.length import FOOT_NM, INCH_NM

Level = Literal[0, 1, 2, 3, 4, 5]
SQUARE_FOOT_NM2 = FOOT_NM**2


class Rates(NamedTuple):
    """How much goes on 1,000 square feet of board."""

    screws: float
    screws_wide: float
    """With studs at 24 in."""
    tape_ft: float
    compound_gal: float
    source: str


HANDBOOK = Rates(1000, 850, 370, 9.4, "estimating table of a gypsum handbook, from memory (medium)")
TEXTBOOK = Rates(1000, 850, 380, 5.0, "an estimating textbook, Ex. 16-3, secondary copy")
"""The textbook gives no figure for wide studs; that of the handbook stands in."""
BEAD_MORE = 1.03
"""Corner bead is bought 2 to 3 % over its length: common practice."""
WIDE_STUDS_NM = 24 * INCH_NM


class Sundries(NamedTuple):
    """What is bought beside the sheets."""

    screws: int
    tape_ft: int
    compound_gal: float
    bead_ft: int


def sundries(
    bought_nm2: int, joint_nm: int, outside_corner_nm: int, spacing_nm: int, rates: Rates = HANDBOOK
) -> Sundries:
    """Screws and compound by the rate for the board bought, tape by the rate or the joints as laid, whichever is more,
    and bead for the outside corners. Raises ValueError for a figure below 0."""
    if min(bought_nm2, joint_nm, outside_corner_nm, spacing_nm) < 0:
        raise ValueError("board, joints and corners are 0 or more")
    feet = bought_nm2 / SQUARE_FOOT_NM2
    each = rates.screws_wide if spacing_nm >= WIDE_STUDS_NM else rates.screws
    return Sundries(
        ceil(feet * each / 1000 - 1e-9),
        ceil(max(feet * rates.tape_ft / 1000, joint_nm / FOOT_NM) - 1e-9),
        round(feet * rates.compound_gal / 1000, 2),
        ceil(outside_corner_nm * BEAD_MORE / FOOT_NM - 1e-9),
    )


BACKER_SCREWS_NM = 8 * INCH_NM
BACKER_SOURCE = "spacing: ANSI A108.11, from memory (high); the sheet's manufacturer wins"


def screws_on(width_nm: int, height_nm: int, spacing_nm: int) -> int:
    """Screws of cement board or plywood: along every stud behind it and both its edges, 8 in apart.

    Raises ValueError unless all are above 0.
    """
    if min(width_nm, height_nm, spacing_nm) <= 0:
        raise ValueError("sheets and spacing are above 0")
    return (ceil(width_nm / spacing_nm) + 1) * (ceil(height_nm / BACKER_SCREWS_NM) + 1)


COATS: dict[int, tuple[str, ...]] = {
    0: (),
    1: ("tape set in compound",),
    2: ("tape set in compound and wiped thin; one coat on the fasteners",),
    3: ("tape set in compound", "second coat on joints and fasteners, smooth"),
    4: (
        "tape set in compound",
        "second coat on joints and fasteners",
        "third coat on flat joints and fasteners, smooth",
    ),
    5: (
        "tape set in compound",
        "second coat on joints and fasteners",
        "third coat on flat joints and fasteners, smooth",
        "thin skim coat over the whole face",
    ),
}
"""The coats of a level. Levels 0 to 2 seen in a secondary copy of GA-214, the others from memory (high)."""
LEVEL_SOURCE = "GA-214, ASTM C840"
SIDE_LIT_LEVEL = 5
"""Usual advice where light grazes the wall or the paint shines; 4 for flat paint."""

# Drying of one 1/16 in coat, hours: rows by relative humidity, columns by temperature. A chart of the Drywall Finishing
# Council, as recalled (medium).
_HUMID = (0, 20, 40, 50, 60, 70, 80, 90)
_WARM_F = (40, 60, 80, 100)
_HOURS = (
    (28, 13, 6, 3),
    (34, 16, 8, 4),
    (44, 20, 10, 5),
    (48, 24, 12, 6),
    (60, 29, 13.5, 8),
    (84, 38, 19.5, 10),
    (108, 54, 27, 14),
    (216, 108, 49, 26),
)
DRYING_SOURCE = "drying chart of the trade, from memory (medium)"


def drying_hours(humidity_pct: float, warm_f: float) -> float:
    """Hours until one thin coat of ready-mix is dry, by the next worse row and column of the chart.

    Raises ValueError below 40 °F or above 90 %, where no coat goes on (GA-216: 50 °F at least until it is dry).
    """
    if not 0 <= humidity_pct <= _HUMID[-1] or warm_f < _WARM_F[0]:
        raise ValueError("compound is not put on below 40 °F or above 90 % humidity")
    row = bisect_left(_HUMID, humidity_pct)
    column = max(at for at, each in enumerate(_WARM_F) if each <= warm_f)
    return _HOURS[row][column]


def drying_days(humidity_pct: float, warm_f: float) -> int:
    """The same in whole days to wait before the next coat."""
    return ceil(drying_hours(humidity_pct, warm_f) / 24)
