"""The panes beside the list: the page of what keys act on, and the drawing; each is made when it is first shown.

The list comes first: it keeps its columns, and the page takes what is left beside it. Where that is too little the page
is hidden until it is asked for, and then it stands under the list.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Literal

from textual.screen import Screen

if TYPE_CHECKING:
    from tui.screen.desk import WorkDesk
    from tui.screen.wall.wall_pane import WallPane
    from tui.shared.panes_kept import Shown
    from tui.widgets.side_page import SidePage

Pane = Literal["drawing", "page"]
LEAST, MOST = 28, 46
"""Cells of the page: narrower it is not read with ease, wider it takes from the list for nothing."""
WIDE, HIGH = 120, 36
"""The size from which on drawing and page are shown without being asked for."""


class Panes:
    """Drawing and page of the screen of a job."""

    def __init__(self, screen: Screen[None], desk: Callable[[], WorkDesk], list_cells: Callable[[], int]) -> None:
        """`list_cells` is how wide the list would be with all of its columns."""
        self._screen, self._desk, self._list_cells = screen, desk, list_cells
        self.wall: WallPane | None = None
        self.page: SidePage | None = None
        self._kept: dict[str, Shown] | None = None

    # --- what is shown ---

    @property
    def size_name(self) -> str:
        """The size as it is remembered by: `wide high`, `narrow low`."""
        width, height = self._screen.size
        return f"{'wide' if width >= WIDE else 'narrow'} {'high' if height >= HIGH else 'low'}"

    def _asked(self) -> dict[str, Shown]:
        if self._kept is None:
            from tui.shared.panes_kept import kept_panes  # after the first paint

            self._kept = kept_panes()
        return self._kept

    def _wanted(self, pane: Pane) -> bool | None:
        """What was asked for at this size; None where nothing was."""
        known = self._asked().get(self.size_name)
        return None if known is None else getattr(known, pane)

    @property
    def beside(self) -> int:
        """Cells beside the list when it has all of its columns."""
        return min(self._screen.size.width - self._list_cells(), MOST)

    @property
    def paged(self) -> bool:
        """True while the page is shown: asked for, or with room for it on a wide screen."""
        wanted = self._wanted("page")
        return wanted if wanted is not None else self._screen.size.width >= WIDE and self.beside >= LEAST

    @property
    def drawing_shown(self) -> bool:
        """True while the drawing is shown above the list."""
        wanted = self._wanted("drawing")
        width, height = self._screen.size
        return wanted if wanted is not None else width >= WIDE and height >= HIGH

    def turn(self, pane: Pane) -> str:
        """Show or hide a pane, and remember that for this size; gives what is said of it."""
        from tui.shared.panes_kept import Shown, keep_panes

        kept = self._asked()
        known = kept.setdefault(self.size_name, Shown())
        now = not (self.paged if pane == "page" else self.drawing_shown)
        setattr(known, pane, now)
        keep_panes(kept)
        return f"{pane.capitalize()} {'shown' if now else 'hidden'} at this size of the terminal"

    # --- the page ---

    def show_page(self, text: str) -> None:
        """Show a text beside the list, or under it where there is no room beside."""
        if self.page is None:
            from tui.widgets.side_page import SidePage

            self.page = SidePage(id="side")
            self._screen.query_one("#middle").mount(self.page)
        room = self.beside
        self._screen.set_class(room < LEAST, "-under")
        self.page.styles.width = "100%" if room < LEAST else room
        self.page.show(text)

    # --- the drawing ---

    @property
    def drawn(self) -> bool:
        """True while keys go to the drawing."""
        return self.wall is not None and self.wall.has_keys

    @property
    def moving(self) -> bool:
        """True while something is moved on the drawing."""
        return self.wall is not None and self.wall.moving

    def selected(self, row: str | None) -> str | None:
        """The key of what keys act on, which is always in sight: on the drawing what is selected there, else the row
        under the cursor. None when there is none."""
        return self.wall.selected if self.wall is not None and self.wall.has_keys else row

    def show_wall(self, tag: str) -> None:
        """Show a thing on the drawing, where there is room for it or it was asked for."""
        screen = self._screen
        asked = screen.has_class("-wall")
        shown = screen.is_mounted and self.drawing_shown
        screen.set_class(shown, "-drawing")
        if not (asked or shown):
            if self.wall is not None and self.wall.has_keys:
                screen.query_one("#table").focus()  # keys never stay with what is out of sight
            return
        if self.wall is None:
            from tui.screen.wall.wall_pane import WallPane  # only a drawing that is shown needs what draws it

            self.wall = WallPane(self._desk())
            screen.mount(self.wall, before="#middle")
        if asked or self.wall.has_keys:
            self.wall.look_again()
        else:
            self.wall.show(tag)

    def open_wall(self, tag: str) -> None:
        """Give the screen to the drawing, and the keys with it."""
        self._screen.add_class("-wall")
        self.show_wall(tag)
        if self.wall is not None:
            self.wall.show(tag)
            self.wall.take_keys()
