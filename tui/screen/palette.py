"""Every act by its plain name: what can be done here and now, to be found by typing, with the key that does it too."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import msgspec
from textual.binding import Binding
from textual.screen import Screen

from tui.screen.keys import JOB_KEYS, WALL_KEYS, key_name
from tui.view.verbs import BY_LABEL
from tui.view.view import View
from tui.views.index import SECTIONS
from tui.widgets.dialogs import Pick
from tui.widgets.window import press_key

LEFT_OUT = ("section", "palette")
"""Actions that are told otherwise: the views are listed by their titles."""


class Act(msgspec.Struct, frozen=True):
    """Something that can be done."""

    name: str
    key: str
    """The key that does it, by Textual's name; empty for a list, which its section's digit leads to."""
    action: str = ""
    """What is run in place of the key."""


def acts_of(screen: Screen[Any], view: View, *, drawn: bool) -> Iterator[Act]:
    """What can be done from where the person is: with this list or the drawing first, then with the job."""
    if drawn:
        own = [Act(label, key) for key, label in WALL_KEYS if label]
    else:
        own = [Act(each.label, each.key) for each in view.keys]
        own.insert(0, Act("Open the page of the row, or go there", "enter"))
    yield from own
    taken = {each.key for each in own}
    for each in JOB_KEYS:
        if isinstance(each, Binding) and not each.action.startswith(LEFT_OUT):
            key = each.key.partition(",")[0]
            if key not in taken and screen.check_action(each.action.partition("(")[0], ()):
                verb = BY_LABEL.get(each.description)
                yield Act(verb.says if verb is not None else each.description, key)
    number = 0
    for name, views in SECTIONS:
        for title, _ in views:
            yield Act(f"Show {title}, in {name}", "", f"view({number})")
            number += 1


def show_palette(screen: Screen[Any], view: View, *, drawn: bool) -> None:
    """Ask which, and do it."""
    acts = list(acts_of(screen, view, drawn=drawn))
    choices = [(str(at), f"{each.name}   {key_name(each.key)}".rstrip()) for at, each in enumerate(acts)]

    def chosen(at: str | None) -> None:
        if at is None:
            return
        act = acts[int(at)]
        if act.action:
            screen.call_later(screen.run_action, act.action)
        else:
            press_key(screen, act.key)

    screen.app.push_screen(Pick("Do what? Type a few letters of it", choices), chosen)
