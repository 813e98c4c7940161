"""Which panes a person shows beside the list, by the size of the terminal; kept per person, never in a job's file."""

from __future__ import annotations

import contextlib
from pathlib import Path

import msgspec

from store.book.ground.own_folder import own_folder


class Shown(msgspec.Struct):
    """What was asked for at a size; None where nothing was, and the program decides."""

    drawing: bool | None = None
    page: bool | None = None


def _file() -> Path:
    return own_folder("XDG_STATE_HOME", ".local/state") / "panes.json"


def kept_panes() -> dict[str, Shown]:
    """What was asked for, by the name of a size."""
    try:
        return msgspec.json.decode(_file().read_bytes(), type=dict[str, Shown])
    except (OSError, ValueError, msgspec.MsgspecError):
        return {}


def keep_panes(kept: dict[str, Shown]) -> None:
    """Remember it; not being able to is no reason to stop."""
    with contextlib.suppress(OSError):
        file = _file()
        file.parent.mkdir(parents=True, exist_ok=True)
        fresh = file.with_suffix(".new")
        fresh.write_bytes(msgspec.json.encode(kept))
        fresh.replace(file)
