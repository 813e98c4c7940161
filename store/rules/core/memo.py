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
from collections.abc import Callable, Hashable, Iterable, Mapping
from functools import wraps
from threading import RLock
from typing import Any, Concatenate, ParamSpec, TypeVar, cast

from store.records.base import Record
from store.records.whole import Job
from store.rules.core.same import as_before
from store.rules.core.view import EVERYTHING, RUNNING, Looked, Part, Reads, View, touched

T = TypeVar("T")
P = ParamSpec("P")

LOCK = RLock()
"""Held while an answer is looked for: sheets are printed in a thread of their own."""
SWEEP = 512
"""After so many views, answers that no longer stood and were not asked for during that time are let go."""

STANDS, DOUBTED, FALLEN = range(3)
"""How an answer stands: it is right; an answer that it was made from may be another; something that it read is."""


class Cycle(RuntimeError):
    """A query asked for its own answer."""


class Node:
    """One answer of one query, with all that it was made from, and with those that were made from it.

    When a part of the job is another, those who read it have fallen, and all that was made from them is doubted: only
    these are looked at again when they are asked for. Whoever is told of it is no longer listed, until it stands again.
    """

    __slots__ = ("asked", "at", "busy", "doubters", "keys", "mask", "query", "state", "users", "value")

    bit = 0

    def __init__(self, query: Callable[..., Any], keys: tuple[Any, ...]) -> None:
        self.query = query
        self.keys = keys
        self.state = FALLEN
        self.at = -1
        """Number of the last view for which the answer was worked out or found to stand."""
        self.busy = False
        self.value: Any = None
        self.asked: dict[Asked, object] = {}
        self.doubters: dict[Asked | None, None] | None = None
        """What of it told since it stood that it may be another: all else is as it was. None among them: any may be."""
        self.users: set[Node] = set()
        self.mask = 0
        """Bits of the look-ups that it, or an answer that it was made from, looked at by key."""

    def refresh(self, view: View) -> None:
        """Make the answer that of the engine's view: by finding that it still stands, or else by working it out."""
        if view.engine.unsettled & self.mask:
            view.engine.settle(self, view)
        if self.state == FALLEN or (self.state == DOUBTED and not self._stands(view)):
            self._work_out(view)

    def told(self, by: Asked) -> bool:
        """An answer that this one was made from may be another. True when this is news."""
        if self.state == FALLEN:
            return False
        if self.doubters is None:
            self.doubters = {}
        self.doubters[by] = None
        if self.state == DOUBTED:
            return False
        self.state = DOUBTED
        return True

    def told_any(self, by: Lookup) -> None:
        """A look-up that it stands on, it is not known at which keys, may be another."""
        self.told(by)
        if self.doubters is not None:
            self.doubters[None] = None

    def _stands(self, view: View) -> bool:
        """True when all that was asked for says the very same in this view."""
        if self.doubters is None or None in self.doubters:
            self.doubters = dict.fromkeys(self.asked)
        engine, mask, left = view.engine, self.mask, self.doubters
        still: dict[Asked | None, None] = {}
        while left:  # one may be told again while another is looked at
            asked = cast(Asked, next(iter(left)))
            del left[asked]
            value = self.asked.get(asked, _NOT_ASKED)
            if value is _NOT_ASKED:
                continue
            node = asked[0] if isinstance(asked, tuple) else asked
            if node.state or engine.unsettled & (node.mask | node.bit):
                try:
                    node.refresh(view)
                except Exception:  # whatever it is comes again when this query asks for it, if it still does
                    return False
            if isinstance(asked, tuple):
                if node.value.get(asked[1]) is not value:
                    return False
                asked[0].lookers[asked[1]].add(self)
                mask |= node.bit
            else:
                if node.value is not value:
                    return False
                node.users.add(self)
                mask |= node.mask
                if node.state:
                    still[node] = None
        self.state, self.doubters = DOUBTED if still else STANDS, still or None
        self.at, self.mask = view.number, mask
        return True

    def _work_out(self, view: View) -> None:
        if self.busy:
            raise Cycle(f"{self.query.__qualname__}{self.keys} asks for itself")
        outer, reads = RUNNING.reads, Reads()
        RUNNING.reads, self.busy, self.state = reads, True, FALLEN
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
        self.value = self._taken(value)
        self.asked, readers, mask = reads.asked, view.engine.readers, 0
        for part in reads.parts:
            readers[part].add(self)
        for asked in self.asked:
            mask |= asked[0].bit if isinstance(asked, tuple) else asked.mask
        self._is_right(view, mask)

    def _is_right(self, view: View, mask: int) -> None:
        """It stands on what it asked for, and is told from now on when that may be another.

        Who no longer looks somewhere may still be told of it, and so be doubted in vain after it was asked for: what
        stands on that is doubted with it, else it would not be told the next time.
        """
        still: dict[Asked | None, None] = {}
        for asked in self.asked:
            if isinstance(asked, tuple):
                asked[0].lookers[asked[1]].add(self)
            else:
                asked.users.add(self)
                if asked.state:
                    still[asked] = None
        self.state, self.doubters = DOUBTED if still else STANDS, still or None
        self.at, self.mask = view.number, mask

    def _taken(self, value: Any) -> Any:
        """What was worked out, with what is the same in the former answer."""
        return as_before(self.value, value) if self.at >= 0 else value


class Joined(Node):
    """An answer that is other answers put together: there is more to compare in it than to do again for it."""

    __slots__ = ()

    def _taken(self, value: Any) -> Any:
        return value


class Lookup(Node):
    """A dictionary that is made as a whole, and looked at by key: who looked is told when what is there is another.

    Which that is shows only when it is made again. Until then it is unsettled, and so is all that stands on it: see
    `Engine.settle`.
    """

    __slots__ = ("bit", "lookers")

    def __init__(self, query: Callable[..., Any], keys: tuple[Any, ...]) -> None:
        super().__init__(query, keys)
        self.lookers: defaultdict[Hashable, set[Node]] = defaultdict(set)

    def _taken(self, value: Any) -> Any:
        was, now = self.value, super()._taken(value)
        if was is not None and now is not was:
            for key in [key for key, each in now.items() if was.get(key) is not each]:
                self.tell(key)
            for key in [key for key in was if key not in now]:
                self.tell(key)
        return now

    def tell(self, key: Hashable) -> None:
        """What is under a key is another."""
        if key in self.lookers:
            doubt(self.lookers.pop(key), (self, key))

    def tell_all(self) -> None:
        """It cannot be made: whoever looked asks for it again."""
        for key in list(self.lookers):
            self.tell(key)


Asked = Node | tuple[Lookup, Hashable]
"""An answer as it is asked for: the whole of it, or what is under a key of a look-up."""
_NOT_ASKED = object()


def doubt(nodes: set[Node], by: Asked) -> None:
    """Tell answers, and all that was made from them, that what they were made from may be another."""
    left = [each for each in nodes if each.told(by)]
    while left:
        one = left.pop()
        if one.users:
            users, one.users = one.users, set()
            left += [each for each in users if each.told(one)]


class Engine:
    """The answers that are kept of one job as it changes."""

    def __init__(self) -> None:
        self.view: View | None = None
        self.nodes: defaultdict[Callable[..., Any], dict[tuple[Any, ...], Node]] = defaultdict(dict)
        self.tags: dict[str, tuple[Mapping[str, Record] | None, tuple[str, ...]]] = {}
        self.readers: defaultdict[Part, set[Node]] = defaultdict(set)
        """Who read a part of the job."""
        self.lookups: list[Lookup] = []
        self.unsettled = 0
        """Bits of the look-ups of which it is not known yet what is another in them."""

    def look(self, job: Job) -> View:
        """The view of a job: the one before if it is of this very job."""
        before = self.view
        if before is not None and before.job is job:
            return before
        self.view = View(self, job, 0 if before is None else before.number + 1)
        if before is not None:
            for part in touched(before, self.view):
                self._fell(self.readers.pop(part, ()))
            self._unsettle()
            if self.view.number % SWEEP == 0:
                self._sweep(before.number - SWEEP)
        return self.view

    def node(self, query: Callable[..., Any], keys: tuple[Any, ...], make: type[Node] = Node) -> Node:
        """The place of an answer."""
        nodes = self.nodes[query]
        found = nodes.get(keys)
        if found is None:
            found = nodes[keys] = make(query, keys)
            if isinstance(found, Lookup):
                found.bit = 1 << len(self.lookups)
                self.lookups.append(found)
        return found

    def settle(self, node: Node, view: View) -> None:
        """Make again the look-ups that an answer stands on, as far as they may be others, so that it is told."""
        for each in self.lookups:
            if not each.bit & self.unsettled & node.mask:
                continue
            if each.busy:
                node.told_any(each)
                continue
            try:
                each.refresh(view)
            except Exception:  # it comes again for who still looks there
                each.tell_all()
            self.unsettled &= ~each.bit

    def _fell(self, nodes: Iterable[Node]) -> None:
        """What these read is another."""
        for node in nodes:
            if node.state == STANDS:
                doubt(node.users, node)
                node.users = set()
            node.state = FALLEN

    def _unsettle(self) -> None:
        """Every look-up that may be another, and every one that stands on such."""
        found = sum(each.bit for each in self.lookups if each.state)
        more = True
        while more:
            stand = sum(each.bit for each in self.lookups if not each.bit & found and each.mask & found)
            found, more = found | stand, bool(stand)
        self.unsettled = found

    def _sweep(self, oldest: int) -> None:
        """Let go of what does not stand and nobody asks for any more, such as all about a record that is gone."""
        for query, nodes in self.nodes.items():
            self.nodes[query] = {keys: node for keys, node in nodes.items() if not node.state or node.at >= oldest}


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
        engine = job.engine
        node = engine.nodes[function].get(keys)
        if node is None:
            node = engine.node(function, keys, kept_in)
        if node.state or engine.unsettled & node.mask:
            node.refresh(job)
        reads = RUNNING.reads
        if reads is not None:
            reads.asked[node] = node.value
        return node.value

    return cast("Callable[Concatenate[Job, P], T]", asked)


def _of_a_job(function: Callable[..., Any], job: Job, keys: tuple[Any, ...], kept_in: type[Node]) -> Any:
    """The answer for a plain job. A query that has such a job has read all that it was made of."""
    with LOCK:
        view, outer = looked_at(job), RUNNING.reads
        if outer is not None:
            outer.parts.add(EVERYTHING)
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
