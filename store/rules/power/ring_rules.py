"""Findings about ring final circuits of metric practice: a ring that is open, a spur that feeds too much."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.core.code import METRIC_CODE, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import ELECTRICIAN, few_of, named
from store.rules.power.plan import places_of, power
from store.rules.power.wires import is_ring, reaches
from store.trade.power.devices import device_named

UNIT = ""
"""The consumer unit, among the places that the cables of a circuit join."""
FUSED = "fused connection unit"
SPUR_SOURCE = "BS 7671:2018 Appendix 15 and 433.1 (summaries)"


@rule
@from_each(Circuit)
def ring_not_closed(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """A ring that the plan draws in full, and does not lead back."""
    reach = reaches(job)[circuit.tag]
    if is_us(job) or circuit.wiring != "ring" or reach.ring or len(reach.feeds) > 1 or not reach.cables:
        return
    if all(job.of(Box)[tag].new for tag in reach.boxes):
        yield Finding(
            "ring_not_closed",
            "fix",
            (circuit.tag, *reach.cables),
            "Ring not closed in the plan",
            f"Draw the leg back to the consumer unit, or list it as radial with a smaller breaker. {ELECTRICIAN}",
            f"{METRIC_CODE} 433.1.204",
            {"legs to the consumer unit": str(len(reach.feeds))},
            why=f"A ring has two legs to the consumer unit; {len(reach.feeds)} is drawn. "
            "An open ring carries all of its load through one leg.",
            about=(circuit.tag,),
        )


@rule
@from_each(Circuit)
def spur_feeds_too_much(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """An unfused spur off a ring that feeds more than one socket-outlet, or one thing."""
    if is_us(job) or not is_ring(job, circuit):
        return
    for first, boxes in _spurs(job, circuit).items():
        fused = any(device_named(text) == FUSED for text in job.of(Box)[first].devices)
        fed = [tag for tag in boxes if places_of(job.of(Box)[tag], power(job).gear[tag]) or power(job).users.get(tag)]
        if not fused and len(fed) > 1:
            yield Finding(
                "spur_feeds_too_much",
                "fix",
                (circuit.tag, *fed),
                f"Spur feeds {len(fed)} points",
                f"Extend the ring through them, or start the spur with a fused connection unit. {ELECTRICIAN}",
                SPUR_SOURCE,
                {"spur": few_of(fed, 99)},
                why=f"{few_of([named(job, tag) for tag in fed])} are on one cable off the ring. Without a fuse a spur "
                "feeds one single or one twin socket-outlet, or one fixed appliance.",
                about=(circuit.tag,),
            )


def _spurs(job: Job, circuit: Circuit) -> Mapping[str, tuple[str, ...]]:
    """The boxes of a circuit that are on no ring of it, by the first box off the ring, as the plan joins them.

    What has one cable only is taken off again and again; what is left is the ring, with the consumer unit in it.
    """
    joined = _joined(job, circuit)
    left = {tag: set(ends) for tag, ends in joined.items()}
    feeds = len(reaches(job)[circuit.tag].feeds)
    while ends := [tag for tag, others in left.items() if len(others) <= 1 and not (tag == UNIT and feeds > 1)]:
        for tag in ends:
            for other in left.pop(tag):
                left.get(other, set()).discard(tag)
    found: dict[str, tuple[str, ...]] = {}
    for first in (tag for tag in joined if tag not in left and tag != UNIT and joined[tag] & left.keys()):
        behind = [first]
        for here in behind:  # grows while it is gone through
            behind += sorted(tag for tag in joined[here] if tag not in left and tag not in (UNIT, *behind))
        found[first] = tuple(behind)
    return found


def _joined(job: Job, circuit: Circuit) -> dict[str, set[str]]:
    """The boxes of a circuit, each with those that a cable of its joins to it; a loose end is at the consumer unit."""
    found: dict[str, set[str]] = {}
    for tag in reaches(job)[circuit.tag].cables:
        cable = job.of(Cable)[tag]
        ends = (str(cable.start), str(cable.end))
        for here, there in (ends, ends[::-1]):
            found.setdefault(here, set()).add(there)
    return found
