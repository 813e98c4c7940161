"""Ports are known by the words beside the jack."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from store.trade.signal.ports import PORTS, port_key
from tests.rows import rows

SAID = {
    "hdmi in": "hdmi", "HDMI 2 in (eARC)": "hdmi", "eARC": "hdmi", "hdmi audio out": "hdmi", "LAN": "ethernet",
    "4 ethernet ports": "ethernet", "RJ-45": "ethernet", "antenna in": "coax", "cable TV in": "coax",
    "left speaker out": "speaker", "digital optical out": "optical", "toslink": "optical", "subwoofer pre-out": "line",
    "digital coax out": "line", "aux in": "line", "USB-C": "usb", "12V trigger out": "trigger", "RS-232": "serial",
    "component video in": "video", "DP 1.4 in": "displayport", "HDBaseT out": "hdbaset", "IR out": "infrared",
    "wifi 6": "radio", "power in": "power", "SD card": "card", "fiber in": "fibre",
}  # fmt: skip


@rows(("text", "key"), SAID.items())
def test_a_port_is_known_by_the_words_beside_it(text: str, key: str) -> None:
    assert port_key(text) == key


@rows("key", PORTS)
def test_each_port_is_known_by_its_key_and_its_name(key: str) -> None:
    assert port_key(key) == key
    assert port_key(PORTS[key][0]) == key


@rows("text", ["", "in", "3x out", "flux capacitor", "7"])
def test_what_is_no_port_is_none(text: str) -> None:
    assert port_key(text) == ""


@given(st.sampled_from(sorted(SAID)), st.sampled_from([" ", "  ", " - "]), st.booleans())
def test_case_and_spaces_change_nothing(text: str, space: str, capital: bool) -> None:
    assert port_key((text.upper() if capital else text).replace(" ", space)) == SAID[text]


@rows(
    ("text", "key"),
    [
        ("cable in", "coax"), ("f-type", "coax"), ("wan", "ethernet"), ("coax digital in", "line"),
        ("digital coax out", "line"), ("digital out (optical)", "optical"), ("3.5mm jack", "line"),
        ("antenna / cable in", "coax"), ("S/PDIF coax out", "line"), ("HDMI OUT (ARC/CEC)", "hdmi"),
    ],
)  # fmt: skip
def test_jacks_as_they_are_printed(text: str, key: str) -> None:
    assert port_key(text) == key
