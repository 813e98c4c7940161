"""Several records at once: lines typed or pasted, each read back as it will be saved, all of it one action."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, ClassVar

from textual import on
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.widgets import Static, TextArea
from textual.widgets.text_area import EditResult, Location

from store.measure.counts import plural
from store.records.base import Record
from store.records.whole import Job
from templates.spreadsheet.typed_lines import APART, COLUMNS, TypedLines, columns_of_kind, read_lines, sample
from tui.shared.text import content
from tui.view.desk import Desk
from tui.widgets.dialogs import Confirm
from tui.widgets.hints import HintLine
from tui.widgets.typed_note import TypedNote
from tui.widgets.window import Window

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
        self, cls: type[Record], job: Callable[[], Job], start: Mapping[str, Any], save: Callable[[TypedLines], str]
    ) -> None:
        """`save` gets what was read without a mistake; it gives back what is wrong, or nothing."""
        super().__init__()
        self._cls, self._job, self._begin, self._save = cls, job, start, save
        self._waits = False

    def compose(self) -> ComposeResult:
        """Title, columns, an example, the lines, what they mean."""
        job = self._job()
        with Vertical(classes="many"):
            yield Static(content(f"Add several {self._cls.many} at once, one to a line"), classes="title")
            yield Static(content(_columns(columns_of_kind(self._cls, job))), classes="columns")
            yield Static(content(f"like  {sample(self._cls, job.manner)}\n{APART}; - = blank"), classes="hint")
            yield LinesArea("")
            yield Static(content(""), classes="told")
            with VerticalScroll(can_focus=False):
                yield Static(content("What you type is read back here."), classes="read")
            yield HintLine(KEYS)

    def on_mount(self) -> None:
        """Type at once."""
        for area in self.query(LinesArea):
            area.focus()

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

        def sure(yes: bool | None) -> None:
            if yes:
                self.dismiss(False)

        self.app.push_screen(Confirm("Discard what you typed?", yes="discard", no="keep editing"), sure)


def _columns(columns: Sequence[Any]) -> str:
    return "  |  ".join(each.title for each in columns)


def _said(found: TypedLines) -> list[str]:
    """Mistakes first, then every line as it will be saved."""
    return [*(f"! {each.says()}" for each in found.wrong), *(each.says() for each in found.lines)]


def add_many(app: App[Any], desk: Desk, kinds: Sequence[type[Record]], start: Callable[[type[Record]], Any]) -> None:
    """Open the lines for the kind of a view that takes them; `start` has what a new record of it begins with."""
    cls = next((each for each in kinds if each.kind in COLUMNS), None)
    if cls is None:
        desk.say(
            "A = add several, on the lists of readings, equipment, boxes, cables, obstacles, contacts and steps.",
            bad=True,
        )
        return

    def save(found: TypedLines) -> str:
        what = (
            f"Add {plural(len(found.changes), cls.one) if cls.one != cls.many else f'{len(found.changes)} {cls.many}'}"
        )
        if not desk.act(what, found.changes):
            return "Not saved. What you typed is still here."
        desk.done(f"{what.replace('Add', 'Added', 1)}. u = undo")
        return ""

    app.push_screen(ManyAtOnce(cls, lambda: desk.state.job, start(cls), save))
