"""What changed between two sets of kept texts, in words: what moved, from where to where, in the owner's lengths."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from store.measure.kept import shown_kept
from store.measure.late import Late

_NUMBER = r"-?\d+(?: \d+/\d+|/\d+|\.\d+)? (?:in|mm)"
_PLACE = Late(rf"\b(?:([A-Z]+\d+) )?at ({_NUMBER}) / ({_NUMBER})(?: on ([A-Z]\d+)?)?")
"""A place as a sign-off keeps it: `B1 at 20 in / 20 in on W1`."""


def changed_words(was: Mapping[str, str], now: Mapping[str, str], metric: bool = False) -> str:
    """What differs, one after the other: `B1 moved from 1'-8" to 2'-0" from left; size was 1, is 3/4`.

    What several of the texts tell alike is said once.
    """
    keys = [key for key in {**was, **now} if was.get(key, "") != now.get(key, "")]
    told = [each for key in keys for each in _told(key, was.get(key, ""), now.get(key, ""), metric)]
    return "; ".join(dict.fromkeys(told))


def _told(key: str, was: str, now: str, metric: bool) -> list[str]:
    moved = list(_moved(key, was, now, metric)) if _bare(was) == _bare(now) else []
    return moved or [f"{key} {_was_and_is(was, now, metric)}"]


def _bare(text: str) -> str:
    """A text with its places left open."""
    return _PLACE.sub(r"\1 at", text)


def _moved(key: str, was: str, now: str, metric: bool) -> Iterator[str]:
    """The places that differ, of two texts that are alike but for their places."""
    for before, after in zip(_PLACE.finditer(was), _PLACE.finditer(now), strict=True):
        if before[0] == after[0]:
            continue
        tag = before[1] or key
        if before[4] != after[4]:
            yield f"{tag} moved from {_place(before, metric)} to {_place(after, metric)}"
            continue
        ways = [
            f"from {' to '.join(_apart(before[part], after[part], metric))} {side}"
            for part, side in ((2, "from left"), (3, "off the floor"))
            if before[part] != after[part]
        ]
        yield f"{tag} moved {' and '.join(ways)}"


def _was_and_is(was: str, now: str, metric: bool) -> str:
    one, other = _apart(_said(was, metric), _said(now, metric), metric)
    return f"was {one or 'blank'}, is {other or 'blank'}"


def _said(text: str, metric: bool) -> str:
    """A text with its places in words."""
    return _PLACE.sub(lambda found: f"{found[1] or ''} at {_place(found, metric)}".lstrip(), text)


def _place(found: re.Match[str], metric: bool) -> str:
    wall = f", {found[4]}" if found[4] else ""
    return f"{shown_kept(found[2], metric)} from left, {shown_kept(found[3], metric)} off the floor{wall}"


def _apart(was: str, now: str, metric: bool) -> tuple[str, str]:
    """Both in the lengths that the owner reads, unless what differs is too small to show in them."""
    shown = shown_kept(was, metric), shown_kept(now, metric)
    return shown if shown[0] != shown[1] else (was, now)
