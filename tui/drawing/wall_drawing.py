"""The wall drawing: a scale elevation that is looked at, moved about in and chosen from, by keyboard and by mouse."""

from __future__ import annotations

from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.strip import Strip

from store.measure.length import Length, show_length
from store.rules.drawing.elevation import LAYERS, Layer, Run, Scene
from tui.drawing.canvas import GLYPHS, cells_of, shorten
from tui.drawing.frame import Frame
from tui.drawing.plain import table
from tui.drawing.wall_picture import SELECTED, Picture, about, draw, nearest
from tui.shared.signs import Signs, written
from tui.shared.text import one_line
from tui.widgets.ground import Grounded

PLAIN_DRAWING = table(GLYPHS)
ZOOM_STEP = 1.25
MOST_ZOOM = 16.0
"""Magnification at which a column is still more than a saw cut on the widest wall."""
PAN_PARTS = 8
"""A pan moves by this part of what is seen."""


class WallDrawing(Grounded, can_focus=True):
    """Draws the scene it is shown and says what is chosen; knows neither view nor store."""

    DEFAULT_CSS = """
    WallDrawing {
        width: 1fr;
        height: 1fr;
        min-height: 4;
        background: $surface;
        color: $foreground;
    }
    WallDrawing > .wall-drawing--wall { color: $foreground; }
    WallDrawing > .wall-drawing--studs { color: $muted; }
    WallDrawing > .wall-drawing--build-outs { color: $foreground; }
    WallDrawing > .wall-drawing--finishes { color: $muted; }
    WallDrawing > .wall-drawing--obstacles { color: $foreground; }
    WallDrawing > .wall-drawing--openings { color: $foreground; }
    WallDrawing > .wall-drawing--equipment { color: $muted; }
    WallDrawing > .wall-drawing--panels { color: $foreground; }
    WallDrawing > .wall-drawing--raceways { color: $muted; }
    WallDrawing > .wall-drawing--cables { color: $wire; }
    WallDrawing > .wall-drawing--boxes { color: $foreground; text-style: bold; }
    WallDrawing > .wall-drawing--photos { color: $foreground; }
    WallDrawing > .wall-drawing--label { color: $foreground; }
    WallDrawing > .wall-drawing--kin { color: $kin; text-style: bold; }
    WallDrawing > .wall-drawing--kin-label { color: $kin; text-style: bold underline; }
    WallDrawing > .wall-drawing--selected { color: $focus-line; text-style: bold; }
    WallDrawing > .wall-drawing--selected-label { background: $focus; color: $on-focus; text-style: $row-style; }
    WallDrawing > .wall-drawing--status { background: $panel; color: $muted; }
    WallDrawing:focus > .wall-drawing--status { background: $focus; color: $on-focus; text-style: $row-style; }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        f"wall-drawing--{name}"
        for name in ("wall", "label", "kin", "kin-label", "selected", "selected-label", "status", *LAYERS)
    }
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("plus", "zoom(1)", "zoom in", key_display="+", id="drawing.zoom-in", tooltip="Nearer"),
        Binding("minus", "zoom(-1)", "zoom out", key_display="-", id="drawing.zoom-out", tooltip="Farther"),
        Binding("0", "fit", "whole wall", id="drawing.fit", tooltip="Show the whole wall"),
        Binding("enter", "open", "open", id="drawing.open", tooltip="Open the record of the selected thing"),
        *(
            Binding(key, f"go({way})", f"select {key}", show=False, id=f"drawing.{key}", tooltip=f"Nearest thing {key}")
            for key, way in (("left", "-1, 0"), ("right", "1, 0"), ("up", "0, 1"), ("down", "0, -1"))
        ),
        *(
            Binding(f"shift+{key}", f"pan({way})", f"pan {key}", show=False, id=f"drawing.pan-{key}", tooltip="Move")
            for key, way in (("left", "-1, 0"), ("right", "1, 0"), ("up", "0, 1"), ("down", "0, -1"))
        ),
    ]

    class About(Message):
        """Something was done with a thing on the drawing."""

        def __init__(self, drawing: WallDrawing, tag: str) -> None:
            super().__init__()
            self.drawing = drawing
            self.tag = tag

        @property
        def control(self) -> WallDrawing:
            """The drawing it came from."""
            return self.drawing

    class Chosen(About):
        """A thing was selected on the drawing."""

    class Opened(About):
        """The record of a thing was asked for."""

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002 - Textual's name
        super().__init__(id=id, classes=classes)
        self.scene: Scene | None = None
        self.selected = ""
        self.kin: frozenset[str] = frozenset()
        self.hidden: frozenset[Layer] = frozenset()
        self.zoom = 1.0
        self._looks_at: tuple[int, int] | None = None
        """The place in the middle of the widget; None for the middle of the wall."""
        self._extent = (0, 0, 0, 0)
        """Of the scene."""
        self._drawn: tuple[object, Picture] | None = None

    def show(self, scene: Scene, selected: str = "", kin: frozenset[str] = frozenset()) -> None:
        """Draw a scene, with what is selected and what belongs to it. Zoom and place stay while the wall does."""
        if self.scene is None or (scene.wall, scene.view) != (self.scene.wall, self.scene.view):
            self.zoom, self._looks_at = 1.0, None
        elif scene == self.scene:
            # Most changes of a job move nothing on the wall: what is drawn already serves.
            if (selected, kin) == (self.selected, self.kin):
                return
            scene = self.scene
        if scene is not self.scene:
            self._extent = scene.extent
        self.scene, self.kin = scene, kin
        self._select(selected)

    def _select(self, tag: str) -> None:
        self.selected = tag
        shape = self.scene.get(tag) if self.scene else None
        if shape is not None and self.zoom > 1:
            frame = self._frame()
            column, row = frame.column(shape.centre[0]), frame.row(shape.centre[1])
            if not (0 <= column < frame.columns and 0 <= row < frame.rows):
                self._looks_at = shape.centre
        self.refresh()

    @property
    def in_sight(self) -> str:
        """The tag that is lit up as selected; empty when nothing that is drawn is, or its layer is hidden."""
        shape = self.scene.get(self.selected) if self.scene is not None else None
        return self.selected if shape is not None and shape.layer not in self.hidden else ""

    # --- drawing ---

    def _frame(self) -> Frame:
        return Frame.fit(self._extent, self.size.width, self.size.height - 1, self.zoom, self._looks_at)

    def picture(self) -> Picture | None:
        """What is drawn now; drawn once for the same scene, size, zoom, place and selection. None without a scene."""
        if self.scene is None:
            return None
        key = (self.size, self.zoom, self._looks_at, id(self.scene), self.selected, self.kin, self.hidden)
        if self._drawn is None or self._drawn[0] != key:
            self._drawn = key, draw(self.scene, self._frame(), self.selected, self.kin, frozenset(self.hidden))
        return self._drawn[1]

    def render_line(self, y: int) -> Strip:
        """One line of the widget: of the drawing, or, the last one, the line that tells of it."""
        width, picture = self.size.width, self.picture()
        if y == self.size.height - 1:
            return Strip([Segment(self._status(width), self._style("status"))], width)
        if picture is None or y >= picture.grid.rows:
            return Strip.blank(width, self.ground)
        pieces = picture.grid.runs(y)
        if Signs.plain:
            pieces = ((text.translate(PLAIN_DRAWING), name) for text, name in pieces)
        return Strip([Segment(text, self._style(name) if name else self.ground) for text, name in pieces], width)

    def _style(self, name: str) -> Style:
        return self.get_component_rich_style(f"wall-drawing--{name}")

    def _status(self, width: int) -> str:
        """What is selected, and how it is looked at: exactly as wide as the widget."""
        if self.scene is None:
            return " " * width
        scale = show_length(Length(self._frame().column_nm), self.scene.metric)
        right = f" 1 column {scale}" + (f", ×{self.zoom:.3g}" if self.zoom != 1 else "")
        if self.hidden:
            right += " · hidden: " + ", ".join(each for each in LAYERS if each in self.hidden)
        right = shorten(right, max(width // 2, 1))
        shown = self.selected if self.scene.get(self.selected) is None else self.in_sight
        left = one_line(about(self.scene, shown))
        room = max(width - len(cells_of(right)), 0)
        left = shorten(f"{SELECTED}{left}" if left else self._summary(), room)
        cells = cells_of(left)
        return written("".join(cells) + " " * (room - len(cells)) + "".join(cells_of(right)))

    def _summary(self) -> str:
        assert self.scene is not None
        left_out = len(self.scene.unplaced)
        tail = f" · {left_out} not placed yet (N = list)" if left_out else ""
        remarks = " · ".join(("", *self.scene.remarks))
        return f"{self.scene.wall} {self.scene.name}{tail}{remarks}"

    # --- moving about ---

    def action_zoom(self, steps: int) -> None:
        """Nearer or farther, about what is selected or else the middle."""
        if self.scene is None:
            return
        shape = self.scene.get(self.selected)
        self.zoom = min(max(self.zoom * ZOOM_STEP**steps, 1.0), MOST_ZOOM)
        if self.zoom < ZOOM_STEP / 1.01:
            self.zoom, self._looks_at = 1.0, None
        elif self._looks_at is None and shape is not None:
            self._looks_at = shape.centre
        self.refresh()

    def look_near(self, tag: str, zoom: float) -> None:
        """Look at a thing from near; at the whole wall where it runs along it, or is not drawn."""
        shape = self.scene.get(tag) if self.scene else None
        self.zoom, self._looks_at = 1.0, None
        if shape is not None and self.scene is not None and not isinstance(shape, Run):
            self.zoom = zoom
            frame, (left, bottom, right, top) = self._frame(), self.scene.extent
            half = frame.column_nm * (frame.columns - 1) // 2, frame.column_nm * (frame.rows - 1)
            # No farther to the side than the wall goes: what lies beyond it is empty.
            x, y = shape.centre
            self._looks_at = _within(x, left, right, half[0]), _within(y, bottom, top, half[1])
        self.refresh()

    def action_fit(self) -> None:
        """The whole wall."""
        self.zoom, self._looks_at = 1.0, None
        self.refresh()

    def action_pan(self, right: int, up: int) -> None:
        """Look at what is farther over, as far as there is something."""
        if self.scene is None:
            return
        frame = self._frame()
        x, y = frame.world(frame.columns // 2, frame.rows // 2)
        left, bottom, rightmost, top = self._extent
        step = max(frame.columns // PAN_PARTS, 1) * frame.column_nm
        x = min(max(x + right * step, left), rightmost)
        self._looks_at = x, min(max(y + up * step, bottom), top)
        self.refresh()

    def action_layer(self, name: Layer) -> None:
        """Show or hide a layer."""
        self.hidden ^= {name}
        self.refresh()

    # --- choosing ---

    def action_go(self, right: int, up: int) -> None:
        """Select the nearest thing in a direction; where there is none and the wall is magnified, move over."""
        picture = self.picture()
        if picture is None:
            return
        frame = picture.frame
        start = frame.world(frame.columns // 2, frame.rows // 2)
        if tag := nearest(picture.shapes, self.selected, right, up, start):
            self._choose(tag)
        elif self.zoom > 1:
            self.action_pan(right, up)

    def action_open(self) -> None:
        """Ask for the record of what is selected."""
        if self.in_sight:
            self.post_message(self.Opened(self, self.in_sight))

    def _choose(self, tag: str) -> None:
        if tag != self.selected:
            self.kin = frozenset()
        self._select(tag)
        self.post_message(self.Chosen(self, tag))

    def on_click(self, event: events.Click) -> None:
        """A click selects what is under it, the smallest thing first; a second one opens it."""
        at, picture = event.get_content_offset(self), self.picture()
        if at is not None and at.y == self.size.height - 1 and self.scene is not None and self.scene.unplaced:
            self.app.simulate_key("N")
            return
        if at is None or picture is None or at.y >= picture.grid.rows:
            return
        tag = picture.at(at.x, at.y)
        if event.chain == 2 and self.selected:
            self.action_open()  # its label may be elsewhere since the first click
        elif tag:
            self._choose(tag)

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """The wheel forward: nearer."""
        event.stop()
        self.action_zoom(1)

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """The wheel back: farther."""
        event.stop()
        self.action_zoom(-1)


def _within(middle: int, low: int, high: int, half: int) -> int:
    """The middle of what is looked at, so that it stays between two ends where there is room."""
    return (low + high) // 2 if high - low <= 2 * half else min(max(middle, low + half), high - half)
