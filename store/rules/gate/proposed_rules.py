"""Findings about a first plan: what nobody read, changed or agreed to yet."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.counts import plural
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.proposed import proposals
from store.rules.core.wording import sentence


@rule
def proposed_not_agreed(job: Job) -> Iterable[Finding]:
    """Records of each kind that are as the first plan proposed them."""
    kinds: dict[str, list[str]] = {}
    for tag in proposals(job):
        record = job.get(tag)
        if record is not None:
            kinds.setdefault(record.kind, []).append(tag)
    for tags in kinds.values():
        one = job.get(tags[0])
        assert one is not None
        what = plural(len(tags), one.one) if one.one != one.many else f"{len(tags)} {one.many}"
        is_as = f"{'is' if len(tags) == 1 else 'are'} as the first plan proposed"
        yield Finding(
            "proposed_not_agreed",
            "look",
            tuple(tags),
            "Proposed, not agreed yet",
            "Measure each size and enter it, or change what you want different. F = agree to the rest.",
            "First plan; common practice",
            {"tags": " ".join(tags)},
            why=sentence(f"{what} {is_as}, from rough sizes"),
        )
