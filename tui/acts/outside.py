"""What was changed outside of the program, on the screen: put back, or taken over field by field, with who and why."""

from __future__ import annotations

from collections.abc import Callable

from store.book.book import Book
from store.book.outside.confirming import confirm
from store.book.putback import put_back
from store.book.taken import GATE_KINDS
from store.measure.errors import StudbookError
from store.records.base import from_doc
from store.records.field import fields_of
from store.records.whole import KINDS, Outside
from store.rules.gate.gate import outside_line
from tui.view.desk import Desk


def settle_outside(desk: Desk, book: Book) -> None:
    """Go through what was changed outside: all of it put back, or one after the other."""
    edits = [each for each in book.job.outside if each.kind in KINDS]
    choices = [("all", "restore all of it from the history")]
    choices += [(str(number), outside_line(each)) for number, each in enumerate(edits)]

    def picked(which: str) -> None:
        if which != "all":
            _settle(desk, book, edits[int(which)])
            return
        _done(desk, lambda: put_back(book), "Restored from the history.")

    desk.pick("Changed outside of the program", choices, picked)


def _settle(desk: Desk, book: Book, edit: Outside) -> None:
    choices = [("back", "restore it from the history")]
    if edit.kind not in GATE_KINDS:
        for field in edit.fields or ("",):
            choices.append((f"take {field}", f"keep {change_of(book, edit, field)}"))

    def picked(which: str) -> None:
        if which == "back":
            _done(desk, lambda: book.mend(edit), f"{edit.tag} matches the history.")
            return
        field = which.removeprefix("take ").strip()
        what = f"{edit.tag} {title_of(book, edit, field)}".rstrip()

        def by(name: str) -> None:
            def why(reason: str) -> None:
                fields = [field] if field else []
                _done(desk, lambda: confirm(book, edit, fields, name, reason), f"{what} is kept.")

            desk.ask(f"Why was {what} changed?", why)

        desk.ask(f"Who changed {what}?", by)

    desk.pick(outside_line(edit), choices, picked)


def title_of(book: Book, edit: Outside, field: str) -> str:
    """The name of a field as its form has it."""
    one = next((each for each in fields_of(KINDS[edit.kind]) if each.key == field), None)
    return field if one is None else one.title(book.job.manner)


def change_of(book: Book, edit: Outside, field: str) -> str:
    """`“in the wall”: was yes, is no`."""
    if not field:
        return f"that it was {edit.done}"
    said, now = book.told(edit.kind, edit.tag), book.job.tables.get(edit.kind, {}).get(edit.tag)
    cls, manner = KINDS[edit.kind], book.job.manner
    then = from_doc(said, cls) if said is not None else None
    one = next((each for each in fields_of(cls) if each.key == field), None)
    if one is None:  # nothing that a form shows
        return field
    was, is_now = (one.edit(getattr(each, field, None), manner) or "blank" for each in (then, now))
    return f"“{one.title(manner)}”: was {was}, is {is_now}"


def _done(desk: Desk, act: Callable[[], object], said: str) -> bool:
    try:
        act()
    except StudbookError as error:
        desk.look_again()
        desk.refuse(error)
        return False
    desk.look_again()
    desk.say(said)
    return True
