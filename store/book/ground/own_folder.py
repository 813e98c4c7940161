"""Who runs the program, and where their own small files are: on each system where that has its place for them."""

from __future__ import annotations

import os
from pathlib import Path


def own_number() -> int | None:
    """The number of who runs the program; None where people have no numbers."""
    ask = getattr(os, "geteuid", None)
    return ask() if ask else None


def own_folder(variable: str, usual: str) -> Path:
    """A folder of this person's: as a variable of the environment says, or the usual one below the home.

    Raises FileNotFoundError where there is none. What the variable says counts only when it is a full path: from where
    one happens to be it would be another folder each time.
    """
    for name in (variable, "LOCALAPPDATA") if os.name == "nt" else (variable,):
        base = Path(os.environ.get(name, ""))
        if base.is_absolute():
            return base / "studbook"
    base = Path(os.path.expanduser("~"), usual)  # noqa: PTH111 - Path.expanduser raises where nobody has a home
    if not base.is_absolute():
        raise FileNotFoundError("this user has no home folder")
    return base / "studbook"
