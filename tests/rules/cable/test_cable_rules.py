"""Findings about single cables: for each, the smallest job that raises it and the nearest that does not."""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.length import FOOT_NM, INCH_NM
from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.cable import cable_rules as rules
from store.rules.cable.cable_figures import of_cables
from store.rules.cable.kinds import kind_named
from store.rules.cable.lengths import Offer, needs, read_offer
from store.rules.core.figures import figures
from store.rules.core.figures import plain as as_json
from store.rules.signal import run_rules
from store.rules.signal.limits import coax_loss
from store.trade.cable.kinds import KINDS
from tests.jobs.cable_jobs import at, box, cable, job_of, make, plain, told, wall
from tests.rows import rows

INCH = FOOT_NM // 12


@rows(
    ("text", "key"),
    [
        ("cat6", "cat6"), ("Cat 6A", "cat6a"), ("category 5e UTP", "cat5e"), ("RG-6", "rg6"), ("rg6 quad", "rg6-quad"),
        ("12-2 nm", "nm-12-2"), ("14/2 NM-B", "nm-14-2"), ("12/3 nm", "nm-12-3"), ("14/2 speaker", "speaker-14-2"),
        ("speaker 16/2", "speaker-16-2"), ("16-2 speaker wire", "speaker-16-2"), ("HDMI", "hdmi"),
        ("optical HDMI", "hdmi-optical"), ("hdmi aoc", "hdmi-optical"), ("fiber", "fibre"), ("usb 3", "usb"),
        ("IR", "infrared"), ("18/2 control", "control-18-2"), ("2.5 mm2 twin and earth", "flat-2.5"),
        ("patch cord", "patch"), ("cat6 patch cable", "patch"), ("HDMI 2.1", "hdmi"), ("passive HDMI", "hdmi"),
        ("active HDMI cable", "hdmi-active"), ("16 AWG speaker wire", "speaker-16-2"), ("18/2 speaker", "speaker-18-2"),
        ("14 gauge speaker wire", "speaker-14-2"), ("14/4 speaker", "speaker-14-4"), ("RG-11", "rg11"),
        ("optical audio cable", "toslink"), ("subwoofer cable", "line"), ("RG-6 quad-shield coax", "rg6-quad"),
    ],
)  # fmt: skip
def test_a_kind_is_known_by_the_ways_people_write_it(text: str, key: str) -> None:
    kind = kind_named(text)
    assert kind is not None
    assert kind.key == key


@rows("text", ["", "lamp cord", "cat7x", "99-2 nm", "wire"])
def test_what_is_no_kind_is_not_taken_for_one(text: str) -> None:
    assert kind_named(text) is None


def test_every_kind_is_known_by_its_own_key() -> None:
    assert all(kind_named(key) is kind for key, kind in KINDS.items())


def test_an_unknown_kind_is_told_once_for_all_its_cables() -> None:
    out: dict[str, Any] = {"kind": "bell wire", "in_wall": False}
    job = plain(cable(**out), cable("K2", **out), cable("K3", kind="x"))
    assert told(rules.cable_kind_unknown, job) == [("cable_kind_unknown", "look", ("K1", "K2"))]
    assert told(rules.cable_kind_unknown, plain(cable())) == []


# --- rating ---


@rows(
    ("kind", "rating", "found"),
    [
        ("14/2 speaker", "SPT-2", ("cable_not_rated", "stop")),
        ("14/2 speaker", "CL2", None),
        ("14/2 speaker", "CMP", None),
        ("cat6", "CL3", ("cable_not_rated", "stop")),
        ("cat6", "CM", None),
        ("cat6", "c(UL)us CMR/FT4", None),
        ("14/2 OFC", "c(UL)us CL3 FT4", None),
        ("12-2 nm", "Type NM-B 600V", None),
        ("Cat6 U/UTP 23AWG CMR", "", None),  # the jacket typed with the type
        ("cat6", "in-wall", ("cable_not_rated", "stop")),
        ("cat6", "AWM 20276 VW-1", ("cable_not_rated", "stop")),
        ("hdmi", "CL3 c(ETL)us", None),
        ("MC 12/2", "MC", None),
        ("cat6", "", ("cable_rating_not_noted", "fix")),
        ("rg6", "CATVX", ("cable_not_rated", "stop")),  # 0.272 in is not thinner than 1/4 in
        ("fibre", "OFNR", None),
        ("12-2 nm", "NM-B", None),
        ("12-2 nm", "CL2", ("cable_not_rated", "stop")),
    ],
)
def test_a_jacket_must_be_one_for_the_wall(kind: str, rating: str, found: tuple[str, str] | None) -> None:
    wanted = [(*found, ("K1",))] if found else []
    assert told(rules.cable_not_rated, plain(cable(kind=kind, rating=rating))) == wanted
    assert told(rules.cable_not_rated, plain(cable(kind=kind, rating=rating, in_wall=False))) == []


def test_the_order_of_substitution_is_the_remedy() -> None:
    (finding,) = rules.cable_not_rated(plain(cable(kind="14/2 speaker", rating="SPT-2")))
    assert "CL2 or better (like CL2P, CL2R, CL3, CL3P" in finding.remedy
    assert "725.154" in finding.source


def test_jackets_of_the_american_tables_are_not_asked_for_elsewhere() -> None:
    assert told(rules.cable_not_rated, plain(cable(rating=""), region="metric")) == []


# --- lengths ---


def test_cables_without_a_length_are_told_together() -> None:
    job = plain(cable(end=""), cable("K2", start=""), cable("K3"))
    assert told(rules.cable_length_unknown, job) == [("cable_length_unknown", "look", ("K1", "K2"))]
    assert told(rules.cable_length_unknown, plain(cable(), cable("K2", end="", measured="5'"))) == []


def test_a_point_that_cannot_be_read_is_told() -> None:
    assert told(rules.cable_points_unreadable, plain(cable(route="points", points=("5'/x",)))) == [
        ("cable_points_unreadable", "fix", ("K1",))
    ]
    assert told(rules.cable_points_unreadable, plain(cable(route="points", points=("5'/2'",)))) == []
    assert told(rules.cable_points_unreadable, plain(cable(sold=("a reel",)))) == [
        ("cable_lengths_unreadable", "fix", ("K1",))
    ]
    assert told(rules.cable_points_unreadable, plain(cable(sold=("250 ft 49.90",)))) == []


def test_a_corner_that_nobody_noted_is_told_once_for_two_walls() -> None:
    def job(**noted: str) -> Job:
        ends = (box("B1", "12'", "1'"), box("B2", "3'", "1'", on="W2"))
        return job_of(wall(**noted), wall("W2"), *ends, cable(), cable("K2", start="B2", end="B1"))

    assert told(rules.corner_taken, job()) == [("corner_taken", "look", ("W1", "W2", "K1", "K2"))]
    assert told(rules.corner_taken, job(meets_right="W2")) == []


def test_notes_of_corners_that_cannot_all_be_true_are_told() -> None:
    walls = (wall(meets_right="W2"), wall("W2"), wall("W3", meets_right="W2"))
    assert told(rules.corners_at_odds, job_of(*walls)) == [("corners_at_odds", "fix", ("W3", "W2"))]
    assert told(rules.corners_at_odds, job_of(wall(meets_left="W1"))) == [("corners_at_odds", "fix", ("W1",))]
    agreed = (wall(meets_right="W2"), wall("W2", meets_left="W1"))
    assert told(rules.corners_at_odds, job_of(*agreed)) == []


def test_a_cable_longer_than_any_sold_is_told() -> None:
    # 50 ft is the longest copper picture cable sold: 41 ft and its slack fit, 44 ft do not.
    job = plain(cable(kind="hdmi", measured="44'"), cable("K2", kind="hdmi", measured="43'"))
    assert [needs(job)[tag].cut for tag in ("K1", "K2")] == [51 * FOOT_NM, 50 * FOOT_NM]
    assert told(rules.no_length_sold, job) == [("no_length_sold", "fix", ("K1",))]
    spool = plain(cable(sold=("15 ft 9.00",)), cable("K2", sold=("16 ft 9.00",)))
    assert needs(spool)["K1"].cut == 13 * FOOT_NM
    short = plain(cable(sold=("12 ft 9.00",)))
    assert told(rules.no_length_sold, spool) == []
    assert told(rules.no_length_sold, short) == [("no_length_sold", "fix", ("K1",))]


@rows(
    ("kind", "measured", "carries", "found"),
    [
        ("cat6", "91 m", "", ("cable_too_long", "fix")),
        ("cat6", "89 m", "", ("cable_nearly_too_long", "look")),
        ("cat6", "80 m", "", None),
        ("cat6", "56 m", "10 Gbit/s", ("cable_too_long", "fix")),
        ("cat6", "48 m", "10 Gbit/s", None),
        ("cat6a", "80 m", "10 Gbit/s", None),
        ("cat5e", "10 m", "10 Gbit/s", ("cable_too_long", "fix")),
        ("cat5e", "10 m", "1000 Mbit/s", None),
        ("usb", "5.1 m", "", ("cable_too_long", "fix")),
        ("usb", "3 m", "", None),
    ],
)
def test_a_run_longer_than_its_kind_carries_is_told(
    kind: str, measured: str, carries: str, found: tuple[str, str] | None
) -> None:
    job = plain(cable(kind=kind, measured=measured, carries=carries))
    assert told(rules.cable_too_long, job) == ([(*found, ("K1",))] if found else [])


@rows(
    ("measured", "carries", "kind", "told_of"),
    [
        ("8'", "18 Gbit/s", "hdmi", ""),  # 12 ft bought, 3.7 m
        ("16'", "18 Gbit/s", "hdmi", "look"),  # 20 ft, 6.1 m: try it
        ("23'", "18 Gbit/s", "hdmi", "fix"),  # 30 ft, 9.1 m: beyond passive copper
        ("11'", "4K 120", "hdmi", "look"),  # 15 ft, 4.6 m at 32 Gbit/s: try it
        ("14'", "4K 120", "hdmi", "fix"),  # 20 ft, 6.1 m
        ("8'", "48 Gbit/s", "hdmi", "look"),  # 3.7 m at 48: try it
        ("16'", "48 Gbit/s", "hdmi-optical", ""),
        ("4'", "", "hdmi", ""),
    ],
)
def test_advice_on_copper_picture_cable_goes_by_length_and_rate(
    measured: str, carries: str, kind: str, told_of: str
) -> None:
    found = told(run_rules.picture_cable_long, plain(cable(kind=kind, measured=measured, carries=carries)))
    assert found == ([("picture_cable_long", told_of, ("K1",))] if told_of else [])


@rows(
    ("kind", "measured", "carries", "told_of"),
    [
        # The longest runs by the 5 % rule: 16 AWG at 8 ohm 48.83 ft, at 4 ohm 24.4 ft; 14 AWG at 8 ohm 77.7 ft.
        ("16/2 speaker", "48' 9", "8 ohm 100 W", False),
        ("16/2 speaker", "48' 10", "8 ohm 100 W", True),
        ("16/2 speaker", "25'", "4 ohm", True),
        ("16/2 speaker", "24' 4", "4 ohm", False),
        ("14/2 speaker", "77'", "", False),
        ("14/2 speaker", "78'", "", True),
    ],
)
def test_speaker_cable_keeps_within_five_per_cent(kind: str, measured: str, carries: str, told_of: bool) -> None:
    found = told(run_rules.speaker_cable_thin, plain(cable(kind=kind, measured=measured, carries=carries)))
    assert found == ([("speaker_cable_thin", "fix", ("K1",))] if told_of else [])


def test_the_remedy_names_the_gauge_that_is_enough() -> None:
    (finding,) = run_rules.speaker_cable_thin(plain(cable(kind="16/2 speaker", measured="60'", carries="8 ohm")))
    assert finding.remedy.startswith("Use 14 AWG")


# --- coax ---


def test_coax_loss_is_the_run_and_its_splitter() -> None:
    """50 ft at 950 MHz and a two-way splitter: 3.2 dB + 3.5 dB (maker's table; usual splitter)."""
    loss = coax_loss(plain(cable(kind="rg6", measured="50'", carries="950 MHz, 2-way splitter")), "K1")
    assert loss is not None
    assert loss.db == pytest.approx(6.7)


def test_the_loss_before_a_splitter_counts_for_what_comes_after_it() -> None:
    splitter = make(Equipment, "E1", name="splitter", ports=("coax in", "coax out", "coax out"))
    screen = make(Equipment, "E2", name="screen", what="screen", ports=("coax in",))
    job = plain(
        splitter,
        screen,
        cable(kind="rg6", end="E1", measured="50'"),
        cable("K2", kind="rg6", start="E1", end="E2", measured="50'"),
    )
    loss = coax_loss(job, "K2")
    assert loss is not None
    assert (loss.runs, loss.splitters) == (("K2", "K1"), (2,))
    assert loss.db == pytest.approx(3.2 + 3.5 + 3.2)


def test_coax_that_loses_more_than_noted_is_told() -> None:
    over = cable(kind="rg6", measured="50'", carries="950 MHz, 2-way splitter, 6.6 dB")
    within = cable(kind="rg6", measured="50'", carries="950 MHz, 2-way splitter, 6.8 dB")
    assert told(run_rules.coax_loses_much, plain(over)) == [("coax_loses_much", "fix", ("K1",))]
    assert told(run_rules.coax_loses_much, plain(within)) == [("coax_nearly_loses_much", "look", ("K1",))]
    # Cut, it is 57 ft (55 and a foot at either box): 3.648 dB and 3.5 dB.
    (finding,) = run_rules.coax_loses_much(plain(within))
    assert "At 950 MHz through a 2-way splitter, 7.1 dB with waste and slack" in finding.says
    roomy = cable(kind="rg6", measured="50'", carries="950 MHz, 2-way splitter, 7.2 dB")
    assert told(run_rules.coax_loses_much, plain(roomy)) == []
    assert told(run_rules.coax_loses_much, plain(cable(kind="rg6", measured="160'"))) == [
        ("coax_loses_much", "look", ("K1",))
    ]


def test_a_stretch_shorter_than_the_bend_radius_is_told() -> None:
    # Copper HDMI of 0.30 in bends to 3 in; the run lies 2 in, or 3 in, above its start.
    assert told(rules.cable_bend_tight, plain(cable(kind="hdmi", level="14"))) == [
        ("cable_bend_tight", "look", ("K1",))
    ]
    assert told(rules.cable_bend_tight, plain(cable(kind="hdmi", level="15"))) == []
    # One straight stretch has no bend, however short; nor has a way outside of the wall, or a kind that nobody knows.
    short = job_of(wall(), box("B1", "2'", "1'"), box("B2", "26", "1'"), cable(kind="hdmi"))
    assert told(rules.cable_bend_tight, short) == []
    assert told(rules.cable_bend_tight, plain(cable(kind="hdmi", level="14", in_wall=False))) == []
    assert told(rules.cable_bend_tight, plain(cable(kind="mystery", level="14"))) == []
    # Of two short stretches the shorter is told; one of no length at all is none.
    both = job_of(wall(), box("B1", "2'", "12"), box("B2", "8'", "15"), cable(kind="hdmi", level="14"))
    (found,) = rules.cable_bend_tight(both)
    assert found.numbers["stretch"] == '1"'
    level = job_of(wall(), box("B1", "2'", "12"), box("B2", "8'", "12"), cable(kind="hdmi", level="12"))
    assert told(rules.cable_bend_tight, level) == []


# --- figures ---


def test_the_figures_of_a_cable_are_those_worked_out_by_hand() -> None:
    found = {name: value for _, name, value in of_cables(plain(cable()))}
    # 10 ft and 10 %, 12 in at both boxes: 13 ft.
    assert (found["path"], found["cut"], found["buy"]) == (at("10'"), at("13'"), "from a spool")
    assert (found["studs_crossed"], found["holes"], found["waste_pct"]) == (5, 5, 10)
    row = as_json(figures(plain(cable())), metric=False)["K1"]
    assert (row["path_mm"], row["cut_mm"]) == (3048.0, 3962.4)


def test_power_cable_leaves_six_inches_in_a_box() -> None:
    found = {name: value for _, name, value in of_cables(plain(cable(kind="12-2 nm")))}
    assert (found["slack_start"], found["cut"]) == (at("6"), at("12'"))


def test_an_assembled_cable_takes_the_next_length_sold() -> None:
    found = {name: value for _, name, value in of_cables(plain(cable(kind="hdmi")))}
    assert (found["cut"], found["buy"]) == (at("13'"), "15 ft HDMI")


def test_a_metric_job_rounds_up_to_a_quarter_of_a_metre() -> None:
    job = plain(cable(measured="3 m"), cable("K2", kind="hdmi", measured="3 m"), units="millimetres")
    found = {(tag, name): value for tag, name, value in of_cables(job)}
    # 3.3 m and twice 0.3048 m is 3.9096 m.
    assert found["K1", "cut"] == at("4 m")
    assert found["K2", "buy"] == "5 m HDMI"


def test_slack_that_is_set_for_the_job_goes_by_kind_family_and_end() -> None:
    slack = ("cat6 box 18 in", "category box 20", "all box 2 ft", "speaker at a device 5'")
    job = plain(
        cable(),
        cable("K2", kind="cat5e"),
        cable("K3", kind="rg6"),
        cable("K4", slack_end=at("3")),
        slack=slack,
    )
    found = {tag: [each.nm // INCH_NM for each in needs(job)[tag].slack] for tag in needs(job)}
    assert found == {"K1": [18, 18], "K2": [20, 20], "K3": [24, 24], "K4": [18, 3]}
    assert needs(job)["K1"].slack[0].source == "as set for this job"
    assert told(rules.cable_settings_unreadable, job) == []
    assert told(rules.cable_settings_unreadable, plain(slack=("cat6 18 in", "cat6 box long"))) == [
        ("slack_unreadable", "fix", ("job",))
    ]


def test_waste_that_is_set_goes_by_kind_then_family_then_all_then_the_figure_of_the_job() -> None:
    cables = [cable(f"K{at}", kind) for at, kind in enumerate(("cat6", "cat5e", "rg6", "12-2 nm", "wire of sorts"), 1)]
    # 10 ft of path each, 12 in left at both boxes, 6 in of a power cable.
    found = needs(plain(*cables, waste_by_kind=("cat6 50", "network waste 20 %", "coax 0", "nm 12.5"), waste=30.0))
    assert [(float(each.waste.percent), each.waste.source) for each in found.values()] == [
        (50, "as set for this job"), (20, "as set for this job"), (0, "as set for this job"),
        (12.5, "as set for this job"), (30, "as set for this job"),
    ]  # fmt: skip
    assert [each.cut for each in found.values()] == [at(f"{feet}'").nm for feet in (17, 14, 12, 13, 15)]
    usual = needs(plain(cable(), cable("K2", "rg6"), waste_by_kind=("all 5",)))
    assert [float(each.waste.percent) for each in usual.values()] == [5, 5]
    assert needs(plain(cable()))["K1"].waste.source == "common practice"


@rows("text", ["cat6", "15", "wire of sorts 5", "cat6 1000", "cat6 -5", "nm 5 ft"])
def test_waste_that_cannot_be_read_is_told(text: str) -> None:
    job = plain(waste_by_kind=("all 5", text))
    assert told(rules.cable_settings_unreadable, job) == [("waste_unreadable", "fix", ("job",))]


@rows(("waste", "feet"), [(0.0, 12), (10.0, 13), (12.5, 14), (-3.0, 12)])
def test_waste_that_is_set_for_the_job_counts(waste: float, feet: int) -> None:
    """Path 10 ft, 12 in left over at both ends, rounded up to a foot."""
    assert needs(plain(cable(), waste=waste))["K1"].cut == feet * FOOT_NM


def test_slack_that_is_noted_wins() -> None:
    job = plain(cable(slack_start=at("4'"), slack_end=at("0")))
    assert needs(job)["K1"].cut == 15 * FOOT_NM


@rows(
    ("text", "offer"),
    [
        ("250 ft 49.90", Offer(250 * FOOT_NM, 4990)),  # type: ignore[arg-type]
        ("100'", Offer(100 * FOOT_NM)),
        ("30 m 12", Offer(30_000_000_000, 1200)),  # type: ignore[arg-type]
        ("60 ft owned", Offer(60 * FOOT_NM, 0, True)),  # type: ignore[arg-type]
        ("10 ft 9", Offer(10 * FOOT_NM, 900)),  # type: ignore[arg-type]
        ("1000 ft 180", Offer(1000 * FOOT_NM, 18000)),  # type: ignore[arg-type]
        ("500 ft box at $60", Offer(500 * FOOT_NM, 6000)),  # type: ignore[arg-type]
        ("100 ft: 22.50", Offer(100 * FOOT_NM, 2250)),  # type: ignore[arg-type]
        ("60 ft (owned)", Offer(60 * FOOT_NM, 0, True)),  # type: ignore[arg-type]
        ("10 ft 9 in", None),
        ("a reel", None),
        ("250", None),
        ("0 ft 3", None),
        ("10 ft -3", None),
    ],
)
def test_an_offer_is_read_as_typed(text: str, offer: Offer | None) -> None:
    assert read_offer(text) == offer


def test_nothing_is_said_of_the_length_of_a_kind_that_nobody_knows_or_of_a_way_that_is_not_known() -> None:
    for job in (
        plain(cable(kind="bell wire", measured="400'")),
        plain(cable(kind="usb", end="")),
        plain(cable(end="")),
    ):
        assert told(rules.cable_too_long, job) == []
        assert told(rules.no_length_sold, job) == []
        assert told(rules.cable_bend_tight, job) == []


def test_what_is_printed_is_told_as_it_is_printed_and_what_is_missing_is_told_as_missing() -> None:
    (marked,) = rules.cable_not_rated(plain(cable(kind="14/2 speaker", rating="4K in-wall")))
    assert "4K in-wall" in marked.says
    (blank,) = rules.cable_not_rated(plain(cable(kind="14/2 speaker", rating="")))
    assert "marked" not in blank.says
