"""Findings about the network: a switch that is joined to nothing upstream, power over the cable, ports of one box."""

from __future__ import annotations

import re
from collections.abc import Iterable

from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import listed, named, plain, plural
from store.rules.signal.chain import having, links
from store.rules.wall.contents import place_of
from store.trade.measured.bounds import exceeds

PORTS_NOTED = "Ports, as entered"
POE_SOURCE = "IEEE 802.3af, at and bt (12.95, 25.5, 51 and 71 W at the device, from memory)"
NETWORK = ("router", "switch")
LEAST_PORTS_OF_A_SWITCH = 3
POE = re.compile(r"\bpoe\b|power over ethernet", re.IGNORECASE)
_BUDGET = re.compile(r"(?<![\d.])(\d{1,4}(?:\.\d)?)\s*w(?:atts?)?\b", re.IGNORECASE)


@rule
@from_each(Equipment)
def switch_without_uplink(job: Job, one: Equipment) -> Iterable[Finding]:
    """A network switch with cables to devices and none to a router, another switch, or out of the wall."""
    if one.what != "switch" or one.retired is not None or one.wireless:
        return
    if having(job, "ethernet", "in").get(one.tag, 0) < LEAST_PORTS_OF_A_SWITCH:
        return
    ends = [
        link.sink if link.source == one.tag else link.source
        for link in links(job).made
        if link.port == "ethernet" and one.tag in (link.source, link.sink)
    ]
    things = job.of(Equipment)
    # In one cabinet with a router the cord between them is nobody's run.
    beside = any(
        each.what in NETWORK and each.tag != one.tag and each.retired is None and place_of(each) == place_of(one) != ""
        for each in things.values()
    )
    if ends and not beside and not any(not end or things[end].what in NETWORK for end in ends):
        yield Finding(
            "switch_without_uplink",
            "fix",
            (one.tag,),
            "No uplink from the network switch",
            "Add the cable from the router to it. It takes one port of both.",
            PORTS_NOTED,
            {"joined to": ", ".join(ends)},
            why=f"Its cables go to {listed([named(job, end) for end in ends])}; none comes from a router or a switch.",
        )


def _budget_w(one: Equipment) -> float | None:
    """What a device gives over its network ports in all, W, as its ports say: `8x ethernet PoE 60 W`."""
    found = [_BUDGET.search(text) for text in one.ports if POE.search(text)]
    return max((float(each[1]) for each in found if each), default=None)


def _by_cable(one: Equipment) -> bool:
    """True for a device that takes its power over the network cable."""
    return one.what not in NETWORK and one.power in ("none", "unknown") and any(POE.search(text) for text in one.ports)


@rule
@from_each(Equipment)
def poe_budget(job: Job, one: Equipment) -> Iterable[Finding]:
    """A switch that does not power what is joined to it by PoE, or not all of it."""
    if one.what not in NETWORK or one.retired is not None:
        return
    things = job.of(Equipment)
    fed = [
        end
        for link in links(job).made
        if link.port == "ethernet" and one.tag in (link.source, link.sink)
        for end in (link.source, link.sink)
        if end and end != one.tag and _by_cable(things[end])
    ]
    if not fed:
        return
    if not any(POE.search(text) for text in one.ports):
        yield Finding(
            "no_poe_there",
            "fix",
            (one.tag, *fed),
            f"No PoE for {listed(fed)}",
            "Choose a switch with PoE, or plan an injector with its own receptacle.",
            POE_SOURCE,
            {"ports": ", ".join(one.ports)},
            why=f"{listed([named(job, each) for each in fed])} takes its power over the network cable.",
            about=(one.tag,),
        )
        return
    need, budget = sum((things[each].watts or 0.0) * things[each].count for each in fed), _budget_w(one)
    if budget is not None and exceeds(need, budget):
        yield Finding(
            "poe_over_budget",
            "fix",
            (one.tag, *fed),
            f"PoE: {plain(need)} W of {plain(budget)} W",
            "Choose a switch that gives more, or power one of them at its place.",
            POE_SOURCE,
            {"needs": f"{plain(need)} W", "gives": f"{plain(budget)} W"},
            why=f"{plural(len(fed), 'device')} on it need {plain(need)} W; it gives {plain(budget)} W in all.",
            about=(one.tag,),
        )
