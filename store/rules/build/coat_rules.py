"""Findings about the coats of drywall: too little time to dry, or air in which none dries."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.numbers import show_number
from store.records.whole import Job
from store.rules.build.coats import coat_plan
from store.rules.core.findings import Finding, rule
from store.rules.core.wording import plural
from store.trade.build.finish import DRYING_SOURCE, LEVEL_SOURCE


@rule
def coats_dry(job: Job) -> Iterable[Finding]:
    """Drywall steps that leave less time than the coats of the finish level need."""
    plan = coat_plan(job)
    if plan is None or not plan.coats:
        return
    air = f"{show_number(job.settings.humidity)} % humidity, {show_number(job.settings.drying_f)} °F"
    numbers = {"coats": str(len(plan.coats)), "air": air, "days": show_number(plan.has_days)}
    if plan.needs_days is None:
        yield Finding(
            "coats_dry",
            "look",
            (plan.wall,),
            "Too cold or damp for joint compound",
            "Heat the room to 50 °F or more and air it until the last coat is dry, or use setting-type compound.",
            f"GA-216; {DRYING_SOURCE}",
            numbers,
            why=f"Entered for drying: {air}.",
        )
    elif plan.steps and plan.has_days < plan.needs_days:
        yield Finding(
            "coats_dry",
            "look",
            (plan.wall, *plan.steps),
            "Drywall steps leave coats no time to dry",
            "Add the coats as steps (in Steps, c = coats), or raise the waiting days.",
            f"{LEVEL_SOURCE}; {DRYING_SOURCE}",
            numbers,
            why=f"{plural(len(plan.coats), 'coat')} of {plural(plan.dry_days or 0, 'day')} to dry, and a day to hang: "
            f"{show_number(plan.needs_days)} days; the steps have {show_number(plan.has_days)}.",
        )
