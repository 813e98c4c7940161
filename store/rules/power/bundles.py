"""Where power cables lie together for so long that they heat each other: a row of holes, a stud, a raceway."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from itertools import pairwise
from operator import attrgetter

import msgspec

from store.measure.length import INCH_NM
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.cable.courses import raceway_length
from store.rules.cable.in_wall import in_the_wall
from store.rules.cable.raceways import in_raceway
from store.rules.cable.routes import routes
from store.rules.core.code import is_us
from store.rules.core.keyed import filed, of_each
from store.rules.core.memo import once
from store.rules.power.plan import is_mains
from store.trade.power.grouping import GROUPED_OVER_IN

TOGETHER_NM = 2 * INCH_NM
"""Cables whose ways are nearer than this share their holes, or one side of a stud. Our own reading, no source."""
OVER_NM = round(GROUPED_OVER_IN * INCH_NM)
AT_ANY_LENGTH_FROM = 3
"""More than two cables in insulation, or in one sealed hole, heat each other however short the way: 334.80."""


class Run(msgspec.Struct, frozen=True, order=True):
    """A straight stretch of a power cable in a wall."""

    wall: str
    level: bool
    """True for one through the studs, False for one up and down."""
    at: int
    """Its height, or its place along the wall, nm."""
    low: int
    high: int
    cable: str
    sealed: bool = False
    """It goes through a plate of the wall, where the hole is sealed against fire (IRC R302.11)."""


class Bundle(msgspec.Struct, frozen=True):
    """Power cables that lie together for more than 24 in."""

    where: str
    """The tag of the raceway, or of the wall."""
    level: bool
    at: int
    """Height or place along the wall, nm; 0 in a raceway."""
    length: int
    """How long they lie together, nm."""
    cables: tuple[str, ...]
    close: str = ""
    """Why any length counts: `insulation`, or `sealed holes`; empty where they lie together for more than 24 in."""


@of_each(Cable)
def runs(job: Job, cable: Cable) -> tuple[Run, ...] | None:
    """The straight stretches of each power cable that lie loose in, above or below a wall."""
    if cable.retired is not None or not is_mains(job, cable) or not in_the_wall(job, cable):
        return None
    found = []
    over = any(leg.place == "beyond" for leg in routes(job)[cable.tag].legs)
    for leg in routes(job)[cable.tag].legs:
        if leg.place not in ("wall", "beyond") or leg.start == leg.end:
            continue
        level = leg.start[1] == leg.end[1]
        if level or leg.start[0] == leg.end[0]:
            across, along = (1, 0) if level else (0, 1)
            low, high = sorted((leg.start[along], leg.end[along]))
            found.append(Run(leg.wall, level, leg.start[across], low, high, cable.tag, over and not level))
    return tuple(found) or None


@filed(Cable)
def _lines(job: Job, cable: Cable) -> Iterator[tuple[tuple[str, bool], Run]]:
    """The stretches of power cables by their wall, the level ones apart from the upright."""
    for run in runs(job).get(cable.tag) or ():
        yield (run.wall, run.level), run


def bundles(job: Job) -> dict[str, Bundle]:
    """Every bundle of two cables or more, by a name of its place.

    More than two in insulation, or through a hole that is sealed, count at any length: NFPA 70 334.80.
    """
    return {name: bundle for wall, level in _lines(job) for name, bundle in _bundled(job, wall, level).items()}


@once
def _bundled(job: Job, wall: str, level: bool) -> dict[str, Bundle]:
    """The bundles of one wall, level or upright."""
    found = {}
    for row in _rows(_lines(job).get((wall, level), ())):
        cables, length = _most_together(row)
        close, tight = _close(job, wall, row)
        if len(tight[0]) > max(len(cables), AT_ANY_LENGTH_FROM - 1):
            cables, length = tight
        else:
            close = ""
        if len(cables) > 1:
            found[f"{wall}/{'level' if level else 'upright'}/{row[0].at}"] = Bundle(
                wall, level, row[0].at, length, cables, close
            )
    return found


def _close(job: Job, wall: str, row: tuple[Run, ...]) -> tuple[str, tuple[tuple[str, ...], int]]:
    """Why the cables of a row count together at any length, and which they are."""
    if not is_us(job):
        return "", ((), 0)
    if insulated(job, wall):
        return "insulation", _most_together(row, 0)
    sealed = tuple(run for run in row if run.sealed)
    return "sealed holes", _most_together(sealed, 0) if len(sealed) >= AT_ANY_LENGTH_FROM else ((), 0)


def insulated(job: Job, tag: str) -> bool:
    """True for a wall with insulation in its stud bays."""
    wall = job.of(Wall).get(tag)
    return wall is not None and wall.insulation not in ("unknown", "none")


def _rows(line: Iterable[Run]) -> Iterable[tuple[Run, ...]]:
    """Stretches that share their holes: each row is no wider than TOGETHER_NM."""
    row: list[Run] = []
    for run in sorted(line, key=attrgetter("at", "low", "cable")):
        if row and run.at - row[0].at > TOGETHER_NM:
            yield tuple(row)
            row = []
        row.append(run)
    if row:
        yield tuple(row)


@lru_cache(maxsize=4096)
def _most_together(row: tuple[Run, ...], over: int = OVER_NM) -> tuple[tuple[str, ...], int]:
    """The most cables that lie side by side for more than a length, and for how long; nothing for fewer than two."""
    marks = sorted({at for run in row for at in (run.low, run.high)})
    there = [
        (low, high, frozenset(run.cable for run in row if run.low <= low and high <= run.high))
        for low, high in pairwise(marks)
    ]
    best: tuple[frozenset[str], int] = (frozenset(), 0)
    for count in range(max((len(each[2]) for each in there), default=0), 1, -1):
        long, since, cables = 0, 0, frozenset[str]()
        for low, high, here in there:
            long, cables = (long + high - low, cables | here) if len(here) >= count else (0, frozenset())
            if long > max(over, since):
                since, best = long, (cables, long)
        if best[0]:
            break
    return tuple(sorted(best[0], key=lambda tag: (len(tag), tag))), best[1]


@of_each(Cable)
def in_insulation(job: Job, cable: Cable) -> Mapping[str, int] | None:
    """How far each power cable runs in each wall that is insulated, nm."""
    found: dict[str, int] = {}
    for run in runs(job).get(cable.tag) or ():
        if insulated(job, run.wall):
            found[run.wall] = found.get(run.wall, 0) + run.high - run.low
    return found or None


@of_each(Raceway)
def in_one_raceway(job: Job, raceway: Raceway) -> Bundle | None:
    """The power cables of a raceway of more than 24 in."""
    length = raceway_length(job, raceway)
    inside = [one.tag for one in in_raceway(job).get(raceway.tag, ()) if one.retired is None and is_mains(job, one)]
    if length is None or length <= OVER_NM or len(inside) < 2:
        return None
    return Bundle(raceway.tag, True, 0, length, tuple(inside))


def circuit_of_cable(job: Job, cable: Cable) -> Circuit | None:
    """The circuit of a power cable, by the boxes at its ends; None where neither names one."""
    boxes = (job.of(Box).get(tag) for tag in (cable.start, cable.end))
    names = (box.circuit for box in boxes if box is not None and box.circuit)
    return next((found for name in names if (found := job.of(Circuit).get(name)) is not None), None)
