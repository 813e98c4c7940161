"""Cables that lie together heat each other: what each may then carry."""

from __future__ import annotations

from store.trade.measured.bounds import exceeds, positive
from store.trade.power.conductors import flat_cable_capacity_a, nm_ampacity_a, standard_breaker_a
from store.trade.power.tables_metric import Method

GROUPED_OVER_IN = 24.0
"""Conductors bundled, or in one raceway, farther than this are adjusted: NFPA 70 310.15(C)(1)."""
METRIC_SOURCE = "BS 7671:2018 Table 4C1 and 523.5"
BUNCHED = ((1, 1.0), (2, 0.80), (3, 0.70), (4, 0.65), (5, 0.60), (6, 0.57), (7, 0.54), (8, 0.52), (9, 0.50),
           (12, 0.45), (16, 0.41), (20, 0.38))  # fmt: skip
"""Circuits or cables bunched, and the factor. BS 7671 Table 4C1, row 1 (a copy of the 2008 edition)."""
IGNORED_SHARE = 0.30
"""A cable that carries no more than this share of its grouped rating is left out of the group: 523.5."""

INSULATED_SOURCE = "BS 7671:2018 523.9, Table 52.2 and Table 4D5"
FILLS_THE_BAY = ("blown in", "spray foam")
"""Insulation that closes round a cable; a batt leaves it to one side."""
IN_A_WALL: tuple[Method, ...] = ("102", "103", "A")
"""Reference methods of Table 4D5 that are of an insulated stud wall already."""

RING_DEVICES_A = (30.0, 32.0)
RING_LEAST_MM2 = 2.5
RING_LEAST_CAPACITY_A = 20.0
RING_SOURCE = "BS 7671:2018 433.1.204"


def grouped_ampacity_a(gauge: int, current_carrying: int) -> float:
    """Ampacity in A of copper NM cable among so many current-carrying conductors: NFPA 70 334.80 and 310.15(C)(1)."""
    return nm_ampacity_a(gauge, current_carrying)


def grouped_breaker_ok(gauge: int, current_carrying: int, breaker_a: float, design_a: float, *, several: bool) -> bool:
    """Whether a breaker may protect NM cable of this size in such a group.

    The breaker is no larger than the adjusted ampacity. Between standard sizes the next one up is allowed,
    240.4(B), where the circuit does not feed `several` receptacles for plugs, and what it carries (`design_a`)
    stays within the adjusted ampacity. Raises ValueError for a size that is not listed.
    """
    most = grouped_ampacity_a(gauge, current_carrying)
    if not exceeds(breaker_a, most):
        return True
    return not several and not exceeds(design_a, most) and breaker_a <= standard_breaker_a(most)


def current_carrying(conductors: int) -> int:
    """Current-carrying conductors of a cable with so many insulated ones, as NFPA 70 310.15(E) counts them.

    Of three, the neutral of a multiwire circuit counts for nothing, and of two travelers one is live: two.
    """
    return 2 if conductors == 3 else conductors


def bunched_factor(cables: int) -> float:
    """Factor on the capacity of each of so many cables bunched together: BS 7671 Table 4C1, row 1.

    Between printed numbers the next higher one is taken, beyond the last the last. Raises ValueError below one.
    """
    positive("the number of cables", cables)
    return next((factor for most, factor in BUNCHED if cables <= most), BUNCHED[-1][1])


def ring_ok(device_a: float, mm2: float, capacity_a: float) -> bool:
    """Whether cable may be the ring of a ring final circuit behind a device: 30 or 32 A, 2.5 mm², 20 A as installed."""
    fits = mm2 >= RING_LEAST_MM2 and not exceeds(RING_LEAST_CAPACITY_A, capacity_a)
    return fits and not exceeds(device_a, max(RING_DEVICES_A))


def insulated_capacity_a(mm2: float, insulation: str, length_nm: int, method: Method) -> float | None:
    """Capacity in A of flat twin and earth for so long in the insulation of a stud wall; None for a size not listed.

    What closes round the cable takes Table 52.2 on method C, by length; beside a batt it carries what method 102 says
    at the best, or what its own method says if that is of an insulated wall. BS 7671 523.9, Tables 52.2 and 4D5.
    """
    try:
        if insulation in FILLS_THE_BAY:
            return flat_cable_capacity_a(mm2, "C", length_nm / 1e6)
        own = flat_cable_capacity_a(mm2, method)
        return own if method in IN_A_WALL else min(own, flat_cable_capacity_a(mm2, "102"))
    except ValueError:
        return None
