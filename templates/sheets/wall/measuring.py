"""A blank sheet to measure by: every reading that the program asks for, with room for figures written by hand."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.dates import echo_date
from store.measure.length import show_length
from store.records.wall import Obstacle, Reading, Wall
from store.records.whole import Job
from store.rules.core.cautions import LADDER, PLANNING
from store.rules.core.wording import local, named, said
from store.rules.wall.squareness import LEG_METRIC_NM, LEG_NM
from templates.sheets.layout.page import Block, Heading, Page, Signatures, Table, Words

BLANK_ROWS = 8
"""Rows for what is on the wall already."""
PLACES: tuple[tuple[str, str], ...] = (
    ("width", "at the floor"),
    ("width", "half way up"),
    ("width", "at the ceiling"),
    ("height", "left end"),
    ("height", "middle"),
    ("height", "right end"),
    ("diagonal", "lower left to upper right"),
    ("diagonal", "lower right to upper left"),
    ("left corner", "3 along this wall, 4 along the next"),
    ("right corner", "3 along this wall, 4 along the next"),
    ("depth", "left end"),
    ("depth", "right end"),
    ("out of plumb", "left end, over the height"),
    ("out of plumb", "right end, over the height"),
)
"""What is read where; three places for a size, the smallest rules."""
STUDS = (
    "first stud, left edge from the left corner",
    "center to center, over five bays",
    "thickness of one stud",
    "depth of one stud",
    "thickness of the drywall",
)
BEFORE = (
    "Mark the left corner and the finished floor: everything counts from there.",
    "Read each size twice and write both. Where they differ by more than the tolerance, read once more.",
    "Left and right are as you face the wall.",
)


def measuring_page(job: Job) -> Page:
    """The sheet: a set of tables for each wall, or one set where no wall is on the list yet."""
    return Page("Measuring sheet", job.settings.name, echo_date(job.today, job.manner.day_first), tuple(_blocks(job)))


def _blocks(job: Job) -> Iterator[Block]:
    yield Words((LADDER, PLANNING), "caution")
    yield Words((*(local(job, each) for each in BEFORE), _corner(job)), "numbers")
    for tag in [*job.of(Wall)] or [""]:
        yield Heading(named(job, tag) if tag else "Wall: ____________________")
        yield Table(("what", "where", "entered", "1st", "2nd"), tuple(_sizes(job, tag)), tall=True)
        yield Heading(local(job, "Studs"))
        yield Table(("what", "1st", "2nd"), tuple((local(job, each), "", "") for each in STUDS), tall=True)
        yield Heading("On the wall now: vents, windows, switches, receptacles, trim")
        yield Table(("what", "from left", "off the floor", "width", "height"), tuple(_obstacles(job, tag)), tall=True)
    yield Signatures(("measured by", "date", "with (tape or laser)"))


def _corner(job: Job) -> str:
    """How a corner is read."""
    four = LEG_METRIC_NM if job.settings.metric else LEG_NM
    own, other, across = (said(job, four * part // 4) for part in (3, 4, 5))
    return f"At a corner, mark {own} along this wall and {other} along the next, and read across: {across} is square."


def _sizes(job: Job, wall: str) -> Iterator[tuple[str, ...]]:
    """What is to be read, with what was entered of it before: the newest of each kind stands beside its first place."""
    known: dict[str, list[str]] = {}
    for one in job.of(Reading).values():
        if one.wall == wall:
            where = f" ({one.where})" if one.where else ""
            known.setdefault(one.what, []).append(f"{show_length(one.value, job.settings.metric)}{where}")
    told: set[str] = set()
    for what, where in PLACES:
        before = "; ".join(known.get(what, ())) if what not in told else ""
        told.add(what)
        yield what, where, before, "", ""


def _obstacles(job: Job, wall: str) -> Iterator[tuple[str, ...]]:
    metric = job.settings.metric
    for tag, one in job.of(Obstacle).items():
        if one.wall == wall:
            yield f"{tag} {one.what}", *(show_length(each, metric) for each in (one.x, one.y, one.width, one.height))
    yield from [("", "", "", "", "")] * BLANK_ROWS
