"""The jobs that were open last; kept per person, never in a job's file."""

from __future__ import annotations

from pathlib import Path

from store.book.ground.own_folder import own_folder
from tui.shared.own_file import write_own

MOST = 9
"""How many are remembered: one digit key each on the start page."""


def _file() -> Path:
    return own_folder("XDG_STATE_HOME", ".local/state") / "recent.json"


def recent() -> list[Path]:
    """The jobs opened last that still exist, newest first."""
    import json  # not needed for a first paint

    try:
        listed = json.loads(_file().read_text("utf-8"))
    except (OSError, ValueError):
        return []
    if not isinstance(listed, list):
        return []
    return [path for each in listed if isinstance(each, str) and (path := Path(each)).is_file()][:MOST]


def remember(path: Path) -> None:
    """Put a job on top of the list; not being able to is no reason to stop."""
    path = path.absolute()
    listed = [str(path), *(str(each) for each in recent() if each != path)][:MOST]
    import json

    write_own(_file, json.dumps(listed, indent=1).encode("utf-8"))
