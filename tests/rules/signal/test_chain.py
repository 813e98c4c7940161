"""The signal chain: what joins what, and one fault at a time."""

from __future__ import annotations

from typing import Any

import msgspec

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.signal import signal_rules as rules
from store.rules.signal import sound_rules as sound
from store.rules.signal.chain import Link, Port, devices_at, links, read_ports, ways_to_screen
from store.rules.signal.tree import signal_tree, tree_lines
from tests.jobs.cable_jobs import box, cable, job_of, make, plain, put, told, without
from tests.rows import rows


def device(tag: str, what: str, *ports: str, place: str = "N2", **more: Any) -> Equipment:
    """A device in an opening."""
    return make(Equipment, tag, name=what, what=what, ports=ports, opening=place, **more)


def cord(tag: str, start: str, end: str, kind: str = "hdmi", **more: Any) -> Record:
    """A cable that stays in the cabinet."""
    return cable(tag, kind, start, end, in_wall=False, measured="6'", **more)


def chain(*more: Record) -> Job:
    """A screen fed by a receiver through the wall; a player and a router beside the receiver."""
    return job_of(
        make(Opening, "N1", name="screen", use="screen"),
        make(Opening, "N2", name="cabinet", use="equipment"),
        box("B1", "1'", "1'", reached="N2"),
        box("B2", "6'", "5'", reached="N1"),
        device("E1", "screen", "hdmi arc in", "hdmi in", "ethernet", place="N1", lines=2160),
        device("E2", "receiver", "hdmi in", "hdmi in", "hdmi arc out", "ethernet", "speaker out"),
        device("E3", "player", "hdmi out"),
        device("E4", "router", "ethernet", "ethernet", "ethernet"),
        device("E5", "speaker", "speaker in", place=""),
        cable("K1", "hdmi", directional=True, carries="18 Gbit/s"),
        cord("K2", "E3", "E2", carries="18 Gbit/s"),
        cable("K3", "cat6"),
        cord("K4", "E4", "E2", "patch"),
        cable("K5", "14/2 speaker", "B1", "E5"),
        *more,
    )


ALL = (
    rules.cable_without_port, rules.source_without_way, rules.too_few_inputs, rules.too_few_network_ports,
    sound.speaker_not_connected, rules.screen_shows_less, sound.no_sound_return, rules.remote_behind_door,
    rules.wireless_in_metal, rules.quick_connect_without_input,
)  # fmt: skip


def faults(job: Job) -> list[tuple[str, str, tuple[str, ...]]]:
    """Everything that any rule of the signal chain tells."""
    return [each for rule in ALL for each in told(rule, job)]


@rows(
    ("text", "found"),
    [
        ("hdmi in", (Port("hdmi", "in"),)),
        ("HDMI eARC out", (Port("hdmi", "out", True),)),
        ("HDMI 2 in (eARC)", (Port("hdmi", "in", True),)),
        ("hdmi 2.1 in", (Port("hdmi", "in"),)),
        ("eARC", (Port("hdmi", "both", True),)),
        ("ethernet", (Port("ethernet", "both"),)),
        ("LAN", (Port("ethernet", "both"),)),
        ("4 ethernet ports", (Port("ethernet", "both"),) * 4),
        ("3x hdmi in", (Port("hdmi", "in"),) * 3),
        ("3 x hdmi in", (Port("hdmi", "in"),) * 3),
        ("hdmi in x3", (Port("hdmi", "in"),) * 3),
        ("antenna in", (Port("coax", "in"),)),
        ("left speaker out", (Port("speaker", "out"),)),
        ("digital optical out", (Port("optical", "out"),)),
        ("subwoofer pre-out", (Port("line", "out"),)),
        (" ", ()),
    ],
)
def test_ports_are_read_as_typed(text: str, found: tuple[Port, ...]) -> None:
    assert read_ports(text) == found


def test_a_whole_chain_has_no_fault() -> None:
    assert faults(chain()) == []


def test_every_cable_joins_the_devices_that_have_its_ports() -> None:
    assert set(links(chain()).made) == {
        Link("K1", "hdmi", "E2", "E1"),
        Link("K2", "hdmi", "E3", "E2"),
        Link("K3", "ethernet", "E4", "E1"),
        Link("K4", "ethernet", "E4", "E2"),
        Link("K5", "speaker", "E2", "E5"),
    }
    assert [link.cable for link in ways_to_screen(chain())["E3"]] == ["K2", "K1"]


def test_a_box_stands_for_the_devices_where_it_is() -> None:
    opening = make(Opening, "N3", name="niche", wall="W1", x="1'", y="1'", width="2'", height="2'")
    job = chain(opening, box("B3", "2'", "2'"), box("B4", "4'", "2'"), device("E6", "player", "hdmi out", place="N3"))
    assert devices_at(job, "B3") == ("E6",)
    assert devices_at(job, "B4") == ()
    assert devices_at(job, "B2") == ("E1",)


def test_no_port_is_used_twice() -> None:
    job = chain(device("E6", "player", "hdmi out"), cord("K6", "E6", "E2"))
    assert len([link for link in links(job).made if link.sink == "E2" and link.port == "hdmi"]) == 2
    full = put(job, device("E7", "player", "hdmi out"))
    full = put(full, cord("K7", "E7", "E2"))
    assert ("ports_used_up", "fix", ("K7", "E2")) in faults(full)


def test_a_cable_to_where_nothing_takes_it_is_told() -> None:
    assert faults(chain(cable("K6", "14/2 speaker", "B1", "B2"))) == [("no_port", "fix", ("K6", "B2"))]
    assert faults(chain(cable("K6", "14/2 speaker", "B1", "B2", spare=True))) == []


def test_nothing_is_said_of_a_place_where_ports_are_not_noted() -> None:
    job = put(chain(cable("K6", "usb", "B1", "B2")), device("E1", "screen", place="N1"))
    assert [each for each in faults(job) if each[0] == "no_port" and each[2] == ("K6", "B2")] == []


def test_a_directional_cable_the_wrong_way_round_is_told() -> None:
    turned = chain()
    buried = put(turned, cable("K1", "hdmi-optical", "B2", "B1"))
    assert ("cable_wrong_way_round", "stop", ("K1",)) in faults(buried)
    tube = put(turned, cable("K1", "hdmi-optical", "B2", "B1", route="raceway"))
    assert ("cable_wrong_way_round", "fix", ("K1",)) in faults(tube)
    either = put(turned, cable("K1", "hdmi", "B2", "B1"))
    assert faults(either) == []


def test_a_source_from_which_nothing_leads_to_the_screen_is_told() -> None:
    assert faults(without(chain(), "K2")) == [("source_without_way", "fix", ("E3",))]


def test_more_sources_than_inputs_are_told() -> None:
    # Two inputs at the receiver and two at the screen, one of which the receiver takes: three sources go.
    more: list[Record] = [device(f"E{at}", "player", "hdmi out") for at in (6, 7, 8)]
    assert told(rules.too_few_inputs, chain(*more[:2])) == []
    assert told(rules.too_few_inputs, chain(*more)) == [("too_few_inputs", "fix", ("E3", "E6", "E7", "E8", "E2", "E1"))]


def test_more_devices_than_network_ports_are_told() -> None:
    # Three ports at the router: screen, receiver and one more.
    assert told(rules.too_few_network_ports, chain(device("E6", "player", "ethernet"))) == []
    wired = [device(f"E{at}", "player", "ethernet") for at in (6, 7)]
    assert told(rules.too_few_network_ports, chain(*wired)) == [
        ("too_few_network_ports", "fix", ("E1", "E2", "E6", "E7", "E4"))
    ]
    radio = device("E7", "player", "ethernet", wireless=True)
    assert told(rules.too_few_network_ports, chain(wired[0], radio))[0][1] == "look"


def test_a_speaker_without_a_cable_is_told() -> None:
    assert faults(without(chain(), "K5")) == [("speaker_not_connected", "fix", ("E5",))]


def test_a_cable_for_less_than_the_screen_shows_is_told() -> None:
    slow = put(chain(), cord("K2", "E3", "E2", carries="10.2 Gbit/s"))
    assert faults(slow) == [("screen_shows_less", "look", ("K2", "E3", "E1"))]


def test_sound_of_the_screen_wants_a_way_back() -> None:
    no_arc = put(chain(), device("E2", "receiver", "hdmi in", "hdmi in", "hdmi out", "ethernet", "speaker out"))
    assert faults(no_arc) == [("no_sound_return", "look", ("E1", "E2"))]
    optical = put(
        no_arc, device("E1", "screen", "hdmi in", "hdmi in", "ethernet", "optical out", place="N1", lines=2160)
    )
    optical = put(
        optical, device("E2", "receiver", "hdmi in", "hdmi in", "hdmi out", "ethernet", "speaker out", "optical in")
    )
    assert faults(put(optical, cable("K6", "fibre", "B2", "B1"))) == []


def test_one_fault_is_told_once() -> None:
    """What follows from a fault is not told beside it."""
    guest = (box("B3", "3'", "1'", "quick-connect"), cable("K6", "hdmi", "B3", "B1"))
    no_input = put(chain(*guest), device("E2", "receiver", "hdmi in", "hdmi arc out", "ethernet", "speaker out"))
    no_input = put(no_input, device("E1", "screen", "hdmi arc in", "ethernet", place="N1", lines=2160))
    more = [device(f"E{at}", "player", "hdmi out", "ethernet") for at in (6, 7)]
    cords = [cord(f"K{at}", f"E{at}", "E2") for at in (6, 7)]
    few = put(chain(*more, *cords), device("E4", "router", *["ethernet"] * 9))
    few = put(few, device("E1", "screen", "hdmi arc in", "ethernet", place="N1", lines=2160))
    wires = [cord(f"K{at + 2}", f"E{at}", "E4", "patch") for at in (6, 7)]
    faulty: dict[str, tuple[Job, tuple[str, str, tuple[str, ...]]]] = {
        "no input left for guests": (no_input, ("quick_connect_without_input", "fix", ("B3", "K6"))),
        "the screen is not fed": (without(chain(), "K1"), ("source_without_way", "fix", ("E2", "E3"))),
        "the way to the screen is turned round": (
            put(chain(), cable("K1", "hdmi-optical", "B2", "B1", carries="18 Gbit/s")),
            ("cable_wrong_way_round", "stop", ("K1",)),
        ),
        "a cord to where there is no such port": (
            put(chain(), cord("K2", "E3", "E4")), ("no_port", "fix", ("K2", "E4")),
        ),
        "the screen has no such input": (
            put(chain(), device("E1", "screen", "ethernet", place="N1", lines=2160)), ("no_port", "fix", ("K1", "B2"))
        ),
        "two outputs joined": (
            put(chain(device("E6", "player", "hdmi out")), cord("K2", "E3", "E6")), ("no_port", "fix", ("K2",))
        ),
        "too few inputs, all cabled": (few, ("too_few_inputs", "fix", ("E3", "E6", "E7", "E2", "E1"))),
        "too few network ports, all cabled": (
            chain(*[device(f"E{at}", "player", "ethernet") for at in (6, 7)], *wires),
            ("too_few_network_ports", "fix", ("E1", "E2", "E6", "E7", "E4")),
        ),
        "a cable for less than the screen shows, on the way of two": (
            put(chain(device("E6", "player", "hdmi out"), cord("K6", "E6", "E2")), cable("K1", "hdmi", carries="9 G")),
            ("screen_shows_less", "look", ("K1", "E3", "E6", "E1")),
        ),
    }  # fmt: skip
    for name, (job, fault) in faulty.items():
        assert faults(job) == [fault], name


def test_an_infrared_remote_does_not_pass_a_solid_door() -> None:
    remote = device("E3", "player", "hdmi out", remote="infrared")
    shut = make(Opening, "N2", name="cabinet", use="equipment", door="solid")
    assert faults(put(put(chain(), remote), shut)) == [("remote_behind_door", "fix", ("N2", "E3"))]
    glass = make(Opening, "N2", name="cabinet", use="equipment", door="glass")
    assert faults(put(put(chain(), remote), glass)) == []
    helped = put(put(chain(device("E6", "extender", "infrared in", "infrared out")), remote), shut)
    assert faults(helped) == []


def test_radio_does_not_leave_a_closed_metal_box() -> None:
    radio = device("E4", "router", "ethernet", "ethernet", "ethernet", wireless=True)

    def job(material: str, door: str) -> Job:
        holder = make(Opening, "N2", name="cabinet", use="equipment", door=door, material=material)
        return put(put(chain(), radio), holder)

    assert faults(job("sheet metal", "mesh")) == [("wireless_in_metal", "fix", ("N2", "E4"))]
    assert faults(job("sheet metal", "none")) == []
    assert faults(job("plywood", "solid")) == []


def test_a_quick_connect_wants_an_input_left() -> None:
    guest = (box("B3", "3'", "1'", "quick-connect"), cable("K6", "hdmi", "B3", "B2"))
    assert told(rules.quick_connect_without_input, chain(*guest)) == []
    one_input = put(chain(*guest), device("E1", "screen", "hdmi arc in", "ethernet", place="N1", lines=2160))
    assert told(rules.quick_connect_without_input, one_input) == [("quick_connect_without_input", "fix", ("B3", "K6"))]


def test_the_tree_shows_every_link_once() -> None:
    lines = tree_lines(signal_tree(chain(device("E9", "player", "hdmi out"))))
    assert lines == [
        "Picture",
        "└─ E1 screen",
        "   └─ K1 HDMI: E2 receiver",
        "      └─ K2 HDMI: E3 player",
        "Sound",
        "└─ E2 receiver",
        "   └─ K5 speaker: E5 speaker",
        "Network",
        "└─ E4 router",
        "   ├─ K4 network: E2 receiver",
        "   └─ K3 network: E1 screen",
        "Elsewhere",
        "└─ E9 player: no signal cables yet",
    ]


def test_the_tree_tells_a_cable_without_a_port_one_turned_round_and_an_end_without_a_device() -> None:
    job = chain(
        device("E9", "player", "hdmi out"),
        device("E10", "console", "hdmi out"),
        *(cord(f"K{at}", f"E{at}", "E2") for at in (9, 10)),
        box("B9", "3'", "1'", name="by the sofa"),
        cable("K8", "14/2 speaker", "B9", "E2"),
    )
    lines = [each.lstrip("│├└─ ") for each in tree_lines(signal_tree(job))]
    assert "K8 speaker: B9 by the sofa, no equipment entered there" in lines
    stuck = [each for each in lines if each.endswith("has no port")]
    # K8 took the one speaker output that K5 would need, K9 the last input for pictures.
    assert sorted(stuck) == ["E10 console: K10 has no port", "E5 speaker: K5 has no port"]
    turned = put(job, msgspec.structs.replace(job.of(Cable)["K1"], directional=True, start=Ref("B2"), end=Ref("B1")))
    assert any("K1 HDMI, wrong way round: " in each for each in tree_lines(signal_tree(turned)))


def test_a_ring_of_cables_ends_the_tree() -> None:
    ring = chain(
        device("E6", "switch", "hdmi in", "hdmi out"),
        device("E7", "switch", "hdmi in", "hdmi out"),
        cord("K6", "E6", "E7"),
        cord("K7", "E7", "E6"),
    )
    text = "\n".join(tree_lines(signal_tree(ring)))
    assert text.count("K6") == text.count("K7") == 1
    assert "E6" not in ways_to_screen(ring)


def test_a_box_serves_the_tv_that_hangs_in_front_of_it() -> None:
    """A TV on its bracket, in no opening: the plate behind it is its own, and one beside it is not."""
    hung = {"place": "", "wall": "W1", "x": "6'", "y": "5'", "width": "57", "height": "33", "depth": "2"}
    on_bracket = device("E1", "screen", "hdmi arc in", "hdmi in", "ethernet", lines=2160, **hung)
    job = plain(
        box("B3", "6'", "5'"), box("B4", "10'", "5'"), on_bracket, device("E3", "player", "hdmi out"),
        make(Opening, "N2", name="cabinet", use="equipment"), box("B5", "1'", "1'", reached="N2"),
        cable("K1", "hdmi", "B5", "B3"),
    )  # fmt: skip
    assert devices_at(job, "B3") == ("E1",)
    assert devices_at(job, "B4") == ()
    assert not told(rules.source_without_way, job)
    assert told(rules.source_without_way, put(job, cable("K1", "hdmi", "B5", "B4")))
