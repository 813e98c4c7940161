"""The stages one after another: what holds each, what a reason gets past, and what it does not."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest

from store.book.changes import add, drop, edit
from store.measure.counts import plural
from store.measure.errors import BadValue
from store.measure.length import INCH_NM, Length
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.gate import Answer, Closing, Passage
from store.records.wall import Opening
from store.rules.core.findings import findings
from store.rules.gate.gate import STAGES, passage, standing
from store.rules.gate.guard import Held, NeedsReason
from tests.book.build import TODAY, check, make, reading, reopen, rewrite, wall
from tests.jobs.gate_job import at_drywall, before_drywall, go_on, job_before, pass_to, shut, stands

STRIP = (
    Equipment(tag="E1", name="one strip", what="strip", state="owned", plug=Ref("E2")),
    Equipment(tag="E2", name="strip", what="strip", state="owned"),
)
"""A strip plugged into a strip: a finding that stops, and that somebody who may can answer."""


def keys(path: Path) -> list[str]:
    """What holds the next stage."""
    return [each.key for each in stands(path).holds]


def test_a_new_job_is_at_survey(tmp_path: Path) -> None:
    now = standing(make(tmp_path / "wall.json").job)
    assert (now.stage, now.next, now.claimed, now.unearned) == ("Survey", "Design", None, "")
    assert [each.key for each in now.holds] == ["walls"]


def test_design_is_held_by_what_is_not_measured(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = make(path, wall("W1"), wall("W2"))
    assert keys(path) == ["W1/width", "W1/height", "W2/width", "W2/height"]
    for on in ("W1", "W2"):
        book.act("Measure", [add(reading(on)), add(reading(on, what="height"))])
    assert keys(path) == []
    go_on(book)
    assert stands(path).stage == "Design"


def test_a_soft_hold_is_passed_with_a_written_reason_only(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = make(path)
    for blank in ("", "  ", "\n"):
        with pytest.raises(NeedsReason, match=r"(?s)Design is locked, 1 open:.*No walls yet.*write down why"):
            go_on(book, blank)
    assert stands(path).stage == "Survey"
    go_on(book, "measured on paper")
    found = book.job.of(Passage)["P1"]
    assert (found.stage, found.by, found.reason, found.date) == ("Design", "Ann", "measured on paper", TODAY)


def test_mock_up_and_rough_in_are_held_by_what_has_no_place_or_size(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    one = Opening(tag="N1", name="niche", wall=Ref("W1"))
    book = job_before("Mock-up", path, wall("W1"), one, Equipment(tag="E1", name="player", opening=Ref("N1")))
    assert keys(path) == ["N1", "E1"]
    ten = Length(10 * INCH_NM)
    sized = msgspec.structs.replace(one, x=ten, y=ten, width=ten, height=ten, depth=ten)
    book.act("Size", [edit(one, sized)])
    assert keys(path) == ["E1"]


def test_the_last_stages_are_held_by_what_is_not_bought(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    make_one = Equipment(tag="E1", name="player")
    book = job_before("Hook-up", path, make_one, Equipment(tag="E2", name="old", retired=TODAY))
    assert [each.what for each in stands(path).holds] == ["Still to buy, E1 player"]
    book.act("Order", [edit(make_one, msgspec.structs.replace(make_one, state="ordered"))])
    assert [each.what for each in stands(path).holds] == ["Not on site yet, E1 player"]
    go_on(book, "comes next week")
    assert keys(path) == ["E1"]
    go_on(book, "comes next week")
    now = stands(path)
    assert (now.stage, now.next, now.holds) == ("In use", None, ())
    with pytest.raises(BadValue, match="the last stage"):
        passage(book.job, "Ann")


def test_all_stages_in_order(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = make(path)
    for stage in STAGES[1:]:
        go_on(book, "as agreed")
        assert stands(path).stage == stage
    assert [each.stage for each in book.job.of(Passage).values()] == list(STAGES[1:])


def test_drywall_is_held_by_every_open_item_and_by_no_reason_let_through(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = before_drywall(path, "Blocks", "Photos", "Plates")
    holds = stands(path).holds
    assert [(each.key, each.what, each.strict) for each in holds] == [
        ("Q1", "Q1 Blocks", True),
        ("Q2", "Q2 Photos", True),
        ("Q3", "Q3 Plates", True),
    ]
    for count, key in enumerate(("Q1", "Q2", "Q3")):
        before = path.read_bytes()
        with pytest.raises(Held, match=f"Drywall locked: {plural(3 - count, 'item')}:") as caught:
            go_on(book, "the boarders are here already")
        assert not isinstance(caught.value, NeedsReason)
        assert caught.value.exit_status == 3
        assert path.read_bytes() == before
        shut(book, key)
    go_on(book)
    assert stands(path).stage == "Drywall"
    assert book.job.of(Passage)["P4"].checked == ("Q1", "Q2", "Q3")


def test_a_long_list_of_holds_is_cut_with_its_number(tmp_path: Path) -> None:
    book = before_drywall(tmp_path / "wall.json", *[f"Item {number}" for number in range(30)])
    with pytest.raises(Held, match=r"(?s)Drywall locked: 30 items:.*Q20 Item 19\n  and 10 more$"):
        go_on(book)


def test_a_finding_that_stops_holds_drywall_until_it_is_answered_or_gone(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = job_before("Drywall", path, *STRIP)
    (hold,) = stands(path).holds
    assert (hold.key, hold.strict) == ("strip_on_strip:E1,E2", True)
    with pytest.raises(Held, match="Power strip plugged into a power strip"):
        go_on(book, "it was always like this")
    found = next(each for each in findings(book.job) if each.key == hold.key)
    answer = Answer(
        tag=hold.key, date=TODAY, by="R. Wells", office="building department", reference="R-112",
        says="allowed for the test fit", vouches=found.numbers,
    )  # fmt: skip
    book.act("Answer", [add(answer, keep_tag=True)])
    assert keys(path) == []
    # With other numbers the answer does not count.
    book.act("Answer", [edit(answer, msgspec.structs.replace(answer, vouches={"plugged into": "E9"}))])
    assert keys(path) == [hold.key]
    book.act("Unplug", [edit(STRIP[0], msgspec.structs.replace(STRIP[0], plug=Ref("")))])
    assert keys(path) == []
    go_on(book)
    assert stands(path).stage == "Drywall"


def test_an_answer_written_by_hand_does_not_count(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = job_before("Drywall", path, *STRIP)
    answer = {"tag": "strip_on_strip:E1,E2", "date": "2026-11-25", "by": "Eve", "says": "fine"}
    rewrite(path, lambda t: t.update(answer={"1": {**answer, "vouches": {"plugged into": "E2"}}}))
    assert keys(path) == ["strip_on_strip:E1,E2"]
    with pytest.raises(Held, match="Power strip plugged into a power strip"):
        go_on(book)


# --- after the wall is closed ---


def test_an_item_found_after_drywall_keeps_the_stage_and_holds_the_next(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = at_drywall(path)
    book.act("Found", [add(check("Cable behind the board not tested"))])
    now = stands(path)
    assert (now.stage, now.next, now.claimed) == ("Drywall", "Finish", None)
    assert [each.key for each in now.found_after] == ["Q2"]
    assert [(each.key, each.what) for each in now.holds] == [
        ("Q2", "Found after close-in: Q2 Cable behind the board not tested")
    ]
    with pytest.raises(NeedsReason, match="Found after close-in: Q2"):
        go_on(book)
    shut(book, "Q2")
    assert stands(path).found_after == ()
    go_on(book)
    assert stands(path).stage == "Finish"


def test_an_item_found_late_holds_every_stage_that_follows(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = at_drywall(path)
    book.act("Found", [add(check("Late"))])
    for stage in ("Finish", "Hook-up", "In use"):
        assert keys(path) == ["Q2"]
        with pytest.raises(NeedsReason):
            go_on(book)
        go_on(book, "the board stays; reached through the panel")
        assert stands(path).stage == stage
    assert [each.key for each in stands(path).found_after] == ["Q2"]


def test_going_back_opens_the_wall_and_needs_a_reason(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = at_drywall(path)
    with pytest.raises(NeedsReason, match="no reason to go back from Drywall"):
        book.act("Back", [drop(book.job.of(Passage)["P4"])])
    book.act("Back", [drop(book.job.of(Passage)["P4"])], "board taken down")
    assert (stands(path).stage, stands(path).next) == ("Rough-in", "Drywall")
    book.act("Found", [add(check("Late"))])
    assert keys(path) == ["Q2"]
    with pytest.raises(Held):
        go_on(book)
    shut(book, "Q2")
    go_on(book)
    assert book.job.of(Passage)["P5"].checked == ("Q1", "Q2")
    assert stands(path).stage == "Drywall"


def test_only_the_last_passage_is_taken_back(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = at_drywall(path)
    for tag in ("P1", "P2", "P3"):
        with pytest.raises(Held, match="The job is at Drywall"):
            book.act("Back", [drop(book.job.of(Passage)[tag])], "a reason")
    assert stands(path).stage == "Drywall"


def test_a_passage_and_its_closings_in_one_action_are_taken_back_together(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = before_drywall(path)
    shut(book, "Q1")
    gone, late = drop(book.job.of(Closing)["Q1"]), add(check("More"))
    go_on(book)
    book.act("Board taken down", [drop(book.job.of(Passage)["P4"]), gone, late], "leak behind it")
    assert keys(path) == ["Q1", "Q2"]
    book.undo("it was the other wall")
    assert stands(path).stage == "Drywall"


def test_a_passage_may_not_be_dated_ahead(tmp_path: Path) -> None:
    book = before_drywall(tmp_path / "wall.json")
    shut(book, "Q1")
    with pytest.raises(BadValue, match="is still to come"):
        book.act("Pass", [add(pass_to("Drywall", "Q1", day=TODAY.replace(year=2027)))])
    assert reopen(book.path).job.of(Passage).keys() == {"P1", "P2", "P3"}
