"""Small questions: a line of text, yes or no, a pick from a list, a long note, a page to read."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from store.measure.text import clean
from tui.shared.ranking import ranked
from tui.shared.text import content, wrap
from tui.widgets.choices import Choices
from tui.widgets.hints import HintLine
from tui.widgets.typed import TypedLine
from tui.widgets.typed_note import TypedNote
from tui.widgets.window import Window

DIALOG_CSS = """
$self {
    align: center middle;
    & > .dialog {
        width: 76; max-width: 96%; height: auto; max-height: 92%;
        background: $surface; border: round $muted; padding: 0 1;
        & > .question { text-style: bold; width: 100%; }
        & > .about { color: $muted; width: 100%; }
        & > .error { color: $fix; width: 100%; }
        & > Input { width: 100%; }
        & > OptionList { height: auto; max-height: 16; background: $surface; border: none; }
        & > OptionList > .option-list--option-highlighted { color: $on-focus; }
        & > TextArea { height: 12; }
        & > VerticalScroll { height: auto; max-height: 76vh; }
    }
}
"""


ABOUT_LINES = 11
"""What a question is about takes no more, so that the question and its keys stay in sight at 80 by 24."""


def _shortened(about: str) -> str:
    lines = wrap(about, 68)
    if len(lines) <= ABOUT_LINES:
        return about
    return "\n".join([*lines[: ABOUT_LINES - 1], f"… and {len(lines) - ABOUT_LINES + 1} more lines"])


def _headline(question: str) -> Static:
    """The question, in two lines at most: it may carry a name as long as its writer liked."""
    lines = wrap(question, 68)
    text = question if len(lines) <= 2 else f"{lines[0]}\n{lines[1]}…"
    return Static(content(text), classes="question")


def _css(name: str) -> str:
    return DIALOG_CSS.replace("$self", name)


class AskText(Window[str | None]):
    """One line of text; Escape gives None."""

    CSS = _css("AskText")
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "cancel", "Cancel"),
        Binding("ctrl+s", "save", "Save"),  # as in a form
    ]

    def __init__(self, question: str, *, start: str = "", about: str = "", need: bool = True) -> None:
        super().__init__()
        self._question, self._start, self._about, self._need = question, start, about, need

    def compose(self) -> ComposeResult:
        """Question, what it is about, the line."""
        with Vertical(classes="dialog"):
            yield _headline(self._question)
            if self._about:
                yield Static(content(_shortened(self._about)), classes="about")
            yield TypedLine(clean(self._start), compact=True)
            yield Static(content(""), classes="error")
            yield HintLine([("enter", "save"), ("escape", "cancel")])

    @on(Input.Submitted)
    def take(self, event: Input.Submitted) -> None:
        """Give the text back."""
        event.stop()
        self.action_save()

    def action_save(self) -> None:
        """Give the text back, unless it is empty and needed."""
        text = self.query_one(TypedLine).value
        if self._need and not text.strip():
            self.query_one(".error", Static).update(content("Type a few words first."))
            return
        self.dismiss(text)

    def action_cancel(self) -> None:
        """Leave it."""
        self.dismiss(None)


class Confirm(Window[bool]):
    """A question with two keys, each named by what it does."""

    CSS = _css("Confirm")
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y", "answer(True)", "Yes"),
        Binding("n,escape", "answer(False)", "No"),
    ]

    def __init__(self, question: str, about: str = "", *, yes: str, no: str) -> None:
        super().__init__()
        self._question, self._about, self._yes, self._no = question, about, yes, no

    def compose(self) -> ComposeResult:
        """The question and its two keys."""
        with Vertical(classes="dialog"):
            yield _headline(self._question)
            if self._about:
                yield Static(content(_shortened(self._about)), classes="about")
            yield HintLine([("y", self._yes), ("n", self._no)])

    def action_answer(self, yes: bool) -> None:
        """Give the answer."""
        self.dismiss(yes)


class ListWindow(Window[str | None]):
    """A line to type in over a list: arrows move in the list while the line keeps the keys; gives a key of the list."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "cancel", "Cancel"),
        Binding("down", "move(1)", "Down", show=False),
        Binding("up", "move(-1)", "Up", show=False),
    ]

    shown: Sequence[str] = ()
    """Keys of what is listed now, from the top."""

    def action_move(self, by: int) -> None:
        """Move in the list while the line keeps the focus."""
        options = self.query_one(OptionList)
        (options.action_cursor_down if by > 0 else options.action_cursor_up)()

    @on(Input.Submitted)
    def take(self) -> None:
        """Take what is highlighted."""
        at = self.query_one(OptionList).highlighted
        if at is not None and at < len(self.shown):
            self.dismiss(self.shown[at])

    @on(OptionList.OptionSelected)
    def take_clicked(self, event: OptionList.OptionSelected) -> None:
        """Take what was clicked."""
        self.dismiss(self.shown[event.option_index])

    def action_cancel(self) -> None:
        """Leave it."""
        self.dismiss(None)


class Pick(ListWindow):
    """A pick from a list, narrowed by typing; gives the key of the choice."""

    CSS = _css("Pick")

    def __init__(self, question: str, choices: Sequence[tuple[str, str]], last: Sequence[tuple[str, str]] = ()) -> None:
        """`last` are choices that stay at the end of the list whatever is typed."""
        super().__init__()
        self._question, self._choices, self._last = question, list(choices), list(last)
        self.shown = [key for key, _ in (*choices, *last)]

    def compose(self) -> ComposeResult:
        """The question, a line to narrow, the list."""
        with Vertical(classes="dialog"):
            yield _headline(self._question)
            yield TypedLine(placeholder="type to filter", compact=True)
            yield Choices(markup=False)
            yield HintLine([("enter", "choose"), ("escape", "cancel")])

    def on_mount(self) -> None:
        """Show all choices."""
        self._fill("")

    @on(Input.Changed)
    def narrow(self, event: Input.Changed) -> None:
        """Show the choices that have the words."""
        self._fill(event.value)

    def _fill(self, words: str) -> None:
        """What has all the words, at the start of words first: `equip` means the equipment."""
        order = ranked([label for _, label in self._choices], words)
        shown = [*(self._choices[place] for place in order), *self._last]
        self.shown = [key for key, _ in shown]
        for options in self.query(OptionList):
            options.clear_options()
            options.add_options([Option(content(label), id=f"c{number}") for number, (_, label) in enumerate(shown)])
            if shown:
                options.highlighted = 0


class LongNote(Window[str | None]):
    """A text of several lines."""

    CSS = _css("LongNote")
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "cancel", "Leave it"),
        Binding("ctrl+s", "take", "Done"),
    ]

    def __init__(self, question: str, start: str, typed: str = "") -> None:
        super().__init__()
        self._question, self._start, self._typed = question, clean(start, lines=True), typed

    def compose(self) -> ComposeResult:
        """The note."""
        with Vertical(classes="dialog"):
            yield _headline(self._question)
            yield TypedNote(self._start)
            yield HintLine([("ctrl+s", "save"), ("escape", "cancel")])

    def on_mount(self) -> None:
        """What was typed before the window came is not lost."""
        typed, self._typed = self._typed, ""
        if typed:
            self.add(typed)

    def add(self, typed: str) -> None:
        """Write more at the end; what comes before the window is there waits for it."""
        if not self.query(TypedNote):
            self._typed += typed
        for note in self.query(TypedNote):
            note.insert(typed, note.document.end)
            note.move_cursor(note.document.end)

    @property
    def text(self) -> str | None:
        """What stands in it; None while the window is not there yet."""
        return next((note.text for note in self.query(TypedNote)), None)

    @property
    def unsaved(self) -> bool:
        """True when something was typed that is not taken over."""
        return any(note.text != self._start for note in self.query(TypedNote))

    def action_take(self) -> None:
        """Give the text back."""
        self.dismiss(self.query_one(TypedNote).text)

    def action_cancel(self) -> None:
        """Leave it; what was typed is not thrown away unasked."""
        if not self.unsaved:
            self.dismiss(None)
            return

        def sure(yes: bool | None) -> None:
            if yes:
                self.dismiss(None)

        self.app.push_screen(Confirm("Discard changes?", yes="discard", no="keep editing"), sure)


class ReadPage(Window[str | None]):
    """A page to read and scroll; some keys give themselves back to who asked."""

    CSS = _css("ReadPage")
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Back"), Binding("enter", "read", "Back")]

    def __init__(self, title: str, text: str, keys: Sequence[tuple[str, str]] = ()) -> None:
        super().__init__()
        self._title, self._text, self._keys = title, text, list(keys)

    def compose(self) -> ComposeResult:
        """Title, text, keys."""
        with Vertical(classes="dialog"):
            yield _headline(self._title)
            with VerticalScroll(can_focus=True):
                yield Static(content(self._text))
            yield HintLine([*self._keys, ("escape", "back")])

    def on_mount(self) -> None:
        """Arrows scroll at once."""
        for page in self.query(VerticalScroll):
            page.focus()
        self.call_after_refresh(self._fit)

    def on_resize(self) -> None:
        """Another height has room for more or less of it."""
        self.call_after_refresh(self._fit)

    def _fit(self) -> None:
        """The text takes what title and keys leave, so that the keys stay in sight however long those are."""
        for page in self.query(VerticalScroll):
            others = sum(each.outer_size.height for each in page.siblings)
            page.styles.max_height = max(3, self.size.height * 92 // 100 - 2 - others)

    def key_pressed(self, key: str) -> bool:
        """True when the key is one of those offered."""
        return any(key == each for each, _ in self._keys)

    def on_key(self, event: events.Key) -> None:
        """Give an offered key back."""
        key = event.key
        if self.key_pressed(key):
            event.stop()
            self.dismiss(key)

    def action_read(self) -> None:
        """Back, where nothing is asked: Enter could be meant as a yes, and be taken for one."""
        if not self.key_pressed("y"):
            self.dismiss(None)

    def action_leave(self) -> None:
        """Back."""
        self.dismiss(None)
