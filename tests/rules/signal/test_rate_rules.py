"""Rates along a chain and cords by their rate: each rule with a job that raises it, and the nearest that does not."""

from __future__ import annotations

from typing import Any

from store.records.whole import Job
from store.rules.signal import rate_rules, run_rules, signal_rules
from tests.jobs.cable_jobs import at, cable, plain, put, told
from tests.rows import rows
from tests.rules.signal.test_chain import chain, cord, device


def showing(shows: str, *ports: str, **more: Any) -> Job:
    """The chain of the other tests, with this on its screen and these ports on its receiver."""
    job = put(chain(), device("E1", "screen", "hdmi 2.1 arc in", "hdmi in", "ethernet", place="N1", shows=shows))
    receiver = ports or ("2x hdmi 2.1 in", "hdmi 2.1 arc out")
    job = put(job, device("E2", "receiver", *receiver, "ethernet", "speaker out"))
    job = put(job, cable("K1", "hdmi-optical", directional=True, carries="48 Gbit/s", **more))
    return put(job, cord("K2", "E3", "E2", carries="48 Gbit/s"))


@rows("shows", ["4K 120", "8K 60", "4K120 HDR"])
def test_the_weakest_device_on_the_way_is_named(shows: str) -> None:
    old = showing(shows, "2x hdmi 2.0 in", "hdmi 2.0 arc out")
    assert told(rate_rules.chain_too_slow, old) == [("chain_too_slow", "fix", ("E2", "E3", "E1"))]
    assert not told(rate_rules.chain_too_slow, showing(shows))


def test_what_the_ports_do_carry_is_not_told() -> None:
    assert not told(rate_rules.chain_too_slow, showing("2160p60 HDR", "2x hdmi 2.0 in", "hdmi 2.0 arc out"))
    assert told(rate_rules.chain_too_slow, showing("2160p60 HDR", "2x hdmi 1.4 in", "hdmi 1.4 arc out"))


def test_a_cable_that_is_weaker_still_is_told_in_its_place() -> None:
    job = put(showing("4K 120", "2x hdmi 2.0 in", "hdmi 2.0 arc out"), cord("K2", "E3", "E2", carries="10.2 Gbit/s"))
    assert not told(rate_rules.chain_too_slow, job)
    assert told(signal_rules.screen_shows_less, job) == [("screen_shows_less", "fix", ("K2", "E3", "E1"))]


def test_what_a_screen_is_to_show_is_the_rate_of_a_cable_without_one() -> None:
    # 15 ft, 4.6 m: passive copper usually passes at 18 Gbit/s, and may pass at 32.
    job = put(showing("4K 120"), cable("K1", "hdmi", measured="11'", directional=True))
    assert told(run_rules.picture_cable_long, job) == [("picture_cable_long", "look", ("K1",))]
    job = put(job, device("E1", "screen", "hdmi 2.1 arc in", place="N1", shows="4K 60"))
    assert not told(run_rules.picture_cable_long, job)


def test_old_copy_protection_on_the_way_to_a_4k_screen() -> None:
    old = showing("", "2x hdmi in hdcp 1.4", "hdmi arc out")
    four_k = put(old, device("E1", "screen", "hdmi arc in", place="N1", lines=2160))
    assert told(rate_rules.hdcp_too_old, four_k) == [("hdcp_too_old", "fix", ("E2", "E1"))]
    assert not told(rate_rules.hdcp_too_old, old)
    assert not told(rate_rules.hdcp_too_old, put(four_k, device("E2", "receiver", "2x hdmi in hdcp 2.2", "hdmi out")))


@rows(
    ("kind", "measured", "carries", "severity"),
    [
        ("usb", "1'", "10 Gbit/s", ""),  # 3 ft, 0.9 m
        ("usb", "4'", "10 Gbit/s", "fix"),
        ("usb", "4'", "480 Mbit/s", ""),
        ("usb", "4'", "5 Gbit/s", ""),
        ("toslink", "10'", "", ""),
        ("toslink", "20'", "", "look"),
        ("toslink", "40'", "", "fix"),
    ],
)
def test_cords_by_length_and_rate(kind: str, measured: str, carries: str, severity: str) -> None:
    ends: dict[str, Any] = {"slack_start": at("6"), "slack_end": at("6")}
    job = plain(cable(kind=kind, measured=measured, carries=carries, in_wall=False, **ends))
    found = told(rate_rules.cord_too_long_for_rate, job)
    assert found == ([("cord_too_long_for_rate", severity, ("K1",))] if severity else [])


def test_a_cable_to_itself() -> None:
    assert told(rate_rules.cable_goes_nowhere, plain(cable(end="B1"))) == [("cable_goes_nowhere", "fix", ("K1",))]
    assert not told(rate_rules.cable_goes_nowhere, plain(cable()))
