"""What goes through a raceway or a hole: fill by area, how many more, whether a plug passes, and the bends.

NEC Chapter 9, Table 1, binds power conductors. Communications cables are not held to it (NEC 800.110(B));
for them 40 % is common practice, and what decides is whether the largest plug passes. Inches and square
inches.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import floor, hypot, pi, sqrt

from msgspec import Struct

from store.trade.measured.bounds import exceeds, not_negative, positive
from store.trade.power import tables_us as us

ONE_FILL = 0.53  # Chapter 9, Table 1
TWO_FILL = 0.31
MORE_FILL = 0.40
NIPPLE_FILL = 0.60  # Chapter 9, note 4
NIPPLE_UP_TO_IN = 24.0
MOST_BEND_BETWEEN_PULLS_DEG = 360.0  # NEC 358.26 (EMT), 362.26 (ENT)
PLUG_LONG_IN = 1.9
"""Stiff length of an HDMI plug with its strain relief, in; common practice, from memory: measure the one bought."""
SEVERAL_PLUGS_IN = 1.25
"""Least bore for two made-up plugs or more, in: trade size 1-1/4. Common practice: 1-1/2 is usual, 2 leaves room."""
EASY_BENDS_DEG = 180.0
"""Two sweeps: what made-up plugs are pulled through. Common practice; the code allows 360 for wire."""
MOST_COUNTED = 1000

# Smallest circle round n equal circles, as a multiple of one: known packings for 1 to 19.
EQUAL_PACKING = (
    1.0, 2.0, 2.1547, 2.4143, 2.7014, 3.0, 3.0, 3.3048, 3.6132, 3.8131,
    3.9239, 4.0297, 4.2361, 4.3285, 4.5214, 4.6155, 4.7921, 4.8638, 4.8638,
)  # fmt: skip
BUNDLE_FACTOR = 1.2  # common practice, no source: a bundle measures 1.2 × the root of the sum of squares


class Item(Struct, frozen=True):
    """So many conductors or cables of one area. A multiconductor cable counts as one (Chapter 9, note 9)."""

    area_in2: float
    count: int = 1


class Plug(Struct, frozen=True):
    """The two smaller sides of a plug, across the way it travels, in inches."""

    width_in: float
    height_in: float

    @property
    def diagonal_in(self) -> float:
        """Diameter of the round hole that it just passes."""
        return hypot(positive("the plug's width", self.width_in), positive("the plug's height", self.height_in))


class Fill(Struct, frozen=True):
    """How full a raceway is: areas in in², `percent` of the whole bore, `limit_percent` for so many conductors."""

    conductors: int
    used_in2: float
    allowed_in2: float
    percent: float
    limit_percent: float
    fits: bool


def raceway(kind: us.RacewayKind, trade_size: str) -> us.RacewaySize:
    """Find a raceway in Chapter 9, Table 4; ValueError for one that is not listed here."""
    for size in us.RACEWAYS:
        if (size.kind, size.trade_size) == (kind, trade_size):
            return size
    sizes = ", ".join(size.trade_size for size in us.RACEWAYS if size.kind == kind)
    raise ValueError(f"{kind} {trade_size!r} is not in the table" + (f"; {kind} has {sizes}" if sizes else ""))


def circle_in2(diameter_in: float) -> float:
    """Area of a round cable; a flat or oval one is taken as a circle of its wider side (Chapter 9, note 9)."""
    return pi / 4 * positive("the diameter", diameter_in) ** 2


def cable_item(wide_in: float, count: int = 1) -> Item:
    """A cable by its diameter, or by its wider side if flat."""
    return Item(circle_in2(wide_in), count)


def fill_limit(conductors: int, *, length_in: float | None = None) -> float:
    """Share of the bore that so many conductors may take: 53, 31, 40 %, or 60 % in a nipple of 24 in at most.

    Chapter 9, Table 1 and note 4. Grounding conductors count. ValueError below one conductor.
    """
    positive("the number of conductors", conductors)
    if length_in is not None and positive("the length", length_in) <= NIPPLE_UP_TO_IN:
        return NIPPLE_FILL
    return {1: ONE_FILL, 2: TWO_FILL}.get(conductors, MORE_FILL)


def fill(inside_in: float, items: Sequence[Item], *, length_in: float | None = None) -> Fill:
    """Fill of a raceway of this inside diameter. An empty raceway fits and is judged by the limit for one."""
    bore = circle_in2(inside_in)
    count = sum(_whole(item.count) for item in items)
    used = sum(not_negative("an area", item.area_in2) * item.count for item in items)
    limit = fill_limit(max(1, count), length_in=length_in)
    return Fill(count, used, limit * bore, used / bore * 100, limit * 100, not exceeds(used, limit * bore))


def how_many_more(
    inside_in: float, present: Sequence[Item], outside_in: float, *, length_in: float | None = None
) -> int:
    """How many more cables of this outside diameter the fill limit leaves room for, beside what is there.

    Sizes differ, so nothing is rounded up. The limit changes with the count, and the count that ends within
    it is what matters: with one cable in place a second may be too many where two more small ones are not.
    """
    each = circle_in2(outside_in)
    already = sum(item.area_in2 * item.count for item in present)
    steady = fill_limit(3, length_in=length_in) * circle_in2(inside_in)
    # From three on the limit no longer changes: more than go into that never fit, and only one or two may beside it.
    most = min(MOST_COUNTED, max(2, floor((steady - already) / each) + 1))
    for more in range(most, 0, -1):
        if fill(inside_in, [*present, Item(each, more)], length_in=length_in).fits:
            return more
    return 0


def bundle_diameter_in(outside_in: Sequence[float]) -> float:
    """Diameter in inches of a round bundle of these cables.

    Exact for one, for two, and for up to 19 that are alike; otherwise common practice (no source), 1.2 ×
    the root of the sum of the squares, held between the two widest side by side and as many as wide as the
    widest. Cables do not lie perfectly: leave room.
    """
    sizes = sorted((positive("a diameter", size) for size in outside_in), reverse=True)
    if not sizes:
        return 0.0
    alike = sizes[0] * EQUAL_PACKING[len(sizes) - 1] if len(sizes) <= len(EQUAL_PACKING) else None
    if len(sizes) <= 2:
        return sum(sizes)
    if alike is not None and not exceeds(sizes[0], sizes[-1]):
        return alike
    estimate = max(sizes[0] + sizes[1], BUNDLE_FACTOR * sqrt(sum(size * size for size in sizes)))
    return estimate if alike is None else min(alike, estimate)


def hole_for(outside_in: Sequence[float], plug: Plug | None = None) -> float:
    """Smallest round hole in inches for a bundle whose last cable carries its plug through beside the others.

    Give the other cables only, then the plug: its own cable follows it. The bundle is laid against the
    plug's wider side. Add the clearance wanted; the hole itself is subject to the rules for boring studs.
    """
    bundle = bundle_diameter_in(outside_in)
    if plug is None:
        return bundle
    if bundle == 0:
        return plug.diagonal_in
    wide, high = max(plug.width_in, plug.height_in), min(plug.width_in, plug.height_in)
    positive("the plug's sides", high)
    # The centre lies on the axis of symmetry, `up` from the plug's far side: either the far corners and the
    # top of the bundle hold the circle, or the plug alone does.
    top, half = high + bundle, wide / 2
    up = min(max((top * top - half * half) / (2 * top), high / 2), top / 2)
    radius = max(hypot(half, up), hypot(half, high - up), top - up)
    return 2 * radius


def plug_passes(inside_in: float, plug: Plug, others_in: Sequence[float] = ()) -> bool:
    """Whether a plug goes straight through a round bore beside the cables already in it.

    In a bend it needs more: a long plug binds there although its face passes. Try it before closing the wall.
    """
    return not exceeds(hole_for(others_in, plug), positive("the inside diameter", inside_in))


def bends_left_deg(bends_deg: Sequence[float]) -> float:
    """Degrees of bend still allowed between two pull points (NEC 358.26, 362.26); negative means too many.

    Offsets and kicks count with their angles. ValueError for a negative angle.
    """
    return MOST_BEND_BETWEEN_PULLS_DEG - sum(not_negative("a bend", bend) for bend in bends_deg)


def plug_turns(inside_in: float, radius_in: float, plug: Plug, others_in: Sequence[float] = ()) -> bool:
    """Whether a stiff plug is pulled round a bend, beside the cables that lie in it already.

    A plug of thickness w and length p, lying along the inner wall of a bend of centre-line radius R in a bore d, clears
    the outer wall where √((R - d/2 + w)² + (p/2)²) ≤ R + d/2. Plane geometry, our own; w is the plug's diagonal, as
    nobody can keep it flat out of sight, and with cables beside it the hole that all take. PLUG_LONG_IN for p.
    """
    inner, outer = radius_in - inside_in / 2, radius_in + inside_in / 2
    return not exceeds(hypot(inner + hole_for(others_in, plug), PLUG_LONG_IN / 2), outer)


def usual_radius_in(inside_in: float) -> float:
    """Radius of a usual bend of a tube of this bore that is in no table: that of the ENT size that is as wide.

    Chapter 9, Table 2; common practice for any other tube.
    """
    sizes = [size for size in us.RACEWAYS if size.kind == "ENT"]
    return next((size.bend_radius_in for size in sizes if size.inside_in >= inside_in), sizes[-1].bend_radius_in)


def smallest_raceway(
    kind: us.RacewayKind,
    items: Sequence[Item],
    *,
    plug: Plug | None = None,
    length_in: float | None = None,
    least_in: float = 0.0,
) -> us.RacewaySize | None:
    """Smallest listed raceway that holds `items` and passes `plug` alone; None if none does.

    `least_in` is the least inside diameter that will do, whatever they take.
    """
    for size in us.RACEWAYS:
        if size.kind != kind or size.inside_in < least_in or not fill(size.inside_in, items, length_in=length_in).fits:
            continue
        if plug is None or plug_passes(size.inside_in, plug):
            return size
    return None


def _whole(count: int) -> int:
    if count != int(not_negative("a count", count)):
        raise ValueError(f"a count must be whole, not {count!r}")
    return int(count)
