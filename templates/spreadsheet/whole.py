"""A whole job as a folder of lists, one a kind of record, and such a folder read back in one action.

The history and the pictures are not in it. The gate judges what comes in as it judges a job that is made whole: a
stage counts only where the job could have got to it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

import msgspec

from store.book.changes import Put
from store.measure.counts import plural
from store.measure.errors import BadValue
from store.records.base import Record, from_doc, to_doc
from store.records.gate import Closing
from store.records.job import Settings
from store.records.whole import KINDS, Job
from store.rules.core.checks import rough_in
from store.rules.gate.mock_up import AGREED
from templates.spreadsheet.fields import GATE_KINDS, kind_named
from templates.spreadsheet.reading import Asked, BadRows, How, Import, read_import
from templates.spreadsheet.rows import read_file, read_rows
from templates.spreadsheet.writing import export_csv

ENDINGS = (".csv", ".tsv", ".xlsx")
MOST_TOLD = 40


class Whole(msgspec.Struct, frozen=True):
    """What reading a folder would do."""

    kinds: tuple[Import, ...]
    changes: tuple[Put, ...]
    notes: tuple[str, ...] = ()

    def says(self) -> str:
        """The sum in words."""
        new, changed, same = (sum(getattr(each, name) for each in self.kinds) for name in ("new", "changed", "same"))
        return f"the whole job: {new} new, {changed} changed, {same} the same as before"


def export_whole(job: Job) -> dict[str, str]:
    """The text of each list by the name of its file; also of kinds that have no record, so that none is left behind."""
    return {f"{kind}.csv": export_csv(job, cls) for kind, cls in KINDS.items()}


def files_of(folder: Path) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """The lists in a folder by their kind, and what was left out, in words. Raises BadValue."""
    try:
        names = sorted(each for each in folder.iterdir() if each.suffix.lower() in ENDINGS)
    except OSError as error:
        raise BadValue(f"{folder}: cannot be read as a folder: {error.strerror}") from error
    found: dict[str, bytes] = {}
    notes = []
    for path in names:
        kind = _kind_of(path.stem)
        if not kind:
            notes.append(f"{path.name} is left out: its name is not that of a list")
        elif kind in found:
            raise BadValue(f"{path}: a second list of {KINDS[kind].many}. Leave one of them in the folder.")
        else:
            found[kind] = read_file(path)
    if not found:
        raise BadValue(f"{folder}: no list of records in it, like equipment.csv. Give another folder.")
    return {kind: found[kind] for kind in KINDS if kind in found}, tuple(notes)


def _kind_of(stem: str) -> str:
    plain = stem.strip().lower()
    if plain in KINDS:
        return plain
    try:
        return kind_named(plain).kind
    except BadValue:
        return ""


def read_whole(job: Job, files: Mapping[str, bytes], how: How | None = None) -> Whole:
    """What the lists would change, all together. Raises BadRows naming file, row and column, or Asked."""
    said = how or How()
    wrong: list[str] = []
    found: list[Import] = []
    coming = {tag: kind for kind, raw in files.items() for tag in _tags(KINDS[kind], raw, said)}
    for kind, raw in files.items():
        try:
            one = read_import(job, KINDS[kind], raw, said, coming)
        except Asked as error:
            raise Asked(f"{kind}.csv: {error}", error.question, error.choices) from error
        except BadRows as error:
            wrong += [f"{kind}.csv: {line}" for line in str(error).split("\n") if not line.startswith("nothing was")]
            continue
        if kind == Settings.kind:
            # The lists below are read in the units and the currency that the job will have.
            job = job.having(_settings(job, one))
        found.append(one)
    if wrong:
        more = [f"... and {len(wrong) - MOST_TOLD} more"] if len(wrong) > MOST_TOLD else []
        raise BadRows("\n".join([f"nothing was imported, {plural(len(wrong), 'mistake')}:", *wrong[:MOST_TOLD], *more]))
    changes = [change for one in found for change in one.changes]
    kept, notes = _without_stray(job, changes)
    return Whole(tuple(found), tuple(kept), notes)


def _tags(cls: type[Record], raw: bytes, how: How) -> list[str]:
    """The tags that a list brings."""
    try:
        rows = read_rows(raw, how, lambda cell: cell.strip().lower() == "tag")
    except BadValue:
        return []  # told when the list itself is read
    at = next((at for at, name in enumerate(rows.names) if name.strip().lower() == "tag"), None)
    if at is None or not cls.letter:
        return []
    return [row[at].strip().upper() for _, row in rows.rows if at < len(row) and row[at].strip()]


def _settings(job: Job, found: Import) -> Settings:
    """The settings as the list has them."""
    return _applied(job.settings, found.changes[0]) if found.changes else job.settings


def _applied(old: Settings, change: Put) -> Settings:
    doc = {**to_doc(old), **change.fields}
    return from_doc({key: value for key, value in doc.items() if value is not None}, Settings)


def _without_stray(job: Job, changes: Sequence[Put]) -> tuple[list[Put], tuple[str, ...]]:
    """The changes without closings of checks that are on no list any more: nothing would take them."""
    if not any(each.kind == Closing.kind and each.new for each in changes):
        return list(changes), ()
    tables: dict[str, dict[str, Record]] = {kind: dict(job.tables.get(kind, {})) for kind in KINDS}
    for change in changes:
        if change.new and change.tag and change.kind not in GATE_KINDS:
            tables[change.kind][change.tag] = from_doc({"tag": change.tag, **change.fields}, KINDS[change.kind])
    there = {check.key for check in rough_in(Job(tables, job.marks, (), (), job.today))} | {AGREED}
    stray = [each.tag for each in changes if each.kind == Closing.kind and each.new and each.tag not in there]
    kept = [each for each in changes if each.kind != Closing.kind or each.tag not in stray]
    note = f"left out, as these items are not on the list any more: {', '.join(stray[:20])}"
    return kept, (note,) if stray else ()
