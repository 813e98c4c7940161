"""What comes right after the first paint: the whole file is read, and what follows from it is shown."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, cast

from textual.screen import Screen

from store.measure.errors import StudbookError
from tui.screen.desk import WorkDesk
from tui.screen.half_filled import offer
from tui.screen.looking import Looking
from tui.shared.recent import remember
from tui.widgets.typed import TypedLine

if TYPE_CHECKING:
    from tui.screen.host import Host

LOOK_EVERY_S = 0.8
"""How often the file is looked at for somebody else's change: one stat."""


def filter_line() -> TypedLine:
    """The line to narrow a list by words; the first paint has none."""
    words = "filter: words, a tag, a trade   Enter = keep  Esc = clear"
    return TypedLine(placeholder=words, id="filter", compact=True)


def settle(screen: Screen[None], desk: WorkDesk, say: Callable[[str, bool], None]) -> Looking | None:
    """Make the screen whole; gives what looks for other people's changes, or None where the job cannot be read."""
    host = cast("Host", screen.app)
    try:
        desk.book.audit()
    except StudbookError as error:
        host.give_up(error)
        return None
    desk.begin()
    host.collect()
    remember(desk.book.path)
    looking = Looking(screen.app, desk, say)
    screen.set_interval(LOOK_EVERY_S, looking.look)
    offer(screen, desk)
    if host.photos is not None:
        from tui.acts.photos.photo_sorting import sort_folder  # brings the pictures

        folder, host.photos = host.photos, None
        sort_folder(screen.app, desk, folder)
    return looking
