"""The keys of the screen of a job, in one place."""

from __future__ import annotations

from collections.abc import Sequence

from textual.binding import Binding, BindingType

from tui.screen.themes import NO_COLORS
from tui.view.verbs import keys_of
from tui.view.view import View
from tui.views.index import SECTIONS
from tui.widgets.lines import KEY_NAMES

COMMON_KEYS = (
    ("question_mark", "Help"), ("a", "Add"), ("e", "Edit"), ("d", "Delete"), ("u", "Undo"), ("w", "Drawing"),
    ("slash", "Filter"), ("g", "Gate"), ("W", "Walk"), ("f", "Next filter"), ("A", "Several"), ("ctrl+f", "Find"),
    ("t", "To the record"), ("i", "Access"), ("p", "Photo"), ("x", "Replace"), ("h", "History"), ("F", "Fix"),
    ("P", "Print"), ("s", "Sort"), ("D", "Drawing pane"), ("V", "Page pane"), ("I", "Import"), ("J", "Jobs"),
    ("b", "Job settings"), ("T", "Colors"), ("q", "Quit"), ("ctrl+p", "All commands"),
)  # fmt: skip
"""What the foot of every list offers after the list's own keys, what is used most first."""

WALL_KEYS = (
    ("w", "To the list"), ("question_mark", "Help"), ("m", "Move"), ("equals_sign", "Place"), ("enter", "Page"),
    ("e", "Edit"), ("L", "Legend"), ("N", "Not placed"), ("v", "Other view"), ("u", "Undo"), ("d", "Delete"),
    ("plus", "Nearer"), ("minus", "Farther"), ("0", "Whole wall"), ("t", "To the record"), ("i", "Access"),
    ("p", "Photo"), ("x", "Replace"), ("F", "Fix"), ("h", "History"), ("a", "Add"), ("ctrl+p", "All commands"),
)  # fmt: skip
"""The foot of the drawing."""

MOVING_KEYS = (
    ("enter", "Keep"), ("escape", "Cancel"), ("left", ""), ("right", ""), ("up", ""), ("down", "Step"),
    ("equals_sign", "Place"), ("s", "To a stud"), ("b", "Beside"), ("m", "Middle"), ("question_mark", "Help"),
)  # fmt: skip
"""The foot of the drawing while something is moved."""


def list_keys(view: View) -> list[tuple[str, str]]:
    """The foot of a list: its own keys first, then what works everywhere."""
    own = [(key.key, key.label) for key in view.keys]
    taken = {key for key, _ in own}
    rest = [each for each in COMMON_KEYS if each[0] not in taken]
    return [*own, *sorted(rest, key=lambda each: each[0] not in view.often)]


def _row(label: str, what: str) -> Binding:
    """Something that is done to what is selected, by the key of its verb."""
    return Binding(keys_of(label), f"row('{what}')", label)


def _work(label: str, what: str, says: str = "") -> Binding:
    """Something that is done on the desk, by the key of its verb."""
    return Binding(keys_of(label), f"work('{what}')", says or label)


JOB_KEYS: list[BindingType] = [
    _row("Add", "add"),
    _work("Add several at once", "many"),
    _row("Edit", "edit"),
    _row("Delete", "remove"),
    _work("Undo", "undo"),
    _work("Redo", "redo"),
    Binding(keys_of("Filter"), "filter", "Filter"),
    Binding(keys_of("Next filter"), "subset", "Next filter"),
    _work("Find", "find", "Find anything"),
    _row("To the record", "go"),
    _row("Access", "way"),
    _row("Photo", "photo"),
    _row("Replace", "replace"),
    _row("History", "history"),
    _work("Fix", "fix", "Fix a problem"),
    _work("Print", "print", "Print a sheet"),
    _work("Gate", "gate"),
    _work("Walk", "walk", "Walk through the rough-in items"),
    Binding(keys_of("Drawing"), "wall", "Wall drawing, and back"),
    Binding("D", "pane('drawing')", "Show or hide the drawing beside the list"),
    Binding("V", "pane('page')", "Show or hide the page beside the list"),
    Binding("s", "sort", "Sort"),
    Binding("S", "sort(True)", "Sort the other way"),
    Binding("I", "work('import')", "Import a csv file"),
    Binding("b", "work('job')", "Job settings"),
    Binding("T", "work('theme')", "Colors: dark, light, high contrast"),
    Binding("J", "work('jobs')", "Open another job, or a new one"),
    Binding("ctrl+p", "palette", "Every act by its name"),
    Binding(keys_of("Help"), "help", "Help"),
    Binding(keys_of("Quit"), "app.quit", "Quit"),
    Binding(keys_of("Back"), "back", "Back; clear filter"),
    *(Binding(str(at), f"section({at - 1})", f"Section {name}") for at, (name, _) in enumerate(SECTIONS, 1)),
    Binding("right_square_bracket,ctrl+right", "step(1)", "Next view of the section"),
    Binding("left_square_bracket,ctrl+left", "step(-1)", "Previous view of the section"),
]


def key_name(keys: str) -> str:
    """What is printed on the first of some keys, by the names that Textual knows."""
    name = keys.partition(",")[0]
    return KEY_NAMES.get(name) or (f"Ctrl+{name[-1].upper()}" if name.startswith("ctrl+") else name)


def with_signs(keys: Sequence[tuple[str, str]], theme: str) -> list[tuple[str, str]]:
    """Keys as they are; in the theme without colors as in dialogs, `c = sign off`, so that key and verb stand apart."""
    if theme != NO_COLORS:
        return list(keys)
    return [(key, f"= {label[:1].lower()}{label[1:]}" if label else "") for key, label in keys]
