"""Bringing an older job file to the form of today, one pure step a version."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from store.book.errors import Damaged
from store.book.file import Tables

FORMAT = 1
"""The version of the file that this program writes."""
UNVOUCHED = ("answer", "closing", "passage")
"""Kinds that count only where a history tells how they came about: in a file without one they are as if written by
hand. Else to call a file an older form, and to leave its history out, would be a way round the gate."""


def version_of(path: Path, tables: Tables) -> int:
    """The version of a file. Raises Damaged when it is no job file, or a newer one."""
    version = tables.get("_meta", {}).get("1", {}).get("studbook")
    if not isinstance(version, int) or isinstance(version, bool):
        raise Damaged(path, "it is not a Studbook job (its _meta table does not say so)", "Name the job's own file.")
    if version > FORMAT:
        raise Damaged(
            path,
            f"it was written by a newer version (form {version}; this one knows up to {FORMAT})",
            "Install the newer version to open it.",
        )
    if wrong := _wrong_in(meta_of(tables)):
        raise Damaged(path, f"its own record does not hold together (table _meta, entry 1, {wrong})")
    return version


def must_be_current(path: Path, tables: Tables) -> None:
    """Raises Damaged when the file is not, or is no longer, in today's form."""
    version = version_of(path, tables)
    if version != FORMAT:
        raise Damaged(path, f"it is of an older form ({version}) now", "Open it anew: that brings it to today's form.")


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


STEPS: dict[int, Callable[[Tables], Tables]] = {0: _from_0}
"""The step that leads on from each version."""


def migrated(path: Path, tables: Tables, version: int) -> Tables:
    """The tables in today's form. Raises Damaged where the old file does not hold together."""
    while version < FORMAT:
        try:
            tables = STEPS[version](tables)
        except (KeyError, TypeError, AttributeError, ValueError) as error:
            raise Damaged(path, f"it is of an older form ({version}) and does not hold together ({error!r})") from error
        version += 1
    return tables


def kept_name(path: Path, version: int) -> Path:
    """Where the file as it was is kept before it is migrated; never a name that something is kept under already."""
    number, kept = 1, path.with_name(f"{path.name}.form{version}")
    while kept.exists():
        number, kept = number + 1, path.with_name(f"{path.name}.form{version}-{number + 1}")
    return kept


def meta_of(tables: Tables) -> dict[str, Any]:
    """The file's own record of itself."""
    meta: dict[str, Any] = tables["_meta"]["1"]
    return meta
