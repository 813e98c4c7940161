"""The stops of cables by each condition: the nearest jobs on both sides of it."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.base import Record
from store.records.wall import Obstacle, Opening
from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.cable.cable_rules import cable_not_rated
from store.rules.cable.kind_rules import cable_out_of_wall_by_word, conductor_without_raceway
from store.rules.cable.place_rules import (
    cable_across_heater,
    raceway_across_heater,
    signal_in_power_box,
    signal_in_power_raceway,
)
from tests.jobs.cable_jobs import TODAY, box, cable, make, plain, told

TUBE = make(Raceway, "R1", start="B1", end="B2", length="10'", size="1-1/2")


def rated(kind: str, rating: str, **more: Any) -> list[str]:
    """How grave the jacket of a cable in the wall is."""
    return [each[1] for each in told(cable_not_rated, plain(TUBE, cable(kind=kind, rating=rating, **more)))]


def test_a_jacket_is_judged_of_what_is_in_use_in_the_wall_and_is_known() -> None:
    assert rated("14/2 speaker", "SPT-2") == ["stop"]
    for well in ({"retired": TODAY}, {"in_wall": False}):
        assert rated("14/2 speaker", "SPT-2", **well) == [], well
    assert rated("the blue one", "SPT-2") == []
    assert (rated("cat5e", "CMX"), rated("cat6a", "CMX")) == ([], ["stop"])  # thin enough for a dwelling, and not


def test_in_a_raceway_a_limited_jacket_will_do() -> None:
    assert rated("rg6", "CATVX") == ["stop"]
    assert rated("rg6", "CATVX", route="raceway", raceway="R1") == []
    assert rated("14/2 speaker", "SPT-2", route="raceway", raceway="R1") == ["stop"]


def test_what_a_jacket_lacks_is_told_with_its_words() -> None:
    (cord,) = cable_not_rated(plain(cable(kind="14/2 speaker", rating="SPT-2")))
    assert "which is a flexible cord" in cord.why
    assert cord.numbers["cord"]
    (other,) = cable_not_rated(plain(cable(kind="14/2 speaker", rating="AWM 2464")))
    assert "cord" not in other.numbers
    assert "is marked AWM 2464. In a wall it must be CL2, and" in other.why
    (none,) = cable_not_rated(plain(cable(kind="14/2 speaker", rating="")))
    assert none.why == "A cable of this type in a wall must be CL2."
    assert none.head == "No jacket rating entered"
    assert all(each.source for each in (cord, other, none))


CONDUCTOR = "thhn 12"


@pytest.mark.parametrize(("region", "source"), [("us", "NEC"), ("metric", "IEC 60364")])
def test_single_conductors_are_loose_unless_a_raceway_holds_them(region: str, source: str) -> None:
    def found(**more: Any) -> list[tuple[str, str, tuple[str, ...]]]:
        return told(conductor_without_raceway, plain(TUBE, cable(kind=CONDUCTOR, **more), region=region))

    loose = [("conductor_without_raceway", "stop", ("K1",))]
    assert found() == loose
    assert found(route="raceway") == loose
    assert found(raceway="R1", route="up and over") == loose
    assert found(route="raceway", raceway="R1") == []
    assert found(retired=TODAY) == []
    assert told(conductor_without_raceway, plain(cable(kind="12-2 nm"), region=region)) == []
    assert told(conductor_without_raceway, plain(cable(kind="the blue one"), region=region)) == []
    (one,) = conductor_without_raceway(plain(cable(kind=CONDUCTOR), region=region))
    assert source in one.source


def test_a_cable_out_of_the_wall_by_word_is_told_by_its_raceway_or_its_ends() -> None:
    (by_ends,) = cable_out_of_wall_by_word(plain(cable(in_wall=False)))
    assert "but B1 and B2 share no cabinet" in by_ends.why
    (by_tube,) = cable_out_of_wall_by_word(plain(TUBE, cable(in_wall=False, route="raceway", raceway="R1")))
    assert "R1 runs in the wall: B1 and B2" in by_tube.why
    assert told(cable_out_of_wall_by_word, plain(cable(in_wall=False, retired=TODAY))) == []


def in_box(what: str, *kinds: str, **more: Any) -> list[tuple[str, str, tuple[str, ...]]]:
    """What is told of a box in which cables of some kinds end."""
    ends = [cable(f"K{n}", kind, "", "B3") for n, kind in enumerate(kinds, 1)]
    return told(signal_in_power_box, plain(box("B3", "3'", "1'", what, **more), *ends))


def test_power_and_signal_in_one_box_by_its_kind_or_by_its_cables() -> None:
    assert in_box("receptacle", "cat6") == [("signal_in_power_box", "stop", ("B3", "K1"))]
    assert in_box("low-voltage", "cat6", "12-2 nm") == [("signal_in_power_box", "stop", ("B3", "K1", "K2"))]
    assert in_box("low-voltage", "cat6", "rg6") == []
    for none in (("receptacle", "12-2 nm"), ("receptacle", "fibre"), ("receptacle", "fibre", "12-2 nm"),
                 ("receptacle",), ("receptacle", "the blue one")):  # fmt: skip
        assert in_box(*none) == [], none
    assert in_box("receptacle", "cat6", divider=True) == []
    assert in_box("receptacle", "cat6", "12-2 nm", divider=True) == []


def in_tube(*cables: tuple[str, str]) -> list[tuple[str, str, tuple[str, ...]]]:
    """What is told of a raceway that cables of a kind and a route name."""
    runs = [cable(f"K{n}", kind, route=route, raceway="R1") for n, (kind, route) in enumerate(cables, 1)]
    return told(signal_in_power_raceway, plain(TUBE, *runs))


def test_power_and_signal_in_one_raceway_are_those_that_run_in_it() -> None:
    stop = [("signal_in_power_raceway", "stop", ("R1", "K1", "K2"))]
    assert in_tube(("cat6", "raceway"), ("12-2 nm", "raceway")) == stop
    for none in (
        (("cat6", "raceway"), ("rg6", "raceway")),
        (("12-2 nm", "raceway"), ("14-2 nm", "raceway")),
        (("fibre", "raceway"), ("12-2 nm", "raceway")),
        (("cat6", "up and over"), ("12-2 nm", "raceway")),
        (("cat6", "raceway"), ("12-2 nm", "up and over")),
    ):
        assert in_tube(*none) == [], none
    astray: Job = plain(TUBE, cable(route="raceway"), cable("K2", "12-2 nm", route="raceway", raceway="R1"))
    assert told(signal_in_power_raceway, astray) == []
    nowhere = [cable("K1", route="raceway"), cable("K2", "12-2 nm", route="raceway")]
    assert told(signal_in_power_raceway, plain(TUBE, *nowhere)) == []


def test_a_cable_of_no_known_kind_is_no_signal() -> None:
    assert in_box("low-voltage", "the blue one", "12-2 nm") == []
    assert in_box("low-voltage", "the blue one", "cat6") == []


def test_who_carries_power_is_said_of_one_and_of_several_with_the_rule_that_forbids_it() -> None:
    ends = [cable(f"K{n}", kind, "", "B3") for n, kind in enumerate(("cat6", "12-2 nm", "14-2 nm"), 1)]
    both = list(signal_in_power_box(plain(box("B3", "3'", "1'"), *ends)))
    one = list(signal_in_power_box(plain(box("B3", "3'", "1'"), *ends[:2])))
    assert "with K2 and K3, which carry power" in both[0].why
    assert "with K2, which carries power" in one[0].why
    assert {each.source for each in (*both, *one)} == {"NEC 2020 725.136"}


def test_what_is_drawn_in_later_shares_the_raceway_too() -> None:
    def later(kind: str, *words: str) -> list[str]:
        tube = make(Raceway, "R1", start="B1", end="B2", length="10'", size="1-1/2", later=words)
        job = plain(tube, cable("K1", kind, route="raceway", raceway="R1"))
        return [f"{each.numbers['signal']} + {each.numbers['power']}" for each in signal_in_power_raceway(job)]

    assert later("12-2 nm", "cat6", "2x hdmi", "nm-12-2") == ["cat6 for later, hdmi for later + K1, nm-12-2 for later"]
    assert later("cat6", "hdmi", "nm-12-2") == ["K1, hdmi for later + nm-12-2 for later"]
    assert later("12-2 nm", "fibre") == later("12-2 nm", "nm-12-2") == later("cat6", "hdmi") == []


def fireplace(x: str, y: str, width: str = "2'", height: str = "3'") -> Record:
    """An opening that a heater fills."""
    return make(Opening, "N1", name="fireplace", use="fireplace", wall="W1", x=x, y=y, width=width, height=height)


def test_where_a_cable_goes_through_a_heater_is_said_and_whether_its_height_was_guessed() -> None:
    guess = "No height entered for its run: that of its first end is used."
    (given,) = cable_across_heater(plain(fireplace("4'", "6"), cable(level="2'")))
    (taken,) = cable_across_heater(plain(fireplace("4'", "6"), cable()))
    (led,) = cable_across_heater(plain(fireplace("4'", "6"), cable(route="points", points=("5' / 2'",))))
    assert (guess in given.why, guess in taken.why, guess in led.why) == (False, True, False)
    assert given.numbers == {"across": "4'-0\" to 6'-0\"", "path": "10'-0\""}
    assert given.do.startswith("Run it by W1 ")
    window = make(Obstacle, "O1", wall="W1", what="window", x="4'", y="6", width="2'", height="3'")
    assert told(cable_across_heater, plain(window, cable())) == []
    assert told(raceway_across_heater, plain(window, make(Raceway, "R1", start="B1", end="B2"))) == []


def test_a_raceway_surely_runs_through_a_heater_by_its_points_its_route_or_both_its_ways() -> None:
    def found(**more: Any) -> list[tuple[str, bool]]:
        tube = make(Raceway, "R1", **{"size": "1", "start": "B1", "end": "B2", **more})
        job = plain(fireplace("4'", "4'"), tube)
        assert all(each.do.startswith("Run it by W1 8'-0\"/1'-0\"") for each in raceway_across_heater(job))
        return [
            (each.severity, "If it does that already, accept this." in each.do) for each in raceway_across_heater(job)
        ]

    assert found() == [("look", True)]
    assert found(points=("5' / 5'",)) == [("stop", False)]
    assert found(end="") == found(end="B9") == []
    over = plain(fireplace("7'", "6'", height="2'"), make(Raceway, "R1", start="B1", end="B2", route="up and over"))
    assert [each.severity for each in raceway_across_heater(over)] == ["stop"]
