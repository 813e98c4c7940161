"""The keys of a record's page: what can be done from it, and doing it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from store.records.equipment import Equipment
from store.records.wiring import Cable
from store.rules.core.findings import Finding
from tui.acts.photos.photo_window import PhotoWindow, pictures_of
from tui.acts.photos.pictures import photos_of, show_photos
from tui.acts.reaching import show_way, way_tag
from tui.view.state import State

if TYPE_CHECKING:
    from tui.view.desk import Desk


def page_keys(state: State, key: str) -> list[tuple[str, str]]:
    """Key and label of all that can be done from the page of a row."""
    record, finding = state.job.get(key), state.finding(key)
    keys = []
    if finding is not None and _fixable(finding):
        keys.append(("F", "fix"))
    if finding is not None and finding.tags:
        keys.append(("t", f"to {finding.tags[0]}"))
    if record is not None:
        keys.append(("e", "edit"))
    if way_tag(state.job, key):
        keys.append(("i", "access"))
    if photos_of(state.job, key):
        keys.append(("p", "photo"))
    if pictures_of(state, key):
        keys.append(("v", "photo here"))
    if isinstance(record, Equipment | Cable) and record.retired is None:
        keys.append(("x", "replace"))
    return [*keys, ("h", "history")]


def follow(desk: Desk, key: str, pressed: str | None) -> None:
    """Do what was asked for on the page of a row."""
    record, finding = desk.state.job.get(key), desk.state.finding(key)
    if pressed == "e" and record is not None:
        desk.edit(record)
    elif pressed == "t" and finding is not None:
        desk.go_to(finding.tags[0])
    elif pressed == "i":
        show_way(desk, key)
    elif pressed == "v" and (pictures := pictures_of(desk.state, key)):
        desk.show_window(PhotoWindow(pictures))
    elif pressed == "p":
        show_photos(desk, key)
    elif pressed == "x":
        from tui.acts.replacing import change

        change(desk, key)
    elif pressed == "F":
        from tui.acts.fixing import fix_problem

        fix_problem(desk, key)
    elif pressed == "h":
        desk.show_history(key)


def _fixable(finding: Finding) -> bool:
    from store.rules.fixes.fix import can_fix  # brings every maker, and only the page of a problem needs them

    return can_fix(finding)
