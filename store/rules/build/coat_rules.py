"""Findings about the coats of drywall: too little time to dry, or air in which none dries."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.numbers import show_number, with_unit
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
            f"Heat the room to {'10 °C' if job.settings.metric else '50 °F'} or more and air it until the last coat is "
            "dry, or use setting-type compound.",
            f"GA-216; {DRYING_SOURCE}",
            numbers,
            why=f"Entered for drying: {_air(job)}.",
        )
    elif plan.steps and plan.has_days < plan.needs_days:
        yield Finding(
            "coats_dry",
            "look",
            (plan.wall, *plan.steps),
            "Drywall steps leave coats no time to dry",
            "Add the coats as steps (in Steps, j = coats), or raise the waiting days.",
            f"{LEVEL_SOURCE}; {DRYING_SOURCE}",
            numbers,
            why=f"{plural(len(plan.coats), 'coat')} of {plural(plan.dry_days or 0, 'day')} to dry, and a day to hang: "
            f"{show_number(plan.needs_days)} days; the steps have {show_number(plan.has_days)}.",
        )


def _air(job: Job) -> str:
    """`50% humidity, 65 °F`, or `50 % humidity, 18 °C`."""
    metric, warm = job.settings.metric, job.settings.drying_f
    degrees = f"{(warm - 32) / 1.8:.0f} °C" if metric else f"{show_number(warm)} °F"
    return f"{with_unit(job.settings.humidity, '%', metric=metric)} humidity, {degrees}"
