"""Which panes a person shows beside the list, by the size of the terminal; kept per person, never in a job's file."""

from __future__ import annotations

from pathlib import Path

import msgspec

from store.book.ground.own_folder import own_folder
from tui.shared.own_file import read_kept, write_own


class Shown(msgspec.Struct):
    """What was asked for at a size; None where nothing was, and the program decides."""

    drawing: bool | None = None
    page: bool | None = None


def _file() -> Path:
    return own_folder("XDG_STATE_HOME", ".local/state") / "panes.json"


def kept_panes() -> dict[str, Shown]:
    """What was asked for, by the name of a size."""
    return read_kept(_file, Shown)


def keep_panes(kept: dict[str, Shown]) -> None:
    """Remember it; not being able to is no reason to stop."""
    write_own(_file, msgspec.json.encode(kept))
