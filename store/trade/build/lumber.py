"""Framing to buy and how to cut it: stock lengths, the saw's kerf, and nails by a schedule.

Lengths in whole nanometres. The choice of stock is `cutting.plan_cuts`: least length taken, proved where it is marked.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import combinations
from math import ceil

import msgspec

from store.measure.length import FOOT_NM, INCH_NM
from store.trade.build.takeoff import Stick
from store.trade.buying.cutting import CuttingPlan, Stock, plan_cuts

KERF_NM = INCH_NM // 8
"""What a saw blade takes: common practice."""
STOCK_NM = tuple(feet * FOOT_NM for feet in (8, 10, 12, 14, 16))
"""Lengths of two-by lumber sold: NIST PS 20, from memory (high)."""
METRIC_STOCK_NM = tuple(mm * 1_000_000 for mm in (2400, 3000, 3600, 4200, 4800))
"""The same in metric yards: common practice."""
MOST_STEPS = 2_500
MOST_SPLIT = 8
STEEL_STUDS_NM = tuple(feet * FOOT_NM for feet in (8, 9, 10, 12, 14, 16))
TRACKS_NM = (10 * FOOT_NM,)
METRIC_TRACKS_NM = (3_000 * 1_000_000,)
"""Lengths of steel studs and track sold: makers, from memory (medium)."""
TRACK_EVERY_NM = 24 * INCH_NM
STEEL_SOURCE = "ASTM C754, from memory"
FURRING_EVERY_NM = 16 * INCH_NM
NAIL_SOURCE = "IRC R602.3(1) family, as in WAC 246-359-340"


class Cut(msgspec.Struct, frozen=True):
    """What is bought of one section, and what comes off each length: the pieces' lengths, the longest first."""

    stock_nm: int
    pieces_nm: tuple[int, ...]
    left_nm: int


class Bought(msgspec.Struct, frozen=True):
    """The lengths of one section."""

    cuts: tuple[Cut, ...]
    proved: bool
    """Whether no less length does it."""
    least_nm: int = 0
    """No choice takes less length than this, proved or not; 0 where nothing is known of it."""

    @property
    def counts(self) -> dict[int, int]:
        """How many of each stock length, the longest first."""
        return dict(sorted(Counter(one.stock_nm for one in self.cuts).items(), reverse=True))

    @property
    def waste_nm(self) -> int:
        """What is left over in all, with the saw cuts."""
        return sum(one.stock_nm - sum(one.pieces_nm) for one in self.cuts)


def cut_from(
    lengths_nm: Iterable[int],
    stock_nm: Sequence[int] = STOCK_NM,
    kerf_nm: int = KERF_NM,
    *,
    joint_nm: int | None = None,
) -> Bought:
    """Choose stock for pieces of one section. What is longer than any stock, a long plate, is joined end to end.

    `joint_nm` is the spacing of the studs, so that a joint falls on one. Raises ValueError for lengths or stock not
    above 0.
    """
    if not stock_nm or min(stock_nm) <= 0:
        raise ValueError("stock has a length above 0")
    longest = max(stock_nm)
    pieces = [piece for each in lengths_nm for piece in _joined(each, longest, joint_nm)]
    plan: CuttingPlan = plan_cuts(
        pieces, [Stock(length=each, price=0) for each in sorted(set(stock_nm))], kerf_nm, most_steps=MOST_STEPS
    )
    sizes = sorted(set(stock_nm))
    cuts = [
        part
        for one in plan.cuttings
        for part in _shorter(sizes, sizes[one.stock], [pieces[at] for at in one.pieces], kerf_nm)
    ]
    return Bought(tuple(sorted(cuts, key=lambda one: (-one.stock_nm, one.pieces_nm))), plan.proved, plan.least_taken)


def _shorter(sizes: Sequence[int], stock: int, pieces: list[int], kerf: int) -> list[Cut]:
    """The same length in two shorter boards where the pieces allow it: easier to find straight and to carry."""
    pairs = [(one, stock - one) for one in sizes if one <= stock - one and stock - one in sizes]
    for size in range(1, len(pieces) if len(pieces) <= MOST_SPLIT and pairs else 0):
        for chosen in combinations(range(len(pieces)), size):
            rest = [piece for at, piece in enumerate(pieces) if at not in chosen]
            mine = [pieces[at] for at in chosen]
            for short, long in pairs:
                if _left(short, mine, kerf) is not None and _left(long, rest, kerf) is not None:
                    return _shorter(sizes, short, mine, kerf) + _shorter(sizes, long, rest, kerf)
    return [Cut(stock, tuple(pieces), _left(stock, pieces, kerf) or 0)]


def _left(stock: int, pieces: Sequence[int], kerf: int) -> int | None:
    """What is left of a board; None when the pieces do not come out of it. The last saw cut may fall off its end."""
    left = stock + kerf - sum(piece + kerf for piece in pieces)
    return None if left < 0 else max(0, left - kerf)


def _joined(length: int, longest: int, joint: int | None) -> list[int]:
    if length <= longest:
        return [length]
    each = longest // joint * joint if joint and joint <= longest else longest
    whole, rest = divmod(length, each)
    return [each] * whole + ([rest] if rest else [])


def by_section(sticks: Iterable[Stick]) -> dict[int, list[int]]:
    """The lengths of the sticks, by the height of their face; 0 is the section of the studs."""
    found: dict[int, list[int]] = {}
    for one in sticks:
        found.setdefault(one.face_nm, []).append(one.length_nm)
    return found


def nails(sticks: Sequence[Stick]) -> dict[str, int]:
    """Nails of a wood-framed wall by the schedule, by size: `16d` and `8d`.

    Stud, king and trimmer to plate 2-16d through each plate it stands on or under; king to trimmer and corner studs to
    each other 16d at 24 in; double
    top plate 16d at 16 in; two-piece header 16d at 16 in along both edges; header to king 4-8d each end; sole plate
    16d at 16 in; cripple, sill, blocking and fire block 2-16d each end.
    Later editions give more choices; screws are not a one-for-one swap.
    """
    found: Counter[str] = Counter()
    for one in sticks:
        if one.part in ("stud", "king stud", "cripple", "blocking", "fire block", "sill"):
            found["16d"] += 4
        elif one.part == "corner stud":
            found["16d"] += 4 + ceil(one.length_nm / (24 * INCH_NM)) + 1
        elif one.part == "trimmer":
            found["16d"] += 2 + ceil(one.length_nm / (24 * INCH_NM)) + 1
        elif one.part == "header":
            found["8d"] += 8
            found["16d"] += (ceil(one.length_nm / (16 * INCH_NM)) + 1) if one.face_nm else 0
        elif one.part == "bottom plate":
            found["16d"] += ceil(one.length_nm / (16 * INCH_NM)) + 1
    upper = [one for one in sticks if one.part == "top plate"]
    for one in upper[1:]:
        found["16d"] += ceil(one.length_nm / (16 * INCH_NM)) + 1
    return dict(found)


def steel_screws(sticks: Sequence[Stick]) -> dict[str, int]:
    """Fasteners of a steel-framed wall: framing screws, and anchors of the track.

    Every upright is screwed to its track through both flanges at both ends; sills and headers of track the same at each
    end; bottom and top track are fastened 24 in apart and at both ends (ASTM C754, from memory).
    """
    found: Counter[str] = Counter()
    for one in sticks:
        if one.part in ("bottom plate", "top plate"):
            found["track anchors"] += ceil(one.length_nm / TRACK_EVERY_NM) + 1
        elif one.part not in ("blocking", "fire block"):
            found["framing screws"] += 4
    return dict(found)


def furring_screws(sticks: Sequence[Stick]) -> int:
    """Screws of strips laid flat on what is behind them: 16 in apart and at both ends. Common practice."""
    return sum(
        ceil(one.length_nm / FURRING_EVERY_NM) + 1 for one in sticks if one.part not in ("blocking", "fire block")
    )
