"""Two people edited the same field of a record: for each one it is asked whose value stays."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from textual.app import App

from store.records.base import Record
from store.records.field import Manner, fields_of
from tui.forms.record_form import RecordForm
from tui.widgets.dialogs import Pick


def settle_clashes(
    app: App[Any],
    form: RecordForm,
    versions: tuple[Record, Record],
    clashing: Sequence[str],
    manner: Manner,
    seen: Callable[[], None],
) -> None:
    """Ask for each clashing field whose value stays; what only they changed is taken over.

    `versions` are the record as it was opened and as it is now; `seen` follows when every question was answered: who
    leaves one is asked again on saving.
    """
    old, newest = versions
    fields = {field.key: field for field in fields_of(type(old))}
    for key, field in fields.items():
        if key not in clashing and getattr(old, key) != getattr(newest, key):
            form.set_text(key, field.edit(getattr(newest, key), manner))

    def ask_next(left: Sequence[str]) -> None:
        if not left:
            seen()
            return
        field = fields[left[0]]
        theirs = field.edit(getattr(newest, field.key), manner)
        mine = form.body.texts[field.key]
        choices = [("mine", f"keep mine: {mine or 'blank'}"), ("theirs", f"use theirs: {theirs or 'blank'}")]

        def chosen(which: str | None) -> None:
            if which == "theirs":
                form.set_text(field.key, theirs)
            if which is not None:
                ask_next(left[1:])

        title = f"{old.tag} {field.title(manner)}: someone else edited this. Which value?"
        app.push_screen(Pick(title, choices), chosen)

    ask_next(clashing)
