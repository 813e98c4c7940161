"""Under which number a record stands in its table of the file."""

from __future__ import annotations

from store.records.whole import serial_of


class Places:
    """The numbers of one kind's records: that of the tag where there is one, else the next that is free."""

    def __init__(self, kind: str, numbers: dict[str, int] | None = None) -> None:
        self._kind = kind
        self._numbers = numbers or {}
        self._taken = set(self._numbers.values())
        self._highest = max(self._taken, default=0)

    def of(self, tag: str) -> int:
        """The number of a tag, given to it now if it has none; once given it stays."""
        if tag not in self._numbers:
            number = serial_of(self._kind, tag)
            # A file edited by hand may hold another record under that number: it is not to be written over.
            number = self._highest + 1 if not number or number in self._taken else number
            self._numbers[tag] = number
            self._taken.add(number)
            self._highest = max(self._highest, number)
        return self._numbers[tag]
