"""Who is fed by what: chains of plugs, loads on circuits, and the cost of working it out."""

from __future__ import annotations

import time
from typing import Any

from store.records.base import Record
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.core.findings import findings
from store.rules.power.plan import Feed, is_mains, places_needed, power, strip_w
from tests.jobs.power_case import TODAY, circuit, job_of, make, receptacle
from tests.rows import rows
from tests.rules.heat.test_heater_rules import heater
from tests.rules.plug.test_plug_rules import strip, thing


def test_a_chain_leads_to_its_box() -> None:
    plan = power(job_of(circuit(), receptacle(), strip(), thing(plug="E9")))
    assert plan.feeds["E1"] == Feed("B1", ("E9",))
    assert plan.feeds["E9"] == Feed("B1")
    assert plan.circuits["C1"].direct == ("E9",)


def test_what_hangs_on_a_strip_is_on_the_circuit() -> None:
    job = job_of(circuit(load=100.0), receptacle(), strip(), thing("E1", plug="E9"), thing("E2", plug="E9", count=3))
    assert strip_w(job, "E9") == 80.0
    assert power(job).circuits["C1"].watts == 180.0


def test_lights_are_within_their_driver() -> None:
    """The greater of the driver's own watts and those of its lights, never both."""
    lamps = thing("E1", what="light", plug="E9", watts=12.0, count=4, hours=5.0)
    driver = strip(what="driver", power="hard-wired", watts=55.0)
    on = power(job_of(circuit(), receptacle(), driver, lamps)).circuits["C1"]
    assert on.watts == 55.0
    assert on.loads[0].continuous
    small = strip(what="driver", power="hard-wired", watts=None)
    assert power(job_of(circuit(), receptacle(), small, lamps)).circuits["C1"].watts == 48.0


def test_what_left_the_wall_draws_nothing() -> None:
    on = power(job_of(circuit(), receptacle(), thing(retired=TODAY))).circuits["C1"]
    assert on.watts == 0
    assert on.direct == ()


@rows(("hours", "continuous"), [(2.9, False), (3.0, True), (None, False)])
def test_three_hours_are_continuous(hours: float | None, continuous: bool) -> None:
    on = power(job_of(circuit(), receptacle(), thing(hours=hours))).circuits["C1"]
    assert on.loads[0].continuous is continuous


def test_a_wired_heater_is_fixed_and_a_movable_one_is_not() -> None:
    wired = power(job_of(circuit(), receptacle(), heater())).circuits["C1"].loads[0]
    movable = power(job_of(circuit(), receptacle(), heater(power="cord", mounting="shelf"))).circuits["C1"].loads[0]
    assert wired.at_125
    assert not movable.at_125


@rows(
    ("values", "places"),
    [
        ({"receptacles": 4}, 4),
        ({"receptacles": 0}, 2),
        ({"receptacles": 0, "devices": ("2 x receptacle 12",)}, 4),
        ({"receptacles": 0, "devices": ("single receptacle 12",)}, 1),
        ({"receptacles": 0, "devices": (), "gangs": 2}, 4),
        ({"receptacles": 0, "devices": (), "what": "junction"}, 0),
    ],
)
def test_places_of_a_circuit(values: dict[str, Any], places: int) -> None:
    assert power(job_of(circuit(), receptacle(**values))).circuits["C1"].places == places


def test_a_wart_takes_one_output_of_a_driver() -> None:
    wart = thing(power="wall-wart", count=2)
    assert places_needed(wart) == 4
    assert places_needed(wart, strip(what="driver")) == 2


def test_mains_is_told_by_its_type_and_its_ends() -> None:
    low = make(Box, "B2", what="low-voltage")
    job = job_of(receptacle(), low)
    assert is_mains(job, make(Cable, "K1", type="nm-12-2"))
    assert is_mains(job, make(Cable, "K1", type="14/2", end="B1"))
    assert not is_mains(job, make(Cable, "K1", type="14/2", end="B2"))
    assert not is_mains(job, make(Cable, "K1", type="cat6", end="B1"))


def large(times: int) -> Job:
    """The same small wall many times over: 16 records each."""
    records: list[Record] = []
    for n in range(times):
        c, b, e, k = f"C{n + 1}", n * 5, n * 8, n * 2
        records.append(circuit(c, length="50'"))
        records += [
            receptacle(f"B{b + at}", circuit=c, wall="W1", x=f"{at * 10}", y="16", conductors=()) for at in range(1, 6)
        ]
        records.append(strip(f"E{e + 8}", plug=f"B{b + 1}"))
        records += [thing(f"E{e + at}", plug=f"E{e + 8}", cord="6'") for at in range(1, 8)]
        records.append(make(Cable, f"K{k + 1}", type="nm-12-2", end=f"B{b + 1}"))
        records.append(make(Cable, f"K{k + 2}", type="nm-12-2", start=f"B{b + 1}", end=f"B{b + 2}"))
    return job_of(*records)


def test_the_cost_grows_no_faster_than_the_job() -> None:
    """Eight times the records take about eight times as long; a rule that compares all with all takes sixty."""

    def cost(job: Job) -> float:
        best = 1e9
        for _ in range(2):
            fresh = Job(job.tables, today=job.today)
            start = time.process_time()
            findings(fresh)
            best = min(best, time.process_time() - start)
        return best

    cost(large(2))
    assert cost(large(64)) / cost(large(8)) < 20
