"""What a history comes to: walked through once, entry by entry, from nothing or from where it was left."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import msgspec

Doc = dict[str, Any]


class Folded(msgspec.Struct):
    """What the entries up to one of them say. A new one is made by `fold`; none is changed once it was given away."""

    words: dict[tuple[str, str], Doc | None] = msgspec.field(default_factory=dict)
    """The last document of each record; None where it is gone."""
    marks: dict[str, int] = msgspec.field(default_factory=dict)
    """The number of the change that said it, by tag."""
    removed: dict[str, tuple[str, ...]] = msgspec.field(default_factory=dict)
    """Rough-in items taken off the list: tag, what, who, when, why."""
    undone: list[tuple[int, int, str]] = msgspec.field(default_factory=list)
    """What was undone and not brought back since: entry, the entry that undid it, that one's session."""


def fold(entries: Iterable[Mapping[str, Any]], start: Folded) -> Folded:
    """What is said after these entries, `start` being what was said before them.

    Putting a record back to what was said of it already says nothing new, and leaves its number as it was.
    """
    words, marks, removed, undone = dict(start.words), dict(start.marks), dict(start.removed), list(start.undone)
    for entry in entries:
        n = entry["n"]
        undone = _undone(undone, entry)
        for change in entry["changes"]:
            tag, after = change["tag"], change["after"]
            key = (change["kind"], tag)
            if words.get(key) != after:
                marks[tag] = n
            words[key] = after
            if change["kind"] == "check":
                if after is None and change["before"] is not None:
                    what = str(change["before"].get("what", ""))
                    removed[tag] = (tag, what, entry["who"], entry["at"], entry.get("why", ""))
                else:
                    removed.pop(tag, None)
    return Folded(words, marks, removed, undone)


def _undone(undone: list[tuple[int, int, str]], entry: Mapping[str, Any]) -> list[tuple[int, int, str]]:
    act, session = entry.get("act", "do"), entry.get("session", "")
    if act == "undo":
        undone.append((entry.get("of", 0), entry["n"], session))
    elif act == "redo" or (act == "do" and undone):
        gone = entry.get("of", 0)
        return [each for each in undone if (each[0] != gone if act == "redo" else each[2] != session)]
    return undone
