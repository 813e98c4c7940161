"""Counts with the right noun: `1 box`, `2 boxes`, `No items`."""

from __future__ import annotations

_IRREGULAR = {"knife": "knives", "equipment": "equipment", "person": "people", "foot": "feet", "is": "are",
              "has": "have", "needs": "need", "was": "were", "does": "do", "its": "their", "it": "them"}  # fmt: skip


def many(one: str) -> str:
    """The plural of a noun, or of a phrase that ends in one: `rough-in items`, `boxes`, `bodies`."""
    front, space, last = one.rpartition(" ")
    if last in _IRREGULAR:
        return f"{front}{space}{_IRREGULAR[last]}"
    if last.endswith(("s", "x", "z", "ch", "sh")):
        return f"{one}es"
    if last.endswith("y") and last[-2:-1] not in "aeiou":
        return f"{one[:-1]}ies"
    return f"{one}s"


def plural(count: int, one: str, several: str = "") -> str:
    """`1 item`, `2 items`, `1,200 items`; `several` where the plural is made by hand."""
    return f"{count:,} {one if count == 1 else several or many(one)}"


def some(count: int, one: str, several: str = "") -> str:
    """The same to begin a sentence or to stand alone: `No items`, never a count of 0."""
    return plural(count, one, several) if count else f"No {several or many(one)}"


def verb(count: int, one: str = "is", several: str = "are") -> str:
    """The verb that suits a count."""
    return one if count == 1 else several


def some_of(done: int, total: int, what: str) -> str:
    """`12 of 184 signed off`."""
    return f"{done:,} of {total:,} {what}"


def a_one(what: str) -> str:
    """A noun with its article: `a wall`, `an opening`, `an access panel`."""
    return f"{'an' if what[:1].lower() in tuple('aeio') else 'a'} {what}"
