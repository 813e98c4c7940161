"""That no rule of power is without its two cases, that both are as near to each other as can be, and hold the gate."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import msgspec

import store.rules
from store.records.base import Record
from store.records.gate import Answer, Passage
from store.records.people import Stage
from store.records.whole import Job
from store.rules.core.findings import NO_ANSWER, Finding, findings
from store.rules.gate.gate import standing
from tests.jobs.power_case import TODAY, only, told
from tests.jobs.power_pairs import PAIRS
from tests.rows import rows

FAMILIES = ("box", "circuit", "plug", "cord", "switched", "heater", "protection", "wall_wiring", "bore")
A_RULE = re.compile(r"[a-z0-9]+(?:_[a-z0-9]+)+")
PASSED: tuple[Stage, ...] = ("Design", "Mock-up", "Rough-in")


def names_in(family: str) -> tuple[set[str], set[str]]:
    """Every name of a finding in the source of a family, and of them those that are only ever to be looked at.

    A name is a text of words joined by underscores; no other text in these modules is written so.
    """
    (module,) = Path(next(iter(store.rules.__path__))).rglob(f"{family}_rules.py")
    tree = ast.parse(module.read_text("utf-8"))
    texts = {each.value for each in ast.walk(tree) if isinstance(each, ast.Constant) and isinstance(each.value, str)}
    looked_at = set()
    for call in ast.walk(tree):
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "Finding":
            name, severity = call.args[:2]
            assert not isinstance(name, ast.JoinedStr), f"{family}: the name of a finding is pieced together"
            if isinstance(name, ast.Constant) and isinstance(severity, ast.Constant) and severity.value == "look":
                looked_at.add(str(name.value))
    return {text for text in texts if A_RULE.fullmatch(text)}, looked_at


def grave() -> list[str]:
    """Names of the findings of power that can be `stop` or `fix`."""
    found: set[str] = set()
    for family in FAMILIES:
        names, looked_at = names_in(family)
        assert names, family
        found |= names - looked_at
    return sorted(found)


def test_each_grave_rule_has_both_cases() -> None:
    assert sorted(PAIRS) == grave()


@rows("name", PAIRS)
def test_one_job_raises_it_and_the_nearest_does_not(name: str) -> None:
    pair = PAIRS[name]
    only(pair.raised, name, pair.severity)
    assert not told(pair.quiet, name)
    assert len(differences(pair.raised, pair.quiet)) == 1


def differences(one: Job, other: Job) -> list[str]:
    """The fields in which two jobs differ, and the records that only one of them has."""
    found = []
    for kind, records in one.tables.items():
        others = other.tables[kind]
        found += sorted(set(records) ^ set(others))
        for tag in set(records) & set(others):
            was, now = msgspec.structs.asdict(records[tag]), msgspec.structs.asdict(others[tag])
            found += [f"{tag}.{key}" for key in was if was[key] != now[key]]
    return found


@rows("name", PAIRS)
def test_no_smaller_job_raises_it(name: str) -> None:
    """With any one of its records taken away, the finding is gone: each of them is needed.

    What named the record is left as it is first, as a file mended by hand could have it, and no rule breaks on that.
    """
    pair = PAIRS[name]
    for kind, records in pair.raised.tables.items():
        for tag in records if kind != "job" else ():
            fewer = Job({**pair.raised.tables, kind: {key: records[key] for key in records if key != tag}}, today=TODAY)
            findings(fewer)
            left = told(forgotten(fewer, tag), name)
            assert not [each for each in left if each.severity == pair.severity], f"{tag} is not needed"


def forgotten(job: Job, tag: str) -> Job:
    """The job with every field that is this tag left empty."""
    tables: dict[str, dict[str, Record]] = {}
    for kind, records in job.tables.items():
        tables[kind] = {}
        for key, record in records.items():
            named = {field: "" for field, value in msgspec.structs.asdict(record).items() if value == tag}
            tables[kind][key] = msgspec.structs.replace(record, **{**named, "tag": key})
    return Job(tables, today=TODAY)


def at_rough_in(job: Job, *answers: Answer) -> Job:
    """The job as it stands before the wall is closed."""
    passages: dict[str, Record] = {each: Passage(tag=each, stage=each, date=TODAY, by="Robin") for each in PASSED}
    given: dict[str, Record] = {each.tag: each for each in answers}
    return Job({**job.tables, "passage": passages, "answer": given}, today=TODAY)


def answer_to(finding: Finding, **numbers: str) -> Answer:
    """An answer to a finding as it is now, or as it was with these numbers."""
    said = {**finding.numbers, **numbers}
    return Answer(
        tag=finding.key, date=TODAY, by="Sam", office="license 1147", reference="R-112", says="looked at and allowed",
        vouches=said,
    )  # fmt: skip


@rows("name", [name for name, pair in PAIRS.items() if pair.severity == "stop"])
def test_what_is_dangerous_holds_the_drywall_until_it_is_answered(name: str) -> None:
    raised = PAIRS[name].raised
    (finding,) = told(raised, name)

    def holds(job: Job) -> bool:
        now = standing(job)
        assert now.next == "Drywall"
        return any(hold.key == finding.key and hold.strict for hold in now.holds)

    assert holds(at_rough_in(raised))
    assert not holds(at_rough_in(PAIRS[name].quiet))
    assert holds(at_rough_in(raised, answer_to(finding))) == (finding.rule in NO_ANSWER)
    changed = next(iter(finding.numbers))
    assert holds(at_rough_in(raised, answer_to(finding, **{changed: "otherwise"})))


@rows("name", PAIRS)
def test_each_defers_and_never_tells_to_alter_an_appliance(name: str) -> None:
    """What an electrician, an inspector or a maker decides is said so; no remedy changes an appliance or a cord."""
    (finding,) = told(PAIRS[name].raised, name)
    text = f"{finding.says} {finding.remedy}".lower()
    assert not re.search(r"\b(?:modify|alter|shorten|cut off|rewire|bypass|replace the plug|lengthen)\b", text)
    if finding.severity == "stop" or "NEC" in finding.source or "BS 7671" in finding.source:
        assert re.search(r"local code decide|inspector decides|instructions win", finding.remedy), finding.remedy


def test_no_finding_is_made_of_nothing() -> None:
    for pair in PAIRS.values():
        for each in findings(pair.raised):
            assert each.says
            assert each.remedy
            assert each.source
