"""The form of any record: every field on a line of its own, typed in place."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, ClassVar

import msgspec
from textual import on
from textual.app import ComposeResult
from textual.await_complete import AwaitComplete
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Input, Static

from store.measure.counts import plural
from store.measure.errors import BadValue
from store.records.base import Record
from store.records.field import Field, Manner, fields_of
from store.records.whole import KINDS
from tui.forms.choosing import Typed, tag_of
from tui.forms.drafting import KEEP_EVERY_S, Drafting
from tui.forms.form_body import FormBody, first_line
from tui.forms.form_line import FormLine
from tui.forms.hints import NO_LIST, first_field, hint_lines, laid_out
from tui.forms.picks import offered
from tui.shared.text import content
from tui.widgets.dialogs import Confirm, LongNote, Pick, ReadPage
from tui.widgets.hints import HintLine
from tui.widgets.window import Window

REPLACED = frozenset(("length", "mass", "money", "date", "number", "count", "ref"))
"""Fields whose value is typed anew rather than mended, as is one word of a list: it is marked on arrival, so that
typing replaces it."""

LISTS = frozenset(("refs", "words"))
"""Fields that hold several: a choice is added to what stands there."""
KEYS = (("ctrl+s", "save"), ("enter", "next"), ("f2", "list"), ("f3", "more"), ("f1", "help"), ("escape", "cancel"))
MOST_HIGH, FRAME = 46, 10
"""Rows of a form on a tall screen, and those of them for title, hint, errors and keys."""
NEW_ONE = "+"
"""Begins the key of a choice that opens the form of a new record; after it comes its kind."""


class FormSpec(msgspec.Struct, frozen=True):
    """What a form is of."""

    title: str
    cls: type[Record]
    values: Mapping[str, Any]
    manner: Manner
    save: Callable[[dict[str, Any]], str]
    """Given the values; returns an empty text when they were saved, or what is wrong."""
    candidates: Callable[[Field], Sequence[tuple[str, str]]]
    """Tags and names that a reference may take."""
    first: str = ""
    """Key of the field to begin at."""
    drafting: Drafting | None = None
    """Keeps what is typed until it is saved or left."""
    kept: Mapping[str, str] = {}
    """Texts of a draft, put into their fields as if they were typed now."""
    asked: Sequence[str] = ()
    """Keys of fields that something in the job waits for: shown at once, and marked while they are blank."""
    new: bool = False
    """True for a record that is not there yet: the form begins at its first blank field, and what stands in a field
    is a proposal, which typing replaces."""


class RecordForm(Window[bool]):
    """Fill in a record; closes only when it was saved, or when the person leaves it."""

    CSS = """
    RecordForm {
        align: center middle;
        & > .form {
            width: 92; max-width: 100%; height: 100%;
            background: $surface; border: round $muted; padding: 0 1;
            & > .title { text-style: bold; height: 1; }
            & > .hint { color: $muted; height: 2; }
            & > .error { color: $fix; height: auto; max-height: 4; }
        }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "save", "Save"),
        Binding("f3", "more", "More fields"),
        Binding("f1", "help", "Help"),
        Binding("escape", "cancel", "Leave"),
    ]

    def __init__(self, spec: FormSpec, add_one: Callable[[str, Callable[[str], None]], None]) -> None:
        """`add_one` opens the form of a new record of a kind over this one; what follows gets its tag."""
        super().__init__()
        self._spec, self._add_one = spec, add_one
        self._fields = fields_of(spec.cls)
        self._start = {
            field.key: field.edit(spec.values.get(field.key, field.empty), spec.manner) for field in self._fields
        }
        self._told = ""
        self._all = False
        self._choosing = Typed()
        self._let_go = False
        self.body = FormBody(self._fields, lambda field: field.title(spec.manner))
        self.body.texts = {**self._start, **{key: text for key, text in spec.kept.items() if key in self._start}}

    def compose(self) -> ComposeResult:
        """Title, lines, hint, error, keys."""
        with Vertical(classes="form"):
            yield Static(content(self._spec.title), classes="title")
            yield self.body
            yield Static(content(""), classes="hint")
            yield Static(content(""), classes="error")
            yield HintLine(KEYS)

    @property
    def line(self) -> FormLine:
        """The line that is typed in."""
        return self.query_one(FormLine)

    def on_mount(self) -> None:
        """Begin at the field asked for, or at the first that must be filled in and is not."""
        if not self.body.query(FormLine):
            return  # left again before it was there
        self.line.owner = self
        if self._spec.drafting is not None:
            self.set_interval(KEEP_EVERY_S, self.keep_draft)
        keys = [field.key for field in self._fields]
        spec = self._spec
        first = spec.first or first_field(spec.cls, self._start, spec.manner, new=spec.new, asked=spec.asked)
        self._go(keys.index(first))
        self.line.focus()

    def action_more(self) -> None:
        """Show every field of use, or only those that matter and what is filled in."""
        self._keep()
        self._all = not self._all
        self._go(self.body.at)

    @on(FormBody.MoreClicked)
    def more_clicked(self) -> None:
        """A click on the line that tells of more fields."""
        self.action_more()
        self.line.focus()

    def _lay(self) -> None:
        """Show the fields that matter as the record stands now, and always the one that is typed in."""
        spec, body = self._spec, self.body
        first, more, body.wanted = laid_out(spec.cls, body.texts, spec.manner, spec.asked)
        keys = {*first, *(more if self._all else ()), self._fields[body.at].key, *body.wrong}
        foot = f" {plural(len(more), 'more field')}: F3" if more else ""
        body.show_only(
            (number for number, field in enumerate(self._fields) if field.key in keys),
            " F3 = fewer fields" if foot and self._all else foot,
        )
        self.query_one(".form").styles.max_height = min(MOST_HIGH, body.lines + FRAME)

    # --- moving ---

    def _go(self, number: int) -> None:
        """Put the typing line on a field."""
        body, line = self.body, self.line
        body.at = max(0, min(number, len(self._fields) - 1))
        if self._told.endswith(NO_LIST):  # said of the field that the line leaves
            self._tell("")
        self._choosing.clear()
        self._lay()
        field = self._fields[body.at]
        text = body.texts[field.key]
        line.opens = field.codec.name == "note"
        line.cycles = bool(field.choices) or field.codec.name == "yes"
        with self.prevent(Input.Changed):
            line.value = first_line(text) if line.opens else text
            line.cursor_position = len(line.value)
            proposed = self._spec.new and text == self._start[field.key]
            if field.codec.name in REPLACED or (field.codec.name == "text" and (field.says.picks or proposed)):
                line.select_all()
        body.place()
        self._hint()

    def leave_line(self, by: int, *, done: bool = False) -> None:
        """Check the field that is left, and go on; Enter on the last one saves."""
        self._keep()
        self._check(self._fields[self.body.at])
        self._lay()  # what was typed may have made other fields matter
        if done and self.body.at == self.body.seen[-1]:
            self.action_save()
            return
        self._go(self.body.beside(by))

    @on(FormBody.Clicked)
    def click_line(self, event: FormBody.Clicked) -> None:
        """Go to the field that was clicked."""
        self._keep()
        self._check(self._fields[self.body.at])
        self._go(event.number)
        self.line.focus()

    @on(Input.Changed)
    def typed(self) -> None:
        """Keep what is typed, and read it back."""
        if not self._keep():
            return
        field = self._fields[self.body.at]
        if field.key in self.body.wrong:
            self._check(field)
            self.body.refresh()
        self._tell("")
        self._hint()

    def _keep(self) -> bool:
        """Keep what is typed in the line now: the word of its change may still be on its way. True for news."""
        key = self._fields[self.body.at].key
        if self.line.opens or self.body.texts[key] == self.line.value:
            return False
        self.body.texts[key] = self.line.value
        return True

    def _tell(self, words: str) -> None:
        """Say something under the fields."""
        if words != self._told:
            self._told = words
            self.query_one(".error", Static).update(content(words))

    def _check(self, field: Field) -> Any:
        """Read one field; a mistake is marked and told, the text stays. A name for a record becomes its tag."""
        if field.codec.name == "ref":
            self.body.texts[field.key] = tag_of(self.body.texts[field.key], self._spec.candidates(field))
        try:
            value = field.read(self.body.texts[field.key], self._spec.manner)
        except BadValue as error:
            self.body.wrong[field.key] = error.sentence
            return None
        self.body.wrong.pop(field.key, None)
        return value

    def _hint(self) -> None:
        """Below the lines: how to write it, and how it was understood, or what is wrong with it."""
        field, body = self._fields[self.body.at], self.body
        wrong = body.wrong.get(field.key)
        lines = (
            [f"! {wrong}"]
            if wrong
            else hint_lines(
                field,
                body.texts[field.key],
                self._spec.manner,
                self._spec.candidates,
                typed=self._choosing.text,
                wanted=field.key in body.wanted,
            )
        )
        self.query_one(".hint", Static).update(content("\n".join(lines)), layout=False)

    # --- choices and notes ---

    def next_choice(self, letter: str) -> None:
        """Take the choice that all the letters typed so far lead to; with no letter, one letter fewer."""
        field = self._fields[self.body.at]
        choices = field.choices_in(self._spec.manner) or ("no", "yes")
        now = self.line.value.strip()
        typed = self._choosing
        found = typed.add(choices, letter, now) if letter else typed.back(choices)
        if found is not None:
            text = typed.text
            self._take(found)
            typed.text = text
        self._hint()

    def pick(self, typed: str = "") -> None:
        """Show the choices, the records, or the note in a window of its own."""
        top = self.app.screen
        if top is not self:  # by the key before this one
            if isinstance(top, LongNote):
                top.add(typed)
            return
        field = self._fields[self.body.at]
        kind = field.codec.name
        if kind == "note":
            self.app.push_screen(LongNote(field.says.title, self.body.texts[field.key], typed), self._take)
            return
        choices = [(each, each) for each in field.choices_in(self._spec.manner)]
        last: list[tuple[str, str]] = []
        if kind in ("ref", "refs"):
            choices = list(self._spec.candidates(field))
            last = [(f"{NEW_ONE}{each}", f"+ add a new {KINDS[each].one} here") for each in field.says.kinds]
        elif kind == "yes":
            choices = [("yes", "yes"), ("no", "no")]
        elif field.says.picks:
            choices = list(offered(field.says.picks, self._spec.manner.metric))
        if choices or last:
            self.app.push_screen(Pick(field.title(self._spec.manner), choices, last), self._picked)
        else:
            self._tell(f"{field.title(self._spec.manner)}: {NO_LIST}")

    def _picked(self, choice: str | None) -> None:
        field = self._fields[self.body.at]
        if choice is not None and choice.startswith(NEW_ONE):
            self._add_one(choice.removeprefix(NEW_ONE), self._picked)
            return
        if choice is not None and field.codec.name in LISTS and self.line.value.strip():
            choice = f"{self.line.value.strip().rstrip(',')}, {choice}"
        self._take(choice)

    def _take(self, text: str | None) -> None:
        """Put a text into the field under the line."""
        if text is None:
            return
        field = self._fields[self.body.at]
        self.body.texts[field.key] = text
        if field.key in self.body.wrong:
            self._check(field)
        self._tell("")
        self._go(self.body.at)

    # --- leaving ---

    def action_save(self) -> None:
        """Read every field; save, or say what is wrong and go to the first mistake."""
        if self.is_active:  # else it was saved already, by the key before
            self.save_again()

    def save_again(self) -> None:
        """The same once more, when what was asked for meanwhile is there."""
        self._keep()
        values = {field.key: self._check(field) for field in self._fields}
        if self.body.wrong:
            first = next(number for number, field in enumerate(self._fields) if field.key in self.body.wrong)
            more = f" and {len(self.body.wrong) - 1} more marked !" if len(self.body.wrong) > 1 else ""
            self._tell(f"Not saved. Fix: {self._fields[first].title(self._spec.manner)}{more}")
            self._go(first)
            return
        wrong = self._spec.save(values)
        if wrong:
            self._tell(wrong)
            return
        self.dismiss(True)

    def set_text(self, key: str, text: str) -> None:
        """Put a text into a field from outside, as when somebody else's value is taken."""
        self._keep()
        self.body.texts[key] = text
        self._start[key] = text
        self._go(self.body.at)

    @property
    def unsaved(self) -> bool:
        """True when something was typed that is not saved."""
        self._keep()
        return self.body.texts != self._start

    # --- the draft ---

    @property
    def start_texts(self) -> Mapping[str, str]:
        """What stood in the fields when the form was opened."""
        return self._start

    @property
    def typed_texts(self) -> Mapping[str, str]:
        """What stands in them now, also in the window of a note."""
        self._keep()
        top = self.app.screen
        written = top.text if isinstance(top, LongNote) else None
        return self.body.texts if written is None else {**self.body.texts, self._fields[self.body.at].key: written}

    def keep_draft(self) -> None:
        """Keep what is typed beside the job."""
        if self._spec.drafting is not None and self.is_attached and not self._let_go:
            self._spec.drafting.keep(self)

    def forget_draft(self) -> None:
        """It was saved, or left on purpose: what a clock that was late still asks to keep is not kept."""
        self._let_go = True
        if self._spec.drafting is not None:
            self._spec.drafting.drop()

    def dismiss(self, result: bool | None = None) -> AwaitComplete:
        """Close the form; its draft is not needed any more."""
        self.forget_draft()
        return super().dismiss(result)

    def action_help(self) -> None:
        """How a form is filled in."""
        from tui.forms.form_help import FORM_HELP

        self.app.push_screen(ReadPage("Help: filling in a form", FORM_HELP))

    def action_cancel(self) -> None:
        """Leave; what was typed is not thrown away unasked."""
        if not self.unsaved:
            self.dismiss(False)
            return

        def sure(yes: bool | None) -> None:
            if yes:
                self.dismiss(False)

        self.app.push_screen(Confirm("Discard changes?", yes="discard", no="keep editing"), sure)
