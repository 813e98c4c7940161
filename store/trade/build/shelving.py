"""One shelf as it is made: how far it sags, and what would do, each with its number.

Lengths in whole nanometres, loads in pounds-force. Beams as in `beam` and `shelf`, a sheet on three cleats as in
`section`. Softest figure of a material and lasting load, so a first answer on the safe side.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Literal, NamedTuple

import msgspec

from store.measure.length import INCH_NM
from store.trade.build.beam import Bent, Held, PointLoad, bent
from store.trade.build.section import Strip, cleat_share, stiffness_with_strips_in4
from store.trade.fit.shelf import MATERIALS, Material, sag_nm

Supported = Literal["pins", "cleats on 2 sides", "cleats on 3 sides", "fixed", "brackets"]
Place = Literal["spread", "middle"]
SEEN_RATIO, HIDDEN_RATIO = 600, 360
"""Span over this: what an eye sees on an open shelf (woodworking practice); the general limit for what a shut door
hides (IBC and IRC, live load)."""
KEPT = 4096
"""So many answers are kept: the same board is asked for again with every edit of a job."""
SHEETS = ("plywood", "OSB", "particleboard", "MDF", "hardboard")
"""Stiff both ways, so that a cleat along the back helps."""
FAST: tuple[Supported, ...] = ("fixed", "brackets")
"""Held down where it is held; on pins and cleats a board only lies."""
LIFTS_LBF = 1e-9
QUARTERS = 4
LEAST_SHARE = 1 / 64
"""A thing is taken to stand on at least this share of a board."""
STEP_NM = INCH_NM // 4
THICKEST_NM, HIGHEST_STRIP_NM = 9 * INCH_NM // 4, 4 * INCH_NM
STRIP_THICK_NM = 3 * INCH_NM // 4


class Board(msgspec.Struct, frozen=True):
    """A shelf board between its ends."""

    material: str
    """A name of `shelf.MATERIALS`."""
    span_nm: int
    depth_nm: int
    thick_nm: int
    held: Supported = "pins"
    middle: int = 0
    """Supports between the ends; of brackets, how many there are."""
    strips: tuple[Strip, ...] = ()

    @property
    def made_of(self) -> Material:
        """Its material."""
        return MATERIALS[self.material]


class Patch(NamedTuple):
    """What a thing lays on a board: its weight, and its left and right edge as shares of the span."""

    lbf: float
    left: float
    right: float


class Would(NamedTuple):
    """One thing that would do, and the sag that it leaves."""

    what: Literal["thicker", "strip", "middle", "shorter", "material"]
    nm: int
    """The thickness, the height of the strip, the longest span; 0 for the others."""
    material: str
    sag_nm: int


@lru_cache(KEPT)
def sag_of(board: Board, load_lbf: float, place: Place = "spread", patches: tuple[Patch, ...] = ()) -> int:
    """Largest sag under a lasting load, nanometres. Raises ValueError for sizes not above 0 or a load below 0.

    A weight in the middle is taken as a point; `patches` is the part of the load whose place is known, the rest of it
    is spread. On three cleats a sheet is the plate, unless its strips make it stiffer as a beam; solid wood is always
    the beam.
    """
    stiff = stiffness_with_strips_in4(board.depth_nm, board.thick_nm, board.strips)
    made = board.made_of
    if board.held == "brackets" or board.middle or patches:
        beam = round(_bent(board, stiff, load_lbf, place, patches).sag_in * made.creep * INCH_NM)
    else:
        ends: Literal["simple", "fixed"] = "fixed" if board.held == "fixed" else "simple"
        load: Literal["even", "centre"] = "even" if place == "spread" else "centre"
        beam = sag_nm(board.span_nm, stiff, made.low_psi, load_lbf, ends, load, creep=made.creep)
    on_back = board.held == "cleats on 3 sides" and board.material in SHEETS and not board.middle
    if not on_back or place != "spread":
        return beam
    bare = stiffness_with_strips_in4(board.depth_nm, board.thick_nm, ())
    plain = sag_nm(board.span_nm, bare, made.low_psi, _everywhere(load_lbf, patches), creep=made.creep)
    return min(beam, round(plain * cleat_share(board.depth_nm, board.span_nm)))


def _everywhere(load_lbf: float, patches: tuple[Patch, ...]) -> float:
    """A load spread over all the board that is nowhere less dense than what lies on it: no plate sags more under the
    parts than under that."""
    rest = max(0.0, load_lbf - sum(one.lbf for one in patches))
    return rest + max((one.lbf / max(LEAST_SHARE, one.right - one.left) for one in patches), default=0.0)


def on_supports_lbf(
    board: Board, load_lbf: float, place: Place = "spread", patches: tuple[Patch, ...] = ()
) -> tuple[float, ...]:
    """What each end and each support between carries, from the left, pounds-force; below 0 it is pulled up. Raises
    ValueError as `sag_of` does."""
    stiff = stiffness_with_strips_in4(board.depth_nm, board.thick_nm, board.strips)
    return _bent(board, stiff, load_lbf, place, patches).reactions_lbf


def _bent(board: Board, stiff: float, load_lbf: float, place: Place, patches: tuple[Patch, ...]) -> Bent:
    span = board.span_nm / INCH_NM
    if board.held == "brackets":
        number = board.middle or 2
        held = [Held(span * (at + 0.5) / number) for at in range(number)]
    else:
        clamped = board.held == "fixed"
        parts = board.middle + 1
        held = [Held(span * (at / parts), clamped and at in (0, parts)) for at in range(parts + 1)]
    points = [PointLoad(one.lbf / (2 * QUARTERS), span * at) for one in patches for at in _places(one)]
    rest = max(0.0, load_lbf - sum(one.lbf for one in patches))
    if place == "middle" and rest:
        points, rest = [*points, PointLoad(rest, span / 2)], 0.0
    if len(held) == 1:  # one bracket holds only what is fast to it
        held = [Held(held[0].at_in, True)]
    found = bent(span, board.made_of.low_psi * stiff, held, rest, points)
    return found if board.held in FAST else _lying(found, span, board.made_of.low_psi * stiff, held, rest, points)


def _lying(found: Bent, span: float, stiff: float, held: list[Held], rest: float, points: list[PointLoad]) -> Bent:
    """A board that only lies on its supports: it comes off each that would have to hold it down, one after another."""
    on = list(range(len(held)))
    while len(on) > 2 and min(found.reactions_lbf) < -LIFTS_LBF:
        on.pop(found.reactions_lbf.index(min(found.reactions_lbf)))
        found = bent(span, stiff, [held[at] for at in on], rest, points)
    carried = dict(zip(on, found.reactions_lbf, strict=True))
    return found._replace(reactions_lbf=tuple(carried.get(at, 0.0) for at in range(len(held))))


def _places(one: Patch) -> Iterator[float]:
    """Where even shares of a weight bend a board as the patch does: two in each quarter of it, its width / √12
    to each side of its middle, which is exact for what changes along a board as a cubic (Gauss's rule of two points).
    """
    low, high = max(0.0, min(one.left, 1.0)), max(0.0, min(one.right, 1.0))
    quarter = (high - low) / QUARTERS
    for at in range(QUARTERS):
        middle = low + (at + 0.5) * quarter
        yield from (middle - quarter / 12**0.5, middle + quarter / 12**0.5)


@lru_cache(KEPT)
def longest_nm(board: Board, load_lbf: float, ratio: int, *, by_foot: bool) -> int | None:
    """The longest span of the same make that keeps within span / ratio: with the same load by the foot (books), or with
    just this load. None with no load. Found by halving: more span never sags less."""
    if load_lbf <= 0:
        return None
    low, high = 0, 20 * board.span_nm
    for _ in range(48):
        span = (low + high) // 2
        if span <= 0:
            return None
        load = load_lbf * span / board.span_nm if by_foot else load_lbf
        fits = sag_of(msgspec.structs.replace(board, span_nm=span), load) * ratio <= span
        low, high = (span, high) if fits else (low, span)
        if high - low < INCH_NM // 1000:
            break
    return low


def would_do(
    board: Board, load_lbf: float, place: Place, ratio: int, *, by_foot: bool, patches: tuple[Patch, ...] = ()
) -> Iterator[Would]:
    """What would keep the sag within span / ratio, one thing at a time: thicker, a strip along the front, one more
    support, a shorter span, another material. What does not help is left out."""
    limit = board.span_nm // ratio

    def tried(**change: object) -> tuple[Board, int]:
        made = msgspec.structs.replace(board, **change)
        return made, sag_of(made, load_lbf, place, patches)

    for thick in range(board.thick_nm // STEP_NM * STEP_NM + STEP_NM, THICKEST_NM + 1, STEP_NM):
        if any(one.high_nm < thick for one in board.strips):
            break
        _, sag = tried(thick_nm=thick)
        if sag <= limit:
            yield Would("thicker", thick, board.material, sag)
            break
    if not board.strips:
        for high in range(board.thick_nm // STEP_NM * STEP_NM + STEP_NM, HIGHEST_STRIP_NM + 1, STEP_NM):
            _, sag = tried(strips=(Strip(STRIP_THICK_NM, high),))
            if sag <= limit:
                yield Would("strip", high, board.material, sag)
                break
    _, sag = tried(middle=(board.middle or 2 if board.held == "brackets" else board.middle) + 1)
    if sag <= limit:
        yield Would("middle", 0, board.material, sag)
    shorter = longest_nm(board, load_lbf, ratio, by_foot=by_foot) if place == "spread" and not patches else None
    if shorter:
        yield Would("shorter", shorter, board.material, shorter // ratio)
    for name in sorted(MATERIALS, key=lambda each: MATERIALS[each].low_psi / MATERIALS[each].creep):
        _, sag = tried(material=name)
        if sag <= limit and name != board.material:
            yield Would("material", 0, name, sag)
            break
