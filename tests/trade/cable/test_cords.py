"""Every name of a flexible cord is known for one, and no name of another cable is."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from store.trade.cable.cords import cord_named
from store.trade.cable.kinds import KINDS
from store.trade.cable.names import kind_key
from tests.rows import rows

CORDS = (
    "5-15P",
    "power cable",
    "lamp cord",
    "IEC C13",
    "figure-8 lead",
    "SJTW 16/3",
    "SPT-2",
    "spt2",
    "SPT-1 18/2",
    "SVT 18/3",
    "SOOW 12/3",
    "SO 12/3",
    "ST",
    "STW 14/3",
    "SJOOW",
    "HPN 14/2",
    "H05VV-F 3G1.5",
    "h05vvf",
    "H03VVH2-F",
    "H07RN-F",
    "H07 RN-F 3x2.5",
    "H05RR-F",
    "kettle lead",
    "mains flex",
    "extension cord",
    "extension lead",
    "power lead",
    "zip cord",
    "lamp wire",
    "zip wire",
    "C7",
    "C-13",
    "iec 60320 c5",
    "NEMA 5-15P",
    "5-15p to C13",
    "appliance cord",
    "TV power cord",
    "tv cord",
    "wall wart lead",
    "brown extension cord",
    "heater cord",
    "vacuum cord",
    "flexible cord",
    "3183Y",
    "3-core flex",
    "twin flex",
    "cord",
    "power cord 14-3",
    "AC power cable",
    "mains lead",
    "mains cable",
    "computer power lead",
    "fig 8 cable",
    "figure of eight lead",
    "surge strip",
    "SJT 14/3 outdoor",
    "SJEOW 12-3",
    "SVO",
    "cordset",
    "trailing lead",
    "power wire",
    "extension cable",
    "H05BQ-F",
    "electrical cord",
    "usb power cord",
    "hdmi extension cord",
    "SPT-2 speaker",
)
OTHERS = (
    "audio SE 22/2",
    "flex conduit 1/2",
    "patch cord",
    "HDMI cord",
    "toslink cord",
    "network cord",
    "optical sound cord",
    "NM-B 12/2",
    "12-2 nm",
    "NM-B power cable",
    "cat6 S/FTP",
    "cat 6a U/FTP",
    "2.5 mm2 twin and earth",
    "H07V-U 1.5",
    "H07V-K",
    "NYM-J 3x1.5",
    "6242Y",
    "speaker 16/2",
    "16/2 OFC",
    "coax",
    "rg6",
    "4C 14AWG",
    "usb-c",
    "HDMI extension cable",
    "flexible metal conduit",
    "speaker lead",
    "aerial lead",
    "infrared lead",
    "18/2 control",
    "fiber ST",
    "OM3 LC-ST",
    "14/2",
    "MC 12/2",
    "AC 12/2",
    "hdmi",
    "line",
    "S-video",
    "bell wire",
    "low voltage se",
    "IEC 60228",
)


def test_a_flexible_cord_is_known_by_each_of_its_names() -> None:
    assert [text for text in CORDS if not cord_named(text)] == []


def test_a_cable_that_is_no_cord_is_not_taken_for_one() -> None:
    assert [text for text in OTHERS if cord_named(text)] == []


def test_no_kind_of_the_list_is_a_flexible_cord() -> None:
    assert [key for key in KINDS if cord_named(key) or cord_named(KINDS[key].name)] == []


@given(st.sampled_from(CORDS), st.booleans(), st.sampled_from(["-", " ", "_"]), st.sampled_from([" ", "   "]))
def test_case_hyphens_and_spaces_change_nothing(text: str, capital: bool, sign: str, spaces: str) -> None:
    plain = text.upper() if capital else text.lower()
    assert cord_named(spaces + plain.replace("-", sign).replace(" ", spaces))


@given(
    st.sampled_from(
        ["lamp cord", "SJTW 16/3", "H07RN-F", "IEC C13", "extension cord", "SPT-2", "power cable", "3183Y"]
    ),
    st.sampled_from(["old", "brown", "from the drawer", "10 ft", "1.5 mm2", "to the TV", "16/3"]),
    st.booleans(),
)
def test_other_words_before_or_after_hide_no_cord(cord: str, more: str, before: bool) -> None:
    assert cord_named(f"{more} {cord}" if before else f"{cord} {more}")


@given(st.text(max_size=40))
def test_no_text_breaks_it(text: str) -> None:
    assert isinstance(cord_named(text), str)


@rows(
    "text",
    [
        "mickey mouse lead", "multi plug", "gang lead", "fairy light lead", "string light cord", "plug-in cable",
        "power adapter cable", "two-prong lamp wire", "hospital grade cord", "4 way extension", "12v dc extension lead",
    ],
)  # fmt: skip
def test_everyday_names_of_cords(text: str) -> None:
    assert cord_named(text)


@rows(
    ("text", "kind"),
    [
        ("aux cord", "line"), ("aux lead 3.5 mm", "line"), ("USB-C 10 Gbit/s", "usb"), ("active USB extension", "usb"),
        ("usb 480 Mbit/s", "usb"), ("HDMI extension", "hdmi"), ("ir extension", "infrared"),
        ("microphone cord", "line"),
        ("aerial extension lead", ""), ("ethernet lead", "patch"),
    ],
)  # fmt: skip
def test_everyday_names_of_signal_cable_are_no_cords(text: str, kind: str) -> None:
    assert not cord_named(text)
    assert kind_key(text) == kind
