"""Findings about the people on the job: papers that ran out or will."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.people import Contact
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import date_text, day_short


@rule
@from_each(Contact)
def papers_ran_out(job: Job, one: Contact) -> Iterable[Finding]:
    """A licence or an insurance that ended, of somebody who is not done yet."""
    tag = one.tag
    for paper, until in (("licence", one.licence_until), ("insurance", one.insured_until)):
        if until is not None and until < job.today and one.state != "done":
            yield Finding(
                f"{paper}_ran_out",
                "look",
                (tag,),
                f"{'License' if paper == 'licence' else 'Insurance'} ran out {day_short(job, until)}",
                (
                    f"Ask for the new {'license' if paper == 'licence' else 'insurance paper'} before they "
                    "start, and enter its date."
                ),
                "common practice",
                {"until": until.isoformat()},
                why=(
                    f"The {'license' if paper == 'licence' else 'insurance'} of {one.name} ({one.trade}) "
                    f"ended on {date_text(job, until)}."
                ),
            )
