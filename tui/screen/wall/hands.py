"""What keys act on: always something that is selected and in sight, in the list or on the drawing."""

from __future__ import annotations

from typing import Protocol

from tui.screen.desk import WorkDesk
from tui.screen.row_work import WORK
from tui.view.view import View
from tui.views.index import Views

OF_THE_LIST = ("filter", "back", "subset", "sort")
"""What is done to a list; not while the drawing has the keys."""
MEANWHILE = (*OF_THE_LIST, "row", "work", "section", "view", "step", "wall", "pane", "palette")
"""What must wait until a move is kept or left."""
NOTHING = "Nothing is selected on the drawing. Choose with the arrows."


class Drawn(Protocol):
    """What is known here of the drawing."""

    @property
    def has_keys(self) -> bool:
        """True while keys go to the drawing."""

    @property
    def moving(self) -> bool:
        """True while something is being moved."""

    @property
    def selected(self) -> str | None:
        """The tag that is lit up as selected; None when nothing that is drawn is."""


def allowed(wall: Drawn | None, action: str) -> bool:
    """Whether a key of the screen does its work now: on the drawing none changes a list that is out of sight."""
    if wall is None or not wall.has_keys:
        return True
    return action not in (MEANWHILE if wall.moving else OF_THE_LIST)


def own_key(pressed: str, desk: WorkDesk, views: Views, view: View, key: str | None, *, drawn: bool) -> bool:
    """Do what a key does in the list that the row is of; on the drawing in the list of what is selected there. False
    where that list has no such key of its own."""
    if drawn:
        number = views.listing(desk.state, key) if key else None
        if number is None:
            return False
        view = views[number]
    for each in view.keys:
        if each.key == pressed:
            if key is not None or each.alone:
                each.run(desk, key or "")
            return True
    return False


def work(what: str, desk: WorkDesk, views: Views, view: View, key: str | None, *, drawn: bool) -> None:
    """Do something to the row of a view, or to the thing selected on the drawing, which is worked on as in its list."""
    if drawn and what != "add":
        number = views.listing(desk.state, key) if key else None
        if number is None:
            desk.say(NOTHING, bad=True)
            return
        view = views[number]
    WORK[what](desk, view, key)
