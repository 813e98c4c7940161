"""Every view, in the order of its digit key."""

from __future__ import annotations

from store.records.people import Amount, Handoff, Step, Wish
from tui.views.base import KindView, View
from tui.views.equipment import EquipmentView
from tui.views.figured import Boxes, Cables, Circuits, Raceways
from tui.views.findings import Findings
from tui.views.measurements import Measurements
from tui.views.openings import Openings
from tui.views.panels import Panels
from tui.views.photos import Photos
from tui.views.rough_in import RoughIn
from tui.views.trades import Trades


def views() -> tuple[View, ...]:
    """Every view in the order of its digit key; those after the ninth are reached by 0."""
    return (
        Measurements(),
        EquipmentView(),
        RoughIn(),
        Panels(),
        Trades(),
        Findings(),
        Openings(),
        Boxes(),
        Cables(),
        Circuits(),
        Raceways(),
        KindView(Step),
        KindView(Amount),
        KindView(Handoff),
        KindView(Wish),
        Photos(),
    )
