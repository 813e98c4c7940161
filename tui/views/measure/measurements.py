"""Measurements: each wall with its readings and what is in its way; the least reading governs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from store.measure.length import Length, show_length, show_pair, show_size
from store.records.base import Record
from store.records.room import Furniture
from store.records.wall import BuildOut, Obstacle, Reading, Wall, Zone
from store.rules.core.proposed import rough_sizes
from store.rules.core.wording import date_text, plural
from store.rules.wall.readings import sizes
from store.rules.wall.squareness import corners
from tui.view.state import State
from tui.view.view import View, tag_order
from tui.widgets.record_table import Column, Line

ONLY: dict[str, type[Record]] = {
    "walls": Wall, "readings": Reading, "build-outs": BuildOut, "finish zones": Zone, "obstacles": Obstacle,
    "furniture": Furniture,
}  # fmt: skip
"""What each filter leaves."""


class Measurements(View):
    """Walls, and under each what was read of it."""

    name = "measurements"
    title = "Measurements"
    about = (
        "Walls, their readings and what is in the way. Take each size at three places: build to the smallest. "
        "The difference to the largest is what a scribed edge must cover."
    )
    first = "a = add a reading: which wall, width or height, and what the tape shows."
    sheets = ("measuring",)
    kinds = (Reading, Wall, BuildOut, Zone, Obstacle, Furniture)
    filters = ("all", "walls", "readings", "build-outs", "finish zones", "obstacles", "furniture")

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, what, where, reading, date, by, remark."""
        return (
            Column("tag", 4),
            Column("what", 13),
            Column("where", 15, grow=True),
            Column("reading", 11, right=True),
            Column("remark", 26, grow=True),
            Column("date", 11),
            Column("by", 8),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """Each wall, its readings by what was read, its obstacles."""
        job = state.job
        below: dict[str, list[Record]] = {tag: [] for tag in job.of(Wall)}
        for reading in sorted(job.of(Reading).values(), key=lambda each: (each.what == "diagonal", each.what)):
            below.setdefault(reading.wall, []).append(reading)
        under_walls: list[BuildOut | Zone | Obstacle] = [*job.of(BuildOut).values(), *job.of(Zone).values()]
        for each in (*under_walls, *job.of(Obstacle).values(), *job.of(Furniture).values()):
            below.setdefault(each.wall, []).append(each)
        listed: list[Record] = []
        for tag, under in below.items():
            wall = job.of(Wall).get(tag)
            listed += [wall, *under] if wall else under
        only = ONLY.get(chosen)
        return [each for each in listed if only is None or isinstance(each, only)]

    def line(self, state: State, row: Any) -> Line:
        """A wall as a heading, a reading with what it means, an obstacle with its place."""
        metric = state.job.settings.metric
        if isinstance(row, Wall):
            return Line((row.tag, "wall", row.name, "", _wall_remark(state, row.tag), "", ""), "head")
        if isinstance(row, BuildOut | Zone):
            return _box_line(row, metric)
        if isinstance(row, Furniture):
            size = (
                f"{show_length(row.width, metric)} × {show_size(row.depth, metric)} × {show_size(row.height, metric)}"
            )
            place = f"{row.name}, at {show_length(row.x, metric)}, {show_length(row.off, metric)} off"
            return Line((row.tag, " furniture", place, "", size, "", ""))
        if isinstance(row, Obstacle):
            size = show_pair(row.width, row.height, metric)
            place = f"at {show_length(row.x, metric)}, up {show_length(row.y, metric)}"
            return Line((row.tag, f" {row.what}", place, "", size, "", ""))
        remark, tone = _reading_remark(state, row)
        day = date_text(state.job, row.date) if row.date else ""
        return Line((row.tag, f" {row.what}", row.where, show_length(row.value, metric), remark, day, row.by), tone)

    def order(self, state: State, row: Any, column: int) -> Any:
        """Readings by value."""
        if column == 0:
            return tag_order(row.tag)
        if column == 3:
            return row.value.nm if isinstance(row, Reading) else None
        if column == 5:
            return row.date.toordinal() if isinstance(row, Reading) and row.date else None
        return super().order(state, row, column)

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many of each."""
        job = state.job
        always = ((Wall, "wall"), (Reading, "reading"))
        some = (
            (Obstacle, "obstacle"), (BuildOut, "build-out"), (Zone, "finish zone"), (Furniture, "furniture piece"),
        )  # fmt: skip
        counted = [plural(len(job.of(cls)), one) for cls, one in always]
        counted += [plural(len(job.of(cls)), one) for cls, one in some if job.of(cls)]
        return ", ".join(counted) + ". The smallest reading governs."

    def start_values(self, state: State, key: str | None, cls: type[Record]) -> dict[str, Any]:
        """The wall under the cursor, and for a reading the same size again."""
        row = state.job.get(key) if key else None
        if row is None or cls is Wall:
            return {}
        wall = row.tag if isinstance(row, Wall) else getattr(row, "wall", "")
        values: dict[str, Any] = {"wall": wall}
        if cls is Reading:
            values["date"] = state.job.today
            if isinstance(row, Reading):
                values |= {"what": row.what, "by": row.by}
        return values


def _box_line(row: BuildOut | Zone, metric: bool) -> Line:
    """A build-out or a finish zone: its name and place, how far it comes out, its size."""
    what = " build-out" if isinstance(row, BuildOut) else " finish"
    far = row.depth if isinstance(row, BuildOut) else row.thickness
    high = "wide, to the ceiling" if row.height is None else f"x {show_length(row.height, metric)}"
    place = f"at {show_length(row.x, metric)}, up {show_length(row.y, metric)}"
    size = f"{show_length(row.width, metric)} {high}, {show_size(far, metric)} out"
    return Line((row.tag, what, f"{row.name}, {place}", "", size, "", ""))


def _wall_remark(state: State, tag: str) -> str:
    metric = state.job.settings.metric
    found = [
        f"{what} {show_length(size.least, metric)}"
        for (wall, what), size in sizes(state.job).items()
        if wall == tag and what in ("width", "height")
    ]
    return "build to " + ", ".join(found) if found else "no readings yet"


def _reading_remark(state: State, row: Reading) -> tuple[str, str]:
    """What a reading means among its kind, and the tone it is shown in."""
    corner = next((each for each in corners(state.job).get(row.wall, ()) if each.tag == row.tag), None)
    if corner is not None and corner.found is not None:
        off = show_size(Length(abs(corner.found.off_nm)), state.job.settings.metric)
        way = "open" if corner.found.off_nm > 0 else "closed"
        told = f"{corner.found.angle_deg:.1f}°" + (f", {way} by {off}" if corner.found.off_nm else "")
        return (f"! {told}", "warn") if abs(corner.found.off_nm) > state.job.settings.tolerance.nm else (told, "")
    if row.tag in rough_sizes(state.job):
        return "rough, counts no more", ""
    size = sizes(state.job)[row.wall, row.what]
    if len(size.tags) == 1:
        return "only one reading", ""
    metric = state.job.settings.metric
    beyond = row.what in ("width", "height", "depth") and size.spread > state.job.settings.tolerance
    if row.tag == size.least_tag:
        spread = f"governs, spread {show_length(size.spread, metric)}"
        return (f"! {spread}", "warn") if beyond else (spread, "")
    if row.value == size.least:
        return "the same", ""
    return f"+{show_length(row.value - size.least, metric)}", ""
