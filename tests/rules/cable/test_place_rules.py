"""Findings about where cables lie: for each, the smallest job that raises it and the nearest that does not."""

from __future__ import annotations

from typing import Any

import msgspec

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.wall import Obstacle, Opening
from store.records.whole import Job
from store.records.wiring import Circuit, Raceway
from store.rules.cable import place_rules as rules
from store.rules.cable.crossing_rules import cable_through_hole
from store.rules.cable.routes import routes
from store.rules.signal.signal_rules import quick_connect_without_input
from tests.jobs.cable_jobs import TODAY, at, box, cable, job_of, make, plain, put, told, wall
from tests.rows import rows


def beside(apart: str, **values: str) -> Job:
    """A power cable at 3 ft from 1 ft to 9 ft, a network cable so much above it."""
    return plain(
        box("B3", "1'", "3'", "receptacle"),
        box("B4", "9'", "3'", "receptacle"),
        cable("K2", "12-2 nm", "B3", "B4"),
        cable(level=apart, **values),
    )


@rows(("level", "told_of"), [("37", True), ("41", True), ("42", False), ("32", True), ("30", False)])
def test_signal_beside_power_is_told_within_six_inches(level: str, told_of: bool) -> None:
    found = told(rules.signal_beside_power, beside(level))
    assert found == ([("signal_beside_power", "look", ("K1", "K2"))] if told_of else [])


def test_fibre_a_crossing_and_a_run_over_the_top_are_not_told() -> None:
    assert told(rules.signal_beside_power, beside("37", kind="fibre")) == []
    assert told(rules.signal_beside_power, beside("37", route="up and over")) == []
    crossing = plain(
        box("B3", "5'", "1'", "receptacle"), box("B4", "5'", "7'", "receptacle"), cable("K2", "12-2 nm", "B3", "B4"),
        cable(level="3'"),
    )  # fmt: skip
    assert told(rules.signal_beside_power, crossing) == []


def test_a_crossing_is_square_also_where_the_height_of_one_is_how_far_along_the_other_lies() -> None:
    """Level at 3 ft, upright at 3 ft from the left: two numbers that are alike, and two directions."""
    upright = plain(
        box("B3", "3'", "1'", "receptacle"), box("B4", "3'", "7'", "receptacle"), cable("K2", "12-2 nm", "B3", "B4"),
        cable(level="3'"),
    )  # fmt: skip
    assert told(rules.signal_beside_power, upright) == []


def test_the_nearest_power_cable_is_the_one_that_is_told() -> None:
    more = [
        box("B5", "1'", "40", "receptacle"), box("B6", "9'", "40", "receptacle"), cable("K3", "12-2 nm", "B5", "B6"),
    ]  # fmt: skip
    job = job_of(*(each for table in beside("38").tables.values() for each in table.values()), *more)
    (finding,) = rules.signal_beside_power(job)
    assert finding.tags in (("K1", "K2"), ("K1", "K3"))
    assert finding.numbers == {"apart": '2"'}


def heater(x: str, y: str = "1'") -> tuple[Record, ...]:
    """A fireplace opening 2 ft wide and 3 ft high."""
    return (make(Opening, "N1", name="fireplace", use="fireplace", wall="W1", x=x, y=y, width="2'", height="3'"),)


@rows(
    ("level", "x", "told_of"),
    [("2'", "4'", True), ("4'", "4'", False), ("3' 11", "4'", True), ("2'", "9'", False), ("1'", "4'", False)],
)
def test_a_cable_through_the_place_of_a_heater_is_told(level: str, x: str, told_of: bool) -> None:
    found = told(rules.cable_across_heater, plain(*heater(x), cable(level=level)))
    assert found == ([("cable_across_heater", "stop", ("K1", "N1"))] if told_of else [])


def test_every_heater_on_the_way_is_named() -> None:
    second = make(Opening, "N2", name="stove", use="fireplace", wall="W1", x="6' 6", y="1'", width="1'", height="3'")
    (both,) = rules.cable_across_heater(plain(*heater("4'"), second, cable(level="2'")))
    assert (both.tags, "It crosses N2 stove as well." in both.why) == (("K1", "N1"), True)
    (one,) = rules.cable_across_heater(plain(*heater("4'"), cable(level="2'")))
    assert "as well" not in one.why
    tube = make(Raceway, "R1", size="1", start="B1", end="B2", points=("3'/2'", "7' 9/2'"))
    (met,) = rules.raceway_across_heater(plain(*heater("4'"), second, tube))
    assert "It crosses N2 stove as well." in met.why


def test_the_feed_of_the_heater_and_a_run_in_the_cabinet_are_not_told() -> None:
    feed = plain(*heater("4'"), box("B3", "5'", "2'", "junction"), cable(kind="12-2 nm", end="B3", level="2'"))
    assert told(rules.cable_across_heater, feed) == []
    assert told(rules.cable_across_heater, plain(*heater("4'"), cable(level="2'", in_wall=False))) == []


def test_a_raceway_through_the_place_of_a_heater_is_told() -> None:
    """It is drawn at the height of its higher end, 5 ft; where both ends are as high it surely goes there."""
    tube = make(Raceway, "R1", size="1", start="B1", end="B2")
    high = plain(*heater("4'", "4'"), tube)
    assert told(rules.raceway_across_heater, high) == [("raceway_across_heater", "look", ("R1", "N1"))]
    assert told(rules.raceway_across_heater, plain(*heater("4'", "6"), tube)) == []
    across = make(Raceway, "R1", size="1", start="B1", end="B3")
    sure = plain(*heater("4'", "6"), box("B3", "8'", "1'"), across)
    assert told(rules.raceway_across_heater, sure) == [("raceway_across_heater", "stop", ("R1", "N1"))]
    assert told(rules.raceway_across_heater, plain(*heater("9'"), tube)) == []
    assert told(rules.raceway_across_heater, plain(tube)) == []


def test_the_clearances_of_a_heater_count() -> None:
    opening = make(Opening, "N1", name="bay", use="other", wall="W1", x="4'", y="1'", width="2'", height="3'")
    device = make(Equipment, "E1", name="heater", heats=True, opening="N1", width="20", height="12")
    job = plain(opening, device, cable(level="2' 6"))
    assert told(rules.cable_across_heater, job) == []
    wide = make(Equipment, "E1", name="heater", heats=True, opening="N1", width="20", height="12", clear_top=at("7"))
    assert told(rules.cable_across_heater, plain(opening, wide, cable(level="2' 6"))) == [
        ("cable_across_heater", "stop", ("K1", "E1"))
    ]


def test_signal_in_a_power_box_wants_a_divider() -> None:
    def job(**values: Any) -> Job:
        return plain(box("B3", "3'", "1'", "receptacle", **values), cable(end="B3"), cable("K2", "12-2 nm", "", "B3"))

    assert told(rules.signal_in_power_box, job()) == [("signal_in_power_box", "stop", ("B3", "K1", "K2"))]
    assert told(rules.signal_in_power_box, job(divider=True)) == []
    assert told(rules.signal_in_power_box, plain(cable())) == []


def test_a_jack_in_a_power_box_wants_a_divider_before_any_cable_is_planned() -> None:
    def job(device: str, **values: Any) -> Job:
        return plain(box("B3", "3'", "1'", "receptacle", devices=("receptacle TR 12", device)), **values)

    assert told(rules.signal_in_power_box, job("hdmi jack")) == [("signal_in_power_box", "stop", ("B3",))]
    assert told(rules.signal_in_power_box, job("wall plate")) == []
    abroad = next(iter(rules.signal_in_power_box(job("RJ45 jack", region="metric"))))
    assert abroad.source.startswith("BS 7671:2018 528.1")


def test_power_and_signal_never_share_a_raceway() -> None:
    tube = make(Raceway, "R1", start="B1", end="B2", length="10'", size="1-1/2")

    def job(route: str) -> Job:
        return plain(tube, cable(route="raceway", raceway="R1"), cable("K2", "12-2 nm", route=route, raceway="R1"))

    assert told(rules.signal_in_power_raceway, job("raceway")) == [
        ("signal_in_power_raceway", "stop", ("R1", "K1", "K2"))
    ]
    assert told(rules.signal_in_power_raceway, job("up and over")) == []
    kept = msgspec.structs.replace(tube, later=("2x cat6",))
    alone = plain(kept, cable("K2", "12-2 nm", route="raceway", raceway="R1"))
    assert told(rules.signal_in_power_raceway, alone) == [("signal_in_power_raceway", "stop", ("R1", "K2"))]
    assert told(rules.signal_in_power_raceway, put(alone, msgspec.structs.replace(tube, later=("12-2 nm",)))) == []


def test_a_place_behind_the_board_wants_a_spare_or_a_raceway() -> None:
    assert told(rules.no_way_for_later, plain(cable())) == [
        ("no_way_for_later", "look", ("B1", "B2", "K1")),
    ]
    assert told(rules.no_way_for_later, plain(cable(), cable("K2", spare=True))) == []
    assert told(rules.no_way_for_later, plain(cable(), make(Raceway, "R1", start="B1", end="B2"))) == []
    assert told(rules.no_way_for_later, plain(cable(kind="14/2 speaker"))) == []
    assert told(rules.no_way_for_later, plain(cable(in_wall=False))) == []


def test_a_quick_connect_wants_a_cable() -> None:
    bare = plain(box("B3", "3'", "1'", "quick-connect"))
    assert told(quick_connect_without_input, bare) == [("quick_connect_without_input", "fix", ("B3",))]
    assert told(quick_connect_without_input, plain(box("B3", "3'", "1'", "quick-connect"), cable(end="B3"))) == []


def test_an_answer_that_was_doubted_in_vain_is_asked_for_again() -> None:
    """Warm as cold: after the home run of another job was judged, a heater with another clearance is told."""
    feed = cable(kind="nm-12-2", rating="NM-B", end="")
    base = plain(feed, make(Circuit, "C1", name="media", breaker="20", length="40'"))
    window = make(Obstacle, "O1", wall="W1", what="window", x="1' 6", y="3'", width="2'", height="2'")
    over = put(put(base, box("B1", "2'", "1'", "receptacle", circuit="C1")), window)
    assert routes(over)["K1"].legs
    assert list(cable_through_hole(put(over, msgspec.structs.replace(feed, route="up and over"))))

    def hot(**more: Any) -> Job:
        opening = make(Opening, "N1", name="bay", use="other", wall="W1", x="4'", y="1'", width="2'", height="3'")
        device = make(Equipment, "E1", name="heater", heats=True, opening="N1", width="20", height="12", **more)
        return plain(opening, device, cable(level="2' 6"))

    assert not told(rules.cable_across_heater, hot())
    assert told(rules.cable_across_heater, hot(clear_top=at("7")))


def test_for_later_counts_what_is_in_use_in_the_wall_and_leads_there() -> None:
    """Each of these alone is no reason to tell, or takes none away."""
    rule = rules.no_way_for_later
    # A cable that is out of use asks for nothing; what stands after it on the list still does.
    assert told(rule, plain(cable(retired=TODAY))) == []
    assert told(rule, plain(cable("K0", retired=TODAY), cable())) == [("no_way_for_later", "look", ("B1", "B2", "K1"))]
    # A spare that is out of use is no way, nor is one that leads elsewhere.
    assert told(rule, plain(cable(), cable("K2", spare=True, retired=TODAY))) != []
    other = box("B3", "10'", "1'")
    assert told(rule, plain(cable(), other, cable("K2", spare=True, start="B3", end="B1"))) == [
        ("no_way_for_later", "look", ("B2", "K1"))
    ]
    # One that lies in a raceway can be pulled again, whether the raceway is entered or only meant.
    assert told(rule, plain(cable(), cable("K2", kind="14/2 speaker", route="raceway"))) == []
    # Both families that go out of date, and no other; two cables between the same places are told once.
    assert told(rule, plain(cable(kind="hdmi"))) == [("no_way_for_later", "look", ("B1", "B2", "K1"))]
    assert told(rule, plain(cable(kind="rg6"))) == []
    assert told(rule, plain(cable(), cable("K2"))) == [("no_way_for_later", "look", ("B1", "B2", "K1", "K2"))]
    # An end that is not entered is no place.
    assert told(rule, plain(cable(end=""))) == [("no_way_for_later", "look", ("B1", "K1"))]
    # A box in an opening is reached with the opening.
    inside = make(Opening, "N1", name="niche", use="equipment", wall="W1", x="90", y="50", width="20", height="20")
    assert told(rule, plain(cable(), inside)) != []


def test_power_beside_for_less_than_what_is_looked_at_is_not_told() -> None:
    def pair(right: str) -> Job:
        return job_of(
            wall(width="30'"), box("B1", "1'", "40"), box("B2", "20'", "40"),
            box("B3", "1'", "36", "receptacle"), box("B4", right, "36", "receptacle"),
            cable("K2", "12-2 nm", "B3", "B4", level="36"), cable(level="40"),
        )  # fmt: skip

    assert told(rules.signal_beside_power, pair("18")) == []
    assert told(rules.signal_beside_power, pair("19")) == [("signal_beside_power", "look", ("K1", "K2"))]
    assert told(rules.signal_beside_power, pair("19'")) == [("signal_beside_power", "look", ("K1", "K2"))]


def test_of_several_power_cables_as_near_the_first_by_its_tag_is_told() -> None:
    job = job_of(
        wall(), box("B1", "1'", "40"), box("B2", "9'", "40"), box("B3", "1'", "36", "receptacle"),
        box("B4", "9'", "36", "receptacle"), box("B5", "1'", "44", "receptacle"), box("B6", "9'", "44", "receptacle"),
        cable("K3", "12-2 nm", "B3", "B4", level="36"), cable("K2", "12-2 nm", "B5", "B6", level="44"),
        cable(level="40"),
    )  # fmt: skip
    assert told(rules.signal_beside_power, job) == [("signal_beside_power", "look", ("K1", "K2"))]
    nearer = put(job, box("B3", "1'", "37", "receptacle"))
    nearer = put(put(nearer, box("B4", "9'", "37", "receptacle")), cable("K3", "12-2 nm", "B3", "B4", level="37"))
    assert told(rules.signal_beside_power, nearer) == [("signal_beside_power", "look", ("K1", "K3"))]
