"""How far a long piece of work is, on standard error: nothing for what is done within a second."""

from __future__ import annotations

import contextlib
import sys
import time
from collections.abc import Callable, Iterator

from store.measure.text import clean

QUIET_S = 1.0
"""What takes no longer says nothing."""
EVERY_S = 0.5
"""On a terminal a line is written over no more often than this; elsewhere each line stays, so far fewer are written."""
EVERY_ELSEWHERE_S = 10.0


@contextlib.contextmanager
def progress(clock: Callable[[], float] = time.monotonic) -> Iterator[Callable[[str], None]]:
    """Gives what is told how far the work is, as often as one likes; what it writes is a line a person can follow."""
    began = clock()
    at_terminal = sys.stderr is not None and sys.stderr.isatty()
    last = began + QUIET_S - (EVERY_S if at_terminal else EVERY_ELSEWHERE_S)
    written = 0

    def told(words: str) -> None:
        nonlocal last, written
        now = clock()
        if sys.stderr is None or now - began < QUIET_S or now - last < (EVERY_S if at_terminal else EVERY_ELSEWHERE_S):
            return
        last, line = now, f"{clean(words)} ..."
        with contextlib.suppress(OSError):
            print(f"\r{line:{written}}" if at_terminal else line, end="" if at_terminal else "\n",
                  file=sys.stderr, flush=True)  # fmt: skip
        written = max(written, len(line))

    try:
        yield told
    finally:
        if written and at_terminal:
            with contextlib.suppress(OSError):
                print(f"\r{' ' * written}\r", end="", file=sys.stderr, flush=True)
