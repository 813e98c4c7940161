"""What a trade builds from, worked out: framing to cut, blocking, cabinets, shelves, drywall and coats, air, lights."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from store.records.equipment import Equipment
from store.records.people import Trade
from store.records.wall import Opening, Wall
from store.records.whole import Job, serial_of
from store.rules.build.backing import backing
from store.rules.build.boards import boards
from store.rules.build.cabinet_words import cabinet_lines, inside_lines
from store.rules.build.cabinets import cabinets
from store.rules.build.channels import channels
from store.rules.build.framing import framed
from store.rules.build.hanging import hanging
from store.rules.build.hanging_words import blocking_lines, hold_lines
from store.rules.build.sheet_goods import goods
from store.rules.build.takeoff_words import area_text, board_lines, coat_lines, lumber_lines, stick_lines
from store.rules.cable.kinds import sold_text
from store.rules.cable.lengths import needs
from store.rules.core.wording import named, paired, plural, sized
from store.rules.fit.shelf_words import shelf_lines
from store.rules.fit.shelves import floating, inner_shelves, shelves
from store.rules.heat.cooling import cooling
from store.rules.heat.cooling_words import heat_lines
from store.rules.light.light_words import channel_lines, driver_lines, light_lines
from store.rules.light.lights import drivers, lights
from store.rules.signal.chain import links, read_ports
from store.rules.wall.readings import sizes

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
        yield tag, [f"behind {one.of} on {one.side or one.wall}: {line}" for line in blocking_lines(job, one)]


def _cabinets(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, cabinet_lines(job, one)) for tag, one in cabinets(job).items())
    for tag, opening in job.of(Opening).items():
        if tag not in cabinets(job):  # of a bare opening the shelves alone
            yield tag, inside_lines(job, opening)


def _sheets(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    """What is sawn from each sheet for cabinets and shelves."""
    for one in goods(job):
        head = f"{one.material} {sized(job, one.thick_nm)}"
        lines = [
            f"{head}, sheet {number}: {', '.join(paired(job, wide, long) for long, wide in pieces)}"
            for number, pieces in enumerate(one.laid.by_sheet(), 1)
        ]
        lines += [f"{head}: {paired(job, wide, long)} comes from no sheet" for long, wide in one.laid.too_large]
        yield ", ".join(one.openings), lines


def _shelves(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, shelf_lines(job, one)) for tag, one in shelves(job).items())
    yield from ((tag, shelf_lines(job, one)) for tag, one in inner_shelves(job).items())
    yield from ((tag, shelf_lines(job, one)) for tag, one in floating(job).items())


def _hanging(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, hold_lines(job, one)) for tag, one in hanging(job).items())


def _air(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, heat_lines(job, one)) for tag, one in cooling(job).items())


def _channels(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, channel_lines(job, one)) for tag, one in channels(job).items())


def _lights(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, light_lines(job, one)) for tag, one in lights(job).items())
    yield from ((tag, driver_lines(job, one)) for tag, one in drivers(job).items())


def _ports(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    """Each signal cable with the ports that it joins, as they are marked on the devices, and its length to cut."""
    for link in sorted(links(job).made, key=lambda each: serial_of("cable", each.cable)):
        ends = [_port(job, link.source, link.port, "out"), _port(job, link.sink, link.port, "in")]
        need = needs(job).get(link.cable)
        cut = f"; cut {sold_text(need.cut, job.settings.metric)}" if need is not None and need.cut is not None else ""
        yield link.cable, [f"{' to '.join(ends)}{cut}"]


def _port(job: Job, device: str, kind: str, way: str) -> str:
    """A device with its port of a kind: by the words on it, else by its kind."""
    if not device:
        return "a device that is not entered"
    one = job.of(Equipment).get(device)
    marked = [text for text in (one.ports if one is not None else ()) for port in read_ports(text)[:1]
              if port.kind == kind and port.way in (way, "both")]  # fmt: skip
    return f"{named(job, device)}, port {marked[0] if marked else f'{kind} {way}'}"


def _boards(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, board_lines(job, one)) for tag, one in boards(job).items())


def _areas(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    """The face of each wall less its openings, with the level that it is finished to."""
    for tag, wall in job.of(Wall).items():
        wide, high = (sizes(job).get((tag, what)) for what in ("width", "height"))
        if wide is None or high is None:
            continue
        holes = [one for one in job.of(Opening).values() if one.wall == tag and one.width and one.height]
        whole = wide.least.nm * high.least.nm
        left = whole - sum(one.width.nm * one.height.nm for one in holes if one.width and one.height)
        level = f", finish level {wall.level}" if wall.level else ""
        faces = f"{area_text(job, left)} of {area_text(job, whole)}, less {plural(len(holes), 'opening')}"
        yield tag, [f"{named(job, tag)}: {faces}{level}"]


def _coats(job: Job) -> Iterator[tuple[str, Iterable[str]]]:
    yield from ((tag, coat_lines(one)) for tag, one in boards(job).items())


LISTS: dict[Trade, tuple[tuple[str, Maker], ...]] = {
    "carpenter": (
        ("Framing, piece by piece", _framing),
        ("Lumber to buy and cut", _lumber),
        ("Blocking", _blocking),
        ("Cabinets: boards, doors and hardware", _cabinets),
        ("Boards to saw from sheets", _sheets),
        ("Shelves: how far they sag", _shelves),
        ("What hangs: load and screws", _hanging),
        ("Air behind closed doors", _air),
    ),
    "drywall": (("Drywall, sheet by sheet", _boards), ("Finish and coats", _coats), ("Blocking", _blocking)),
    "low-voltage": (("Ports and cut lengths", _ports), ("Lights and their drivers", _lights)),
    "painter": (("Areas to paint", _areas), ("Finish and coats", _coats)),
}
"""By trade, in the order in which they are printed."""
