"""The older part of the history, packed: all of it stays in the one file, and a save does not write it out again.

The newest entries stand in the table `history` as they always did. Older ones go, some hundred at a time, into blocks
of the table `past`: the same entries, written as what each changed, compressed. Beside the blocks stands what the
history up to there says last of each record, so that opening a job need not read them.

The seals stay as strong as those of single entries. A block begins and ends with the seals of the chain that it holds;
a digest of all blocks and of the summary, byte by byte, is written into the next entry and sealed with it. So whoever
looks at the seals sees a changed byte of the past without unpacking it; `unpacked` and `broken_inside` go through every
entry again.
"""

from __future__ import annotations

import base64
import zlib
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import msgspec

from store.book.chain.folded import Folded, fold
from store.book.chain.seals import seal_of

KEEP = 200
"""Entries that stay as they are, at least."""
BLOCK = 1000
"""Entries of one block, at most."""
TABLE, SUMMARY = "past", "past_says"
MOST_UNPACKED = 1 << 30
"""Bytes that a block may unfold to: one that promises more was not written by this program."""

Doc = dict[str, Any]
Tables = Mapping[str, Mapping[str, Any]]


class Summary(msgspec.Struct, frozen=True):
    """What the packed history says: the state of the fold after its last entry."""

    words: dict[str, dict[str, Doc | None]]
    """The last document of each record, by kind and tag; None where it is gone."""
    marks: dict[str, int]
    removed: list[list[str]]
    undone: list[tuple[int, int, str]]
    """What was undone and not brought back: entry, the entry that undid it, and its session."""
    lasts: list[tuple[str, str, Doc | None]] = []
    doubted: list[tuple[str, str]] = []
    """Both as in the fold."""


class Unreadable(ValueError):
    """The packed history cannot be unpacked."""


def last_packed(tables: Tables) -> int:
    """The number of the last entry that is packed; 0 where none is."""
    blocks = tables.get(TABLE)
    return int(blocks[str(len(blocks))]["last"]) if blocks else 0


def seal_before(tables: Tables) -> str:
    """The seal that the first entry of the table `history` follows."""
    blocks = tables.get(TABLE)
    return str(blocks[str(len(blocks))]["seal"]) if blocks else ""


def wrong_in(tables: Tables) -> str:
    """What makes the packed history none, seen without unpacking it; empty when it holds together."""
    blocks, said = tables.get(TABLE) or {}, tables.get(SUMMARY) or {}
    if not blocks and not said:
        return ""
    last = 0
    for number in range(1, len(blocks) + 1):
        block = blocks.get(str(number))
        if not isinstance(block, dict):
            return f"entry {number} of table {TABLE} is missing"
        whole = all(isinstance(block.get(key), str) for key in ("seal", "packed"))
        whole = whole and all(type(block.get(key)) is int for key in ("first", "last"))
        if not whole or block["first"] != last + 1 or block["last"] <= last:
            return f"entry {number} of table {TABLE} is not part of a history"
        last = block["last"]
    if not blocks or set(said) != {"1"} or not isinstance(said["1"].get("packed"), str):
        return f"table {SUMMARY} does not belong to table {TABLE}"
    return ""


def digest_of(tables: Tables) -> str:
    """One digest of everything packed; empty where nothing is."""
    blocks = tables.get(TABLE)
    if not blocks:
        return ""
    import hashlib  # brings a whole cryptographic library; only what looks at seals needs it

    said = hashlib.sha256()
    for number in range(1, len(blocks) + 1):
        block = blocks[str(number)]
        said.update(f"{block['first']} {block['last']} {block['seal']} {len(block['packed'])} ".encode())
        said.update(block["packed"].encode())
    said.update(b" summary " + tables[SUMMARY]["1"]["packed"].encode())
    return said.hexdigest()[:24]


def summary_of(tables: Tables) -> Folded:
    """What the packed part of the history says; nothing where none is packed. Raises Unreadable."""
    said = tables.get(SUMMARY)
    if not said:
        return Folded()
    try:
        summary = msgspec.json.decode(_opened(said["1"]["packed"]), type=Summary)
    except msgspec.MsgspecError as error:
        raise Unreadable(str(error)) from error
    words = {(kind, tag): doc for kind, docs in summary.words.items() for tag, doc in docs.items()}
    removed = {tag: (tag, *rest) for tag, *rest in summary.removed}
    lasts = {(kind, tag): doc for kind, tag, doc in summary.lasts}
    return Folded(words, summary.marks, removed, list(summary.undone), lasts, list(summary.doubted))


def unpacked(tables: Tables) -> list[Doc]:
    """Every packed entry as it stood in the table `history`, its seal calculated again. Raises Unreadable."""
    entries: list[Doc] = []
    words: dict[tuple[str, str], Doc | None] = {}
    seal = ""
    for block in _blocks(tables):
        try:
            rows = msgspec.json.decode(_opened(block["packed"]))
            entries += (seals := _Seals(seal)).sealed(_entry(row, words) for row in rows)
            seal = seals.last
        except (msgspec.MsgspecError, KeyError, TypeError, ValueError, AttributeError) as error:
            raise Unreadable(f"changes {block['first']} to {block['last']}: {error}") from error
    return entries


def broken_inside(tables: Tables) -> str:
    """Go through every packed entry: what is wrong with the chain or with what is said of it; empty when nothing is."""
    if not tables.get(TABLE):
        return ""
    try:
        entries, told = unpacked(tables), summary_of(tables)
    except Unreadable as error:
        return f"the packed history cannot be read ({error})"
    seals = {entry["n"]: entry["seal"] for entry in entries}
    for block in _blocks(tables):
        if seals.get(block["last"]) != block["seal"]:
            return f"changes {block['first']} to {block['last']} of the history were altered outside of the program"
    if [entry["n"] for entry in entries] != list(range(1, last_packed(tables) + 1)):
        return "changes are missing from the packed history"
    if fold(entries, Folded()) != told:
        return "the packed history was altered outside of the program"
    return ""


def pack(tables: Tables, entries: Sequence[Doc], before: Folded) -> dict[str, dict[str, Any]]:
    """The tables with these oldest entries of `history` packed, `before` being what was packed already.

    The entries must be those that follow the last packed one, their seals looked at by the caller. Gives only the
    tables that changed.
    """
    words = {**before.words, **before.lasts}
    after = fold(entries, before)
    said: dict[str, dict[str, Doc | None]] = {}
    for (kind, tag), doc in after.words.items():
        said.setdefault(kind, {})[tag] = doc
    removed = [list(each) for each in after.removed.values()]
    lasts = [(kind, tag, doc) for (kind, tag), doc in after.lasts.items()]
    summary = Summary(said, after.marks, removed, after.undone, lasts, after.doubted)
    blocks = dict(tables.get(TABLE, {}))
    for at in range(0, len(entries), BLOCK):
        some = entries[at : at + BLOCK]
        rows = [_row(entry, words) for entry in some]
        ends = {"first": some[0]["n"], "last": some[-1]["n"], "seal": some[-1]["seal"]}
        blocks[str(len(blocks) + 1)] = {**ends, "packed": _closed(rows)}
    gone = {str(entry["n"]) for entry in entries}
    return {
        "history": {key: doc for key, doc in tables["history"].items() if key not in gone},
        TABLE: blocks,
        SUMMARY: {"1": {"packed": _closed(summary)}},
    }


def same_again(tables: Tables, entries: Sequence[Doc], before: Folded) -> bool:
    """True when the entries that were packed last come out as they went in: looked at before they are let go."""
    words = {**before.words, **before.lasts}
    new = [block for block in _blocks(tables) if block["first"] >= entries[0]["n"]]
    rows = [row for block in new for row in msgspec.json.decode(_opened(block["packed"]))]
    return [_entry(row, words) for row in rows] == [_unsealed(entry) for entry in entries]


def _unsealed(entry: Doc) -> Doc:
    return {key: value for key, value in entry.items() if key != "seal"}


class _Seals:
    """The chain of seals, followed from one seal on."""

    def __init__(self, last: str) -> None:
        self.last = last

    def sealed(self, entries: Iterable[Doc]) -> Iterable[Doc]:
        for entry in entries:
            self.last = entry["seal"] = seal_of(self.last, entry)
            yield entry


def _blocks(tables: Tables) -> list[Doc]:
    blocks = tables.get(TABLE, {})
    return [blocks[str(number)] for number in range(1, len(blocks) + 1)]


def _closed(value: Any) -> str:
    return base64.b64encode(zlib.compress(msgspec.json.encode(value), 6)).decode("ascii")


def _opened(packed: str) -> bytes:
    try:
        opener = zlib.decompressobj()
        raw = opener.decompress(base64.b64decode(packed, validate=True), MOST_UNPACKED)
    except (ValueError, zlib.error) as error:
        raise Unreadable(str(error)) from error
    if not opener.eof:
        raise Unreadable("it is cut short, or too large")
    return raw


# --- one entry: its own keys without the seal, and each step as what it changed of what was said last ---


def _row(entry: Doc, words: dict[tuple[str, str], Doc | None]) -> list[Any]:
    own = {key: value for key, value in entry.items() if key not in ("seal", "changes")}
    return [own, [_folded_step(step, words) for step in entry["changes"]]]


def _entry(row: Sequence[Any], words: dict[tuple[str, str], Doc | None]) -> Doc:
    own, steps = row
    return {**own, "changes": [_unfolded_step(step, words) for step in steps]}


def _folded_step(step: Doc, words: dict[tuple[str, str], Doc | None]) -> list[Any]:
    key = (step["kind"], step["tag"])
    before, after, known = step["before"], step["after"], words.get(key)
    words[key] = after
    extra = {name: value for name, value in step.items() if name not in ("kind", "tag", "before", "after")}
    row: list[Any] = [*key, _difference(before, after)]
    if before != known or extra:
        row += [[before, extra]]
    return row


def _unfolded_step(row: Sequence[Any], words: dict[tuple[str, str], Doc | None]) -> Doc:
    kind, tag, difference, *rest = row
    before, extra = rest[0] if rest else (words.get((kind, tag)), {})
    after = _with_difference(before, difference)
    words[kind, tag] = after
    return {"kind": kind, "tag": tag, "before": before, "after": after, **extra}


def _difference(before: Doc | None, after: Doc | None) -> Any:
    """None where it is gone, a document where it is new, else `[what is set, what is left out]`."""
    if after is None or before is None:
        return after
    put = {key: value for key, value in after.items() if key not in before or not _alike(before[key], value)}
    return [put, [key for key in before if key not in after]]


def _with_difference(before: Doc | None, difference: Any) -> Doc | None:
    if not isinstance(difference, list):
        return difference  # type: ignore[no-any-return]
    put, out = difference
    return {**{key: value for key, value in (before or {}).items() if key not in out}, **put}


def _alike(one: Any, other: Any) -> bool:
    """Equal, and written alike: 1 and 1.0 and true are equal, and make different seals."""
    return bool(one == other) and msgspec.json.encode(one) == msgspec.json.encode(other)
