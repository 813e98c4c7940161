"""How an answer is kept: a query is a pure function of the job, and its answer stands as long as all that it read is
the very same.

    @once
    def routes(job: Job) -> dict[str, Route]: ...          # about the whole job

    @once
    def ways_of(job: Job, tag: str) -> tuple[Way, ...]: ... # a keyed query: one answer for each tag

Queries that give a dictionary, or go by the records of one kind, are in `store.rules.core.keyed`.

Nobody lists what an answer is made from: a query is given a view of the job (`store.rules.core.view`), which notes
what it reads, and asking another query is noted with what that one said. What follows: a query must read nothing but
its job and its keys, give back whole values (no generator that reads later), and keep no job or view in them. Its
answer is shared, so nobody changes it. Functions that are not queries are part of whoever calls them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from functools import wraps
from threading import RLock
from typing import Any, Concatenate, ParamSpec, TypeVar, cast

from store.records.base import Record
from store.records.whole import KINDS, Job
from store.rules.core.same import as_before
from store.rules.core.view import BITS, EVERYTHING, RUNNING, Looked, Part, Reads, View

R = TypeVar("R", bound=Record)
T = TypeVar("T")
K = TypeVar("K")
P = ParamSpec("P")

LOCK = RLock()
"""Held while an answer is looked for: sheets are printed in a thread of their own."""
SINCE = 64
"""So many views back it is known which tables became others; an answer from before is looked at read by read."""
SWEEP = 512
"""After so many views, answers that were not asked for during that time are let go."""


_ALL = object()
"""In place of a key: the whole answer was asked for."""


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
        self.asked: dict[Node | tuple[Node, Any], object] = {}

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
            number = view.number
            mask = self.own
            for asked, value in self.asked.items():
                node, key = asked if isinstance(asked, tuple) else (asked, _ALL)
                if node.at != number:
                    try:
                        node.refresh(view)
                    except Exception:  # whatever it is comes again when this query asks for it, if it still does
                        return False
                if (node.value if key is _ALL else node.value.get(key)) is not value:
                    return False
                mask |= node.mask
            self.mask = mask
        self.at = view.number
        return True

    def _reads_the_same(self, view: View) -> bool:
        if self.at == view.number - 1:
            return view.touched.isdisjoint(self.parts)
        seen = view.seen
        return all(seen(part) is was for part, was in self.parts.items())

    def _work_out(self, view: View) -> None:
        if self.busy:
            raise Cycle(f"{self.query.__qualname__}{self.keys} asks for itself")
        outer, reads = RUNNING.reads, Reads()
        RUNNING.reads, self.busy = reads, True
        try:
            value = self.query(view, *self.keys)
            if isinstance(value, Looked):
                value = value.whole()  # it is the dictionary of another query, and no view is kept
        except BaseException:
            if outer is not None:
                outer.take(reads)
            raise
        finally:
            RUNNING.reads, self.busy = outer, False
        self.value = self._beside_former(value) if self.at >= 0 else value
        self.parts, self.asked, self.whole = reads.parts, reads.asked, reads.whole
        self.own = self.whole
        for kind, _ in self.parts:
            self.own |= BITS[kind]
        self.mask = self.own
        for asked in self.asked:
            self.mask |= (asked[0] if isinstance(asked, tuple) else asked).mask
        self.at = view.number

    def _beside_former(self, value: Any) -> Any:
        """A new answer with what is the same in the former one."""
        return as_before(self.value, value)


class Joined(Node):
    """An answer that is other answers put together: there is more to compare in it than to do again for it."""

    __slots__ = ()

    def _beside_former(self, value: Any) -> Any:
        return value


class Engine:
    """The answers that are kept of one job as it changes."""

    def __init__(self) -> None:
        self.view: View | None = None
        self.nodes: defaultdict[Callable[..., Any], dict[tuple[Any, ...], Node]] = defaultdict(dict)
        self.tags: dict[str, tuple[Mapping[str, Record] | None, tuple[str, ...]]] = {}

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
            self.view.touched = _touched(before, self.view, step)
            if self.view.number % SWEEP == 0:
                self._sweep(before.number - SWEEP)
        return self.view

    def node(self, query: Callable[..., Any], keys: tuple[Any, ...], make: type[Node] = Node) -> Node:
        """The place of an answer."""
        nodes = self.nodes[query]
        found = nodes.get(keys)
        if found is None:
            found = nodes[keys] = make(query, keys)
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


def _touched(before: View, after: View, step: int) -> set[Part]:
    """Each record that is another, came or went, and each kind of which the tags are others."""
    found: set[Part] = set()
    for kind in KINDS:
        if step & BITS[kind]:
            was, now = before.records(kind), after.records(kind)
            found.update((kind, tag) for tag, record in now.items() if was.get(tag) is not record)
            found.update((kind, tag) for tag in was if tag not in now)
            if before.tags(kind) is not after.tags(kind):
                found.add((kind, None))
    return found


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


def once(function: Callable[Concatenate[Job, P], T], *, kept_in: type[Node] = Node) -> Callable[Concatenate[Job, P], T]:
    """Make a function of the job, and of keys if it has any, a query: see the head of this module.

    Keys are what can be looked up: tags, names, numbers. `kept_in` is for queries that look for themselves whether
    their answer stands.
    """

    @wraps(function)
    def asked(job: Any, *keys: Any) -> Any:
        if not isinstance(job, View):
            return _of_a_job(function, job, keys, kept_in)
        node = job.engine.node(function, keys, kept_in)
        node.refresh(job)
        if RUNNING.reads is not None:
            RUNNING.reads.asked[node] = node.value
        return node.value

    return cast("Callable[Concatenate[Job, P], T]", asked)


def _of_a_job(function: Callable[..., Any], job: Job, keys: tuple[Any, ...], kept_in: type[Node]) -> Any:
    """The answer for a plain job. A query that has such a job has read all that it was made of."""
    with LOCK:
        view, outer = looked_at(job), RUNNING.reads
        if outer is not None:
            outer.whole |= EVERYTHING
        RUNNING.reads = None
        try:
            node = view.engine.node(function, keys, kept_in)
            node.refresh(view)
        finally:
            RUNNING.reads = outer
        return node.value


def put_together(function: Callable[Concatenate[Job, P], T]) -> Callable[Concatenate[Job, P], T]:
    """A query that only puts the answers of others together, so that comparing would cost more than it saves: it
    counts as another answer whenever one of them is another."""
    return once(function, kept_in=Joined)
