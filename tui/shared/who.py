"""The name that goes into the history."""

from __future__ import annotations

import os


def who(job_owner: str = "") -> str:
    """The name that goes into the history."""
    if known := os.environ.get("STUDBOOK_NAME") or job_owner:
        return known
    import getpass

    try:
        return getpass.getuser()
    except (ImportError, KeyError, OSError):  # no name in the environment, and no list of users
        return "somebody"
