"""Patterns that are made ready when they are first used: most starts of the program use none of them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cached_property


class Late:
    """A regular expression that is compiled on first use. One that is wrong is told of then, as `re.error`."""

    def __init__(self, pattern: str, flags: re.RegexFlag = re.NOFLAG) -> None:
        self.pattern = pattern
        self._flags = flags

    @cached_property
    def ready(self) -> re.Pattern[str]:
        """The pattern, compiled."""
        return re.compile(self.pattern, self._flags)

    def search(self, text: str) -> re.Match[str] | None:
        """The first place where it is found."""
        return self.ready.search(text)

    def match(self, text: str) -> re.Match[str] | None:
        """Whether a text begins with it."""
        return self.ready.match(text)

    def finditer(self, text: str) -> Iterator[re.Match[str]]:
        """Every place where it is found."""
        return self.ready.finditer(text)

    def findall(self, text: str) -> list[str]:
        """What is found at every place; for patterns with one group at most."""
        return self.ready.findall(text)

    def sub(self, new: str | Callable[[re.Match[str]], str], text: str) -> str:
        """A text with every place of it replaced."""
        return self.ready.sub(new, text)
