"""The smallest job for each rule that has a maker of fixes; the jobs are beside this, in the form of the file."""

from __future__ import annotations

import json
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from store.records.base import Record, from_doc
from store.records.whole import KINDS, Job
from store.rules.core.findings import Finding, findings


@cache
def _all() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(Path(__file__).with_name("smallest_jobs.json").read_text("utf-8"))
    return found


def rules() -> list[str]:
    """The rules that have a case."""
    return list(_all())


def case(rule: str) -> tuple[Job, Finding]:
    """The smallest job that raises a rule, and what it raises."""
    one = _all()[rule]
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    for kind, records in one["job"].items():
        for tag, doc in records.items():
            tables[kind][tag] = from_doc({"tag": tag, **doc}, KINDS[kind])
    job = Job(tables=tables, today=date.fromisoformat(one["today"]))
    return job, next(each for each in findings(job) if each.key == one["finding"])
