"""Several records as lines of text, typed or pasted: each cell read as the form reads it, each mistake at its cell.

Columns stand apart by a tab, two spaces or a bar. A first line that names columns says which they are. A line that
begins with the tag of a record changes that one, as far as it says anything; after it the first column may be left out.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from store.book.changes import Put, add, edit
from store.measure.counts import a_one, plural
from store.measure.errors import BadValue, quoted
from store.measure.quantity import unit_named
from store.records.base import Record
from store.records.field import NUMERIC, Field, Manner, fields_of
from store.records.whole import KINDS, Job
from templates.spreadsheet.cells import OTHER_WORDS, read_cell
from templates.spreadsheet.columns import OTHER_NAMES, known_names

MOST_LINES = 400
NOTHING = "-"
"""A cell that is left blank where columns stand apart by spaces."""
_TIMES = re.compile(r"\s*×\s*|\s+x\s+|(?<=[\d'\"])x(?=[\d.\s])")
"""Between sizes; the x of a word is none."""
APART = "Put two spaces or a tab between columns"
_SIZES = re.compile(r"\d\W?\s*[x×]\s*\d|\d\s*(?:lb|kg|w)\b", re.IGNORECASE)
"""What is no part of a name, as in `player 17 x 2 x 9 8 lb` with single spaces."""


class TypedColumn(msgspec.Struct, frozen=True):
    """One column: one field, or the sizes that are written together, as 17 x 6 x 15."""

    title: str
    fields: tuple[Field, ...]


class CellWrong(msgspec.Struct, frozen=True):
    """A mistake, at its cell."""

    line: int
    """From 1, as the lines are counted in the text."""
    column: str
    why: str

    def says(self) -> str:
        """`Line 3, weight: ...`."""
        return f"Line {self.line}, {self.column}: {self.why}"


class TypedLine(msgspec.Struct, frozen=True):
    """One line as it was understood."""

    line: int
    record: Record | None
    """None where something in it is wrong."""
    cells: tuple[tuple[str, str], ...]
    """Titles, and values as they will be saved, in the units of the job."""
    wrong: tuple[CellWrong, ...] = ()
    was: Record | None = None
    """The record that it changes; None for a new one."""

    def says(self) -> str:
        """`1  name Receiver, width 17-1/8", ...`; after the tag of what is changed, if anything."""
        changed = f"{self.was.tag} changed: " if self.was is not None else ""
        return f"{self.line}  {changed}" + ", ".join(f"{title} {text}".strip() for title, text in self.cells)


class TypedLines(msgspec.Struct, frozen=True):
    """All of it."""

    columns: tuple[TypedColumn, ...]
    lines: tuple[TypedLine, ...]
    wrong: tuple[CellWrong, ...]

    @property
    def changes(self) -> tuple[Put, ...]:
        """One record a line, new or changed; nothing while something is wrong."""
        if self.wrong:
            return ()
        made = [(each.was, each.record) for each in self.lines if each.record is not None]
        return tuple(add(one) if was is None else edit(was, one) for was, one in made)


COLUMNS: dict[str, str] = {
    "reading": "wall what value where",
    "equipment": "name width/height/depth weight watts price",
    "box": "wall name what x y circuit",
    "cable": "name type start end rating",
    "contact": "name trade phone mail licence",
    "obstacle": "wall what x y width/height",
    "step": "what stage days after",
}
"""By kind, its columns; fields joined by a slash are sizes that are written together."""
_SAMPLES: dict[str, tuple[str, str]] = {
    "reading": ("width  12'-7 1/4\"  at the floor", "width  3842  at the floor"),
    "equipment": ("receiver  17-1/8 x 6-3/8 x 15-1/4  24 lb  420 W", "receiver  435 x 162 x 387  11 kg  420 W"),
    "box": ("Behind the TV  receptacle  6'-3\"  4'-8\"  C1", "Behind the TV  receptacle  1900  1420  C1"),
    "cable": ("TV picture  hdmi  TV  receiver  CL3", "TV picture  hdmi  TV  receiver  CL3"),
    "contact": ("Sam Rivers  electrician  555-0123", "Sam Rivers  electrician  020 7946 0000"),
    "obstacle": ("vent  9'-2\"  0  12 x 6", "vent  2800  0  300 x 150"),
    "step": ("Pull the cables  Rough-in  2  S1", "Pull the cables  Rough-in  2  S1"),
}  # fmt: skip


def columns_of_kind(cls: type[Record], job: Job) -> tuple[TypedColumn, ...]:
    """The columns of a kind; without the wall where the job has just one."""
    fields = {field.key: field for field in fields_of(cls)}
    keys = COLUMNS[cls.kind].split()
    if len(job.tables.get("wall", {})) == 1 and keys[0] == "wall":
        keys = keys[1:]
    return tuple(_column([fields[each] for each in key.split("/")], job.manner) for key in keys)


def sample(cls: type[Record], manner: Manner) -> str:
    """A line as someone might type it."""
    return _SAMPLES[cls.kind][manner.metric]


def _column(fields: Sequence[Field], manner: Manner) -> TypedColumn:
    return TypedColumn(" x ".join(field.title(manner) for field in fields), tuple(fields))


def read_lines(job: Job, cls: type[Record], text: str, start: Mapping[str, Any] | None = None) -> TypedLines:
    """What the lines of a text would add; `start` are values that every record begins with.

    It raises nothing: what is wrong is shown at its cell.
    """
    columns = columns_of_kind(cls, job)
    walls = tuple(job.tables.get("wall", {}))
    lone = {"wall": walls[0]} if COLUMNS[cls.kind].startswith("wall ") and len(walls) == 1 else {}
    base = {**lone, **(start or {})}
    lines = text.split("\n")
    wrong: list[CellWrong] = []
    if len(lines) > MOST_LINES:
        wrong.append(CellWrong(MOST_LINES + 1, "line", f"{MOST_LINES} lines at most at once. Save these first."))
    found: list[TypedLine] = []
    named = _Names(job)
    headed = False
    first: dict[str, int] = {}
    for number, line in enumerate(lines[:MOST_LINES], 1):
        if not line.strip():
            continue
        cells = split_line(line)
        if not found and not headed and (own := _heading(cls, cells, job.manner)) is not None:
            columns, headed = own, True
            continue
        was = None
        if cls.letter and re.fullmatch(rf"{cls.letter}\d+", tag := cells[0].upper(), re.ASCII):
            was, cells = job.get(tag), cells[1:]
            if was is None:
                wrong.append(CellWrong(number, "line", f"there is no {tag}. Leave the tag out for a new one."))
        if was is None:
            read = _read_line(job, cls, columns, number, cells, base, named)
        else:
            read = _read_change(job, cls, columns, number, cells, was, named)
        if was is not None and (at := first.setdefault(was.tag, number)) != number:
            wrong.append(CellWrong(number, "line", f"{was.tag} is on line {at} already"))
        found.append(msgspec.structs.replace(read, was=was))
    wrong += [each for line in found for each in line.wrong]
    return TypedLines(columns, tuple(found), tuple(wrong))


def _read_change(
    job: Job,
    cls: type[Record],
    columns: Sequence[TypedColumn],
    number: int,
    cells: Sequence[str],
    was: Record,
    names: _Names,
) -> TypedLine:
    """A line that changes a record. Its tag may stand for its name: `E1  57 x 33 x 2` are sizes and no new name."""
    base = _values_of(was)
    read = _read_line(job, cls, columns, number, cells, base, names)
    if read.wrong or (cells[:1] and cells[0][:1].isdigit()):
        without = _read_line(job, cls, columns, number, ["", *cells], base, names)
        if not without.wrong:
            return without
    return read


def _values_of(record: Record) -> dict[str, Any]:
    return {field: getattr(record, field) for field in record.__struct_fields__}


def split_line(line: str) -> list[str]:
    """The cells of a line: by tabs, else by bars, else by two spaces or more."""
    if "\t" in line.strip(" "):
        cells = line.split("\t")
    elif "|" in line:
        line = line.strip(" ")
        cells = (line[1:-1] if line.startswith("|") and line.endswith("|") else line).split("|")
    else:
        cells = re.split(r" {2,}", line.strip())
    cells = [cell.strip() for cell in cells]
    return ["" if cell == NOTHING else cell for cell in cells]


def _heading(cls: type[Record], cells: Sequence[str], manner: Manner) -> tuple[TypedColumn, ...] | None:
    """The columns that a first line names; None where one of its cells names none."""
    fields = {field.key: field for field in fields_of(cls)}
    known = known_names(cls)
    found: list[TypedColumn] = []
    for cell in cells:
        keys = []
        for part in re.split(r"\s+[x×]\s+", cell.lower()):
            plain = re.sub(r"[^a-z0-9]", "", part)
            key = known.get(plain, "") or next((each for each in OTHER_NAMES.get(plain, ()) if each in fields), "")
            keys.append(key)
        if not all(key in fields for key in keys):
            return None
        found.append(_column([fields[key] for key in keys], manner))
    return tuple(found) if len(found) > 1 else None


class _Names:
    """The tags of what there is, by name."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._made: dict[tuple[str, ...], dict[str, list[str]]] = {}

    def tag(self, field: Field, text: str) -> str:
        """The tag of what a cell names; the cell itself where nothing is called so. Raises BadValue for several."""
        wanted = " ".join(text.lower().split())
        if not wanted or re.fullmatch(r"[a-z]\d+", wanted, re.ASCII):
            return text
        kinds = field.says.kinds or tuple(KINDS)
        if kinds not in self._made:
            names: dict[str, list[str]] = {}
            for kind in kinds:
                for tag, one in self._job.tables.get(kind, {}).items():
                    name = str(getattr(one, "name", "") or getattr(one, "what", "")).lower()
                    names.setdefault(" ".join(name.split()), []).append(tag)
            self._made[kinds] = names
        names = self._made[kinds]
        exact = names.get(wanted, [])
        begun = [tag for name, tags in names.items() if name.startswith(wanted) for tag in tags]
        tags = exact or begun
        if len(tags) > 1:
            raise BadValue(f"{quoted(text)} could be {' or '.join(tags[:4])}. Write the tag.")
        return tags[0] if tags else text

    def check(self, field: Field, value: Any) -> None:
        """Raises BadValue for a tag of nothing, or of another kind."""
        for tag in (value,) if isinstance(value, str) else tuple(value):
            one = self._job.get(tag) if tag else None
            if tag and one is None:
                raise BadValue(f"no {tag} in this job. Write a tag that is there.")
            if one is not None and field.says.kinds and one.kind not in field.says.kinds:
                wanted = " or ".join(KINDS[each].one for each in field.says.kinds)
                raise BadValue(f"{tag} is the wrong kind here. Write the tag of {a_one(wanted)}.")


def _read_line(
    job: Job,
    cls: type[Record],
    columns: Sequence[TypedColumn],
    number: int,
    cells: Sequence[str],
    base: Mapping[str, Any],
    names: _Names,
) -> TypedLine:
    manner = job.manner
    values: dict[str, Any] = dict(base)
    said: list[tuple[str, str]] = []
    wrong: list[CellWrong] = []
    for column, cell in zip(columns, cells, strict=False):
        for field, part in _parts(column, cell, manner, number, wrong):
            if not part and field.key in base:
                continue
            try:
                value = _value(field, part, manner, names)
            except BadValue as error:
                wrong.append(CellWrong(number, field.title(manner), str(error)))
                continue
            values[field.key] = value
            if part:
                said.append((field.title(manner), field.show(value, manner)))
    if len(cells) == 1 < len(columns) and _SIZES.search(cells[0]):
        wrong.append(CellWrong(number, columns[0].title, f"{quoted(cells[0])} has sizes in it. {APART}."))
    if len(cells) > len(columns):
        many = plural(len(columns), "column")
        wrong.append(CellWrong(number, "line", f"{plural(len(cells), 'cell')}, and there are {many}"))
    if base.get("what") in (None, ""):
        _infer(cls, values, said, {field.key for column in columns for field in column.fields}, manner)
    told = {each.column for each in wrong}
    for field in fields_of(cls):
        title = field.title(manner)
        if field.required and values.get(field.key) in (None, "") and title not in told:
            wrong.append(CellWrong(number, title, f"enter the {title}. {APART}."))
    if wrong:
        return TypedLine(number, None, tuple(said), tuple(wrong))
    return TypedLine(number, cls(**{"tag": "", **values}), tuple(said))


def _value(field: Field, text: str, manner: Manner, names: _Names) -> Any:
    """Raises BadValue."""
    is_ref = field.codec.name in ("ref", "refs")
    if is_ref and field.codec.name == "ref":
        text = names.tag(field, text)
    if not text.strip():
        return field.empty
    if field.codec.name in NUMERIC or is_ref or field.codec.name == "date":
        value = read_cell(field, text, manner, commas=manner.comma)
    else:
        value = read_cell(field, text, manner)
    if is_ref:
        names.check(field, value)
    return value


def _parts(
    column: TypedColumn, cell: str, manner: Manner, number: int, wrong: list[CellWrong]
) -> list[tuple[Field, str]]:
    """Each field of a column with its text: `435 x 162 x 387 mm` are three, all in millimeters."""
    if len(column.fields) == 1:
        return [(column.fields[0], cell)]
    parts = [part.strip() for part in _TIMES.split(cell.lower())] if cell else []
    if len(parts) > len(column.fields):
        wrong.append(CellWrong(number, column.title, f"{len(parts)} sizes, and there are {len(column.fields)}"))
        return []
    unit = re.search(r"[a-z]+\.?$", parts[-1]) if parts else None
    if unit is not None and unit_named(unit[0]):
        parts = [part if re.search(r"[a-z'\"]", part) else f"{part} {unit[0]}" for part in parts]
    return list(zip(column.fields, parts, strict=False))


def _infer(
    cls: type[Record], values: dict[str, Any], said: list[tuple[str, str]], asked: set[str], manner: Manner
) -> None:
    """The sort of equipment, from its name, where no column asks for it: a receiver is a receiver."""
    if cls.kind != "equipment" or "what" in asked:
        return
    field = next(each for each in fields_of(cls) if each.key == "what")
    name = f" {' '.join(re.findall('[a-z]+', str(values.get('name', '')).lower()))} "
    words = {each: each for each in field.choices if each != "other"} | {
        word: sort for word, sort in OTHER_WORDS.items() if sort in field.choices and sort != "other"
    }
    for word in sorted(words, key=len, reverse=True):
        if f" {word} " in name or f" {word}s " in name:
            values["what"] = words[word]
            said.insert(1, (field.title(manner), field.show(words[word], manner)))
            return
