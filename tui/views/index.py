"""Every view, by section in the order of the job; each is imported when it is first shown."""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module

from store.records.whole import KINDS
from tui.view.state import State
from tui.view.view import KindView, View

SECTIONS: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    ("Now", (("Agenda", "tui.views.now.agenda:Agenda"), ("Problems", "tui.views.now.problems:Findings"))),
    ("Measure", (("Measurements", "tui.views.measure.measurements:Measurements"),)),
    (
        "Plan",
        (
            ("Openings", "tui.views.plan.openings:Openings"),
            ("Shelves", "tui.views.plan.shelves:Shelves"),
            ("Boxes", "tui.views.plan.figured:Boxes"),
            ("Cables", "tui.views.plan.figured:Cables"),
            ("Circuits", "tui.views.plan.figured:Circuits"),
            ("Raceways", "tui.views.plan.figured:Raceways"),
            ("Signal chain", "tui.views.plan.signal_chain:Signal"),
            ("Fixings", "tui.views.plan.figured:Fixings"),
            ("Wishes", "wish"),
        ),
    ),
    (
        "Buy",
        (
            ("Equipment", "tui.views.buy.equipment:EquipmentView"),
            ("Buying list", "tui.views.buy.buying:Buying"),
            ("Money", "tui.views.buy.money:MoneyView"),
        ),
    ),
    (
        "Crew",
        (
            ("Contacts", "tui.views.crew.contacts:Trades"),
            ("Steps", "tui.views.crew.steps:Steps"),
            ("Packets", "tui.views.crew.packets:Handoffs"),
        ),
    ),
    (
        "Rough-in",
        (
            ("Items", "tui.views.rough_in.items:RoughIn"),
            ("Gate", "tui.views.rough_in.gate:Gate"),
            ("Photos", "tui.views.rough_in.photos:Photos"),
        ),
    ),
    (
        "Access",
        (
            ("Access panels", "tui.views.access.panels:Panels"),
            ("Visits", "tui.views.access.visits:Visits"),
            ("Years after", "tui.views.access.years:Years"),
        ),
    ),
)
"""The sections in the order of the job, each with its views: title, and where the view is: a module and a class of its
own, or a kind whose plain view it is. The digit of a section is its place."""

VIEWS: tuple[tuple[str, str], ...] = tuple(view for _, views in SECTIONS for view in views)
"""Every view, section after section."""


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
            return self.titles.index("Items")
        return self.titles.index("Problems") if state.finding(key) is not None else None
