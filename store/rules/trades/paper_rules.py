"""Findings about the people on the job: papers that ran out or will."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.dates import show_date
from store.records.people import Contact
from store.records.whole import Job
from store.rules.core.findings import Finding, rule


@rule
def papers_ran_out(job: Job) -> Iterable[Finding]:
    """A licence or an insurance that ended, of somebody who is not done yet."""
    for tag, one in job.of(Contact).items():
        for paper, until in (("licence", one.licence_until), ("insurance", one.insured_until)):
            if until is not None and until < job.today and one.state != "done":
                yield Finding(
                    f"{paper}_ran_out",
                    "look",
                    (tag,),
                    f"The {paper} of {one.name} ({one.trade}) ended on {show_date(until)}.",
                    f"Ask for the new {paper} paper before they start, and note its date.",
                    "common practice",
                    {"until": until.isoformat()},
                )
