"""Heat behind a shut door: the smallest job that is told, and its nearest neighbour that is not."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from store.records.whole import Job
from store.rules.buying.buying_list import buying_list
from store.rules.heat.cooling import ROOM_C
from tests.jobs.wall_jobs import ROOM, device, figure, found, job_of, one, opening
from tests.rows import rows

RULES = ("cabinet_shut_in", "cabinet_too_warm", "cabinet_air_not_known")


def cabinet(watts: float | None = 100.0, *, height: float = 48, more: tuple[Any, ...] = (), **values: Any) -> Job:
    """One warm thing behind a glass door."""
    place = opening("N1", 10, 10, 30, height, **{"door": "glass", **values})
    return job_of(*ROOM, place, device("E1", 17, 4, 12, watts=watts, power="cord"), *more)


def told(job: Job) -> list[tuple[str, str]]:
    return [(each.rule, each.severity) for name in RULES for each in found(job, name)]


def test_a_door_without_vents_shuts_the_heat_in() -> None:
    assert told(cabinet(air_in=0.0, air_out=30.0)) == [("cabinet_shut_in", "fix")]
    assert told(cabinet(air_in=0.0, air_out=30.0, door="mesh")) == []
    assert told(cabinet(air_in=0.0, air_out=30.0, door="none")) == []
    assert told(cabinet(air_in=0.0, air_out=0.0, fan=50.0)) == [("cabinet_shut_in", "fix")]


def test_what_is_not_noted_is_asked_for() -> None:
    finding = one(cabinet(), "cabinet_air_not_known")
    assert finding.severity == "look"
    # 100 W and 10 °F of rise: 31.59 cfm by 1.08 · cfm · rise, ASHRAE Fundamentals.
    assert "32 cfm" in finding.remedy
    assert told(cabinet(air_in=60.0, air_out=60.0, fan=100.0)) == []


@rows(("watts", "told_of"), [(None, False), (19.0, False), (20.0, True)])
def test_a_little_heat_goes_through_the_sides(watts: float | None, told_of: bool) -> None:
    assert bool(told(cabinet(watts))) is told_of


def test_a_draught_that_carries_off_too_little() -> None:
    # 36 in² low and high, 3 ft apart, 20 °F warmer: 115.1 W (ASHRAE Fundamentals, stack effect, from 75 °F; here 77).
    job = cabinet(115.1, air_in=36.0, air_out=36.0)
    assert figure(job, "N1", "rise_f") == pytest.approx(20.0, rel=0.005)
    finding = one(job, "cabinet_too_warm")
    assert finding.severity == "fix"
    assert "97 °F in a room of 77 °F" in finding.says
    assert told(cabinet(115.1, air_in=72.0, air_out=72.0)) == []


def test_between_what_is_good_and_what_is_too_much_a_person_looks() -> None:
    # 15 to 18 °F over a room of 77 °F: above the usual goal, below the 35 °C that makers allow.
    job = cabinet(85.0, air_in=36.0, air_out=36.0)
    assert 15 < figure(job, "N1", "rise_f") < 18
    assert told(job) == [("cabinet_too_warm", "look")]


def test_a_fan_counts_for_half_of_what_its_maker_states() -> None:
    # 3.159 · 100 W / 25 cfm = 12.6 °F.
    assert figure(cabinet(fan=50.0), "N1", "rise_f") == pytest.approx(12.64, abs=0.01)
    assert told(cabinet(fan=50.0)) == []
    assert told(cabinet(fan=30.0)) == [("cabinet_too_warm", "fix")]


def test_what_is_not_there_or_has_its_own_manual_does_not_count() -> None:
    gone = device("E2", 17, 4, 12, watts=500.0, retired=date(2026, 1, 1))
    heater = device("E3", 17, 4, 12, watts=1500.0, heats=True)
    strip = device("E4", 17, 4, 12, watts=1800.0, what="strip")
    job = cabinet(more=(gone, heater, strip))
    assert figure(job, "N1", "heat_w") == 100.0


def test_pieces_count_each_and_a_thing_without_watts_is_named() -> None:
    job = cabinet(more=(device("E2", 2, 2, 2, watts=10.0, count=4), device("E3", 9, 2, 9, power="wall-wart")))
    assert figure(job, "N1", "heat_w") == 140.0
    assert "not counting E3, with no watts entered" in one(job, "cabinet_air_not_known").says


def test_a_metric_job_reads_in_its_own_units() -> None:
    place = opening("N1", 10, 10, 30, 48, door="solid", air_in=36.0, air_out=36.0)
    job = job_of(*ROOM, place, device("E1", 17, 4, 12, watts=115.1), units="millimetres")
    finding = one(job, "cabinet_too_warm")
    assert f"36 °C in a room of {ROOM_C:.0f} °C" in finding.says
    assert "°F" not in finding.says + finding.remedy
    assert "m³/h" in finding.remedy


def test_a_fan_works_where_its_curve_meets_the_openings() -> None:
    # 50 cfm free and 0.10 inH2O shut against 8 in² twice: K = 2 · (1 / (0.6 · 8 / 144 · 4005))² = 1.1222e-4;
    # 0.1 (1 - q / 50) = K q² at 22.3 cfm.
    job = cabinet(air_in=8.0, air_out=8.0, fan=50.0, fan_shut=0.10)
    assert figure(job, "N1", "air_moved_cfm") == pytest.approx(22.3, abs=0.1)
    assert figure(job, "N1", "rise_f") == pytest.approx(100 * 3.412142 / (1.08 * 22.3), abs=0.1)
    # With no pressure noted, half its free flow, and less through small openings.
    assert figure(cabinet(air_in=80.0, air_out=80.0, fan=50.0), "N1", "air_moved_cfm") == 25
    assert figure(cabinet(air_in=4.0, air_out=4.0, fan=50.0), "N1", "air_moved_cfm") < 15


def test_the_fan_that_would_do_does() -> None:
    job = cabinet(air_in=12.0, air_out=12.0, fan=5.0, fan_shut=0.2)
    wanted = figure(job, "N1", "fan_wanted_cfm")
    better = cabinet(air_in=12.0, air_out=12.0, fan=wanted, fan_shut=0.2)
    assert figure(better, "N1", "air_moved_cfm") == pytest.approx(figure(job, "N1", "air_needed_cfm"), rel=0.01)
    # 100 W at 10 °F wants 31.6 cfm; through 1 in² twice 0.02 inH2O moves nothing like it.
    assert figure(cabinet(air_in=1.0, air_out=1.0, fan=5.0, fan_shut=0.02), "N1", "fan_wanted_cfm") is None


def test_a_fan_that_is_turned_down_is_quieter_by_the_fan_law() -> None:
    job = cabinet(air_in=80.0, air_out=80.0, fan=126.3, fan_noise=40.0)
    # Half of it is 63.15 cfm, twice what is needed: 50 · log10(0.5) = -15.05 dB.
    assert figure(job, "N1", "fan_noise_db") == pytest.approx(40 - 15.05, abs=0.1)


def test_a_grille_is_only_as_open_as_its_share_and_a_gap_adds_to_it() -> None:
    plain, grille = (cabinet(115.1, air_in=72.0, air_out=72.0, free_share=share) for share in (None, 50.0))
    assert figure(grille, "N1", "rise_f") == pytest.approx(20.0, rel=0.005)
    assert figure(plain, "N1", "rise_f") < figure(grille, "N1", "rise_f")
    # A gap of 1/8 in round a door of 30 x 48 in is 9.75 in² below and as much above.
    from store.measure.length import INCH_NM, Length

    gap = cabinet(115.1, air_in=26.25, air_out=26.25, gap=Length(INCH_NM // 8))
    assert figure(gap, "N1", "rise_f") == pytest.approx(20.0, rel=0.005)


def test_air_that_comes_through_a_neighbor_is_throttled_and_warmed_by_it() -> None:
    next_door = opening("N2", 50, 10, 30, 48, air_in=36.0, air_out=36.0)
    alone = cabinet(air_in=36.0, air_out=36.0, more=(next_door,))
    behind = cabinet(air_in=36.0, air_out=36.0, air_through="N2", more=(next_door,))
    warm = cabinet(
        air_in=36.0, air_out=36.0, air_through="N2",
        more=(next_door, device("E2", 17, 4, 12, watts=50.0, opening="N2")),
    )  # fmt: skip
    rises = [figure(job, "N1", "rise_c") for job in (alone, behind, warm)]
    assert rises == sorted(rises)
    assert len(set(rises)) == 3
    assert figure(warm, "N1", "air_needed_cfm") == pytest.approx(1.5 * figure(alone, "N1", "air_needed_cfm"), abs=0.01)


def test_the_makers_limit_decides_where_it_is_noted() -> None:
    # 20 °F over a room of 25 °C is 36.1 °C: too warm for 35 °C, not for 40 °C.
    def made_for(limit: float | None) -> str:
        place = opening("N1", 10, 10, 30, 48, door="glass", air_in=36.0, air_out=36.0)
        job = job_of(*ROOM, place, device("E1", 17, 4, 12, watts=115.1, power="cord", warmest=limit))
        return one(job, "cabinet_too_warm").severity

    assert (made_for(None), made_for(40.0), made_for(30.0)) == ("fix", "look", "fix")


def test_idle_heat_is_told_beside_the_full_load() -> None:
    job = job_of(*ROOM, opening("N1", 10, 10, 30, 48, door="glass"), device("E1", 17, 4, 12, watts=100.0, idle=8.0))
    assert (figure(job, "N1", "watts"), figure(job, "N1", "idle_w")) == (100, 8)


def test_a_fan_is_taken_at_its_makers_curve_where_its_points_are_entered_and_says_which() -> None:
    def moved(**values: Any) -> tuple[float, str]:
        job = cabinet(air_in=8.0, air_out=8.0, **values)
        (line,) = (each for each in figure(job, "N1", "heat_lines") if "above the room" in each and "idle" not in each)
        return figure(job, "N1", "air_moved_cfm"), line.split(" moves ")[0]

    # K = 1.1222e-4 as above. Between 20 cfm at 0.08 and 40 at 0.02: 0.14 - 0.003 q = K q² at 24.4 cfm.
    air, by = moved(fan=50.0, fan_shut=0.1, fan_curve=("0/0.1", "20/0.08", "40/0.02", "50/0"))
    assert (round(air, 1), by) == (24.4, "fan, where its manufacturer's curve meets these openings,")
    assert moved(fan_curve=("0/0.1", "20/0.08", "40/0.02"))[0] == air, "the curve alone is a fan"
    alone = cabinet(air_in=8.0, air_out=8.0, fan_curve=("0/0.1", "40/0.02"))
    assert "cabinet fan, 40 cfm" in [line.what for line in buying_list(alone)]
    line, by = moved(fan=50.0, fan_shut=0.1)
    assert line == pytest.approx(22.3, abs=0.1)
    assert "straight line" in by
    assert moved(fan=50.0)[1] == "fan, its pressure not entered, at 50% of its free flow or less,"
    # What cannot be read is told and not used.
    for bad in (("20/x", "40/0"), ("20/0.1",), ("20/0.1", "40/0.2"), ("20 0.1", "40/0"), ("-5/1", "40/0")):
        job = cabinet(air_in=8.0, air_out=8.0, fan=50.0, fan_shut=0.1, fan_curve=bad)
        assert one(job, "fan_curve_not_read").tags == ("N1",)
        assert figure(job, "N1", "air_moved_cfm") == line
    assert not found(cabinet(fan_curve=("0/0.1", "40/0")), "fan_curve_not_read")


def test_a_curve_in_a_metric_job_is_in_its_units_and_a_long_raceway_throttles_it() -> None:
    def job(
        *more: Any, units: str = "millimetres", curve: tuple[str, ...] = ("0/25", "34/20", "85/0"), **values: Any
    ) -> Job:
        place = opening("N1", 10, 10, 30, 48, door="glass", air_in=8.0, air_out=8.0, fan_curve=curve, **values)
        return job_of(*ROOM, place, device("E1", 17, 4, 12, watts=100.0), *more, units=units)

    typed = ("0 cfm/0.1004 inH2O", "20.01 cfm/0.0803 inH2O", "50.03 cfm/0 inH2O")
    moved = figure(job(), "N1", "air_moved_cfm")
    assert moved == pytest.approx(figure(job(units="feet-inches", curve=typed), "N1", "air_moved_cfm"), rel=0.001)

    def piped(long: float) -> float:
        from store.records.wiring import Raceway
        from tests.jobs.wall_jobs import made

        pipe = made(Raceway, "R1", type="ENT", size="2", length=long)
        return float(figure(job(pipe, air_through="R1"), "N1", "air_moved_cfm"))

    assert moved > piped(12) > piped(120) > 0
