"""The rough-in items on paper for the wall: by place, what is open first."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.dates import echo_date
from store.records.whole import Job
from store.rules.core import cautions
from store.rules.core.checks import items
from store.rules.core.wording import plural
from templates.sheets.layout.page import Block, Heading, Page, Table, Words
from templates.sheets.trades.check_grid import grids
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
    yield from grids(job, open_items)
    closed = [tick(item) for item in listed if not item.open]
    if closed:
        yield Heading("Signed off")
        yield Table(("item", "what", "how"), tuple((one.key, one.what, one.done) for one in closed))
