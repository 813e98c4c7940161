"""What a change opens on the rough-in list: items that were signed off, and items that are new."""

from __future__ import annotations

from store.measure.counts import plural
from store.rules.core.same import not_among
from store.rules.gate.gate import CLOSED, STAGES, Standing

MOST = 6
"""Items that are named; of more, only their number."""


def opened_words(before: Standing, after: Standing) -> str:
    """`Reopened 2 items behind drywall: K3/pulled K3/tested. 1 new item.`; empty where nothing was opened.

    An item that somebody reopened on purpose is not told: its sign-off is gone, and that was said.
    """
    was = {each.key: each.open for each in not_among(before.items, after.items)}
    others = [each for each in not_among(after.items, before.items) if each.open]
    reopened = [each.key for each in others if each.closing is not None and was.get(each.key) is False]
    new = [each.key for each in others if each.key not in was]
    words = []
    if reopened:
        named = " ".join(reopened[:MOST]) + (f" and {len(reopened) - MOST} more" if len(reopened) > MOST else "")
        behind = " behind drywall" if STAGES.index(before.stage) >= STAGES.index(CLOSED) else ""
        words.append(f"Reopened {plural(len(reopened), 'item')}{behind}: {named}.")
    if new:
        words.append(f"{plural(len(new), 'new item')}.")
    return " ".join(words)
