"""What each fixing holds and what hangs on it, at its worst place."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import Literal

import msgspec

from store.measure.length import INCH_NM
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.build.cabinets import standing
from store.rules.core.keyed import of_each
from store.rules.wall.contents import stood_on
from store.rules.wall.finishes import finish_at
from store.rules.wall.hung import paired
from store.rules.wall.inside import insides, shelf_depth_nm
from store.rules.wall.layout import in_opening
from store.rules.wall.pieces import hangs
from store.rules.wall.shape import face_of
from store.trade.build.bracket import Hung, Load, hardest, margin, screws_needed
from store.trade.build.cabinet import CHILD_LBF, LB_PER_FT3, weight_lb
from store.trade.build.screws import (
    GRAVITY,
    SCREWS,
    STEEL_FE_PSI,
    STEEL_SCREW_IN,
    THREAD_TIP,
    UNKNOWN_GRAVITY,
    Held,
    at_angle,
    in_steel,
    in_wood,
    thread_in_wood,
)
from store.trade.fit.shelf import BOOKS_LBF_PER_FT, material_named

PLATE_IN = 0.075
"""Steel of a bracket, 14 gauge: the plate of the table; our own assumption where its maker prints nothing."""
CLEAT_IN = 0.75
"""Wood of a cabinet's rail or a shelf's cleat; our own assumption."""
MATTERS_LB = 20.0
"""From this weight on board alone is never enough here; our own line, below what anchors are sold for."""
FLOATING = ("floating shelf", "floating cabinet", "mantel")
"""What hangs in the open with things on it."""
ANCHORS = ("toggle bolt", "drywall anchor")

Ground = Literal["wood", "steel", "board", "masonry", "unknown"]


class Hanging(msgspec.Struct, frozen=True):
    """One fixing judged."""

    fixing: Fixing
    ground: Ground
    hung: tuple[tuple[str, Hung], ...]
    """What hangs on it, each with its tag."""
    missing: tuple[str, ...]
    """What has to be entered before it can be judged."""
    load: Load | None
    """On the screw that is loaded hardest."""
    held: Held | None
    """What one screw holds."""
    thread_in: float
    arm: bool
    """People pull at it."""
    matters: bool
    """A TV, a mount, a heater, a cabinet, a floating shelf, or anything heavy."""
    straight: bool = False
    """Pulled straight out, with no lever: a tie-back, or what hangs under something."""

    @property
    def allowed_lbf(self) -> float | None:
        """What that screw holds in the direction of its load."""
        return None if self.held is None or self.load is None else at_angle(self.held, *self.load)

    @property
    def margin(self) -> float | None:
        """How many times over it holds."""
        return None if self.held is None or self.load is None else margin(self.held, self.load)

    def needed_for(self, factor: float) -> int | None:
        """Screws that would hold with a factor; None where no number does, or it cannot be said."""
        if self.held is None or self.load is None:
            return None
        if self.straight:
            return ceil(self.weight_lb * factor / self.held.pull_lbf - 1e-9) if self.held.pull_lbf > 0 else None
        if self.fixing.apart is None:
            return None
        apart = self.fixing.apart.nm / INCH_NM
        return screws_needed(self.held, [one for _, one in self.hung], apart, int(self.fixing.rows), factor)

    @property
    def weight_lb(self) -> float:
        """All that hangs on it."""
        return sum(one.lbf for _, one in self.hung)


@of_each(Fixing)
def hanging(job: Job, fixing: Fixing) -> Hanging | None:
    """Every fixing of a thing that is still there, judged by what is known of it."""
    of = job.get(fixing.of)
    if not isinstance(of, Equipment | Opening) or (isinstance(of, Equipment) and of.retired is not None):
        return None
    ties = isinstance(of, Opening) and of.tag in standing(job)
    hung, missing = _tie(job, of) if isinstance(of, Opening) and ties else _hung(job, fixing, of)
    face = face_of(job, of.tag)
    straight = ties or (face is not None and face.side == "underside")
    ground = _ground(fixing)
    held, thread = _held(job, fixing, ground, isinstance(of, Opening))
    if fixing.what == "unknown":
        missing.append("screw")
    if ground == "unknown":
        missing.append("what it goes into")
    if ground == "wood" and fixing.length is None:
        missing.append("screw length")
    if not straight and (fixing.apart is None or fixing.apart.nm <= 0):
        missing.append("rows apart")
    load = _load(fixing, [one for _, one in hung], straight=straight)
    arm = any(one.reach is not None for one in _related(job, of))
    return Hanging(fixing, ground, tuple(hung), tuple(missing), load, held, thread, arm, _matters(of, hung), straight)


def _load(fixing: Fixing, hung: list[Hung], *, straight: bool) -> Load | None:
    """On the screw that is loaded hardest."""
    rows = int(fixing.rows)
    count = max(fixing.count, rows)
    if hung and straight:
        return Load(sum(one.lbf for one in hung) / count, 0.0)
    if not hung or fixing.apart is None or fixing.apart.nm <= 0:
        return None
    return hardest(hung, fixing.apart.nm / INCH_NM, max(1, count // rows), count)


def _tie(job: Job, of: Opening) -> tuple[list[tuple[str, Hung]], list[str]]:
    """A cabinet on the floor: its screws hold it back, they do not carry it."""
    return [(of.tag, Hung(max(standing(job)[of.tag].pull_lbf, CHILD_LBF), 0.0))], []


def _related(job: Job, of: Equipment | Opening) -> Iterator[Equipment]:
    """The thing itself; of a mount and its TV, the other one in the same opening."""
    if isinstance(of, Opening):
        return
    yield of
    pair = {"mount": "screen", "screen": "mount"}.get(of.what)
    for one in in_opening(job).get(of.opening, ()) if of.opening and pair else ():
        if one.what == pair and one.tag != of.tag:
            yield one
    if not of.opening and (other := paired(job, of)) is not None:
        yield other


def _hung(job: Job, fixing: Fixing, of: Equipment | Opening) -> tuple[list[tuple[str, Hung]], list[str]]:
    hung: list[tuple[str, Hung]] = []
    missing: list[str] = []
    if isinstance(of, Opening):
        return _of_opening(job, fixing, of)
    related = list(_related(job, of))
    reach = max((one.reach.nm for one in related if one.reach is not None), default=0)
    # A flat mount holds its TV off the wall by its own depth.
    behind = max((one.depth.nm for one in related if one.what == "mount" and one.depth is not None), default=0)
    for one in related:
        pounds = _pounds(job, one)
        if pounds is None:
            missing.append(f"weight of {one.tag}")
            continue
        deep = 0 if one.depth is None else one.depth.nm
        # An arm's own middle is half-way out; what it carries is beyond its end.
        out = (
            reach // 2
            if one.what == "mount" and reach
            else (reach or max(behind if one.what != "mount" else 0, _off(one))) + deep // 2
        )
        typed = 0 if fixing.out is None or one.what == "mount" else fixing.out.nm
        hung.append((one.tag, Hung(max(0.0, pounds), max(0, out, typed) / INCH_NM)))
        if one.depth is None and not reach and not typed:
            missing.append(f"depth of {one.tag}")
    return hung, missing


def _off(one: Equipment) -> int:
    """What its bracket holds it off the face."""
    return one.off_wall.nm if one.off_wall is not None and not one.opening else 0


def _pounds(job: Job, one: Equipment) -> float | None:
    """What a thing weighs with what is on it: a floating shelf its boards, and what stands there, or books."""
    own = None if one.weight is None else one.weight.pounds * one.count
    if one.what not in FLOATING:
        return own
    size = (one.width, one.depth, one.height)
    if own is None and one.what != "floating cabinet" and one.material and all(size):
        wide, deep, high = (max(0, each.nm) for each in size if each is not None)
        own = weight_lb(wide, deep, high, _kind_of_board(one.material)) * one.count
    if own is None:
        return None
    stands = sum(stood_on(job, one.tag).values())
    typed = one.load.pounds if one.load is not None else 0.0
    books = 0.0
    if one.what != "mantel" and one.width is not None:
        books = BOOKS_LBF_PER_FT * max(0, one.width.nm) / (12 * INCH_NM)
    return own + (max(typed, stands) or books)


def _kind_of_board(material: str) -> str:
    """The name under which the weight of a material stands: a wood by its own name is solid wood."""
    name = material_named(material)
    return name if name.lower() in LB_PER_FT3 else "solid wood" if name else material


def _of_opening(job: Job, fixing: Fixing, of: Opening) -> tuple[list[tuple[str, Hung]], list[str]]:
    """A cabinet or a shelf on the wall: its own boards, and what stands in it or is typed, or books."""
    if of.depth is None or of.width is None or min(of.depth.nm, of.width.nm) <= 0:
        return [], [f"width and depth of {of.tag}"]
    out = max(of.depth.nm / 2, 0 if fixing.out is None else fixing.out.nm) / INCH_NM
    placed = sum(
        one.weight.pounds * one.count
        for one in in_opening(job).get(of.tag, ())
        if one.weight is not None and not hangs(one)
    )
    typed = max(0.0, of.load.pounds) if of.load is not None else 0.0
    load = max(placed, typed) or BOOKS_LBF_PER_FT * of.width.nm / (12 * INCH_NM)
    return [(of.tag, Hung(load + _boards_lb(of) + _inside_lb(job, of), out))], []


def _inside_lb(job: Job, of: Opening) -> float:
    """Weight of the shelves and dividers in it."""
    there, total = insides(job).get(of.tag), 0.0
    for laid in there.boards if there is not None else ():
        board = job.of(ShelfBoard)[laid.tag]
        deep = shelf_depth_nm(board, of)
        across, up = laid.right_nm - laid.left_nm, laid.top_nm - laid.bottom_nm
        if deep is not None and min(deep, across, up) > 0:
            total += weight_lb(deep, across, up, board.material or of.material)
    return total


def _boards_lb(of: Opening) -> float:
    """Weight of the boards of a cabinet: two sides, top and bottom, a back of a third of their thickness."""
    if of.thickness is None or of.width is None or of.depth is None:
        return 0.0
    wide, deep, thick = of.width.nm, of.depth.nm, max(0, of.thickness.nm)
    if of.held == "brackets" or of.height is None or of.height.nm < 0:
        return weight_lb(wide, deep, thick, of.material)
    high = of.height.nm
    around = 2 * weight_lb(high, deep, thick, of.material) + 2 * weight_lb(wide, deep, thick, of.material)
    return around + weight_lb(wide, high, thick // 3, of.material)


def _ground(fixing: Fixing) -> Ground:
    if fixing.what in ANCHORS or fixing.into == "drywall":
        return "board"
    if fixing.what == "masonry anchor" or fixing.into == "masonry":
        return "masonry"
    if fixing.into in ("stud", "blocking"):
        return "wood"
    return "steel" if fixing.into.startswith("steel") else "unknown"


def _held(job: Job, fixing: Fixing, ground: Ground, cleat: bool) -> tuple[Held | None, float]:
    """What one screw holds, and the thread that bites; None where it cannot be said."""
    if ground == "wood" and fixing.what in SCREWS and fixing.length is not None:
        side = CLEAT_IN if cleat else PLATE_IN
        covering = finish_at(job, fixing.of).thickness_nm / INCH_NM + side
        thread = thread_in_wood(fixing.length.nm / INCH_NM, THREAD_TIP.get(fixing.what, 0.0), covering)
        gravity = UNKNOWN_GRAVITY if fixing.wood == "unknown" else GRAVITY[fixing.wood]
        strong = None if cleat else STEEL_FE_PSI
        held = in_wood(fixing.what, gravity, thread, side, strong, across=fixing.into == "blocking")
        return held, thread
    if ground == "steel" and fixing.what in STEEL_SCREW_IN:
        return in_steel(fixing.what, fixing.into.removeprefix("steel ")), 0.0
    if fixing.rated is not None and ground in ("board", "masonry"):
        return Held(fixing.rated.pounds, fixing.rated.pounds), 0.0
    return None, 0.0


def _matters(of: Equipment | Opening, hung: list[tuple[str, Hung]]) -> bool:
    if isinstance(of, Opening) or of.heats or of.what in (
        "screen", "mount", "fireplace", "heater", *FLOATING
    ):  # fmt: skip
        return True
    return of.reach is not None or sum(one.lbf for _, one in hung) >= MATTERS_LB
