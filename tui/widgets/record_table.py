"""A table of any number of rows that draws only the lines it shows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

import msgspec
from rich.cells import cell_len
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from tui.shared.text import Part, fit, one_line, strip, wrap
from tui.widgets.ground import Grounded

ROLL = 3
"""Rows that the wheel moves the cursor by."""
GAP = 2
"""Empty cells between two columns."""


EMPTY_AT = 2
"""The line on which it begins to be said what an empty list is for."""


class Column(msgspec.Struct, frozen=True):
    """One column: its title, its width in cells, and which side its text keeps to."""

    title: str
    width: int
    right: bool = False
    grow: bool = False
    """Takes what is left of the width."""


class Line(msgspec.Struct, frozen=True):
    """What one row shows."""

    cells: tuple[str, ...]
    tone: str = ""
    """Empty, `head`, `done`, `stop`, `warn` (to fix) or `muted`; never the only sign of it, the cells say it too."""


def widths(columns: Sequence[Column], width: int) -> list[int]:
    """Cells of the columns that fit, the last ones left out first; what is left goes to those that grow."""
    columns = list(columns)
    left = width - 1 - sum(each.width + GAP for each in columns) + GAP
    while left < 0 and len(columns) > 2:
        left += columns.pop().width + GAP
    sizes = [each.width for each in columns]
    growing = [number for number, each in enumerate(columns) if each.grow]
    for number in growing:
        sizes[number] += left // len(growing)
    return [max(1, size) for size in sizes]


class RecordTable(ScrollView, Grounded, can_focus=True):
    """Rows by key. Given rows and a function that draws one; posts what the person does."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "record-table--titles",
        "record-table--cursor",
        "record-table--cursor-away",
        "record-table--hover",
        "record-table--head",
        "record-table--done",
        "record-table--stop",
        "record-table--warn",
        "record-table--muted",
    }
    DEFAULT_CSS = """
    RecordTable {
        height: 1fr;
        background: $surface;
        scrollbar-size-vertical: 1;
        overflow-x: hidden;
        & .record-table--titles { color: $muted; text-style: underline; }
        & .record-table--cursor { background: $focus; color: $on-focus; text-style: $row-style; }
        & .record-table--cursor-away { background: $away; color: $on-away; text-style: $row-style; }
        & .record-table--hover { text-style: underline; }
        & .record-table--head { text-style: bold; }
        & .record-table--done { color: $done; }
        & .record-table--stop { color: $stop; }
        & .record-table--warn { color: $fix; }
        & .record-table--muted { color: $muted; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", "Up", show=False),
        Binding("down", "move(1)", "Down", show=False),
        Binding("pageup", "page(-1)", "Page up", show=False),
        Binding("pagedown", "page(1)", "Page down", show=False),
        Binding("home", "jump(0)", "First", show=False),
        Binding("end", "jump(-1)", "Last", show=False),
        Binding("enter", "open", "Open", show=False),
    ]

    class Moved(Message):
        """The cursor is on another row."""

        def __init__(self, table: RecordTable, key: str) -> None:
            super().__init__()
            self.table = table
            self.key = key

        @property
        def control(self) -> RecordTable:
            """The table, for `@on` selectors."""
            return self.table

    class Opened(Moved):
        """A row was opened, by Enter or by a second click."""

    class Painted(Message):
        """The first rows are on the screen."""

    class TitleClicked(Message):
        """A column's title was clicked."""

        def __init__(self, table: RecordTable, column: int) -> None:
            super().__init__()
            self.table = table
            self.column = column

        @property
        def control(self) -> RecordTable:
            """The table, for `@on` selectors."""
            return self.table

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self.table_columns: tuple[Column, ...] = ()
        self._keys: Sequence[str] = ()
        self._draw_row: Callable[[int], Line] = lambda row: Line(())
        self._drawn: dict[int, Line] = {}
        self._painted = False
        self._at = 0
        self._under: int | None = None
        """The row under the mouse."""
        self._empty = ""
        self._sorted: tuple[int, bool] | None = None

    # --- what it is given ---

    def show(
        self,
        columns: Sequence[Column],
        keys: Sequence[str],
        draw_row: Callable[[int], Line],
        *,
        empty: str = "",
        sorted_by: tuple[int, bool] | None = None,
        at: str | None = None,
    ) -> None:
        """Show these rows. The cursor stays on its record, or goes to `at`; where both are gone, on its line."""
        wanted = at if at is not None else self.cursor_key
        self.table_columns, self._keys, self._draw_row = tuple(columns), keys, draw_row
        self._empty, self._sorted = empty, sorted_by
        self._drawn = {}
        try:
            self._at = keys.index(wanted) if wanted is not None else 0
        except ValueError:
            self._at = max(0, min(self._at, len(keys) - 1))
        self.virtual_size = Size(self.size.width, len(keys) + 1)
        self._reveal()
        self.refresh()

    @property
    def keys(self) -> Sequence[str]:
        """The keys of the rows, from the top."""
        return self._keys

    @property
    def cursor_key(self) -> str | None:
        """The key of the row under the cursor."""
        return self._keys[self._at] if 0 <= self._at < len(self._keys) else None

    @property
    def cells_wanted(self) -> int:
        """How wide it would be with all of its columns, and the bar at its side."""
        return 2 + sum(each.width + GAP for each in self.table_columns)

    @property
    def cut(self) -> str:
        """What the row under the cursor says where its column is too narrow, or left out; empty where all is in sight.
        Of the columns that are left out, those that take what room there is: they are texts."""
        if not self._keys or not self.size.width:
            return ""
        cells, sizes = self.line_at(self._at).cells, self._widths(self.scrollable_size.width)
        whole = [cell for cell, size in zip(cells, sizes, strict=False) if cell_len(one_line(cell)) > size]
        rest = zip(cells[len(sizes) :], self.table_columns[len(sizes) :], strict=False)
        return " · ".join(one_line(each).strip() for each in (*whole, *(cell for cell, at in rest if at.grow and cell)))

    def line_at(self, row: int) -> Line:
        """What a row shows."""
        line = self._drawn.get(row)
        if line is None:
            if len(self._drawn) > 2_000:
                self._drawn.clear()
            line = self._drawn[row] = self._draw_row(row)
        return line

    def begin(self) -> None:
        """Forget the rows: those of another list come next, from the top."""
        self._keys, self._at = (), 0

    def move_to(self, key: str) -> None:
        """Put the cursor on a row, if it is there."""
        if key in self._keys:
            self._go(self._keys.index(key))

    # --- drawing ---

    def render_line(self, y: int) -> Strip:
        """One line of the screen: the titles, then the rows from the scroll offset on."""
        if not self._painted:
            self._painted = True
            self.post_message(self.Painted())
        width = self.scrollable_size.width
        if y == 0:
            return self._titles(width)
        row = y - 1 + round(self.scroll_offset.y)
        base = self.ground
        if row >= len(self._keys):
            if not self._keys and y >= EMPTY_AT and (said := wrap(self._empty, width))[y - EMPTY_AT :]:
                muted = self.get_component_rich_style("record-table--muted")
                return strip([(fit(said[y - EMPTY_AT], width), muted)], width, base)
            return Strip.blank(width, base)
        return self._row(row, width, base)

    def _row(self, row: int, width: int, base: Style) -> Strip:
        line = self.line_at(row)
        style = self.get_component_rich_style(f"record-table--{line.tone}") if line.tone else base
        mark = " "
        if row == self._at:
            away = "" if self.has_focus else "-away"
            style = self.get_component_rich_style(f"record-table--cursor{away}")
            mark = "▌"
        elif row == self._under:
            style += self.get_component_rich_style("record-table--hover")
        text = mark + (" " * GAP).join(
            fit(cell, size, right=column.right)
            for cell, column, size in zip(line.cells, self.table_columns, self._widths(width), strict=False)
        )
        return strip([(text, style)], width, style)

    def _titles(self, width: int) -> Strip:
        style = self.get_component_rich_style("record-table--titles")
        base = self.ground
        parts: list[Part] = [(" ", base)]
        for number, (column, size) in enumerate(zip(self.table_columns, self._widths(width), strict=False)):
            title = column.title
            if self._sorted and self._sorted[0] == number:
                title += " ▼" if self._sorted[1] else " ▲"
            parts += [(fit(title, size, right=column.right), style), (" " * GAP, base)]
        return strip(parts, width, base)

    def _widths(self, width: int) -> list[int]:
        return widths(self.table_columns, width)

    def notify_style_update(self) -> None:
        """Colours changed."""
        super().notify_style_update()
        self._drawn = {}

    # --- what the person does ---

    def _go(self, row: int) -> None:
        row = max(0, min(row, len(self._keys) - 1))
        if row == self._at or not self._keys:
            return
        was, self._at = self._at, row
        self._reveal()
        for each in (was, row):  # of all rows only these look different, unless it scrolled, which draws them all
            self.refresh_lines(1 + each)
        self.post_message(self.Moved(self, self._keys[row]))

    def _reveal(self) -> None:
        """Scroll just as far as the cursor needs."""
        lines = max(1, self.size.height - 1)
        top = round(self.scroll_offset.y)
        if self._at < top:
            self.scroll_to(y=self._at, animate=False, immediate=True)
        elif self._at >= top + lines:
            self.scroll_to(y=self._at - lines + 1, animate=False, immediate=True)

    def action_move(self, by: int) -> None:
        """Move the cursor by lines."""
        self._go(self._at + by)

    def action_page(self, by: int) -> None:
        """Move the cursor by a screenful."""
        self._go(self._at + by * max(1, self.size.height - 2))

    def action_jump(self, to: int) -> None:
        """Move the cursor to the first or the last row."""
        self._go(0 if to == 0 else len(self._keys) - 1)

    def action_open(self) -> None:
        """Open the row under the cursor."""
        if self.cursor_key is not None:
            self.post_message(self.Opened(self, self.cursor_key))

    def on_click(self, event: events.Click) -> None:
        """A click moves the cursor, a click on the row under it opens it, a click on a title sorts."""
        if event.y == 0:
            self._click_title(event.x)
            return
        row = event.y - 1 + round(self.scroll_offset.y)
        if row >= len(self._keys):
            return
        if row == self._at:
            self.action_open()
        else:
            self._go(row)

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """The wheel moves the cursor, from which the keys go on."""
        self._roll(event, 1)

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """The same, the other way."""
        self._roll(event, -1)

    def _roll(self, event: events.MouseEvent, by: int) -> None:
        event.stop()
        event.prevent_default()
        self.action_move(by * ROLL)

    def on_mouse_move(self, event: events.MouseMove) -> None:
        """The row that a click would take stands out."""
        row = event.y - 1 + round(self.scroll_offset.y)
        self._hover(row if event.y and row < len(self._keys) else None)

    def on_leave(self) -> None:
        """None stands out any more."""
        self._hover(None)

    def _hover(self, row: int | None) -> None:
        was, self._under = self._under, row
        for each in (was, row):
            if each is not None and was != row:
                self.refresh_lines(1 + each)

    def _click_title(self, x: int) -> None:
        start = 1
        for number, size in enumerate(self._widths(self.scrollable_size.width)):
            if start <= x < start + size + GAP:
                self.post_message(self.TitleClicked(self, number))
            start += size + GAP

    def on_resize(self, event: events.Resize) -> None:
        """Keep the cursor in sight."""
        self.virtual_size = Size(event.size.width, len(self._keys) + 1)
        self._reveal()

    def on_focus(self) -> None:
        """The cursor shows in full colour."""
        self.refresh(Region(0, 0, *self.size))

    def on_blur(self) -> None:
        """The cursor fades."""
        self.refresh(Region(0, 0, *self.size))
