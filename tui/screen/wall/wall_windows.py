"""The windows of the drawing: its keys, what is not placed yet, and the place of a thing as it is typed."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import cast

from msgspec.structs import replace
from textual.binding import Binding

from store.measure.errors import BadValue
from store.measure.length import Length, parse_length, typed_length
from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.rules.drawing.elevation import Scene
from store.rules.drawing.moving import M, Movable
from tui.drawing.moving_drawing import MovingDrawing
from tui.drawing.wall_drawing import WallDrawing
from tui.screen.desk import WorkDesk
from tui.screen.keys import MOVING_KEYS, WALL_KEYS, key_name
from tui.view.desk import Desk

ABOUT = (
    "The wall to scale, as you see it from the room. Arrows go from thing to thing; what belongs to the one that is "
    "lit up has a +. Every key below acts on that thing, as it does in its list. Enter = its page."
)
MOVING = (
    "You are moving a thing: arrows go by 1/2 inch (10 mm), with Shift by 1/16 (1 mm); a click puts it there. The line "
    "below shows what the move solves and what problems are new. Nothing is saved before Enter."
)
ARROWS = ("left", "right", "up", "down")
MORE = (
    ("arrows", "to the next thing that way; while moving, by a step"),
    ("Shift+arrows", "look further over; while moving, by a fine step"),
    ("wheel", "zoom in and out"),
    ("click", "select; again = its page"),
)


def help_text(moving: bool) -> str:
    """What the drawing is for, and its keys as they are now."""
    told = {} if moving else {each.key.partition(",")[0]: each.tooltip for each in _bindings() if each.tooltip}
    keys = [each for each in MOVING_KEYS if each[0] not in ARROWS] if moving else WALL_KEYS
    lines = [f"  {key_name(key):12} {told.get(key) or label}" for key, label in keys]
    return "\n".join([MOVING if moving else ABOUT, "", *lines, *(f"  {key:12} {does}" for key, does in MORE)])


def _bindings() -> list[Binding]:
    return [each for cls in (MovingDrawing, WallDrawing) for each in cls.BINDINGS if isinstance(each, Binding)]


def show_unplaced(desk: WorkDesk, scene: Scene | None) -> None:
    """List what is not drawn, and why; what is chosen is opened at its place."""
    left = scene.unplaced if scene is not None else ()
    if not left:
        desk.say("Everything on this wall is placed")
        return
    choices = [(str(at), f"{each.tag}  {each.label}: {each.why}") for at, each in enumerate(left)]

    def enter(at: str) -> None:
        record = desk.state.job.get(left[int(at)].tag)
        if record is not None:
            fields = ("opening", "first_stud", "start", "x")
            desk.edit(record, next((name for name in fields if hasattr(record, name)), ""))

    desk.pick(f"Not placed yet ({len(left)})", choices, enter)


def ask_place(desk: Desk, thing: Movable, then: Callable[[Movable], object]) -> None:
    """Ask where a thing goes; `then` gets the thing at that place."""
    metric = desk.state.job.settings.metric

    def typed(text: str) -> None:
        try:
            new = placed(thing, text, metric)
        except BadValue as error:
            ask(text, f"{error}\n")
            return
        then(new)

    def ask(start: str, wrong: str = "") -> None:
        if isinstance(thing, ShelfBoard):
            about = f"{wrong}Inside {thing.opening}, from its left side or its bottom."
            what = "left face" if thing.what == "divider" else "top"
            desk.ask(f"Place of {thing.tag}: its {what}", typed, start=start, about=about)
            return
        point = "center" if isinstance(thing, Equipment) or thing.kind == "box" else "lower left corner"
        about = f"{wrong}Of its {point}: from the left end of the wall, then off the finished floor; - = as it is."
        desk.ask(f"Place of {thing.tag}: from left; off the floor", typed, start=start, about=about)

    if isinstance(thing, ShelfBoard):
        place = thing.along if thing.what == "divider" else thing.up
        ask(typed_length(cast("Length", place), metric))
    else:
        x, y = cast("Length", thing.x), cast("Length", thing.y)
        ask(f"{typed_length(x, metric)}; {typed_length(y, metric)}")


def placed(thing: M, text: str, metric: bool) -> M:
    """A thing at a typed place: two lengths with `;` or `,` between; one that is blank or `-` stays as it is. Raises
    BadValue where they are no lengths."""
    if isinstance(thing, ShelfBoard):
        at = parse_length(text, metric)
        return replace(thing, along=at) if thing.what == "divider" else replace(thing, up=at)
    parts = re.split(r"\s*;\s*" if ";" in text else r"\s*,\s+|\s*,\s*(?=\d+\s*['\"f])", text.strip())
    if len(parts) > 2:
        raise BadValue("two lengths at most. Write them with ; between: from left; off the floor.")
    values = [None if part.strip() in ("", "-") else parse_length(part, metric) for part in parts]
    x, y = (*values, None)[:2]
    return replace(thing, x=thing.x if x is None else x, y=thing.y if y is None else y)
