"""The rough-in checks on paper for the wall: big boxes, one a thing, by trade, what is open first."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.dates import echo_date
from store.records.whole import Job
from store.rules.core import cautions
from store.rules.core.checks import Item, items
from store.rules.core.wording import plural
from store.rules.handoff.scope import SCHEDULES
from templates.sheets.layout.page import Block, Boxes, Heading, Page, Table, Words
from templates.sheets.trades.packet import tick


def checklist_page(job: Job) -> Page:
    """Every rough-in check as a page."""
    return Page(
        "Rough-in checklist", job.settings.name, echo_date(job.today, job.manner.day_first), tuple(_blocks(job))
    )


def _blocks(job: Job) -> Iterator[Block]:
    listed = items(job)
    open_items = [item for item in listed if item.open]
    yield Words((f"{plural(len(open_items), 'item')} open of {len(listed)}. Nothing is covered while one is open.",))
    yield Words((cautions.MAINS, cautions.LADDER), "caution")
    order = {trade: at for at, trade in enumerate(SCHEDULES)}
    by_trade: dict[str, list[Item]] = {}
    for item in sorted(open_items, key=lambda each: order.get(each.check.trade, len(order))):  # type: ignore[call-overload]
        by_trade.setdefault(item.check.trade, []).append(item)
    for trade, mine in by_trade.items():
        yield Heading(f"{trade.capitalize()}, {len(mine)} open")
        yield Boxes(tuple(tick(item) for item in mine))
    closed = [tick(item) for item in listed if not item.open]
    if closed:
        yield Heading("Closed")
        yield Table(("item", "what", "how"), tuple((one.key, one.what, one.done) for one in closed))
