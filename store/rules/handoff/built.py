"""What a trade builds from, worked out: framing to cut, blocking, cabinets, shelves, drywall and coats, air, lights."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from store.records.people import Trade
from store.records.whole import Job
from store.rules.build.backing import backing
from store.rules.build.boards import boards
from store.rules.build.cabinet_words import cabinet_lines
from store.rules.build.cabinets import cabinets
from store.rules.build.framing import framed
from store.rules.build.hanging import hanging
from store.rules.build.hanging_words import blocking_lines, hold_lines
from store.rules.build.takeoff_words import board_lines, coat_lines, lumber_lines, stick_lines
from store.rules.fit.shelf_words import shelf_lines
from store.rules.fit.shelves import shelves

Rows = tuple[tuple[str, str], ...]
"""The tag, and one line of the sum."""
Maker = Callable[[Job], Iterator[tuple[str, Iterable[str]]]]


def built(job: Job, trade: Trade) -> Iterator[tuple[str, Rows]]:
    """Title and rows of each list of a trade that has something on it."""
    for title, lines in LISTS.get(trade, ()):
        rows = tuple((tag, line) for tag, sums in lines(job) for line in sums)
        if rows:
            yield title, rows


def _framing(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, stick_lines(job, one)) for tag, one in framed(job).items() if one.wanted)


def _lumber(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, lumber_lines(job, one)) for tag, one in framed(job).items() if one.wanted)


def _blocking(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    for tag, one in backing(job).items():
        yield tag, [f"behind {one.of} on {one.wall}: {line}" for line in blocking_lines(job, one)]


def _cabinets(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, cabinet_lines(job, one)) for tag, one in cabinets(job).items())


def _shelves(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, shelf_lines(job, one)) for tag, one in shelves(job).items())


def _hanging(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, hold_lines(job, one)) for tag, one in hanging(job).items())


def _boards(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, board_lines(job, one)) for tag, one in boards(job).items())


def _coats(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, coat_lines(one)) for tag, one in boards(job).items())


LISTS: dict[Trade, tuple[tuple[str, Maker], ...]] = {
    "carpenter": (
        ("Framing, piece by piece", _framing),
        ("Lumber to buy and cut", _lumber),
        ("Blocking", _blocking),
        ("Cabinets: boards, doors and hardware", _cabinets),
        ("Shelves: how far they sag", _shelves),
        ("What hangs: load and screws", _hanging),
    ),
    "drywall": (("Drywall, sheet by sheet", _boards), ("Finish and coats", _coats), ("Blocking", _blocking)),
    "painter": (("Finish and coats", _coats),),
}
"""By trade, in the order in which they are printed."""
