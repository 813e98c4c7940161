"""What is done on the desk whatever the view: undo, the gate, the job itself, find, print, import, the walk."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from textual.app import App

from tui.screen.desk import WorkDesk
from tui.view.view import View
from tui.widgets.record_table import RecordTable


def desk_work(
    what: str,
    app: App[Any],
    desk: WorkDesk,
    view: View,
    table: RecordTable,
    chosen: str | None,
    then: Callable[[], None],
) -> None:
    """Do it; `table` shows the rows of the view, `chosen` is what keys act on, and `then` has everything shown anew."""
    if what == "import":
        from tui.acts.importing import import_csv  # brings the reader of csv, and only this needs it

        import_csv(app, desk, view.kinds)
    elif what == "many":
        from tui.acts.many import add_many  # brings the reader of typed lines

        add_many(app, desk, view.kinds, lambda cls: view.start_values(desk.state, table.cursor_key, cls), desk.pending)
    elif what == "fix":
        from tui.acts.fixing import fix_problem  # brings the rules of fixes

        fix_problem(desk, chosen)
    elif what == "theme":
        from tui.screen.themes import choose_theme

        if told := choose_theme(app):
            desk.say(told)
    elif what == "print":
        desk.print(first=view.sheets)
    elif what == "jobs":
        from tui.screen.start_page import show_jobs  # brings the starters

        show_jobs(app, desk.book.path)
    elif what == "walk":
        from tui.acts.walk_screen import walk  # brings the drawing

        walk(app, desk, [key for key in table.keys if desk.state.item(key)], table.cursor_key or "", then)
    else:
        {
            "undo": desk.undo,
            "redo": desk.redo,
            "gate": desk.gate,
            "job": desk.edit_job,
            "find": desk.find,
        }[what]()
