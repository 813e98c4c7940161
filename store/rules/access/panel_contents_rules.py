"""Findings about what is behind a panel: what the places of things tell against what the owner says."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.access import Panel
from store.records.whole import Job
from store.rules.access.panel_contents import panel_contents
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import listed, named, said

SOURCE = "places as entered; how far a hand reaches: common practice"


@rule
@from_each(Panel)
def said_behind_but_far(job: Job, panel: Panel) -> Iterable[Finding]:
    """Things that a panel is said to give access to, and that lie out of reach of it by the plan."""
    tag, one = panel.tag, panel_contents(job).get(panel.tag)
    if one is None:
        return
    if one.far:
        away = listed([f"{each} {said(job, gap)} away" for each, gap in one.far])
        yield Finding(
            "said_behind_but_far",
            "look",
            (tag, *(each for each, _ in one.far)),
            "Out of reach of its access panel",
            "Look at the open wall. Take the tag off the panel's list, or correct the place or the route.",
            SOURCE,
            {each: said(job, gap) for each, gap in one.far},
            why=f"On the plan, these are entered as behind {named(job, tag)} but are too far from it: {away}.",
            about=(tag,),
        )


@rule
@from_each(Panel)
def behind_but_not_said(job: Job, panel: Panel) -> Iterable[Finding]:
    """Things that lie right behind a panel by the plan, and that its list leaves out."""
    tag, one = panel.tag, panel_contents(job).get(panel.tag)
    if one is None:
        return
    if one.unsaid:
        yield Finding(
            "behind_but_not_said",
            "look",
            (tag, *one.unsaid),
            f"Not on the panel's list: {' '.join(one.unsaid[:6])}",
            "Add them to the panel's list, so that its card is complete, or correct the place.",
            SOURCE,
            {"not on its list": ", ".join(one.unsaid)},
            why=(
                f"On the plan {listed(one.unsaid)} {'is' if len(one.unsaid) == 1 else 'are'} right behind "
                f"{named(job, tag)}."
            ),
            about=(tag,),
        )


@rule
@from_each(Panel)
def behind_but_retired(job: Job, panel: Panel) -> Iterable[Finding]:
    """Things that a panel's list still names, and that were retired."""
    tag, one = panel.tag, panel_contents(job).get(panel.tag)
    if one is None:
        return
    if one.retired:
        yield Finding(
            "behind_but_retired",
            "look",
            (tag, *one.retired),
            f"Retired thing on the panel's list: {' '.join(one.retired[:5])}",
            'Take it off the list. If it is still in the wall, write that under "also behind it".',
            "common practice",
            {"retired": ", ".join(one.retired)},
            why=f"The list of {named(job, tag)} still has {listed(one.retired)}.",
            about=(tag,),
        )
