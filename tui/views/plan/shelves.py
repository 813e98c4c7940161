"""Shelves and dividers inside the openings: where each is, what stands on it, the room over it, how far it sags."""

from __future__ import annotations

from typing import Any

from store.measure.length import Length, show_length, show_size
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.figures import figures_on
from store.rules.core.memo import once
from store.rules.core.wording import plural
from store.rules.wall.inside import insides
from tui.view.state import State
from tui.view.view import KindView, tag_order
from tui.widgets.record_table import Column, Line


@once
def _standing(job: Job) -> dict[str, tuple[str, ...]]:
    """What stands on each shelf, and on that, from the left."""
    found: dict[str, tuple[str, ...]] = {}
    for there in insides(job).values():
        order = sorted(there.stands.values(), key=lambda each: (each.left_nm, each.bottom_nm))
        for each in order:
            found[each.floor] = (*found.get(each.floor, ()), each.tag)
    return found


class Shelves(KindView):
    """Each shelf and divider with its place inside its opening."""

    name = "shelf"
    title = "Shelves"
    about = (
        "Shelves and dividers inside cabinets and other openings. Heights are inside: from the bottom of the opening "
        "to the top of a shelf. On the page of a piece of equipment, “sits on” says on which shelf it is, on what "
        "other equipment, or with the opening's own tag on its bottom. Enter = the space over it and its sag."
    )
    first = "a = add the shelves of the equipment cabinet, then enter on what each device stands."
    kinds = (ShelfBoard,)

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, opening, kind, place inside, off the floor, room over it, sag, what stands there."""
        return (
            Column("tag", 5),
            Column("in", 4),
            Column("kind", 10),
            Column("inside", 9, right=True),
            Column("off floor", 9, right=True),
            Column("clear above", 11, right=True),
            Column("on it", 14, grow=True),
            Column("name", 10, grow=True),
        )

    def line(self, state: State, row: Any) -> Line:
        """One board; a mark where something is wrong with it."""
        metric, found = state.job.settings.metric, figures_on(state.job, row.tag)
        divider = row.what == "divider"
        place = row.along if divider else row.up
        inside = show_size(place, metric) if place is not None else "?"
        off, over = found.get("top_off_floor"), found.get("clear_over")
        wrong = state.wrong(row.tag)
        return Line(
            (
                f"{row.tag}{'!' if wrong else ''}",
                str(row.opening),
                row.what.removesuffix(" shelf"),
                f"{inside} {'in' if divider else 'up'}",
                show_length(off, metric) if isinstance(off, Length) else "",
                show_size(over, metric) if isinstance(over, Length) else "",
                " ".join(_standing(state.job).get(row.tag, ())),
                row.name,
            ),
            "warn" if wrong else "",
        )

    def order(self, state: State, row: Any, column: int) -> Any:
        """Lengths by value."""
        if column == 0:
            return tag_order(row.tag)
        if column == 3:
            place = row.along if row.what == "divider" else row.up
            return place.nm if place is not None else None
        if column in (4, 5):
            value = figures_on(state.job, row.tag).get("top_off_floor" if column == 4 else "clear_over")
            return value.nm if isinstance(value, Length) else None
        return self.line(state, row).cells[column].lower() or None

    def start_values(self, state: State, key: str | None, cls: type[Any]) -> dict[str, Any]:
        """The opening of the shelf under the cursor; else the only cabinet."""
        row = state.job.get(key) if key else None
        if isinstance(row, ShelfBoard):
            return {"opening": row.opening, "what": row.what}
        made = [tag for tag, one in state.job.of(Opening).items() if one.use == "equipment"]
        return {"opening": made[0]} if len(made) == 1 else {}

    def summary(self, state: State, rows: Any) -> str:
        """How many, and how much stands on them."""
        shelves = sum(row.what != "divider" for row in rows)
        on = sum(len(_standing(state.job).get(row.tag, ())) for row in rows)
        dividers = len(rows) - shelves
        counts = [
            plural(shelves, "shelf", "shelves") if shelves else "",
            plural(dividers, "divider") if dividers else "",
            f"{plural(on, 'piece')} of equipment on {'it' if shelves == 1 else 'them'}" if on else "",
        ]
        return ", ".join(each for each in counts if each) or "No shelves yet"
