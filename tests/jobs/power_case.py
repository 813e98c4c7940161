"""Small jobs in memory for the tests of power: a circuit, its boxes, and what hangs on them."""

from __future__ import annotations

from datetime import date
from typing import Any

from store.measure.length import Length, parse_length
from store.records.base import R, Record
from store.records.job import Settings
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Circuit
from store.rules.core import registry
from store.rules.core.findings import Finding, findings

TODAY = date(2026, 3, 2)
LENGTHS = {
    "x",
    "y",
    "width",
    "height",
    "depth",
    "cord",
    "length",
    "setback",
    "hole",
    "measured",
    "value",
    "level",
    "notch",
}


def job_of(*records: Record, **settings: Any) -> Job:
    """A job that holds these records."""
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    tables["job"]["job"] = Settings(tag="job", name="test wall", **settings)
    for record in records:
        tables[record.kind][record.tag] = record
    return Job(tables=tables, today=TODAY)


def make(cls: type[R], tag: str, **values: Any) -> R:
    """A record, its references written as plain tags and its lengths as a person types them."""
    read: dict[str, Any] = {
        key: at(value) if key in LENGTHS and isinstance(value, str) else value for key, value in values.items()
    }
    return cls(tag=tag, **read)


def at(text: str) -> Length:
    """A length as a person types it."""
    return parse_length(text)


def circuit(tag: str = "C1", **values: Any) -> Circuit:
    """A 20 A circuit in 12 AWG with arc-fault protection."""
    given: dict[str, Any] = {"name": "media", "breaker": 20.0, "volts": 120.0, "conductor": "12", "afci": True}
    return make(Circuit, tag, **{**given, **values})


def receptacle(tag: str = "B1", /, **values: Any) -> Box:
    """A roomy duplex on C1."""
    given: dict[str, Any] = {
        "what": "receptacle", "circuit": "C1", "receptacles": 2, "volume": 22.5,
        "devices": ("receptacle TR 12",), "conductors": ("12-2 G",),
    }  # fmt: skip
    return make(Box, tag, **{**given, **values})


def told(job: Job, rule: str) -> list[Finding]:
    """The findings of one rule."""
    return [each for each in findings(job) if each.rule == rule]


def rules_told(job: Job, *severities: str) -> set[str]:
    """The names of the rules that found something, of these severities or of all."""
    return {each.rule for each in findings(job) if not severities or each.severity in severities}


def only(job: Job, rule: str, severity: str) -> Finding:
    """The one finding of a rule; it must have this severity and say who decides or what its source is."""
    all_told = told(job, rule)
    assert len(all_told) == 1, (
        f"{rule} is told {len(all_told)} times; told are {sorted(rules_told(job))}. "
        f"A rule of a module that RULES of {registry.__file__} does not name is never told"
    )
    (found,) = all_told
    assert found.severity == severity
    assert found.source
    assert found.numbers, "without numbers an answer could never open again"
    assert found.says.endswith(".")
    assert found.remedy.endswith(".")
    assert all(tag and job.get(tag) is not None for tag in found.tags)
    return found
