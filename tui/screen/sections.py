"""The two lines of names: the sections of the job by their digits, and the views of the one that is shown."""

from __future__ import annotations

from textual.screen import Screen

from tui.views.index import SECTIONS, VIEWS
from tui.widgets.lines import ChoiceLine

BEFORE, AFTER = "left_square_bracket", "right_square_bracket"
"""The keys that step through the views of a section."""
_FIRST = [sum(len(views) for _, views in SECTIONS[:place]) for place in range(len(SECTIONS) + 1)]
"""The number of the first view of every section, and one past the last view."""


def section_of(number: int) -> int:
    """The place of the section that a view belongs to."""
    return next(place for place in range(len(SECTIONS)) if number < _FIRST[place + 1])


def next_view(number: int, by: int) -> int:
    """The view so many steps further within its section; after the last comes the first."""
    place = section_of(number)
    return _FIRST[place] + (number - _FIRST[place] + by) % (_FIRST[place + 1] - _FIRST[place])


def leads_to(name: str) -> str | None:
    """The action of a name on the two lines, where it is one: a section by its digit, a view by its title, a step."""
    if name in (BEFORE, AFTER):
        return f"step({1 if name == AFTER else -1})"
    if name.isdigit():
        return f"section({int(name) - 1})" if 0 < int(name) <= len(SECTIONS) else None
    return next((f"view({number})" for number, (title, _) in enumerate(VIEWS) if title == name), None)


class Sections:
    """Which view of each section was seen last, and the lines that name them."""

    def __init__(self) -> None:
        self._seen = _FIRST[:-1]

    def see(self, number: int) -> None:
        """A view is shown: its section opens on it the next time."""
        self._seen[section_of(number)] = number

    def view_of(self, place: int) -> int:
        """The view that a section opens on: the one last seen in it, at first its first."""
        return self._seen[place]

    def show(self, screen: Screen[None], number: int) -> None:
        """Name the sections on one line, and on the other the views of the section of a view."""
        place = section_of(number)
        sections, views = (screen.query_one(line, ChoiceLine) for line in ("#sections", "#views"))
        sections.show([(str(at), name) for at, (name, _) in enumerate(SECTIONS, 1)], str(place + 1))
        titles = [(title, "") for title, _ in SECTIONS[place][1]]
        steps = [[(BEFORE, "")], [(AFTER, "")]] if len(titles) > 1 else [[], []]
        views.show([*steps[0], *titles, *steps[1]], titles[number - _FIRST[place]][0])
