"""Files that somebody edited by hand: no number in them stops the rules of power from saying what they can."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import Length
from store.records.equipment import Equipment
from store.records.wall import Obstacle, Opening, Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.handoff.electrician import in_every_box, questions
from store.rules.heat import heater_figures, heater_rules
from store.rules.plug import cord_rules, plug_rules, proposal
from store.rules.power import (
    box_rules,
    circuit_rules,
    power_figures,
    protection_rules,
    switched_rules,
    wall_wiring_rules,
)
from tests.jobs.power_case import job_of, make

NUMBERS = st.one_of(st.none(), st.floats(-1e6, 1e6), st.just(0.0))
LENGTHS = st.one_of(st.none(), st.integers(-(10**10), 10**12).map(Length))
SURE = st.integers(-(10**9), 10**11).map(Length)
TEXTS = st.sampled_from(["", "12", "14", "2.5 mm2", "rope", "6", "16", "12-2 G", "receptacle 12", "nm-12-2", "cord"])
COUNTS = st.integers(-3, 5)
REFS = ["", "B1", "B2", "E1", "E2", "E3", "N1"]


def some(draw: st.DrawFn, cls: type[Any], tag: str, **values: Any) -> Any:
    """A record with these values drawn."""
    drawn = {name: draw(value) for name, value in values.items()}
    return make(cls, tag, **{name: value for name, value in drawn.items() if value is not None})


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    """Any numbers and any texts in the fields that power reads."""
    name = st.just("x")
    kinds = st.sampled_from(["receptacle", "switch", "junction", "quick-connect", "low-voltage"])
    words = st.lists(TEXTS, max_size=2).map(tuple)
    records = [
        some(draw, Wall, "W1", name=name, stud_depth=SURE, spacing=SURE, first_stud=LENGTHS),
        some(draw, Reading, "D1", wall=st.just("W1"), what=st.just("width"), value=SURE),
        some(draw, Obstacle, "O1", wall=st.just("W1"), what=st.just("door"), x=SURE, y=SURE, width=SURE, height=SURE),
        some(draw, Opening, "N1", name=name, use=st.sampled_from(["screen", "equipment", "fireplace"]),
             wall=st.just("W1"), x=LENGTHS, y=LENGTHS, width=LENGTHS, height=LENGTHS),
        some(draw, Circuit, "C1", name=name, breaker=NUMBERS, volts=NUMBERS, conductor=TEXTS, length=LENGTHS,
             load=NUMBERS),
        some(draw, Cable, "K1", type=TEXTS, end=st.just("B1"), measured=LENGTHS, hole=LENGTHS),
        some(draw, Cable, "K2", type=TEXTS, start=st.just("B1"), end=st.just("B2"), hole=LENGTHS),
    ]  # fmt: skip
    for tag in ("B1", "B2"):
        records.append(
            some(draw, Box, tag, what=kinds, wall=st.just("W1"), x=LENGTHS, y=LENGTHS, circuit=st.just("C1"),
                 gangs=COUNTS, receptacles=COUNTS, volume=NUMBERS, ring=NUMBERS, size=TEXTS, devices=words,
                 conductors=words, setback=LENGTHS, divider=st.booleans(), clamps=st.booleans(),
                 switched=st.sampled_from(["none", "half", "all"]))
        )  # fmt: skip
    for tag in ("E1", "E2", "E3"):
        records.append(
            some(draw, Equipment, tag, name=name, plug=st.sampled_from(REFS[:6]), watts=NUMBERS, hours=NUMBERS,
                 what=st.sampled_from(["strip", "driver", "light", "fireplace", "router", "screen"]),
                 power=st.sampled_from(["unknown", "cord", "wall-wart", "hard-wired", "none"]), cord=LENGTHS,
                 width=LENGTHS, height=LENGTHS, count=COUNTS, places=COUNTS, rating=NUMBERS,
                 opening=st.sampled_from(["", "N1"]))
        )  # fmt: skip
    region = draw(st.sampled_from(["us", "metric"]))
    return job_of(*records, region=region, edition=draw(st.sampled_from(["2017", "2020", "2023"])))


MODULES = (
    box_rules, circuit_rules, cord_rules, heater_rules, plug_rules, protection_rules, switched_rules, wall_wiring_rules,
)  # fmt: skip
RULES = [
    each
    for module in MODULES
    for name, each in vars(module).items()
    if getattr(each, "__module__", "") == module.__name__ and getattr(each, "__annotations__", {}).get("return")
    == "Iterable[Finding]" and not name.startswith("_")
]  # fmt: skip


@given(jobs())
def test_no_number_stops_a_rule(job: Job) -> None:
    assert len(RULES) > 35
    for rule in RULES:
        for finding in rule(job):
            assert finding.says
            assert all(job.get(tag) is not None for tag in finding.tags)
    for source in (power_figures.boxes, power_figures.circuits, power_figures.strips, heater_figures.heaters_figures):
        assert all(name for _, name, _ in source(job))
    assert all(questions(job))
    assert isinstance(in_every_box(job), list)
    assert isinstance(proposal.plan_plugs(job).placed, list)
