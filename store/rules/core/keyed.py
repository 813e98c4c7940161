"""Queries that answer for each record, or under each key: whoever looks at one stands on that one alone.

    @of_each(Cable)
    def needs(job: Job, cable: Cable) -> Need | None: ...   # `needs(job)["K3"]`: one answer for each record

    @by_key
    def behind(job: Job) -> dict[str, tuple[str, ...]]: ... # `behind(job)["A2"]`: made as a whole, looked at by key

    ends = index(Cable, lambda one: (one.start, one.end))   # `ends(job).get("B3", ())`: the cables that name it

    @filed(Cable)
    def on_wall(job: Job, cable: Cable) -> Iterator[tuple[str, Leg]]: ...   # `on_wall(job).get("W1", ())`: all under it

    @rule
    @from_each(Cable)
    def cable_not_rated(job: Job, cable: Cable) -> Iterator[Finding]: ...   # any number of things from each record

All but the last are asked as if they were dictionaries, by queries and by anybody else.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from functools import wraps
from itertools import chain, compress
from operator import is_, is_not
from typing import Any, Generic, TypeVar, cast, overload

from store.records.base import Record
from store.records.whole import Job
from store.rules.core.memo import DOUBTED, STANDS, Asked, Lookup, Node, once
from store.rules.core.same import as_before
from store.rules.core.view import EVERYTHING, RUNNING, Looked, View

R = TypeVar("R", bound=Record)
K = TypeVar("K")
T = TypeVar("T")


class Keyed(Generic[K, T]):
    """A query that gives a dictionary; it is asked for the whole of it, or for what is under one key."""

    def __init__(
        self, function: Callable[..., Any], whole: Callable[[Job], Mapping[K, T]], kept_in: type[Node] = Node
    ) -> None:
        wraps(function)(self)
        self.whole = once(whole, kept_in=kept_in)
        """The dictionary."""

    def __call__(self, job: Job) -> Mapping[K, T]:
        """The dictionary; for another query so that only what it looks at is noted."""
        return Looked(self, job) if RUNNING.reads is not None and isinstance(job, View) else self.whole(job)

    def one(self, job: Job, key: K) -> T | None:
        """What is under a key, or None."""
        raise NotImplementedError


class ByKey(Keyed[K, T]):
    """A dictionary that is made as a whole."""

    def __init__(self, function: Callable[[Job], Mapping[K, T]], kept_in: type[Lookup] = Lookup) -> None:
        super().__init__(function, function, kept_in)
        self._function = function
        self._kept_in = kept_in

    def one(self, job: Job, key: K) -> T | None:
        """What is under a key, or None; whoever asks stands on that alone."""
        reads = RUNNING.reads
        if not isinstance(job, View) or reads is None:
            return self.whole(job).get(key)
        engine = job.engine
        node = engine.nodes[self._function].get(()) or engine.node(self._function, (), self._kept_in)
        if node.state or engine.unsettled & node.mask:
            node.refresh(job)
        found: T | None = node.value.get(key)
        if node not in reads.asked:
            reads.asked[node, key] = found
        return found


def by_key(function: Callable[[Job], Mapping[K, T]]) -> ByKey[K, T]:
    """Make a function that gives a dictionary for a job a query of which single keys can be asked for.

    The dictionary is made anew as a whole; what is the same in it stays the same object, so that only what stands on
    the keys that differ is worked out again.
    """
    return ByKey(function)


class Filed(Lookup):
    """What records put under keys, in the order of their tables: of those that say another thing than before it is
    filed anew, and of no others."""

    __slots__ = ("holders", "pairs")

    def __init__(self, query: Callable[..., Any], keys: tuple[Any, ...]) -> None:
        super().__init__(query, keys)
        self.value = {}
        self.pairs: Mapping[Hashable, Pairs] = {}
        """Keys with values, by the record that puts them there."""
        self.holders: dict[Hashable, list[Hashable]] | None = None
        """Who puts something under each key, in order; None until it is asked for."""

    def _taken(self, value: Mapping[Hashable, Pairs]) -> Any:
        was, self.pairs = self.pairs, value
        if list(was) != list(value):
            return self._filed_anew(was, value)
        differing = others_of(was, value)
        if any([key for key, _ in was[each]] != [key for key, _ in value[each]] for each in differing):
            return self._filed_anew(was, value)
        touched: dict[Hashable, list[tuple[Hashable, Any]]] = {}
        for each in differing:
            for key, one in value[each]:
                touched.setdefault(key, []).append((each, one))
        if touched and self.holders is None:
            self.holders = {}
            for each, pairs in value.items():
                for key in dict.fromkeys(key for key, _ in pairs):
                    self.holders.setdefault(key, []).append(each)
        others = {}
        for key, ones in touched.items():
            holders, held = cast("dict[Hashable, Any]", self.holders)[key], list(self.value[key])
            if len(holders) == len(held):  # each puts one thing there
                for each, one in ones:
                    held[holders.index(each)] = one
            else:
                held = [one for each in holders for k, one in value[each] if k == key]
            now = as_before(self.value[key], tuple(held))
            if now is not self.value[key]:
                others[key] = now
                self.tell(key)
        return {**self.value, **others} if others else self.value

    def _filed_anew(self, was: Mapping[Hashable, Pairs], value: Mapping[Hashable, Pairs]) -> Any:
        """All of it, in the order in which the keys come now."""
        self.holders = None
        touched = _keys_touched(was, value)
        found: dict[Hashable, Any] = {}
        for pairs in value.values():
            for key, one in pairs:
                if key in touched:
                    found.setdefault(key, []).append(one)
                elif key not in found:
                    found[key] = self.value[key]
        for key in touched:
            former = self.value.get(key)
            if key in found:
                found[key] = as_before(former, tuple(found[key]))
            if found.get(key) is not former:
                self.tell(key)
        return found


Pairs = tuple[tuple[Hashable, Any], ...]


def others_of(was: Mapping[Hashable, Any], now: Mapping[Hashable, Any]) -> list[Hashable]:
    """The keys under which something else is, of two with the same keys in one order."""
    return list(compress(now, map(is_not, was.values(), now.values())))


def _keys_touched(was: Mapping[Hashable, Pairs], now: Mapping[Hashable, Pairs]) -> set[Hashable]:
    """The keys under which something was put, taken away or altered; all where the order of records is another."""
    if [tag for tag in was if tag in now] != [tag for tag in now if tag in was]:
        differing = [*was, *now]
    else:
        differing = [tag for tag, pairs in now.items() if was.get(tag) is not pairs]
        differing += [tag for tag in was if tag not in now]
    return {key for tag in differing for each in (was, now) for key, _ in each.get(tag, ())}


class Indexed(Filed):
    """What records put under keys that say it by themselves: nothing else need be asked about each."""

    __slots__ = ("records",)

    def __init__(self, query: Callable[..., Any], keys: tuple[Any, ...]) -> None:
        super().__init__(query, keys)
        self.records: Mapping[Hashable, Record] = {}

    def _taken(self, value: Any) -> Any:
        was, self.records, says = self.records, value, self.query.says  # type: ignore[attr-defined]
        former = self.pairs
        if list(was) == list(value):
            said = {each: tuple(says(value[each])) for each in others_of(was, value)}
            if all((each in former) == bool(pairs) for each, pairs in said.items()):
                said = {each: as_before(former[each], pairs) for each, pairs in said.items() if pairs}
                return super()._taken({**former, **said})
        found = {}
        for tag, record in value.items():
            pairs = former.get(tag, ()) if was.get(tag) is record else tuple(says(record))
            if pairs:
                found[tag] = pairs
        return super()._taken(found)


def index(cls: type[R], names: Callable[[R], Iterable[str]]) -> ByKey[str, tuple[R, ...]]:
    """The records of a kind by what they name, in the order of their table, each once under a name."""
    return said_by(cls)(lambda record: ((each, record) for each in dict.fromkeys(names(record))))


def said_by(*kinds: type[Any]) -> Callable[[Callable[[Any], Iterable[tuple[K, T]]]], ByKey[K, tuple[T, ...]]]:
    """As `filed`, of what the record alone tells, which is given without the job."""

    def made(function: Callable[[Any], Iterable[tuple[K, T]]]) -> ByKey[K, tuple[T, ...]]:
        def tables(job: Job) -> Mapping[Any, Any]:
            return _side_by_side(kinds, [dict(job.of(cls).items()) for cls in kinds])

        tables.says = function  # type: ignore[attr-defined]
        asked: ByKey[K, tuple[T, ...]] = ByKey(tables, Indexed)
        wraps(function)(asked)
        return asked

    return made


def _side_by_side(kinds: tuple[type[Any], ...], tables: list[Mapping[str, Any]]) -> Mapping[Any, Any]:
    """Several tables as one. A sign-off may bear the tag of its item: then the kind stands with the tag."""
    if len(tables) == 1:
        return tables[0]
    found: dict[Any, Any] = {}
    for each in tables:
        found.update(each)
    if len(found) == sum(map(len, tables)):
        return found
    return {(cls, tag): one for cls, each in zip(kinds, tables, strict=True) for tag, one in each.items()}


def filed(*kinds: type[Any]) -> Callable[[Callable[[Job, Any], Iterable[tuple[K, T]]]], ByKey[K, tuple[T, ...]]]:
    """Make a generator of the job and one record of some kinds, which gives keys with values, a query that gives all
    values under each key, in the order of the tables."""

    def made(function: Callable[[Job, Any], Iterable[tuple[K, T]]]) -> ByKey[K, tuple[T, ...]]:
        def given(job: Job, record: Any) -> tuple[tuple[K, T], ...] | None:
            return tuple(function(job, record)) or None

        given.__qualname__ = function.__qualname__
        each_of = [Each(cls, given) for cls in kinds]

        def together(job: Job) -> Mapping[Any, Any]:
            return _side_by_side(kinds, [each.whole(job) for each in each_of])

        asked = ByKey(together, Filed)
        wraps(function)(asked)
        return asked

    return made


class Every(Node):
    """What an `Each` says of all records: of those that changed it is asked again, the rest stays where it is."""

    __slots__ = ("children", "stale", "tags")

    def __init__(self, query: Any, keys: tuple[Any, ...]) -> None:
        super().__init__(query, keys)
        self.tags: tuple[str, ...] = ()
        self.children: dict[str, Node] = {}
        self.stale: dict[Node, None] = {}
        """Those of which an answer may be another."""
        self.value = {}

    def told(self, by: Asked) -> bool:
        """One of the answers may be another; told by a look-up, each of those that looked there."""
        one = by[0] if isinstance(by, tuple) else by
        looked = isinstance(one, Lookup)
        self.stale.update(
            dict.fromkeys(each for each in self.children.values() if each.mask & one.bit) if looked else {one: None}
        )
        if self.state != STANDS:
            return False
        self.state = DOUBTED
        return True

    def _stands(self, view: View) -> bool:
        return False

    def _work_out(self, view: View) -> None:
        kind, one = self.query.of  # type: ignore[attr-defined]
        tags = view.tags(kind)
        if tags is not self.tags:
            was, node = self.children, view.engine.node
            self.children = {tag: was.get(tag) or node(one, (tag,)) for tag in tags}
            self.stale.update((each, None) for tag, each in self.children.items() if tag not in was)
            for each in [each for tag, each in was.items() if tag not in self.children]:
                self.stale.pop(each, None)
        view.engine.readers[kind, None].add(self)
        others = self._ask_the_stale(view)
        if tags is not self.tags or any((tag in self.value) != (value is not None) for tag, value in others.items()):
            found = {tag: each.value for tag, each in self.children.items() if each.value is not None}
            if self.at < 0 or len(found) != len(self.value) or not _alike(found, self.value):
                self.value = found
        elif others := {tag: value for tag, value in others.items() if value is not self.value.get(tag)}:
            self.value = {**self.value, **others}
        self.tags, self.at = tags, view.number
        # An answer may be doubted in vain, and then is no longer told of what it stands on: it is asked again.
        self.state = DOUBTED if self.stale else STANDS

    def _ask_the_stale(self, view: View) -> dict[str, Any]:
        """What is said now of the records of which it may be another."""
        found: dict[Node, Any] = {}
        try:
            while self.stale:  # one may be doubted again while another is asked
                child = next(iter(self.stale))
                del self.stale[child]
                found[child] = None
                child.refresh(view)
                child.users.add(self)
                self.mask |= child.mask
                found[child] = child.value
        except BaseException:
            self.stale = {**dict.fromkeys(found), **self.stale}
            if RUNNING.reads is not None:
                RUNNING.reads.parts.add(EVERYTHING)  # of what came before the one that failed, nothing was noted
            for child in self.children.values():
                child.refresh(view)  # of several that fail, the first of the table is told
            raise
        self.stale = {child: None for child in found if child.state}
        return {child.keys[0]: value for child, value in found.items()}


def _alike(one: Mapping[str, object], other: Mapping[str, object]) -> bool:
    return all(map(is_, one.values(), other.values())) and list(one) == list(other)


class Each(Keyed[str, T], Generic[R, T]):
    """A dictionary of which what is under a tag is made of the record of that tag."""

    def __init__(self, cls: type[R], function: Callable[[Job, R], T | None]) -> None:
        def one(job: Job, tag: str) -> T | None:
            record = job.of(cls).get(tag)
            return None if record is None else function(job, record)

        def every(job: Job) -> Mapping[str, T]:
            raise NotImplementedError  # `Every` gathers it

        one.__qualname__, every.__qualname__ = f"{function.__qualname__}.one", function.__qualname__
        every.of = (cls.kind, one)  # type: ignore[attr-defined]
        super().__init__(function, every, Every)
        self._one = once(one)

    def one(self, job: Job, key: str) -> T | None:
        """What it says of the record of a tag; None where it says nothing, or there is no such record."""
        return self._one(job, key)


def of_each(cls: type[R]) -> Callable[[Callable[[Job, R], T | None]], Each[R, T]]:
    """Make a function of the job and one record of a kind a query for each record of that kind."""
    return lambda function: Each(cls, function)


class FromEach(Generic[R, T]):
    """A query that gives any number of things for each record of a kind: rules, checks and figures are such."""

    def __init__(self, kinds: tuple[type[Any], ...], function: Callable[[Job, R], Iterable[T]]) -> None:
        def given(job: Job, record: R) -> tuple[T, ...] | None:
            return tuple(function(job, record)) or None

        wraps(function)(self)
        given.__qualname__ = function.__qualname__
        self.kinds = kinds
        self.function = function
        self.by_kind: list[Each[Any, tuple[T, ...]]] = [Each(cls, given) for cls in kinds]
        """What it gives for each record that it gives anything for, kind after kind."""

    def __call__(self, job: Job) -> tuple[T, ...]:
        """What it gives for all records, kind after kind, each in the order of its table."""
        given = chain.from_iterable(one.whole(job).values() for one in self.by_kind)
        return tuple(chain.from_iterable(given))


A = TypeVar("A", bound=Record)
B = TypeVar("B", bound=Record)
C = TypeVar("C", bound=Record)


@overload
def from_each(cls: type[R], /) -> Callable[[Callable[[Job, R], Iterable[T]]], FromEach[R, T]]: ...
@overload
def from_each(
    one: type[R], two: type[A], three: type[B], /
) -> Callable[[Callable[[Job, R | A | B], Iterable[T]]], FromEach[R | A | B, T]]: ...
@overload
def from_each(
    one: type[R], two: type[A], three: type[B], four: type[C], /
) -> Callable[[Callable[[Job, R | A | B | C], Iterable[T]]], FromEach[R | A | B | C, T]]: ...
@overload
def from_each(one: type[R], two: type[A], /) -> Callable[[Callable[[Job, R | A], Iterable[T]]], FromEach[R | A, T]]: ...
def from_each(*kinds: type[Any]) -> Any:
    """Make a generator of the job and one record of some kinds a query that gives its things for each record."""
    return lambda function: FromEach(kinds, function)
