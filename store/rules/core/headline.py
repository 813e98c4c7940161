"""Headlines: the problem first, then tag and name, once, in 60 characters."""

from __future__ import annotations

import re
from collections.abc import Sequence

from store.records.whole import Job
from store.rules.core.wording import local, name_of

MOST = 60
"""Characters of a headline; a list at 80 columns shows it whole."""
LEAST_NAME = 4
"""A name that would be cut to less than this is left out."""
_TAG = re.compile(r"[A-Z]\d+")
_TAGS = re.compile(r"\b[A-Z]\d+\b")


def subjects(tags: Sequence[str]) -> tuple[str, ...]:
    """The tags that a headline names: all when they are of one kind, else the first."""
    return tuple(tags) if len({each[:1] for each in tags}) == 1 else tuple(tags[:1])


def headline(job: Job, problem: str, tags: Sequence[str] = ()) -> str:
    """`Box overfilled: 24 in³ in 18 in³, B4 Fireplace`; of several things `Not tamper-resistant: B2 B5 B6`.

    A long name is cut, the problem never; what is no tag (a wall's aspect, a setting) is not named.
    """
    text = local(job, problem.strip().removesuffix("."))
    text = f"{text[:1].upper()}{text[1:]}"
    there = _TAGS.findall(text)
    named = [each for each in tags if _TAG.fullmatch(each) and each not in there]
    if not named:
        return text if len(text) <= MOST else f"{text[: MOST - 1].rstrip()}…"
    if len(named) == 1:
        return with_name(text, named[0], name_of(job, named[0]))
    return with_tags(text, named)


def with_name(text: str, tag: str, name: str) -> str:
    """`Pulled, K3 network to the TV`: the tag always, the name as far as there is room in 60 characters."""
    front = f"{text} {tag}" if text.endswith("?") else f"{text}, {tag}"
    if len(front) > MOST:
        return f"{text[: MOST - len(tag) - 3].rstrip()}…, {tag}"
    left = MOST - len(front) - 1
    if name and len(name) > left:
        name = f"{name[: left - 1].rstrip()}…" if left > LEAST_NAME else ""
    return f"{front} {name}" if name else front


def with_tags(text: str, tags: Sequence[str]) -> str:
    """As many tags as there is room for, then how many more."""
    text = text[: MOST - 12].rstrip() + "…" if len(text) > MOST - 8 else text
    for shown in range(len(tags), 0, -1):
        more = len(tags) - shown
        line = f"{text}: {' '.join(tags[:shown])}{f' +{more}' if more else ''}"
        if len(line) <= MOST or shown == 1:
            return line
    return text
