"""The errors a person can cause, each with the exit status that the command line gives for it."""

from __future__ import annotations


class StudbookError(Exception):
    """Something that the person at the keyboard can mend; its text says how."""

    exit_status = 1


class BadValue(StudbookError, ValueError):
    """A typed value that cannot be read; the text says what would be right."""

    exit_status = 6
