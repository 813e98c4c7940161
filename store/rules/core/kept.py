"""Keeping what was worked out for each record for as long as all that it was worked out from is the very same."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

T = TypeVar("T")
MOST_KEPT = 100_000


class Kept(Generic[T]):
    """Answers by key, each with what it was made from; an answer is made anew when one of these is another object.

    Records never change, so the same object says the same.
    """

    def __init__(self) -> None:
        self._ground: tuple[object, ...] = ()
        self._found: dict[str, tuple[tuple[object, ...], T]] = {}

    def stand_on(self, *ground: object) -> None:
        """What all answers are made from: when one of these is another object, all are made anew."""
        if not _same(ground, self._ground):
            self._ground = ground
            self._found.clear()

    def get(self, key: str, inputs: tuple[object, ...], make: Callable[[], T]) -> T:
        """The answer of a key, made anew when one of the inputs is another object."""
        found = self._found.get(key)
        if found is not None and _same(found[0], inputs):
            return found[1]
        made = make()
        if len(self._found) > MOST_KEPT:
            self._found.clear()
        self._found[key] = (inputs, made)
        return made

    def drop(self, key: str) -> None:
        """Forget the answer of a key: it was made from more than its inputs."""
        self._found.pop(key, None)


def _same(one: tuple[object, ...], other: tuple[object, ...]) -> bool:
    return len(one) == len(other) and all(a is b for a, b in zip(one, other, strict=True))
