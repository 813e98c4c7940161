"""Each condition of the gate by itself: the nearest jobs on both sides of it, in memory."""

from __future__ import annotations

import msgspec
import pytest

from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.gate import Answer, Check
from store.records.wall import Opening
from store.records.whole import Outside
from store.rules.core.checks import PICTURE, Item, RoughIn
from store.rules.core.findings import findings
from store.rules.gate.gate import STAGES, Hold, item_line, locked_line, locked_text, outside_line, standing
from store.rules.gate.held import held_text, told
from tests.book.build import TODAY, wall
from tests.jobs.gate_edges import (
    ITEM,
    TEN,
    TO_DRYWALL,
    TO_ROUGH_IN,
    closed,
    job_in,
    passed,
)
from tests.rows import rows

# --- where the job is ---


def test_a_stage_is_reached_by_every_passage_up_to_it() -> None:
    for count, stage in enumerate(STAGES):
        now = standing(job_in(*passed(*STAGES[1 : count + 1])))
        following = STAGES[count + 1] if count + 1 < len(STAGES) else None
        assert (now.stage, now.next, now.claimed, now.unearned) == (stage, following, None, "")


def test_a_passage_beyond_a_gap_is_claimed_and_says_which_is_missing() -> None:
    now = standing(job_in(*passed("Design", "Rough-in", "Finish")))
    assert (now.stage, now.claimed, now.unearned) == ("Design", "Finish", "the job was never moved to Mock-up")
    nameless = standing(job_in(*passed("Design"), *passed("Mock-up", by="x"), *passed("Rough-in")))
    assert (nameless.stage, nameless.claimed) == ("Design", "Rough-in")
    assert nameless.unearned == "the move to Mock-up has no name with it"
    alone = standing(job_in(*passed("Design"), *passed("Mock-up", by="x")))
    assert (alone.stage, alone.claimed) == ("Design", "Mock-up")


def test_only_its_own_edit_makes_a_passage_forged() -> None:
    mine = [Outside("passage", "P2", "added")]
    assert standing(job_in(*passed(*TO_ROUGH_IN), outside=mine)).stage == "Design"
    for other in (Outside("passage", "P9", "added"), Outside("wish", "P2", "changed")):
        assert standing(job_in(*passed(*TO_ROUGH_IN), outside=[other])).stage == "Rough-in"


def test_a_passage_made_before_the_one_it_rests_on_does_not_count() -> None:
    late = {"P1": 2, "P2": 9, "P3": 4}
    assert standing(job_in(*passed(*TO_ROUGH_IN), marks=late)).stage == "Mock-up"
    for well in ({"P1": 2, "P2": 3, "P3": 4}, {"P1": 1, "P2": 1, "P3": 1}, {}):
        assert standing(job_in(*passed(*TO_ROUGH_IN), marks=well)).stage == "Rough-in"
    assert standing(job_in(*passed(*TO_ROUGH_IN), marks={"P2": 1})).stage == "Mock-up"


def test_what_was_changed_outside_bears_on_drywall_alone_and_only_where_items_follow_from_it() -> None:
    cases = [
        (Outside("cable", "K1", "changed", ("in_wall",)), True),
        (Outside("history", "change 3 is missing", "history"), True),
        (Outside("wish", "L1", "changed"), False),
        (Outside("contact", "T1", "added"), False),
        (Outside("contact", "T1", "vanished"), True),
        (Outside(PICTURE, "a.jpg", "was changed"), False),
        (Outside("closing", "Q1", "added"), True),
    ]
    for outside, bears in cases:
        now = standing(job_in(*passed(*TO_DRYWALL), outside=[outside]))
        assert (now.stage == "Rough-in") is bears, outside
        if bears:
            assert now.unearned == outside_line(outside)
        before = standing(job_in(*passed(*TO_ROUGH_IN), outside=[outside]))
        assert before.stage == "Rough-in"
        assert [each.key for each in before.holds] == ([outside.tag] if bears else [])
        assert all(each.strict and each.kind == "outside" for each in before.holds)


def test_what_was_done_outside_in_words() -> None:
    assert outside_line(Outside("cable", "K1", "changed", ("type", "end"))) == (
        "cable K1 was changed outside of Studbook: type, end"
    )
    assert outside_line(Outside("cable", "K1", "vanished")) == "cable K1 was deleted outside of Studbook"
    assert outside_line(Outside("history", "change 3 is missing", "history")) == "change 3 is missing"
    assert outside_line(Outside(PICTURE, "a.jpg", "was changed")) == "picture a.jpg was changed, and items depend on it"


# --- what holds ---


def test_found_after_is_what_is_open_behind_drywall_and_nothing_before() -> None:
    assert standing(job_in(ITEM, *passed(*TO_ROUGH_IN))).found_after == ()
    covered = standing(job_in(ITEM, *passed(*TO_DRYWALL)))
    assert [each.key for each in covered.found_after] == ["Q1"]
    assert [(each.key, each.what, each.strict, each.kind) for each in covered.holds] == [
        ("Q1", "Found after close-in: Q1 Blocks nailed", False, "item")
    ]
    unearned = standing(job_in(ITEM, *passed("Design", "Mock-up", "Drywall")))
    assert (unearned.stage, unearned.found_after) == ("Mock-up", ())
    finish = standing(job_in(ITEM, *passed(*TO_DRYWALL, "Finish")))
    assert [each.key for each in finish.found_after] == ["Q1"]
    signed = job_in(ITEM, closed(job_in(ITEM), "Q1"), *passed(*TO_DRYWALL))
    assert standing(signed).found_after == () == standing(signed).open


@rows("missing", ["x", "y", "width", "height", "depth", "wall"])
def test_an_opening_without_a_place_or_a_size_holds_mock_up_and_rough_in(missing: str) -> None:
    whole = Opening(tag="N1", name="bay", wall=Ref("W1"), x=TEN, y=TEN, width=TEN, height=TEN, depth=TEN)
    lacking = msgspec.structs.replace(whole, **{missing: Ref("") if missing == "wall" else None})
    for stages in (("Design",), ("Design", "Mock-up")):
        sound = [each.key for each in standing(job_in(wall("W1"), whole, *passed(*stages))).holds]
        now = [each.key for each in standing(job_in(wall("W1"), lacking, *passed(*stages))).holds]
        assert now == ["N1", *sound]
    assert "N1" not in [each.key for each in standing(job_in(wall("W1"), lacking)).holds]
    assert "N1" not in [each.key for each in standing(job_in(wall("W1"), lacking, *passed(*TO_DRYWALL))).holds]


@rows("missing", ["width", "height", "depth"])
def test_equipment_in_an_opening_without_its_sizes_holds_them_as_well(missing: str) -> None:
    whole = Equipment(tag="E1", name="player", opening=Ref("N1"), width=TEN, height=TEN, depth=TEN)
    lacking = msgspec.structs.replace(whole, **{missing: None})
    assert [each.key for each in standing(job_in(lacking, *passed("Design"))).holds] == ["E1"]
    for well in (whole, msgspec.structs.replace(lacking, opening=Ref("")),
                 msgspec.structs.replace(lacking, retired=TODAY)):  # fmt: skip
        assert standing(job_in(well, *passed("Design"))).holds == ()


def test_the_mock_up_holds_rough_in_alone() -> None:
    bay = Opening(tag="N1", name="bay", wall=Ref("W1"), x=TEN, y=TEN, width=TEN, height=TEN, depth=TEN)
    assert standing(job_in(wall("W1"), bay, *passed("Design"))).holds == ()
    (hold,) = standing(job_in(wall("W1"), bay, *passed("Design", "Mock-up"))).holds
    assert (hold.key, hold.what, hold.strict) == ("mockup/agreed", "Mock-up not agreed yet", False)


@pytest.mark.parametrize("stages", [(*TO_DRYWALL, "Finish"), (*TO_DRYWALL, "Finish", "Hook-up")])
def test_what_is_not_here_holds_hook_up_and_use(stages: tuple[str, ...]) -> None:
    for state, words in (("to buy", "Still to buy, E1 set"), ("ordered", "Not on site yet, E1 set")):
        one = Equipment(tag="E1", name="set", state=state)  # type: ignore[arg-type]
        assert [each.what for each in standing(job_in(one, *passed(*stages))).holds] == [words]
        assert standing(job_in(one, *passed(*TO_DRYWALL))).holds == ()
        gone = msgspec.structs.replace(one, retired=TODAY)
        assert standing(job_in(gone, *passed(*stages))).holds == ()
    assert standing(job_in(Equipment(tag="E1", name="set", state="owned"), *passed(*stages))).holds == ()


def test_only_a_stop_that_nobody_answered_holds_drywall() -> None:
    strips = (Equipment(tag="E1", name="one", what="strip", state="owned", plug=Ref("E2")),
              Equipment(tag="E2", name="two", what="strip", state="owned"))  # fmt: skip
    job = job_in(*strips, *passed(*TO_ROUGH_IN))
    stop = next(each for each in findings(job) if each.severity == "stop")
    assert [(each.key, each.what, each.strict, each.kind) for each in standing(job).holds] == [
        (stop.key, stop.headline, True, "stop")
    ]
    assert {each.severity for each in findings(job)} > {"stop"}
    answer = Answer(tag=stop.key, date=TODAY, by="R. Wells", office="building department", reference="R-112",
                    says="seen and allowed so", vouches=dict(stop.numbers))  # fmt: skip
    assert standing(job.having(answer)).holds == ()
    assert standing(job, []).holds == ()


def test_an_open_item_in_words() -> None:
    def item(key: str, what: str, why: str = "open") -> Item:
        return Item(RoughIn(key, what, "owner", "", "", (), {}), None, why)

    assert item_line(item("Q3", "Blocks for N1")) == "Q3 Blocks for N1"
    assert item_line(item("Q3", "Blocks of Q3")) == "Blocks of Q3"
    assert item_line(item("K3/tested", "cable tested")) == "K3 cable tested"
    assert item_line(item("job/inspection", "Rough inspection")) == "Rough inspection"
    assert item_line(item("job", "Rough inspection")) == "job Rough inspection"
    assert item_line(item("Q3", "Blocks", "its sign-off has no name")) == "Q3 Blocks (its sign-off has no name)"


def test_what_locks_in_one_line_and_in_many() -> None:
    now = standing(job_in(ITEM, Check(tag="Q2", what="Straps"), *passed(*TO_ROUGH_IN)))
    assert locked_line(now) == "Drywall locked: 2 items"
    assert locked_text("Drywall", now.holds) == "Drywall locked: 2 items:\n  Q1 Blocks nailed\n  Q2 Straps"
    walls = standing(job_in(wall("W1")))
    assert locked_line(walls) == "Before Design: No reading of the width, W1 North wall · 1 other"
    assert locked_line(standing(job_in())) == "Before Design: No walls yet"
    mixed = (Hold("a", "a", True, "item"), Hold("b", "b", True, "stop"), Hold("c", "c", True, "outside"),
             Hold("d", "d", True, "outside"))  # fmt: skip
    whole = msgspec.structs.replace(now, holds=mixed)
    assert locked_line(whole) == "Drywall locked: 1 stop, 2 changes outside of Studbook, 1 item"


def test_of_many_lines_twenty_are_told() -> None:
    twenty = [str(each) for each in range(20)]
    assert "more" not in told("head", twenty)
    assert told("head", [*twenty, "x"]).split("\n")[-2:] == ["  19", "  and 1 more"]
    assert told("head", ["a", "b"], 1) == "head\n  a\n  and 1 more"
    assert held_text("Design", ["a", "b"]) == "Design is locked, 2 open:\n  a\n  b"
    assert held_text("Design", [*twenty, "x"]).endswith("\n  and 1 more")
