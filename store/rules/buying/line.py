"""One line of the buying list."""

from __future__ import annotations

import msgspec

from store.measure.money import Money


class Line(msgspec.Struct, frozen=True):
    """One line of the buying list."""

    key: str
    """Stable name of the line."""
    group: str
    what: str
    count: int
    where: str
    tags: tuple[str, ...]
    """The records it comes from."""
    each: Money | None = None
    """Price of one, where it is known and the same for all."""
    total: Money | None = None
    """Price of all whose price is known; None while none is."""
    unpriced: int = 0
    """How many of them have no price."""
    cuts: tuple[str, ...] = ()
    """For a spool: what to cut from it, in order, and what is left."""
    note: str = ""
    part: str = ""
    """The small part that it is, as its records call it."""
    spool: str = ""
    """For a spool: what its cables note of it once it is at hand."""
