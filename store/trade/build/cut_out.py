"""Cut-outs in board for device boxes, by the number of gangs. Pure numbers.

Source: usual single-gang boxes are about 2-1/4 x 3-3/4 in outside, and devices stand 1-13/16 in apart (NEMA WD 6); a
British single flush box about 73 x 73 mm, a double 133 x 73 mm (BS 4662). All from memory: the box itself is traced.
"""

from __future__ import annotations

from store.measure.length import INCH_NM, MM_NM

WIDE_NM, HIGH_NM, GANG_NM = INCH_NM * 9 // 4, INCH_NM * 15 // 4, INCH_NM * 29 // 16
METRIC_NM, METRIC_GANG_NM = 73 * MM_NM, 60 * MM_NM
SOURCE = "usual boxes, from memory: hold the box to the drywall and trace it"


def cut_out(gangs: int, metric: bool) -> tuple[int, int]:
    """Width and height of the cut-out for a box of so many gangs, nanometres. Raises ValueError for none."""
    if gangs < 1:
        raise ValueError(f"a box has at least one gang, not {gangs}")
    if metric:
        return METRIC_NM + (gangs - 1) * METRIC_GANG_NM, METRIC_NM
    return WIDE_NM + (gangs - 1) * GANG_NM, HIGH_NM
