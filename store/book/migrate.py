"""Bringing an older job file to the form of today, one pure step a version."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from store.book.changes import Step
from store.book.decoding import Tables
from store.book.errors import Damaged
from store.book.ground import disk
from store.records.whole import KINDS

FORMAT = 3
"""The version of the file that this program writes."""
UNVOUCHED = ("answer", "closing", "passage")
"""Kinds that count only where a history tells how they came about: in a file without one they are as if written by
hand. Else to call a file an older form, and to leave its history out, would be a way round the gate."""


def version_of(path: Path, tables: Tables) -> int:
    """The version of a file. Raises Damaged when it is no job file, or a newer one."""
    version = tables.get("_meta", {}).get("1", {}).get("studbook")
    if not isinstance(version, int) or isinstance(version, bool):
        raise Damaged(path, "not a Studbook job (its _meta table has no format)", "Give the path of the job file.")
    if version > FORMAT:
        raise Damaged(
            path,
            f"written by a newer version of Studbook (format {version}; this one reads up to {FORMAT})",
            "Install the newer version to open it.",
        )
    if wrong := _wrong_in(meta_of(tables)):
        raise Damaged(path, f"its own record is damaged (table _meta, entry 1, {wrong})")
    return version


def must_be_current(path: Path, tables: Tables) -> None:
    """Raises Damaged when the file is not, or is no longer, in today's form."""
    version = version_of(path, tables)
    if version != FORMAT:
        raise Damaged(path, f"its format is older now ({version})", "Open it again: that converts it.")


def _wrong_in(meta: Mapping[str, Any]) -> str:
    """The part of the file's own record that is not what it must be; empty when all of it is."""
    if not _is_count(meta.get("last", 0)):
        return "last"
    given = meta.get("next", {})
    return "" if isinstance(given, dict) and all(map(_is_count, given.values())) else "next"


def _is_count(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and 0 <= value < 10**9


def _from_0(tables: Tables) -> Tables:
    """Form 0 kept readings inside their wall, called units `imperial` or `metric`, and had no history."""
    if tables.get("history"):
        raise ValueError("form 0 had no history, and this file has one")
    new = {name: dict(table) for name, table in tables.items()}
    readings = new.setdefault("reading", {})
    number = 0
    for key, wall in list(new.get("wall", {}).items()):
        new["wall"][key] = {name: value for name, value in wall.items() if name != "readings"}
        for reading in wall.get("readings", []):
            number += 1
            readings[str(number)] = {"tag": f"D{number}", "wall": wall["tag"], **reading}
    for key, job in new.get("job", {}).items():
        units = {"imperial": "feet-inches", "metric": "millimetres"}.get(job.get("units", ""))
        new["job"][key] = {**job, **({"units": units} if units else {})}
    meta = dict(new["_meta"]["1"])
    meta["next"] = {**meta.get("next", {}), "reading": number}
    new["_meta"] = {"1": {**meta, "studbook": 1, "last": 0}}
    return new


_AT_END = {"left end": ("meets_left", "meets_right"), "right end": ("meets_right", "meets_left")}
"""What form 1 called the corner that a cable goes around, by an end of its first wall: what that wall notes of it now,
and what the other wall does."""


def _from_1(tables: Tables) -> Tables:
    """Form 1 noted on each cable which corner it goes around; now each wall notes the walls that it meets.

    What no wall can note, as the wall of an end is not known or another cable has it otherwise, goes to the notes.
    """
    new = {name: dict(table) for name, table in tables.items()}
    places = {doc.get("tag"): doc for kind in ("box", "opening", "equipment") for doc in new.get(kind, {}).values()}
    walls = {doc.get("tag"): dict(doc) for doc in new.get("wall", {}).values()}
    for key, doc in new.get("cable", {}).items():
        if "corner" in doc:
            cable = {name: value for name, value in doc.items() if name != "corner"}
            first, other = (_wall_at(places, doc.get(end, "")) for end in ("start", "end"))
            sides = _AT_END.get(doc["corner"])
            if sides and not _meet(walls, first, other, *sides):
                word = f"Goes round the corner at the {doc['corner']} of its first wall."
                cable["notes"] = "\n".join(each for each in (doc.get("notes"), word) if each)
            new["cable"][key] = cable
    if "wall" in new:
        new["wall"] = {key: walls[doc.get("tag")] for key, doc in new["wall"].items()}
    new["_meta"] = {"1": {**new["_meta"]["1"], "studbook": 2}}
    return new


def _wall_at(places: Mapping[str, Any], tag: str) -> str:
    """The wall that an end of a cable is on; empty where that is not known."""
    one = places.get(tag, {})
    return str(places.get(one["opening"], {}).get("wall", "") if one.get("opening") else one.get("wall", ""))


def _meet(walls: Mapping[str, dict[str, Any]], first: str, other: str, side: str, opposite: str) -> bool:
    """Note on a wall that this side of it meets another; False where that cannot be, or is entered otherwise."""
    one, two = walls.get(first), walls.get(other)
    if one is None or two is None or first == other:
        return False
    if one.get(side) == other or two.get(opposite) == first:
        return True
    if one.get(side) or two.get(opposite) or one.get(opposite) == other or two.get(side) == first:
        return False
    one[side] = other
    return True


def _from_2(tables: Tables) -> Tables:
    """Form 2 had every entry in the table `history`; form 3 packs the older ones, from its next change on.

    It asked for no kind of proof either: its closings stay as they are, and are known by having none.
    """
    return {**tables, "_meta": {"1": {**tables["_meta"]["1"], "studbook": 3}}}


STEPS: dict[int, Callable[[Tables], Tables]] = {0: _from_0, 1: _from_1, 2: _from_2}
"""The step that leads on from each version."""


def migrated(path: Path, tables: Tables, version: int) -> Tables:
    """The tables in today's form. Raises Damaged where the old file does not hold together."""
    while version < FORMAT:
        try:
            tables = STEPS[version](tables)
        except (KeyError, TypeError, AttributeError, ValueError) as error:
            raise Damaged(path, f"it is in an older format ({version}) and is damaged ({error!r})") from error
        version += 1
    return tables


def brought_over(version: int, old: Tables, new: Tables, said: Mapping[tuple[str, str], Any]) -> list[Step]:
    """What a migration from a version did to records, for the history; `said` is what that said last of each.

    Form 0 had no history: all of it is taken as it is, but for what counts only with one. Later, a record that is not
    as its history says stays so: to call a file an older form is no way to have it believed.
    """
    if version == 0:
        kinds = [kind for kind in KINDS if kind not in UNVOUCHED]
        return [Step(kind, doc.get("tag", ""), None, doc) for kind in kinds for doc in new.get(kind, {}).values()]
    were = {(kind, key): doc for kind in KINDS for key, doc in old.get(kind, {}).items()}
    steps = []
    for (kind, key), before in were.items():
        after = new[kind][key]
        if before != after and said.get((kind, before.get("tag", ""))) == before:
            steps.append(Step(kind, before["tag"], before, after))
    return steps


def kept_name(path: Path, version: int) -> tuple[Path, bool]:
    """Where the file as it was is kept before it is migrated, and whether it is kept there already.

    Never a name that something else is kept under; and one copy is enough, however often a migration was begun.
    """
    number, kept = 1, path.with_name(f"{path.name}.form{version}")
    while disk.seen(kept) is not None:
        if _alike(path, kept):
            return kept, True
        number, kept = number + 1, path.with_name(f"{path.name}.form{version}-{number + 1}")
    return kept, False


def _alike(one: Path, other: Path) -> bool:
    if other.is_symlink() or not other.is_file():
        return False
    return one.samefile(other) or (
        one.stat().st_size == other.stat().st_size and one.read_bytes() == other.read_bytes()
    )


def meta_of(tables: Tables) -> dict[str, Any]:
    """The file's own record of itself."""
    meta: dict[str, Any] = tables["_meta"]["1"]
    return meta
