"""Rough-in checks that follow from the plan, and what opens them again; the gate goes with them."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import msgspec
from hypothesis import given
from hypothesis import strategies as st

from store.measure.counts import plural
from store.measure.mass import parse_mass
from store.records.access import Panel
from store.records.base import Record
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.gate import Check, Closing, Passage
from store.records.job import Settings
from store.records.wall import Opening, Wall
from store.records.whole import KINDS, Job
from store.records.wiring import Cable, Raceway
from store.rules.core.checks import items, rough_in
from store.rules.gate.gate import STAGES, standing
from tests.book.build import NO_PERMIT
from tests.jobs.cable_jobs import TODAY, at, box, cable, make, plain, put, without
from tests.jobs.proofs import sound
from tests.rows import rows


def keys(job: Job) -> set[str]:
    """The keys of all checks that follow from the plan."""
    return {each.key for each in rough_in(job) if "/" in each.key}


def added(job: Job, *more: Record) -> set[str]:
    """The keys that records bring."""
    there = job
    for record in more:
        there = put(there, record)
    return keys(there) - keys(job)


BARE = plain()


def test_a_cable_in_the_wall_is_pulled_labelled_tested_photographed_and_its_studs_plated() -> None:
    wanted = {f"K1/{each}" for each in ("pulled", "labelled", "tested", "photographed", "plates")}
    assert added(BARE, cable()) == wanted
    assert added(BARE, cable(route="up and over")) == wanted - {"K1/plates"}
    assert added(BARE, cable(in_wall=False)) == set()
    assert added(BARE, cable(retired=TODAY)) == set()


def test_deleting_a_cable_takes_its_checks_away() -> None:
    job = put(BARE, cable())
    assert keys(without(job, "K1")) == keys(BARE)


def test_boxes_raceways_panels_and_loads_bring_theirs() -> None:
    assert added(BARE, box("B3", "1'", "1'")) == {"B3/set", "B3/depth", "B3/located"}
    assert added(BARE, box("B3", "1'", "1'", new=False)) == set()
    tube = make(Raceway, "R1", start="B1", end="B2")
    assert added(BARE, tube) == {"R1/in", "R1/string", "R1/plates"}
    assert added(BARE, make(Raceway, "R1", type="grommet", start="B1", end="B2")) == {"R1/in"}
    assert added(BARE, make(Panel, "A1", name="back", wall="W1")) == {"A1/framed"}
    for use in ("screen", "fireplace", "shelf"):
        assert added(BARE, make(Opening, "N1", name="a", use=use, wall="W1")) == {"N1/backing"}
    assert added(BARE, make(Opening, "N1", name="a", use="drawer", wall="W1")) == set()


def test_a_heavy_thing_on_a_bracket_wants_backing_of_its_own_unless_its_opening_has_it() -> None:
    def device(weight: str, **more: Any) -> Record:
        return make(Equipment, "E1", name="bar", mounting="wall bracket", weight=parse_mass(weight), **more)

    assert added(BARE, device("12 lb")) == {"E1/backing"}
    assert added(BARE, device("2 lb")) == set()
    recess = make(Opening, "N1", name="a", use="screen", wall="W1")
    assert added(BARE, recess, device("60 lb", opening="N1")) == {"N1/backing"}


def test_walls_want_fire_blocks_and_the_job_an_inspection() -> None:
    assert keys(BARE) >= {"W1/fireblocking", "job/inspection"}
    free = plain(**NO_PERMIT)
    assert "job/inspection" not in keys(free)


def test_trades_and_evidence_are_those_of_the_kind() -> None:
    found = {each.key: each for each in rough_in(put(put(BARE, cable()), cable("K2", "12-2 nm")))}
    assert (found["K1/tested"].trade, found["K2/tested"].trade) == ("low-voltage", "electrician")
    assert "wire map" in found["K1/tested"].wants
    assert "continuity" in found["K2/tested"].wants
    assert found["W1/fireblocking"].trade == "carpenter"
    assert found["job/inspection"].trade == "inspector"
    assert all(each.what and each.trade and each.wants and each.tags for each in found.values())


# --- what opens a closed check again ---


def closed(job: Job, *only: str) -> Job:
    """The job with these checks closed, or all of them."""
    for check in rough_in(job):
        if not only or check.key in only:
            job = put(job, sound(check, "Sam", TODAY))
    return job


def opened(before: Job, *changes: Record) -> set[str]:
    """What is open after some records are put, everything having been closed before."""
    job = closed(before)
    for record in changes:
        job = put(job, record)
    return {each.key for each in items(job) if each.open}


WHOLE = plain(cable(level=at("3'")), make(Raceway, "R1", start="B1", end="B2", length="10'"))


def test_another_route_opens_all_but_the_label() -> None:
    other = cable(level=at("4'"))
    assert opened(WHOLE, other) == {"K1/pulled", "K1/tested", "K1/photographed", "K1/plates"}


def test_another_place_of_a_box_opens_what_was_seen_of_it_and_of_its_cables() -> None:
    moved = opened(WHOLE, box("B2", "8'", "6'"))
    assert moved == {
        "B2/set", "B2/depth", "B2/located", "K1/pulled", "K1/tested", "K1/photographed", "K1/plates", "R1/in",
        "R1/string", "R1/plates",
    }  # fmt: skip


def test_another_place_of_a_raceways_mouth_opens_the_cables_in_it() -> None:
    tube = make(Raceway, "R1", size="1", start="B1", end="B3")
    job = closed(plain(tube, box("B3", "7'", "5'"), cable(route="raceway", raceway="R1")))
    assert {"K1/pulled", "K1/photographed", "R1/in"} <= opened(job, box("B3", "7'", "6'"))
    assert "K1/labelled" not in opened(job, box("B3", "7'", "6'"))


def test_another_corner_opens_the_cables_that_go_round_it() -> None:
    second = (make(Wall, "W2", name="side"), box("B3", "1'", "1'", on="W2"))
    job = closed(plain(*second, cable(end="B3"), cable("K2"), make(Raceway, "R1", size="1", start="B1", end="B3")))
    assert "R1/plates" in {check.key for check in rough_in(job)}
    noted = make(Wall, "W2", name="side", meets_left="W1")
    assert opened(job, noted) == {"K1/pulled", "K1/tested", "K1/photographed", "K1/plates"}


def test_another_end_opens_the_label_too() -> None:
    third = put(WHOLE, box("B3", "8'", "5'"))
    assert "K1/labelled" in opened(third, cable(level=at("3'"), end="B3"))


def test_another_kind_and_another_use_open_the_test() -> None:
    assert "K1/tested" in opened(WHOLE, cable(level=at("3'"), kind="cat6a"))
    assert opened(WHOLE, cable(level=at("3'"), carries="10 Gbit/s")) == {"K1/tested"}


@rows("field", ["name", "state", "price", "notes"])
def test_a_change_that_nobody_vouched_for_opens_nothing(field: str) -> None:
    values = {"name": "other", "state": "pulled", "price": 1200, "notes": "words"}
    one = msgspec.structs.replace(WHOLE.of(Cable)["K1"], **{field: values[field]})
    assert opened(WHOLE, one) == set()


def test_another_thickness_of_board_opens_the_depth_of_every_box() -> None:
    thick = Settings(tag="job", name="test wall", finish=at("5/8"))
    assert opened(WHOLE, thick) == {"B1/depth", "B2/depth"}


def test_why_it_is_open_again_is_said() -> None:
    job = put(closed(WHOLE), cable(level=at("4'")))
    (item,) = [each for each in items(job) if each.key == "K1/pulled"]
    assert (
        item.why_open
        == "changed since Sam signed it off: route was through studs at 3'-0\", is through studs at 4'-0\""
    )


def test_power_wiring_that_is_added_or_gone_opens_the_inspection() -> None:
    job = put(put(BARE, box("B3", "1'", "1'", "receptacle")), cable(kind="12-2 nm", end="B3"))
    assert "job/inspection" in opened(job, cable("K2", "12-2 nm", end="B3"))
    assert "job/inspection" not in opened(job, cable("K2", "cat6"))
    gone = without(closed(job), "K1")
    assert "job/inspection" in {each.key for each in items(gone) if each.open}


# --- the gate ---


def covered(job: Job) -> Job:
    """The job with everything closed and every stage up to Drywall passed, marked as the history would."""
    job = closed(job)
    last = STAGES.index("Drywall")
    for number, stage in enumerate(STAGES[1 : last + 1], 1):
        checked = tuple(each.key for each in rough_in(job)) if stage == "Drywall" else ()
        job = put(job, Passage(tag=f"P{number}", stage=stage, date=TODAY, by="Robin", checked=checked))
    marks = dict.fromkeys((each.tag for each in job.each()), 1)
    return msgspec.structs.replace(job, marks={**marks, f"P{last}": 2})


def changed(job: Job, *records: Record) -> Job:
    """The job after an action that puts these."""
    for record in records:
        job = put(job, record)
    return msgspec.structs.replace(job, marks={**job.marks, **dict.fromkeys((each.tag for each in records), 3)})


def test_an_open_check_of_the_plan_holds_the_drywall() -> None:
    job = closed(WHOLE)
    for number, stage in enumerate(STAGES[1:4], 1):
        job = put(job, Passage(tag=f"P{number}", stage=stage, date=TODAY, by="Robin"))
    assert standing(job, []).holds == ()
    more = put(job, cable("K2", route="up and over"))
    assert {hold.key for hold in standing(more, []).holds} == {
        "K2/pulled", "K2/labelled", "K2/tested", "K2/photographed",
    }  # fmt: skip
    assert all(hold.strict for hold in standing(more, []).holds)
    assert standing(without(more, "K2"), []).holds == ()


POWER = put(
    put(put(WHOLE, box("B3", "1'", "1'", "receptacle")), cable("K5", "12-2 nm", start="", end="B3")),
    make(Equipment, "E1", name="bar", mounting="wall bracket", weight=parse_mass("12 lb")),
)
RECESS = make(Opening, "N1", name="a", use="screen", wall="W1", x="1'", y="1'", width="4'", height="2'")
AFTER: dict[str, list[Record]] = {
    "a cable more": [cable("K2")],
    "a power cable more": [cable("K2", "12-2 nm", end="B3")],
    "another route": [cable(level=at("5'"))],
    "a box moved": [box("B2", "8'", "7'")],
    "a box more": [box("B9", "8'", "7'")],
    "a wall with other studs": [make(KINDS["wall"], "W1", name="w", spacing=at("24"), first_stud="16")],
    "another finish": [Settings(tag="job", name="test wall", finish=at("5/8"))],
    "no permit asked for after all": [Settings(tag="job", name="test wall", **NO_PERMIT)],
    "a raceway of another size": [make(Raceway, "R1", size="2", start="B1", end="B2")],
    "a heavier thing": [make(Equipment, "E1", name="bar", mounting="wall bracket", weight=parse_mass("30 lb"))],
    "a recess for it": [RECESS, make(Equipment, "E1", name="bar", opening="N1", mounting="wall bracket")],
    "a check by hand": [Check(tag="Q1", what="one more")],
}


@rows("case", AFTER)
def test_what_changes_after_the_wall_was_covered_is_found_after_and_unearns_nothing(case: str) -> None:
    before = covered(POWER)
    assert (standing(before, []).stage, standing(before, []).found_after) == ("Drywall", ())
    now = standing(changed(before, *AFTER[case]), [])
    assert (now.stage, now.unearned) == ("Drywall", "")
    assert bool(now.found_after) == (case != "no permit asked for after all")


@rows("tag", ["K1", "K5", "R1", "E1"])
def test_what_is_deleted_after_the_wall_was_covered_unearns_nothing(tag: str) -> None:
    before = covered(POWER)
    gone = without(before, tag)
    now = standing(msgspec.structs.replace(gone, marks={**before.marks, tag: 3}), [])
    assert (now.stage, now.unearned) == ("Drywall", "")


def test_a_closing_that_vanishes_is_found_after_and_unearns_nothing() -> None:
    before = covered(POWER)
    left = {key: each for key, each in before.of(Closing).items() if key != "K1/tested"}
    now = standing(msgspec.structs.replace(before, tables={**before.tables, "closing": left}), [])
    assert (now.stage, now.claimed) == ("Drywall", None)
    assert [each.key for each in now.found_after] == ["K1/tested"]


def test_every_check_names_all_records_that_make_it() -> None:
    """Taking away or changing a record that is not among the tags of a check leaves the check as it is."""
    whole = {check.key: check for check in rough_in(POWER)}
    for record in [each for each in POWER.each() if each.kind not in ("job", "reading")]:
        for check in rough_in(put(POWER, type(record)(**{**_values(record), "notes": "other"}))):
            assert whole[check.key].vouches == check.vouches
        if record.kind in ("cable", "raceway", "equipment"):
            left = {check.key: check for check in rough_in(without(POWER, record.tag))}
            for key, check in whole.items():
                if record.tag not in check.tags:
                    assert left[key].vouches == check.vouches


def _values(record: Record) -> dict[str, Any]:
    return {name: getattr(record, name) for name in record.__struct_fields__}


# --- kept answers ---


@given(
    st.lists(st.tuples(st.sampled_from(["2'", "3'", "7'"]), st.booleans(), st.sampled_from(["B1", "B3"])), max_size=6)
)
def test_what_is_kept_is_what_is_made_anew(steps: list[tuple[str, bool, str]]) -> None:
    """Whatever was asked before, the checks of a job are those of its records."""
    job = put(WHOLE, box("B3", "5'", "2'"))
    for level, wall_side, start in steps:
        job = put(job, cable(level=at(level), in_wall=wall_side, start=start))
        rough_in(WHOLE)
        fresh = msgspec.structs.replace(
            job, tables={kind: {tag: _copy(each) for tag, each in table.items()} for kind, table in job.tables.items()}
        )
        assert rough_in(job) == rough_in(fresh)


def _copy(record: Record) -> Record:
    return type(record)(**_values(record))


# --- what hangs, and what is bored ---


def test_backing_vouches_for_what_hangs_in_the_opening_and_for_its_weight() -> None:
    recess = make(Opening, "N1", name="a", use="screen", wall="W1")

    def screen(weight: str, **more: Any) -> Record:
        given = {"name": "TV", "what": "screen", "opening": "N1", "mounting": "wall bracket", "holes": "400x400"}
        return make(Equipment, "E1", **{**given, "weight": parse_mass(weight), **more})

    job = plain(recess, screen("60 lb"))
    assert "N1/backing" not in opened(job)
    assert "N1/backing" in opened(job, screen("95 lb"))
    assert "N1/backing" in opened(job, screen("60 lb", holes="600x400"))
    assert "N1/backing" in opened(job, screen("60 lb", count=2))
    assert "N1/backing" in opened(job, make(Equipment, "E2", name="arm", what="mount", opening="N1"))
    assert "N1/backing" not in opened(job, make(Equipment, "E2", name="player", opening="N1", mounting="shelf"))
    check = {each.key: each for each in rough_in(job)}["N1/backing"]
    assert "E1" in check.tags
    assert check.vouches["hangs in it"] == "E1, 27.2155 kg, wall bracket, holes 400x400"
    unknown = plain(recess, make(Equipment, "E1", name="TV", what="screen", opening="N1"))
    there = {each.key: each for each in rough_in(unknown)}["N1/backing"]
    assert there.vouches["hangs in it"] == "E1, weight not entered"


def test_a_bored_hole_opens_the_plates_of_its_cable_and_says_when_it_is_too_large() -> None:
    def bored(hole: str, **more: Any) -> Record:
        return msgspec.structs.replace(cable(**more), hole=at(hole))

    job = put(BARE, bored("3/4"))
    assert "K1/plates" not in opened(job)
    assert "K1/plates" in opened(job, bored("2 1/8"))
    assert "K1/plates" in opened(put(BARE, cable()), bored("3/4"))
    check = {each.key: each for each in rough_in(put(BARE, bored("2 1/8")))}["K1/plates"]
    assert check.vouches["too large"] == "the most is 1.4 in"  # nobody knows that it carries nothing: 40 % of 3-1/2 in
    assert check.what == "Bored hole too large for its studs, K1 cat6"
    small = {each.key: each for each in rough_in(job)}["K1/plates"]
    assert (small.vouches["bored hole"], "too large" in small.vouches) == ("3/4 in", False)
    assert small.what == "Nail plates on bored studs, K1 cat6"


def test_a_bracket_in_an_opening_that_carries_nothing_wants_backing_of_its_own() -> None:
    bay = make(Opening, "N1", name="bay", use="equipment", wall="W1")
    bar = make(Equipment, "E1", name="bar", mounting="wall bracket", weight=parse_mass("60 lb"), opening="N1")
    assert added(put(BARE, bay), bar) == {"E1/backing"}
    later = msgspec.structs.replace(bar, retired=TODAY + timedelta(days=1))
    assert added(put(BARE, bay), later) == {"E1/backing"}
    for none in ({"retired": TODAY}, {"mounting": "shelf"}, {"weight": parse_mass("5 lb")}, {"what": "mount"}):
        assert added(put(BARE, bay), msgspec.structs.replace(bar, **none)) == set()


def test_a_fixing_into_blocking_wants_the_blocking_in() -> None:
    bay = make(
        Opening, "N1", name="bay", use="equipment", wall="W1", x=at("2'"), y=at("3'"), width=at("50"), height=at("30")
    )
    screws = make(Fixing, "X1", of="N1", into="blocking", count=4)
    assert added(put(BARE, bay), screws) == {"X1/blocking"}
    for into in ("stud", "drywall", "unknown"):
        assert added(put(BARE, bay), msgspec.structs.replace(screws, into=into)) == set()
    job = put(put(BARE, bay), screws)
    (wood,) = [each for each in rough_in(job) if each.key == "X1/blocking"]
    pieces = [each for each in wood.vouches["pieces"].split(", ") if each]
    assert (wood.what, wood.more) == ("Blocking in behind N1, X1", plural(len(pieces), "piece") if pieces else "")
    assert all(wood.tags)
    assert wood.tags[:2] == ("X1", "N1")
    assert wood.vouches["of"] == "N1"
