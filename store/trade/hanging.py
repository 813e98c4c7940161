"""What holds a load on a wall: screws pulled out of wood, and the lever of an arm that swings out.

Allowable loads of the National Design Specification (NDS, American Wood Council) for screws in the side
grain. Only withdrawal is here: the sideways (shear) load of a screw needs the yield equations of the same
standard. The mount's own instructions say which screw goes where, and they win. Drywall alone holds no rated
load.
"""

from __future__ import annotations

from math import ceil

import msgspec

from store.measure.length import INCH_NM

LAG_FACTOR_LBF = 1800.0
"""NDS §12.2.1 and Table 12.2A: W = 1800 · G^1.5 · D^0.75, lbf per inch of thread."""
WOOD_SCREW_FACTOR_LBF = 2850.0
"""NDS §12.2.2 and Table 12.2B: W = 2850 · G² · D, lbf per inch of thread."""
LAG_SOURCE = "NDS §12.2.1, Table 12.2A"
WOOD_SCREW_SOURCE = "NDS §12.2.2, Table 12.2B"

SPECIFIC_GRAVITY = {"SPF": 0.42, "Hem-Fir": 0.43, "Douglas Fir-Larch": 0.50, "Southern Pine": 0.55}
"""NDS Table 12.3.3A: Douglas Fir-Larch seen in a secondary copy, the others from memory (high)."""
UNKNOWN_GRAVITY = SPECIFIC_GRAVITY["SPF"]
"""The lightest common stud: the safe reading when nobody knows the wood."""
WOOD_SCREW_DIAMETER_NM = {6: 3_505_200, 8: 4_165_600, 10: 4_826_000, 12: 5_486_400, 14: 6_146_800}
"""Wood screw numbers: 0.138, 0.164, 0.190, 0.216 and 0.242 in (NDS Table 12.2B)."""
LEAD_HOLE_SHARES = (0.40, 0.70)
"""Lead hole for the thread of a lag screw in wood of G 0.50 or less, share of D: NDS §12.1.4, from memory
(high)."""
LEAD_HOLE_GRAVITY = 0.50


class Pull(msgspec.Struct, frozen=True):
    """Pull on the upper row of bolts of a bracket, and on one bolt of it, lbf."""

    row_lbf: float
    bolt_lbf: float


def lag_withdrawal(gravity: float, diameter_nm: int) -> float:
    """Allowable withdrawal of a lag screw, lbf per inch of thread in the wood, before adjustment factors.

    `gravity` is the specific gravity of the wood, the diameter that of the shank. Source: NDS §12.2.1. Side
    grain only (end grain takes 0.75 of it), thread without the tapered tip, lead hole bored. Raises
    ValueError unless both are above 0.
    """
    _check_wood(gravity, diameter_nm)
    return float(LAG_FACTOR_LBF * gravity**1.5 * (diameter_nm / INCH_NM) ** 0.75)


def wood_screw_withdrawal(gravity: float, diameter_nm: int) -> float:
    """Allowable withdrawal of a wood screw, lbf per inch of thread in the wood, before adjustment factors.

    Source: NDS §12.2.2. Side grain only; wood screws are not to be loaded in withdrawal from end grain.
    Raises ValueError unless both are above 0.
    """
    _check_wood(gravity, diameter_nm)
    return WOOD_SCREW_FACTOR_LBF * gravity**2 * (diameter_nm / INCH_NM)


def allowable_lbf(per_inch_lbf: float, thread_nm: int, count: int, factor: float = 1.0) -> float:
    """Allowable pull on `count` screws that share it evenly, lbf; `factor` is the product of NDS adjustment
    factors.

    The thread is the part in the wood behind plate, drywall and finish. Raises ValueError for a negative
    input.
    """
    if per_inch_lbf < 0 or thread_nm < 0 or count < 0 or factor < 0:
        raise ValueError("an allowable load takes no negative figure")
    return per_inch_lbf * (thread_nm / INCH_NM) * count * factor


def thread_in_wood(screw_nm: int, tip_nm: int, covering_nm: int, threaded_nm: int) -> int:
    """Thread that bites in the stud, nanometres: what is left behind plate, drywall and finish, without the
    tip.

    Never more than the threaded part without its tip, never below 0.
    """
    return max(0, min(screw_nm - covering_nm, threaded_nm) - tip_nm)


def lever_pull(load_lbf: float, arm_nm: int, row_spacing_nm: int, bolts_in_row: int) -> Pull:
    """Pull on the upper bolts of a wall bracket that carries a load away from the wall: load · arm / row
    spacing.

    Statics, turning about the lower row of bolts. The arm is from the wall to the centre of mass at full
    reach. Raises ValueError unless spacing and bolts are above 0 and load and arm at least 0. It does not
    hold where the bracket bears on soft covering below its lower row, and it says nothing of shear.
    """
    if row_spacing_nm <= 0 or bolts_in_row <= 0 or load_lbf < 0 or arm_nm < 0:
        raise ValueError("a lever needs row spacing and bolts above 0, load and arm at least 0")
    row = load_lbf * arm_nm / row_spacing_nm
    return Pull(row, row / bolts_in_row)


def bolts_needed(pull_lbf: float, per_bolt_lbf: float) -> int:
    """The least number of bolts that take a pull at an allowable load each.

    Raises ValueError unless a bolt holds something.
    """
    if per_bolt_lbf <= 0:
        raise ValueError("a bolt that holds nothing cannot be counted on")
    return max(0, ceil(pull_lbf / per_bolt_lbf))


def lead_hole(gravity: float, diameter_nm: int) -> tuple[int, int] | None:
    """Smallest and largest lead hole for the thread of a lag screw, nanometres; None for wood denser than G
    0.50.

    Source: NDS §12.1.4 (from memory, high). Raises ValueError unless both are above 0.
    """
    _check_wood(gravity, diameter_nm)
    if gravity > LEAD_HOLE_GRAVITY:
        return None
    low, high = LEAD_HOLE_SHARES
    return round(diameter_nm * low), round(diameter_nm * high)


def _check_wood(gravity: float, diameter_nm: int) -> None:
    if gravity <= 0 or diameter_nm <= 0:
        raise ValueError("a screw in wood needs a specific gravity and a diameter above 0")
