"""How stiff a shelf is with strips glued along its edges, and how much a cleat along its back helps.

Lengths in whole nanometres, stiffness as the tables print it: inches to the fourth power, in the wood of the
board itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, pi
from typing import NamedTuple

from store.measure.length import INCH_NM
from store.trade.build.linear import solve

POISSON = 0.3
"""Of a sheet stiff both ways: the usual figure for boards in plate tables (Roark)."""
TERMS = 15
"""Odd terms of the series of the plate; they fall as the fifth power."""


class Strip(NamedTuple):
    """A strip along an edge of the board, flush with its top: thickness front to back, full height, and how many
    times stiffer its material is than the board's."""

    thick_nm: int
    high_nm: int
    stiffer: float = 1.0


def stiffness_with_strips_in4(depth_nm: int, thickness_nm: int, strips: Sequence[Strip]) -> float:
    """Second moment of area of a board with strips glued on, in⁴ of the board's own material.

    Transformed section: each part counts by its own stiffness; parallel axes about the common centre. With the
    strips left out it is depth · thickness³ / 12. Raises ValueError unless sizes are above 0 and every strip is at
    least as high as the board is thick. Needs a sound glue line; a strip on one edge only also lets the board twist
    a little, which is left out.
    """
    if depth_nm <= 0 or thickness_nm <= 0:
        raise ValueError("a shelf needs a depth and a thickness above 0")
    if any(one.thick_nm <= 0 or one.high_nm < thickness_nm or one.stiffer <= 0 for one in strips):
        raise ValueError("a strip needs a thickness above 0 and at least the height of the shelf")
    parts = [(depth_nm / INCH_NM, thickness_nm / INCH_NM, 1.0)]
    parts += [(one.thick_nm / INCH_NM, one.high_nm / INCH_NM, one.stiffer) for one in strips]
    area = sum(wide * high * stiffer for wide, high, stiffer in parts)
    centre = sum(wide * high * stiffer * high / 2 for wide, high, stiffer in parts) / area
    return sum(
        stiffer * (wide * high**3 / 12 + wide * high * (centre - high / 2) ** 2) for wide, high, stiffer in parts
    )


def cleat_share(depth_nm: int, span_nm: int, poisson: float = POISSON) -> float:
    """Sag at the middle of the front edge of a sheet held along its back and both ends, as a share of the sag of a
    plain beam held at its ends only, under an even load.

    Lévy's series for a plate with three edges simply supported and the front free (Timoshenko and
    Woinowsky-Krieger, Theory of Plates and Shells; Roark, rectangular plates, case 2a). Holds for sheet that is as
    stiff across as along (MDF, particleboard, plywood wide enough) and is held down along the back; solid wood or
    narrow plywood is a beam. Raises ValueError unless both lengths are above 0.
    """
    if depth_nm <= 0 or span_nm <= 0:
        raise ValueError("a shelf needs a depth and a span above 0")
    total = sum(_term(2 * at + 1, depth_nm / span_nm, poisson) for at in range(TERMS))
    # Plate: 4 q L⁴ / (π⁵ D) · total, with D = E t³ / 12(1 - ν²); beam: 5 q L⁴ / 32 E t³.
    return 4 / pi**5 * total * 12 * (1 - poisson**2) * 32 / 5


def _term(order: int, ratio: float, poisson: float) -> float:
    """One term at the middle of the free edge: its sign, the shape across, 1/m⁵.

    The shape is 1 and what dies away from the back and from the front, so that no term grows out of reach.
    """
    deep = order * pi * ratio
    back = [_dying(0.0), _dying(deep)]
    # From the front edge the places are counted the other way, which turns the sign of every odd slope.
    front = [_turned(_dying(deep)), _turned(_dying(0.0))]
    columns = [[back[at][0], back[at][1], front[at][0], front[at][1]] for at in (0, 1)]

    def row(edge: int, weights: tuple[float, float, float, float]) -> list[float]:
        return [sum(part * weight for part, weight in zip(each, weights, strict=True)) for each in columns[edge]]

    sag, moment = (1.0, 0.0, 0.0, 0.0), (0.0, 0.0, 1.0, 0.0)
    free_moment, free_force = (-poisson, 0.0, 1.0, 0.0), (0.0, -(2 - poisson), 0.0, 1.0)
    rows = [row(0, sag), row(0, moment), row(1, free_moment), row(1, free_force)]
    found = solve(rows, [-1.0, 0.0, poisson, 0.0])
    shape = 1 + sum(part * by for part, by in zip(row(1, sag), found, strict=True))
    return (1 if order % 4 == 1 else -1) * shape / order**5


Slopes = tuple[float, float, float, float]
"""A shape and its first three slopes at one place."""


def _dying(s: float) -> tuple[Slopes, Slopes]:
    """exp(-s) and s · exp(-s)."""
    e = exp(-s)
    return (e, -e, e, -e), (s * e, (1 - s) * e, (s - 2) * e, (3 - s) * e)


def _turned(both: tuple[Slopes, Slopes]) -> tuple[Slopes, Slopes]:
    (a, b, c, d), (p, q, r, t) = both
    return (a, -b, c, -d), (p, -q, r, -t)
