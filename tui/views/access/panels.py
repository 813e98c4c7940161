"""Access panels: what is behind each, and the log of their openings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from store.measure.counts import some
from store.measure.length import show_pair
from store.records.access import Panel, Visit
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.wiring import Cable
from store.rules.access.panel_contents import panel_contents
from store.rules.access.steps import thing_lines
from store.rules.core.wording import date_text, plural
from tui.acts.reaching import show_way
from tui.acts.replacing import change
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, KindView
from tui.widgets.record_table import Column, Line


def _log(desk: Desk, key: str) -> None:
    row = desk.state.job.get(key)
    panel = row.panel if isinstance(row, Visit) else key
    desk.fill_in(Visit, {"panel": panel, "date": desk.state.job.today, "who": desk.who()})


def panel_of(desk: Desk, key: str) -> str:
    """The panel of a row: itself, or the one that an entry of the log is of."""
    row = desk.state.job.get(key)
    return str(row.panel) if isinstance(row, Visit) else key


def _change(desk: Desk, key: str) -> None:
    tag = panel_of(desk, key)
    job = desk.state.job
    things = [each for each in panel_contents(job)[tag].all if isinstance(job.get(each), Equipment | Cable)]
    if not things:
        desk.say(f"Nothing behind {tag} can be replaced yet. Enter the equipment or cable first: e = edit", bad=True)
        return
    choices = [(each, line) for each, line in zip(things, thing_lines(job, things), strict=True)]
    desk.pick(f"What do you replace through {tag}?", choices, lambda old: change(desk, old))


class Panels(KindView):
    """Each panel, and under it the times it was opened."""

    name = "panels"
    title = "Access panels"
    about = (
        "Access panels: how you get behind the finished wall. Enter what is behind each, by tag. "
        "l = log a visit: who, why, what you found, what you changed. i = what is behind it on the plan, which "
        "breaker to turn off first and what to take out. x = replace something through "
        "it: the old thing is retired and kept on file, and the visit is logged."
    )
    first = "a = add a panel for whatever must be reached behind the wall, and enter what that is."
    sheets = ("panel-cards", "owners-book")
    kinds = (Panel, Visit)
    filters = ("with log", "panels only")
    keys = (Key("l", "Log a visit", _log), Key("i", "Behind it", show_way), Key("x", "Replace", _change))

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, name, clear size, how it opens, what is behind."""
        return (
            Column("tag", 5),
            Column("name", 18, grow=True),
            Column("clear size", 17),
            Column("opens", 12),
            Column("behind it", 18, grow=True),
            Column("fitted", 11),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """Panels in order, each followed by its log, newest first."""
        log: dict[str, list[Visit]] = {}
        for visit in sorted(state.job.of(Visit).values(), key=lambda each: each.date, reverse=True):
            log.setdefault(visit.panel, []).append(visit)
        listed: list[Record] = []
        for tag, panel in state.job.of(Panel).items():
            listed += [panel, *log.get(tag, [])] if chosen == "with log" else [panel]
        return listed

    def line(self, state: State, row: Any) -> Line:
        """A panel, or one opening of it."""
        metric = state.job.settings.metric
        if isinstance(row, Visit):
            return Line(
                (row.tag, f"  {date_text(state.job, row.date)}", f"visit: {row.who}", "", row.why or row.found, ""),
                "muted",
            )
        size = "no size entered"
        if row.width is not None and row.height is not None:
            size = show_pair(row.width, row.height, metric)
        fitted = date_text(state.job, row.fitted) if row.fitted else "not yet"
        named = ", ".join(row.behind) or ("nothing entered" if not row.holds else "")
        words = f"{named} {row.holds}".strip()
        wrong = state.wrong(row.tag)
        tag = f"{row.tag}{'!' if wrong else ''}"
        return Line((tag, row.name, size, row.opens, words, fitted), state.tone(row.tag) or "head")

    def order(self, state: State, row: Any, column: int) -> Any:
        """Panels by value, the log by its day; the rest by what is shown."""
        if column == 2:
            known = isinstance(row, Panel) and row.width is not None and row.height is not None
            return row.width.nm * row.height.nm if known else None
        if column == 5:
            return row.fitted.toordinal() if isinstance(row, Panel) and row.fitted else None
        return super().order(state, row, 0) if column == 0 else self.line(state, row).cells[column].lower() or None

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many, fitted, how often opened, and how many have something wrong."""
        panels = state.job.of(Panel).values()
        fitted = sum(each.fitted is not None for each in panels)
        wrong = sum(state.wrong(each.tag) for each in panels)
        visits = len(state.job.of(Visit))
        parts = [
            some(len(panels), "access panel"),
            f"{fitted} fitted" if fitted else "",
            plural(visits, "visit") if visits else "",
            f"{plural(wrong, 'problem')} (!). Enter = read" if wrong else "",
        ]
        return ", ".join(each for each in parts if each)

    def start_values(self, state: State, key: str | None, cls: type[Record]) -> dict[str, Any]:
        """An opening is of the panel under the cursor."""
        row = state.job.get(key) if key else None
        if cls is Visit and row is not None:
            panel = row.panel if isinstance(row, Visit) else row.tag
            return {"panel": panel, "date": state.job.today}
        return {}
