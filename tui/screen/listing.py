"""Which rows of a view are shown, and in what order: its subset, the words they must have, the column they go by."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tui.view.state import State
from tui.view.view import View


class Listing:
    """What was chosen for each view, kept while the person goes from view to view."""

    def __init__(self) -> None:
        self._subset: dict[str, int] = {}
        self._sort: dict[str, tuple[int, bool]] = {}
        self._words: dict[str, str] = {}

    def subset(self, view: View) -> str:
        """The subset of a view that is shown."""
        names = view.filters or ("all",)
        return names[self._subset.get(view.name, 0) % len(names)]

    def empty(self, view: View, words: list[str]) -> str:
        """What stands in place of rows where there are none, and what to do about it."""
        if words:
            return "No matches. Esc = clear"
        if view.filters and self.subset(view) != view.filters[0]:
            return "Nothing in this filter. f = next filter"
        return view.nothing if view.kinds else view.built

    def next_subset(self, view: View) -> None:
        """Show the next subset."""
        self._subset[view.name] = self._subset.get(view.name, 0) + 1

    def choose(self, view: View, subset: str) -> None:
        """Show a subset by its name; the whole of the view where it has none of that name."""
        self._subset[view.name] = view.filters.index(subset) if subset in view.filters else 0

    def everything(self, view: View) -> None:
        """Show the whole of a view, so that a record is sure to be there."""
        self._subset.pop(view.name, None)

    def sorted_by(self, view: View) -> tuple[int, bool] | None:
        """The column that a view goes by, and whether backwards; None for its own order."""
        return self._sort.get(view.name)

    def next_column(self, view: View, columns: int) -> None:
        """Go by the next column; after the last in the view's own order."""
        now = self._sort.get(view.name)
        column = now[0] + 1 if now else 0
        if column >= columns:
            self._sort.pop(view.name, None)
        else:
            self._sort[view.name] = (column, False)

    def turn_round(self, view: View) -> None:
        """Go the other way."""
        column, backwards = self._sort.get(view.name, (0, False))
        self._sort[view.name] = (column, not backwards)

    def by_column(self, view: View, column: int) -> None:
        """Go by a column; asked again the other way, a third time in the view's own order."""
        now = self._sort.get(view.name)
        if now == (column, True):
            self._sort.pop(view.name)
        else:
            self._sort[view.name] = (column, now == (column, False))

    def forget_words(self) -> None:
        """The records changed: look at their words anew."""
        self._words = {}

    def rows(self, view: View, state: State, words: Sequence[str]) -> Sequence[Any]:
        """The rows to show."""
        rows = self._with_words(view, view.rows(state, self.subset(view)), words)
        sort = self.sorted_by(view)
        if sort is None:
            return rows
        column, backwards = sort
        values = [(view.order(state, row, column), row) for row in rows]
        known = [each for each in values if each[0] is not None]
        known.sort(key=lambda each: each[0], reverse=backwards)
        return [row for _, row in known] + [row for value, row in values if value is None]

    def _with_words(self, view: View, rows: Sequence[Any], wanted: Sequence[str]) -> Sequence[Any]:
        if not wanted:
            return rows
        found = []
        for row in rows:
            key = view.key(row)
            words = self._words.get(key)
            if words is None:
                words = self._words[key] = view.words(row)
            if all(word in words for word in wanted):
                found.append(row)
        return found
