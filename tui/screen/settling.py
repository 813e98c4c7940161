"""What comes right after the first paint: the whole file is read, and what follows from it is shown."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from store.measure.errors import StudbookError
from tui.screen.half_filled import offer
from tui.screen.looking import Looking
from tui.shared.recent import remember
from tui.widgets.typed import TypedLine

if TYPE_CHECKING:
    from tui.screen.host import Host
    from tui.screen.job_screen import JobScreen

LOOK_EVERY_S = 0.8
"""How often the file is looked at for somebody else's change: one stat."""


async def settle(screen: JobScreen) -> Looking | None:
    """Make the screen whole; gives what looks for other people's changes, or None where the job cannot be read."""
    words = "filter: words, a tag, a trade   Enter = keep  Esc = clear"
    screen.filter_line = TypedLine(placeholder=words, id="filter", compact=True)
    await screen.mount(screen.filter_line, before="#middle")
    host = cast("Host", screen.app)
    try:
        screen.book.audit()
    except StudbookError as error:
        host.give_up(error)
        return None
    screen.desk.begin()
    host.collect()
    remember(screen.book.path)

    def say(words: str, bad: bool) -> None:
        screen.say_line.say(words, bad=bad)

    looking = Looking(screen.app, screen.desk, say)
    screen.set_interval(LOOK_EVERY_S, screen.look)
    offer(screen, screen.desk)
    return looking
