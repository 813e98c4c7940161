"""Going to the place where a line of what to do next is done."""

from __future__ import annotations

from store.records.field import Ref
from store.records.people import Handoff
from store.rules.agenda.due import Listing, Place
from store.rules.handoff.people import contacts_of
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
    """Show the list in which something is done, with its row under the cursor, or the form of a new one for a trade."""
    title = TITLES.get(place.list)
    if title is None:
        desk.go_to(place.key)
    else:
        desk.open_list(title, place.key, words=place.words, subset=place.subset)
    if place.trade:
        people = contacts_of(desk.state.job, place.trade)
        desk.fill_in(Handoff, {"trade": place.trade, **({"contact": Ref(people[0].tag)} if people else {})})
