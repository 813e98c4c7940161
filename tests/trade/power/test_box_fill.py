"""Box fill: the printed counts against the printed volumes, and the sum against a second way of counting."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.measured.citations import NEC_EDITIONS
from store.trade.power import tables_us
from store.trade.power.box_fill import (
    BoxContents,
    Cable,
    Device,
    box_fill,
    ground_allowances,
    line_text,
    standard_boxes_for,
    usable_in3,
)
from tests.rows import rows

GAUGES = st.sampled_from(tables_us.GAUGES_AWG)
DUPLEX_12 = Device("receptacle", 12)

cables = st.builds(
    Cable,
    gauge=GAUGES,
    conductors=st.integers(1, 4),
    ground=st.booleans(),
    how=st.sampled_from(["ends", "through", "looped", "stays"]),
)
devices = st.builds(Device, name=st.just("switch"), gauge=st.none() | GAUGES, gangs=st.integers(1, 2))
boxes = st.builds(
    BoxContents,
    cables=st.lists(cables, min_size=1, max_size=7).map(tuple),
    devices=st.lists(devices, max_size=3).map(tuple),
    internal_clamps=st.booleans(),
    fittings=st.lists(st.sampled_from(["luminaire stud", "hickey"]), max_size=3).map(tuple),
)


@rows("box", tables_us.STANDARD_BOXES)
def test_printed_counts_follow_from_printed_volumes(box: tables_us.StandardBox) -> None:
    """Table 314.16(A) counts are its volumes over the allowances of Table 314.16(B), rounded down."""
    counted = tuple(int(box.volume_in3 / tables_us.CONDUCTOR_IN3[gauge]) for gauge in tables_us.GAUGES_AWG)
    assert counted == box.most


@rows(
    ("count", "before_2020", "since_2020"),
    [(0, 0, 0), (1, 1, 1), (4, 1, 1), (5, 1, 1.25), (8, 1, 2), (10, 1, 2.5)],
)
def test_grounds_by_edition(count: int, before_2020: float, since_2020: float) -> None:
    """314.16(B)(5): one for all until 2017; from 2020 a quarter more for each beyond four."""
    assert ground_allowances(count, 2017) == before_2020
    assert ground_allowances(count, 2020) == since_2020
    assert ground_allowances(count, 2023) == since_2020


@given(boxes, st.sampled_from(NEC_EDITIONS))
def test_sum_agrees_with_a_list_of_single_items(contents: BoxContents, edition: int) -> None:
    """Counting item by item, each at its own volume, gives the same total as the grouped sum."""
    volume = tables_us.CONDUCTOR_IN3
    items: list[float] = []
    for cable in contents.cables:
        weight = {"ends": 1, "through": 1, "looped": 2, "stays": 0}[cable.how]
        items += [volume[cable.gauge]] * (weight * cable.conductors)
    thickest = max(volume[cable.gauge] for cable in contents.cables)
    for device in contents.devices:
        items += [thickest if device.gauge is None else volume[device.gauge]] * (2 * device.gangs)
    items += [thickest] * (contents.internal_clamps + len(set(contents.fittings)))
    grounds = [volume[cable.gauge] for cable in contents.cables if cable.ground and cable.how != "stays"]
    if grounds:
        items.append(max(grounds))
        if edition >= 2020:
            items += [max(grounds) / 4] * (len(grounds) - 4)
    assert box_fill(contents, edition).total_in3 == sum(items)


@given(boxes, cables, st.sampled_from(NEC_EDITIONS))
def test_another_cable_never_takes_less(contents: BoxContents, extra: Cable, edition: int) -> None:
    fuller = BoxContents((*contents.cables, extra), contents.devices, contents.internal_clamps, contents.fittings)
    assert box_fill(fuller, edition).total_in3 >= box_fill(contents, edition).total_in3


@given(boxes, st.sampled_from(NEC_EDITIONS))
def test_a_person_can_follow_the_printed_sum(contents: BoxContents, edition: int) -> None:
    """Each printed line multiplies out as it says, and the printed subtotals add up to the total."""
    fill = box_fill(contents, edition)
    added = 0.0
    for line in fill.lines:
        found = re.search(r": ([\d.]+) × ([\d.]+) = ([\d.]+) in³$", line_text(line))
        assert found is not None
        count, each, subtotal = map(float, found.groups())
        assert count * each == pytest.approx(subtotal, abs=0.006)
        added += subtotal
        assert line.section.startswith(f"NEC {edition} 314.16(B)(")
    assert added == pytest.approx(fill.total_in3, abs=0.006 * max(1, len(fill.lines)))


def test_worked_sum_reads_like_the_code() -> None:
    fill = box_fill(BoxContents((Cable(12, 2), Cable(12, 2)), (DUPLEX_12,), internal_clamps=True), 2020)
    assert [line_text(line) for line in fill.lines] == [
        "conductors ended or spliced here, 12 AWG: 4 × 2.25 = 9.00 in³",
        "all clamps inside, 12 AWG: 1 × 2.25 = 2.25 in³",
        "receptacle, 12 AWG: 2 × 2.25 = 4.50 in³",
        "2 grounding conductors, 12 AWG: 1 × 2.25 = 2.25 in³",
    ]
    assert fill.total_in3 == 18.0


def test_device_goes_by_its_own_conductor_and_clamps_by_the_thickest() -> None:
    """A 14 AWG switch in a box with 12 AWG: 2 × 2.00 for the switch, 2.25 for the clamps."""
    contents = BoxContents((Cable(12, 2), Cable(14, 2)), (Device("switch", 14),), internal_clamps=True)
    by_what = {line.what: line.subtotal_in3 for line in box_fill(contents, 2023).lines}
    assert by_what["switch"] == 4.0
    assert by_what["all clamps inside"] == 2.25
    assert by_what["2 grounding conductors"] == 2.25


def test_pigtail_is_shown_and_counts_for_nothing() -> None:
    contents = BoxContents((Cable(12, 2), Cable(12, 3, ground=False, how="stays")))
    fill = box_fill(contents, 2020)
    assert fill.total_in3 == box_fill(BoxContents((Cable(12, 2),)), 2020).total_in3
    assert any(line.subtotal_in3 == 0 and line.count == 0 for line in fill.lines)


def test_bonding_jumper_from_outside_counts_as_a_ground() -> None:
    contents = BoxContents((Cable(14, 2),) * 4, extra_grounds=(10,))
    line = box_fill(contents, 2020).lines[-1]
    assert (line.count, line.gauge, line.subtotal_in3) == (1.25, 10, 3.125)


def test_next_box_that_would_do_is_the_smallest() -> None:
    """18.0 in³ is exactly held by an 18.0 box; 18.25 needs the 21.0 square."""
    assert standard_boxes_for(18.0)[0].volume_in3 == 18.0
    assert standard_boxes_for(18.25)[0].size == "4 × 1-1/2 square"
    assert standard_boxes_for(22, ["device"]) == ()
    assert standard_boxes_for(50) == ()
    volumes = [box.volume_in3 for box in standard_boxes_for(0, ["device", "square", "round", "masonry"])]
    assert len(volumes) == len(tables_us.STANDARD_BOXES)
    assert volumes == sorted(volumes)


def test_rings_add_their_marking_and_dividers_take_their_share() -> None:
    assert usable_in3(21.0, rings_in3=[3.0], barriers=["metal"]) == 23.5
    assert usable_in3(34.0, barriers=["nonmetallic"]) == 33.0
    with pytest.raises(ValueError, match="usable volume"):
        usable_in3(0.5, barriers=["nonmetallic"])


@rows(
    "contents",
    [
        BoxContents((Cable(11, 2),)),
        BoxContents((Cable(12, -1),)),
        BoxContents(internal_clamps=True),
        BoxContents((Cable(12, 2),), (Device("switch", 12, gangs=0),)),
        BoxContents((), (Device("switch", None),), extra_grounds=(12,)),
    ],
)
def test_what_cannot_be_counted_is_refused(contents: BoxContents) -> None:
    with pytest.raises(ValueError, match=r"\w"):
        box_fill(contents, 2020)


def test_unknown_edition_is_refused() -> None:
    with pytest.raises(ValueError, match="2011"):
        box_fill(BoxContents((Cable(12, 2),)), 2011)
