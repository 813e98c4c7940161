"""How far a shelf sags, and how long it may be.

Straight beams of one material, small sag, load along the shelf in whole. Lengths are whole nanometres, loads
pounds-force, stiffness pounds-force per square inch, as the tables print them. Beam formulas: Roark; AISC
Manual beam tables (from memory, high). Strength of shelf and pins is not covered: a shelf this stiff is
seldom too weak, its supports may be.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

import msgspec

from store.measure.length import FOOT_NM, INCH_NM

Support = Literal["simple", "fixed", "fixed and simple", "cantilever"]
Load = Literal["even", "centre", "end", "third points"]

# Sag is this share of load · span³ / EI. An even load counts as its total; at third points, as the sum of
# both.
_SHARES: dict[tuple[Support, Load], float] = {
    ("simple", "even"): 5 / 384,
    ("simple", "centre"): 1 / 48,
    ("simple", "third points"): 23 / 1296,
    ("fixed", "even"): 1 / 384,
    ("fixed", "centre"): 1 / 192,
    ("fixed and simple", "even"): 0.005_416_1,
    ("cantilever", "even"): 1 / 8,
    ("cantilever", "end"): 1 / 3,
}
SEEN_RATIO = 600
"""Sag that the eye sees, span over this: 0.02 in per foot, woodworking practice (from memory, high)."""
BOOKS_LBF_PER_FT = 20.0
"""Books along a shelf: woodworking article (secondary copy); 25 for heavy ones (from memory, high)."""
CREEP_SOLID = 1.5
"""Lasting load, seasoned solid wood: NDS 3.5.2 (from memory, high)."""
CREEP_PANEL = 2.0
"""Lasting load, wood panels and wet wood: NDS 3.5.2 (from memory, high); boards of chips or fibre may do
worse."""
WOOD_HANDBOOK = "Wood Handbook FPL-GTR-190"


class Material(msgspec.Struct, frozen=True):
    """Stiffness along the grain or along the sheet. The lower figure is the one to plan with."""

    low_psi: float
    high_psi: float
    creep: float
    source: str


def _solid(million_psi: float, known: str) -> Material:
    return Material(million_psi * 1e6, million_psi * 1e6, CREEP_SOLID, f"{WOOD_HANDBOOK} Table 5-3b, {known}")


def _panel(low: float, high: float) -> Material:
    return Material(low * 1e6, high * 1e6, CREEP_PANEL, f"{WOOD_HANDBOOK} Table 12-1, secondary copy")


_SEEN, _RECALLED = "secondary copy", "from memory (high)"
MATERIALS: dict[str, Material] = {
    "white oak": _solid(1.78, _SEEN),
    "red oak": _solid(1.82, _RECALLED),
    "red maple": _solid(1.64, _SEEN),
    "hard maple": _solid(1.83, _SEEN),
    "yellow birch": _solid(2.01, _SEEN),
    "black cherry": _solid(1.49, _SEEN),
    "American beech": _solid(1.72, _SEEN),
    "white ash": _solid(1.74, _SEEN),
    "yellow-poplar": _solid(1.58, _SEEN),
    "Douglas-fir": _solid(1.95, _SEEN),
    "longleaf pine": _solid(1.98, _SEEN),
    "western white pine": _solid(1.46, _SEEN),
    "eastern white pine": _solid(1.24, _RECALLED),
    "ponderosa pine": _solid(1.29, _RECALLED),
    "Engelmann spruce": _solid(1.30, _SEEN),
    "plywood": _panel(1.01, 1.24),
    "LVL": _panel(1.30, 2.79),
    "OSB": _panel(0.64, 0.91),
    "particleboard": _panel(0.40, 0.60),
    "MDF": _panel(0.52, 0.52),
    "hardboard": _panel(0.45, 0.80),
}
"""Averages of small clear pieces or of whole boards: cheap board is softer, and plywood across its face grain
much so."""


_ALSO: tuple[tuple[str, str], ...] = (
    (r"(?:\w+[ -])*(?:ply|plywood|plywd|multiplex)(?: (?:board|sheet|panel))?", "plywood"),
    (r"(?:\w+[ -])*(?:mdf|medium density fib(?:er|re) ?board|fib(?:er|re)board)(?: board)?", "MDF"),
    (r"(?:\w+[ -])*(?:particle ?board|chip ?board|melamine(?: board)?)", "particleboard"),
    (r"osb(?: board)?|oriented strand board|sterling board", "OSB"),
    (r"lvl|laminated veneer lumber", "LVL"),
    (r"masonite|tempered hardboard|hard ?board", "hardboard"),
    (r"(?:solid )?white oak|(?:solid |european )?oak", "white oak"),
    (r"solid (?:sugar )?maple|sugar maple|rock maple", "hard maple"),
    (r"soft maple|maple", "red maple"),
    (r"(?:solid )?birch", "yellow birch"),
    (r"(?:solid )?cherry", "black cherry"),
    (r"(?:solid )?beech", "American beech"),
    (r"(?:solid )?ash", "white ash"),
    (r"(?:solid |tulip |yellow )?poplar|tulipwood", "yellow-poplar"),
    (r"(?:douglas )?fir", "Douglas-fir"),
    (r"southern (?:yellow )?pine", "longleaf pine"),
    (r"(?:solid |white |knotty )?pine", "eastern white pine"),
    (r"spruce|whitewood", "Engelmann spruce"),
)
"""What people also write, and the material of the table that it is; of several woods of one name the softest."""


def material_named(text: str) -> str:
    """The name in the table of a material as typed: `Birch ply` is plywood. Empty for what is not known."""
    plain = " ".join(re.sub(r"[^a-z -]", " ", text.lower()).split())
    own = next((name for name in MATERIALS if name.lower() == text.strip().lower()), "")
    return own or next((name for pattern, name in _ALSO if re.fullmatch(pattern, plain)), "")


def stiffness_in4(depth_nm: int, thickness_nm: int) -> float:
    """Second moment of area of a plain shelf, in⁴: depth · thickness³ / 12. Raises ValueError unless both are
    above 0."""
    if depth_nm <= 0 or thickness_nm <= 0:
        raise ValueError("a shelf needs a depth and a thickness above 0")
    return float(Fraction(depth_nm * thickness_nm**3, 12 * INCH_NM**4))


def sag_nm(
    span_nm: int,
    stiffness_in4: float,
    stiff_psi: float,
    load_lbf: float,
    support: Support = "simple",
    load: Load = "even",
    creep: float = 1.0,
) -> int:
    """Largest sag of a shelf, nanometres, for a load in all on one span: share · load · span³ / EI · creep.

    "fixed" ends are truly clamped, in a dado with glue at best; pins are "simple". "fixed and simple" is also
    each of two equal spans of one shelf over a middle support, both loaded; its load is that of one span.
    Raises ValueError for a pair of support and load that is not here, or for a figure out of range (load
    below 0, creep below 1, others not above 0). Shear is left out: it matters in shelves shorter than some
    fifteen thicknesses.
    """
    share = _share(support, load)
    if min(span_nm, stiffness_in4, stiff_psi) <= 0 or load_lbf < 0 or creep < 1:
        raise ValueError("sag needs span and stiffness above 0, load of at least 0 and creep of at least 1")
    span_in = span_nm / INCH_NM
    return round(share * load_lbf * span_in**3 / (stiff_psi * stiffness_in4) * creep * INCH_NM)


def even_load_lbf(span_nm: int, lbf_per_ft: float) -> float:
    """The whole of an even load on a span, lbf."""
    return lbf_per_ft * span_nm / FOOT_NM


def sag_limit_nm(span_nm: int, ratio: int = SEEN_RATIO) -> int:
    """The sag that a span may show, nanometres, rounded down: span / 600 unless another ratio is given."""
    return span_nm // ratio


def longest_span_nm(
    stiffness_in4: float,
    stiff_psi: float,
    lbf_per_ft: float,
    support: Support = "simple",
    creep: float = 1.0,
    ratio: int = SEEN_RATIO,
) -> int:
    """The longest span, nanometres, that keeps an even load within span / ratio: the cube root of EI / (ratio
    · share · w).

    Raises ValueError unless all are above 0 and creep is at least 1.
    """
    share = _share(support, "even")
    if min(stiffness_in4, stiff_psi, lbf_per_ft, ratio) <= 0 or creep < 1:
        raise ValueError("a longest span needs stiffness and load above 0 and creep of at least 1")
    cube = stiff_psi * stiffness_in4 / (ratio * share * creep * lbf_per_ft / 12)
    return int(cube ** (1 / 3) * INCH_NM)


def _share(support: Support, load: Load) -> float:
    if (support, load) not in _SHARES:
        raise ValueError(f"no formula here for {support} support with {load} load")
    return _SHARES[support, load]
