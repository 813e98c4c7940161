"""How far a straight board bends on any row of supports, under an even load and loads at a place.

Small sag of one uniform board (Euler and Bernoulli): EI · y'''' = load. The reactions are found with the
curve, so a board over three brackets, one with ends that hang free, and one held down in a dado are one
sum. Statics and beam theory as in Roark's Formulas for Stress and Strain; shear is left out, which matters in
boards shorter than some fifteen thicknesses.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from store.trade.build.linear import solve

SAMPLES = 96
"""Places along the board at which the curve is looked at before its lowest one is closed in on."""
HALVINGS = 40


class Held(NamedTuple):
    """One support: how far from the left end, inches, and whether it also keeps the board from turning."""

    at_in: float
    clamped: bool = False


class PointLoad(NamedTuple):
    """One load, pounds-force, how far from the left end, inches."""

    lbf: float
    at_in: float


class Bent(NamedTuple):
    """How a board bends."""

    sag_in: float
    """The deepest place below the line of the supports, inches, 0 or more."""
    at_in: float
    """Where that is, from the left end."""
    reactions_lbf: tuple[float, ...]
    """What each support carries, in the order given; below 0 it is pulled up and must be held down."""


def bent(
    length_in: float,
    stiff_lbf_in2: float,
    supports: Sequence[Held],
    even_lbf: float = 0.0,
    points: Sequence[PointLoad] = (),
) -> Bent:
    """Sag and reactions of a board of a length, inches, and stiffness EI, lbf·in².

    `even_lbf` is the whole of a load spread along all of it. Raises ValueError for a length or stiffness not
    above 0, a load below 0, a place off the board, two supports at one place, or supports that do not hold it
    (one that is not clamped). Uplift is taken as held down: where a reaction is below 0 and the board only lies
    there, the answer does not hold.
    """
    _refuse(length_in, stiff_lbf_in2, supports, even_lbf, points)
    # In parts of the length, so that the sums stay near 1; moments then come in lbf · length.
    held = [Held(one.at_in / length_in, one.clamped) for one in supports]
    loads = [PointLoad(one.lbf, one.at_in / length_in) for one in points]
    found = solve(*_equations(held, even_lbf, loads))
    clamps = [one for one in held if one.clamped]
    forces, moments = found[2 : 2 + len(held)], found[2 + len(held) :]
    scale = length_in**3 / stiff_lbf_in2

    def down(x: float) -> float:
        up = found[0] * x + found[1] - even_lbf * x**4 / 24
        up += sum(force * _past(x, one.at_in, 3) / 6 for force, one in zip(forces, held, strict=True))
        up += sum(moment * _past(x, one.at_in, 2) / 2 for moment, one in zip(moments, clamps, strict=True))
        up -= sum(one.lbf * _past(x, one.at_in, 3) / 6 for one in loads)
        return -up * scale

    worst = max((at / SAMPLES for at in range(SAMPLES + 1)), key=down)
    low, high = max(0.0, worst - 1 / SAMPLES), min(1.0, worst + 1 / SAMPLES)
    for _ in range(HALVINGS):
        third = (high - low) / 3
        if down(low + third) < down(high - third):
            low += third
        else:
            high -= third
    return Bent(max(0.0, down((low + high) / 2)), (low + high) / 2 * length_in, tuple(forces))


def _refuse(length: float, stiff: float, supports: Sequence[Held], even: float, points: Sequence[PointLoad]) -> None:
    if length <= 0 or stiff <= 0 or even < 0 or any(one.lbf < 0 for one in points):
        raise ValueError("a board needs length and stiffness above 0 and loads of at least 0")
    if any(not 0 <= one.at_in <= length for one in supports) or any(not 0 <= one.at_in <= length for one in points):
        raise ValueError("a support or a load is off the board")
    if len({one.at_in for one in supports}) < len(supports):
        raise ValueError("two supports are at one place")
    if len(supports) + sum(one.clamped for one in supports) < 2:
        raise ValueError("one support that lets the board turn does not hold it")


def _past(x: float, at: float, power: int) -> float:
    """(x - at) to a power beyond `at`, 0 before it (Macaulay's bracket)."""
    return (x - at) ** power if x > at else 0.0


def _equations(held: Sequence[Held], even: float, loads: Sequence[PointLoad]) -> tuple[list[list[float]], list[float]]:
    """Slope and height at the left end, each reaction, each clamp's moment: as many equations as unknowns."""
    clamps = [one for one in held if one.clamped]

    def row(x: float, turned: bool) -> tuple[list[float], float]:
        less = 1 if turned else 0
        over = (2.0, 1.0) if turned else (6.0, 2.0)
        left = [1.0, 0.0] if turned else [x, 1.0]
        left += [_past(x, one.at_in, 3 - less) / over[0] for one in held]
        left += [_past(x, one.at_in, 2 - less) / over[1] for one in clamps]
        right = even * (x**3 / 6 if turned else x**4 / 24)
        return left, right + sum(one.lbf * _past(x, one.at_in, 3 - less) / over[0] for one in loads)

    rows = [row(one.at_in, False) for one in held] + [row(one.at_in, True) for one in clamps]
    total = even + sum(one.lbf for one in loads)
    rows.append(([0.0, 0.0, *(1.0 for _ in held), *(0.0 for _ in clamps)], total))
    turning = even / 2 + sum(one.lbf * (1 - one.at_in) for one in loads)
    rows.append(([0.0, 0.0, *(1 - one.at_in for one in held), *(1.0 for _ in clamps)], turning))
    return [left for left, _ in rows], [right for _, right in rows]
