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


def photo(desk: WorkDesk, view: View, key: str | None) -> None:
    """A photo of what the row is about."""
    from tui.acts.photos.pictures import show_photos  # brings the pictures

    if tag := _subject(desk, view, key):
        show_photos(desk, tag)


def way(desk: WorkDesk, view: View, key: str | None) -> None:
    """How to get at what the row is about."""
    from tui.acts.reaching import show_way  # brings the means of access

    if tag := _subject(desk, view, key):
        show_way(desk, tag)


def replace(desk: WorkDesk, view: View, key: str | None) -> None:
    """Put a new thing for what the row is about."""
    from tui.acts.replacing import change  # brings what follows from it

    if tag := _subject(desk, view, key):
        change(desk, tag)


def go(desk: WorkDesk, view: View, key: str | None) -> None:
    """To the record that the row is about, in its own list."""
    if tag := _subject(desk, view, key):
        desk.go_to(tag)


def _subject(desk: WorkDesk, view: View, key: str | None) -> str:
    """The tag of the record that a row is about; where it is about none, that is said."""
    tag = view.subject(desk.state, key) if key else ""
    if tag and desk.state.job.get(tag) is not None:
        return tag
    desk.say("This line is about no one record" if key else "Nothing here yet", bad=True)
    return ""


def _record(desk: WorkDesk, view: View, key: str | None) -> Record | None:
    record = view.record(desk.state, key) if key else None
    if record is None:
        words = "Built automatically. Edit the record it comes from." if key else "Nothing here yet. a = add"
        desk.say(words, bad=True)
    return record


WORK = {
    "add": add,
    "edit": edit,
    "remove": remove,
    "history": history,
    "photo": photo,
    "way": way,
    "replace": replace,
    "go": go,
}
"""By the word that a key is bound to."""
