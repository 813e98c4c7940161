"""How well labels fit what was typed: words at the start of words first, then words anywhere; all of it counts."""

from __future__ import annotations

import re
from collections.abc import Sequence

_WORD = re.compile(r"[^\W_]+")


def ranked(labels: Sequence[str], typed: str) -> list[int]:
    """The places of the labels that have all that was typed, the best first, equals in their own order.

    Best is a label that begins with the text, then one with each typed word at the start of a word, then one that
    merely holds them.
    """
    text = " ".join(typed.lower().split())
    if not text:
        return list(range(len(labels)))
    found = []
    for place, label in enumerate(labels):
        fits = rank(" ".join(label.lower().split()), text)
        if fits is not None:
            found.append((fits, place))
    return [place for _, place in sorted(found)]


def rank(label: str, text: str) -> int | None:
    """0, 1 or 2, the less the better, of a label in lower case; None where it does not have all words."""
    if label.startswith(text):
        return 0
    words = text.split()
    if not all(word in label for word in words):
        return None
    starts = {label[each.start() :] for each in _WORD.finditer(label)}
    return 1 if all(any(start.startswith(word) for start in starts) for word in words) else 2


def at_a_word(label: str, text: str) -> bool:
    """True when the text stands in the label as it is, from the start of a word."""
    lower, wanted = label.lower(), text.lower()
    return any(lower.startswith(wanted, each.start()) for each in _WORD.finditer(lower))
