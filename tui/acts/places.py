"""Going to the place where a line of what to do next is done."""

from __future__ import annotations

from store.rules.agenda.due import Listing, Place
from tui.view.desk import Desk

TITLES: dict[Listing, str] = {
    "gate": "Gate",
    "problems": "Problems",
    "items": "Items",
    "readings": "Measurements",
    "openings": "Openings",
    "equipment": "Equipment",
    "contacts": "Contacts",
    "packets": "Packets",
}
"""The view of each list, by its title."""


def go_to_place(desk: Desk, place: Place) -> None:
    """Show the list in which something is done, with its row under the cursor."""
    title = TITLES.get(place.list)
    if title is None:
        desk.go_to(place.key)
    else:
        desk.open_list(title, place.key, words=place.words, subset=place.subset)
