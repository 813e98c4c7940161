"""The errors a person can cause, each with the exit status that the command line gives for it."""

from __future__ import annotations

import re


class StudbookError(Exception):
    """Something that the person at the keyboard can put right; its text says how."""

    exit_status = 1

    @property
    def headline(self) -> str:
        """The problem, at most 60 characters where no file is named: the first sentence of the text."""
        return headed(str(self))[0]

    @property
    def remedy(self) -> str:
        """What follows the headline: why, with its numbers, what is safe, and what to do."""
        return headed(str(self))[1]

    @property
    def sentence(self) -> str:
        """The text with a capital, for a place where nothing is said before it; a path or a tag stays as it is."""
        text = str(self)
        return text[:1].upper() + text[1:] if _PLAIN_WORD.match(text) else text


class BadValue(StudbookError, ValueError):
    """A typed value that cannot be read; the text says what would be right."""

    exit_status = 6


_PLAIN_WORD = re.compile(r"[a-z][a-z']*,? ")
_END = re.compile(r"\.\s+|:?\n")
MOST_QUOTED = 20
"""Characters of what was typed that an error repeats, so that its first sentence stays within 60."""


def headed(text: str) -> tuple[str, str]:
    """The first sentence of a refusal and the rest; a list that it announces counts as the rest."""
    end = _END.search(text)
    if end is None:
        return text.strip().removesuffix("."), ""
    return text[: end.start()].strip(), text[end.end() :].strip()


def quoted(typed: str) -> str:
    """What was typed, as an error shows it: its first characters, without the program's own escapes."""
    plain = typed.strip()
    return f'"{plain[:MOST_QUOTED].rstrip()}{"…" if len(plain) > MOST_QUOTED else ""}"'
