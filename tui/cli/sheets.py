"""What makes and reads files: sheets, and lists as csv. Nothing here imports the screen."""

from __future__ import annotations

import tui.shared.quick  # isort: skip  # noqa: F401 - first, for what it does
import argparse
from pathlib import Path
from typing import cast

from store.book.book import Book
from store.book.changes import add
from store.records.people import Trade
from store.rules.gate.guard import Held
from templates.sheets.catalogue import FORMS, PACKET, NoSheet, make, sheet_named, usual_form
from templates.sheets.context import context_of, missing_of
from tui.shared.made import PACKETS, Made


def make_sheets(options: argparse.Namespace, who: str) -> tuple[list[Made], bool]:
    """The sheets that the words ask for, and whether any of them has anything that is not in the job's file."""
    book = Book.open(options.job, who)
    form = options.format or _form_of(options.to)
    if options.sheet == PACKETS:
        from store.rules.handoff.packet import trades_with_packets

        names = [f"{PACKET}{trade}" for trade in trades_with_packets(book.job)]
    else:
        names = [options.sheet]
    context = context_of(book, options.wall.upper(), options.paper, options.skip, options.scale, options.nudge)
    sheets = []
    for name in names:
        one = form or usual_form(name)
        sheets.append(Made(name, one, make(name, one, book.job, context), missing_of(book.job, name)))
    return sheets, any(sheet_named(name).pictures for name in names)


def give(path: Path, who: str, name: str, draft: bool) -> None:
    """Note that a packet is given today. Raises Held for a draft."""
    from store.rules.handoff.packet import handed

    book = Book.open(path, who)
    if draft:
        raise Held(f"{name} is still a draft. It was printed, not entered as sent: fill in what it needs first.")
    trade = cast(Trade, name.removeprefix(PACKET))
    point = max((entry.n for entry in book.entries()), default=0)
    book.act(f"Send the packet to the {trade}", lambda job: [add(handed(job, trade, point))])
    print(f"sent at change {point}")


def _form_of(to: str | None) -> str:
    ending = Path(to).suffix.removeprefix(".").lower() if to and to != "-" else ""
    if ending and ending not in FORMS and not Path(to or "").is_dir():
        raise NoSheet(f"{to}: no sheet comes as .{ending}. Use one of: {', '.join(FORMS)}")
    return ending if ending in FORMS else ""
