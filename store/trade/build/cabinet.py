"""Cabinets that stand and open safely: door and drawer sizes, hinges, slides, and what tips them over.

Lengths in whole nanometres, weights in pounds. Gaps and hinge counts are common practice of cabinet shops; the maker of
the hinge and of the slide rates each, and wins.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from store.measure.length import INCH_NM, MM_NM

Laid = Literal["overlay", "inset"]
OVERLAY_GAP_NM = INCH_NM // 8
"""Between two overlay doors; and they cover so much of the box less at each outer edge: common practice."""
INSET_GAP_NM = 3 * INCH_NM // 32
SLIDE_SIDE_NM = INCH_NM // 2
"""Side-mount slides, each side: manufacturers, from memory (high)."""
SLIDE_BEHIND_NM = INCH_NM
"""Free behind a drawer on slides: common practice."""
SLIDES_NM = tuple(inch * INCH_NM for inch in range(10, 30, 2))
METRIC_SLIDES_NM = tuple(mm * MM_NM for mm in range(250, 750, 50))
SLIDE_CLASSES_LB = (75, 100, 150, 200, 250, 500)
"""What side-mount slides are rated for, the pair: manufacturers' usual classes, from memory (medium). A class holds for
slides of about 18 in; longer ones carry less, and wide drawers want a class more: the slide's own sheet says."""
LB_PER_FT3 = {
    "solid wood": 45.0, "plywood": 37.0, "mdf": 48.0, "particleboard": 45.0, "osb": 40.0, "hardboard": 60.0,
    "glass": 158.0,
}  # fmt: skip
"""Density: Wood Handbook Tables 5-3 and 12-1, rounded up; glass of specific gravity 2.53. From memory (high)."""
HINGE_STEPS: tuple[tuple[int, float, int], ...] = (
    (900 * MM_NM, 13.0, 2),
    (1600 * MM_NM, 26.0, 3),
    (2000 * MM_NM, 37.0, 4),
    (2400 * MM_NM, 48.0, 5),
)
"""Concealed hinges by height of the door and its weight, pounds: the usual shape of manufacturers' charts (from memory,
medium)."""
EDGE_HINGE_NM = 4 * INCH_NM
"""The outer hinges sit about this far from the ends of a door: common practice."""
CHILD_LBF = 60.0
"""Weight put on a drawer that is pulled out, when a child climbs it: 16 CFR 1261 and ASTM F2057-23, from memory
(high). That standard is for clothing storage; we take it for any drawer."""
TALL_NM = 30 * INCH_NM
"""Furniture from this height on is anchored to the wall: the reach of ASTM F2057 began here (27 in since 2019), from
memory (medium)."""


WIDE_DOOR_NM = 24 * INCH_NM
"""A wider front gets two doors: common practice."""


def shelf_play_nm(metric: bool) -> int:
    """How much shorter than the space between its sides an adjustable shelf is cut, so that it goes in and comes out,
    nm: 1/8 in or 3 mm, common practice."""
    return 3 * MM_NM if metric else INCH_NM // 8


class Door(NamedTuple):
    """One door of an opening."""

    width_nm: int
    height_nm: int


def doors(width_nm: int, height_nm: int, leaves: int, laid: Laid, side_nm: int) -> Door:
    """Size of each of the equal doors of a cabinet, of its outside size and side thickness.

    Overlay: they cover the box less half a gap all round, a gap between. Inset: they stand inside the sides, a gap all
    round. Raises ValueError when nothing is left, or for fewer than one leaf.
    """
    if leaves < 1:
        raise ValueError("a cabinet with doors has at least one")
    if laid == "overlay":
        wide, high = width_nm - leaves * OVERLAY_GAP_NM, height_nm - OVERLAY_GAP_NM
    else:
        wide = width_nm - 2 * side_nm - (leaves + 1) * INSET_GAP_NM
        high = height_nm - 2 * side_nm - 2 * INSET_GAP_NM
    if wide // leaves <= 0 or high <= 0:
        raise ValueError("no room is left for a door")
    return Door(wide // leaves, high)


def weight_lb(width_nm: int, height_nm: int, thick_nm: int, material: str) -> float:
    """Weight of a plain panel; a material that is not listed counts as the heaviest board. Raises ValueError for a
    size below 0."""
    if min(width_nm, height_nm, thick_nm) < 0:
        raise ValueError("a panel has sizes of at least 0")
    each = LB_PER_FT3.get(material.lower(), LB_PER_FT3["hardboard"])
    return each * width_nm * height_nm * thick_nm / (12 * INCH_NM) ** 3


def hinges(height_nm: int, weight: float) -> int | None:
    """How many concealed hinges carry a door; None for one that is too heavy or too tall for them, which its maker, or
    another kind of hinge, must answer."""
    return next((count for tall, heavy, count in HINGE_STEPS if height_nm <= tall and weight <= heavy), None)


def slide_nm(inside_depth_nm: int, metric: bool = False) -> int | None:
    """The longest side-mount slide that goes in a cabinet of an inside depth; None where it is too shallow for any.

    Sold in steps of 2 in from 10 to 28, or of 50 mm from 250 to 700.
    """
    sold = METRIC_SLIDES_NM if metric else SLIDES_NM
    return max((each for each in sold if each <= inside_depth_nm - SLIDE_BEHIND_NM), default=None)


def slide_class_lb(load_lb: float) -> int | None:
    """The least class of slide, pounds for the pair, that carries a drawer with what is in it; None above all of them.

    Raises ValueError for a load below 0.
    """
    if load_lb < 0:
        raise ValueError("a drawer weighs at least 0")
    return next((each for each in SLIDE_CLASSES_LB if load_lb <= each), None)


def drawer_lb(width_nm: int, height_nm: int, long_nm: int, thick_nm: int, material: str) -> float:
    """Weight of an empty drawer: two sides and two ends as high as its front, a bottom of a third of their thickness,
    and the front. Raises ValueError for a size below 0."""
    around = 2 * weight_lb(long_nm, height_nm, thick_nm, material) + 3 * weight_lb(
        width_nm, height_nm, thick_nm, material
    )
    return around + weight_lb(width_nm, long_nm, thick_nm // 3, material)


def drawer_width(inside_width_nm: int) -> int:
    """Width of a drawer box between side-mount slides, as inside width less 1 in. Raises ValueError when nothing is
    left."""
    if inside_width_nm <= 2 * SLIDE_SIDE_NM:
        raise ValueError("no room is left between the slides")
    return inside_width_nm - 2 * SLIDE_SIDE_NM


class Tip(NamedTuple):
    """Turning about the lower front edge, inch-pounds: what holds the cabinet down and what tips it."""

    holds: float
    tips: float

    @property
    def stands(self) -> bool:
        """Whether it stays on its feet without a fixing to the wall."""
        return self.holds > self.tips


def tip(depth_nm: int, cabinet_lb: float, drawer_lb: float, out_nm: int, child_lbf: float = CHILD_LBF) -> Tip:
    """A free-standing cabinet with one drawer pulled out and a child's weight at its front.

    Statics: cabinet weight at half its depth; the drawer's middle is as far in front of the edge as it is pulled beyond
    half its length, which is taken as the depth. Raises ValueError unless depth is above 0 and the others at least 0.
    """
    if depth_nm <= 0 or min(cabinet_lb, drawer_lb, out_nm, child_lbf) < 0:
        raise ValueError("a cabinet has a depth above 0 and weights of at least 0")
    depth, out = depth_nm / INCH_NM, out_nm / INCH_NM
    middle = out - depth / 2
    return Tip(cabinet_lb * depth / 2 + drawer_lb * max(0.0, -middle), drawer_lb * max(0.0, middle) + child_lbf * out)


def tie_back_lbf(turning: Tip, height_nm: int) -> float:
    """Pull on a fixing to the wall at a height that keeps it standing, lbf; 0 where it stands by itself.

    Raises ValueError unless the height is above 0.
    """
    if height_nm <= 0:
        raise ValueError("a tie-back is above the floor")
    return max(0.0, turning.tips - turning.holds) / (height_nm / INCH_NM)
