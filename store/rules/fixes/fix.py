"""What a fix is, how one is found, and how it is known to work: by running the rules on the changed job.

A maker of fixes is one function in a module of this room, marked with `@fixes("rule", ...)`. It is given the job and a
finding and yields changes of the plan to try, the best first. None of them is offered unless the finding is gone with
it and nothing dangerous came. A fix never answers a finding and enters no word that somebody else has to say.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from importlib import import_module
from itertools import islice

import msgspec

from store.records.base import Record
from store.records.field import fields_of
from store.records.whole import Job
from store.rules.core.broken import solved_and_new
from store.rules.core.findings import SEVERITIES, Finding, findings

MOST_TRIED = 40
"""Changes that are tried for one finding before it is said that none was found."""
MODULES = ("agreed", "boxes", "days", "gear", "inside", "makes", "missing", "moves", "runs")
"""The modules of this room with makers in them."""


class Fix(msgspec.Struct, frozen=True):
    """A change of the plan."""

    says: str
    """What it does, as an imperative: `Use a box of 22.5 in³`."""
    changed: tuple[Record, ...] = ()
    """Records that are there, as they will be."""
    added: tuple[Record, ...] = ()
    """New records, with the tags that they will have."""


class Offer(msgspec.Struct, frozen=True):
    """A fix that works, and what comes with it."""

    fix: Fix
    solved: tuple[Finding, ...]
    new: tuple[Finding, ...]


Maker = Callable[[Job, Finding], Iterator[Fix]]
_MAKERS: dict[str, Maker] = {}


def fixes(*rules: str) -> Callable[[Maker], Maker]:
    """Mark a function as the maker of fixes for the findings of these rules."""

    def mark(function: Maker) -> Maker:
        for name in rules:
            if name in _MAKERS:
                raise RuntimeError(f"two makers for {name}")
            _MAKERS[name] = function
        return function

    return mark


def makers() -> dict[str, Maker]:
    """Every maker, by the rule that it is for."""
    for name in MODULES:
        import_module(f"store.rules.fixes.{name}")
    return _MAKERS


def applied(job: Job, fix: Fix) -> Job:
    """The job with the fix in it: for a look at what would follow."""
    for record in (*fix.changed, *fix.added):
        job = job.having(record)
    return job


def can_fix(finding: Finding) -> bool:
    """True where there is a maker for findings of its rule; whether it finds one is another matter."""
    return not finding.answered and finding.rule in makers()


def offer(job: Job, finding: Finding) -> Offer | None:
    """The change that solves a finding, brings no stop, nothing graver, and the least else; None where none does.

    The first that brings nothing new is taken; else the best of all that were tried.
    """
    maker = makers().get(finding.rule)
    if maker is None:
        return None
    before = findings(job)
    found: list[Offer] = []
    for fix in islice(maker(job, finding), MOST_TRIED):
        after = findings(applied(job, fix))
        solved, new = solved_and_new(before, after)
        if not _is_solved(finding, before, after) or _is_graver(new, [finding, *solved]):
            continue
        found.append(Offer(fix, tuple(solved), tuple(new)))
        if not new:
            break
    return min(found, key=_cost, default=None)


def offer_all(job: Job, found: Sequence[Finding]) -> tuple[Offer | None, tuple[Finding, ...]]:
    """One change that solves several findings, each fix tried with those before it in place; and the findings for
    which none was found. No offer where there is none for any."""
    changed: dict[str, Record] = {}
    left: list[Finding] = []
    said: list[str] = []
    now = job
    for finding in found:
        still = next((each for each in findings(now) if each.key == finding.key), None)
        if still is None:
            continue  # solved by one of those before
        one = offer(now, still)
        if one is None:
            left.append(finding)
            continue
        changed |= {each.tag: each for each in (*one.fix.changed, *one.fix.added)}
        said.append(one.fix.says)
        now = applied(now, one.fix)
    if not changed:
        return None, tuple(left)
    solved, new = solved_and_new(findings(job), findings(now))
    old = [each for each in changed.values() if each.tag in job.tables.get(each.kind, {})]
    added = [each for each in changed.values() if each.tag not in job.tables.get(each.kind, {})]
    says = f"{said[0]}, and {len(said) - 1} more like it" if len(said) > 1 else said[0]
    return Offer(Fix(says, tuple(old), tuple(added)), tuple(solved), tuple(new)), tuple(left)


def _cost(one: Offer) -> tuple[int, int]:
    """What a fix brings: first what will not fit or work, then what has to be looked at."""
    return sum(each.severity == "fix" for each in one.new), len(one.new)


def _is_graver(new: Sequence[Finding], solved: Sequence[Finding]) -> bool:
    """True when a new one is a stop, or graver than the gravest that is solved."""
    worst = min(SEVERITIES.index(each.severity) for each in solved)
    return any(each.severity == "stop" or SEVERITIES.index(each.severity) < worst for each in new)


def _is_solved(finding: Finding, before: list[Finding], after: list[Finding]) -> bool:
    """True when it is gone, and not merely told of other tags."""

    def told(found: list[Finding]) -> set[str]:
        return {each.key for each in found if each.rule == finding.rule and set(each.tags) & set(finding.tags)}

    return finding.key not in told(after) and not told(after) - told(before)


def next_free(job: Job, cls: type[Record], taken: int = 0) -> str:
    """The tag that a new record of a kind gets; `taken` of them were proposed already."""
    used = [int(tag[1:]) for tag in (*job.of(cls), *job.marks) if tag[:1] == cls.letter and tag[1:].isdecimal()]
    return f"{cls.letter}{max(used, default=0) + 1 + taken}"


def change_lines(job: Job, fix: Fix) -> list[str]:
    """What changes, a line for each field, as this owner writes: `K9: jacket rating SPT-2 -> CL2`."""
    lines: list[str] = []
    for record in (*fix.changed, *fix.added):
        old = job.tables.get(record.kind, {}).get(record.tag)
        name = getattr(record, "name", "") or getattr(record, "what", "")
        if old is None:
            lines.append(f"New {record.one} {record.tag} {name}".rstrip())
        for field in fields_of(type(record)):
            now, was = getattr(record, field.key), getattr(old, field.key, field.empty)
            if now != was and not (old is None and field.key == "name"):
                none = "no" if field.codec.name == "yes" else "blank"
                title, text = field.title(job.manner), field.show(now, job.manner) or none
                had = "" if old is None else f"{field.show(was, job.manner) or none} -> "
                lines.append(f"{record.tag}: {title} {had}{text}")
    return lines or [f"{fix.says}: nothing on the wall changes"]
