"""One verb has one key: in every list, at every foot, on the drawing, in the walk, in windows; asked of the tables."""

from __future__ import annotations

from collections.abc import Iterator

from textual.binding import Binding

from templates.sheets.catalogue import SHEETS
from tui.acts.photos.photo_sorting import PhotoSorting
from tui.acts.photos.photo_window import PhotoWindow
from tui.acts.walk_screen import KEYS as WALK_KEYS
from tui.acts.walk_screen import Walk
from tui.drawing.legend import Legend
from tui.drawing.moving_drawing import MovingDrawing
from tui.forms.record_form import RecordForm
from tui.screen.keys import COMMON_KEYS, JOB_KEYS, MOVING_KEYS, WALL_KEYS
from tui.screen.start_page import StartScreen
from tui.view.verbs import BY_LABEL, VERBS
from tui.views.index import Views
from tui.widgets.dialogs import AskText, Confirm, LongNote, Pick, ReadPage

WINDOWS = (
    Walk, PhotoSorting, PhotoWindow, Legend, MovingDrawing, RecordForm, StartScreen, AskText, Confirm, LongNote, Pick,
    ReadPage,
)  # fmt: skip
WHILE_TYPING = ("ctrl+s", "f2", "f3")


def bound(cls: type) -> Iterator[tuple[str, str]]:
    """Every key of a window, with what its binding says."""
    for each in getattr(cls, "BINDINGS"):  # noqa: B009
        assert isinstance(each, Binding)
        yield from ((key, each.description) for key in each.key.split(","))


def everywhere() -> Iterator[tuple[str, str, str]]:
    """Where, key and label of all that is offered."""
    for view in Views():
        yield from ((view.title, each.key, each.label) for each in view.keys)
    for name, table in (("list", COMMON_KEYS), ("drawing", WALL_KEYS), ("walk", WALK_KEYS)):
        yield from ((name, key, label) for key, label in table)


def test_the_keys_of_two_verbs_and_their_labels_never_meet() -> None:
    keys = [key for verb in VERBS for key in verb.keys.split(",")]
    labels = [label for verb in VERBS for label in verb.labels]
    assert len(keys) == len(set(keys))
    assert len(labels) == len(set(labels))


def test_in_every_table_a_verb_has_its_key_and_the_key_its_verb() -> None:
    of_key = {key: verb for verb in VERBS for key in verb.keys.split(",")}
    offered = list(everywhere())
    assert len(offered) > 60
    wrong = [
        (where, key, label)
        for where, key, label in offered
        if (label in BY_LABEL and key not in BY_LABEL[label].keys.split(","))
        or (key in of_key and label not in of_key[key].labels)
    ]
    assert wrong == []


def test_the_verbs_of_the_job_are_bound_as_the_table_says() -> None:
    there = {key for each in JOB_KEYS if isinstance(each, Binding) for key in each.key.split(",")}
    asked = (
        "Add", "Edit", "Delete", "Undo", "Redo", "Filter", "Next filter", "Find", "Photo", "Access", "Replace",
        "History", "To the record", "Gate", "Drawing", "Print", "Fix", "Walk", "Help", "Back", "Quit",
    )  # fmt: skip
    assert not [label for label in asked if not set(BY_LABEL[label].keys.split(",")) <= there]


def test_in_a_window_no_key_of_a_verb_does_something_else() -> None:
    """Letters that are no verb are free there; `q` leaves the program and nothing else, Esc is in all of them."""
    of_key = {key: verb for verb in VERBS for key in verb.keys.split(",")}
    answers = {(Confirm, "n"), (Confirm, "y")}  # no and yes
    wrong = []
    for cls in WINDOWS:
        pairs = dict(bound(cls))
        assert "escape" in pairs, cls
        assert pairs.get("q") in (None, "Quit"), cls
        for key, says in pairs.items():
            if key in ("escape", "enter", "q") or (cls, key) in answers or key not in of_key:
                continue
            if not any(says.startswith((label, of_key[key].says)) for label in of_key[key].labels):
                wrong.append((cls.__name__, key, says))
    assert wrong == []


def test_the_sheets_of_the_lists_are_there() -> None:
    named = {name for view in Views() for name in view.sheets}
    assert len(named) > 10
    assert named <= set(SHEETS)


def test_while_moving_only_keys_without_another_verb_are_taken() -> None:
    verbs = {key for verb in VERBS for key in verb.keys.split(",")}
    own = {key for key, _ in MOVING_KEYS} - {"enter", "escape", "question_mark"}
    assert not own & verbs
