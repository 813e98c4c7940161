"""Where everything plugs in, as a list to read."""

from __future__ import annotations

from store.records.whole import Job
from store.rules.plug.listing import plug_lines
from store.rules.plug.proposal import plan_plugs
from tests.jobs.power_case import circuit, job_of, receptacle
from tests.rules.plug.test_plug_rules import strip, thing


def lines(job: Job, *proposed: str) -> list[str]:
    """The list, with what was just proposed."""
    return plug_lines(job, set(proposed), plan_plugs(job).left)


def test_by_receptacle_with_what_hangs_on_its_strips() -> None:
    job = job_of(
        circuit(), receptacle(name="left", switched="half"), strip("E1", plug="B1", half="always on"),
        thing("E2", plug="E1"), thing("E3", plug="B1", half="switched"), thing("E4", power="hard-wired", plug="B1"),
    )  # fmt: skip
    assert lines(job, "E2") == [
        "B1 left, circuit C1 media",
        "  · E1 strip, always on",
        "    + E2 thing",
        "  · E3 thing, switched",
        "  · E4 thing, wired",
    ]


def test_what_has_no_place_comes_last_with_why() -> None:
    job = job_of(receptacle(circuit=""), thing("E1"), thing("E2"), thing("E3", plug=""))
    assert lines(job)[-2:] == ["No place:", "  E3 thing: the receptacles in reach are taken"]


def test_what_nobody_noted_the_power_of_is_named() -> None:
    job = job_of(
        thing("E1", power="unknown", plug="", what="screen"), thing("E2", power="unknown", plug="", what="part")
    )
    assert lines(job) == ["Power not entered (cord, plug-in adapter, hardwired, none):", "  E1 thing"]


def test_a_chain_that_comes_back_to_itself_ends_the_list() -> None:
    job = job_of(strip("E1", plug="E2"), strip("E2", plug="E1"))
    assert lines(job) == ["No place:", "  E1 strip", "  E2 strip"]


def test_nothing_at_all() -> None:
    assert lines(job_of()) == ["No cords yet."]
