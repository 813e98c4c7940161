"""The errors a person can cause, each with the exit status that the command line gives for it."""

from __future__ import annotations


class StudbookError(Exception):
    """Something that the person at the keyboard can put right; its text says how."""

    exit_status = 1


class BadValue(StudbookError, ValueError):
    """A typed value that cannot be read; the text says what would be right."""

    exit_status = 6


def quoted(typed: str) -> str:
    """What was typed, as an error shows it: the first 40 characters, without the program's own escapes."""
    plain = typed.strip()
    return f'"{plain[:40]}{"…" if len(plain) > 40 else ""}"'
