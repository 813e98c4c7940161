"""Sound and network: each rule with the smallest job that raises it and the nearest that does not."""

from __future__ import annotations

from typing import Any

import msgspec

from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.signal import network_rules, rate_rules, signal_rules, sound_rules
from store.rules.signal.chain import links, sources, ways_to_screen
from tests.jobs.cable_jobs import at, box, cable, job_of, make, told
from tests.rows import rows


def changed(job: Job, tag: str, **values: Any) -> Job:
    """The job with some values of one record changed."""
    record = job.get(tag)
    assert record is not None
    return job.having(msgspec.structs.replace(record, **values))


def thing(tag: str, what: str, *ports: str, **values: Any) -> Equipment:
    """A device with ports."""
    return make(Equipment, tag, name=what, what=what, ports=ports, **values)


def with_sub(*more: Any, **sub: Any) -> Job:
    """A receiver and a subwoofer."""
    return job_of(thing("E1", "receiver", "sub out"), thing("E2", "subwoofer", "line in", **sub), *more)


def test_a_subwoofer_has_a_run() -> None:
    assert told(sound_rules.subwoofer_not_connected, with_sub()) == [("subwoofer_not_connected", "fix", ("E2", "E1"))]
    assert not told(sound_rules.subwoofer_not_connected, with_sub(cable("K1", "subwoofer cable", "E1", "E2")))
    assert not told(sound_rules.subwoofer_not_connected, with_sub(wireless=True))
    plate = cable("K1", "subwoofer cable", "E1", "B1")
    assert not told(sound_rules.subwoofer_not_connected, with_sub(box("B1", "1'", "1'"), plate)), (
        "a plate that it plugs into"
    )
    assert not told(sound_rules.subwoofer_not_connected, job_of(thing("E2", "subwoofer", "line in"))), (
        "nothing to feed it"
    )


def test_a_speaker_is_served_by_a_run_to_a_plate() -> None:
    speakers = [thing(f"E{n}", "speaker", "speaker in") for n in (2, 3)]
    both = job_of(thing("E1", "receiver", "2x speaker out"), *speakers, box("B1", "1'", "1'"), box("B2", "2'", "1'"))
    one = both.having(cable("K1", "speaker-14-2", "E1", "B1"))
    assert told(sound_rules.speaker_not_connected, one)
    assert not told(sound_rules.speaker_not_connected, one.having(cable("K2", "speaker-14-2", "E1", "B2")))


def returning(kind: str = "hdmi-optical", carries: str = "48 Gbit/s") -> Job:
    """A receiver that gets the TV's sound back along one cable."""
    return job_of(
        thing("E1", "screen", "hdmi earc in", wireless=True), thing("E2", "receiver", "hdmi in", "hdmi earc out"),
        cable("K1", kind, "E2", "E1", carries=carries),
    )  # fmt: skip


def test_sound_back_through_an_optical_cable_is_asked_about() -> None:
    rule = sound_rules.sound_return_over_optical
    assert told(rule, returning()) == [("sound_return_over_optical", "look", ("K1", "E1", "E2"))]
    assert not told(rule, returning(carries="48 Gbit/s eARC"))
    assert not told(rule, returning(kind="hdmi"))
    assert not told(rule, changed(returning(), "E1", ports=("hdmi in",))), "no sound comes back"


def between(*ports: str) -> Job:
    """A receiver and a TV with a box between."""
    tv = thing("E1", "screen", "hdmi arc in", wireless=True, lines=2160)
    amp = thing("E2", "receiver", "hdmi in", "hdmi arc out")
    ends = (("E2", "E3"), ("E3", "E1"), ("E4", "E2"))
    cables = [cable(f"K{n}", "hdmi", *each) for n, each in enumerate(ends, 1)]
    return job_of(tv, amp, thing("E3", "extender", *ports), thing("E4", "player", "hdmi out"), *cables)


def test_sound_comes_back_through_what_passes_it() -> None:
    assert told(sound_rules.no_sound_return, between("hdmi in", "hdmi out"))
    assert not told(sound_rules.no_sound_return, between("hdmi in arc", "hdmi out arc"))


def test_what_is_between_passes_on_hdcp_and_cec() -> None:
    rule = rate_rules.between_passes_on
    assert told(rule, between("hdmi in", "hdmi out")) == [("between_passes_on", "look", ("E3",))]
    (found,) = rule(between("hdmi in HDCP 2.2", "hdmi out"))
    assert found.head == "Passes on CEC?"
    assert not told(rule, between("hdmi in HDCP 2.2 CEC", "hdmi out"))


NO_SLACK = {"slack_start": at("0"), "slack_end": at("0")}


@rows(("kind", "length", "told_of"), [
    ("usb 3.2 gen 2", "3'", True), ("usb 3.2 gen 2", "2'", False), ("usb 3.0", "6'", True), ("usb 3.0", "5'", False),
    ("usb 2.0", "16'", False), ("usb 2.0", "17'", False), ("USB-C 40 Gbit/s", "3'", True),
])  # fmt: skip
def test_a_usb_cord_is_no_longer_than_its_rate_goes(kind: str, length: str, told_of: bool) -> None:
    # 5 / 2 / 1 / 0.8 m at 0.48 / 5 / 10 / 40 Gbit/s, by the length that is bought: 3, 6 or 10 ft. USB 2.0 is told
    # by the limit of the kind.
    job = job_of(
        thing("E1", "player", "usb"),
        thing("E2", "screen", "usb"),
        cable("K1", kind, "E1", "E2", measured=length, in_wall=False, **NO_SLACK),
    )
    assert bool(told(rate_rules.cord_too_long_for_rate, job)) == told_of


def network(*, up: bool = True, poe: str = "", watts: float | None = 13.0) -> Job:
    """A switch with an access point on it, and a router."""
    cables = [cable("K1", "cat6", "E1", "E3")] + ([cable("K2", "cat6", "E2", "E1")] if up else [])
    return job_of(
        thing("E1", "switch", f"5x ethernet{poe}"), thing("E2", "router", "4x ethernet"),
        thing("E3", "other", "ethernet poe", power="none", watts=watts), *cables,
    )  # fmt: skip


def test_a_switch_has_an_uplink() -> None:
    rule = network_rules.switch_without_uplink
    assert told(rule, network(up=False)) == [("switch_without_uplink", "fix", ("E1",))]
    assert not told(rule, network())
    assert not told(rule, changed(network(up=False), "E1", ports=("2x ethernet",)))


def test_power_over_the_cable_is_there_and_enough() -> None:
    rule = network_rules.poe_budget
    assert told(rule, network()) == [("no_poe_there", "fix", ("E1", "E3"))]
    assert not told(rule, changed(network(), "E3", power="cord"))
    assert told(rule, network(poe=" PoE 12 W")) == [("poe_over_budget", "fix", ("E1", "E3"))]
    assert not told(rule, network(poe=" PoE 13 W"))


def extended(out: str = "hdbaset out", shows: str = "", **named: Any) -> Job:
    """A player whose picture goes over category cable to the TV, beside a router's network cable."""
    return job_of(
        thing("E1", "screen", "hdmi in", "ethernet", lines=2160, shows=shows), thing("E2", "player", "hdmi out"),
        thing("E3", "extender", "hdmi in", out), thing("E4", "extender", "hdbaset in", "hdmi out"),
        cable("K1", "hdmi", "E2", "E3"), cable("K2", "cat6a", "E3", "E4", **named), cable("K3", "hdmi", "E4", "E1"),
    )  # fmt: skip


def test_a_picture_goes_on_through_an_extender() -> None:
    assert [link.cable for link in ways_to_screen(extended())["E2"]] == ["K1", "K2", "K3"]
    assert sources(extended()) == ("E2",)
    assert not told(signal_rules.source_without_way, extended())
    assert not told(signal_rules.too_few_inputs, extended())
    cut = changed(extended(), "K2", end="")
    assert told(signal_rules.source_without_way, cut) or told(signal_rules.cable_without_port, cut)


def test_the_rate_of_a_network_is_none_of_a_picture() -> None:
    assert not told(signal_rules.screen_shows_less, extended(carries="1000 Mbit/s"))


def test_an_extender_without_a_rate_is_asked_about() -> None:
    rule = rate_rules.extender_too_slow
    assert told(rule, extended()) == [("extender_too_slow", "look", ("E3", "E1"))]
    assert not told(rule, extended("hdbaset out 18 Gbit/s"))
    # Its HDMI jack says nothing of the link.
    assert told(rule, changed(extended(), "E3", ports=("hdmi 2.0 in", "hdbaset out")))
    assert not told(rule, changed(extended(), "E1", lines=1080))
    assert told(rate_rules.chain_too_slow, extended("hdbaset out 10.2 Gbit/s", shows="4K 60"))


def test_a_cable_said_to_be_for_an_extender_goes_to_it_first() -> None:
    both = (
        extended(name="HDBaseT to the TV")
        .having(thing("E3", "extender", "hdmi in", "hdbaset out", "ethernet"))
        .having(thing("E4", "extender", "hdbaset in", "hdmi out", "ethernet"))
    )
    assert next(link.port for link in links(both).made if link.cable == "K2") == "hdbaset"
    assert next(link.port for link in links(changed(both, "K2", name="data")).made if link.cable == "K2") == "ethernet"
