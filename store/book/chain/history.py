"""History: every action, who did it and what it changed; undo, redo, and what happened outside of it.

The table `history` holds the newest entries, sealed (`seals`); older ones are packed (`archive`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import Any

import msgspec

from store.book.chain import archive
from store.book.chain.folded import Folded, fold
from store.book.chain.seals import seal_of, whole_seal
from store.book.changes import Doc, Restore, Step
from store.book.decoding import Tables
from store.book.errors import Damaged
from store.book.outside.edits import outside_of
from store.records.whole import KINDS, Outside, Removed, serial_of


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
    """`do`, `undo` or `redo`. Never undone: `form` brought the file to another form, `mend` put a record back to what
    the history says, `confirm` took over an edit from outside, `accept` took over a history that is damaged."""
    of: int = 0
    """The entry that is undone or redone."""
    past: str = ""
    """Where older entries were packed with this one, or a damaged history was accepted: the digest of all that is
    packed."""
    off: list[tuple[str, str]] = []
    """Rough-in items that it took off the list: key, and what it was."""
    on: list[str] = []
    """Keys of those that were taken off before and that it brought back."""
    doubted: list[tuple[str, str]] = []
    """Kind and key of what the gate stands on and was last changed where an accepted history is damaged."""
    seal: str = ""


def docs_of(path: Path, tables: Tables, sound: Mapping[str, object] = MappingProxyType({})) -> list[dict[str, Any]]:
    """The documents of the table in order: the newest entries. Raises Damaged where one is no entry of a history.

    `sound` are documents by their keys that were looked at before; the very same are not looked at again.
    """
    table = tables.get("history", {})
    try:
        ordered = sorted(table.items(), key=lambda item: int(item[0]))
    except ValueError as error:
        raise Damaged(path, f"table history has an entry whose key is not a number ({error})") from error
    for key, doc in ordered:
        if sound.get(key) is not doc and not _is_entry(key, doc):
            raise Damaged(path, f"table history, entry {key}: it is not a history entry")
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


def broken_seal(docs: Sequence[Mapping[str, Any]], last: int, tables: Tables | None = None) -> str:
    """What is wrong with the chain of entries, or an empty text. `last` is the number of the last entry made.

    The chain begins where the packed history of the tables ends; that is looked at byte by byte and not unpacked. A
    damaged history that was accepted is sealed as a whole by the entry that says so, and goes on from there.
    """
    tables = tables or {}
    seal, expected = archive.seal_before(tables), archive.last_packed(tables) + 1
    at = accepted_at(docs)
    if at >= 0:
        seal, expected = whole_seal(archive.digest_of(tables), docs[:at]), docs[at]["n"]
    for doc in docs[max(at, 0) :]:
        if doc.get("n") != expected:
            return f"change {expected} is missing from the history"
        seal = seal_of(seal, doc)
        if doc.get("seal") != seal:
            what = "or one before it " if at >= 0 and doc is docs[at] else ""
            return f"change {expected} {what}of the history was altered outside of the program"
        expected += 1
    if expected != last + 1:
        return f"the history ends at change {expected - 1}, but {last} were made"
    sealed = next((doc["past"] for doc in reversed(docs) if "past" in doc), "")
    if sealed != archive.digest_of(tables):
        return "the packed part of the history was altered outside of the program"
    return ""


def accepted_at(docs: Sequence[Mapping[str, Any]]) -> int:
    """Where among the entries a damaged history was accepted last; -1 where it never was."""
    return max((place for place, doc in enumerate(docs) if doc.get("act") == "accept"), default=-1)


def packed(tables: Tables, docs: Sequence[Mapping[str, Any]], before: Folded) -> dict[str, dict[str, Any]]:
    """The tables in which the oldest entries are packed, once there are many of them; nothing where there are not, or
    where their chain is broken: what is wrong there is to stay in sight."""
    if len(docs) < 2 * archive.KEEP:
        return {}
    seal, number = archive.seal_before(tables), archive.last_packed(tables)
    old = [dict(doc) for doc in docs[: -archive.KEEP]]
    for doc in old:
        number += 1
        seal = seal_of(seal, doc)
        if doc["n"] != number or doc["seal"] != seal:
            return {}
    made = archive.pack(tables, old, before)
    return made if archive.same_again({**tables, **made}, old, before) else {}


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
                found.append(outside_of(kind, tag, said, doc))
    return found + [Outside(kind, tag, "vanished") for kind, tag in sorted(missing)]


def removed(folded: Folded) -> tuple[Removed, ...]:
    """The rough-in items that were taken off the list, and not put back."""
    return tuple(Removed(*each) for each in folded.removed.values())


class Back(msgspec.Struct, frozen=True):
    """Numbers of the entries that undo would take back and redo would bring back; 0 for none, None where that stands
    in the packed history."""

    undo: int | None
    redo: int | None


def undoable(
    docs: Sequence[Mapping[str, Any]],
    session: str,
    undone: Sequence[tuple[int, int, str]] = (),
    session_of: Callable[[int], str] = lambda number: "",
    since: int = 0,
) -> Back:
    """The entry that undo would take back, and the one that redo would bring back, of the entries at hand.

    The last action of this session first; when it has none left, the last of all. The same holds for what it took
    back; and after a new action of its own, nothing older is brought back any more. `undone` is what was undone before
    these entries, `session_of` tells of the packed ones, and `since` is the first number that this session gave.
    """
    sessions = {doc["n"]: doc.get("session", "") for doc in docs}
    first = docs[0]["n"] if docs else 1
    done: list[int] = []
    open_undone = list(undone)
    newest = 0
    for doc in docs:
        act, of = doc.get("act", "do"), doc.get("of", 0)
        if act == "do":
            done.append(doc["n"])
            newest = doc["n"] if sessions[doc["n"]] == session else newest
        elif act == "undo":
            done = [each for each in done if each != of]
        elif act == "redo" and (of in sessions or 0 < of < first):
            done.append(of)
    open_undone = fold([{**doc, "changes": []} for doc in docs], Folded(undone=open_undone)).undone
    if done and done[0] == 1:
        done = done[1:]  # the making of the job is not undone
    own = [each for each in done if (sessions[each] if each in sessions else session_of(each)) == session]
    open_undone = [each for each in open_undone if each[0] in sessions or 0 < each[0] < first]
    back = [of for of, _, by in open_undone if by == session] or [of for of, n, _ in open_undone if n > newest]
    elsewhere = first > 1 and 0 < since < first  # this session acted before these entries
    undo = own[-1] if own else None if elsewhere or (first > 1 and not done) else done[-1] if done else 0
    return Back(undo, None if elsewhere and not newest else back[-1] if back else 0)


def inverse(entry: Entry) -> list[Restore]:
    """The changes that take an entry back."""
    return [Restore(each.kind, each.tag, each.before, each.after) for each in reversed(entry.changes)]


def again(entry: Entry) -> list[Restore]:
    """The changes that bring an entry back after an undo."""
    return [Restore(each.kind, each.tag, each.after, each.before) for each in entry.changes]
