"""Findings for the years after: service, warranties, panels that nobody opened, and what the insurer would ask."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from store.measure.dates import show_date
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.gate import Passage
from store.records.whole import Job
from store.rules.access.steps import log_by_panel
from store.rules.core.findings import Finding, rule
from store.rules.core.wording import listed, named
from store.rules.service.upkeep import is_in_use
from store.rules.wall.pieces import in_use

OWN_CHOICE = "common practice"
WARRANTY_NEAR_DAYS = 45
"""Told this many days ahead: time to try everything once and to write to the seller (our own choice)."""
UNOPENED_YEARS = 3
"""A panel is opened once in so many years, to see that it comes off and what is behind it is dry (our own choice)."""


@rule
def service_due(job: Job) -> Iterable[Finding]:
    """A filter to clean or a fan to check, whose day has come."""
    for tag, one in _owned(job):
        if one.service is not None and one.service <= job.today:
            yield Finding(
                "service_due",
                "look",
                (tag,),
                f"{named(job, tag)} was to be looked after by {show_date(one.service)}.",
                "Do what its manual says (filter, fan, dust), and note the next day.",
                "the day you noted; the maker's manual",
                {"service": one.service.isoformat()},
            )


@rule
def warranty_ends(job: Job) -> Iterable[Finding]:
    """A warranty that ends soon."""
    for tag, one in _owned(job):
        if one.warranty is not None and 0 <= (one.warranty - job.today).days <= WARRANTY_NEAR_DAYS:
            yield Finding(
                "warranty_ends",
                "look",
                (tag,),
                f"The warranty of {named(job, tag)} ends on {show_date(one.warranty)}.",
                "Try every port and function once; write to the seller before that day if anything is wrong.",
                "the day you noted",
                {"warranty": one.warranty.isoformat()},
            )


@rule
def panel_long_unopened(job: Job) -> Iterable[Finding]:
    """In use: panels that nobody opened for years; one finding."""
    if not is_in_use(job):
        return
    old = {}
    for tag, panel in job.of(Panel).items():
        last = _last_known(job, panel)
        if last is not None and _years(last, job.today) >= UNOPENED_YEARS:
            old[tag] = last
    if old:
        words = listed([f"{tag} (since {show_date(day)})" for tag, day in old.items()])
        yield Finding(
            "panel_long_unopened",
            "look",
            tuple(old),
            f"Not opened for {UNOPENED_YEARS} years or more: {words}.",
            "Open each once: see that it comes off, that it is dry and clean behind it, and that its card is right; "
            "log it.",
            OWN_CHOICE,
            {tag: day.isoformat() for tag, day in old.items()},
        )


@rule
def insurance_list_gaps(job: Job) -> Iterable[Finding]:
    """In use: what is owned and plugged or wired in, without the serial number that an insurer asks for."""
    if not is_in_use(job):
        return
    gaps = [tag for tag, one in _owned(job) if not one.serial and one.power in ("cord", "hard-wired")]
    if gaps:
        yield Finding(
            "insurance_list_gaps",
            "look",
            tuple(gaps),
            f"The list for the insurance has no serial number of {listed(gaps)}.",
            "Read it off the rating plate, with a photo, while the thing is at hand.",
            OWN_CHOICE,
            {"no serial": ", ".join(gaps)},
        )


def _owned(job: Job) -> list[tuple[str, Equipment]]:
    return [(tag, one) for tag, one in job.of(Equipment).items() if one.state == "owned" and in_use(one)]


def _last_known(job: Job, panel: Panel) -> date | None:
    """The day a panel was last opened; else fitted, else that on which the wall came into use."""
    log = log_by_panel(job).get(panel.tag)
    began = next((each.date for each in job.of(Passage).values() if each.stage == "In use"), None)
    return log[0].date if log else panel.fitted or began


def _years(since: date, today: date) -> int:
    """Whole years from a day to another."""
    return today.year - since.year - ((today.month, today.day) < (since.month, since.day))
