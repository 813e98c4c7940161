"""The buying list: counts, lengths, prices; what is owned is off; spools that waste least."""

from __future__ import annotations

from datetime import date
from typing import Any

import msgspec
import pytest

from store.measure.length import FOOT_NM, Length
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.gate import Closing
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.buying.buying_list import bought, buying_list, cutting_list, total_of
from store.rules.buying.line import Line
from store.rules.buying.spools import spools
from store.rules.cable.cable_rules import no_length_sold
from store.rules.cable.labels import labels
from store.rules.cable.lengths import needs
from store.rules.core.checks import close, rough_in
from tests.jobs.cable_jobs import TODAY, box, cable, job_of, make, plain, put, told, wall
from tests.rows import rows


def lines(job: Job, group: str = "") -> list[Line]:
    """The lines of a group, or all."""
    return [each for each in buying_list(job) if group in ("", each.group)]


def said(job: Job, group: str) -> list[tuple[int, str]]:
    """Count and words of the lines of a group."""
    return [(each.count, each.what) for each in lines(job, group)]


def pieces(*feet: int, kind: str = "cat6", **first: Any) -> Job:
    """A job whose cables are cut to exactly so many feet: nearly all of each is slack, so that nothing is rounded."""
    found: list[Record] = []
    for at, each in enumerate(feet, 1):
        more = first if at == 1 else {}
        found.append(_exact(f"K{at}", each, kind, **more))
    return job_of(*found)


def _exact(tag: str, feet: int, kind: str, **more: Any) -> Record:
    zero = Length(0)
    return make(
        Cable, tag, type=kind, measured=Length(1), slack_start=Length(feet * FOOT_NM - 2), slack_end=zero, **more
    )


def test_the_pieces_of_these_tests_are_as_long_as_said() -> None:
    assert [need.cut for need in needs(pieces(4, 3)).values()] == [4 * FOOT_NM, 3 * FOOT_NM]


# --- spools ---


def test_taking_the_longest_first_is_not_what_is_done() -> None:
    """Spools of 10 ft: 4, 4, 3, 3, 3, 3 come out of two; the longest first would take three."""
    found = spools(pieces(4, 4, 3, 3, 3, 3, sold=("10 ft 5.00",)))["cat6"]
    assert [sum(each.cuts) for each in found.spools] == [10 * FOOT_NM, 10 * FOOT_NM]
    assert [each.remnant for each in found.spools] == [0, 0]
    assert found.proved
    assert sorted(tag for each in found.spools for tag in each.cables) == [f"K{at}" for at in range(1, 7)]


def test_least_cost_goes_before_least_waste() -> None:
    # 60 ft: a spool of 100 for 20 beats 50 and 25 for 30, though more is left over.
    found = spools(pieces(30, 30, sold=("100 ft 20", "50 ft 18", "25 ft 12")))["cat6"]
    assert [each.offer.length for each in found.spools] == [100 * FOOT_NM]


def test_without_prices_the_least_is_left_over_and_it_is_said() -> None:
    job = pieces(20, 20, kind="12-2 nm")
    assert sum(each.offer.length for each in spools(job)["nm-12-2"].spools) == 50 * FOOT_NM
    assert "no price entered" in lines(job, "Cable from spools")[0].note


def test_a_spool_at_hand_is_used_first_and_not_bought() -> None:
    job = pieces(20, 20, 20, sold=("45 ft owned", "100 ft 30", "50 ft 20"))
    found = spools(job)["cat6"]
    assert sorted((each.offer.length // FOOT_NM, each.offer.owned) for each in found.spools) == [
        (45, True),
        (50, False),
    ]
    assert sorted(each.count for each in lines(job, "Cable from spools")) == [0, 1]
    assert total_of(lines(job, "Cable from spools")) == (2000, 0)
    assert [each.total for each in lines(job, "Cable from spools") if not each.count] == [None]


def test_nothing_is_spliced() -> None:
    job = pieces(60, sold=("50 ft 20",))
    assert spools(job)["cat6"].why == "a piece is longer than any spool"
    (line,) = lines(job, "Cable from spools")
    assert (line.note, line.unpriced) == ("a piece is longer than any spool", 1)


def test_cables_that_are_bought_are_not_cut_again() -> None:
    job = put(pieces(20, 20, sold=("100 ft 30",)), _exact("K2", 20, "cat6", state="bought"))
    assert [each.cables for each in spools(job)["cat6"].spools] == [("K1",)]


def test_many_pieces_are_cut_whole_from_whole_spools() -> None:
    job = pieces(*(5 + at % 37 for at in range(200)), sold=("100 ft 30", "250 ft 60", "60 ft owned"))
    found = spools(job)["cat6"]
    tags = [tag for each in found.spools for tag in each.cables]
    assert sorted(tags) == sorted(job.of(Cable))
    for each in found.spools:
        assert sum(each.cuts) + each.remnant == each.offer.length
        assert each.remnant >= 0
    assert sum(each.offer.owned for each in found.spools) <= 1
    assert found.proved, "cut in one go as well as lot by lot"


# --- the list ---


def test_assembled_cables_of_one_length_are_one_line() -> None:
    job = plain(cable(kind="hdmi", price=1800), cable("K2", "hdmi", price=1800), cable("K3", "hdmi", state="bought"))
    (line,) = lines(job, "Cables with their plugs")
    assert (line.count, line.what, line.each, line.total) == (2, "15 ft HDMI, CMP", 1800, 3600)
    assert line.tags == ("K1", "K2")


def test_equipment_that_is_ordered_or_owned_or_retired_is_off() -> None:
    job = job_of(
        make(Equipment, "E1", name="screen", price=90000),
        make(Equipment, "E2", name="player", state="owned"),
        make(Equipment, "E3", name="mount", state="ordered"),
        make(Equipment, "E4", name="old", retired=date(2026, 1, 1)),
        make(Equipment, "E5", name="light", count=4, price=2200),
        make(Equipment, "E6", name="cord"),
    )
    found = lines(job, "Equipment")
    assert [(each.what, each.count, each.total) for each in found] == [
        ("screen", 1, 90000),
        ("light", 4, 8800),
        ("cord", 1, None),
    ]
    assert total_of(found) == (98800, 1)


def test_boxes_and_plates_are_counted_by_kind_and_gangs() -> None:
    job = job_of(
        wall(),
        box("B1", "1'", "1'", "receptacle", volume=22.5),
        box("B2", "2'", "1'", "receptacle", volume=22.5),
        box("B3", "3'", "1'", "low-voltage", gangs=2),
        box("B4", "4'", "1'", "receptacle", new=False),
        box("B5", "5'", "1'", "receptacle", volume=22.5, bought=True),
    )
    assert said(job, "Boxes") == [(2, "receptacle box, 1 gang, 22.5 in³"), (1, "low-voltage bracket or box, 2 gangs")]
    assert said(job, "Plates") == [(3, "receptacle plate, 1 gang"), (1, "low-voltage plate, 2 gangs")]


def test_a_box_that_was_seen_set_is_off() -> None:
    job = job_of(wall(), box("B1", "1'", "1'"))
    check = next(each for each in rough_in(job) if each.key == "B1/set")
    assert said(put(job, close(check, "Sam", TODAY, "photo")), "Boxes") == []
    not_needed = Closing(tag="B1/set", outcome="not needed", date=TODAY, by="Sam", reason="left out")
    assert len(said(put(job, not_needed), "Boxes")) == 1


def test_ends_are_two_a_cable_until_it_is_connected() -> None:
    job = plain(cable(), cable("K2", state="pulled"), cable("K3", state="connected"), cable("K4", "14/2 speaker"))
    assert said(job, "Plugs and jacks") == [(4, "network jack, Category 6 UTP"), (2, "speaker terminals, pair")]


def test_raceways_are_listed_until_bought_or_in() -> None:
    tubes = [make(Raceway, f"R{at}", size="1", start="B1", end="B2", length=f"{at + 9}' 6") for at in (1, 2)]
    assert said(plain(*tubes), "Raceways") == [(2, "ENT 1, 23 ft in all")]
    assert lines(plain(*tubes), "Raceways")[0].cuts == ("R1 11 ft", "R2 12 ft")
    wide = make(Raceway, "R1", type="other", inside="2", start="B1", end="B2", length="9'")
    assert said(plain(wide), "Raceways") == [(1, 'tube, 2" inside, 9 ft in all')]
    pulled = cable(route="raceway", raceway="R1", state="pulled")
    assert said(plain(*tubes, pulled), "Raceways") == [(1, "ENT 1, 12 ft in all")]


def test_plates_of_steel_go_on_both_faces_where_the_hole_is_wide() -> None:
    # In a stud 3-1/2 in deep a centred hole of up to 1 in needs none: ENT of 1 in is 1.315 in thick.
    tube = make(Raceway, "R1", size="1", start="B1", end="B2", string=True)
    assert (10, "steel nail plate") in said(plain(tube), "Small parts")
    assert said(plain(cable()), "Small parts") == [(2, "cable label")]


def test_as_many_labels_are_bought_as_the_sheet_of_labels_prints_for_what_has_none_yet() -> None:
    tube = make(Raceway, "R1", size="1", start="B1", end="B2", bought=True)
    loose = cable("K2", in_wall=False)
    job = plain(cable(), loose, tube, make(Raceway, "R2", type="grommet", start="B1", end="B2"))
    assert len(labels(job)) == 6
    assert (6, "cable label") in said(job, "Small parts")
    job = put(job, msgspec.structs.replace(tube, parts=("labels",)))
    assert (4, "cable label") in said(job, "Small parts")


def test_cables_of_no_known_length_are_one_line_that_says_why() -> None:
    job = plain(cable(end=""), cable("K2", end=""))
    (line,) = lines(job, "Cable from spools")
    assert (line.count, line.what, line.note) == (
        2, "Category 6 UTP, length not known yet", "its “to” end not entered",
    )  # fmt: skip


# --- ticking ---


def test_ticking_a_line_says_so_in_its_records_and_takes_it_off() -> None:
    job = plain(
        cable(kind="hdmi"),
        cable("K2"),
        make(Raceway, "R1", size="1", start="B1", end="B2", length="10'"),
        make(Equipment, "E1", name="screen"),
    )
    assert {each.group for each in buying_list(job)} == {
        "Equipment", "Cables with their plugs", "Cable from spools", "Boxes", "Plates", "Plugs and jacks", "Raceways",
        "Small parts",
    }  # fmt: skip
    for line in buying_list(job):
        pairs = bought(job, {line.key})
        assert {old.tag for old, _ in pairs} == set(line.tags)
        for _, new in pairs:
            job = put(job, new)
        assert line.key not in {each.key for each in buying_list(job)}
    assert buying_list(job) == ()
    assert (job.of(Cable)["K1"].state, job.of(Equipment)["E1"].state) == ("bought", "owned")
    assert job.of(Equipment)["E1"].arrived == TODAY
    assert job.of(Raceway)["R1"].bought
    assert all(each.bought and each.parts == ("plate",) for each in job.of(Box).values())
    assert job.of(Cable)["K2"].parts == ("plugs and jacks", "labels")


def test_all_lines_may_be_ticked_at_once() -> None:
    job = plain(cable(), make(Raceway, "R1", size="1", start="B1", end="B2"))
    pairs = bought(job, {each.key for each in buying_list(job)})
    assert len({old.tag for old, _ in pairs}) == len(pairs) == 4
    for _, new in pairs:
        job = put(job, new)
    assert buying_list(job) == ()
    assert bought(job, {"Boxes: no such line"}) == []


def test_what_is_bought_and_not_pulled_is_listed_to_be_cut() -> None:
    job = pieces(20, 30, 40, sold=("100 ft 9",))
    assert cutting_list(job) == ()
    planned = [each.cuts for each in buying_list(job) if each.group == "Cable from spools"]
    for old, new in bought(job, {each.key for each in buying_list(job)}):
        assert old.tag == new.tag
        job = put(job, new)
    (cut,) = cutting_list(job)
    assert [cut.cuts] == planned == [("K3 40 ft", "K2 30 ft", "K1 20 ft", "left: 10 ft")]
    assert (cut.count, cut.total) == (0, None)
    pulled = put(job, msgspec.structs.replace(job.of(Cable)["K3"], state="pulled"))
    assert cutting_list(pulled)[0].cuts == ("K2 30 ft", "K1 20 ft", "left: 10 ft")
    # Of a cable that was pulled and is noted as off no spool, nobody knows what it was cut from.
    unnoted = put(pieces(20, 40, sold=("100 ft 9",)), _exact("K1", 20, "cat6", state="bought"))
    unnoted = put(unnoted, _exact("K2", 40, "cat6", state="pulled"))
    assert cutting_list(unnoted)[0].cuts == ("K1 20 ft", "left: what the spool shows")


def ticked(job: Job, *keys: str) -> Job:
    """The job once these lines are ticked; all of them where none is named."""
    for _, new in bought(job, set(keys) or {each.key for each in buying_list(job)}):
        job = put(job, new)
    return job


def on_the_list(job: Job) -> list[tuple[int, str, tuple[str, ...]]]:
    """Count, words and cuts of what comes from spools."""
    return [(each.count, each.what, each.cuts) for each in lines(job, "Cable from spools")]


def test_what_is_cut_from_a_spool_at_hand_is_off_it_for_the_next_cable() -> None:
    job = ticked(pieces(40, sold=("60 ft owned", "100 ft 30")))
    assert job.of(Cable)["K1"].state == "bought"
    for state in ("bought", "pulled", "connected"):
        job = put(job, msgspec.structs.replace(job.of(Cable)["K1"], state=state))
        more = put(job, _exact("K2", 15, "cat6"))
        at_hand = "Category 6 UTP, spool of 60 ft (on hand, 20 ft on it)"
        assert on_the_list(more) == [(0, at_hand, ("K2 15 ft", "left: 5 ft"))]
        too_long = put(job, _exact("K2", 25, "cat6"))
        assert on_the_list(too_long) == [(1, "Category 6 UTP, spool of 100 ft", ("K2 25 ft", "left: 75 ft"))]
    # Ticked in turn, each is still cut from the spool that it was planned off.
    both = ticked(put(pieces(40, sold=("60 ft owned", "100 ft 30")), _exact("K2", 15, "cat6")))
    assert [each.cuts for each in cutting_list(both)] == [("K1 40 ft", "K2 15 ft", "left: 5 ft")]
    assert "60 ft owned" in both.of(Cable)["K2"].sold


def test_the_rest_of_a_spool_that_was_bought_is_at_hand() -> None:
    job = ticked(pieces(40, sold=("100 ft 30",)))
    assert job.of(Cable)["K1"].sold == ("100 ft 30", "100 ft owned")
    more = put(job, _exact("K2", 60, "cat6"))
    assert on_the_list(more) == [
        (0, "Category 6 UTP, spool of 100 ft (on hand, 60 ft on it)", ("K2 60 ft", "left: nothing"))
    ]
    full = put(ticked(more), _exact("K3", 1, "cat6"))
    assert on_the_list(full) == [(1, "Category 6 UTP, spool of 100 ft", ("K3 1 ft", "left: 99 ft"))]
    second = ticked(full)
    assert second.of(Cable)["K3"].sold == ("100 ft owned 2",)
    assert on_the_list(put(second, _exact("K4", 99, "cat6"))) == [
        (0, "Category 6 UTP, spool of 100 ft (on hand 2, 99 ft on it)", ("K4 99 ft", "left: nothing"))
    ]


def test_a_cable_given_up_had_its_piece_of_the_spool() -> None:
    job = ticked(pieces(40, sold=("100 ft 30",)))
    given_up = msgspec.structs.replace(job.of(Cable)["K1"], state="pulled", retired=TODAY)
    job = put(put(job, given_up), _exact("K2", 61, "cat6", sold=("100 ft owned", "100 ft 30")))
    assert [count for count, _, _ in on_the_list(job)] == [1]
    job = put(job, _exact("K2", 60, "cat6", sold=("100 ft owned", "100 ft 30")))
    assert [count for count, _, _ in on_the_list(job)] == [0]


def test_spools_of_one_length_bought_at_once_are_told_apart() -> None:
    job = ticked(pieces(60, 70, sold=("100 ft 30",)))
    assert [job.of(Cable)[tag].sold[-1] for tag in ("K1", "K2")] == ["100 ft owned", "100 ft owned 2"]
    assert [each.cuts for each in cutting_list(job)] == [("K1 60 ft", "left: 40 ft"), ("K2 70 ft", "left: 30 ft")]


@rows(
    ("sold", "count", "spool"),
    [
        (("60 ft owned",), 0, 60),
        (("60 ft at hand",), 0, 60),
        (("60 ft owned", "250 ft"), 0, 60),
        (("15 ft owned",), 1, 25),
        (("15 ft owned", "16 ft owned, in the garage", "60 ft owned 2"), 0, 60),
    ],
)
def test_what_is_at_hand_is_taken_also_where_no_price_is_noted(sold: tuple[str, ...], count: int, spool: int) -> None:
    ((found, what, _),) = on_the_list(pieces(20, kind="12-2 nm", sold=sold))
    assert (found, f"spool of {spool} ft" in what) == (count, True)


def test_a_cord_at_hand_that_is_too_short_does_not_hide_what_shops_have() -> None:
    job = plain(cable(kind="hdmi", sold=("3 ft owned",)))
    assert said(job, "Cables with their plugs") == [(1, "15 ft HDMI, CMP")]
    assert said(plain(cable(kind="hdmi", sold=("50 ft owned",))), "Cables with their plugs") == []
    assert told(no_length_sold, job) == told(no_length_sold, pieces(80, kind="12-2 nm", sold=("60 ft owned",))) == []


@pytest.mark.parametrize("starter", ["plain", "pieces"])
def test_keys_of_lines_are_their_own(starter: str) -> None:
    job = pieces(20, 30, 40, sold=("50 ft 3",)) if starter == "pieces" else plain(cable(), cable("K2", "hdmi"))
    keys = [each.key for each in buying_list(job)]
    assert len(keys) == len(set(keys))
