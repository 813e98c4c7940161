"""Air of closed cabinets in its odd ways: mesh doors, idle, what it passes first, fans that would do, warm air near."""

from __future__ import annotations

from math import pi
from typing import Any

import pytest

from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.handoff.built import built
from store.rules.heat.cooling import cooling
from store.trade.heat.enclosure import stack_balance
from tests.jobs.wall_jobs import ROOM, device, figure, found, job_of, length, made, obstacle, one, opening
from tests.rows import rows


def cabinet(watts: float | None = 100.0, *more: Any, settings: dict[str, Any] | None = None, **values: Any) -> Job:
    """One warm thing behind a solid door of 30 x 48 in."""
    idle = values.pop("idle", None)
    place = opening("N1", 10, 20, 30, 48, **{"door": "solid", **values})
    thing = device("E1", 17, 4, 12, watts=watts, power="cord", idle=idle)
    return job_of(*ROOM, place, thing, *more, **(settings or {}))


def test_a_mesh_door_breathes_by_its_share() -> None:
    # 30 x 48 in at 5 %: 36 in² in each half; 24 in between their middles.
    job = cabinet(115.1, door="mesh", free_share=5.0)
    hand = stack_balance(115.1, 36, 36, 24 * 25_400_000, 25)
    assert hand is not None
    assert figure(job, "N1", "rise_c") == pytest.approx(hand.rise_c, abs=0.01)
    assert one(job, "cabinet_too_warm").severity == "fix"
    assert not found(cabinet(115.1, door="mesh", free_share=51.0), "cabinet_too_warm")
    assert figure(cabinet(115.1, door="mesh"), "N1", "rise_c") is None


def test_idle_is_told_beside_full_load_and_full_load_is_never_less() -> None:
    job = cabinet(100.0, idle=30.0, air_in=36.0, air_out=36.0)
    hand = stack_balance(30, 36, 36, 36 * 25_400_000, 25)
    assert hand is not None
    assert figure(job, "N1", "idle_rise_c") == pytest.approx(hand.rise_c, abs=0.01)
    assert any(line.startswith("idle, 30 W: ") for line in figure(job, "N1", "heat_lines"))
    # An idle figure above full load, or alone, is what it gives off at least.
    assert figure(cabinet(20.0, idle=60.0), "N1", "watts") == 60
    assert figure(cabinet(None, idle=60.0), "N1", "watts") == 60


def test_a_raceway_counts_by_its_trade_size_and_one_without_a_size_is_asked_for() -> None:
    vents: dict[str, Any] = {"air_in": 36.0, "air_out": 36.0, "air_through": "R1"}
    noted = cabinet(60.0, made(Raceway, "R1", inside=length(2.067), type="other"), **vents)
    by_size = cabinet(60.0, made(Raceway, "R1", size="2", type="EMT"), **vents)
    bore = pi / 4 * 2.067**2
    hand = stack_balance(60, 1 / (1 / 36**2 + 1 / bore**2) ** 0.5, 36, 36 * 25_400_000, 25)
    assert hand is not None
    assert figure(noted, "N1", "rise_c") == pytest.approx(hand.rise_c, abs=0.02)
    assert figure(by_size, "N1", "rise_c") == pytest.approx(hand.rise_c, abs=0.02)
    blank = cabinet(60.0, made(Raceway, "R1", type="other"), **vents)
    assert "comes through R1" in one(blank, "cabinet_air_not_known").says
    fan = cabinet(60.0, made(Raceway, "R1", type="other"), **vents, fan=80.0)
    assert "comes through R1" in one(fan, "cabinet_air_not_known").says


def test_neighbors_in_a_row_throttle_one_after_the_other_and_in_a_circle_shut_it_in() -> None:
    def row(last: str) -> Job:
        second = opening("N2", 50, 20, 30, 48, door="solid", air_in=24.0, air_out=24.0, air_through="N3")
        third = opening("N3", 90, 20, 30, 48, door="solid", air_in=24.0, air_out=24.0, air_through=last)
        return cabinet(100.0, second, third, air_in=24.0, air_out=24.0, air_through="N2")

    five = 1 / (5 / 24**2) ** 0.5
    hand = stack_balance(100, five, 24, 36 * 25_400_000, 25)
    assert hand is not None
    assert figure(row(""), "N1", "rise_c") == pytest.approx(hand.rise_c, abs=0.02)
    assert one(row("N1"), "cabinet_shut_in").severity == "fix"
    closed = opening("N2", 50, 20, 30, 48, door="solid")
    assert (
        "N2" in one(cabinet(100.0, closed, air_in=24.0, air_out=24.0, air_through="N2"), "cabinet_air_not_known").says
    )


@rows(("area", "shut"), [(6.0, None), (20.0, None), (60.0, None), (12.0, 0.2), (4.0, 0.02)])
def test_the_fan_that_is_named_solves_it(area: float, shut: float | None) -> None:
    vents: dict[str, Any] = {"air_in": area, "air_out": area, "fan_shut": shut}
    warm = cabinet(100.0, **vents, fan=4.0)
    assert found(warm, "cabinet_too_warm")
    wanted = figure(warm, "N1", "fan_wanted_cfm")
    if wanted is None:
        # Both of the free area that is named, and twice the flow: half the pressure is left.
        assert "Make the vents larger: with " in one(warm, "cabinet_too_warm").remedy
        cool = cooling(warm)["N1"]
        wide = cool.vents_wanted_in2 if cool is not None else None
        flow = 2 * figure(warm, "N1", "air_needed_cfm")
        opened = cabinet(100.0, air_in=wide, air_out=wide, fan_shut=shut, fan=flow)
        assert figure(opened, "N1", "rise_c") == pytest.approx(10 / 1.8, abs=0.05)
        return
    better = cabinet(100.0, **vents, fan=wanted + 0.1)
    assert not found(better, "cabinet_too_warm")
    assert figure(better, "N1", "rise_c") == pytest.approx(10 / 1.8, abs=0.05)


def test_its_own_noise_is_told_and_the_sum_is_on_the_carpenters_sheet_in_the_jobs_units() -> None:
    job = cabinet(air_in=80.0, air_out=80.0, fan=126.3, fan_noise=40.0)
    lines = dict(built(job, "carpenter"))["Air behind closed doors"]
    assert ("N1", "its fan makes 40 dB at full speed, 25 dB at the 50% that the heat needs") in lines
    assert any("Btu/h" in line for _, line in lines)
    slow = cabinet(air_in=8.0, air_out=8.0, fan=40.0, fan_shut=0.1, fan_noise=24.0)
    assert "its fan makes 24 dB at full speed, which the heat needs" in figure(slow, "N1", "heat_lines")
    metric = cabinet(115.1, air_in=36.0, air_out=36.0, settings={"units": "millimetres"})
    text = " ".join(line for _, line in dict(built(metric, "carpenter"))["Air behind closed doors"])
    # 115.1 W x 2.98 / 5.6 °C = 61.8 m³/h; 36 in² = 232 cm².
    assert "= 62 m³/h" in text
    assert "232 cm² low" in text
    assert not any(unit in text for unit in ("cfm", "°F", "in²", "Btu"))


def test_a_fan_in_tight_vents_is_told_by_what_it_moves() -> None:
    tight = cabinet(100.0, air_in=8.0, air_out=8.0, fan=50.0, fan_shut=0.02)
    assert "of its fan's 50 cfm" in one(tight, "cabinet_too_warm").says
    half = cabinet(100.0, fan=30.0)
    assert "50% of its fan's" in one(half, "cabinet_too_warm").says


def test_warm_air_from_below_is_told() -> None:
    def over(vent: float, **values: Any) -> Job:
        return cabinet(60.0, obstacle("O1", "vent", 15, vent, 12, 4), air_in=60.0, air_out=60.0, **values)

    assert one(over(10), "warm_air_into_cabinet").tags == ("N1", "O1")
    assert not found(over(3), "warm_air_into_cabinet")  # 13 in below
    assert not found(over(70), "warm_air_into_cabinet")
    below = opening("N2", 10, 2, 30, 12, door="solid", air_in=60.0, air_out=60.0)
    amp = device("E2", 17, 4, 12, watts=80.0, opening="N2")
    assert one(cabinet(60.0, below, amp, air_in=60.0, air_out=60.0), "warm_air_into_cabinet").tags == ("N1", "N2")
    told = cabinet(60.0, below, amp, air_in=60.0, air_out=60.0, air_through="N2")
    assert not found(told, "warm_air_into_cabinet")
