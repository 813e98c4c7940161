"""A wall as a DXF file of AutoCAD Release 12 (AC1009), written by hand: true size, one layer a trade.

Groups as in the DXF reference of Release 12: layer names of upper-case letters, digits, `$`, `_` and `-`, 31 at most;
rectangles as closed POLYLINE with VERTEX and SEQEND; no variable for units, which came later, so a text says them.
Layer names follow the pattern discipline-major-minor of the United States National CAD Standard.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.length import INCH_NM, MM_NM
from store.measure.text import clean
from store.rules.drawing.shapes import Block, Run, Scene, Shape, Spot
from store.rules.wall.places import POWER_BOXES

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
}
"""Layers and their colors, 1 to 255."""
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


def dxf(scene: Scene, job: str = "") -> str:
    """A wall of a job as the text of a DXF file, in millimeters or inches as the job is; y is up, 0 is the datum."""
    pairs = [*_header(scene), *_tables(), *_section("ENTITIES", _entities(scene, job)), (0, "EOF")]
    return "".join(f"{code:3d}\n{value}\n" for code, value in pairs)


Pair = tuple[int, str]


def _header(scene: Scene) -> Iterator[Pair]:
    left, bottom, right, top = (_unit(scene, each) for each in scene.extent)
    yield 999, f"Wall {_plain(scene.wall)}, true size, units: {_units(scene)}"
    yield from _section(
        "HEADER",
        [
            (9, "$ACADVER"),
            (1, "AC1009"),
            (9, "$EXTMIN"),
            (10, left),
            (20, bottom),
            (9, "$EXTMAX"),
            (10, right),
            (20, top),
        ],
    )


def _units(scene: Scene) -> str:
    return "millimeters" if scene.metric else "inches"


def _tables() -> Iterator[Pair]:
    rows: list[Pair] = [(0, "TABLE"), (2, "LTYPE"), (70, "1"), (0, "LTYPE"), (2, "CONTINUOUS"), (70, "0")]
    rows += [(3, "Solid line"), (72, "65"), (73, "0"), (40, "0.0"), (0, "ENDTAB")]
    rows += [(0, "TABLE"), (2, "LAYER"), (70, str(len(LAYERS)))]
    for name, colour in LAYERS.items():
        rows += [(0, "LAYER"), (2, name), (70, "0"), (62, str(colour)), (6, "CONTINUOUS")]
    rows.append((0, "ENDTAB"))
    yield from _section("TABLES", rows)


def _section(name: str, rows: Iterable[Pair]) -> Iterator[Pair]:
    yield from ((0, "SECTION"), (2, name))
    yield from rows
    yield 0, "ENDSEC"


def _entities(scene: Scene, job: str) -> Iterator[Pair]:
    corners = [(0, 0), (scene.width, 0), (scene.width, scene.height), (0, scene.height)]
    yield from _line(scene, "A-WALL", corners, closed=True)
    high = max(scene.height, scene.width // 2) // TEXT_OF_HEIGHT
    for shape in scene.shapes:
        layer = layer_of(shape)
        if isinstance(shape, Block):
            yield from _line(scene, layer, shape.corners, closed=True)
        elif isinstance(shape, Run):
            yield from _line(scene, layer, shape.points, closed=False)
        else:
            yield from ((0, "CIRCLE"), (8, layer), (10, _unit(scene, shape.x)), (20, _unit(scene, shape.y)))
            yield 40, _unit(scene, INCH_NM)
        if shape.tag:
            yield from _text(scene, shape.centre, high, f"{shape.tag} {shape.label}", layer)
    said = f"{scene.wall} {scene.name}: true size, {_units(scene)}, 0,0 is the left corner at the finished floor"
    for row, text in enumerate((said, job), 1):
        if text:
            yield from _text(scene, (0, -3 * high * row), high, text, "A-ANNO-TEXT")


def _line(scene: Scene, layer: str, points: Iterable[tuple[int, int]], *, closed: bool) -> Iterator[Pair]:
    yield from ((0, "POLYLINE"), (8, layer), (66, "1"), (70, "1" if closed else "0"))
    for x, y in points:
        yield from ((0, "VERTEX"), (8, layer), (10, _unit(scene, x)), (20, _unit(scene, y)))
    yield from ((0, "SEQEND"), (8, layer))


def _text(scene: Scene, at: tuple[int, int], high: int, text: str, layer: str) -> Iterator[Pair]:
    yield from ((0, "TEXT"), (8, layer), (10, _unit(scene, at[0])), (20, _unit(scene, at[1])))
    yield from ((40, _unit(scene, high)), (1, _plain(text)))


def _unit(scene: Scene, nm: int) -> str:
    """Nanometers in the unit of the file, to the nanometer."""
    return f"{nm / (MM_NM if scene.metric else INCH_NM):.6f}"


def _plain(text: str) -> str:
    """Text in ASCII on one line; any other letter by its number, as later releases read it."""
    said = "".join(each if " " <= each <= "~" else f"\\U+{ord(each):04X}" for each in clean(text))
    return said[:MOST_TEXT]
