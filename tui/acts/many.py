"""Several records at once: lines typed or pasted, each read back as it will be saved, all of it one action."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, ClassVar

from textual import on
from textual.app import App, ComposeResult
from textual.await_complete import AwaitComplete
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.widgets import Static, TextArea
from textual.widgets.text_area import EditResult, Location

from store.book.drafts import LINES, Kept
from store.measure.counts import plural
from store.records.base import Record
from store.records.whole import Job
from templates.spreadsheet.typed_lines import APART, COLUMNS, TypedLines, columns_of_kind, read_lines, sample
from tui.forms.drafting import KEEP_EVERY_S, Drafting
from tui.shared.text import content
from tui.view.desk import Desk
from tui.widgets.dialogs import Pick
from tui.widgets.hints import HintLine
from tui.widgets.typed_note import TypedNote
from tui.widgets.window import Window

FIELD = "lines"
"""The one field of a draft of lines."""
LEAVING = (
    ("later", "keep them for later. A = go on with them, also another day"),
    ("discard", "discard them"),
    ("stay", "keep editing"),
)
READ_EVERY_S = 0.15
"""So long after the last key the lines are read: a long paste is not read letter by letter."""
KEYS = (("ctrl+s", "save all"), ("escape", "cancel"))


class LinesArea(TypedNote):
    """Where the lines are typed; the tabs of a pasted spreadsheet become bars, which stay in sight."""

    def replace(
        self, insert: str, start: Location, end: Location, *, maintain_selection_offset: bool = True
    ) -> EditResult:
        """Every way in leads here."""
        return super().replace(
            insert.replace("\t", " | "), start, end, maintain_selection_offset=maintain_selection_offset
        )


class ManyAtOnce(Window[bool]):
    """Type or paste lines; what they mean stands below them."""

    CSS = """
    ManyAtOnce {
        align: center middle;
        & > .many {
            width: 110; max-width: 100%; height: 100%; max-height: 46;
            background: $surface; border: round $muted; padding: 0 1;
            & > .title { text-style: bold; height: 1; }
            & > .columns { text-style: bold; height: auto; }
            & > .hint { color: $muted; height: auto; }
            & > TextArea { height: 1fr; min-height: 4; border: none; padding: 0; }
            & > .told { color: $fix; height: auto; max-height: 4; }
            & > VerticalScroll { height: 1fr; min-height: 3; }
        }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "save", "Save"),
        Binding("escape", "cancel", "Leave"),
    ]

    def __init__(
        self,
        cls: type[Record],
        job: Callable[[], Job],
        start: Mapping[str, Any],
        save: Callable[[TypedLines], str],
        drafting: Drafting | None = None,
        typed: str = "",
    ) -> None:
        """`save` gets what was read without a mistake; it gives back what is wrong, or nothing. `typed` is
        the text of a draft."""
        super().__init__()
        self._cls, self._job, self._begin, self._save = cls, job, start, save
        self._drafting, self._typed, self._let_go = drafting, typed, False
        self._waits = False

    def compose(self) -> ComposeResult:
        """Title, columns, an example, the lines, what they mean."""
        job = self._job()
        with Vertical(classes="many"):
            yield Static(content(f"Add several {_several(self._cls)} at once, one to a line"), classes="title")
            yield Static(content(_columns(columns_of_kind(self._cls, job))), classes="columns")
            apart = f"{APART}, - = blank. A tag first, like {self._cls.letter}2, changes that one, - = as it is."
            yield Static(content(f"like  {sample(self._cls, job.manner)}\n{apart}"), classes="hint")
            yield LinesArea(self._typed)
            yield Static(content(""), classes="told")
            with VerticalScroll(can_focus=False):
                yield Static(content("What you type is read back here."), classes="read")
            yield HintLine(KEYS)

    def on_mount(self) -> None:
        """Type at once, and keep what is typed every moment."""
        self.set_interval(KEEP_EVERY_S, self.keep_draft)
        for area in self.query(LinesArea):
            area.focus()
        if self.unsaved:
            self.show_read()  # lines of another day, kept

    # --- the draft, as of a form ---

    @property
    def unsaved(self) -> bool:
        """True when something was typed that is not saved."""
        return any(area.text.strip() for area in self.query(LinesArea))

    @property
    def start_texts(self) -> Mapping[str, str]:
        """Nothing stood in the lines at first."""
        return {FIELD: ""}

    @property
    def typed_texts(self) -> Mapping[str, str]:
        """What stands in them now."""
        return {FIELD: self.text}

    def keep_draft(self) -> None:
        """Keep what is typed beside the job."""
        if self._drafting is not None and self.is_attached and not self._let_go and self.query(LinesArea):
            self._drafting.keep(self)

    def forget_draft(self) -> None:
        """It was saved, or left on purpose: what a clock that was late still asks to keep is not kept."""
        self._let_go = True
        if self._drafting is not None:
            self._drafting.drop()

    def dismiss(self, result: bool | None = None) -> AwaitComplete:
        """Close; the draft is not needed any more."""
        self.forget_draft()
        return super().dismiss(result)

    @property
    def text(self) -> str:
        """What stands in the lines."""
        return self.query_one(LinesArea).text

    def read(self) -> TypedLines:
        """The lines as they are now, against the job as it is now."""
        return read_lines(self._job(), self._cls, self.text, self._begin)

    @on(TextArea.Changed)
    def typed(self) -> None:
        """Read the lines once the typing rests."""
        if not self._waits:
            self._waits = True
            self.set_timer(READ_EVERY_S, self.show_read)

    def show_read(self) -> None:
        """Show what the lines mean."""
        self._waits = False
        if not self.is_attached or not self.query(".read"):
            return
        found = self.read()
        self.query_one(".columns", Static).update(content(_columns(found.columns)))
        self.query_one(".read", Static).update(content("\n".join(_said(found)) or "What you type is read back here."))
        self.query_one(".told", Static).update(content(""))

    def action_save(self) -> None:
        """Save all of it, or go to the first mistake."""
        if not self.is_active:
            return
        self.show_read()
        found = self.read()
        if found.wrong:
            first = found.wrong[0]
            more = f" and {plural(len(found.wrong) - 1, 'more mistake')}" if len(found.wrong) > 1 else ""
            self._tell(f"Not saved. What you typed is still here. {first.says()}{more}")
            self.query_one(LinesArea).move_cursor((first.line - 1, 0))
            return
        if not found.lines:
            self._tell("Nothing to save yet. Type a line first.")
            return
        wrong = self._save(found)
        if wrong:
            self._tell(wrong)
            return
        self.dismiss(True)

    def _tell(self, words: str) -> None:
        self.query_one(".told", Static).update(content(words))

    def action_cancel(self) -> None:
        """Leave; what was typed is not thrown away unasked."""
        if not self.text.strip():
            self.dismiss(False)
            return

        def chosen(which: str | None) -> None:
            if which == "later" and self._drafting is not None:
                self._drafting.put_by(self)
            if which in ("later", "discard"):
                self.dismiss(False)

        self.app.push_screen(Pick("Leave these lines?", LEAVING), chosen)


def _columns(columns: Sequence[Any]) -> str:
    return "  |  ".join(each.title for each in columns)


def _several(cls: type[Record]) -> str:
    return cls.many if cls.one != cls.many else f"pieces of {cls.many}"


def _count(cls: type[Record], number: int) -> str:
    return plural(number, cls.one if cls.one != cls.many else f"piece of {cls.many}", _several(cls))


def _said(found: TypedLines) -> list[str]:
    """Mistakes first, then every line as it will be saved."""
    return [*(f"! {each.says()}" for each in found.wrong), *(each.says() for each in found.lines)]


def add_many(
    app: App[Any],
    desk: Desk,
    kinds: Sequence[type[Record]],
    start: Callable[[type[Record]], Any],
    kept: dict[tuple[str, str], Kept],
) -> None:
    """Open the lines for the kind of a view that takes them; `start` has what a new record of it begins with, `kept`
    the drafts that wait, by title and kind."""
    cls = next((each for each in kinds if each.kind in COLUMNS), None)
    if cls is None:
        desk.say(
            "A = add several, on the lists of readings, equipment, boxes, cables, obstacles, contacts and steps.",
            bad=True,
        )
        return

    def save(found: TypedLines) -> str:
        changed = sum(each.was is not None for each in found.lines)
        new = len(found.lines) - changed
        parts = [(new, "Add", "Added"), (changed, "Change", "Changed")]
        what, done = (
            ", ".join(f"{(now, past)[at]} {_count(cls, n)}" for n, now, past in parts if n).capitalize()
            for at in (0, 1)
        )
        if not desk.act(what, found.changes):
            return "Not saved. What you typed is still here."
        desk.done(f"{done}. u = undo")
        return ""

    about = (title_of(cls), cls.kind, LINES, "")
    waiting = kept.pop(about[:2], None)
    drafting = Drafting(desk.book.path, desk.book.session, about, waiting, kept)
    typed = waiting.draft.texts.get(FIELD, "") if waiting is not None else ""
    app.push_screen(ManyAtOnce(cls, lambda: desk.state.job, start(cls), save, drafting, typed))


def title_of(cls: type[Record]) -> str:
    """What the lines of a kind are called where their draft is offered."""
    return f"Several {cls.many}"
