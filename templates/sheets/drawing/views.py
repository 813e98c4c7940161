"""What each trade's drawing of a wall shows, and what is said of every thing on it in the schedule beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Literal

import msgspec

from store.measure.length import Length, show_length, show_pair, show_size
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.cable.kinds import sold_text
from store.rules.cable.labels import ends_text
from store.rules.cable.lengths import needs
from store.rules.core.wording import local
from store.rules.drawing.shapes import Block, Run, Scene, Shape, Spot
from store.rules.wall.places import POWER_BOXES
from store.rules.wall.shape import stands_in_front
from store.trade.build.cut_out import cut_out

Trade = Literal[
    "general",
    "electrician",
    "low-voltage",
    "carpenter",
    "drywall",
    "painter",
    "hvac",
    "inspector",
    "other",
    "mock-up",
    "places",
]
Weight = Literal["own", "around", ""]
"""How a thing is drawn: as the trade's own work, as what its work stands in, or not at all."""
HAND_NM = 100_000_000
"""Kept free of screws each side of a wire, pipe or raceway: a hand's width, 4 in or 100 mm, common practice."""


class View(msgspec.Struct, frozen=True):
    """The drawing of one trade."""

    trade: Trade
    title: str
    own: frozenset[str]
    """Layers, or `layer:kind`, that are the trade's own work."""
    around: frozenset[str]
    """What they stand in."""
    bands: bool = False
    """With the strips where no screw may go."""
    notes: tuple[str, ...] = ()
    framing: bool = False
    """With every stick, not the studs alone."""


def _view(
    trade: Trade,
    title: str,
    own: str,
    around: str,
    *,
    bands: bool = False,
    notes: tuple[str, ...] = (),
    framing: bool = False,
) -> View:
    return View(trade, title, frozenset(own.split()), frozenset(around.split()), bands, notes, framing)


POWER = " ".join(f"boxes:{each}" for each in POWER_BOXES)
SIGNAL = "boxes:low-voltage boxes:pass-through"
VIEWS: tuple[View, ...] = (
    _view(
        "general", "Elevation",
        "openings equipment panels obstacles boxes raceways cables photos build-outs finishes", "studs",
    ),
    _view(
        "electrician", "Electrical", f"{POWER} cables:power", "studs openings obstacles panels equipment build-outs",
        notes=("Box heights are to the center of the box, from the finished floor.",),
    ),
    _view(
        "low-voltage", "Low voltage", f"{SIGNAL} raceways cables:signal equipment",
        f"studs openings obstacles panels build-outs {POWER}",
        notes=("Cut lengths include the slack at both ends. The tag goes on both ends of every cable.",),
    ),
    _view(
        "carpenter", "Framing", "studs openings panels build-outs", "obstacles finishes", framing=True,
        notes=(
            "Rough openings are width x height. Do not cut a stud before someone licensed has said what it carries.",
        ),
    ),
    _view(
        "drywall", "Drywall", "openings panels boxes build-outs finishes", "studs obstacles", bands=True,
        notes=(
            "NO SCREWS in the striped strips: wires, pipes and raceways run there, a hand's width each side.",
            "Cut out every box, opening and panel in the schedule. Cover none that is not in it: ask first.",
            "Cut-outs of boxes are those of usual boxes: hold the box to the sheet and trace it.",
        ),
    ),
)  # fmt: skip
"""The sheets of a wall, in the order of the set."""
FOR_PACKETS: tuple[View, ...] = (
    _view("painter", "Finish", "openings panels obstacles build-outs finishes", ""),
    _view("hvac", "HVAC", "openings obstacles equipment", "studs build-outs"),
    _view("inspector", "Electrical", f"{POWER} cables:power panels", "studs openings obstacles equipment",
          notes=("Box heights are to the center of the box, from the finished floor.",)),
    _view("mock-up", "Mock-up", "openings panels build-outs", "obstacles"),
    _view("places", "Where it goes", "openings equipment panels boxes raceways", "studs obstacles build-outs"),
    _view("other", "Elevation", "openings equipment panels obstacles", "studs"),
)  # fmt: skip
"""Sheets that are in a packet, or bound into another sheet, and not in the set."""


NAMED = ("mock-up", "places")
"""Sheets bound into a list that has the sizes and the places: their schedule is the key to the tags."""


def view_of(trade: str) -> View | None:
    """The drawing of a trade; None for a trade that has none of its own."""
    return next((each for each in (*VIEWS, *FOR_PACKETS) if each.trade == trade), None)


def weight(view: View, shape: Shape) -> Weight:
    """How a shape is drawn for a trade."""
    names = {shape.layer, f"{shape.layer}:{shape.kind}"}
    if names & view.own:
        return "own"
    return "around" if names & view.around else ""


def in_band(shape: Shape) -> bool:
    """Whether a screw beside it does harm: every wire, pipe and raceway."""
    wire = isinstance(shape, Run) and shape.layer in ("cables", "raceways")
    return wire or (shape.layer == "obstacles" and shape.kind == "pipe")


# --- the schedule ---


class Entry(msgspec.Struct, frozen=True):
    """What the schedule says of one thing."""

    tag: str
    name: str
    lines: tuple[str, ...]


def entries(job: Job, scene: Scene, view: View) -> tuple[Entry, ...]:
    """The schedule of a drawing: every tag that is drawn, the trade's own first, each with its full name."""
    found: dict[str, tuple[bool, Entry]] = {}
    for shape in scene.shapes:
        how = weight(view, shape)
        if how and shape.tag and shape.tag not in found:
            # Of what the work stands in, the name is enough: its size and place are on the sheet of its own trade.
            whole = how == "own" and view.trade not in NAMED
            said = "; ".join(each for each in _said(job, scene, view, shape) if each) if whole else ""
            # In the words of the region before it is broken into lines: they are of other lengths.
            lines = (local(job, said),) if said else ()
            found[shape.tag] = (how != "own", Entry(shape.tag, shape.label, lines))
    order = sorted(found.values(), key=lambda each: (each[0], each[1].tag[:1], _number(each[1].tag)))
    return tuple(entry for _, entry in order)


def _number(tag: str) -> int:
    digits = "".join(each for each in tag if each.isdigit())
    return int(digits) if digits else 0


def _said(job: Job, scene: Scene, view: View, shape: Shape) -> Iterator[str]:
    if isinstance(shape, Block):
        yield from _of_block(job, scene, view, shape)
    elif isinstance(shape, Spot):
        yield from _of_spot(job, scene, view, shape)
    elif weight(view, shape) == "own":
        yield from _of_run(job, scene, shape)


def place(scene: Scene, x: int, y: int) -> str:
    """A place on the wall from the datum: `3'-4" from left, 1'-2" up`."""
    left, high = (show_length(Length(each), scene.metric) for each in (x, y))
    return f"{left} from left, {high} up"


def _of_block(job: Job, scene: Scene, view: View, shape: Block) -> Iterator[str]:
    if shape.layer == "studs":
        yield place(scene, shape.x, shape.y)
        return
    pair = show_pair(Length(shape.width), Length(shape.height), scene.metric)
    kind = shape.kind if shape.kind in BOARDS else shape.layer
    called = (
        CALLED.get((view.trade, kind))
        or CALLED.get(("", kind))
        or CALLED.get((view.trade, shape.layer))
        or CALLED.get(("", shape.layer), "")
    )
    record = job.get(shape.tag)
    if isinstance(record, Opening) and stands_in_front(job, record):
        called = f"{IN_FRONT}{', no cut-out' if view.trade == 'drywall' else ''},"
    yield f"{called} {pair}".strip()
    yield place(scene, shape.x, shape.y)
    if shape.kind == "divider":
        yield f"left face {show_length(Length(shape.x), scene.metric)} from left"
    elif shape.kind in BOARDS:
        yield f"top {show_length(Length(shape.y + shape.height), scene.metric)} off the floor"
    if isinstance(record, Opening) and record.depth is not None:
        yield f"{show_size(record.depth, scene.metric)} deep"
    if isinstance(record, BuildOut):
        yield f"{show_size(record.depth, scene.metric)} out from the wall"
    if isinstance(record, Equipment) and view.trade in ("general", "low-voltage", "electrician"):
        yield from _clearances(scene, record)


def _clearances(scene: Scene, one: Equipment) -> Iterator[str]:
    sides = {
        "left": one.clear_left, "right": one.clear_right, "above": one.clear_top, "below": one.clear_bottom,
        "behind": one.clear_back,
    }  # fmt: skip
    said = [f"{name} {show_size(each, scene.metric)}" for name, each in sides.items() if each is not None and each.nm]
    if said:
        yield f"keep clear: {', '.join(said)}"


def _of_spot(job: Job, scene: Scene, view: View, shape: Spot) -> Iterator[str]:
    yield ("" if shape.kind == shape.label else shape.kind) + ("" if shape.new else ", existing")
    yield place(scene, shape.x, shape.y)
    record = job.get(shape.tag)
    if isinstance(record, Box):
        gang = f"{record.gangs}-gang" if record.gangs else ""
        if view.trade == "drywall":
            wide, high = cut_out(max(record.gangs, 1), scene.metric)
            gang += f", cut-out about {show_pair(Length(wide), Length(high), scene.metric)}"
        circuit = f"circuit {record.circuit}" if record.circuit and view.trade != "drywall" else ""
        back = f"set back {show_size(record.setback, scene.metric)}" if record.setback and record.setback.nm else ""
        yield ", ".join(each for each in (gang, circuit, back) if each)


def _of_run(job: Job, scene: Scene, shape: Run) -> Iterator[str]:
    record = job.get(shape.tag)
    if isinstance(record, Cable):
        ends = ends_text(job, record)
        yield f"{record.type}, {ends}"
        need = needs(job).get(shape.tag)
        if need is not None and need.cut is not None:
            yield f"cut {sold_text(need.cut, scene.metric)}"
    elif isinstance(record, Raceway):
        ends = ends_text(job, record)
        yield f"{record.type} {record.size}, {ends}".replace(" ,", ",")


IN_FRONT = "cabinet in front of the wall"
BOARDS = ("adjustable shelf", "fixed shelf", "divider")
"""Kinds of board inside an opening."""
CALLED = {
    **{("", each): each for each in BOARDS},
    **{("drywall", each): each for each in BOARDS},
    ("", "openings"): "rough opening",
    ("", "panels"): "access panel, clear",
    ("", "equipment"): "outside",
    ("drywall", "openings"): "cut-out",
    ("drywall", "panels"): "cut-out for the frame of a panel, clear",
}
"""What the size of a thing is, by trade and layer."""
LAYER = {
    "U": "build-outs", "Z": "finishes", "N": "openings", "E": "equipment", "A": "panels", "B": "boxes", "K": "cables",
    "R": "raceways", "G": "openings",
}  # fmt: skip


def left_out(scene: Scene, view: View) -> tuple[str, ...]:
    """What is not drawn and belongs to the trade's own work, together by what it lacks."""
    mine = {each.partition(":")[0] for each in view.own}
    lacks: dict[str, list[str]] = {}
    for each in scene.unplaced:
        if LAYER.get(each.tag[:1], "") in mine or each.tag == scene.wall:
            lacks.setdefault(each.why, []).append(f"{each.tag} {each.label}")
    return tuple(f"{why[:1].upper()}{why[1:]}: {'; '.join(things)}." for why, things in lacks.items())


# --- the stops of the chains ---


def stops(scene: Scene, view: View, wanted: Callable[[Shape], bool], axis: int) -> Iterator[tuple[int, str, str]]:
    """Centers of boxes and edges of blocks along an axis (0 from the left, 1 from the floor), of the trade's own."""
    for shape in scene.shapes:
        if not shape.tag or not wanted(shape) or weight(view, shape) != "own":
            continue
        for at in _edges(shape, axis):
            yield at, show_length(Length(at), scene.metric), shape.tag


def _edges(shape: Shape, axis: int) -> Sequence[int]:
    if isinstance(shape, Spot):
        return (shape.centre[axis],)
    return (shape.extent[axis], shape.extent[axis + 2]) if isinstance(shape, Block) else ()
