"""The keys of the screen of a job, in one place."""

from __future__ import annotations

from textual.binding import Binding, BindingType

from tui.views.index import SECTIONS

COMMON_KEYS = (
    ("question_mark", "Help"), ("a", "Add"), ("e", "Edit"), ("d", "Delete"), ("u", "Undo"), ("slash", "Filter"),
    ("g", "Gate"), ("W", "Walk"), ("f", "Next filter"), ("w", "Drawing"), ("ctrl+f", "Find"), ("F", "Fix"),
    ("A", "Several"), ("s", "Sort"), ("h", "History"), ("P", "Print"), ("I", "Import"), ("b", "Job settings"),
    ("T", "Colors"), ("q", "Quit"),
)  # fmt: skip

WALL_KEYS = (
    ("w", "Back to the list"), ("m", "Move"), ("e", "Edit"), ("d", "Remove"), ("v", "Other view"), ("enter", "Page"),
    ("p", "Picture"),
    ("plus", "Nearer"), ("minus", "Farther"), ("0", "Whole wall"), ("S", "Studs"), ("K", "Cables"),
)  # fmt: skip

JOB_KEYS: list[BindingType] = [
    Binding("a", "row('add')", "Add"),
    Binding("A", "work('many')", "Add several at once"),
    Binding("e", "row('edit')", "Edit"),
    Binding("d,delete", "row('remove')", "Delete"),
    Binding("u,ctrl+z", "work('undo')", "Undo"),
    Binding("r,ctrl+y", "work('redo')", "Redo"),
    Binding("slash", "filter", "Filter"),
    Binding("ctrl+f", "work('find')", "Find anything"),
    Binding("P", "work('print')", "Print a sheet"),
    Binding("I", "work('import')", "Import a csv file"),
    Binding("f", "subset", "Next filter"),
    Binding("s", "sort", "Sort"),
    Binding("S", "sort(True)", "Sort the other way"),
    Binding("F", "work('fix')", "Fix a problem"),
    Binding("h", "row('history')", "History"),
    Binding("g", "work('gate')", "Gate"),
    Binding("b", "work('job')", "Job settings"),
    Binding("T", "work('theme')", "Colors: dark, light, high contrast"),
    Binding("w", "wall", "Wall drawing"),
    Binding("W", "work('walk')", "Walk through the rough-in items"),
    Binding("question_mark,f1", "help", "Help"),
    Binding("q", "app.quit", "Quit"),
    Binding("escape", "back", "Back; clear filter"),
    *(Binding(str(at), f"section({at - 1})", f"Section {name}") for at, (name, _) in enumerate(SECTIONS, 1)),
    Binding("right_square_bracket,ctrl+right", "step(1)", "Next view of the section"),
    Binding("left_square_bracket,ctrl+left", "step(-1)", "Previous view of the section"),
]
