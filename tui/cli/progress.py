"""How far a long piece of work is, on standard error: nothing for what is done within a second."""

from __future__ import annotations

import contextlib
import sys
import time
from collections.abc import Callable, Iterator

from store.measure.text import clean

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import TextIO

QUIET_S = 1.0
"""What takes no longer says nothing."""
QUIET_ELSEWHERE_S = 5.0
"""The same where nobody watches: in a file or a pipe, where each line stays."""
EVERY_S = 0.5
"""On a terminal a line is written over no more often than this."""
EVERY_ELSEWHERE_S = 10.0


class Line:
    """A line on standard error that is written over on a terminal, and written anew elsewhere."""

    def __init__(self, clock: Callable[[], float] = time.monotonic, *, soon: bool = False) -> None:
        self._clock, self._began, self._written = clock, clock(), 0
        self._to: TextIO | None = sys.stderr
        self.watched = self._to is not None and self._to.isatty()
        quiet, self._every = (QUIET_S, EVERY_S) if self.watched else (QUIET_ELSEWHERE_S, EVERY_ELSEWHERE_S)
        self._next = self._began + (QUIET_S if soon else quiet)

    def tell(self, words: str) -> None:
        """Say how far the work is, where it is time to."""
        now = self._clock()
        if self._to is None or now < self._next:
            return
        self._next, text = now + self._every, f"{clean(words)} ..."
        with contextlib.suppress(OSError, ValueError):
            print(f"\r{text:{self._written}}" if self.watched else text, end="" if self.watched else "\n",
                  file=self._to, flush=True)  # fmt: skip
        self._written = max(self._written, len(text))

    def done(self) -> None:
        """Leave the terminal as it was."""
        if self._written and self.watched:
            with contextlib.suppress(OSError, ValueError):
                print(f"\r{' ' * self._written}\r", end="", file=self._to, flush=True)
        self._written = 0

    def seconds(self) -> int:
        """How long it has taken."""
        return int(self._clock() - self._began)


@contextlib.contextmanager
def progress(clock: Callable[[], float] = time.monotonic) -> Iterator[Callable[[str], None]]:
    """Gives what is told how far the work is, as often as one likes; what it writes is a line a person can follow."""
    line = Line(clock)
    try:
        yield line.tell
    finally:
        line.done()


@contextlib.contextmanager
def working(words: str, *, for_programs: bool = False, soon: bool = False) -> Iterator[None]:
    """For work in one piece: says that it goes on, and for how long, while it does.

    What is read by programs says so only where a person watches; what is known to be long says so `soon` everywhere.
    """
    line = Line(soon=soon)
    if for_programs and not line.watched:
        yield
        return
    import threading  # a command that answers from what it kept has no need of it

    over = threading.Event()

    def watch() -> None:
        while not over.wait(EVERY_S):
            line.tell(f"{words}, {line.seconds()} s")

    watcher = threading.Thread(target=watch, daemon=True)
    watcher.start()
    try:
        yield
    finally:
        over.set()
        watcher.join()
        line.done()
