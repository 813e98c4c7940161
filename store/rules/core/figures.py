"""Every computed figure of a job, by tag: what `studbook figures` prints and other programs may check."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from functools import cache
from itertools import chain
from typing import Any, TypeVar, cast

from store.measure.kept import kept_text
from store.measure.length import Length, kept_length
from store.records.whole import Job
from store.rules.core.keyed import ByKey, FromEach, Pairs, by_key, filed, others_of
from store.rules.core.memo import Node, once
from store.rules.core.registry import FIGURES, Register

Figure = tuple[str, str, Any]
"""Tag, name, value: a Length, a number, a text, or a list of texts."""
Source = Callable[[Job], Iterable[Figure]]
_SOURCES: Register[Source] = Register(FIGURES)
_KINDS: dict[Source, tuple[str, ...]] = {}


S = TypeVar("S", bound=Source)


def figures_of(*kinds: str) -> Callable[[S], S]:
    """Mark a function that works out figures, of records of these kinds and of no others."""

    def marked(function: S) -> S:
        _SOURCES.add(function)
        _KINDS[function] = kinds
        return function

    return marked


def sources() -> list[tuple[tuple[str, ...], Source]]:
    """Every function that works out figures, with the kinds of records that it tells of."""
    return [(_KINDS[source], source) for source in _SOURCES.all()]


class Merged(Node):
    """Several dictionaries of pairs put into one, a dictionary under each key: of those keys that are others it is put
    together anew, and of no others."""

    __slots__ = ("parts",)

    def __init__(self, query: Callable[..., Any], keys: tuple[Any, ...]) -> None:
        super().__init__(query, keys)
        self.value = {}
        self.parts: tuple[Mapping[Hashable, Pairs], ...] = ()

    def _taken(self, value: tuple[Mapping[Hashable, Pairs], ...]) -> Any:
        was, self.parts = self.parts, value
        if len(was) == len(value) and all(a is b or list(a) == list(b) for a, b in zip(was, value, strict=True)):
            touched = {key for a, b in zip(was, value, strict=True) if a is not b for key in others_of(a, b)}
            return {**self.value, **{key: self._under(key) for key in touched}} if touched else self.value
        return {key: self._under(key) for key in dict.fromkeys(chain.from_iterable(value))}

    def _under(self, key: Hashable) -> dict[Hashable, Any]:
        found: dict[Hashable, Any] = {}
        for part in self.parts:
            found.update(part.get(key, ()))
        return found


def figures(job: Job) -> dict[str, dict[str, Any]]:
    """Every figure, by tag and name, lengths as they are."""
    return figures_about(job, "")


def figures_about(job: Job, kind: str) -> dict[str, dict[str, Any]]:
    """The figures of the records of one kind, by tag and name: one list need not wait for all the others.

    Without a kind, of everything.
    """
    return cast("dict[str, dict[str, Any]]", _merged(job, kind))


def _parts(job: Job, kind: str) -> tuple[Mapping[str, Named], ...]:
    """What each source tells of records of a kind."""
    return tuple(by_tag.whole(job) for by_tag in _of_kind(kind))


_merged = once(_parts, kept_in=Merged)


@once
def figures_on(job: Job, tag: str) -> dict[str, Any]:
    """The figures of one record, by name; nothing for none."""
    record = job.get(tag)
    found: dict[str, Any] = {}
    for by_tag in _of_kind(record.kind) if record is not None else ():
        found.update(by_tag(job).get(tag, ()))
    return found


Named = tuple[tuple[str, Any], ...]
"""Figures of a record: name and value."""


@cache
def _of_kind(kind: str) -> tuple[ByKey[str, Named], ...]:
    """Each source that tells of records of a kind, by their tags; without a kind, each that there is."""
    return tuple(_by_tag(number) for number, (kinds, _) in enumerate(sources()) if not kind or kind in kinds)


@cache
def _by_tag(number: int) -> ByKey[str, Named]:
    """The figures of one source, by the tag of their record."""
    source = _SOURCES.all()[number]
    if isinstance(source, FromEach):
        return filed(*source.kinds)(lambda job, one: ((tag, (name, v)) for tag, name, v in source.function(job, one)))

    def named(job: Job) -> dict[str, Named]:
        found: dict[str, list[tuple[str, Any]]] = {}
        for tag, name, value in source(job):
            found.setdefault(tag, []).append((name, value))
        return {tag: tuple(each) for tag, each in found.items()}

    return by_key(named)


def plain(found: dict[str, dict[str, Any]], metric: bool) -> dict[str, dict[str, Any]]:
    """Figures as JSON has them: a length both as text and, under `name_mm`, in millimetres."""
    out: dict[str, dict[str, Any]] = {}
    for tag, named in found.items():
        for name, value in named.items():
            row = out.setdefault(tag, {})
            if isinstance(value, Length):
                row[name] = kept_length(value, metric)
                row[f"{name}_mm"] = value.mm
            else:
                row[name] = _kept(value)
    return out


def _kept(value: Any) -> Any:
    """A value as JSON keeps it: lengths in its texts in the form that never changes."""
    if isinstance(value, str):
        return kept_text(value)
    return [_kept(each) for each in value] if isinstance(value, list | tuple) else value
