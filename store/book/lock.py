"""Waiting for a file lock in turn, but not for ever."""

from __future__ import annotations

import fcntl
import os


def taken(lock: int, patience_s: float) -> bool:
    """Lock an open file, waiting for whoever holds it; False when that takes too long.

    Those who wait in the kernel are served in the order they came. Asking again and again instead could miss every
    short moment between two saves of a busy neighbour.
    """
    try:
        fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        return True
    except BlockingIOError:
        return _waited(lock, patience_s)


def _waited(lock: int, patience_s: float) -> bool:
    from threading import Thread  # only where somebody else is saving at this very moment

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
