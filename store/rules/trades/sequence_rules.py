"""Findings about the order of the trades: work that drywall would cover before it is done, papers nobody entered."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.people import Contact, Step, Trade
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each, index
from store.rules.core.wording import date_text, few_of, listed
from store.rules.schedule.calendar import calendar, trade_of

PRACTICE = "common practice"
INSPECTION_SOURCE = "IRC R109.1.2 and R109.1.4; common practice"
BEFORE, COVERS = "Rough-in", "Drywall"
"""The stage whose work is in the wall, and the one that covers it."""
LICENSED: tuple[Trade, ...] = ("electrician", "hvac")
INSURED: tuple[Trade, ...] = ("electrician", "carpenter", "low-voltage", "drywall", "hvac")
_in_stage = index(Step, lambda one: (one.stage,) if one.done is None else ())
"""The steps that are not done, by their stage."""


@rule
@from_each(Step)
def covered_before_done(job: Job, step: Step) -> Iterable[Finding]:
    """A drywall step that starts before work in the wall, or its inspection, is done."""
    dated = calendar(job).dated
    if step.stage != COVERS or step.done is not None or step.tag not in dated:
        return
    start = dated[step.tag].start
    late = [one for one in _in_stage(job).get(BEFORE, ()) if one.tag in dated and dated[one.tag].finish >= start]
    if late:
        inspected = [one.tag for one in late if trade_of(job, one) == "inspector"]
        last = max(dated[one.tag].finish for one in late)
        yield Finding(
            "covered_before_done",
            "fix",
            (step.tag, *(one.tag for one in late)),
            f"Starts before {few_of([one.tag for one in late], 3)} {'is' if len(late) == 1 else 'are'} done",
            f"Enter that {step.tag} comes after {listed([one.tag for one in late])}.",
            INSPECTION_SOURCE if inspected else PRACTICE,
            {"start": start.isoformat(), "done": last.isoformat()},
            why=f"It can start on {date_text(job, start)}, and the work in the wall ends on {date_text(job, last)}"
            + (f"; {listed(inspected)} is the inspection that must see it open." if inspected else "."),
            about=(step.tag,),
        )


_for = index(Step, lambda one: (one.who,) if one.who and one.done is None else ())


@rule
@from_each(Contact)
def papers_not_entered(job: Job, one: Contact) -> Iterable[Finding]:
    """Somebody booked for work on the wall without license or proof of insurance on file."""
    if one.state != "booked" or not _for(job).get(one.tag):
        return
    missing = ["license number"] if one.trade in LICENSED and not one.licence.strip() else []
    missing += ["proof of insurance"] if one.trade in INSURED and one.insured_until is None else []
    if missing:
        yield Finding(
            "papers_not_entered",
            "look",
            (one.tag,),
            f"No {' or '.join(missing)} entered",
            "Ask for a copy before the work starts, and enter number and date.",
            PRACTICE,
            {"missing": ", ".join(missing)},
            why=f"{one.name} ({one.trade}) is booked for {listed([step.tag for step in _for(job)[one.tag]])}.",
        )
