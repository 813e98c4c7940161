"""How an answer is kept: a query is a pure function of the job, and its answer stands as long as all that it read is
the very same.

    @once
    def routes(job: Job) -> dict[str, Route]: ...          # about the whole job

    @once
    def way_of(job: Job, tag: str) -> Way: ...              # a keyed query: one answer for each tag

    @of_each(Cable)
    def needs(job: Job, cable: Cable) -> Need | None: ...   # `needs(job)`: by tag; `needs.one(job, "K3")`: one of them

Nobody lists what an answer is made from: a query is given a view of the job (`store.rules.core.view`), which notes
what it reads, and asking another query is noted with what that one said. What follows: a query must read nothing but
its job and its keys, give back whole values (no generator that reads later), and keep no job or view in them. Its
answer is shared, so nobody changes it. Functions that are not queries are part of whoever calls them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from functools import wraps
from itertools import chain
from threading import RLock
from typing import Any, Concatenate, Generic, ParamSpec, TypeVar, cast

from store.records.base import Record
from store.records.whole import KINDS, Job
from store.rules.core.same import same
from store.rules.core.view import BITS, EVERYTHING, RUNNING, Groups, Part, Reads, View, bit_of

R = TypeVar("R", bound=Record)
T = TypeVar("T")
P = ParamSpec("P")

LOCK = RLock()
"""Held while an answer is looked for: sheets are printed in a thread of their own."""
SINCE = 64
"""So many views back it is known which tables became others; an answer from before is looked at read by read."""
SWEEP = 512
"""After so many views, answers that were not asked for during that time are let go."""


class Cycle(RuntimeError):
    """A query asked for its own answer."""


class Node:
    """One answer of one query, with all that it was made from."""

    __slots__ = ("asked", "at", "busy", "keys", "mask", "own", "parts", "query", "value", "whole")

    def __init__(self, query: Callable[..., Any], keys: tuple[Any, ...]) -> None:
        self.query = query
        self.keys = keys
        self.at = -1
        """Number of the last view for which the answer was found to stand."""
        self.busy = False
        self.value: Any = None
        self.whole = self.own = self.mask = 0
        self.parts: dict[Part, object] = {}
        self.asked: dict[Node, object] = {}

    def refresh(self, view: View) -> None:
        """Make the answer that of a view: by finding that it still stands, or else by working it out."""
        if self.at != view.number and not self._stands(view):
            self._work_out(view)

    def _stands(self, view: View) -> bool:
        """True when all that was read is the very same in this view."""
        if self.at < 0:
            return False
        changed = view.since.get(self.at, EVERYTHING)
        if changed & self.mask:
            if changed & self.whole or (changed & self.own and not self._reads_the_same(view)):
                return False
            mask = self.own
            for node, value in self.asked.items():
                try:
                    node.refresh(view)
                except Exception:  # whatever it is comes again when this query asks for it, if it still does
                    return False
                if node.value is not value:
                    return False
                mask |= node.mask
            self.mask = mask
        self.at = view.number
        return True

    def _reads_the_same(self, view: View) -> bool:
        seen = view.seen
        return all(seen(part) is was for part, was in self.parts.items())

    def _work_out(self, view: View) -> None:
        if self.busy:
            raise Cycle(f"{self.query.__qualname__}{self.keys} asks for itself")
        outer, reads = RUNNING.reads, Reads()
        RUNNING.reads, self.busy = reads, True
        try:
            value = self.query(view, *self.keys)
        except BaseException:
            if outer is not None:
                outer.take(reads)
            raise
        finally:
            RUNNING.reads, self.busy = outer, False
        self.value = self.value if self.at >= 0 and same(self.value, value) else value
        self.parts, self.asked, self.whole = reads.parts, reads.asked, reads.whole
        self.own = self.whole
        for what, _ in self.parts:
            self.own |= bit_of(what)
        self.mask = self.own
        for node in self.asked:
            self.mask |= node.mask
        self.at = view.number


class Engine:
    """The answers that are kept of one job as it changes."""

    def __init__(self) -> None:
        self.view: View | None = None
        self.nodes: defaultdict[Callable[..., Any], dict[tuple[Any, ...], Node]] = defaultdict(dict)
        self.tags: dict[str, tuple[Mapping[str, Record] | None, tuple[str, ...]]] = {}
        self.groups: dict[Groups, tuple[Mapping[str, Record], Mapping[str, tuple[Record, ...]]]] = {}

    def look(self, job: Job) -> View:
        """The view of a job: the one before if it is of this very job."""
        before = self.view
        if before is not None and before.job is job:
            return before
        if before is None:
            self.view = View(self, job, 0, {})
        else:
            step = _differing(before.job, job)
            since = {number: bits | step for number, bits in before.since.items() if number > before.number - SINCE}
            self.view = View(self, job, before.number + 1, {**since, before.number: step})
            if self.view.number % SWEEP == 0:
                self._sweep(before.number - SWEEP)
        return self.view

    def node(self, query: Callable[..., Any], keys: tuple[Any, ...]) -> Node:
        """The place of an answer."""
        nodes = self.nodes[query]
        found = nodes.get(keys)
        if found is None:
            found = nodes[keys] = Node(query, keys)
        return found

    def _sweep(self, oldest: int) -> None:
        """Let go of what nobody asks for any more, such as all about a record that is gone."""
        for query, nodes in self.nodes.items():
            self.nodes[query] = {keys: node for keys, node in nodes.items() if node.at >= oldest}


def _differing(one: Job, other: Job) -> int:
    """The bits of the tables and other parts that are not the very same object."""
    bits = 0
    for kind in KINDS:
        if one.tables.get(kind) is not other.tables.get(kind):
            bits |= BITS[kind]
    for part in ("marks", "outside", "removed"):
        if getattr(one, part) is not getattr(other, part):
            bits |= BITS[part]
    return bits | (BITS["today"] if one.today != other.today else 0)


_KEPT = Engine()
"""Of the job last asked about."""
_ASIDE: list[View] = []
"""Of a job that a query made up: its answers are kept as long as it is the last such job, apart from the others."""


def looked_at(job: Job | View) -> View:
    """The view of a job; a view is given back as it is."""
    if isinstance(job, View):
        return job
    if RUNNING.reads is None:
        return _KEPT.look(job)
    if not _ASIDE or _ASIDE[0].job is not job:
        _ASIDE[:] = [Engine().look(job)]
    return _ASIDE[0]


def cold(job: Job) -> Job:
    """The same job with no answer kept: what is asked of it is worked out anew, and once."""
    return cast(Job, Engine().look(job.job if isinstance(job, View) else job))


def once(function: Callable[Concatenate[Job, P], T]) -> Callable[Concatenate[Job, P], T]:
    """Make a function of the job, and of keys if it has any, a query: see the head of this module.

    Keys are what can be looked up: tags, names, numbers.
    """

    @wraps(function)
    def asked(job: Any, *keys: Any) -> Any:
        if not isinstance(job, View):
            return _of_a_job(function, job, keys)
        node = job.engine.node(function, keys)
        node.refresh(job)
        if RUNNING.reads is not None:
            RUNNING.reads.asked[node] = node.value
        return node.value

    return cast("Callable[Concatenate[Job, P], T]", asked)


def _of_a_job(function: Callable[..., Any], job: Job, keys: tuple[Any, ...]) -> Any:
    """The answer for a plain job. A query that has such a job has read all that it was made of."""
    with LOCK:
        view, outer = looked_at(job), RUNNING.reads
        if outer is not None:
            outer.whole |= EVERYTHING
        RUNNING.reads = None
        try:
            node = view.engine.node(function, keys)
            node.refresh(view)
        finally:
            RUNNING.reads = outer
        return node.value


class Each(Generic[R, T]):
    """A query about each record of a kind: what it says of those of which it says something, by tag."""

    def __init__(self, cls: type[R], function: Callable[[Job, R], T | None]) -> None:
        def one(job: Job, tag: str) -> T | None:
            record = job.of(cls).get(tag)
            return None if record is None else function(job, record)

        def every(job: Job) -> Mapping[str, T]:
            said = ((tag, self.one(job, tag)) for tag in job.of(cls))
            return {tag: answer for tag, answer in said if answer is not None}

        wraps(function)(self)
        one.__qualname__, every.__qualname__ = f"{function.__qualname__}.one", function.__qualname__
        self.one = once(one)
        """What it says of the record of a tag; None where it says nothing, or there is no such record."""
        self._every = once(every)

    def __call__(self, job: Job) -> Mapping[str, T]:
        """What it says of every record, in the order of the table."""
        return self._every(job)


def of_each(cls: type[R]) -> Callable[[Callable[[Job, R], T | None]], Each[R, T]]:
    """Make a function of the job and one record of a kind a query for each record of that kind."""
    return lambda function: Each(cls, function)


class FromEach(Generic[R, T]):
    """A query that gives any number of things for each record of a kind: rules, checks and figures are such."""

    def __init__(self, cls: type[R], function: Callable[[Job, R], Iterable[T]]) -> None:
        def given(job: Job, record: R) -> tuple[T, ...] | None:
            return tuple(function(job, record)) or None

        wraps(function)(self)
        given.__qualname__ = function.__qualname__
        self.cls = cls
        self.function = function
        self.by_tag = Each(cls, given)
        """What it gives, by tag."""

    def __call__(self, job: Job) -> tuple[T, ...]:
        """What it gives for all records, in the order of the table."""
        return tuple(chain.from_iterable(self.by_tag(job).values()))


def from_each(cls: type[R]) -> Callable[[Callable[[Job, R], Iterable[T]]], FromEach[R, T]]:
    """Make a generator of the job and one record of a kind a query that gives its things for each record."""
    return lambda function: FromEach(cls, function)
