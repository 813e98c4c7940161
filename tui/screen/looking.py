"""Looking at the file every moment: what others saved is taken over, and a file that is gone can be written again."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from store.book.errors import NoFile
from store.measure.errors import StudbookError
from tui.widgets.dialogs import Confirm

if TYPE_CHECKING:
    from textual.app import App

    from tui.screen.desk import WorkDesk


class Looking:
    """The looks of one screen at the file of its job."""

    def __init__(self, app: App[Any], desk: WorkDesk, say: Callable[[str, bool], None]) -> None:
        self._app, self._desk, self._say = app, desk, say
        self._asked = False

    def look(self) -> None:
        """Take over what somebody else saved."""
        book = self._desk.book
        before = book.actions
        try:
            news = book.refresh()
            self._asked = False
            if not news:
                return
            book.audit()
            self._desk.look_again()
            last = book.last_entry()
        except NoFile as error:
            self._say(error.sentence, True)
            self._gone()
            return
        except StudbookError as error:
            self._say(error.sentence, True)
            return
        if book.actions < before:
            self._say(f"An older version was put in its place: it had {before} changes, now {book.actions}", True)
            return
        self._say(f"From another copy: {last.what} ({last.who})" if last else "Someone else edited this job", False)

    def _gone(self) -> None:
        """The file is not there any more: offer to write it again. Asked once, until it is there again."""
        if self._asked:
            return
        self._asked = True
        book = self._desk.book

        def over(yes: bool | None) -> None:
            if not yes:
                return
            try:
                book.write_again()
            except StudbookError as error:
                self._desk.refuse(error)
                return
            self._say(f"Wrote {book.path.name} again, as it was here", False)

        about = "Someone moved, renamed or deleted it. What is open here is complete and can go to the same place."
        self._app.push_screen(
            Confirm(f"Write {book.path} again? The file was deleted.", about, yes="write", no="leave"), over
        )
