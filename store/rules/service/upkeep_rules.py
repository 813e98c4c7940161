"""Findings for the years after: service, warranties, panels that nobody opened, and what the insurer would ask."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from store.measure.dates import relative_day
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.gate import Passage
from store.records.whole import Job
from store.rules.access.steps import log_by_panel
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import date_text, day_short, listed
from store.rules.service.upkeep import is_in_use
from store.rules.wall.pieces import in_use

OWN_CHOICE = "common practice"
WARRANTY_NEAR_DAYS = 45
"""Told this many days ahead: time to try everything once and to write to the seller (our own choice)."""
UNOPENED_YEARS = 3
"""A panel is opened once in so many years, to see that it comes off and what is behind it is dry (our own choice)."""


@rule
@from_each(Equipment)
def service_due(job: Job, one: Equipment) -> Iterable[Finding]:
    """A filter to clean or a fan to check, whose day has come."""
    tag = one.tag
    if not _owned(one):
        return
    if one.service is not None and one.service <= job.today:
        yield Finding(
            "service_due",
            "look",
            (tag,),
            f"Service due {day_short(job, one.service)}",
            "Do what its manual says (filter, fan, dust), and enter the next day.",
            "the day you entered; the manual",
            {"service": one.service.isoformat()},
            why=f"Service was due on {date_text(job, one.service)}.",
        )


@rule
@from_each(Equipment)
def warranty_ends(job: Job, one: Equipment) -> Iterable[Finding]:
    """A warranty that ends soon."""
    tag = one.tag
    if not _owned(one):
        return
    if one.warranty is not None and 0 <= (one.warranty - job.today).days <= WARRANTY_NEAR_DAYS:
        yield Finding(
            "warranty_ends",
            "look",
            (tag,),
            f"Warranty ends {day_short(job, one.warranty)}",
            ("Try every port and function once. Write to the seller before that day if anything is wrong."),
            "the day you entered",
            {"warranty": one.warranty.isoformat()},
            why=(f"{relative_day(one.warranty, job.today)[0].upper()}{relative_day(one.warranty, job.today)[1:]}."),
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
        words = listed([f"{tag} (since {date_text(job, day)})" for tag, day in old.items()])
        yield Finding(
            "panel_long_unopened",
            "look",
            tuple(old),
            f"Not opened for {UNOPENED_YEARS} years or more",
            (
                "Open each once: check that it comes off, that it is dry and clean behind it, and that "
                "its card is right. Log the visit."
            ),
            OWN_CHOICE,
            {tag: day.isoformat() for tag, day in old.items()},
            why=f"{words}.",
        )


@rule
def insurance_list_gaps(job: Job) -> Iterable[Finding]:
    """In use: what is owned and plugged or wired in, without the serial number that an insurer asks for."""
    if not is_in_use(job):
        return
    gaps = [
        tag
        for tag, one in job.of(Equipment).items()
        if _owned(one) and not one.serial and one.power in ("cord", "hard-wired")
    ]
    if gaps:
        yield Finding(
            "insurance_list_gaps",
            "look",
            tuple(gaps),
            "No serial number for the insurance list",
            "Read it off the nameplate, with a photo, while you can reach it.",
            OWN_CHOICE,
            {"no serial": ", ".join(gaps)},
            why=f"Missing for {listed(gaps)}.",
        )


def _owned(one: Equipment) -> bool:
    return one.state == "owned" and in_use(one)


def _last_known(job: Job, panel: Panel) -> date | None:
    """The day a panel was last opened; else fitted, else that on which the wall came into use."""
    log = log_by_panel(job).get(panel.tag)
    began = next((each.date for each in job.of(Passage).values() if each.stage == "In use"), None)
    return log[0].date if log else panel.fitted or began


def _years(since: date, today: date) -> int:
    """Whole years from a day to another."""
    return today.year - since.year - ((today.month, today.day) < (since.month, since.day))
