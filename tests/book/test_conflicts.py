"""Two people at one record: other fields merge, the same field is shown with both values, nothing is lost unseen."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import msgspec
import pytest

from store.book.changes import Change, Ledger, Put, add, drop, edit
from store.book.errors import Clash, Conflict
from store.measure.errors import BadValue
from store.measure.length import INCH_NM, Length
from store.measure.mass import parse_mass
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.people import Contact
from store.records.wall import Reading, Wall
from store.records.whole import KINDS
from tests.book.build import contact, make, puts, raw, reading, reopen, rewrite, wall


def changed(record: Record, **fields: Any) -> Put:
    """The change that a form would make of a record."""
    return edit(record, msgspec.structs.replace(record, **fields))


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job with a contact."""
    path = tmp_path / "wall.json"
    make(path, contact("T1"), wall("W1")).close()
    return path


def test_other_fields_merge(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    mine, theirs = ann.job.of(Contact)["T1"], ben.job.of(Contact)["T1"]
    ann.act("Phone", [changed(mine, phone="555-0101")])
    ben.act("Mail", [changed(theirs, mail="sparks@example.com")])
    found = reopen(job).job.of(Contact)["T1"]
    assert (found.phone, found.mail) == ("555-0101", "sparks@example.com")


def test_the_same_field_is_shown_with_both_values(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    theirs = ben.job.of(Contact)["T1"]
    ann.act("Phone", [changed(ann.job.of(Contact)["T1"], phone="555-0101", state="quoted")])
    before = job.read_bytes()
    with pytest.raises(Conflict, match=r"someone else changed T1 meanwhile\. Nothing was saved") as caught:
        ben.act("Phone", [changed(theirs, phone="555-0102", state="booked", mail="sparks@example.com")])
    assert set(caught.value.clashes) == {
        Clash("contact", "T1", "phone", None, "555-0101", "555-0102"),
        Clash("contact", "T1", "state", None, "quoted", "booked"),
    }
    assert caught.value.exit_status == 5
    assert job.read_bytes() == before
    # What Ben typed can be laid on top once he has seen it.
    ben.act("Phone", [changed(ben.job.of(Contact)["T1"], phone="555-0102")])
    assert reopen(job).job.of(Contact)["T1"].phone == "555-0102"


def test_clashes_of_several_records_are_told_together(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    old = ben.job.of(Contact)["T1"], ben.job.of(Wall)["W1"]
    for each in (changed(old[0], phone="1"), changed(old[1], name="a")):
        ann.act("Edit", [each])
    with pytest.raises(Conflict) as caught:
        ben.act("Edit", [changed(old[0], phone="2"), changed(old[1], name="b")])
    assert [(each.tag, each.field) for each in caught.value.clashes] == [("T1", "phone"), ("W1", "name")]


def test_both_typing_the_same_is_no_conflict(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    old = ben.job.of(Contact)["T1"]
    ann.act("Phone", [changed(old, phone="555-0101")])
    entries = len(ann.entries())
    ben.act("Phone", [changed(old, phone="555-0101")])
    assert len(ben.entries()) == entries  # nothing was left to do


def test_a_record_removed_meanwhile_is_not_edited_nor_removed_twice(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    old = ben.job.of(Contact)["T1"]
    ann.act("Remove", [drop(old)])
    for change, says in (
        (changed(old, phone="1"), "someone else deleted T1 meanwhile"),
        (drop(old), "someone else changed or deleted T1 meanwhile"),
    ):
        with pytest.raises(Conflict, match=says):
            ben.act("Change", [change])


def test_a_record_edited_meanwhile_is_not_removed(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    old = ben.job.of(Contact)["T1"]
    ann.act("Edit", [changed(old, notes="calls back on Monday")])
    with pytest.raises(Conflict, match="someone else changed or deleted T1 meanwhile"):
        ben.act("Remove", [drop(old)])
    assert reopen(job).job.of(Contact)["T1"].notes == "calls back on Monday"


def test_a_form_opened_and_saved_is_no_change(job: Path) -> None:
    book = reopen(job)
    one = book.job.of(Wall)["W1"]
    # The same values in other words: another unit, a default written out.
    same = msgspec.structs.replace(one, spacing=Length(16 * INCH_NM, metric=True), bearing="un" + "known")
    assert edit(one, same).fields == {}
    before = job.read_bytes()
    book.act("Edit", [edit(one, same)])
    assert job.read_bytes() == before


def test_a_file_that_says_the_same_in_other_words_is_no_conflict(job: Path) -> None:
    def by_hand(tables: Any) -> None:
        tables["wall"]["1"].update(spacing="406.4 mm", bearing="unknown", stud_depth="3.5 in", colour="red")

    rewrite(job, by_hand)
    book = reopen(job)
    one = book.job.of(Wall)["W1"]
    assert one.spacing == Length(16 * INCH_NM)
    book.act("Edit", [changed(one, spacing=Length(24 * INCH_NM), bearing="no", stud_depth=Length(4 * INCH_NM))])
    found = reopen(job).job.of(Wall)["W1"]
    assert (found.spacing, found.bearing, found.stud_depth.inches) == (Length(24 * INCH_NM), "no", 4)
    assert raw(job)["wall"]["1"]["colour"] == "red"
    book.act("Remove", [drop(book.job.of(Wall)["W1"])])
    assert reopen(job).job.of(Wall) == {}


def test_lists_survive_a_save_by_somebody_else(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    screen = Equipment(tag="", name="screen", ports=("hdmi in", "ethernet"), weight=parse_mass("29.55 lb"))
    ann.act("Add", [add(screen)])
    ben.refresh()
    one = ben.job.of(Equipment)["E1"]
    assert one.ports == ("hdmi in", "ethernet")
    ben.act("Edit", [changed(one, ports=(*one.ports, "hdmi out"))])
    ann.refresh()
    ann.act("Edit", [changed(ann.job.of(Equipment)["E1"], name="picture")])
    ann.undo()
    reopen(job).act("Remove", [drop(ben.job.of(Equipment)["E1"])])
    assert reopen(job).job.of(Equipment) == {}


# --- tags ---


def test_no_tag_is_given_twice(job: Path) -> None:
    book = reopen(job)
    for count in (2, 3):
        book.act("Add", [add(contact())])
        book.act("Remove", [drop(book.job.of(Contact)[f"T{count}"])])
        book.close()
        book = reopen(job)
    book.act("Add", [add(contact()), add(contact())])
    assert list(book.job.of(Contact)) == ["T1", "T4", "T5"]
    # Neither by asking for it by name.
    for tag in ("T2", "T3"):
        with pytest.raises(BadValue, match=rf"{tag} was used before\. A tag is never"):
            book.act("Add", [add(contact(tag), keep_tag=True)])
    with pytest.raises(Conflict, match="someone else added T1 meanwhile"):
        book.act("Add", [add(contact("T1"), keep_tag=True)])


def test_no_tag_is_given_twice_even_when_the_counters_were_set_back(job: Path) -> None:
    book = reopen(job)
    for _ in range(3):
        book.act("Add", [add(contact())])
    book.act("Remove", [drop(book.job.of(Contact)["T4"])])
    rewrite(job, lambda tables: tables["_meta"]["1"].update(next={}, last=0))
    book = reopen(job)
    book.act("Add", [add(contact())])
    assert list(book.job.of(Contact)) == ["T1", "T2", "T3", "T5"]
    assert [each.n for each in book.entries()] == [1, 2, 3, 4, 5, 6]


def test_undo_of_adding_keeps_the_tag_taken(job: Path) -> None:
    book = reopen(job)
    book.act("Add", [add(contact())])
    book.undo()
    book.act("Add", [add(contact())])
    assert list(book.job.of(Contact)) == ["T1", "T3"]


@pytest.mark.parametrize(
    "tag", ["t9", "K9", "T09", "T", "9", "T٣", "T²", "T1 ", "T" + "9" * 5000, "T-1", "T0", "\x1bT"]
)
def test_what_is_no_tag_is_refused(job: Path, tag: str) -> None:
    book = reopen(job)
    before = job.read_bytes()
    with pytest.raises(BadValue, match=r"is not the tag of a contact\. Write T1\."):
        book.act("Add", [add(contact(tag), keep_tag=True)])
    assert job.read_bytes() == before


def test_a_tag_is_never_changed(job: Path) -> None:
    book = reopen(job)
    for change in (
        changed(book.job.of(Contact)["T1"], tag="T9"),
        Put("contact", "T1", {"tag": "T9"}),
        Put("contact", "", {"tag": "T9", "name": "x", "trade": "owner"}, new=True),
    ):
        with pytest.raises(BadValue, match=r"can't be changed\. It is on the wall"):
            book.act("Edit", [change])


def test_a_number_that_a_hand_edited_file_uses_otherwise_is_not_overwritten(job: Path) -> None:
    rewrite(job, lambda tables: tables["contact"].update({"2": {**tables["contact"].pop("1"), "tag": "T1"}}))
    book = reopen(job)
    book.act("Add", [add(contact(name="second"))])
    found = reopen(job).job.of(Contact)
    assert {tag: each.name for tag, each in found.items()} == {"T1": "A. Sparks", "T2": "second"}


# --- references and needs ---


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ([add(reading("W9"))], "no W9 in this job, for “wall”"),
        ([add(reading("T1"))], "T1 is the wrong kind for “wall”"),
        ([add(Reading(tag="", wall=Ref(""), what="width", value=Length(1)))], "“wall” is blank"),
        ([add(reading(inches=0))], "“reading” must be more than zero"),
        ([add(reading(inches=-5))], "“reading” must be more than zero"),
        ([add(Contact(tag="", name="", trade="owner"))], "“name” is blank"),
        ([Put("contact", "T1", {"name": None})], "name"),
        ([Put("contact", "T1", {"trade": "plumber"})], "trade"),
        ([Put("reading", "", {"wall": "W1", "what": "width", "value": "12"}, new=True)], "needs ' in' or ' mm'"),
        ([add(Equipment(tag="", name="a", replaced_by=Ref("E1")))], "E1 can't be its own “replaced by”"),
    ],
)
def test_what_lacks_something_or_names_nothing_is_refused(job: Path, changes: list[Change], says: str) -> None:
    before = job.read_bytes()
    with pytest.raises(BadValue) as caught:
        reopen(job).act("Add", changes)
    assert says in str(caught.value)
    assert job.read_bytes() == before


def test_what_is_named_is_not_removed_alone(job: Path) -> None:
    book = reopen(job)
    book.act("Add", [add(reading("W1"))])
    with pytest.raises(BadValue, match=r"W1 is still in use: D1\. Change those first"):
        book.act("Remove", [drop(book.job.of(Wall)["W1"])])
    book.act("Remove", [drop(book.job.of(Reading)["D1"]), drop(book.job.of(Wall)["W1"])])
    assert not book.job.of(Wall)
    book.undo()
    assert list(book.job.of(Reading)) == ["D1"]


def test_the_jobs_own_record_stays(job: Path) -> None:
    book = reopen(job)
    with pytest.raises(BadValue, match="the job's settings can't be deleted"):
        book.act("Remove", [drop(book.job.settings)])
    with pytest.raises(BadValue, match="wrong tag for job"):
        book.act("Add", [Put("job", "", {"name": "another"}, new=True)])


def test_changes_of_one_action_see_each_other() -> None:
    ledger = Ledger({}, {})
    steps = ledger.apply([*puts([wall("W1")]), Put("wall", "W1", {"name": "b"}), Put("wall", "W1", {"name": "c"})])
    assert [(each.before, each.after) for each in steps] == [(None, {"tag": "W1", "name": "c"})]
    assert ledger.apply([Put("wall", "W1", {"name": "c"})]) == []
    assert set(KINDS) >= {each.kind for each in steps}


def test_an_action_that_comes_to_nothing_is_no_action(job: Path) -> None:
    book = reopen(job)
    before = job.read_bytes()
    book.act("Nothing", [])
    book.act("Nothing", [Put("contact", "T1", {"name": "A. Sparks", "phone": None})])
    made = [add(contact("T7"), keep_tag=True)]
    assert book.act("Nothing", lambda job: [] if job.of(Contact) else made).of(Contact).keys() == {"T1"}
    assert job.read_bytes() == before


def test_text_is_made_harmless_whoever_hands_it_in(job: Path) -> None:
    book = reopen(job, "An\x1b]0;n")
    book.act("Add\x1b[2J\nit", [add(contact(name="a\x1b[31m\u202eb", notes="one\ntwo\x9b"))], "be\x07cause\nso")
    one, entry = book.job.of(Contact)["T2"], book.entries()[-1]
    assert (one.name, one.notes) == ("a␛[31m\ufffdb", "one\ntwo\ufffd")
    assert (entry.who, entry.what, entry.why) == ("An␛]0;n", "Add␛[2J it", "be␇cause\nso")
    book.act("Half a sign \ud800", [add(contact(name="\udcff"))])
    assert reopen(job).job.of(Contact)["T3"].name == "\ufffd"
