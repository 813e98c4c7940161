"""Findings: what is dangerous, will not work, or should be looked at; each with its numbers, source and remedy.

A rule is one function in the module of its family, marked with `@rule`. It is given the job and yields findings.
Nothing is stored: findings follow from the job each time. An answer by a person who may decide stays with the
finding as long as its numbers stay the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Literal

import msgspec

from store.measure.text import is_blank
from store.records.gate import Answer
from store.records.whole import Job
from store.rules.core.memo import once
from store.rules.core.registry import RULES, Register

Severity = Literal["stop", "fix", "look"]
SEVERITIES: tuple[Severity, ...] = ("stop", "fix", "look")
"""stop: dangerous, or about to be buried. fix: will not fit, work or pass. look: a person should check."""


class Finding(msgspec.Struct, frozen=True):
    """One thing found."""

    rule: str
    severity: Severity
    tags: tuple[str, ...]
    says: str
    """What is so, with its numbers, in one sentence."""
    remedy: str
    source: str
    """Document, edition and section; or `common practice`."""
    numbers: dict[str, str] = {}
    answer: Answer | None = None

    @property
    def key(self) -> str:
        """Stable name: the rule and what it is about."""
        return f"{self.rule}:{','.join(self.tags)}"

    @property
    def answered(self) -> bool:
        """True when a person has answered it and its numbers are still the same."""
        return self.answer is not None and self.answer.vouches == self.numbers and not is_blank(self.answer.by)


Rule = Callable[[Job], Iterable[Finding]]
_RULES: Register[Rule] = Register(RULES)


def rule(function: Rule) -> Rule:
    """Mark a function as a rule."""
    _RULES.add(function)
    return function


@once
def findings(job: Job) -> list[Finding]:
    """Everything found in the job, the gravest first; the answered ones keep their place."""
    answers = job.of(Answer)
    forged = {each.tag for each in job.outside if each.kind == "answer"}
    found = []
    for number in range(len(_RULES.all())):
        for each in _found_by(job, number):
            answer = answers.get(each.key)
            found.append(each if answer is None or each.key in forged else msgspec.structs.replace(each, answer=answer))
    return sorted(found, key=lambda each: SEVERITIES.index(each.severity))


@once
def _found_by(job: Job, number: int) -> tuple[Finding, ...]:
    """What one rule finds."""
    return tuple(_RULES.all()[number](job))
