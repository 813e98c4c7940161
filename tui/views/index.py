"""Every view, in the order of its digit key; each is imported when it is first shown."""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module

from store.records.whole import KINDS
from tui.view.state import State
from tui.view.view import KindView, View

VIEWS: tuple[tuple[str, str], ...] = (
    ("Measure", "tui.views.measure.measurements:Measurements"),
    ("Equipment", "tui.views.buy.equipment:EquipmentView"),
    ("Rough-in", "tui.views.rough_in.items:RoughIn"),
    ("Panels", "tui.views.access.panels:Panels"),
    ("Trades", "tui.views.crew.contacts:Trades"),
    ("Findings", "tui.views.now.problems:Findings"),
    ("Openings", "tui.views.plan.openings:Openings"),
    ("Boxes", "tui.views.plan.figured:Boxes"),
    ("Cables", "tui.views.plan.figured:Cables"),
    ("Circuits", "tui.views.plan.figured:Circuits"),
    ("Raceways", "tui.views.plan.figured:Raceways"),
    ("Signal chain", "tui.views.plan.signal_chain:Signal"),
    ("Buying list", "tui.views.buy.buying:Buying"),
    ("Steps", "tui.views.crew.steps:Steps"),
    ("Money", "tui.views.buy.money:MoneyView"),
    ("Handoffs", "tui.views.crew.packets:Handoffs"),
    ("Wishes", "wish"),
    ("Photos", "tui.views.rough_in.photos:Photos"),
    ("Fixings", "tui.views.plan.figured:Fixings"),
)
"""Title, and where the view is: a module and a class of its own, or a kind whose plain view it is.

Those after the ninth are reached by 0.
"""


class Views:
    """The views, made on first use."""

    def __init__(self) -> None:
        self.titles = tuple(title for title, _ in VIEWS)
        self._made: dict[int, View] = {}

    def __len__(self) -> int:
        return len(VIEWS)

    def __getitem__(self, number: int) -> View:
        if number not in self._made:
            module, _, name = VIEWS[number][1].partition(":")
            self._made[number] = getattr(import_module(module), name)() if name else KindView(KINDS[module])
        return self._made[number]

    def __iter__(self) -> Iterator[View]:
        return (self[number] for number in range(len(self)))

    def of(self, kind: str) -> int | None:
        """The number of the view that lists a kind of record; None when there is none."""
        numbers = range(len(self))
        return next((each for each in numbers if any(cls.kind == kind for cls in self[each].kinds)), None)

    def listing(self, state: State, key: str) -> int | None:
        """The number of the view that lists a row: a record, a check that follows from the plan, or a finding."""
        record = state.job.get(key)
        if record is not None:
            return self.of(record.kind)
        if state.item(key) is not None:
            return self.titles.index("Rough-in")
        return self.titles.index("Findings") if state.finding(key) is not None else None
