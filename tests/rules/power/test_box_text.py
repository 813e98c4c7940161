"""The short texts of boxes and circuits, in the forms in which people write them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.errors import BadValue
from store.rules.power.box_text import (
    Size,
    is_cord,
    is_mains_word,
    read_device,
    read_mains,
    read_size,
    read_wires,
    says_stranded,
    standard_box,
)
from store.trade.power.box_fill import Cable
from store.trade.power.tables_us import STANDARD_BOXES
from tests.rows import rows


@rows(
    ("text", "size"),
    [
        ("12", Size(awg=12)),
        (" 12 AWG", Size(awg=12)),
        ("#14", Size(awg=14)),
        ("2.5 mm2", Size(mm2=2.5)),
        ("2.5mm²", Size(mm2=2.5)),
        ("1.5", Size(mm2=1.5)),
        ("2,5 mm2", Size(mm2=2.5)),
        ("12 AWG copper", Size(awg=12)),
        ("AWG 12", Size(awg=12)),
        ("12 THHN stranded", Size(awg=12)),
        ("12-2 NM-B", Size(awg=12)),
        ("nm-12-2", Size(awg=12)),
        ("14/2", Size(awg=14)),
        ("2.5 mm2 twin and earth", Size(mm2=2.5)),
    ],
)
def test_sizes_of_a_conductor(text: str, size: Size) -> None:
    assert read_size(text) == size


def test_a_bare_number_is_square_millimetres_in_a_metric_job() -> None:
    assert read_size("4", metric=True) == Size(mm2=4.0)
    assert read_size("4 AWG", metric=True) == Size(awg=4)


@rows("text", ["", "thick", "2/0", "12 14", "mm2", "2.5 mm2 or 4 mm2"])
def test_what_is_no_size_is_refused_with_a_form_to_copy(text: str) -> None:
    with pytest.raises(BadValue, match="Write "):
        read_size(text)


@rows("text", ["12 aluminum", "12 AWG aluminium", "8 al", "14 CCA", "14 copper-clad aluminum"])
def test_a_conductor_that_is_not_copper_is_left_to_the_electrician(text: str) -> None:
    with pytest.raises(BadValue, match="for copper"):
        read_size(text)


def test_what_the_text_of_a_conductor_says_of_its_strands() -> None:
    assert says_stranded("12 AWG stranded")
    assert not says_stranded("12 AWG solid")


@rows(
    ("text", "name", "gauge", "gangs", "count", "amps", "places"),
    [
        ("receptacle 12", "receptacle", 12, 1, 1, None, 2),
        ("Receptacle 12 AWG", "receptacle", 12, 1, 1, None, 2),
        ("switch 14", "switch", 14, 1, 1, None, 0),
        ("dimmer 14 2-gang", "dimmer", 14, 2, 1, None, 0),
        ("single receptacle 20 A 12", "single receptacle", 12, 1, 1, 20, 1),
        ("2 x receptacle #12", "receptacle", 12, 1, 2, None, 4),
        ("quad receptacle 12", "quad receptacle", 12, 1, 1, None, 4),
        ("14 switch", "switch", 14, 1, 1, None, 0),
        ("receptacle", "receptacle", None, 1, 1, None, 2),
        ("duplex", "duplex", None, 1, 1, None, 2),
        ("3-way switch 14", "3-way switch", 14, 1, 1, None, 0),
        ("single pole switch", "single pole switch", None, 1, 1, None, 0),
        ("2 receptacles 12", "receptacles", 12, 1, 2, None, 4),
        ("two switches", "switches", None, 1, 2, None, 0),
        ("receptacle 12 x 2", "receptacle", 12, 1, 2, None, 4),
        ("5-20R receptacle 12", "receptacle", 12, 1, 1, 20, 2),
        ("15A 125V GFCI 12", "GFCI", 12, 1, 1, 15, 2),
        ("GFCI switch 12", "GFCI switch", 12, 1, 1, None, 0),
        ("dimmer two-gang 12 AWG", "dimmer", 12, 2, 1, None, 0),
    ],
)
def test_devices(
    text: str, name: str, gauge: int | None, gangs: int, count: int, amps: int | None, places: int
) -> None:
    gear = read_device(text)
    assert (gear.device.name, gear.device.gauge, gear.device.gangs) == (name, gauge, gangs)
    assert (gear.count, gear.amps, gear.places) == (count, amps, places)


def test_tamper_resistant_is_read_from_its_mark() -> None:
    assert read_device("receptacle TR 12").tamper
    assert read_device("tamper-resistant receptacle 12").tamper
    assert not read_device("receptacle for the tray 12").tamper


@rows("text", ["12", "", "receptacle 12 14", "receptacle 99", "0 x switch 14", "2 x switch 14 x 2"])
def test_a_device_that_is_not_one_with_one_size_is_refused(text: str) -> None:
    with pytest.raises(BadValue):
        read_device(text)


@rows(
    ("text", "cables"),
    [
        ("12-2 G", (Cable(12, 2),)),
        ("12/2 with ground", (Cable(12, 2),)),
        ("12-2 NM-B", (Cable(12, 2),)),
        ("12-2", (Cable(12, 2, False),)),
        ("14-3 G", (Cable(14, 3),)),
        ("2 x 12-2 G", (Cable(12, 2), Cable(12, 2))),
        ("14-2 G through", (Cable(14, 2, True, "through"),)),
        ("12-2 G looped", (Cable(12, 2, True, "looped"),)),
        ("3 x 12", (Cable(12, 1, False),) * 3),
        ("12-0 G", (Cable(12, 0),)),
        ("two 12-2 G", (Cable(12, 2),) * 2),
        ("(2) 12-2 G", (Cable(12, 2),) * 2),
        ("12-2 G x2", (Cable(12, 2),) * 2),
        ("12/2 with ground x 3", (Cable(12, 2),) * 3),
        ("2 12/2 NM", (Cable(12, 2),) * 2),
        ("6 #12", (Cable(12, 1, False),) * 6),
        ("6 12 AWG", (Cable(12, 1, False),) * 6),
        ("#12 x 6", (Cable(12, 1, False),) * 6),
        ("12 AWG hot", (Cable(12, 1, False),)),
        ("nm-12-2", (Cable(12, 2),)),
        ("NM-B 14/3", (Cable(14, 3),)),
        ("14-2 without ground", (Cable(14, 2, False),)),
        ("14-2 NM no ground", (Cable(14, 2, False),)),
        ("12 AWG 2 conductor with ground", (Cable(12, 2),)),
        ("ground pigtail 12", (Cable(12, 1, False, "stays"),)),
    ],
)
def test_cables_and_loose_conductors(text: str, cables: tuple[Cable, ...]) -> None:
    assert read_wires(text).cables == cables


def test_grounds_alone() -> None:
    assert read_wires("5 x ground 14").grounds == (14,) * 5
    assert read_wires("12 ground").grounds == (12,)
    assert read_wires("bare 14").grounds == (14,)
    assert read_wires("five 14 EGC").grounds == (14,) * 5


@rows("text", ["", "x", "12 14", "12-2-3", "13-2 G", "100 x 12", "2 x 12 x 3", "12 x 9"])
def test_what_is_no_cable_is_refused(text: str) -> None:
    with pytest.raises(BadValue):
        read_wires(text)


@rows(
    ("text", "read"),
    [
        ("nm-12-2", (Size(awg=12), 2)),
        ("12-2 nm", (Size(awg=12), 2)),
        ("14/3 NM-B", (Size(awg=14), 3)),
        ("12-2 MC", (Size(awg=12), 2)),
        ("2.5 mm2 twin and earth", (Size(mm2=2.5), 2)),
        ("14/2 speaker", None),
        ("speaker-14-2", None),
        ("control-18-2", None),
        ("cat6", None),
        ("rg6", None),
        ("hdmi-optical", None),
        ("extension cord 14-2", None),
    ],
)
def test_mains_cable_is_told_from_signal_cable(text: str, read: tuple[Size, int] | None) -> None:
    assert read_mains(text) == read


def test_cords_are_told_from_network_cords() -> None:
    assert is_cord("extension cord")
    assert is_cord("Power cord 14-3")
    assert not is_cord("patch cord")
    assert is_mains_word("nm, size to be asked")
    assert not is_mains_word("nm speaker")


def test_every_box_of_the_table_is_found_by_its_own_size() -> None:
    for box in STANDARD_BOXES:
        assert standard_box(box.size.replace("×", "x")) == box


@rows(
    ("text", "volume"),
    [
        ("4 x 4 x 1.5", 21.0),
        ("4 in square, 1-1/2 in deep", 21.0),
        ("4 square 1 1/2", 21.0),
        ('4" x 1-1/2" octagon', 15.5),
        ("3x2x3.5", 18.0),
        ("3 x 2 x 2-3/4 device box", 14.0),
        ("4-11/16 x 2-1/8", 42.0),
        ("4 x 2-1/8 x 2-1/8", 14.5),
    ],
)
def test_sizes_of_boxes_as_people_write_them(text: str, volume: float) -> None:
    box = standard_box(text)
    assert box is not None
    assert box.volume_in3 == volume


def test_a_size_that_could_be_two_boxes_names_none() -> None:
    assert standard_box("4 x 1-1/2") is None
    assert standard_box("") is None
    assert standard_box("shoe box") is None


@given(st.text(max_size=60))
def test_no_text_at_all_breaks_the_reading(text: str) -> None:
    """Whatever is typed, each reader gives a value or a sentence, and never anything else."""
    for reader in (read_size, read_device, read_wires):
        said = ""
        try:
            assert reader(text) is not None
        except BadValue as error:
            said = str(error)
        assert len(said) < 250
    read_mains(text)
    standard_box(text)
