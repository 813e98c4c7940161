"""Findings about switched power: each with the smallest job that raises it, and the nearest that does not."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.whole import Job
from tests.jobs.power_case import circuit, job_of, only, receptacle, told
from tests.rules.plug.test_plug_rules import strip, thing


def at(switched: str, *things: Any) -> Job:
    """These things at a receptacle that is switched so."""
    return job_of(circuit(), receptacle(switched=switched), *things)


@pytest.mark.parametrize("values", [{"what": "router"}, {"what": "recorder"}, {"what": "switch"}, {"hours": 24.0}])
def test_what_must_stay_on(values: dict[str, Any]) -> None:
    assert only(at("half", thing(half="switched", **values)), "always_on_is_switched", "fix").tags == ("E1", "B1")
    assert only(at("all", thing(**values)), "always_on_is_switched", "fix")
    assert not told(at("half", thing(half="always on", **values)), "always_on_is_switched")
    assert not told(at("none", thing(**values)), "always_on_is_switched")


def test_what_may_go_off_may_be_switched() -> None:
    assert not told(at("half", thing(what="player", half="switched")), "always_on_is_switched")


def test_through_a_strip_it_is_the_half_of_the_strip_that_counts() -> None:
    router = thing(what="router", plug="E9")
    assert only(at("half", strip(half="switched"), router), "always_on_is_switched", "fix").tags == ("E1", "B1")
    assert not told(at("half", strip(half="always on"), router), "always_on_is_switched")


def test_half_not_said() -> None:
    assert only(at("half", thing(what="router")), "half_not_said", "look").tags == ("E1", "B1")
    assert not told(at("half", thing(what="router", half="always on")), "half_not_said")
    assert not told(at("half", thing(what="player")), "half_not_said")
    assert not told(at("none", thing(what="router")), "half_not_said")


def test_meant_for_a_switch_where_none_acts() -> None:
    lamp = thing(what="light", half="switched")
    assert only(at("none", lamp), "half_not_there", "fix").numbers == {"meant": "switched", "gets": "always on"}
    assert not told(at("half", lamp), "half_not_there")
    assert not told(at("all", lamp), "half_not_there")


def test_meant_to_stay_on_where_all_is_switched() -> None:
    assert only(at("all", thing(half="always on")), "half_not_there", "fix").numbers["gets"] == "switched"
    assert not told(at("half", thing(half="always on")), "half_not_there")


def test_a_lamp_on_the_half_that_no_switch_acts_on() -> None:
    assert only(at("half", thing(what="light", half="always on")), "lamp_on_unswitched_half", "fix").tags == (
        "E1",
        "B1",
    )
    assert not told(at("half", thing(what="light", half="switched")), "lamp_on_unswitched_half")
    assert not told(at("half", thing(what="player", half="always on")), "lamp_on_unswitched_half")


def test_more_on_one_half_than_it_has_places() -> None:
    two = [thing("E1", half="switched"), thing("E2", half="switched")]
    assert only(at("half", *two), "too_few_switched", "fix").numbers == {"places": "1", "wanted": "2"}
    assert not told(at("half", two[0], thing("E2", half="always on")), "too_few_switched")
    stay = [thing("E1", half="always on"), thing("E2", half="always on")]
    assert only(at("half", *stay), "too_few_always_on", "fix").numbers == {"places": "1", "wanted": "2"}
    assert not told(at("half", stay[0]), "too_few_always_on")
