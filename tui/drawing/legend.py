"""What the signs of the drawing mean, layer by layer; each layer is shown or hidden here."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from store.rules.drawing.elevation import LAYERS, Layer
from tui.drawing.cut_marks import DOT, RING
from tui.drawing.plain import BOXES
from tui.drawing.wall_picture import KIN, NEW_SIGNS, OLD_SIGNS, SELECTED
from tui.shared.signs import Signs
from tui.shared.text import content
from tui.widgets.choices import Choices
from tui.widgets.dialogs import DIALOG_CSS
from tui.widgets.hints import HintLine
from tui.widgets.window import Window

if TYPE_CHECKING:
    from tui.drawing.wall_drawing import WallDrawing

LOOKS: dict[Layer, str] = {
    "finishes": "· filled with dots: stone, tile, glass",
    "studs": "╎ a stud; two lines from near",
    "build-outs": "┌─┐ chimney breast, soffit, cabinets",
    "obstacles": "╱ vent, window, switch, trim; ┌─┐ furniture",
    "openings": "┌─┐ with its name on the upper edge",
    "equipment": "╭─╮ round corners",
    "panels": "┌┄┐ dashed: an access panel",
    "raceways": f"⠒ ⠒ dots with gaps; {RING} through a cut",
    "cables": f"⠒⠒⠒ dots; {DOT} through a cut",
    "boxes": "",
    "photos": "",
}
HEAD = f"{SELECTED} selected   {KIN} belongs to it   solid = to be set, hollow = existing"


def signs_of(layer: Layer) -> str:
    """How the things of a layer are drawn."""
    if layer == "photos":
        return f"{_box(NEW_SIGNS['photo'])} a photo of the place"
    if layer == "boxes":
        kinds = [kind for kind in NEW_SIGNS if kind != "photo"]
        return "  ".join(f"{_box(NEW_SIGNS[kind])} {_box(OLD_SIGNS[kind])} {kind}" for kind in kinds)
    return LOOKS[layer]


def _box(sign: str) -> str:
    return BOXES[sign] if Signs.plain else sign


class Legend(Window[None]):
    """Every layer with its signs; Enter or a click shows or hides it."""

    CSS = DIALOG_CSS.replace("$self", "Legend")
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,L", "leave", "Back")]

    def __init__(self, drawing: WallDrawing) -> None:
        super().__init__()
        self._drawing = drawing

    def compose(self) -> ComposeResult:
        """What the signs are, and the layers."""
        with Vertical(classes="dialog"):
            yield Static(content("Legend and layers"), classes="question")
            yield Static(content(HEAD), classes="about")
            yield Choices(markup=False)
            yield HintLine([("enter", "show or hide"), ("up", "up"), ("down", "down"), ("escape", "back")])

    def on_mount(self) -> None:
        """The layers, the first one ready."""
        self._fill(0)
        for options in self.query(Choices):
            options.focus()

    def _fill(self, at: int) -> None:
        for options in self.query(Choices):
            options.clear_options()
            options.add_options([Option(content(self._line(each))) for each in LAYERS])
            options.highlighted = at

    def _line(self, layer: Layer) -> str:
        mark = "hidden" if layer in self._drawing.hidden else "shown "
        return f"{mark}  {layer:10}  {signs_of(layer)}"

    @on(OptionList.OptionSelected)
    def turn(self, event: OptionList.OptionSelected) -> None:
        """Show or hide a layer."""
        self._drawing.action_layer(LAYERS[event.option_index])
        self._fill(event.option_index)

    def action_leave(self) -> None:
        """Back to the drawing."""
        self.dismiss(None)
