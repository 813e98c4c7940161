"""Rough-in items by trade, counted once for all that shows them: the gate, status and what to do next.

An item counts for its trade; what is done of it is told by the second part of its key, as the trades speak of it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

import msgspec

from store.measure.counts import plural
from store.rules.core.checks import Item
from store.rules.gate.gate import Standing

ASPECTS = {
    "pulled": ("to pull", "to pull"),
    "labelled": ("to label", "to label"),
    "tested": ("to test", "to test"),
    "photographed": ("to photograph", "to photograph"),
    "set": ("box to set", "boxes to set"),
    "depth": ("box depth", "box depths"),
    "located": ("box place", "box places"),
    "plates": ("bored run", "bored runs"),
    "framed": ("panel to frame", "panels to frame"),
    "backing": ("place for blocking", "places for blocking"),
    "in": ("raceway to run", "raceways to run"),
    "string": ("pull string", "pull strings"),
    "fireblocking": ("wall to fireblock", "walls to fireblock"),
    "inspection": ("inspection", "inspections"),
}
"""What is still to do of one and of several, by the second part of an item's key."""
BY_HAND = ("other item", "other items")
"""What is said of items that somebody wrote by hand."""


class TradeItems(msgspec.Struct, frozen=True):
    """The rough-in items of one trade."""

    trade: str
    items: tuple[Item, ...]

    @property
    def open(self) -> tuple[Item, ...]:
        """Those that are open."""
        return tuple(each for each in self.items if each.open)

    @property
    def done(self) -> int:
        """How many are signed off or not needed."""
        return len(self.items) - len(self.open)


def aspect_of(key: str) -> str:
    """What an item of the plan is about: `tested`; empty for one that was written by hand."""
    return key.partition("/")[2]


def trade_title(trade: str) -> str:
    """A trade to begin a line with."""
    return "HVAC" if trade == "hvac" else trade.capitalize()


def aspects(items: Iterable[Item]) -> str:
    """Items in words, the most of a kind first: `12 to pull, 8 to label, 3 other items`."""
    counts = Counter(ASPECTS.get(aspect_of(each.key), BY_HAND) for each in items)
    return ", ".join(plural(count, *words) for words, count in counts.most_common())


def by_trade(now: Standing) -> list[TradeItems]:
    """The items by trade, the trade with most open items first."""
    found: dict[str, list[Item]] = {}
    for each in now.items:
        found.setdefault(each.check.trade, []).append(each)
    trades = [TradeItems(trade, tuple(items)) for trade, items in found.items()]
    return sorted(trades, key=lambda each: (-len(each.open), each.trade))
