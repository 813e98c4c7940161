"""Findings: what is dangerous, will not work, or should be looked at; each with headline, why, what to do and source.

A rule is one function in the module of its family, marked with `@rule`. It is given the job and yields findings.
Nothing is stored: findings follow from the job each time. An answer by a person who may decide stays with the
finding as long as its numbers stay the same.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from functools import cache
from itertools import chain
from typing import Any, Literal, TypeVar

import msgspec

from store.measure.dates import show_date
from store.measure.kept import kept_text, same_kept
from store.measure.text import is_blank, is_junk, is_no_name, is_no_office, words_of
from store.records.base import Record
from store.records.gate import Answer
from store.records.whole import KINDS, Job
from store.rules.core.headline import headline, subjects
from store.rules.core.keyed import Each, FromEach
from store.rules.core.memo import once, put_together
from store.rules.core.proof import is_number
from store.rules.core.registry import RULES, Register
from store.rules.core.wording import local

Severity = Literal["stop", "fix", "look"]
SEVERITIES: tuple[Severity, ...] = ("stop", "fix", "look")
"""stop: dangerous, or about to be buried. fix: will not fit, work or pass. look: a person should check."""
SEVERITY_WORDS: dict[Severity, str] = {"stop": "Stop", "fix": "Fix", "look": "Check"}
"""What a person reads for each."""


NO_ANSWER = frozenset(
    {
        "cord_in_wall", "cord_through_wall", "heater_on_strip", "junction_buried", "plug_inside_wall",
        "retired_too_early", "strip_in_wall", "surface_unit_recessed",
    }
)  # fmt: skip
"""Rules on what nobody may allow: a flexible cord in a wall, also with the plug or the strip on it, a buried junction,
a heater for a surface set in a recess, a strip that feeds a heater; and a date of retirement to come, behind which
each of these would be hidden. No answer counts there; it is mended."""
LEAST_WORDS = 3
"""Words that an answer takes; two are a nod."""


class Finding(msgspec.Struct, frozen=True):
    """One thing found."""

    rule: str
    severity: Severity
    tags: tuple[str, ...]
    head: str
    """The problem alone, without tag and name: `headed` adds them. Starts with a capital, has no full stop."""
    do: str
    """What to do: starts with a verb, two ways at most, the better one first."""
    source: str
    """Document, edition and section; or `common practice`."""
    numbers: dict[str, str] = {}
    answer: Answer | None = None
    why: str = ""
    """One or two sentences with the numbers: has, needs, short by."""
    about: tuple[str, ...] | None = None
    """Tags for the headline, where they are not the first tag, or all tags when these are of one kind."""
    headline: str = ""
    """The problem, then tag and name, in 60 characters; filled in by `findings`."""

    final: bool = False
    """True where nobody may allow it, beside the rules of NO_ANSWER."""

    @property
    def takes_answer(self) -> bool:
        """False where nobody may allow it: it is mended."""
        return not self.final and self.rule not in NO_ANSWER

    @property
    def says(self) -> str:
        """Headline and why as one text."""
        return f"{self.headline or self.head}. {self.why}" if self.why else self.head

    @property
    def in_full(self) -> str:
        """Problem and why as one text for paper, where tags stand beside it and nothing is cut for a list's width."""
        return f"{self.head}. {self.why}".rstrip()

    @property
    def remedy(self) -> str:
        """What to do, under the name that `--json` has for it."""
        return self.do

    @property
    def key(self) -> str:
        """Stable name: the rule and what it is about."""
        return f"{self.rule}:{','.join(self.tags)}"

    @property
    def answered(self) -> bool:
        """True when a person who may has answered it and its numbers are still the same."""
        if self.answer is None or not same_kept(self.answer.vouches, self.numbers) or is_blank(self.answer.by):
            return False
        return self.takes_answer and not (self.severity == "stop" and answer_missing(self, self.answer))


def answer_missing(finding: Finding, answer: Answer) -> str:
    """What an answer lacks to count, in words that say what would do; empty when it is whole."""
    if not finding.takes_answer:
        return f"no one can accept this. {finding.remedy}"
    if is_no_name(answer.by):
        return "no name entered. Enter who accepted it"
    if len(words_of(answer.says)) < LEAST_WORDS or is_junk(answer.says):
        return "write what was answered, in three words or more"
    if finding.severity != "stop":
        return ""
    if is_no_office(answer.office) and not is_number(answer.office):
        return "only someone with the authority can accept a Stop. Enter the license no. or the office"
    if is_junk(answer.reference) and not is_number(answer.reference):
        return "to accept a Stop, enter the number of the letter, permit or code section"
    return ""


def accepted_line(answer: Answer, day_first: bool = False) -> str:
    """Who accepted a problem, by what right and under what reference: shown for good wherever the problem is."""
    by = [each for each in (answer.by, answer.office, answer.reference) if not is_blank(each)]
    return f"Accepted by {', '.join(by)}, {show_date(answer.date, day_first)}: {answer.says}"


Rule = Callable[[Job], Iterable[Finding]]
_RULES: Register[Rule] = Register(RULES)
R = TypeVar("R", bound=Rule)


def rule(function: R) -> R:
    """Mark a function as a rule; with `@from_each` between, one that looks at each record of a kind by itself."""
    _RULES.add(function)
    return function


@put_together
def findings(job: Job) -> list[Finding]:
    """Everything found in the job, the gravest first; the answered ones keep their place."""
    answers = job.of(Answer)
    forged = {each.tag for each in job.outside if each.kind == "answer"}
    at_place: defaultdict[int, list[Finding]] = defaultdict(list)
    parts = [*(_found_by(job, number) for number in range(len(_RULES.all()))), *(_found_in(job, k) for k in _by_kind())]
    for place, each in chain.from_iterable(parts):
        at_place[place].append(each)
    said = list(chain.from_iterable(at_place[place] for place in sorted(at_place)))
    if not answers:
        return said
    found = []
    for each in said:
        answer = answers.get(each.key)
        found.append(each if answer is None or each.key in forged else msgspec.structs.replace(each, answer=answer))
    return found


@once
def _found_by(job: Job, number: int) -> tuple[Numbered, ...]:
    """What a rule finds that looks at the whole job, in the words of the job's region."""
    function = _RULES.all()[number]
    return () if isinstance(function, FromEach) else tuple(_numbered(job, number, 0, each) for each in function(job))


def _told(job: Job, one: Finding) -> Finding:
    """A finding as it is shown: with its headline."""
    tags = subjects(one.tags) if one.about is None else one.about
    return msgspec.structs.replace(
        one,
        headline=headline(job, one.head, tags),
        why=local(job, one.why),
        do=local(job, one.do),
        numbers={name: kept_text(text) for name, text in one.numbers.items()},
    )


Numbered = tuple[int, Finding]
"""A finding with its place: how grave it is, the place of its rule in the register, and that of a kind among those
that the rule looks at, in one number."""
_MOST_RULES, _MOST_KINDS = 10_000, 100


def _numbered(job: Job, number: int, at: int, one: Finding) -> Numbered:
    return (SEVERITIES.index(one.severity) * _MOST_RULES + number) * _MOST_KINDS + at, _told(job, one)


@cache
def _by_kind() -> dict[str, tuple[tuple[int, int, FromEach[Any, Finding]], ...]]:
    """The rules that look at one record at a time, with their places, by the kind of record."""
    found: dict[str, tuple[tuple[int, int, FromEach[Any, Finding]], ...]] = {}
    for number, each in enumerate(_RULES.all()):
        if isinstance(each, FromEach):
            for at, cls in enumerate(each.kinds):
                found[cls.kind] = (*found.get(cls.kind, ()), (number, at, each))
    return found


FAR_SIGHTED = frozenset({"wall", "circuit", "raceway", "obstacle", "buildout"})
"""Kinds of which there are few records, each of which many rules look at together with all that is on it."""


@cache
def _found_of(kind: str) -> Each[Record, tuple[Numbered, ...]]:
    """What all rules find of a record of a kind: one answer for all of them, as most find nothing.

    Of what is looked at together with much else it is put together from an answer for each rule, so that an edit asks
    only those that it concerns.
    """
    parts = [Each(KINDS[kind], _finder(group)) for group in _groups(kind)]

    def found(job: Job, record: Record) -> tuple[Numbered, ...] | None:
        return tuple(chain.from_iterable(part.one(job, record.tag) or () for part in parts)) or None

    return Each(KINDS[kind], found)


def _groups(kind: str) -> Iterable[Sequence[tuple[int, int, FromEach[Any, Finding]]]]:
    """The rules that look at a kind of record, as their answers are kept: each by itself, or those about power
    together and the rest together. Another breaker bears on all that hangs on its circuit, and a move on none of it."""
    rules = _by_kind()[kind]
    if kind in FAR_SIGHTED:
        return [(each,) for each in rules]
    of_power = [each for each in rules if ".power." in each[2].function.__module__]
    rest = [each for each in rules if ".power." not in each[2].function.__module__]
    return [group for group in (of_power, rest) if group]


def _finder(
    rules: Sequence[tuple[int, int, FromEach[Any, Finding]]],
) -> Callable[[Job, Record], tuple[Numbered, ...] | None]:
    """What some rules find of a record, with their places."""

    def found(job: Job, record: Record) -> tuple[Numbered, ...] | None:
        return (
            tuple(_numbered(job, number, at, each) for number, at, rule in rules for each in rule.function(job, record))
            or None
        )

    return found


@once
def _found_in(job: Job, kind: str) -> tuple[Numbered, ...]:
    """What is found of each record of a kind, in the order of its table."""
    return tuple(chain.from_iterable(_found_of(kind).whole(job).values()))
