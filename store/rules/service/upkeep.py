"""What there is to look after once the job is in use."""

from __future__ import annotations

from collections.abc import Sequence

from store.records.gate import Passage
from store.records.whole import Job
from store.rules.core.findings import Finding

UPKEEP = {
    "service_due": "service due",
    "warranty_ends": "warranty ends",
    "panel_long_unopened": "not opened for years",
    "insurance_ran_out": "insurance ended",
    "insurance_list_gaps": "serial missing",
}
"""What there is to look after in the years of use, by the rule that tells it, each in two or three words."""


def upkeep(found: Sequence[Finding]) -> list[Finding]:
    """What is to be looked after, as long as nobody has answered it."""
    return [each for rule_name in UPKEEP for each in found if each.rule == rule_name and not each.answered]


def upkeep_line(found: Sequence[Finding]) -> str:
    """All of that in one line: `To look after: service due E8; serial missing E2, E3 and 2 more`; or that there is
    nothing."""
    parts = []
    for name, words in UPKEEP.items():
        tags = [tag for each in upkeep(found) if each.rule == name for tag in each.tags]
        if tags:
            more = f" and {len(tags) - SHOWN_TAGS} more" if len(tags) > SHOWN_TAGS else ""
            parts.append(f"{words} {', '.join(tags[:SHOWN_TAGS])}{more}")
    return f"To look after: {'; '.join(parts)}" if parts else "In use: no service due"


def is_in_use(job: Job) -> bool:
    """True once the job has passed to its last stage."""
    return any(each.stage == "In use" for each in job.of(Passage).values())


SHOWN_TAGS = 3
"""Tags named in the one line of what is due; the list of findings has them all."""
