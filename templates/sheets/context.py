"""What a sheet needs besides the job, and what a packet still lacks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from store.book.book import Book
from store.records.people import Trade
from store.records.whole import Job
from templates.sheets.catalogue import PACKET, Context


def context_of(book: Book, wall: str = "", paper: str = "", skip: int = 0, scale: str = "", nudge: str = "") -> Context:
    """What a sheet may need besides the job."""
    return Context(
        wall=wall,
        paper=paper,
        scale=scale,
        skip=skip,
        nudge=nudge,
        sign=_sign(book),
        folder=book.path.parent,
        entries=_entries(book),
    )


def missing_of(job: Job, name: str) -> list[str]:
    """What is missing of a packet; nothing for another sheet."""
    if not name.startswith(PACKET):
        return []
    from store.rules.handoff.packet import packet

    found = packet(job, cast(Trade, name.removeprefix(PACKET)))
    return [f"{one.what}{f' ({one.why})' if one.why else ''}" for one in found.missing]


def _entries(book: Book) -> Sequence[dict[str, object]]:
    import msgspec

    return cast("list[dict[str, object]]", msgspec.to_builtins(book.entries()))


def _sign(book: Book) -> str:
    """What tells this job from others for its life: the session in which it was made."""
    entries = book.entries()
    return entries[0].session if entries and entries[0].session else book.path.stem
