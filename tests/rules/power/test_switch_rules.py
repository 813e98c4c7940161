"""Switches: each rule with the smallest job that raises it, and the nearest that does not."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.whole import Job
from store.records.wiring import Cable
from tests.jobs.power_case import circuit, job_of, make, only, receptacle, told
from tests.jobs.power_pairs import box, changed, more
from tests.rules.plug.test_plug_rules import strip, thing


def at(switched: str, *things: Any) -> Job:
    """These things at a receptacle that is switched so."""
    return job_of(circuit(), receptacle(switched=switched), *things)


@pytest.mark.parametrize("what", ["receiver", "streamer", "console", "screen", "soundbar", "extender"])
def test_what_waits_for_its_remote_is_asked_about(what: str) -> None:
    assert only(at("all", thing(what=what)), "may_lose_power", "look").tags == ("E1", "B1")
    assert only(at("half", thing(what=what)), "may_lose_power", "look").head.startswith("May")
    assert only(at("half", thing(what=what, half="switched")), "may_lose_power", "look").head.startswith("Goes")
    assert not told(at("half", thing(what=what, half="always on")), "may_lose_power")
    assert not told(at("none", thing(what=what)), "may_lose_power")


def test_behind_a_strip_it_is_asked_about_too_and_told_once_for_a_box() -> None:
    job = at("half", strip(half="switched"), thing(what="receiver", plug="E9"), thing("E2", what="console", plug="E9"))
    assert only(job, "may_lose_power", "look").tags == ("E1", "E2", "B1")
    assert not told(changed(job, "E9", half="always on"), "may_lose_power")


def dimmed(device: str, kind: str = "nm-14-3") -> Job:
    """A switch box with a device in it, joined to a switched receptacle by a cable."""
    switch = box("B2", "switch", circuit="C1", devices=(device,))
    run = make(Cable, "K1", type=kind, start="B1", end="B2")
    return job_of(circuit(breaker=15.0, conductor="14"), receptacle(switched="half"), switch, run)


def test_a_dimmer_on_a_receptacle() -> None:
    found = only(dimmed("dimmer 14"), "dimmer_on_receptacle", "fix")
    assert found.tags == ("B2", "B1")
    assert found.source == "NEC 2020 404.14(E)"
    assert not told(dimmed("switch 14"), "dimmer_on_receptacle")
    assert not told(changed(dimmed("dimmer 14"), "B1", switched="none"), "dimmer_on_receptacle")


def test_without_a_cable_between_the_only_switch_of_the_circuit_is_the_one() -> None:
    alone = changed(dimmed("dimmer 14"), "K1", retired=dimmed("dimmer").today)
    assert told(alone, "dimmer_on_receptacle")
    assert not told(more(alone, box("B3", "switch", circuit="C1", devices=("switch 14",))), "dimmer_on_receptacle")


def loop(kind: str = "nm-14-2") -> Job:
    """A switch at the end of one cable from a junction box for a light."""
    light = box("B1", "junction", plate=True, circuit="C1")
    switch = box("B2", "switch", circuit="C1", devices=("switch 14",))
    return job_of(
        circuit(breaker=15.0, conductor="14"), light, switch, make(Cable, "K1", type=kind, start="B1", end="B2")
    )


def test_no_neutral_at_a_switch() -> None:
    assert only(loop(), "no_neutral_at_switch", "fix").source == "NEC 2020 404.2(C)"
    assert not told(loop("nm-14-3"), "no_neutral_at_switch")
    assert not told(changed(loop(), "B2", new=False), "no_neutral_at_switch")
    assert told(changed(loop(), "B2", conductors=("14-2 G",)), "no_neutral_at_switch")
    assert not told(changed(loop(), "B2", conductors=("2 x 14-2 G",)), "no_neutral_at_switch")
    assert not told(more(loop(), make(Cable, "K2", type="nm-14-2", end="B2")), "no_neutral_at_switch")


def test_a_switch_for_a_receptacle_needs_no_neutral() -> None:
    # 404.2(C): not required where the switch controls a receptacle.
    assert not told(dimmed("switch 14", "nm-14-2"), "no_neutral_at_switch")


def test_a_switch_for_a_whole_duplex_is_rated_for_the_circuit() -> None:
    # NEC 404.14(F): on 20 A, a 15 A switch with a whole duplex fails; a 20 A switch, or one half, passes.
    whole = changed(changed(dimmed("switch 15 A"), "B1", switched="all"), "C1", breaker=20.0, conductor="12")
    assert only(whole, "switch_under_rated", "fix").source == "NEC 2020 404.14(F)"
    assert not told(changed(whole, "B2", devices=("switch 20 A",)), "switch_under_rated")
    assert not told(changed(whole, "B1", switched="half"), "switch_under_rated")
    assert not told(changed(whole, "C1", breaker=15.0), "switch_under_rated")
