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

from store.measure.errors import BadValue
from store.records.field import Field, Manner
from tui.forms.drafting import KEEP_EVERY_S, Drafting
from tui.forms.form_body import FormBody, first_line
from tui.forms.form_line import FormLine
from tui.forms.picks import offered, read_back
from tui.shared.text import content
from tui.widgets.dialogs import Confirm, LongNote, Pick
from tui.widgets.window import Window

REPLACED = frozenset(("length", "mass", "money", "date", "number", "count", "ref"))
"""Fields whose value is typed anew rather than mended: it is marked on arrival, so that typing replaces it."""

LISTS = frozenset(("refs", "words"))
"""Fields that hold several: a choice is added to what stands there."""
HINT_CELLS = 72
"""Cells of one of the two lines of a hint on a screen of 80, with room for a word that goes to the next line."""
MORE_CHOICES = " … F2 = all"


class FormSpec(msgspec.Struct, frozen=True):
    """What a form is of."""

    title: str
    fields: tuple[Field, ...]
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


class RecordForm(Window[bool]):
    """Fill in a record; closes only when it was saved, or when the person leaves it."""

    CSS = """
    RecordForm {
        align: center middle;
        & > .form {
            width: 92; max-width: 100%; height: 100%; max-height: 46;
            background: $surface; border: round $primary; padding: 0 1;
            & > .title { text-style: bold; height: 1; }
            & > .hint { color: $text-muted; height: 2; }
            & > .error { color: $text-error; height: auto; max-height: 4; }
            & > .keys { color: $text-muted; height: 1; }
        }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "save", "Save"),
        Binding("escape", "cancel", "Leave"),
    ]

    def __init__(self, spec: FormSpec) -> None:
        super().__init__()
        self._spec = spec
        self._fields = spec.fields
        self._start = {
            field.key: field.edit(spec.values.get(field.key, field.empty), spec.manner) for field in spec.fields
        }
        self._told = ""
        self.body = FormBody(spec.fields)
        self.body.texts = {**self._start, **{key: text for key, text in spec.kept.items() if key in self._start}}

    def compose(self) -> ComposeResult:
        """Title, lines, hint, error, keys."""
        with Vertical(classes="form"):
            yield Static(content(self._spec.title), classes="title")
            yield self.body
            yield Static(content(""), classes="hint")
            yield Static(content(""), classes="error")
            yield Static(content("Ctrl+S = save  Enter = next  ↑ = back  F2 = choices  Esc = cancel"), classes="keys")

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
        missing = (field.key for field in self._fields if field.required and not self._start[field.key])
        first = self._spec.first or next(missing, keys[0])
        self._go(keys.index(first))
        self.line.focus()

    # --- moving ---

    def _go(self, number: int) -> None:
        """Put the typing line on a field."""
        body, line = self.body, self.line
        body.at = max(0, min(number, len(self._fields) - 1))
        field = self._fields[body.at]
        text = body.texts[field.key]
        line.opens = field.codec.name == "note"
        line.cycles = bool(field.choices) or field.codec.name == "yes"
        with self.prevent(Input.Changed):
            line.value = first_line(text) if line.opens else text
            line.cursor_position = len(line.value)
            if field.codec.name in REPLACED:
                line.select_all()
        body.place()
        self._hint()

    def leave_line(self, by: int, *, done: bool = False) -> None:
        """Check the field that is left, and go on; Enter on the last one saves."""
        self._keep()
        self._check(self._fields[self.body.at])
        if done and self.body.at == len(self._fields) - 1:
            self.action_save()
            return
        self._go(self.body.at + by)

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
        """Read one field; a mistake is marked and told, the text stays."""
        try:
            value = field.read(self.body.texts[field.key], self._spec.manner)
        except BadValue as error:
            self.body.wrong[field.key] = str(error)
            return None
        self.body.wrong.pop(field.key, None)
        return value

    def _hint(self) -> None:
        """Below the lines: how to write it, and how it was understood, or what is wrong with it."""
        field = self._fields[self.body.at]
        says = field.says
        text = self.body.texts[field.key]
        title, about = field.title(self._spec.manner), field.help(self._spec.manner)
        lines = [": ".join(each for each in (title, about) if each) + (f" ({says.unit})" if says.unit else "")]
        if field.choices or field.codec.name == "yes":
            above = lines if says.help else []  # the title alone stands on its own line already
            lines = [*above, self._choices_hint(field.choices or ("yes", "no"), 1 if above else 2)]
        elif field.codec.name in ("ref", "refs"):
            lines.append(self._reference_hint(field, text))
        elif field.codec.name == "note":
            lines.append("Enter = open the note, or just type")
        elif says.picks:
            lines.append(read_back(says.picks, text, self._spec.manner.metric) or "F2 = choose")
        elif text.strip():
            try:
                lines.append(field.echo(field.read(text, self._spec.manner), self._spec.manner))
            except BadValue as error:
                lines = [f"! {title[0].upper()}{title[1:]}: {error}"]
        if field.key in self.body.wrong:
            lines = [f"! {self.body.wrong[field.key]}"]
        self.query_one(".hint", Static).update(content("\n".join(lines)), layout=False)

    @staticmethod
    def _choices_hint(choices: Sequence[str], rows: int) -> str:
        """The choices, as many as these rows hold on the narrowest screen, and where the others are."""
        words = "Space or a letter = choose: " + " · ".join(choices)
        if len(words) <= rows * HINT_CELLS:
            return words
        most = words[: rows * HINT_CELLS - len(MORE_CHOICES)].rpartition(" · ")[0]
        return most + MORE_CHOICES

    def _reference_hint(self, field: Field, text: str) -> str:
        known = dict(self._spec.candidates(field))
        named = [tag for tag in text.upper().replace(",", " ").split() if tag in known]
        if named:
            return "= " + ", ".join(known[tag] for tag in named)
        few = ", ".join(list(known.values())[:4])
        return f"F2 = list: {few}" if few else "none on the list yet"

    # --- choices and notes ---

    def next_choice(self, letter: str) -> None:
        """Take the next choice, or the next that begins with a letter."""
        field = self._fields[self.body.at]
        choices = field.choices or ("no", "yes")
        now = self.line.value.strip().lower()
        at = choices.index(now) + 1 if now in choices else 0
        ahead = [*choices[at:], *choices[:at]]
        fitting = [each for each in ahead if each.lower().startswith(letter.lower())]
        if fitting:
            self._take(fitting[0])

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
        choices = [(each, each) for each in field.choices]
        if kind in ("ref", "refs"):
            choices = list(self._spec.candidates(field))
        elif kind == "yes":
            choices = [("yes", "yes"), ("no", "no")]
        elif field.says.picks:
            choices = list(offered(field.says.picks, self._spec.manner.metric))
        if choices:
            self.app.push_screen(Pick(field.says.title, choices), self._picked)
        else:
            self._tell(f"{field.title(self._spec.manner)}: no list for this one. Type it.")

    def _picked(self, choice: str | None) -> None:
        field = self._fields[self.body.at]
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
        if not self.is_active:
            return  # saved already, by the key before
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
        if self._spec.drafting is not None and self.is_attached:
            self._spec.drafting.keep(self)

    def forget_draft(self) -> None:
        """It was saved, or left on purpose."""
        if self._spec.drafting is not None:
            self._spec.drafting.drop()

    def dismiss(self, result: bool | None = None) -> AwaitComplete:
        """Close the form; its draft is not needed any more."""
        self.forget_draft()
        return super().dismiss(result)

    def action_cancel(self) -> None:
        """Leave; what was typed is not thrown away unasked."""
        if not self.unsaved:
            self.dismiss(False)
            return

        def sure(yes: bool | None) -> None:
            if yes:
                self.dismiss(False)

        self.app.push_screen(Confirm("Discard changes?", yes="discard", no="keep editing"), sure)
