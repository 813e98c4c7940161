"""History: every action, who did it and what it changed; undo, redo, and what happened outside of it.

Each entry is sealed with a digest of itself and of the seal before it, so an entry that was altered, taken out or
slipped in by hand is noticed. The seal is no secret: it guards against mistakes and shortcuts, not against forgers.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

import msgspec

from store.book.changes import Doc, Restore, Step
from store.book.errors import Damaged
from store.book.file import Tables
from store.records.whole import KINDS, Outside, Removed, serial_of

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
    """`do`, `undo` or `redo`; `form` where the file was brought to another form, which is not undone."""
    of: int = 0
    """The entry that is undone or redone."""
    seal: str = ""


def docs_of(path: Path, tables: Tables) -> list[dict[str, Any]]:
    """The documents of the history in order. Raises Damaged where one is no entry of a history."""
    table = tables.get("history", {})
    try:
        ordered = sorted(table.items(), key=lambda item: int(item[0]))
    except ValueError as error:
        raise Damaged(path, f"table history has an entry whose key is no number ({error})") from error
    for key, doc in ordered:
        if not _is_entry(key, doc):
            raise Damaged(path, f"table history, entry {key}: it is no entry of a history")
    return [doc for _, doc in ordered]


def _is_entry(number: str, doc: Mapping[str, Any]) -> bool:
    try:
        whole = isinstance(doc["n"], int) and str(doc["n"]) == number
        whole = whole and all(isinstance(doc[key], str) for key in ("at", "who", "what", "seal"))
        return whole and all(_is_step(change) for change in doc["changes"])
    except (KeyError, TypeError):
        return False


def _is_step(change: Mapping[str, Any]) -> bool:
    before, after = change["before"], change["after"]
    whole = (before is None or isinstance(before, dict)) and (after is None or isinstance(after, dict))
    return whole and change["kind"] in KINDS and isinstance(change["tag"], str)


def last_of(docs: Sequence[Mapping[str, Any]], counted: int) -> tuple[int, str]:
    """Number and seal that the next entry follows: as counted, and never less than what is there."""
    return (max(docs[-1]["n"], counted), docs[-1]["seal"]) if docs else (counted, "")


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
    """What the history says last of each record, and the number of the change that said it, by tag.

    Putting a record back to what was said of it already says nothing new, and leaves its number as it was.
    """
    words: dict[tuple[str, str], Doc | None] = {}
    marks: dict[str, int] = {}
    for entry in history:
        n = entry["n"]
        for change in entry["changes"]:
            tag = change["tag"]
            key, after = (change["kind"], tag), change.get("after")
            if words.get(key) != after:
                marks[tag] = n
            words[key] = after
    return words, marks


def serials_of(words: Iterable[tuple[str, str]], counted: Mapping[str, int]) -> dict[str, int]:
    """The last number given of each kind: as counted in the file, and never less than what the history names."""
    serials = dict(counted)
    for kind, tag in words:
        serials[kind] = max(serials.get(kind, 0), serial_of(kind, tag))
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


def removed(docs: Iterable[Mapping[str, Any]]) -> tuple[Removed, ...]:
    """The rough-in items that were taken off the list, and not put back."""
    gone: dict[str, Removed] = {}
    for entry in docs:
        for change in entry["changes"]:
            if change["kind"] != "check":
                continue
            if change.get("after") is None and change.get("before") is not None:
                what = str(change["before"].get("what", ""))
                gone[change["tag"]] = Removed(change["tag"], what, entry["who"], entry["at"], entry.get("why", ""))
            else:
                gone.pop(change["tag"], None)
    return tuple(gone.values())


def undoable(history: Sequence[Entry], session: str) -> tuple[Entry | None, Entry | None]:
    """The entry that undo would take back, and the one that redo would bring back.

    The last action of this session first; when it has none left, the last of all. The same holds for what it took
    back; and after a new action of its own, nothing older is brought back any more.
    """
    by_number = {entry.n: entry for entry in history}
    done: list[Entry] = []
    undone: list[tuple[Entry, Entry]] = []
    newest = 0
    for entry in history:
        of = by_number.get(entry.of)
        if entry.act == "do":
            done.append(entry)
            undone = [each for each in undone if each[1].session != entry.session]
            newest = entry.n if entry.session == session else newest
        elif of is not None and entry.act == "undo":
            done = [each for each in done if each.n != of.n]
            undone.append((of, entry))
        elif of is not None and entry.act == "redo":
            undone = [each for each in undone if each[0].n != of.n]
            done.append(of)
    if done and done[0].n == 1:
        done = done[1:]  # the making of the job is not undone
    last = [each for each in done if each.session == session] or done
    back = [each for each, by in undone if by.session == session] or [each for each, by in undone if by.n > newest]
    return last[-1] if last else None, back[-1] if back else None


def inverse(entry: Entry) -> list[Restore]:
    """The changes that take an entry back."""
    return [Restore(each.kind, each.tag, each.before, each.after) for each in reversed(entry.changes)]


def again(entry: Entry) -> list[Restore]:
    """The changes that bring an entry back after an undo."""
    return [Restore(each.kind, each.tag, each.after, each.before) for each in entry.changes]
