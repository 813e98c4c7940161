"""Devices and conductors that nobody knows: the smallest job that raises it, and the nearest that does not."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.whole import Job
from store.records.wiring import Box
from tests.jobs.power_case import circuit, job_of, make, only, receptacle, told
from tests.rows import rows


@pytest.mark.parametrize(("new", "severity"), [(True, "stop"), (False, "look")])
def test_a_device_that_nobody_knows_is_asked_about_before_the_wall_is_closed(new: bool, severity: str) -> None:
    finding = only(
        job_of(circuit(), receptacle(new=new, devices=("widget 12", "receptacle 12"))), "box_device_unknown", severity
    )
    assert finding.tags == ("B1",)
    assert finding.numbers == {"devices": "widget 12"}
    assert finding.source == "NEC 2020 314.16"
    metric = job_of(circuit(), receptacle(new=new, devices=("widget 12",)), region="metric")
    abroad = only(metric, "box_device_unknown", severity)
    assert abroad.source == "common practice"
    assert "socket-outlet 2.5" in abroad.do
    assert "box fill" not in abroad.why


def test_a_device_of_the_list_and_a_box_for_signal_are_not_asked_about() -> None:
    assert not told(job_of(circuit(), receptacle(devices=("receptacle 12", "GFCI switch 12"))), "box_device_unknown")
    assert not told(job_of(receptacle(what="low-voltage", devices=("widget",))), "box_device_unknown")


@rows("text", ["the old wire", "twelve", "12 14"])
def test_a_conductor_that_nobody_knows_holds_what_it_feeds(text: str) -> None:
    finding = only(job_of(circuit(conductor=text), receptacle()), "conductor_unknown", "stop")
    assert finding.tags == ("C1",)
    assert finding.numbers == {"conductor": text}
    assert finding.source == "NEC 2020 240.4"
    metric = job_of(circuit(conductor="the old wire"), receptacle(), region="metric")
    assert only(metric, "conductor_unknown", "stop").source == "common practice"


def test_a_conductor_of_the_list_one_of_aluminum_and_old_wiring_are_not_asked_about() -> None:
    for text in ("", "12", "12 AWG copper", "2.5 mm2", "12-2 NM-B", "10 AWG aluminum"):
        assert not told(job_of(circuit(conductor=text), receptacle()), "conductor_unknown"), text
    assert not told(job_of(circuit(conductor="the old wire"), receptacle(new=False)), "conductor_unknown")
    assert not told(job_of(circuit(conductor="the old wire")), "conductor_unknown")


def test_a_device_for_power_in_a_low_voltage_box() -> None:
    def low(**values: Any) -> Job:
        return job_of(make(Box, "B1", what="low-voltage", **values))

    assert only(low(devices=("receptacle 12",)), "power_device_in_low_voltage_box", "stop").tags == ("B1",)
    assert told(low(devices=("dimmer",), divider=True), "power_device_in_low_voltage_box")
    assert told(low(receptacles=2), "power_device_in_low_voltage_box")[0].why.startswith(
        "It holds 2 places to plug in."
    )
    both_ways = only(low(devices=("dimmer",), receptacles=2), "power_device_in_low_voltage_box", "stop")
    assert both_ways.why.startswith("It holds 'dimmer'.")
    assert not told(low(devices=("hdmi jack",)), "power_device_in_low_voltage_box")
    both = make(Box, "B1", what="receptacle", divider=True, devices=("receptacle 12", "hdmi jack"))
    assert not told(job_of(both), "power_device_in_low_voltage_box")
