"""The job and what follows from it, as the screen shows it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

import msgspec

from store.measure.errors import StudbookError
from store.measure.terms import regional
from store.records.access import Photo
from store.records.gate import Closing
from store.records.whole import Job
from tui.shared.text import Region

if TYPE_CHECKING:
    from store.records.people import Trade
    from store.rules.agenda.due import Due
    from store.rules.core.checks import Item
    from store.rules.core.findings import Finding
    from store.rules.gate.gate import Standing
    from store.rules.handoff.packet import Packet


class State:
    """The job and what follows from it, worked out once for every change, when it is first asked for."""

    def __init__(self, job: Job, folder: Path | None = None, history: Callable[[], Sequence[Any]] = tuple) -> None:
        self.job = job
        Region.turn = None if job.settings.region == "us" else lambda text: regional(text, True, _typed(job))
        self._history = history
        """Reads the history, when a packet is compared with it."""
        self._packets: dict[Trade, Packet] = {}
        self._folder = folder
        """Where the job file lies: pictures are looked for from there."""

    @property
    def folder(self) -> Path | None:
        """Where the job file lies; None before the whole of it is read."""
        return self._folder

    @cached_property
    def found(self) -> list[Finding]:
        """Every finding, the gravest first; last the pictures whose files are gone."""
        from store.rules.core.findings import findings  # the first paint shows nothing of what follows

        if self._folder is None or not (self.job.tables.get(Photo.kind) or self.job.tables.get(Closing.kind)):
            return findings(self.job)
        from store.book.pictures import missing_pictures  # only a job with pictures looks at the disk

        return [*findings(self.job), *missing_pictures(self.job, self._folder)]

    @cached_property
    def standing(self) -> Standing:
        """Where the job is and what holds it."""
        from store.rules.gate.gate import standing

        return standing(self.job, self.found)

    @cached_property
    def agenda(self) -> list[Due]:
        """What to do next."""
        from store.rules.agenda.agenda import agenda  # brings packets and the calendar, and only this list needs them
        from store.rules.agenda.days import untold

        return agenda(self.job, self.standing, self.found, untold(self.job, lambda: self.entries))

    def due(self, key: str) -> Due | None:
        """The line of what to do next of a key."""
        return next((each for each in self.agenda if each.key == key), None)

    @property
    def upkeep(self) -> str:
        """What there is to look after once the job is in use, in one line; before that nothing."""
        if self.standing.next is not None:
            return ""
        from store.rules.service.upkeep import upkeep_line  # only a wall that is in use has any

        return upkeep_line(self.found)

    @cached_property
    def _items(self) -> dict[str, Item]:
        return {each.key: each for each in self.standing.items}

    @cached_property
    def _about(self) -> dict[str, list[Finding]]:
        found: dict[str, list[Finding]] = {}
        for each in self.found:
            for tag in each.tags:
                found.setdefault(tag, []).append(each)
        return found

    @cached_property
    def entries(self) -> list[Mapping[str, Any]]:
        """The history as plain data, oldest first; nothing where it cannot be read, which is told elsewhere."""
        try:
            return [msgspec.to_builtins(each) for each in self._history()]
        except StudbookError:
            return []

    def packet(self, trade: Trade) -> Packet:
        """The packet of a trade, with what changed since it was given."""
        from store.rules.handoff.packet import packet  # only the lists of packets and people need it

        if trade not in self._packets:
            self._packets[trade] = packet(self.job, trade, self.entries, found=self.found)
        return self._packets[trade]

    def item(self, key: str) -> Item | None:
        """The check of a key."""
        return self._items.get(key)

    def finding(self, key: str) -> Finding | None:
        """The finding of a key; none for a tag, or for the key of an item."""
        if ":" not in key:
            return None
        return next((each for each in self.found if each.key == key), None)

    def about(self, tag: str) -> list[Finding]:
        """The findings that name a tag."""
        return self._about.get(tag, [])

    def wrong(self, tag: str) -> bool:
        """True when something that is to be mended, and nobody answered, names a tag."""
        return any(each.severity != "look" and not each.answered for each in self.about(tag))

    def tone(self, tag: str) -> str:
        """The tone of a row about a tag: of the gravest problem that nobody answered, or empty."""
        grave = {each.severity for each in self.about(tag) if not each.answered}
        return "stop" if "stop" in grave else "warn" if "fix" in grave else ""


def _typed(job: Job) -> frozenset[str]:
    from store.rules.core.typed import typed_terms

    return typed_terms(job)
