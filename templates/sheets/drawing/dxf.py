"""A wall as a DXF file of AutoCAD Release 12 (AC1009), written by hand: true size, layers by trade.

Groups as in the DXF reference of Release 12: layer names of upper-case letters, digits, `$`, `_` and `-`, 31 at most;
rectangles as closed POLYLINE with VERTEX and SEQEND. `$INSUNITS` and `$MEASUREMENT` are of Release 2000: a reader that
does not know a variable passes over it, one that does sets its units by it; a text says them to a person.
Layer names follow the pattern discipline-major-minor of the United States National CAD Standard.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import hypot

from store.measure.length import INCH_NM, MM_NM
from store.measure.text import clean
from store.records.whole import Job
from store.rules.drawing.elevation import scene as scene_of
from store.rules.drawing.shapes import LINES, Block, Run, Scene, Shape, Spot
from store.rules.wall.places import POWER_BOXES
from templates.sheets.drawing.framing import with_framing
from templates.sheets.drawing.views import HAND_NM, View, in_band, view_of, weight

LAYERS: dict[str, int] = {
    "A-WALL": 7,
    "A-WALL-FRAM": 8,
    "A-WALL-OPNG": 3,
    "A-WALL-ACCS": 4,
    "A-WALL-OBST": 8,
    "A-WALL-FURR": 7,
    "A-WALL-FNSH": 9,
    "A-FLOR-CASE": 2,
    "E-POWR": 1,
    "E-POWR-CABL": 1,
    "T-JACK": 5,
    "T-CABL": 5,
    "T-CABL-PATH": 6,
    "A-ANNO-TEXT": 7,
    "A-ANNO-PHOT": 9,
    "A-ANNO-NOSC": 1,
}
"""Layers and their colors, 1 to 255; the last holds the strips where no screw may go."""
UNITS = {False: ("1", "0", "4"), True: ("4", "1", "2")}
"""`$INSUNITS` (1 inch, 4 millimeter), `$MEASUREMENT` (0 English, 1 metric), `$LUNITS` (4 architectural, 2 decimal)."""
MOST_TEXT = 255
TEXT_OF_HEIGHT = 60
"""The height of a text is the height of the wall by this."""
_BLOCKS = {"studs": "A-WALL-FRAM", "openings": "A-WALL-OPNG", "panels": "A-WALL-ACCS", "equipment": "A-FLOR-CASE",
           "build-outs": "A-WALL-FURR", "finishes": "A-WALL-FNSH"}  # fmt: skip


def layer_of(shape: Shape) -> str:
    """The layer of a shape, by the trade that works on it."""
    if isinstance(shape, Block):
        return _BLOCKS.get(shape.layer, "A-WALL-OBST")
    if isinstance(shape, Spot):
        if shape.layer == "photos":
            return "A-ANNO-PHOT"
        return "E-POWR" if shape.kind in POWER_BOXES else "T-JACK"
    if shape.layer in ("raceways", "build-outs"):
        return "T-CABL-PATH" if shape.layer == "raceways" else "A-WALL-FURR"
    return "E-POWR-CABL" if shape.kind == "power" else "T-CABL"


def dxf_of(job: Job, wall: str, trade: str = "") -> str:
    """A wall of a job: as the drawing of a trade shows it, or all of it where the trade has no drawing of its own."""
    view = view_of(trade)
    whole = scene_of(job, wall)
    return dxf(with_framing(job, whole) if view is not None and view.framing else whole, job.settings.name, view)


def dxf(scene: Scene, job: str = "", view: View | None = None) -> str:
    """A wall of a job as the text of a DXF file, in millimeters or inches as the job is; y is up, 0 is the datum.

    Of a trade's view it holds what that trade's drawing shows, with the layers of that; without one, everything.
    """
    drawn = tuple(_entities(scene, job, view))
    used = {value for code, value in drawn if code == LAYER}
    pairs = [*_header(scene), *_tables(used), *_section("ENTITIES", drawn), (0, "EOF")]
    return "".join(f"{code:3d}\n{value}\n" for code, value in pairs)


Pair = tuple[int, str]
LAYER = 8
"""The group that names the layer of an entity."""


def _header(scene: Scene) -> Iterator[Pair]:
    left, bottom, right, top = (_unit(scene, each) for each in scene.extent)
    unit, measure, shown = UNITS[scene.metric]
    yield 999, f"Wall {_plain(scene.wall)}, true size, units: {_units(scene)}"
    yield from _section(
        "HEADER",
        [
            (9, "$ACADVER"), (1, "AC1009"),
            (9, "$EXTMIN"), (10, left), (20, bottom),
            (9, "$EXTMAX"), (10, right), (20, top),
            (9, "$LUNITS"), (70, shown),
            (9, "$INSUNITS"), (70, unit),
            (9, "$MEASUREMENT"), (70, measure),
        ],
    )  # fmt: skip


def _units(scene: Scene) -> str:
    return "millimeters" if scene.metric else "inches"


def _tables(used: set[str]) -> Iterator[Pair]:
    rows: list[Pair] = [(0, "TABLE"), (2, "LTYPE"), (70, "1"), (0, "LTYPE"), (2, "CONTINUOUS"), (70, "0")]
    rows += [(3, "Solid line"), (72, "65"), (73, "0"), (40, "0.0"), (0, "ENDTAB")]
    layers = [(name, colour) for name, colour in LAYERS.items() if name in used]
    rows += [(0, "TABLE"), (2, "LAYER"), (70, str(len(layers)))]
    for name, colour in layers:
        rows += [(0, "LAYER"), (2, name), (70, "0"), (62, str(colour)), (6, "CONTINUOUS")]
    rows.append((0, "ENDTAB"))
    yield from _section("TABLES", rows)


def _section(name: str, rows: Iterable[Pair]) -> Iterator[Pair]:
    yield from ((0, "SECTION"), (2, name))
    yield from rows
    yield 0, "ENDSEC"


def _entities(scene: Scene, job: str, view: View | None) -> Iterator[Pair]:
    yield from _line(scene, "A-WALL", scene.corners, closed=True)
    high = max(scene.height, scene.width // 2) // TEXT_OF_HEIGHT
    for shape in scene.shapes:
        if view is not None and view.bands and in_band(shape):
            for strip in _strips(shape):
                yield from _line(scene, "A-ANNO-NOSC", strip, closed=True)
        outline = isinstance(shape, Run) and shape.kind in LINES  # drawn with the wall
        if (view is None or weight(view, shape)) and not outline:
            yield from _shape(scene, shape, high)
    said = f"{scene.wall} {scene.name}: true size, {_units(scene)}, 0,0 is the left corner at the finished floor"
    what = f"{view.title}. {job}".removesuffix(". ") if view is not None else job
    strips = "A-ANNO-NOSC: no screws, wires and pipes run there" if view is not None and view.bands else ""
    for row, text in enumerate((each for each in (said, what, strips) if each), 1):
        yield from _text(scene, (0, -3 * high * row), high, text, "A-ANNO-TEXT")


def _shape(scene: Scene, shape: Shape, high: int) -> Iterator[Pair]:
    layer = layer_of(shape)
    if isinstance(shape, Block):
        yield from _line(scene, layer, shape.corners, closed=True)
    elif isinstance(shape, Run):
        yield from _line(scene, layer, shape.points, closed=False)
    else:
        yield from ((0, "CIRCLE"), (LAYER, layer), (10, _unit(scene, shape.x)), (20, _unit(scene, shape.y)))
        yield 40, _unit(scene, INCH_NM)
    if shape.tag:
        yield from _text(scene, shape.centre, high, f"{shape.tag} {shape.label}", layer)


def _strips(shape: Shape) -> Iterator[list[tuple[int, int]]]:
    """The corners of where no screw may go: a hand's width on each side of a pipe, or of each piece of a run."""
    if not isinstance(shape, Run):
        left, bottom, right, top = shape.extent
        left, right = left - HAND_NM, right + HAND_NM
        yield [(left, bottom), (right, bottom), (right, top), (left, top)]
        return
    for (ax, ay), (bx, by) in pairwise(shape.points):
        if long := hypot(bx - ax, by - ay):
            u, v = round((bx - ax) / long * HAND_NM), round((by - ay) / long * HAND_NM)
            # Beyond its ends too, so that there is no notch at a bend.
            ax_, ay_, bx_, by_ = ax - u, ay - v, bx + u, by + v
            yield [(ax_ - v, ay_ + u), (ax_ + v, ay_ - u), (bx_ + v, by_ - u), (bx_ - v, by_ + u)]


def _line(scene: Scene, layer: str, points: Iterable[tuple[int, int]], *, closed: bool) -> Iterator[Pair]:
    yield from ((0, "POLYLINE"), (LAYER, layer), (66, "1"), (70, "1" if closed else "0"))
    for x, y in points:
        yield from ((0, "VERTEX"), (LAYER, layer), (10, _unit(scene, x)), (20, _unit(scene, y)))
    yield from ((0, "SEQEND"), (LAYER, layer))


def _text(scene: Scene, at: tuple[int, int], high: int, text: str, layer: str) -> Iterator[Pair]:
    yield from ((0, "TEXT"), (LAYER, layer), (10, _unit(scene, at[0])), (20, _unit(scene, at[1])))
    yield from ((40, _unit(scene, high)), (1, _plain(text)))


def _unit(scene: Scene, nm: int) -> str:
    """Nanometers in the unit of the file, to the nanometer."""
    return f"{nm / (MM_NM if scene.metric else INCH_NM):.6f}"


def _plain(text: str) -> str:
    """Text in ASCII on one line; any other letter by its number, as later releases read it."""
    said = "".join(each if " " <= each <= "~" else f"\\U+{ord(each):04X}" for each in clean(text))
    return said[:MOST_TEXT]
