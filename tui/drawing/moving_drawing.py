"""The wall drawing with a hand on it: a selected thing is moved by keys, and the drawing says so."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.message import Message

from store.rules.drawing.elevation import Layer
from store.rules.drawing.moving import Target
from tui.drawing.wall_drawing import WallDrawing


class MovingDrawing(WallDrawing):
    """While `moving`, arrows nudge what is selected instead of going to another thing."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("m", "begin", "Move", id="drawing.move", tooltip="Move the selected thing"),
        Binding("p", "picture", "Picture", id="drawing.picture", tooltip="Open the photo of the selected thing"),
        Binding("s", "snap('stud')", "To a stud", show=False, id="drawing.stud", tooltip="To the nearest stud"),
        Binding("n", "snap('neighbour')", "To a neighbor", show=False, id="drawing.neighbour", tooltip="Beside it"),
        Binding("c", "snap('centre')", "Center it", show=False, id="drawing.centre", tooltip="Center"),
        Binding("v", "turn", "Other view", id="drawing.turn", tooltip="From the front, from above, cut upright"),
        Binding("escape,w", "leave", "Back", show=False, id="drawing.leave", tooltip="Put it where it was"),
    ]

    class Asked(Message):
        """The person asks for something about what is selected: `begin`, `keep`, `leave`, `turn` or
        `picture`."""

        def __init__(self, what: str) -> None:
            super().__init__()
            self.what = what

    class Nudged(Message):
        """What is selected goes by a step."""

        def __init__(self, right: int, up: int, fine: bool) -> None:
            super().__init__()
            self.right, self.up, self.fine = right, up, fine

    class Snapped(Message):
        """What is selected goes to a stud, a neighbour or the centre."""

        def __init__(self, to: Target) -> None:
            super().__init__()
            self.to = to

    moving = False

    def action_begin(self) -> None:
        """Begin to move."""
        if self.selected and not self.moving:
            self.post_message(self.Asked("begin"))

    def action_picture(self) -> None:
        """Look at a photo of it."""
        if self.selected and not self.moving:
            self.post_message(self.Asked("picture"))

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
