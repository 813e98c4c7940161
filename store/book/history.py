"""History: every action, who did it and what it changed; undo, redo, and what happened outside of it.

Each entry is sealed with a digest of itself and of the seal before it, so an entry that was altered, taken out or
slipped in by hand is noticed. The seal is no secret: it guards against mistakes and shortcuts, not against forgers.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import msgspec

from store.book.changes import Doc, Restore, Step
from store.records.whole import Outside

_encode = msgspec.json.Encoder(order="deterministic").encode


class Entry(msgspec.Struct, frozen=True, omit_defaults=True):
    """One action of the history."""

    n: int
    at: str
    """When, UTC, ISO 8601."""
    who: str
    what: str
    changes: list[Step]
    session: str = ""
    why: str = ""
    act: str = "do"
    """`do`, `undo` or `redo`."""
    of: int = 0
    """The entry that is undone or redone."""
    seal: str = ""


def seal_of(before: str, doc: Mapping[str, Any]) -> str:
    """The seal of an entry's document that follows a seal."""
    import hashlib  # brings a whole cryptographic library; only what looks at seals needs it

    bare = {key: value for key, value in doc.items() if key != "seal"}
    return hashlib.sha256(before.encode() + _encode(bare)).hexdigest()[:24]


def broken_seal(docs: Iterable[Mapping[str, Any]], last: int) -> str:
    """What is wrong with the chain of entries, or an empty text. `last` is the number of the last entry made."""
    seal, expected = "", 1
    for doc in docs:
        if doc.get("n") != expected:
            return f"change {expected} is missing from the history"
        seal = seal_of(seal, doc)
        if doc.get("seal") != seal:
            return f"change {expected} of the history was altered outside of the program"
        expected += 1
    return "" if expected == last + 1 else f"the history ends at change {expected - 1}, but {last} were made"


def last_words(history: Iterable[Mapping[str, Any]]) -> tuple[dict[tuple[str, str], Doc | None], dict[str, int]]:
    """What the history says last of each record, and the number of the change that said it, by tag."""
    words: dict[tuple[str, str], Doc | None] = {}
    marks: dict[str, int] = {}
    for entry in history:
        n = entry["n"]
        for change in entry["changes"]:
            tag = change["tag"]
            words[change["kind"], tag] = change.get("after")
            marks[tag] = n
    return words, marks


def serials_of(words: Iterable[tuple[str, str]], counted: Mapping[str, int]) -> dict[str, int]:
    """The last number given of each kind: as counted in the file, and never less than what the history names."""
    serials = dict(counted)
    for kind, tag in words:
        number = tag[1:]
        if number.isdigit() and int(number) > serials.get(kind, 0):
            serials[kind] = int(number)
    return serials


def outside(words: Mapping[tuple[str, str], Doc | None], docs: Mapping[str, Mapping[str, Doc]]) -> list[Outside]:
    """Records that are not what the history says of them."""
    found = []
    missing = {key for key, doc in words.items() if doc is not None}
    for kind, table in docs.items():
        for tag, doc in table.items():
            said = words.get((kind, tag))
            missing.discard((kind, tag))
            if said != doc:
                found.append(Outside(kind, tag, "added" if said is None else "changed"))
    return found + [Outside(kind, tag, "vanished") for kind, tag in sorted(missing)]


def undoable(history: Iterable[Entry], session: str) -> tuple[Entry | None, Entry | None]:
    """The entry that undo would take back, and the one that redo would bring back.

    The last action of this session first; when it has none left, the last of all.
    """
    done: list[Entry] = []
    undone: list[Entry] = []
    by_number: dict[int, Entry] = {}
    for entry in history:
        by_number[entry.n] = entry
        if entry.act == "undo":
            done = [each for each in done if each.n != entry.of]
            undone.append(by_number[entry.of])
        else:
            if entry.act == "redo":
                undone = [each for each in undone if each.n != entry.of]
                done.append(by_number[entry.of])
            else:
                undone = [each for each in undone if each.session != entry.session]
                done.append(entry)
    if done and done[0].n == 1:
        done = done[1:]  # the making of the job is not undone
    own = [each for each in done if each.session == session]
    last = own or done
    return last[-1] if last else None, undone[-1] if undone else None


def inverse(entry: Entry) -> list[Restore]:
    """The changes that take an entry back."""
    return [Restore(each.kind, each.tag, each.before, each.after) for each in reversed(entry.changes)]


def again(entry: Entry) -> list[Restore]:
    """The changes that bring an entry back after an undo."""
    return [Restore(each.kind, each.tag, each.after, each.before) for each in entry.changes]
