"""The framing of a wall as shapes: every stick where it is, with a numbered note for what lies level in it."""

from __future__ import annotations

from collections.abc import Iterable
from math import sqrt

import msgspec

from store.measure.counts import plural
from store.measure.length import Length, show_length
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.build.framing import framed
from store.rules.drawing.shapes import Block, Scene
from store.trade.build.takeoff import Stick

LEVEL = ("header", "sill", "blocking", "fire block")
"""What gets a note; plates run the length of the wall, and uprights are on the chain of centers."""
LYING = (*LEVEL, "bottom plate", "top plate")
NOTE = "#"
"""Before the number of a note."""


def with_framing(job: Job, scene: Scene) -> Scene:
    """The scene with every stick of the wall in place of the bare studs; as it is where its framing is not known."""
    found = framed(job).get(scene.wall)
    if found is None:
        return scene
    others = [each for each in scene.shapes if each.layer != "studs"]
    return msgspec.structs.replace(scene, shapes=(*_blocks(job.of(Wall)[scene.wall], found.sticks, scene), *others))


def _blocks(wall: Wall, sticks: Iterable[Stick], scene: Scene) -> list[Block]:
    notes: dict[tuple[str, str, int], list[Stick]] = {}
    for stick in sticks:
        if stick.part in LEVEL:
            notes.setdefault((stick.part, stick.of, stick.y_nm), []).append(stick)
    tags: dict[int, tuple[str, str]] = {}
    for number, ((part, of, y), mine) in enumerate(sorted(notes.items(), key=lambda each: each[0]), 1):
        longest = max(mine, key=lambda each: each.length_nm)
        lengths = ", ".join(sorted({show_length(Length(each.length_nm), scene.metric) for each in mine}))
        pieces = f"{plural(len(mine), 'piece')}, " if len(mine) > 1 else ""
        said = f"{part}{f' for {of}' if of else ''}: {pieces}{lengths} long, {show_length(Length(y), scene.metric)} up"
        tags[id(longest)] = (f"{NOTE}{number}", said)
    return [_block(wall, stick, *tags.get(id(stick), ("", ""))) for stick in sticks]


def _block(wall: Wall, stick: Stick, tag: str, said: str) -> Block:
    thick = wall.stud_width.nm
    wide, high = (stick.length_nm, stick.face_nm or thick) if stick.part in LYING else (thick, stick.length_nm)
    kind = "stud" if stick.part in ("stud", "corner stud", "king stud", "trimmer", "cripple") else stick.part
    if stick.rise_nm:
        return _along_slope(stick, thick, tag, said)
    return Block(tag, "studs", kind, said or stick.part, stick.x_nm, stick.y_nm, wide, high)


def _along_slope(stick: Stick, thick: int, tag: str, said: str) -> Block:
    """A plate along a sloped ceiling, by its four corners."""
    across = round(sqrt(stick.length_nm**2 - stick.rise_nm**2))
    upright = round(thick * stick.length_nm / across)
    left, right, low, end = stick.x_nm, stick.x_nm + across, stick.y_nm, stick.y_nm + stick.rise_nm
    outline = ((left, low), (right, end), (right, end + upright), (left, low + upright))
    foot = min(low, end)
    high = abs(stick.rise_nm) + upright
    return Block(tag, "studs", stick.part, said or stick.part, left, foot, across, high, outline)
