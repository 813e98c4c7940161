"""The wall drawing with a hand on it: a selected thing is moved by keys, and the drawing says so."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message

from store.rules.drawing.elevation import Layer
from store.rules.drawing.moving import Target
from tui.drawing.wall_drawing import WallDrawing


class MovingDrawing(WallDrawing):
    """While `moving`, arrows nudge what is selected instead of going to another thing."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("m", "begin", "Move", id="drawing.move", tooltip="Move the selected thing"),
        Binding("equals_sign", "ask('type')", "Type its place", id="drawing.type", tooltip="Type the place of it"),
        Binding("s", "snap('stud')", "To a stud", show=False, id="drawing.stud", tooltip="To the nearest stud"),
        Binding("b", "snap('neighbour')", "Beside", show=False, id="drawing.neighbour", tooltip="Beside its neighbor"),
        Binding("v", "turn", "Other view", id="drawing.turn", tooltip="From the front, from above, cut upright"),
        Binding("L", "ask('legend')", "Legend", id="drawing.legend", tooltip="What the signs mean; show, hide layers"),
        Binding("N", "ask('unplaced')", "Not placed", id="drawing.unplaced", tooltip="What is not placed yet, and why"),
        Binding("question_mark,f1", "ask('help')", "Help", id="drawing.help", tooltip="The keys of the drawing"),
        Binding("escape", "leave", "Back", show=False, id="drawing.leave", tooltip="Put it where it was"),
        Binding("w", "leave", "Back to the list", show=False, id="drawing.list"),
    ]

    class Asked(Message):
        """The person asks for something: `begin`, `keep`, `leave`, `turn`, `type` a place, the `legend`, what is
        `unplaced`, or `help`; `nothing` where nothing is selected for it."""

        def __init__(self, what: str) -> None:
            super().__init__()
            self.what = what

    class Nudged(Message):
        """What is selected goes by a step."""

        def __init__(self, right: int, up: int, fine: bool) -> None:
            super().__init__()
            self.right, self.up, self.fine = right, up, fine

    class PutAt(Message):
        """What is selected goes where the person clicked."""

        def __init__(self, x_nm: int, y_nm: int) -> None:
            super().__init__()
            self.x_nm, self.y_nm = x_nm, y_nm

    class Snapped(Message):
        """What is selected goes to a stud, a neighbour or the centre."""

        def __init__(self, to: Target) -> None:
            super().__init__()
            self.to = to

    moving = False

    def action_begin(self) -> None:
        """Begin to move; while moving, to the middle of the wall."""
        if self.moving:
            self.action_snap("centre")
        else:
            self.post_message(self.Asked("begin" if self.in_sight else "nothing"))

    def action_ask(self, what: str) -> None:
        """Ask for a window; layers, and what is not placed, wait until a move is done."""
        if what == "type" and not self.in_sight:
            self.post_message(self.Asked("nothing"))
        elif what in ("help", "type") or not self.moving:
            self.post_message(self.Asked(what))

    def on_click(self, event: events.Click) -> None:
        """While moving, a click puts it there; Textual then does what a click does otherwise, unless it is told not
        to."""
        at, picture = event.get_content_offset(self), self.picture()
        if self.moving and at is not None and picture is not None and at.y < picture.grid.rows:
            event.prevent_default()
            self.post_message(self.PutAt(*picture.frame.world(at.x, at.y)))

    def action_turn(self) -> None:
        """Upright, or cut level."""
        if not self.moving:
            self.post_message(self.Asked("turn"))

    def action_go(self, right: int, up: int) -> None:
        """Nudge while moving."""
        if self.moving:
            self.post_message(self.Nudged(right, up, False))
        else:
            super().action_go(right, up)

    def action_pan(self, right: int, up: int) -> None:
        """Nudge finely while moving."""
        if self.moving:
            self.post_message(self.Nudged(right, up, True))
        else:
            super().action_pan(right, up)

    def action_layer(self, name: Layer) -> None:
        """Layers stay as they are while moving."""
        if not self.moving:
            super().action_layer(name)

    def action_snap(self, to: Target) -> None:
        """Snap to a stud, a neighbour or the centre while moving."""
        if self.moving:
            self.post_message(self.Snapped(to))

    def action_open(self) -> None:
        """Keep the new place while moving."""
        if self.moving:
            self.post_message(self.Asked("keep"))
        else:
            super().action_open()

    def action_leave(self) -> None:
        """Leave it where it was, or leave the drawing."""
        self.post_message(self.Asked("leave"))
