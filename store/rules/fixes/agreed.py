"""What a first plan proposed, agreed to as it stands."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from store.measure.counts import plural
from store.records.whole import Job
from store.rules.core.findings import Finding
from store.rules.fixes.fix import Fix, fixes


@fixes("proposed_not_agreed")
def agreed(job: Job, finding: Finding) -> Iterator[Fix]:
    """They are the plan from now on."""
    left = tuple(tag for tag in job.settings.proposed if tag not in finding.tags)
    count = plural(len(finding.tags), "thing")
    yield Fix(f"Agree to {count} as proposed", (replace(job.settings, proposed=left),))
