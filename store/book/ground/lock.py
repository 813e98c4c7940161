"""Waiting for a file lock in turn, but not for ever; by what the system has for it."""

from __future__ import annotations

import contextlib
import errno
import os
import time
from collections.abc import Callable

ASK_AGAIN_S = 0.02
MOST_NOTE = 200


def _in_silence(words: str) -> object:
    return words


tell: Callable[[str], object] = _in_silence
"""Told who is saving when waiting for that takes a moment; a command line says it on standard error."""

try:
    import fcntl
except ImportError:  # Windows
    fcntl = None  # type: ignore[assignment]


def taken(lock: int, patience_s: float) -> bool:
    """Lock an open file, waiting for whoever holds it; False when that takes too long.

    Those who wait in the kernel are served in the order they came. Asking again and again instead could miss every
    short moment between two saves of a busy neighbour; where the system has no waiting with an end, it is done so.
    """
    if fcntl is None:
        return _asked_again(_byte_lock(lock), patience_s)
    try:
        fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        return True
    except BlockingIOError:
        return _waited(lock, patience_s)


def _waited(lock: int, patience_s: float) -> bool:
    from threading import Thread  # only where someone else is saving at this very moment

    got: list[bool] = []
    # The lock belongs to the open file: held through one descriptor, it is held through the other. With one of its
    # own, the waiter comes to its end by itself, also after nobody cares any more.
    own = os.dup(lock)

    def wait() -> None:
        try:
            fcntl.flock(own, fcntl.LOCK_EX)
            got.append(True)
        finally:
            os.close(own)

    waiter = Thread(target=wait, name="waiting for the job file", daemon=True)
    waiter.start()
    waiter.join(max(0.0, patience_s))
    return bool(got)


def _byte_lock(lock: int) -> Callable[[], bool]:
    """Windows locks bytes of a file; the system lets go of them when the file is closed, also by a kill.

    The byte lies far behind what is written into the file, so that others can still read who holds it.
    Raises OSError on a system that has neither way: without a lock nothing is saved.
    """
    try:
        import msvcrt
    except ImportError as error:
        raise OSError(errno.ENOLCK, "this system has no locks for files") from error

    def ask() -> bool:
        os.lseek(lock, 1 << 30, os.SEEK_SET)
        try:
            msvcrt.locking(lock, msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined,unused-ignore]
        except OSError:
            return False
        return True

    return ask


def _asked_again(ask: Callable[[], bool], patience_s: float) -> bool:
    end = time.monotonic() + patience_s
    while not ask():
        if time.monotonic() >= end:
            return False
        time.sleep(ASK_AGAIN_S)
    return True


def sign(lock: int, who: str) -> None:
    """Write into the lock file who holds it; for whoever waits, so a failure is no reason to stop."""
    with contextlib.suppress(OSError, ValueError):
        note = f"{who}, process {os.getpid()} on {machine()}".encode("utf-8", "replace")[:MOST_NOTE]
        os.lseek(lock, 0, os.SEEK_SET)
        os.ftruncate(lock, 0)
        os.write(lock, note)


def holder(lock: int) -> str:
    """Who holds it, as that one signed it; empty where nobody did."""
    from store.measure.text import clean

    try:
        os.lseek(lock, 0, os.SEEK_SET)
        return clean(os.read(lock, MOST_NOTE).decode("utf-8", "replace")).strip()
    except OSError:
        return ""


def machine() -> str:
    """The name of this machine, as far as the system tells it without asking the network."""
    ask = getattr(os, "uname", None)
    return ask().nodename if ask else os.environ.get("COMPUTERNAME", "this machine")
