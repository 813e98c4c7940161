"""Voltage drop along the cables of the plan against a resistive network solved node by node, and plain physics."""

from __future__ import annotations

from typing import Any

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.records.base import Record
from store.records.wiring import Box, Cable
from store.rules.power.box_text import Size
from store.rules.power.load import State, ohms_per_mm, states
from store.trade.power.tables_us import SOLID_OHM_PER_KFT, STRANDED_OHM_PER_KFT
from tests.jobs.power_case import at, circuit, job_of, make, only, receptacle, told
from tests.rows import rows
from tests.rules.plug.test_plug_rules import thing

FEET = st.integers(1, 80)
WATTS = st.integers(0, 900)


def state(*records: Record, **values: Any) -> State:
    """The circuit C1 of these records."""
    return states(job_of(circuit(**values), *records))["C1"]


@rows(
    ("conductor", "strands", "feet", "volts"),
    [
        ("14", "solid", 50, 3.8375),
        ("12", "solid", 75, 3.6188),
        ("10", "solid", 100, 3.0250),
        ("12", "stranded", 100, 2 * 100 * 1.98 / 1000 * 12.5),
    ],
)
def test_all_of_the_load_at_the_end(conductor: str, strands: str, feet: int, volts: float) -> None:
    """1500 W at 120 V: twice the length times ohm per foot times 12.5 A (Chapter 9, Table 8)."""
    drop = state(receptacle(), thing(watts=1500.0), conductor=conductor, strands=strands, length=f"{feet}'").drop
    assert drop is not None
    assert drop.volts == pytest.approx(volts, abs=5e-5)
    assert drop.percent == pytest.approx(volts / 1.2, abs=5e-5)


def test_every_size_of_the_table() -> None:
    for table, stranded in ((SOLID_OHM_PER_KFT, False), (STRANDED_OHM_PER_KFT, True)):
        for gauge, ohms in table.items():
            assert ohms_per_mm(Size(awg=gauge), stranded=stranded) * 304_800 == pytest.approx(ohms)
    assert ohms_per_mm(Size(mm2=2.5), stranded=False) * 2 * 1e6 == pytest.approx(18.0)


@given(st.lists(st.tuples(FEET, WATTS, st.integers(0, 5)), min_size=1, max_size=6))
def test_a_tree_of_cables_is_a_network_of_resistors(parts: list[tuple[int, int, int]]) -> None:
    """Solve the tree as a network: conductances out and back, a current source at each box, the panel held at 0 V."""
    records: list[Record] = []
    after: list[int] = []
    for index, (feet, watts, before) in enumerate(parts):
        box = f"B{index + 1}"
        after.append(-1 if index == 0 else before % index)
        records.append(receptacle(box))
        records.append(thing(f"E{index + 1}", plug=box, watts=float(watts)))
        start = "" if index == 0 else f"B{after[-1] + 1}"
        records.append(make(Cable, f"K{index + 1}", type="nm-12-2", start=start, end=box, measured=at(f"{feet}'")))
    drop = state(*records, length=None).drop
    assert drop is not None

    laplace = numpy.zeros((len(parts), len(parts)))
    drawn = numpy.array([watts / 120 for _, watts, _ in parts])
    for index, (feet, _, _) in enumerate(parts):
        conductance = 1 / (2 * feet * 1.93 / 1000)
        laplace[index, index] += conductance
        if after[index] >= 0:
            laplace[after[index], after[index]] += conductance
            laplace[index, after[index]] -= conductance
            laplace[after[index], index] -= conductance
    lost = numpy.linalg.solve(laplace, drawn)
    assert drop.volts == pytest.approx(float(lost.max()), abs=1e-9)
    assert len(drop.lines) >= 1


def test_what_the_plan_does_not_join_is_taken_at_the_first_box() -> None:
    feed = make(Cable, "K1", type="nm-12-2", end="B1")
    alone = [receptacle("B1"), receptacle("B2"), thing("E1", plug="B2", watts=1200.0), feed]
    drop = state(*alone, length="50'").drop
    assert drop is not None
    assert drop.to == "B1"
    assert drop.volts == pytest.approx(2 * 50 * 1.93 / 1000 * 10)


def test_with_nothing_on_it_the_far_end_is_the_farthest_box() -> None:
    run = make(Cable, "K1", type="nm-12-2", start="B1", end="B2", measured="20'")
    drop = state(receptacle("B1"), receptacle("B2"), run, length="45'").drop
    assert drop is not None
    assert (drop.to, drop.length, drop.volts, len(drop.lines)) == ("B2", at("65'"), 0.0, 2)


def test_a_loop_of_cables_ends() -> None:
    loop = [
        make(Cable, "K1", type="nm-12-2", end="B1"),
        make(Cable, "K2", type="nm-12-2", start="B1", end="B2", measured=at("10'")),
        make(Cable, "K3", type="nm-12-2", start="B2", end="B1", measured=at("10'")),
    ]
    drop = state(receptacle("B1"), receptacle("B2"), thing(plug="B2", watts=1200.0), *loop, length="40'").drop
    assert drop is not None
    assert drop.volts == pytest.approx(2 * 50 * 1.93 / 1000 * 10)


def test_a_thinner_branch_is_reckoned_as_it_is() -> None:
    branch = [
        make(Cable, "K1", type="nm-12-2", end="B1"),
        make(Cable, "K2", type="nm-14-2", start="B1", end="B2", measured=at("10'")),
    ]
    drop = state(receptacle("B1"), receptacle("B2"), thing(plug="B2", watts=1200.0), *branch, length="40'").drop
    assert drop is not None
    assert drop.volts == pytest.approx((2 * 40 * 1.93 + 2 * 10 * 3.07) / 1000 * 10)


def test_metric_drop_is_millivolts_per_amp_and_metre() -> None:
    """BS 7671 Table 4D5: 18 mV/A/m for 2.5 mm², so 10 A over 20 m is 3.6 V."""
    job = job_of(
        circuit(volts=230.0, conductor="2.5 mm2", length="20 m"), receptacle(), thing(watts=2300.0), region="metric"
    )
    found = states(job)["C1"]
    assert found.drop is not None
    assert found.drop.volts == pytest.approx(3.6)
    assert found.carries_a == 21


def test_design_current_and_room() -> None:
    found = state(receptacle(), thing(watts=1200.0, hours=4.0), load=120.0)
    assert found.connected_a == pytest.approx(11.0)
    assert found.design_a == pytest.approx(1.0 + 12.5)
    assert found.limit_a == 20
    assert found.room_a == pytest.approx(6.5)


@rows(("breaker", "conductor", "limit"), [(None, "12", 20), (15.0, "", 15), (None, "", None)])
def test_limits_with_parts_unknown(breaker: float | None, conductor: str, limit: float | None) -> None:
    found = state(receptacle(), breaker=breaker, conductor=conductor)
    assert found.limit_a == limit
    assert (found.room_a is None) == (limit is None)


def test_a_junction_without_power_words_is_part_of_the_tree() -> None:
    """A cable named by its size alone counts where it ends in a box for power."""
    parts = [
        make(Cable, "K1", type="12/2", end="B1"),
        make(Cable, "K2", type="12/2", start="B1", end="B2", measured=at("10'")),
    ]
    box = make(Box, "B1", what="junction", circuit="C1", plate=True)
    drop = state(box, receptacle("B2"), thing(plug="B2", watts=1200.0), *parts, length="40'").drop
    assert drop is not None
    assert drop.to == "B2"


def test_without_a_drawn_feed_the_way_beyond_the_first_box_still_counts() -> None:
    """40 ft to the first box, 10 ft on to the second with 10 A: 2 × 50 × 1.93 / 1000 × 10; an old box comes first."""
    between = make(Cable, "K1", type="nm-12-2", start="B1", end="B2", measured=at("10'"))
    load = thing(plug="B2", watts=1200.0)
    drop = state(receptacle("B1"), receptacle("B2"), load, between, length="40'").drop
    assert drop is not None
    assert drop.volts == pytest.approx(2 * 50 * 1.93 / 1000 * 10)
    old = state(receptacle("B1"), receptacle("B2", new=False), load, between, length="40'").drop
    assert old is not None
    assert old.volts == pytest.approx(2 * 40 * 1.93 / 1000 * 10)
    assert state(receptacle("B1"), receptacle("B2"), load, between, length=None).drop is None


def test_strands_are_those_noted_said_or_the_only_ones_listed() -> None:
    """Chapter 9, Table 8: 12 AWG 1.93 solid and 1.98 stranded; 6 AWG 0.491, listed stranded only."""
    for values, ohms in (
        ({"conductor": "12"}, 1.93),
        ({"conductor": "12", "strands": "stranded"}, 1.98),
        ({"conductor": "12 AWG stranded"}, 1.98),
        ({"conductor": "6 AWG"}, 0.491),
    ):
        drop = state(receptacle(), thing(watts=1200.0), length="100'", **values).drop
        assert drop is not None
        assert drop.volts == pytest.approx(2 * 100 * ohms / 1000 * 10)


@rows(
    ("values", "words"),
    [
        ({"breaker": None}, ["breaker"]),
        ({"conductor": ""}, ["conductor"]),
        ({"conductor": "12 aluminum"}, []),
        ({"conductor": "4 aluminum"}, ["for copper"]),
        ({"conductor": "3 mm2"}, ["not in the tables"]),
        ({"length": None}, ["length"]),
        ({}, []),
    ],
)
def test_what_is_missing_is_named(values: dict[str, Any], words: list[str]) -> None:
    found = state(receptacle(), thing(watts=1200.0), **{"length": "50'", **values})
    assert len(found.missing) == len(words)
    for said, word in zip(found.missing, words, strict=True):
        assert word in said


def test_no_limit_is_told_of_a_conductor_that_is_not_in_the_tables() -> None:
    assert state(receptacle(), conductor="3 mm2").limit_a is None
    assert state(receptacle(), conductor="4 aluminum").limit_a is None
    assert state(receptacle(), conductor="12 aluminum").limit_a == 15


def test_the_drop_of_aluminum_is_that_of_aluminum() -> None:
    # NFPA 70 Chapter 9, Table 8: 12 AWG aluminum 3.18 ohm/kft: 12.5 A over 50 ft one way is 3.975 V, 3.31 %.
    aluminum = job_of(circuit(conductor="12 aluminum", breaker=15.0, length="50'", load=1500.0), receptacle())
    assert (drop := states(aluminum)["C1"].drop) is not None
    assert drop.volts == pytest.approx(3.975)
    copper = job_of(circuit(conductor="12", length="50'", load=1500.0), receptacle())
    assert (drop := states(copper)["C1"].drop) is not None
    assert drop.volts == pytest.approx(2.4125)
    assert only(aluminum, "voltage_drop", "look").numbers["wire"] == "12 AWG aluminum, solid"
    assert not told(copper, "voltage_drop")
