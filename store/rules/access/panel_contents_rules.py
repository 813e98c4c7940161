"""Findings about what is behind a panel: what the places of things tell against what the owner says."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.rules.access.panel_contents import panel_contents
from store.rules.core.findings import Finding, rule
from store.rules.core.wording import listed, named, said

SOURCE = "the places of this job; how far a hand gets: common practice"


@rule
def said_behind_but_far(job: Job) -> Iterable[Finding]:
    """Things that a panel is said to give access to, and that lie out of reach of it by the plan."""
    for tag, one in panel_contents(job).items():
        if one.far:
            away = listed([f"{each} {said(job, gap)} away" for each, gap in one.far])
            yield Finding(
                "said_behind_but_far",
                "look",
                (tag, *(each for each, _ in one.far)),
                f"By the plan, what {named(job, tag)} is said to give access to lies out of its reach: {away}.",
                "Look at the open wall: take the tag out, or correct the place or the route.",
                SOURCE,
                {each: said(job, gap) for each, gap in one.far},
            )


@rule
def behind_but_not_said(job: Job) -> Iterable[Finding]:
    """Things that lie right behind a panel by the plan, and that its list leaves out."""
    for tag, one in panel_contents(job).items():
        if one.unsaid:
            yield Finding(
                "behind_but_not_said",
                "look",
                (tag, *one.unsaid),
                f"By the plan {listed(one.unsaid)} {'lies' if len(one.unsaid) == 1 else 'lie'} right behind "
                f"{named(job, tag)}, and its list does not say so.",
                "Put them on the panel's list, so that its card is whole; or correct the place.",
                SOURCE,
                {"not on its list": ", ".join(one.unsaid)},
            )


@rule
def behind_but_retired(job: Job) -> Iterable[Finding]:
    """Things that a panel's list still names, and that were retired."""
    for tag, one in panel_contents(job).items():
        if one.retired:
            yield Finding(
                "behind_but_retired",
                "look",
                (tag, *one.retired),
                f"The list of {named(job, tag)} still names {listed(one.retired)}, which was retired.",
                "Take it off the list; if it is still in the wall, say so in the panel's words.",
                "common practice",
                {"retired": ", ".join(one.retired)},
            )
