"""What the person does to the job from the screen: every change, with its questions, refusals and undo."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import Any

import msgspec
from textual.app import App
from textual.screen import Screen

from store.book.book import Book
from store.book.changes import add, edit
from store.book.drafts import EDIT, NEW, OTHER, Kept
from store.book.errors import Busy, Conflict, Replaced
from store.measure.counts import plural
from store.measure.errors import StudbookError
from store.measure.text import capital
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.whole import KINDS
from store.rules.agenda.missing import blanks
from store.rules.core.broken import solved_and_new, words_of_change
from store.rules.gate.guard import NeedsReason
from store.rules.gate.opened import opened_words
from tui.acts.page import history_text, page_text, page_title
from tui.acts.removal import removal
from tui.forms.drafting import Drafting
from tui.forms.record_form import FormSpec, RecordForm
from tui.screen.clashes import settle_clashes
from tui.screen.new_values import candidates, lone_values
from tui.screen.trail import Spot
from tui.view.desk import Changes, Keys, Pressed, leave
from tui.view.state import State
from tui.view.view import name_of, values_of
from tui.widgets.dialogs import AskText, Confirm, Pick, ReadPage

NOT_YET = "Not saved yet: it needs a reason."
MOST_IN_LINE = 100
"""Characters of a refusal that the line at the foot has room for; a longer one is shown in a window too."""


class WorkDesk:
    """The book on the desk: acts on it, and tells the screen when there is something new to show."""

    def __init__(
        self, app: App[Any], book: Book, renew: Callable[[str | None], None], say: Callable[[str, bool], None]
    ) -> None:
        self._app, self.book, self._renew, self._say = app, book, renew, say
        self.state: State = State(book.job, self.folder, book.entries)
        self.change = ""
        """What the last change solved, and what is new after it."""
        self.told = ""
        """What was told last."""
        self._worse = False
        self._press: Callable[[str], None] = lambda key: None
        self._open_list: Callable[[str, Spot], None] = lambda title, spot: None
        self._saving: RecordForm | None = None
        """The form that is being saved now."""
        self._given = ""
        """The reason that was given for what it saves."""
        self.pending: dict[tuple[str, str], Kept] = {}
        """Drafts that are filled in when a form of that title and kind is opened."""

    # --- what views may ask (see tui.view.desk.Desk) ---

    def act(self, what: str, changes: Changes, why: str = "", *, at: str | None = None, offered: str = "") -> bool:
        """Do an action; a refusal is told, and one that only lacks a reason asks for it, with the one `offered`.

        What a form does is saved by that form once the reason is there.
        """
        try:
            self.book.act(what, changes, self._given or why)
        except NeedsReason as held:

            def because(reason: str) -> None:
                if self.act(what, changes, reason, at=at):
                    self.done(f"{what}. u = undo")

            if not self._asks_why(held, offered):
                self.ask("Why?", because, start=offered, about=_asked(held, why))
            return False
        except StudbookError as error:
            self.look_again()
            self.refuse(error)
            return False
        self.look_again(at)
        return True

    def _asks_why(self, held: NeedsReason, offered: str = "") -> bool:
        """Ask why for the form that is being saved, and save it again with the answer; False where there is none."""
        form = self._saving
        if form is None:
            return False

        def because(reason: str) -> None:
            self._given = reason
            try:
                form.save_again()
            finally:
                self._given = ""

        self.ask("Why?", because, start=offered, about=_asked(held, self._given))
        return True

    def say(self, words: str, *, bad: bool = False) -> None:
        """Tell the person something."""
        self.told = words
        self._say(words, bad)

    def refuse(self, error: StudbookError) -> None:
        """Tell a refusal: in the line when it is short, in a window when it is a list."""
        text = error.sentence
        whole = "\n" not in text and len(text) <= MOST_IN_LINE
        self.told = text if whole else capital(error.headline)
        self._say(self.told, True)
        if not whole:
            self._app.push_screen(ReadPage("Not done", text))

    def ask(self, question: str, then: Callable[[str], None], *, start: str = "", about: str = "") -> None:
        """Ask for a line of text."""

        def answered(text: str | None) -> None:
            if text is not None and text.strip():
                then(text.strip())

        self._app.push_screen(AskText(question, start=start, about=about), answered)

    def fill_in(self, cls: type[Record], values: Mapping[str, Any]) -> None:
        """Open an empty form."""
        self._fill_in(cls, values)

    def _fill_in(self, cls: type[Record], values: Mapping[str, Any], then: Callable[[str], None] | None = None) -> None:
        start = {**lone_values(self.state.job, cls), **values}
        self._app.push_screen(
            self._form_screen(f"New {cls.one}", cls, start, lambda new: self._add(cls, new, then), way=NEW)
        )

    def fill_out(
        self,
        title: str,
        cls: type[Record],
        values: Mapping[str, Any],
        save: Callable[[dict[str, Any]], str],
        then: Callable[[], None] = lambda: None,
    ) -> None:
        """Open a form with some values; `save` gets them and says what is wrong; `then` follows once it is gone."""

        def left(saved: bool | None) -> None:
            if saved:
                then()

        self._app.push_screen(self._form_screen(title, cls, values, save), left)

    def pick(self, question: str, choices: Sequence[tuple[str, str]], then: Callable[[str], None]) -> None:
        """Ask for one of a list of keys and labels; `then` gets the key."""

        def picked(key: str | None) -> None:
            if key is not None:
                then(key)

        self._app.push_screen(Pick(question, choices), picked)

    @property
    def folder(self) -> Path:
        """Where the job file lies; paths of pictures count from there."""
        return self.book.path.resolve().parent

    def who(self) -> str:
        """Who is at the keyboard."""
        return self.book.who

    def begin(self) -> None:
        """The whole job is read now: have everything shown."""
        self.state = State(self.book.job, self.folder, self.book.entries)
        self._renew(None)

    def look_again(self, at: str | None = None) -> None:
        """Work out what follows from the job, and have it shown."""
        before = self.state
        self.state = State(self.book.job, self.folder, self.book.entries)
        opened = opened_words(before.standing, self.state.standing)
        solved, new = solved_and_new(before.found, self.state.found)
        self.change = f"{opened} {words_of_change(solved, new)}".strip()
        self._worse = bool(new) or "Reopened" in opened
        self._renew(at)

    def done(self, words: str) -> None:
        """Tell that something was done, how many problems that solved, and the gravest new one."""
        self.say(f"{words}  {self.change}".rstrip(), bad=self._worse)

    def edit_job(self) -> None:
        """Open the form of what holds for the whole job."""
        self.edit(self.state.job.settings)

    def edit(self, record: Record, first: str = "") -> None:
        """Open the form of a record."""
        opened = [record]

        def save(values: dict[str, Any]) -> str:
            return self._save(form, opened, values)

        title = f"{record.tag}  {name_of(record)}"
        form = self._form_screen(title, type(record), values_of(record), save, first, way=EDIT, tag=record.tag)
        self._app.push_screen(form)

    def _save(self, form: RecordForm, opened: list[Record], values: dict[str, Any]) -> str:
        """Save an edited record; a clash is asked about field by field, and a reason where the guard wants one."""
        old = opened[0]
        new = msgspec.structs.replace(old, **values)
        if new == old:
            return ""
        try:
            self.book.act(f"Edit {old.tag} {name_of(new)}", [edit(old, new)], self._given)
        except NeedsReason as held:
            self._asks_why(held)
            return NOT_YET
        except Conflict as conflict:
            self.look_again()
            newest = self.book.job.get(old.tag) if old.tag != "job" else self.book.job.settings
            if newest is None or not conflict.clashes:
                return str(conflict)
            self._settle(form, opened, newest, [clash.field for clash in conflict.clashes])
            return "Someone else edited this. Pick a value for each field, then Ctrl+S."
        except StudbookError as error:
            return _told(error)
        self.look_again()
        self.done(f"Saved {old.tag} {name_of(new)}. u = undo")
        return ""

    def _settle(self, form: RecordForm, opened: list[Record], newest: Record, clashing: list[str]) -> None:
        def seen() -> None:
            opened[0] = newest

        settle_clashes(self._app, form, (opened[0], newest), clashing, self.state.job.manner, seen)

    def _form_screen(
        self,
        title: str,
        cls: type[Record],
        values: Mapping[str, Any],
        save: Callable[[dict[str, Any]], str],
        first: str = "",
        *,
        way: str = OTHER,
        tag: str = "",
    ) -> RecordForm:
        manner = self.state.job.manner
        kept = self.pending.pop((title, cls.kind), None)
        drafting = Drafting(self.book.path, self.book.session, (title, cls.kind, way, tag), kept)
        typed = kept.draft.fills if kept else {}
        named = partial(candidates, self.state.job)

        def saved(typed_in: dict[str, Any]) -> str:
            self._saving = form
            try:
                return save(typed_in)
            finally:
                self._saving = None

        blank = blanks(self.state.job).get(tag) if cls is Equipment else None
        asked = blank.fields if blank is not None else ()
        spec = FormSpec(title, cls, values, manner, saved, named, first, drafting, typed, asked, way == NEW)
        form = RecordForm(spec, lambda kind, then: self._fill_in(KINDS[kind], {}, then))
        return form

    def _add(self, cls: type[Record], values: dict[str, Any], then: Callable[[str], None] | None) -> str:
        before = set(self.state.job.tables.get(cls.kind, {}))
        record = cls(tag="", **values)
        try:
            self.book.act(f"Add {cls.one} {name_of(record)}", [add(record)], self._given)
        except NeedsReason as held:
            self._asks_why(held)
            return NOT_YET
        except StudbookError as error:
            return _told(error)
        tag = next((tag for tag in self.book.job.tables[cls.kind] if tag not in before), None)
        self.look_again(tag)
        self.done(f"Added {tag} {name_of(record)}. u = undo")
        if then is not None and tag is not None:
            then(tag)
        return ""

    def remove(self, record: Record) -> None:
        """Take a record away; what hangs on it is asked about first."""
        plan = removal(self.state.job, record)

        def go(yes: bool | None) -> None:
            if yes and self.act(f"Delete {record.tag} {name_of(record)}", plan.changes):
                self.done(f"Deleted {record.tag} {name_of(record)}. u = undo")

        if not plan.gone and not plan.cleared:
            go(True)
            return
        about = []
        if plan.gone:
            about.append(f"Also deletes {plural(len(plan.gone), 'record')}: {' '.join(plan.gone)}")
        if plan.cleared:
            about.append(f"Also clears the link to it on: {' '.join(plan.cleared)}")
        self._app.push_screen(
            Confirm(f"Delete {record.tag} {name_of(record)}?", "\n".join(about), yes="delete", no="keep"), go
        )

    def undo(self, why: str = "") -> None:
        """Take back the last action."""
        self._step_back(lambda: self.book.undo(why), "Undid", "r = redo", self.undo, why)

    def redo(self, why: str = "") -> None:
        """Bring back what was taken back."""
        self._step_back(lambda: self.book.redo(why), "Redid", "u = undo", self.redo, why)

    def _step_back(self, step: Callable[[], Any], said: str, key: str, retry: Callable[[str], None], why: str) -> None:
        try:
            entry = step()
        except NeedsReason as held:
            self.ask("Why?", retry, about=_asked(held, why))
            return
        except StudbookError as error:
            self.look_again()
            self.refuse(error)
            return
        self.look_again(entry.changes[0].tag if entry and entry.changes else None)
        nothing = "Nothing to undo" if said == "Undid" else "Nothing to redo"
        self.say(f"{said}: {entry.what[0].lower()}{entry.what[1:]} ({entry.who}). {key}" if entry else nothing)

    def show_history(self, key: str) -> None:
        """What happened to a record, with the closings of a check."""
        try:
            entries = self.book.history_of(key)
        except StudbookError as error:
            self.refuse(error)
            return
        self._app.push_screen(ReadPage(f"{key}: history", history_text(entries, key, self.state.job.manner)))

    def show_page(self, key: str) -> None:
        """A record's page, with keys to go on from it."""
        from tui.acts.page_keys import follow, page_keys  # brings the pictures, and only an open page needs them

        text = page_text(self.state, key) or "Empty."
        page = ReadPage(page_title(self.state, key), text, page_keys(self.state, key))
        self._app.push_screen(page, lambda pressed: follow(self, key, pressed))

    def show_window(self, window: Screen[None]) -> None:
        """Open a window that gives no answer."""
        self._app.push_screen(window)

    def read(self, title: str, text: str, keys: Keys = (), then: Pressed = leave) -> None:
        """Open a page to read; with `keys`, each with what it does, `then` gets the one pressed, or None."""
        self._app.push_screen(ReadPage(title, text, keys), then)

    def find(self) -> None:
        """Find anything in the whole job by its words, and go to it."""
        from tui.acts.finding import find_anything  # brings an index of words, and only this window needs it

        find_anything(self._app, self.state.job, self.go_to)

    def print(self, name: str = "", first: Sequence[str] = ()) -> None:
        """Print a sheet: the one of that name, or one that is asked for, `first` those that are of the list."""
        from tui.acts.printing import print_sheet  # brings the templates, and only printing needs them

        print_sheet(self._app, self, name, first)

    def take_photos(self) -> None:
        """Ask for a folder from a phone, and go through its photos."""
        from tui.acts.photos.photo_sorting import ask_folder  # brings the pictures

        ask_folder(self._app, self)

    def go_to(self, tag: str) -> None:
        """Show a record where it is listed; the screen takes this over."""
        self._press(tag)

    def on_go_to(self, go: Callable[[str], None], open_list: Callable[[str, Spot], None]) -> None:
        """Who shows a record in its own view, and a list by its title."""
        self._press, self._open_list = go, open_list

    def open_list(self, title: str, key: str = "", *, words: str = "", subset: str = "") -> None:
        """Show a list by its title; the screen takes this over."""
        self._open_list(title, Spot(-1, key or None, words, subset))

    def gate(self) -> None:
        """Show what holds the next stage."""
        self.open_list("Gate")


def _asked(held: NeedsReason, given: str) -> str:
    """What a reason is asked for; and that what was given is none."""
    return f"“{given}” gives no reason. Write a few words.\n{held.sentence}" if given else held.sentence


def _told(error: StudbookError) -> str:
    """A refusal, as it stands under the form: what the disk or another program stood in the way of is tried again."""
    again = isinstance(error, Busy) and not isinstance(error, Replaced)
    return f"{error.sentence} What you typed is still here: Ctrl+S tries again." if again else error.sentence
