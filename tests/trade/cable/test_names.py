"""What people type and jackets print is read as one kind of the list, or as none: never as a guess."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from store.trade.cable.jackets import SUBSTITUTES
from store.trade.cable.kinds import IN_RACEWAY_ONLY, KINDS
from store.trade.cable.names import kind_key

AS_PRINTED = {
    "cat6": "cat6",
    "Cat 6A": "cat6a",
    "category 5e UTP": "cat5e",
    "RG-6": "rg6",
    "rg6 quad": "rg6-quad",
    "12-2 nm": "nm-12-2",
    "14/2 NM-B": "nm-14-2",
    "12/3 nm": "nm-12-3",
    "14/2 speaker": "speaker-14-2",
    "speaker 16/2": "speaker-16-2",
    "16-2 speaker wire": "speaker-16-2",
    "HDMI": "hdmi",
    "optical HDMI": "hdmi-optical",
    "hdmi aoc": "hdmi-optical",
    "fiber": "fibre",
    "usb 3": "usb",
    "IR": "infrared",
    "18/2 control": "control-18-2",
    "2.5 mm2 twin and earth": "flat-2.5",
    "patch cord": "patch",
    "cat6 patch cable": "patch",
    "HDMI 2.1": "hdmi",
    "passive HDMI": "hdmi",
    "active HDMI cable": "hdmi-active",
    "16 AWG speaker wire": "speaker-16-2",
    "18/2 speaker": "speaker-18-2",
    "14 gauge speaker wire": "speaker-14-2",
    "14/4 speaker": "speaker-14-4",
    "RG-11": "rg11",
    "optical audio cable": "toslink",
    "subwoofer cable": "line",
    "RG-6 quad-shield coax": "rg6-quad",
    "Type NM-B 600V 14/2 W/G": "nm-14-2",
    "16/2 OFC": "speaker-16-2",
    "cat 6a U/FTP": "cat6a",
    "ultra high speed hdmi": "hdmi",
    "14-2 NM-B W/G 600V": "nm-14-2",
    "NM-B 12/2 with ground": "nm-12-2",
    "12 AWG 2 conductor NM-B with ground": "nm-12-2",
    "UF-B 12/2": "uf-12-2",
    "MC 12/2": "mc-12-2",
    "12/2 AC armored": "ac-12-2",
    "THHN 12": "thhn-12",
    "12 AWG THHN/THWN-2 stranded": "thhn-12",
    "6242Y 2.5mm²": "flat-2.5",
    "T&E 2.5": "flat-2.5",
    "1.5mm T&E": "flat-1.5",
    "NYM-J 3x1.5": "nym-3x1.5",
    "NYM-J 3 x 2.5 mm2": "nym-3x2.5",
    "NYM-J 5G1.5": "nym-5x1.5",
    "6243Y 1.5": "flat3-1.5",
    "H07V-U 1.5": "h07v-1.5",
    "H07V-K 2.5 mm²": "h07v-2.5",
    "CAT6 23AWG 4PR U/UTP CMR C(UL)US E123456": "cat6",
    "Category 6A F/UTP CMP": "cat6a",
    "CAT5E 24AWG/4PR 350MHZ CMR": "cat5e",
    "Cat.6 UTP LSZH": "cat6",
    "cat7 S/FTP": "cat7",
    "RG6/U 18AWG 75C CATVR": "rg6",
    "RG-6 quad shield CATV CL2": "rg6-quad",
    "RG59/U coax": "rg59",
    "quad shield RG6": "rg6-quad",
    "coax": "rg6",
    "HDMI premium high speed with ethernet CL3": "hdmi",
    "HDMI 2.1 48Gbps 8K in-wall CL3 rated": "hdmi",
    "active optical HDMI 2.1": "hdmi-optical",
    "HDMI fiber optic cable 8K": "hdmi-optical",
    "16/4 speaker CL3": "speaker-16-4",
    "14 AWG 4 conductor OFC speaker CL2": "speaker-14-4",
    "4C 14AWG speaker": "speaker-14-4",
    "16AWG/2C OFC CL3 75C (UL) c(UL)us FT4": "speaker-16-2",
    "2x2.5 mm² speaker": "speaker-2x2.5",
    "loudspeaker cable 2 x 1.5 mm2": "speaker-2x1.5",
    "18/5 thermostat": "control-18-5",
    "18/2 doorbell wire": "control-18-2",
    "22/4 alarm": "control-22-4",
    "22/2 security CL2": "control-22-2",
    "18/2 LED wire": "control-18-2",
    "low voltage lighting cable 18/2": "control-18-2",
    "OM3 duplex LC": "fibre",
    "os2 single-mode fibre": "fibre",
    "USB-C": "usb",
    "USB 3.2 Gen 2 Type-C": "usb",
    "toslink cord": "toslink",
    "digital optical audio": "toslink",
    "RCA audio": "line",
    "XLR balanced": "line",
    "IR emitter lead": "infrared",
    "DisplayPort 1.4": "displayport",
    "network cord": "patch",
    "cat6a patch cord": "patch",
    "12/2": "nm-12-2",
    "18/2": "control-18-2",
    "22/4": "control-22-4",
    "2.5 mm2": "flat-2.5",
    "line-level audio": "line",
    "digital coax": "line",
    "NMD90 14/2": "nm-14-2",
    "twin and earth 1.5 mm2": "flat-1.5",
    "hdmi cord": "hdmi",
    "14-2 G": "nm-14-2",
    "1.0mm twin & earth": "flat-1",
    "14/2 W/G": "nm-14-2",
    "antenna cable RG-6": "rg6",
}
UNKNOWN = (
    "", "lamp cord", "cat7x", "99-2 nm", "wire", "cable", "bell wire", "power cable", "SPT-2 speaker", "16/2", "mains",
    "hdmi over cat6", "14/2 CL3", "speaker wire", "cat cable", "13/2 nm", "14 AWG", "green thing", "ethernet", "nm",
    "cat6 coax", "fire alarm 18/2", "nm speaker 12/2", "SJTW 16/3", "IEC C13", "not cat6", "H05VV-F 3G1.5", "12/9 nm",
)  # fmt: skip


def test_a_kind_is_known_as_people_and_makers_write_it() -> None:
    assert {text: kind_key(text) for text in AS_PRINTED} == AS_PRINTED


def test_what_is_no_kind_or_two_is_not_taken_for_one() -> None:
    assert {text: kind_key(text) for text in UNKNOWN} == dict.fromkeys(UNKNOWN, "")


def test_each_kind_is_known_by_its_key_and_by_its_name() -> None:
    assert {key: (kind_key(key), kind_key(KINDS[key].name)) for key in KINDS} == {key: (key, key) for key in KINDS}


def test_the_figures_of_each_kind_are_possible() -> None:
    for key, kind in KINDS.items():
        assert 2_000_000 < kind.outside_nm < 25_400_000, key
        assert kind.needs in SUBSTITUTES or (kind.needs == "" and kind.sold_metric), key
        assert key == kind.key


def test_more_conductors_and_more_copper_make_no_thinner_cable() -> None:
    for form in ("nm", "uf", "mc", "ac"):
        for number in (2, 3):
            wide = [KINDS[f"{form}-{gauge}-{number}"].outside_nm for gauge in (14, 12, 10)]
            assert wide == sorted(set(wide))
        for gauge in (14, 12, 10):
            assert KINDS[f"{form}-{gauge}-2"].outside_nm < KINDS[f"{form}-{gauge}-3"].outside_nm
    thermostat = [KINDS[f"control-18-{number}"].outside_nm for number in range(2, 9)]
    assert thermostat == sorted(set(thermostat))
    assert {key.partition("-")[0] for key in IN_RACEWAY_ONLY} == {"thhn", "h07v"}


def respelled(text: str, capital: bool, sign: str, spaces: str) -> str:
    """The same text as someone else types it."""
    plain = text.upper() if capital else text.lower()
    return spaces + plain.replace("-", sign).replace(" ", spaces or " ") + spaces


@given(
    st.sampled_from(sorted(AS_PRINTED)),
    st.booleans(),
    st.sampled_from(["-", " ", "–", "_"]),
    st.sampled_from([" ", "  "]),
)
def test_case_hyphens_and_spaces_change_nothing(text: str, capital: bool, sign: str, spaces: str) -> None:
    assert kind_key(respelled(text, capital, sign, spaces)) == AS_PRINTED[text]


@given(st.data())
def test_the_order_of_the_words_changes_nothing(data: st.DataObject) -> None:
    head = data.draw(st.sampled_from(["NM-B 12/2 W/G 600V", "speaker 16/2 OFC CL3", "cat6a U/FTP CMR", "HDMI 2.1 CL3",
                                      "RG-6 quad-shield CATV", "thermostat 18/5 CL2", "NYM-J 3x1.5", "OFC 14/4 FT4",
                                      "optical HDMI 8K", "patch cat6 cord", "OM3 duplex fiber", "USB 3.2 type-C",
                                      "UF-B 12/2 outdoor", "T&E 2.5mm²", "DisplayPort 1.4 cable"]))  # fmt: skip
    words = data.draw(st.permutations(head.split()))
    assert kind_key(" ".join(words)) == kind_key(head) != ""


@given(st.text(max_size=40))
def test_no_text_breaks_it_and_what_is_found_is_on_the_list(text: str) -> None:
    assert kind_key(text) in {"", *KINDS}
