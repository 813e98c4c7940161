"""Where a walk was left, per job and per person on this machine; never in a job's file."""

from __future__ import annotations

from pathlib import Path

import msgspec

from store.book.ground.own_folder import own_folder
from tui.shared.own_file import read_kept, write_own

MOST = 20
"""Jobs that are remembered; the ones walked longest ago go first."""
MOST_WORDS = 40


class Walked(msgspec.Struct):
    """What is remembered of a walk."""

    at: str = ""
    """The item."""
    by: str = ""
    """Its order."""
    name: str = ""
    """Who signs off."""
    words: dict[str, str] = {}
    """What was written last, by what the item was about."""


def _file() -> Path:
    return own_folder("XDG_STATE_HOME", ".local/state") / "walks.json"


def _all() -> dict[str, Walked]:
    return read_kept(_file, Walked)


def walked(path: Path) -> Walked:
    """What is remembered of the walk through a job; nothing yet where there is none."""
    return _all().get(str(path.absolute()), Walked())


def keep_walk(path: Path, walk: Walked) -> None:
    """Remember a walk; not being able to is no reason to stop."""
    kept = _all()
    kept.pop(str(path.absolute()), None)
    kept[str(path.absolute())] = msgspec.structs.replace(walk, words=dict(list(walk.words.items())[-MOST_WORDS:]))
    write_own(_file, msgspec.json.encode(dict(list(kept.items())[-MOST:])))
