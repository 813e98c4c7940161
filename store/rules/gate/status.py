"""The job at a glance, as plain data: what `studbook status` prints."""

from __future__ import annotations

from typing import Any

from store.records.equipment import BUYING, Equipment
from store.records.whole import KINDS, Job
from store.rules.core.findings import findings
from store.rules.core.taken_off import taken_off
from store.rules.gate.gate import outside_line, standing


def status(job: Job) -> dict[str, Any]:
    """Stage, what holds the next one, findings and totals."""
    found = findings(job)
    now = standing(job, found)
    closings = [item.closing for item in now.items if not item.open and item.closing]
    return {
        "job": job.settings.name,
        "stage": now.stage,
        "next": now.next,
        "claimed": now.claimed,
        "unearned": now.unearned,
        "holds": [{"key": hold.key, "what": hold.what, "strict": hold.strict} for hold in now.holds],
        "items": {
            "total": len(now.items),
            "open": len(now.open),
            "closed": sum(each.outcome == "closed" for each in closings),
            "not_needed": sum(each.outcome == "not needed" for each in closings),
        },
        "found_after": [item.key for item in now.found_after],
        "removed": [
            {"tag": each.tag, "what": each.what, "by": each.by, "at": each.at, "reason": each.reason}
            for each in taken_off(job)
        ],
        "outside": [outside_line(each) for each in job.outside],
        "findings": [
            {
                "rule": each.rule,
                "severity": each.severity,
                "tags": list(each.tags),
                "headline": each.headline,
                "why": each.why,
                "do": each.do,
                "says": each.says,
                "remedy": each.remedy,
                "source": each.source,
                "numbers": each.numbers,
                "answered": each.answered,
            }
            for each in found
        ],
        "currency": job.settings.currency,
        "totals": {
            "records": {kind: len(job.tables.get(kind, {})) for kind in KINDS if job.tables.get(kind)},
            "equipment": buying_totals(job),
        },
    }


def buying_totals(job: Job) -> dict[str, dict[str, int]]:
    """How many things are to buy, ordered and owned, and what they cost, in minor units."""
    totals = {state: {"count": 0, "price": 0, "unpriced": 0} for state in BUYING}
    for one in job.of(Equipment).values():
        if one.retired is None:
            row = totals[one.state]
            row["count"] += one.count
            row["price"] += (one.price or 0) * one.count
            row["unpriced"] += one.price is None
    return {state: dict(row) for state, row in totals.items()}
