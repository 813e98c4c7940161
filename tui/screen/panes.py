"""The panes beside the list: the page of what keys act on, and the drawing; each is made when it is first shown."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.screen import Screen

if TYPE_CHECKING:
    from tui.screen.desk import WorkDesk
    from tui.screen.wall_pane import WallPane
    from tui.widgets.side_page import SidePage


class Panes:
    """Drawing and page of the screen of a job."""

    def __init__(self, screen: Screen[None], desk: Callable[[], WorkDesk]) -> None:
        self._screen, self._desk = screen, desk
        self.wall: WallPane | None = None
        self.page: SidePage | None = None

    @property
    def drawn(self) -> bool:
        """True while keys go to the drawing."""
        return self.wall is not None and self.wall.has_keys

    @property
    def wide(self) -> bool:
        """True where there is room for the page."""
        return self._screen.has_class("-wide")

    def selected(self, row: str | None) -> str | None:
        """The key of what keys act on, which is always in sight: on the drawing what is selected there, else the row
        under the cursor. None when there is none."""
        return self.wall.selected if self.wall is not None and self.wall.has_keys else row

    def show_page(self, text: str) -> None:
        """Show a text beside the list."""
        if self.page is None:
            from tui.widgets.side_page import SidePage

            self.page = SidePage(id="side")
            self._screen.query_one("#middle").mount(self.page)
        self.page.show(text)

    def show_wall(self, tag: str) -> None:
        """Show a thing on the drawing, where there is room for it or it was asked for."""
        screen = self._screen
        asked = screen.has_class("-wall")
        if not (asked or (screen.is_mounted and self.wide and screen.has_class("-high"))):
            return
        if self.wall is None:
            from tui.screen.wall_pane import WallPane  # only a drawing that is shown needs what draws it

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
