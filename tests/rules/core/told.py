"""All that follows from a job, as text that shows order, types and units: to hold a warm program against a cold one."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from importlib import import_module
from inspect import signature
from pkgutil import walk_packages
from typing import Any

import store.rules
from store.records.whole import Job
from store.rules.core.checks import OfItems, items
from store.rules.core.figures import figures
from store.rules.core.findings import findings
from store.rules.core.keyed import FromEach, Keyed
from store.rules.core.memo import once
from store.rules.find.search import find
from store.rules.gate.gate import standing

ROOTS: dict[str, Callable[[Job], Any]] = {
    "findings": findings,
    "items": items,
    "figures": figures,
    "standing": lambda job: standing(job, findings(job)),
    "found": lambda job: find(job, "receptacle behind the screen, its cable"),
}
"""What a person is told, by name."""


_PLACE = re.compile(r" at 0x[0-9a-f]+")
"""Where in memory something lies that has no text of its own."""
_CODE = once(lambda job: job).__code__
"""What all queries are made of."""


@cache
def every_query() -> dict[str, Callable[[Job], Any]]:
    """Every query of the rules that takes the job alone."""
    found: dict[str, Callable[[Job], Any]] = {}
    for each in walk_packages(store.rules.__path__, "store.rules."):
        for name, value in vars(import_module(each.name)).items():
            alone = getattr(value, "__code__", None) is _CODE and len(signature(value).parameters) == 1
            if (alone or isinstance(value, FromEach | Keyed | OfItems)) and value.__module__ == each.name:
                found[f"{each.name}.{name}"] = value
    return found


def told(job: Job, *, every: bool = False) -> dict[str, str]:
    """What follows from a job, by name; with `every`, what each query of the rules says too.

    What raises is told by its type.
    """
    return {name: length_text(ask, job) for name, ask in (ROOTS | (every_query() if every else {})).items()}


def length_text(ask: Callable[[Job], Any], job: Job) -> str:
    try:
        return _PLACE.sub("", "\n".join(_lines(ask(job))))
    except Exception as error:  # whatever it is, it must be the same
        return f"raises {type(error).__name__}"


def _lines(value: Any) -> Iterator[str]:
    if isinstance(value, Mapping):
        yield from (f"{key}: {each!r}" for key, each in value.items())
    elif isinstance(value, list | tuple):
        yield from map(repr, value)
    else:
        yield repr(value)


def difference(warm: dict[str, str], anew: dict[str, str]) -> str:
    """The first lines that differ, in words; empty where nothing does."""
    for name in anew:
        if warm[name] != anew[name]:
            was, now = warm[name].split("\n"), anew[name].split("\n")
            at = next((n for n, (a, b) in enumerate(zip(was, now, strict=False)) if a != b), min(len(was), len(now)))
            return f"{name}, line {at}: warm {was[at : at + 1]}, cold {now[at : at + 1]}"
    return ""
