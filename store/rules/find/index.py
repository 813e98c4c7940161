"""The words of all records, filed by kind of record, so that a word is found in a few long texts in one go.

A kind whose records did not change is not filed again; of one that did, only the records that are new.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Mapping
from functools import cache
from operator import attrgetter
from typing import Any

from store.records.base import Record
from store.records.field import Field, fields_of
from store.records.whole import KINDS, LETTERS, Job
from store.rules.core.memo import once

NAMES = ("name", "what", "type", "file", "shows")
"""Fields that say what a record is."""
TEXTS = ("text", "note", "choice", "words")
REFS = ("ref", "refs")
TITLED = ("choice", "yes", "date")
"""Kinds of field that say nothing without their title: `pull string: yes`, `switched: half`, a day for `warranty`."""
SHORT = 3
"""A word shorter than this is met as a whole only: anything else would be met everywhere."""
WHOLE, START, INSIDE = 1.0, 0.8, 0.45
"""How well a word meets: as a whole word or its plural, at the start of one, within one."""


class Lines:
    """One text a record: its words in small letters, a space before and behind each."""

    def __init__(self, texts: list[str]) -> None:
        self.texts = texts
        self.long = "\n".join(texts)

    def meet(self, form: str, offset: int, weight: float) -> dict[int, float]:
        """How well each text meets a form, by place, for those that have it."""
        if form not in self.long:
            return {}
        whole, more, start = f" {form} ", f" {form}s ", f" {form}"
        if len(form) < SHORT:
            return {offset + at: weight for at, text in enumerate(self.texts) if whole in text}
        best, good, some = weight * WHOLE, weight * START, weight * INSIDE
        return {
            offset + at: best if whole in text or more in text else good if start in text else some
            for at, text in enumerate(self.texts)
            if form in text
        }


def spaced(text: str) -> str:
    """A text as it is filed and looked for: small letters and digits, a single space for all between."""
    return _BETWEEN.sub(" ", text.lower()).strip()


_BETWEEN = re.compile(r"[\W_]+")


class Part:
    """The records of one kind, filed."""

    def __init__(self, table: Mapping[str, Record], cls: type[Record], before: Part | None) -> None:
        self.table = table
        self.names: Lines
        self.rest: Lines
        self.records = list(table.values())
        self.at = {tag: place for place, tag in enumerate(table)}
        names: list[str] = []
        texts: list[str] = []
        self.refs: list[tuple[str, ...]] = []
        for record in self.records:
            old = before.at.get(record.tag) if before is not None else None
            if old is not None and before is not None and before.records[old] is record:
                names.append(before.names.texts[old])
                texts.append(before.rest.texts[old])
                self.refs.append(before.refs[old])
            else:
                name, text, refs = _filed(record, cls)
                names.append(name)
                texts.append(text)
                self.refs.append(refs)
        self.names, self.rest = Lines(names), Lines(texts)
        self.users: dict[str, list[int]] = {}
        for place, refs in enumerate(self.refs):
            for tag in refs:
                self.users.setdefault(tag, []).append(place)


class Index:
    """All records of a job, each by its place: a number that counts through all kinds."""

    def __init__(self, job: Job, before: Mapping[str, Part]) -> None:
        self.parts: dict[str, Part] = {}
        self.offsets: dict[str, int] = {}
        self._starts: list[int] = []
        self._kinds: list[str] = []
        self.count = 0
        for kind, cls in KINDS.items():
            table = job.tables.get(kind, {})
            if not table:
                continue
            old = before.get(kind)
            part = old if old is not None and old.table is table else Part(table, cls, old)
            self.parts[kind], self.offsets[kind] = part, self.count
            self._starts.append(self.count)
            self._kinds.append(kind)
            self.count += len(part.records)

    def record(self, place: int) -> Record:
        """The record at a place."""
        part, local = self._of(place)
        return part.records[local]

    def kind(self, place: int) -> str:
        """The kind of the record at a place."""
        return self._kinds[bisect_right(self._starts, place) - 1]

    def place(self, tag: str) -> int | None:
        """The place of a tag."""
        cls = LETTERS.get(tag[:1])
        part = self.parts.get(cls.kind) if cls else None
        local = part.at.get(tag) if part is not None else None
        return None if local is None or cls is None else self.offsets[cls.kind] + local

    def beside(self, place: int) -> list[int]:
        """What a record names, and what names it."""
        part, local = self._of(place)
        found = [at for tag in part.refs[local] if (at := self.place(tag)) is not None]
        tag = part.records[local].tag
        for kind, each in self.parts.items():
            found += [self.offsets[kind] + user for user in each.users.get(tag, ())]
        return found

    def _of(self, place: int) -> tuple[Part, int]:
        at = bisect_right(self._starts, place) - 1
        return self.parts[self._kinds[at]], place - self._starts[at]


_kept: dict[str, Part] = {}


@once
def index_of(job: Job) -> Index:
    """The index of a job; what was filed for the state before it is used again."""
    index = Index(job, _kept)
    _kept.clear()
    _kept.update(index.parts)
    return index


def _filed(record: Record, cls: type[Record]) -> tuple[str, str, tuple[str, ...]]:
    names, _, refs = _getters(cls)
    name = " ".join([each for each in names(record) if each])
    found: list[str] = []
    for each in refs(record):
        if each:
            found += [each] if isinstance(each, str) else each
    text = " ".join([record.tag, cls.one, *told(record), *_filled(record, cls)])
    return _line(name), _line(text), tuple(found)


def _line(text: str) -> str:
    return f" {spaced(text)} "


def title_of(record: Record) -> str:
    """What a record is called: its names, or its kind."""
    names = _getters(type(record))[0]
    return ", ".join(str(each) for each in names(record) if each) or record.one


def told(record: Record) -> list[str]:
    """The other texts of a record, what nobody chose left out."""
    return [
        each if isinstance(each, str) else ", ".join(each)
        for each, usual in zip(_getters(type(record))[1](record), _usual(type(record)), strict=True)
        if each and each != usual
    ]


def _filled(record: Record, cls: type[Record]) -> list[str]:
    """The titles of what was chosen, said yes to or given a day, which tell what those values are about."""
    get, usual, titles = _titled(cls)
    return [title for value, plain, title in zip(get(record), usual, titles, strict=True) if value and value != plain]


Getter = Callable[[Record], tuple[Any, ...]]


@cache
def _getters(cls: type[Record]) -> tuple[Getter, Getter, Getter]:
    """What takes names, other texts and references out of a record of a kind."""
    fields = fields_of(cls)
    names = [each.key for each in fields if each.key in NAMES and each.codec.name in TEXTS]
    texts = [each.key for each in _text_fields(cls)]
    refs = [each.key for each in fields if each.codec.name in REFS]
    return _getter(names), _getter(texts), _getter(refs)


def _text_fields(cls: type[Record]) -> list[Field]:
    return [each for each in fields_of(cls) if each.key not in NAMES and each.codec.name in TEXTS]


@cache
def _titled(cls: type[Record]) -> tuple[Getter, tuple[Any, ...], tuple[str, ...]]:
    """What takes the values of such fields out of a record, what nobody chose, and the words for each."""
    fields = [each for each in fields_of(cls) if each.codec.name in TITLED and each.key not in NAMES]
    words = tuple(f"{each.says.title} {each.says.help if each.codec.name == 'date' else ''}" for each in fields)
    return _getter([each.key for each in fields]), tuple(each.default for each in fields), words


@cache
def _usual(cls: type[Record]) -> tuple[Any, ...]:
    """The value of each of those fields that nobody filled in."""
    return tuple(each.default for each in _text_fields(cls))


def _getter(keys: list[str]) -> Getter:
    if not keys:
        return lambda record: ()
    get = attrgetter(*keys)
    return get if len(keys) > 1 else lambda record: (get(record),)
