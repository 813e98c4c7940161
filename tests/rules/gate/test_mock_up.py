"""The mock-up: agreed once, stale after a move, told by the gate, and no rough-in item."""

from __future__ import annotations

from datetime import date
from typing import Any

import msgspec
import pytest

from store.book.changes import Step
from store.measure.errors import BadValue
from store.measure.length import INCH_NM, Length
from store.records.base import Record, to_doc
from store.records.gate import Closing, Passage
from store.records.wall import Opening
from store.records.whole import Job, Outside
from store.rules.core.checks import close, items, rough_in
from store.rules.gate.gate import standing
from store.rules.gate.guard import guard
from store.rules.gate.mock_up import AGREED, agreement, why_not_agreed
from tests.jobs.wall_jobs import ROOM, TODAY, device, found, job_of, one, opening, panel
from tests.rows import rows

N1 = opening("N1", 10, 10, 20, 20)


def passages() -> tuple[Passage, ...]:
    return (
        Passage(tag="P1", stage="Design", date=TODAY, by="Robin"),
        Passage(tag="P2", stage="Mock-up", date=TODAY, by="Robin"),
    )


def job(*things: Record, agreed: Job | None = None, **closing: Any) -> Job:
    """A job at Mock-up; with the closing of what `agreed` was."""
    word = (close(agreement(agreed), "Robin", date(2026, 5, 1), "seen from the sofa"),) if agreed else ()
    return job_of(*ROOM, *things, *passages(), *(msgspec.structs.replace(each, **closing) for each in word))


def held(of: Job) -> list[str]:
    now = standing(of)
    assert now.next == "Rough-in"
    assert not any(hold.strict for hold in now.holds)
    return [hold.what for hold in now.holds if hold.key == AGREED]


def test_rough_in_is_held_softly_until_the_mock_up_is_agreed() -> None:
    assert held(job(N1)) == ["Mock-up not agreed yet"]
    assert held(job(N1, agreed=job(N1))) == []
    assert held(job()) == []


def moved(**values: Any) -> Opening:
    return msgspec.structs.replace(N1, **{key: Length(round(each * INCH_NM)) for key, each in values.items()})


@rows(
    ("now", "words"),
    [
        (moved(x=12), 'N1 opening N1 moved right 2"'),
        (moved(x=9.5), 'N1 opening N1 moved left 1/2"'),
        (moved(y=10.0625), 'N1 opening N1 moved up 1/16"'),
        (moved(width=21, height=19), 'N1 opening N1 is 1" wider and is 1" lower'),
        (msgspec.structs.replace(N1, x=None), "N1 opening N1 has no place from the left now"),
        (msgspec.structs.replace(N1, wall=""), "N1 opening N1 is on no wall, was on W1"),
    ],
)
def test_a_later_move_makes_it_stale_and_says_which(now: Opening, words: str) -> None:
    after = job(now, agreed=job(N1))
    assert held(after) == [f"Mock-up changed since you agreed: {words}"]
    assert words in one(after, "mock_up_stale").says


def test_what_is_new_or_gone_makes_it_stale_too() -> None:
    assert held(job(N1, panel("A1", 40, 10, 12, 12), agreed=job(N1)))[0].endswith("A1 panel A1 is new")
    assert held(job(N1, agreed=job(N1, opening("N2", 50, 10, 9, 9))))[0].endswith("N2 is deleted")


def test_what_is_not_marked_on_the_wall_does_not() -> None:
    deeper = msgspec.structs.replace(N1, depth=Length(9 * INCH_NM), name="other name")
    in_metric = msgspec.structs.replace(N1, x=Length(10 * INCH_NM, True))
    for now in (deeper, in_metric):
        assert held(job(now, device("E1", 5, 5, 5), agreed=job(N1))) == []
    assert not found(job(N1, agreed=job(N1)), "mock_up_stale")


def test_a_word_without_a_name_or_from_elsewhere_does_not_count() -> None:
    assert "has no name" in why_not_agreed(job(N1, agreed=job(N1), by=" "))
    foreign = msgspec.structs.replace(job(N1, agreed=job(N1)), outside=(Outside("closing", AGREED, "added"),))
    assert "not recorded by Studbook" in why_not_agreed(foreign)


def test_it_is_no_rough_in_item() -> None:
    agreed = job(N1, agreed=job(N1))
    assert all(check.key != AGREED for check in rough_in(agreed))
    assert all(item.key != AGREED for item in items(agreed))


def test_the_guard_lets_it_in_and_no_other_key() -> None:
    before, after = job(N1), job(N1, agreed=job(N1))
    word = after.of(Closing)[AGREED]
    guard(before, after, [Step("closing", AGREED, None, to_doc(word))])
    other = msgspec.structs.replace(word, tag="mockup/other")
    wrong = job_of(*ROOM, N1, other)
    with pytest.raises(BadValue, match="no rough-in item mockup/other"):
        guard(before, wrong, [Step("closing", other.tag, None, to_doc(other))])


def test_it_is_agreed_again_after_a_move() -> None:
    after = job(moved(x=12), agreed=job(N1))
    again = job(moved(x=12), agreed=job(moved(x=12)))
    step = Step("closing", AGREED, to_doc(after.of(Closing)[AGREED]), to_doc(again.of(Closing)[AGREED]))
    guard(after, again, [step])
    assert held(again) == []


def at_edges(*outside: Outside, **closing: Any) -> str:
    """Why an agreed mock-up does not count with something done outside."""
    whole = job(N1, agreed=job(N1), **closing)
    return why_not_agreed(msgspec.structs.replace(whole, outside=outside))


def test_only_an_edit_of_its_own_agreement_or_a_picture_of_it_undoes_it() -> None:
    assert at_edges(Outside("closing", AGREED, "changed")) == "Mock-up: the agreement was not recorded by Studbook"
    for other in (Outside("closing", "Q1", "changed"), Outside("answer", AGREED, "changed")):
        assert at_edges(other) == ""
    photo = {"proof": "photo", "pictures": {"a.jpg": "0"}}
    assert at_edges(**photo) == ""
    assert "a.jpg" in at_edges(Outside("picture", "a.jpg", "was changed"), **photo)
    for well in (Outside("picture", "b.jpg", "was changed"), Outside("wish", "a.jpg", "changed")):
        assert at_edges(well, **photo) == ""


def test_six_changes_are_told_and_of_more_their_number() -> None:
    many = [opening(f"N{n}", n * 10, 10, 5, 5) for n in range(1, 9)]
    for count in (5, 6, 7, 8):
        after = [msgspec.structs.replace(each, x=Length(10 * INCH_NM)) for each in many[:count]]
        shifted = [*[msgspec.structs.replace(each, y=Length(20 * INCH_NM)) for each in after], *many[count:]]
        said = why_not_agreed(job(*shifted, agreed=job(*many)))
        assert (f"{count - 6} more" in said) is (count > 6), said
        assert ("N6 (" in said or "N6 opening" in said) is (count >= 6)


def test_a_place_that_is_new_or_gone_is_told_and_an_older_agreement_is_read_as_far_as_it_goes() -> None:
    nowhere = msgspec.structs.replace(N1, x=None)
    assert why_not_agreed(job(N1, agreed=job(nowhere))).endswith("has a place from the left now")
    assert why_not_agreed(job(nowhere, agreed=job(N1))).endswith("has no place from the left now")
    older = {"N1": " | ".join(agreement(job(N1)).vouches["N1"].split(" | ")[:2])}
    assert why_not_agreed(job(N1, agreed=job(N1), vouches=older)).endswith("changed")
    assert agreement(job(N1)).vouches["N1"] == "W1 | 254 mm | 254 mm | 508 mm | 508 mm"


def test_a_stale_mock_up_is_told_of_what_changed_and_is_still_there() -> None:
    other = opening("N2", 60, 10, 5, 5)
    assert found(job(N1, agreed=job(N1)), "mock_up_stale") == []
    assert found(job(N1), "mock_up_stale") == []
    (stale,) = found(job(moved(x=12), agreed=job(N1, other)), "mock_up_stale")
    assert stale.tags == ("N1",)
    assert set(stale.numbers) == {"N1", "N2"}
    assert stale.numbers["N2"] == "gone"
    # What stays as it was is not told; nor is anything where no tape is left, or only the word itself is bad.
    (one_of_two,) = found(job(moved(x=12), other, agreed=job(N1, other)), "mock_up_stale")
    assert (one_of_two.tags, set(one_of_two.numbers)) == (("N1",), {"N1"})
    assert found(job(agreed=job(N1)), "mock_up_stale") == []
    assert found(job(N1, agreed=job(N1), by=" "), "mock_up_stale") == []
