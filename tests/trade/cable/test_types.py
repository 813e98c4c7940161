"""Every kind of cable carries figures that hang together, each with its source."""

from __future__ import annotations

from store.measure.length import FOOT_NM
from store.trade.cable.jackets import SUBSTITUTES
from store.trade.cable.length import METRE_NM
from store.trade.cable.types import CABLE_TYPES, CableType, sold_lengths_nm
from tests.rows import rows


@rows("cable", CABLE_TYPES.values())
def test_figures_are_possible_and_have_a_source(cable: CableType) -> None:
    assert 0 < cable.outside_nm < 25_400_000
    assert 4 <= cable.bend_multiple <= 20
    assert cable.needs in SUBSTITUTES
    for source in (cable.outside_source, cable.bend_source, cable.needs_source, cable.sold_source, cable.limit_source):
        assert len(source) > 10
    assert (cable.plug_mm is None) == (cable.plug_source == "")
    assert not cable.assembled or cable.sold_feet or cable.sold_metric


@rows("cable", CABLE_TYPES.values())
def test_lengths_sold_ascend(cable: CableType) -> None:
    for lengths in (cable.sold_feet, cable.sold_metric):
        assert list(lengths) == sorted(set(lengths))
    assert all(one % (FOOT_NM // 2) == 0 for one in cable.sold_feet)
    assert all(one % (METRE_NM // 2) == 0 for one in cable.sold_metric)


def test_every_family_that_a_media_wall_needs_is_there() -> None:
    families = {one.family for one in CABLE_TYPES.values()}
    assert families == {
        "line voltage", "category", "coax", "hdmi", "speaker", "line", "fibre", "usb", "infrared", "control",
    }  # fmt: skip


def test_the_other_system_is_offered_where_one_has_no_lengths() -> None:
    control, hdmi, fibre = CABLE_TYPES["control-18-2"], CABLE_TYPES["hdmi"], CABLE_TYPES["fibre"]
    assert sold_lengths_nm(control, metric=True) == control.sold_feet
    assert sold_lengths_nm(hdmi, metric=True) == hdmi.sold_metric != hdmi.sold_feet
    assert sold_lengths_nm(fibre, metric=False) == fibre.sold_metric


def test_only_active_cable_has_a_source_end() -> None:
    assert {one.key for one in CABLE_TYPES.values() if one.directional} == {"hdmi-optical", "hdmi-active"}
