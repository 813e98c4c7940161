"""The devices of a box are known by what people call them, and by nothing else."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from store.trade.power.devices import DEVICES, device_named
from tests.rows import rows

SAID = {
    "receptacle 12": "receptacle", "Receptacle 12 AWG": "receptacle", "duplex": "receptacle", "outlet": "receptacle",
    "2 x receptacle #12": "receptacle", "tamper-resistant duplex 12": "receptacle", "5-20R receptacle 12": "receptacle",
    "single receptacle 20 A 12": "single receptacle", "quad receptacle 12": "quad receptacle",
    "15A 125V GFCI 12": "GFCI receptacle", "GFI outlet": "GFCI receptacle", "GFCI switch 12": "switch",
    "switch 14": "switch", "two switches": "switch", "timer 14": "switch", "single-pole 14": "switch",
    "3-way switch 14": "3-way switch", "three way 14": "3-way switch", "dimmer 14 2-gang": "dimmer",
    "RJ45 jack": "jack plate", "coax plate": "jack plate", "fused spur": "fused connection unit",
    "led driver 14": "driver or transformer", "twin socket": "receptacle", "recessed inlet 12": "recessed inlet",
    "usb charger 12": "USB charger", "sconce": "luminaire", "wire nuts": "terminal block", "blank cover": "blank plate",
}  # fmt: skip


@rows(("text", "name"), SAID.items())
def test_a_device_is_known_by_its_usual_names(text: str, name: str) -> None:
    assert device_named(text) == name


@rows("name", DEVICES)
def test_each_device_is_known_by_its_own_name(name: str) -> None:
    assert device_named(name) == name
    assert device_named(f"2 x {name} 12".upper()) == name


@rows("text", ["", "12", "widget 12", "thingamajig", "tr 20 A"])
def test_what_is_no_device_is_none(text: str) -> None:
    assert device_named(text) == ""


@given(st.sampled_from(sorted(SAID)), st.sampled_from([" ", "  ", "-", " - "]), st.booleans())
def test_case_hyphens_and_spaces_change_nothing(text: str, space: str, capital: bool) -> None:
    assert device_named((text.upper() if capital else text).replace(" ", space)) == SAID[text]
