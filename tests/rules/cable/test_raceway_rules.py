"""Raceways: fill, plugs, bends, string and holes; for each finding what raises it and what nearly does."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from store.measure.length import inches
from store.records.base import Record
from store.records.people import Wish
from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.cable import raceway_rules as rules
from store.rules.cable.raceway_figures import of_raceways
from store.rules.cable.raceways import bore_in, grommet_in, insides, tidy_size
from tests.jobs.cable_jobs import box, cable, job_of, make, plain, told, wall
from tests.rows import rows


def tube(size: str = "1", **more: Any) -> Raceway:
    """A raceway of ENT from B1 to B2."""
    return make(Raceway, "R1", **{"size": size, "start": "B1", "end": "B2", "length": "10'", "string": True, **more})


def filled(one: Raceway, *kinds: str, **more: Any) -> Job:
    """The raceway with a cable of each kind in it."""
    inside: list[Record] = [
        cable(f"K{at}", kind, route="raceway", raceway="R1", **more) for at, kind in enumerate(kinds, 1)
    ]
    return plain(one, *inside)


def figures(job: Job) -> dict[str, Any]:
    """The figures of R1."""
    return {name: value for tag, name, value in of_raceways(job) if tag == "R1"}


def test_fill_is_by_area_with_the_limit_for_so_many() -> None:
    """0.25 in cables in 1 in ENT (1.000 in inside): each takes 6.25 %; 53, 31 and 40 % are the limits."""
    for count, limit in ((1, 53), (2, 31), (3, 40)):
        found = figures(filled(tube(), *["cat6"] * count))
        assert found["fill_pct"] == pytest.approx(6.25 * count)
        assert found["limit_pct"] == pytest.approx(limit)
    # 40 % of it is 6.4 cables: with three in it three more go through.
    assert figures(filled(tube(), "cat6", "cat6", "cat6"))["more_cables"] == 3


def test_an_empty_raceway_is_asked_for_network_cable() -> None:
    found = figures(filled(tube()))
    assert (found["fill_pct"], found["more_cables"], found["more_of"]) == (0, 6, "cat6")


def test_a_diameter_that_is_noted_counts() -> None:
    assert figures(filled(tube(), "cat6", outside=inches(0.5)))["fill_pct"] == pytest.approx(25)
    assert figures(filled(tube("", inside="2"), "cat6"))["fill_pct"] == pytest.approx(1.5625, abs=0.01)


def test_an_overfull_raceway_is_told() -> None:
    assert told(rules.raceway_overfull, filled(tube(), *["cat6"] * 6)) == []
    assert told(rules.raceway_overfull, filled(tube(), *["cat6"] * 7)) == [
        ("raceway_overfull", "fix", ("R1", *(f"K{at}" for at in range(1, 8))))
    ]


def test_the_code_binds_power_and_practice_the_rest() -> None:
    signal = next(iter(rules.raceway_overfull(filled(tube("1/2"), "cat6", "cat6", "cat6"))))
    power = next(iter(rules.raceway_overfull(filled(tube("1/2"), "12-2 nm", "12-2 nm"))))
    assert signal.source.startswith("common practice")
    assert power.source == "NFPA 70 (NEC) Chapter 9, Table 1"


def test_a_plug_must_pass_beside_the_other_cables() -> None:
    """The bare HDMI plug is 14.6 mm, 0.575 in, across: it passes 3/4 ENT (0.760 in), not 1/2 (0.560 in)."""
    assert told(rules.plug_does_not_pass, filled(tube("1/2"), "hdmi")) == [("plug_does_not_pass", "fix", ("R1", "K1"))]
    assert told(rules.plug_does_not_pass, filled(tube("3/4"), "hdmi")) == [("plug_is_tight", "look", ("R1", "K1"))]
    # Its grip, as it usually is, is 24.2 mm, 0.952 in, across: it passes 1 in.
    assert told(rules.plug_does_not_pass, filled(tube("1"), "hdmi")) == []
    assert told(rules.plug_does_not_pass, filled(tube("1/2"), "cat6")) == []


def test_bends_add_up_to_four_right_angles_at_most() -> None:
    assert told(rules.too_many_bends, plain(tube(bends=360.0))) == []
    assert told(rules.too_many_bends, plain(tube(bends=361.0))) == [("too_many_bends", "fix", ("R1",))]
    for region, source in (("us", "NFPA 70 (NEC) 362.26"), ("metric", "common practice")):
        assert [each.source for each in rules.too_many_bends(plain(tube(bends=361.0), region=region))] == [source]
    assert figures(plain(tube(bends=270.0)))["bends_left"] == 90


def test_a_raceway_of_no_known_size_is_told() -> None:
    assert told(rules.raceway_unknown, plain(tube("7"))) == [("raceway_size_unknown", "look", ("R1",))]
    assert told(rules.raceway_unknown, plain(tube(""))) == [("raceway_size_unknown", "look", ("R1",))]
    assert all("ENT" not in each.do for each in rules.raceway_unknown(plain(tube(""), region="metric")))
    assert told(rules.raceway_unknown, plain(tube("", inside="1 1/4"))) == []
    assert told(rules.raceway_unknown, filled(tube(), "bell wire")) == [("raceway_fill_partial", "look", ("R1", "K1"))]
    assert told(rules.raceway_unknown, filled(tube(), "cat6")) == []


@rows("text", ["1-1/2", "1 1/2", '1 1/2"', "1-1/2 in", "1 1/2 inch", "1.5"])
def test_a_trade_size_is_known_by_the_ways_people_write_it(text: str) -> None:
    assert tidy_size(text) == "1-1/2"
    assert bore_in(tube(text)) == 1.570


def test_a_pull_string_is_asked_for() -> None:
    assert told(rules.raceway_without_string, plain(tube(string=False))) == [
        ("raceway_without_string", "look", ("R1",))
    ]
    assert told(rules.raceway_without_string, plain(tube())) == []
    assert told(rules.raceway_without_string, plain(tube(string=False, type="grommet"))) == []


def test_a_raceway_that_takes_nothing_more_is_told() -> None:
    assert told(rules.raceway_full_for_later, filled(tube(), *["cat6"] * 6)) == [
        ("raceway_full_for_later", "look", ("R1",))
    ]
    assert told(rules.raceway_full_for_later, filled(tube(), *["cat6"] * 5)) == []
    assert told(rules.raceway_full_for_later, filled(tube())) == []


@rows(
    ("size", "bearing", "told_of"),
    [
        # A stud 3-1/2 in deep may be bored 1.4 in when it carries (40 %), 2.1 in when not (60 %).
        ("1", "yes", False),  # 1.315 in outside
        ("1-1/4", "yes", True),  # 1.660 in
        ("1-1/4", "unknown", True),
        ("1-1/2", "no", False),  # 1.900 in
        ("2", "no", True),  # 2.375 in
    ],
)
def test_a_raceway_thicker_than_a_stud_may_be_bored_is_told(size: str, bearing: str, told_of: bool) -> None:
    job = job_of(wall(bearing=bearing), box("B1", "2'", "1'"), box("B2", "8'", "5'"), tube(size))
    found = told(rules.raceway_hole_large, job)
    assert found == ([("raceway_hole_large", "fix", ("R1", "W1"))] if told_of else [])


def test_a_raceway_within_a_bay_bores_nothing() -> None:
    job = job_of(wall(bearing="yes"), box("B1", "20", "1'"), box("B2", "20", "5'"), tube("2"))
    assert told(rules.raceway_hole_large, job) == []
    assert insides(job)["R1"].studs == 0


def test_a_grommet_is_the_next_that_leaves_room() -> None:
    assert grommet_in(1.0) == 1.5
    assert grommet_in(1.26) == 2.0
    assert grommet_in(9.0) is None


def test_a_hole_for_a_bundle_passes_the_grip_of_its_largest_plug() -> None:
    """A picture cable alone: the corners of a grip 21 by 12 mm lie 24.19 mm apart; its plug would take 14.6 mm."""
    found = figures(filled(tube("2"), "hdmi"))
    assert found["bundle_hole"].mm == pytest.approx(24.19, abs=0.01)
    assert found["plug_hole"].mm == pytest.approx(14.6, abs=0.1)
    assert found["grommet"] == inches(1.5)
    assert figures(filled(tube("2"), "hdmi", "hdmi"))["bundle_hole"] > found["bundle_hole"]


@rows(
    ("one", "kinds", "remedy"),
    [
        # 7 x 0.0491 in² of network cable: 0.344; 40 % of ENT 1-1/4 is 0.564. 2 in holds 26 (1.282), not 27.
        (tube("1"), ["cat6"] * 7, "Use ENT 1-1/4, or run a cable another way."),
        (tube("1"), ["cat6"] * 26, "Use ENT 2, or run a cable another way."),
        (tube("1"), ["cat6"] * 27, "No size of ENT is large enough: set a second one, or run a cable another way."),
        # By area 3/4 in would do for these two (31 % of 0.533 in²); the grip behind the plug wants 0.952 in.
        (tube("1/2", type="EMT"), ["hdmi", "cat6"], "Use EMT 1, or run a cable another way."),
        (tube("", type="other", inside="1"), ["cat6"] * 7, "Use a larger raceway, or run a cable another way."),
    ],
)
def test_the_size_that_would_do_is_named(one: Raceway, kinds: list[str], remedy: str) -> None:
    assert [each.remedy for each in rules.raceway_overfull(filled(one, *kinds))] == [remedy]


def test_two_plugs_are_pulled_and_not_only_laid() -> None:
    two = ("hdmi", "hdmi")
    for size in ("3/4", "1"):
        assert told(rules.plugs_hard_to_pull, filled(tube(size), *two)) == [
            ("plugs_hard_to_pull", "fix", ("R1", "K1", "K2"))
        ]
    assert not told(rules.plugs_hard_to_pull, filled(tube("1-1/4"), *two))
    # Bends ask for more: two sweeps are pulled through, three are asked about.
    assert not told(rules.plugs_hard_to_pull, filled(tube("1-1/2", bends=180.0), *two))
    assert told(rules.plugs_hard_to_pull, filled(tube("1-1/2", bends=270.0), *two))[0][1] == "look"
    # Of no trade size, it bends as a tube as wide does: 25 mm as 1 in, 36 mm as 1-1/2.
    assert told(rules.plugs_hard_to_pull, filled(tube("", type="other", inside="25 mm"), *two))[0][1] == "fix"
    assert not told(rules.plugs_hard_to_pull, filled(tube("", type="other", inside="36 mm"), *two))


def straight(size: str, *kinds: str, **more: Any) -> Job:
    """The raceway straight up, so that it has no bend but those entered."""
    inside = [cable(f"K{at}", kind, route="raceway", raceway="R1") for at, kind in enumerate(kinds, 1)]
    return job_of(wall(), box("B1", "20", "1'"), box("B2", "20", "5'"), tube(size, **more), *inside)


def test_one_plug_passes_an_inch_that_is_straight_and_is_asked_about_in_a_bend() -> None:
    """Grip 21 x 12 mm, 1.9 in stiff: on its corners 6.274 in against 6.25 in 1 in ENT, kept flat 6.154; 7.59 against
    7.92 in 1-1/4."""
    assert not told(rules.plugs_hard_to_pull, straight("1", "hdmi"))
    assert told(rules.plugs_hard_to_pull, straight("1", "hdmi", bends=90.0)) == [
        ("plugs_hard_to_pull", "look", ("R1", "K1"))
    ]
    assert not told(rules.plugs_hard_to_pull, straight("1-1/4", "hdmi", bends=90.0))
    assert not told(rules.plugs_hard_to_pull, straight("1", "cat6", bends=360.0))


def test_two_plugs_are_never_sent_into_one_inch() -> None:
    full = next(iter(rules.raceway_overfull(filled(tube("3/4"), "hdmi", "hdmi"))))
    assert full.do.startswith("Use ENT 1-1/4")
    for size in ("1/2", "3/4", "1"):
        for rule in (rules.plugs_hard_to_pull, rules.plug_does_not_pass):
            for found in rule(filled(tube(size), "hdmi", "hdmi")):
                assert found.do.startswith("Use ENT 1-1/4")


@rows(
    ("size", "inside", "later", "told_of", "does"),
    [
        # Network cable of 0.25 in takes 6.25 % of ENT 1: six are 37.5 % of 40, seven 43.75.
        ("1", ("cat6",) * 4, ("2x cat6",), "", ""),
        ("1", ("cat6",) * 4, ("cat6", "2 x cat6"), "Too small for later: 43.8% of 40%", "1-1/4"),
        # A picture cable beside two of network: 3/4 in ENT passes no grip of 0.952 in.
        ("3/4", ("cat6",), ("hdmi",), "Too small for later plugs", "1 "),
        ("1-1/4", ("cat6",), ("hdmi",), "", ""),
        ("1", ("cat6",), ("2x hdmi",), "Too small for later plugs", "1-1/4"),
        ("1-1/4", (), ("2x hdmi",), "", ""),
    ],
)
def test_what_is_planned_for_later_counts(
    size: str, inside: tuple[str, ...], later: tuple[str, ...], told_of: str, does: str
) -> None:
    job = straight(size, *inside, later=later)
    found = list(rules.raceway_small_for_later(job))
    assert [each.head for each in found] == ([told_of] if told_of else [])
    assert all(each.severity == "fix" and each.do.startswith(f"Use ENT {does}") for each in found)
    # Where it is planned, nobody has to be told that one more would not fit.
    assert not list(rules.raceway_full_for_later(job))
    assert figures(job)["later_fill_pct"] >= figures(job)["fill_pct"]


def test_a_wish_for_coming_years_that_names_the_raceway_counts_too() -> None:
    wish = make(Wish, "L1", what="A console over hdmi", years=3, served_by=("R1",))
    job = straight("3/4", "cat6").having(wish)
    assert [each.severity for each in rules.raceway_small_for_later(job)] == ["fix"]
    # Entered as well, it is the same cable; dropped or wanted now it is none for later.
    assert len(insides(straight("3/4", "cat6", later=("hdmi",)).having(wish))["R1"].later) == 1
    for other in ({"kept": "dropped"}, {"years": None}):
        assert not list(rules.raceway_small_for_later(job.having(msgspec.structs.replace(wish, **other))))


def test_a_cable_in_it_and_one_for_later_are_two_plugs() -> None:
    found = list(rules.plugs_hard_to_pull(straight("1", "hdmi", later=("hdmi",))))
    assert [(each.severity, each.tags) for each in found] == [("fix", ("R1", "K1"))]
    assert "for later: hdmi" in found[0].why


def test_what_is_no_cable_is_told_of() -> None:
    assert told(rules.raceway_later_unknown, plain(tube(later=("a lamp",)))) == [
        ("raceway_later_unknown", "look", ("R1",))
    ]
    assert not told(rules.raceway_later_unknown, plain(tube(later=("2x hdmi",))))
