"""The small files that the program keeps for a person on this machine; never in a job's file.

Where a file is gets asked here, since a person may have no place for any: then nothing is read, and nothing kept.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

T = TypeVar("T")


def read_kept(file: Callable[[], Path], of: type[T]) -> dict[str, T]:
    """What was kept under names; nothing where the file is not there or holds something else."""
    import msgspec  # not needed for a first paint

    try:
        return msgspec.json.decode(file().read_bytes(), type=dict[str, of])  # type: ignore[valid-type]
    except (OSError, ValueError, msgspec.MsgspecError):
        return {}


def write_own(file: Callable[[], Path], raw: bytes) -> None:
    """Write a file whole; not being able to is no reason to stop."""
    with contextlib.suppress(OSError):
        path = file()
        path.parent.mkdir(parents=True, exist_ok=True)
        fresh = path.with_suffix(".new")
        fresh.write_bytes(raw)
        fresh.replace(path)
