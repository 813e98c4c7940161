"""Reading a starter: a TOML file with one table a kind of record and the same field names as the records.

Typed forms are those that a person types on the screen (`"6' 3 1/2"`, `"1900 mm"`, `"12 march"`). A tag may be given;
where it is not, the next one is taken. Readings and obstacles may stand inside their wall, openings of a panel
inside their panel.
"""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Iterator, Mapping
from datetime import date
from importlib.resources import files
from pathlib import Path
from typing import Any

from store.book.changes import Put, add
from store.book.ground import disk
from store.measure.counts import a_one
from store.measure.errors import BadValue
from store.records.base import Record
from store.records.field import Field, Manner, fields_of
from store.records.gate import Answer, Closing, Passage
from store.records.whole import KINDS, Job, references
from store.rules.core.checks import RoughIn, rough_in
from store.rules.core.findings import findings
from store.rules.core.proof import kind_meant
from store.rules.gate.gate import CLOSED
from store.rules.gate.mock_up import AGREED, agreement

SHIPPED: dict[str, str] = {
    "empty": "an empty job, lengths in feet and inches",
    "media-wall": "a media wall, lengths in feet and inches",
    "media-wall-metric": "a media wall, lengths in millimeters",
    "demo": "the demo: an invented media wall in the middle of its rough-in",
}
"""The starters that come with the program."""

NESTED = {
    ("wall", "reading"): "wall",
    ("wall", "obstacle"): "wall",
    ("wall", "buildout"): "wall",
    ("wall", "zone"): "wall",
    ("wall", "furniture"): "wall",
    ("opening", "shelf"): "opening",
    ("panel", "visit"): "panel",
}
"""Kinds that may stand inside another, and the field that then names it."""

MOST_BYTES = 4_000_000
"""Of a starter: the demo, with everything that a job can have, has a hundredth of that."""
MOST_WRONG = 100
"""Mistakes that are looked for; twenty are shown."""
_DEEP = re.compile(r"""(?:(?:[A-Za-z0-9_-]{1,99}|"[^"\n]{0,99}"|'[^'\n]{0,99}')[ \t]{0,9}\.[ \t]{0,9}){20}""")
"""A name of many parts: each is a table within the one before."""

MOST_DIGITS = 7
"""Digits of the longest tag."""

Values = dict[str, Any]


class BadStarter(BadValue):
    """A starter with mistakes; its text names file, table, entry and field of each."""


def load(starter: str, today: date) -> list[Put]:
    """The changes that make the job of a shipped starter's name or a TOML file. Raises BadStarter."""
    if starter in SHIPPED:
        name = f"{starter}.toml"
        text = files("templates.starters").joinpath(name).read_text("utf-8")
    else:
        name = starter
        text = _read(Path(starter))
    if deep := _DEEP.search(text):
        line = text.count("\n", 0, deep.start()) + 1
        raise BadStarter(f"{name}: not a starter: line {line} has tables nested too deep")
    try:
        raw = tomllib.loads(text)
    except RecursionError as error:
        raise BadStarter(f"{name}: not a starter: it has tables nested too deep") from error
    except tomllib.TOMLDecodeError as error:
        raise BadStarter(f"{name}: not TOML: {error}") from error
    except ValueError as error:
        raise BadStarter(f"{name}: not a starter: it has a number with thousands of digits") from error
    return _Reader(name, today).read(raw)


def _read(path: Path) -> str:
    try:
        return disk.read_given(path, MOST_BYTES).decode("utf-8")
    except FileNotFoundError as error:
        raise BadStarter(f"no starter {path}: it is neither a file nor one of {', '.join(SHIPPED)}") from error
    except OSError as error:
        raise BadStarter(f"{path}: cannot be read: {error.strerror}") from error
    except UnicodeDecodeError as error:
        raise BadStarter(f"{path}: cannot be read as text: {error}") from error


class _Reader:
    """Turns the tables of a starter into records, gathering every mistake before it gives up."""

    def __init__(self, name: str, today: date) -> None:
        self._name = name
        self._manner = Manner(today)
        self._wrong: list[str] = []
        self._taken: set[str] = set()
        self._last: dict[str, int] = {}
        self._places: dict[tuple[str, str], str] = {}

    def read(self, raw: Values) -> list[Put]:
        self._set_manner(raw.get("job"))
        self._taken = set(_given_tags(raw))
        entries = list(self._entries(raw))
        records = [record for kind, place, values in entries if (record := self._record(kind, place, values))]
        self._check_names(records)
        if not any(record.kind == "job" for record in records) and not self._wrong:
            self._wrong.append("table [job]: it is missing, and a job needs a name")
        if self._wrong:
            raise self._bad()
        return [add(record, keep_tag=True) for record in self._vouched(records)]

    def _bad(self) -> BadStarter:
        return BadStarter("\n".join(f"{self._name}: {each}" for each in self._wrong[:20]))

    def _enough(self) -> None:
        """Give up where there is nothing but mistakes: each of them takes a while to put into words."""
        if len(self._wrong) >= MOST_WRONG:
            raise self._bad()

    def _entries(self, raw: Values) -> Iterator[tuple[str, str, Values]]:
        """Each entry: kind, place in words, values. Entries within entries come right after their own."""
        for kind, value in raw.items():
            if kind not in KINDS:
                self._wrong.append(f"table [{kind}]: there is no such kind of record{_near(kind, KINDS)}")
                continue
            rows = value if isinstance(value, list) else [value]
            for number, row in enumerate(rows, 1):
                self._enough()
                place = f"[{kind}]" if kind == "job" else f"[[{kind}]] entry {number}"
                if not isinstance(row, dict):
                    self._wrong.append(f"table {place}: it must be a table of fields")
                    continue
                yield from self._with_nested(kind, place, row)

    def _with_nested(self, kind: str, place: str, row: Values) -> Iterator[tuple[str, str, Values]]:
        own = {key: value for key, value in row.items() if (kind, key) not in NESTED}
        inner = [key for key in row if (kind, key) in NESTED]
        if inner and "tag" not in own:
            own["tag"] = self._next(kind)
        yield kind, place, own
        for key in inner:
            rows = row[key] if isinstance(row[key], list) else [row[key]]
            for number, each in enumerate(rows, 1):
                where = f"{place}, [[{kind}.{key}]] entry {number}"
                if isinstance(each, dict):
                    yield key, where, {NESTED[kind, key]: own["tag"], **each}
                else:
                    self._wrong.append(f"table {where}: it must be a table of fields")

    def _set_manner(self, job: Any) -> None:
        if isinstance(job, dict):
            comma = job.get("decimal", job.get("decimal sign")) == "comma"
            metric, us = job.get("units") == "millimetres", job.get("region", "us") == "us"
            self._manner = Manner(self._manner.today, metric, not us, str(job.get("currency", "USD")), comma)

    def _record(self, kind: str, place: str, values: Values) -> Record | None:
        cls = KINDS[kind]
        known = {field.key: field for field in fields_of(cls)}
        before = len(self._wrong)
        taken: Values = {"tag": self._tag(cls, place, values)}
        if len(self._wrong) == before:
            # Also where a field turns out wrong: what names this entry is no mistake of its own then.
            self._take_place(kind, taken["tag"], place)
        given: set[str] = set()
        for key, value in values.items():
            self._enough()
            if key == "tag" or (key == "check" and cls is Closing):
                continue
            field = known.get(key) or _by_title(key, known)
            if field is None:
                self._wrong.append(f"table {place}: there is no field `{key}`{_meant(key, known)}")
                continue
            if field.key in given:
                self._wrong.append(f"table {place}, field `{key}`: it is given twice, also as `{field.key}`")
                continue
            given.add(field.key)
            try:
                taken[field.key] = field.take(value, self._manner)
            except BadValue as error:
                self._wrong.append(f"table {place}, field `{key}`: {error}")
        for key, field in known.items():
            if field.required and key not in given:
                self._wrong.append(f"table {place}: field `{key}` ({field.says.title}) is missing")
        return None if len(self._wrong) > before else cls(**taken)

    def _take_place(self, kind: str, tag: str, place: str) -> None:
        if (kind, tag) in self._places:
            self._wrong.append(f"table {place}, field `tag`: {tag} is given twice, also in {self._places[kind, tag]}")
        self._places[kind, tag] = place

    def _check_names(self, records: list[Record]) -> None:
        """Every reference must name a record of the file, of a kind that fits."""
        kinds = {tag: kind for kind, tag in self._places if KINDS[kind].letter}
        for record in records:
            place = f"{self._places[record.kind, record.tag]} ({record.tag})"
            for key, tag, wanted in references(record):
                if tag not in kinds:
                    self._wrong.append(f"table {place}, field `{key}`: no {tag} in this job")
                elif wanted and kinds[tag] not in wanted:
                    names = " or ".join(wanted)
                    self._wrong.append(
                        f"table {place}, field `{key}`: {tag} is {a_one(kinds[tag])}, not {a_one(names)}"
                    )

    def _tag(self, cls: type[Record], place: str, values: Values) -> str:
        if cls.kind == "job":
            return "job"
        given = values.get("tag", values.get("check") if cls is Closing else None)
        if not cls.letter:
            if not given:
                self._wrong.append(f"table {place}: field `{'check' if cls is Closing else 'tag'}` is missing")
            return str(given)
        if given is None:
            return self._next(cls.kind)
        tag = str(given)
        if not tag.startswith(cls.letter) or not (number := _number(tag)):
            self._wrong.append(f"table {place}, field `tag`: {tag!r} is not a tag like {cls.letter}1")
            return tag
        return f"{cls.letter}{number}"

    def _next(self, kind: str) -> str:
        letter = KINDS[kind].letter
        number = self._last.get(kind, 0) + 1
        while f"{letter}{number}" in self._taken:
            number += 1
        self._last[kind] = number
        self._taken.add(f"{letter}{number}")
        return f"{letter}{number}"

    def _vouched(self, records: list[Record]) -> Iterator[Record]:
        """The records, with what closings and answers vouch for, and what passages checked, filled in."""
        tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
        for record in records:
            tables[record.kind][record.tag] = record
        job = Job(tables, today=self._manner.today)
        checks = {check.key: check for check in rough_in(job)}
        closable = {**checks, AGREED: agreement(job)}
        found = {each.key: each for each in findings(job)} if tables["answer"] else {}
        for record in records:
            if isinstance(record, Closing) and record.tag in closable:
                yield _vouching(record, closable[record.tag])
            elif isinstance(record, Answer) and record.tag in found:
                yield Answer(**{**_values(record), "vouches": found[record.tag].numbers})
            elif isinstance(record, Passage) and record.stage == CLOSED:
                yield Passage(**{**_values(record), "checked": tuple(checks)})
            else:
                yield record


def _vouching(closing: Closing, check: RoughIn) -> Closing:
    """The closing with what it vouches for, and with the kind of proof that is meant where none is given."""
    proof = closing.proof
    if not proof:
        proof = kind_meant(check, closing.evidence, closing.office) if closing.outcome == "closed" else "reason"
    return Closing(**{**_values(closing), "vouches": check.vouches, "proof": proof})


def _given_tags(raw: Values) -> Iterator[str]:
    """Every tag that a starter gives, also inside other entries, in the form that references use."""
    for rows in raw.values():
        for row in rows if isinstance(rows, list) else [rows]:
            if isinstance(row, dict):
                tag = str(row.get("tag", ""))
                if number := _number(tag):
                    yield f"{tag[0]}{number}"
                yield from _given_tags({key: value for key, value in row.items() if isinstance(value, list | dict)})


def _number(tag: str) -> int:
    """The number in a tag, without zeros before it; 0 where there is none."""
    digits = tag[1:].lstrip("0")
    return int(digits) if digits.isdecimal() and digits.isascii() and len(digits) <= MOST_DIGITS else 0


def _values(record: Record) -> Values:
    return {name: getattr(record, name) for name in record.__struct_fields__}


def _by_title(key: str, known: Mapping[str, Field]) -> Field | None:
    """The one field that a form calls so: `from` for `start`, `from left` or `from_left` for `x`."""
    named = [
        field
        for field in known.values()
        if key.replace("_", " ").lower() in (each.lower() for each in (field.says.title, *field.says.was))
    ]
    return named[0] if len(named) == 1 else None


def _meant(word: str, known: dict[str, Field]) -> str:
    """The field that a wrong name may stand for: by its name, else by the words of its title and help."""
    stem = word.lower().rstrip("s").replace("_", " ")
    said = [key for key, field in known.items() if stem in f"{field.says.title} {field.says.help}".lower()]
    if len(stem) > 2 and said and not difflib.get_close_matches(word, list(known), 1):
        return f"; did you mean {' or '.join(f'`{key}` ({known[key].says.title})' for key in said[:3])}?"
    return _near(word, known)


def _near(word: str, known: Any) -> str:
    """`; did you mean ...?` when something known is close."""
    close = difflib.get_close_matches(word, list(known), 1)
    return f"; did you mean `{close[0]}`?" if close else f"; there are: {', '.join(known)}"
