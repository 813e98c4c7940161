"""What can be done, and its key: one verb has one key in every list, on the drawing, on pages and in the walk."""

from __future__ import annotations

import msgspec


class Verb(msgspec.Struct, frozen=True):
    """A verb that lists share."""

    keys: str
    """Its keys by Textual's names, the first one is told."""
    says: str
    """What it does, in plain words."""
    labels: tuple[str, ...]
    """What it is called where it is done; the first where nothing more special fits. No other key has any of these."""


VERBS: tuple[Verb, ...] = (
    Verb("enter", "Open the page of a row, or go where it is done", ("Open", "Page", "Go there", "Done with it", "Keep",
         "Same as last")),
    Verb("a", "Add", ("Add",)),
    Verb("A", "Add several at once", ("Add several at once", "Several", "From a phone")),
    Verb("e", "Edit", ("Edit",)),
    Verb("d,delete", "Delete", ("Delete",)),
    Verb("u,ctrl+z", "Undo", ("Undo",)),
    Verb("r,ctrl+y", "Redo", ("Redo",)),
    Verb("space", "Next state", ("Next state", "Bought", "Begun, done", "Sent today")),
    Verb("backspace", "State before", ("State before",)),
    Verb("c", "Sign off", ("Sign off", "Signed back", "Done")),
    Verb("C", "Sign off all of a kind and trade", ("Sign off alike", "Alike")),
    Verb("n", "Not needed", ("Not needed",)),
    Verb("o", "Reopen", ("Reopen",)),
    Verb("y", "Agree, accept, move on", ("Mock-up agreed", "Accept", "Move on", "Yes")),
    Verb("F", "Fix a problem", ("Fix",)),
    Verb("P", "Print", ("Print", "Print it")),
    Verb("p", "Photo", ("Photo",)),
    Verb("i", "Access: how to reach it", ("Access", "Behind it")),
    Verb("x", "Replace", ("Replace",)),
    Verb("h", "History", ("History",)),
    Verb("t", "Go to the record", ("To the record", "Its cable")),
    Verb("v", "Another look: what is calculated from it", ("Mock-up sheet", "Plugs", "Totals", "Quotes", "If late",
         "Status", "Check the files", "Changed outside", "Other view", "Order", "Photo here")),
    Verb("g", "Gate", ("Gate",)),
    Verb("w", "Drawing", ("Drawing", "Back to the list", "To the list", "Place on the wall")),
    Verb("W", "Walk through the rough-in items", ("Walk",)),
    Verb("slash", "Filter by words", ("Filter", "Any other place")),
    Verb("f", "Next filter", ("Next filter",)),
    Verb("ctrl+f", "Find anything", ("Find",)),
    Verb("question_mark,f1", "Help", ("Help",)),
    Verb("escape", "Back", ("Back", "Cancel", "Leave", "Done here")),
    Verb("q", "Leave the program", ("Quit",)),
)  # fmt: skip
"""Every verb that has a key of its own everywhere."""

BY_LABEL = {label: verb for verb in VERBS for label in verb.labels}


def keys_of(label: str) -> str:
    """The keys of a verb, by one of its labels."""
    return BY_LABEL[label].keys


def key_of(label: str) -> str:
    """The key of a verb that is told, by one of its labels."""
    return keys_of(label).partition(",")[0]
