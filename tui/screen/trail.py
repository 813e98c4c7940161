"""The way back: where the person was before a line, a gate or a find led somewhere else."""

from __future__ import annotations

import msgspec


class Spot(msgspec.Struct, frozen=True):
    """A place in the lists."""

    number: int
    """Of the view."""
    key: str | None = None
    """The row under the cursor."""
    words: str = ""
    subset: str = ""


class Trail:
    """Spots that were left by a jump, the last on top. Whoever goes on by hand needs no way back."""

    def __init__(self) -> None:
        self._spots: list[Spot] = []

    def leave(self, spot: Spot) -> None:
        """Jump from here."""
        self._spots.append(spot)

    def back(self) -> Spot | None:
        """The spot that was left last; None where nobody jumped."""
        return self._spots.pop() if self._spots else None

    def forget(self) -> None:
        """The person went on by hand."""
        self._spots.clear()
