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
    """Rough-in items taken off the list: key, what, who, when, why."""
    undone: list[tuple[int, int, str]] = msgspec.field(default_factory=list)
    """What was undone and not brought back since: entry, the entry that undid it, that one's session."""
    lasts: dict[tuple[str, str], Doc | None] = msgspec.field(default_factory=dict)
    """The document that the last change left, where it is not the history's word: an edit from outside was in it."""
    doubted: list[tuple[str, str]] = []
    """Kind and key of what rests on a damaged part of the history that was accepted, and was not done again since."""


def patched(said: Doc | None, before: Doc | None, after: Doc | None) -> Doc | None:
    """What the history says of a record after a change of it: its word before, with what the change itself changed.

    A field that someone edited outside of the program is in `before` and in `after` alike, so saving another field
    does not make it the program's own.
    """
    if said == before:
        return after
    if said is None or before is None or after is None:
        return None if said is None else after
    word = dict(said)
    for key in {**before, **after}:
        if before.get(key) != after.get(key):
            word[key] = after.get(key)
    return {key: value for key, value in word.items() if value is not None}


def fold(entries: Iterable[Mapping[str, Any]], start: Folded) -> Folded:
    """What is said after these entries, `start` being what was said before them.

    Putting a record back to what was said of it already says nothing new, and leaves its number as it was.
    """
    words, marks, removed, undone = dict(start.words), dict(start.marks), dict(start.removed), list(start.undone)
    lasts, doubted = dict(start.lasts), dict.fromkeys(start.doubted)
    for entry in entries:
        n = entry["n"]
        undone = _undone(undone, entry)
        for change in entry["changes"]:
            tag, after = change["tag"], change["after"]
            key = (change["kind"], tag)
            said = words.get(key)
            if said != after:
                marks[tag] = n
            words[key] = after if said == change["before"] else patched(said, change["before"], after)
            lasts.pop(key, None)
            if words[key] != after:
                lasts[key] = after
            if after is None or entry.get("act") != "mend":
                doubted.pop(key, None)  # to put it back makes it no surer than it was
            if change["kind"] == "check":
                if after is None and change["before"] is not None:
                    what = str(change["before"].get("what", ""))
                    removed[tag] = (tag, what, entry["who"], entry["at"], entry.get("why", ""))
                else:
                    removed.pop(tag, None)
        for listed, what in entry.get("off", ()):
            removed[listed] = (listed, what, entry["who"], entry["at"], entry.get("why", ""))
        for listed in entry.get("on", ()):
            removed.pop(listed, None)
        doubted |= dict.fromkeys((kind, key) for kind, key in entry.get("doubted", ()))
    return Folded(words, marks, removed, undone, lasts, list(doubted))


def _undone(undone: list[tuple[int, int, str]], entry: Mapping[str, Any]) -> list[tuple[int, int, str]]:
    act, session = entry.get("act", "do"), entry.get("session", "")
    if act == "undo":
        undone.append((entry.get("of", 0), entry["n"], session))
    elif act == "redo" or (act == "do" and undone):
        gone = entry.get("of", 0)
        return [each for each in undone if (each[0] != gone if act == "redo" else each[2] != session)]
    return undone
