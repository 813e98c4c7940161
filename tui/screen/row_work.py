"""What is done to the row under the cursor, whatever the view: add beside it, edit it, remove it, see its history."""

from __future__ import annotations

from store.records.base import Record
from tui.screen.desk import WorkDesk
from tui.view.view import View


def add(desk: WorkDesk, view: View, key: str | None) -> None:
    """Add a record; where a view has several kinds, ask which."""
    kinds = view.kinds

    def fill_in(cls: type[Record]) -> None:
        desk.fill_in(cls, view.start_values(desk.state, key, cls))

    if not kinds:
        desk.say("Built automatically. Nothing to add here.", bad=True)
    elif len(kinds) == 1:
        fill_in(kinds[0])
    else:
        choices = [(str(number), f"{cls.one}: {cls.about}") for number, cls in enumerate(kinds)]
        desk.pick("Add what?", choices, lambda which: fill_in(kinds[int(which)]))


def edit(desk: WorkDesk, view: View, key: str | None) -> None:
    """Edit the record of the row."""
    if (record := _record(desk, view, key)) is not None:
        desk.edit(record)


def remove(desk: WorkDesk, view: View, key: str | None) -> None:
    """Remove the record of the row."""
    if (record := _record(desk, view, key)) is not None:
        desk.remove(record)


def history(desk: WorkDesk, view: View, key: str | None) -> None:
    """What happened to the record of the row."""
    if key is not None:
        desk.show_history(key)


def _record(desk: WorkDesk, view: View, key: str | None) -> Record | None:
    record = view.record(desk.state, key) if key else None
    if record is None:
        words = "Built automatically. Edit the record it comes from." if key else "Nothing here yet. a = add"
        desk.say(words, bad=True)
    return record


WORK = {"add": add, "edit": edit, "remove": remove, "history": history}
"""By the word that a key is bound to."""
