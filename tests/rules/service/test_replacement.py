"""Changing a thing for a new one: who gives up the place, who takes it, who follows, what is logged."""

from __future__ import annotations

from pathlib import Path
from typing import cast

import pytest

from store.book.book import Book
from store.book.changes import add
from store.measure.errors import BadValue
from store.measure.mass import parse_mass
from store.records.access import Panel, Visit
from store.records.equipment import Equipment
from store.records.people import Wish
from store.records.whole import Job
from store.records.wiring import Cable, Circuit
from store.rules.core.checks import close, rough_in
from store.rules.fit.fit import pieces
from store.rules.service.outcome import what_follows
from store.rules.service.replacement import exchange, next_tag, panel_for, successor
from tests.jobs.access_jobs import TODAY, at, box, job_of, make, opening, panel
from tui.acts.retiring import retire

SIZE = {"width": at("6"), "height": at("2"), "depth": at("6")}


def start() -> Job:
    """A driver behind a panel, a cable from it, and whoever names them."""
    return job_of(
        opening("N1", "shelf", "40", "40", "30", "20", depth=at("10")),
        box("B1", "junction", "20", "16", reached="A1", circuit="C1"),
        box("B2", "low-voltage", "60", "50"),
        panel("A1", "17", "10", behind=("E1", "K1", "B1"), part="E1"),
        make(Circuit, "C1", name="lights", only_for="E1"),
        make(Equipment, "E1", name="driver", what="driver", reached="A1", plug="B1", power="hard-wired", **SIZE),
        make(Equipment, "E2", name="lamp", what="light", mounting="shelf", plug="E1", power="wall-wart"),
        make(Cable, "K1", name="to the lamp", type="control-18-2", start="E1", end="B2", reached="A1"),
        make(Wish, "L1", what="warm light", served_by=("E1", "E2")),
    )


def test_the_new_thing_takes_the_place_and_everyone_follows() -> None:
    job = start()
    plan = exchange(job, "E1", Equipment(tag="", name="new driver", what="driver"), "Robin", "it hums")
    new = cast(Equipment, plan.new)
    assert (new.tag, new.reached, new.plug, new.retired) == ("E3", "A1", "B1", None)
    old = cast(Equipment, plan.old)
    assert (old.tag, old.retired, old.replaced_by) == ("E1", TODAY, "E3")
    after = {each.tag: each for each in plan.following}
    assert set(after) == {"E2", "K1", "A1", "C1", "L1"}
    assert cast(Panel, after["A1"]).behind == ("E3", "K1", "B1")
    assert cast(Panel, after["A1"]).part == "E3"
    assert cast(Equipment, after["E2"]).plug == "E3"
    assert cast(Cable, after["K1"]).start == "E3"
    assert cast(Circuit, after["C1"]).only_for == "E3"
    assert cast(Wish, after["L1"]).served_by == ("E3", "E2")


def test_the_opening_of_the_panel_is_logged() -> None:
    visit = exchange(start(), "E1", Equipment(tag="", name="new driver"), "Robin", "it hums").visit
    assert visit is not None
    assert (visit.panel, visit.date, visit.who, visit.why) == ("A1", TODAY, "Robin", "it hums")
    assert visit.changed == "E1 taken out, E3 new driver put in its place"


def test_a_thing_that_no_panel_reaches_leaves_no_log() -> None:
    job = start().having(make(Equipment, "E2", name="lamp", what="player", opening="N1"))
    assert panel_for(job, "E2") == ""
    assert exchange(job, "E2", Equipment(tag="", name="new"), "Robin").visit is None


def test_a_cable_is_changed_along_the_same_way() -> None:
    new = Cable(tag="", type="cat6")
    plan = exchange(start(), "K1", new, "Robin")
    taken = cast(Cable, plan.new)
    assert (taken.tag, taken.type, taken.start, taken.end, taken.name) == ("K2", "cat6", "E1", "B2", "to the lamp")
    assert [each.tag for each in plan.following] == ["A1"]


def test_what_the_new_thing_says_of_itself_stays() -> None:
    new = make(Equipment, "", name="new", opening="N1", reached="N1")
    taken = cast(Equipment, exchange(start(), "E1", new, "Robin").new)
    assert (taken.opening, taken.reached, taken.plug) == ("N1", "N1", "B1")


def test_a_tag_is_never_given_twice_not_even_that_of_what_is_gone() -> None:
    job = start()
    assert next_tag(job, Equipment) == "E3"
    assert (
        next_tag(Job(job.tables, {"E9": 4, "K40": 2, "E": 1, "E²": 5, "E" + "1" * 5000: 6}, today=TODAY), Equipment)
        == "E10"
    )


def test_what_cannot_be_changed_is_refused() -> None:
    job = start()
    with pytest.raises(BadValue, match="can't replace"):
        exchange(job, "B1", box("", "junction", "1", "1"), "Robin")
    with pytest.raises(BadValue, match="equipment, not a cable"):
        exchange(job, "E1", Cable(tag="", type="cat6"), "Robin")
    gone = job.having(make(Equipment, "E1", name="driver", retired=TODAY))
    with pytest.raises(BadValue, match="already retired"):
        exchange(gone, "E1", Equipment(tag="", name="x"), "Robin")


def test_the_form_starts_with_the_place_and_nothing_of_the_old_body() -> None:
    job = start()
    new = cast(Equipment, successor(job, cast(Equipment, job.get("E1"))))
    assert (new.reached, new.plug, new.what) == ("A1", "B1", "driver")
    assert (new.width, new.serial, new.warranty) == (None, "", None)
    four = make(Equipment, "E1", name="light", what="light", count=4)
    assert cast(Equipment, successor(job.having(four), four)).count == 4


def _book(path: Path) -> Book:
    job = start()
    puts = [add(each, keep_tag=True) for each in job.each()]
    return Book.create(path, puts, "Robin", "start", lambda: TODAY)


def test_the_change_is_one_action_that_one_undo_takes_back(tmp_path: Path) -> None:
    Book.close(_book(tmp_path / "job.json"))
    book = Book.open(tmp_path / "job.json", "Robin", lambda: TODAY)
    before = dict(book.job.tables)
    book.act("Change E1", retire("E1", make(Equipment, "", name="new driver", what="driver", **SIZE), "Robin", "hums"))
    assert book.job.of(Equipment)["E3"].name == "new driver"
    assert book.job.of(Equipment)["E1"].replaced_by == "E3"
    assert [each.changed for each in book.job.of(Visit).values()] == ["E1 taken out, E3 new driver put in its place"]
    book.undo()
    assert {kind: dict(table) for kind, table in book.job.tables.items()} == {k: dict(t) for k, t in before.items()}
    book.act("Change E1", retire("E1", make(Equipment, "", name="again", what="driver"), "Robin"))
    assert "E4" in book.job.of(Equipment)  # E3 was on a label once


def test_the_new_body_is_measured_in_the_old_place() -> None:
    job = start().having(make(Equipment, "E2", name="player", what="player", opening="N1", **SIZE))
    assert pieces(job)["E2"].verdict != "does not fit"
    large = make(Equipment, "", name="large", what="player", width=at("6"), height=at("2"), depth=at("11"))
    plan = exchange(job, "E2", large, "Robin")
    after = job.having(plan.old).having(plan.new)
    assert pieces(after)["E3"].verdict == "does not fit"
    assert "E2" not in pieces(after)


def test_what_hangs_tells_its_weight_its_bracket_and_its_backing() -> None:
    recess = opening("N1", "screen", "40", "40", "60", "36")
    given = {"what": "screen", "opening": "N1", "mounting": "wall bracket", "holes": "400x400"}
    old = make(Equipment, "E1", name="TV", weight=parse_mass("60 lb"), **given)
    before = job_of(recess, old)
    backing = next(each for each in rough_in(before) if each.key == "N1/backing")
    before = before.having(close(backing, "Sam", TODAY, "photo F1"))
    plan = exchange(before, "E1", make(Equipment, "", name="new TV", weight=parse_mass("95 lb"), **given), "Robin")
    after = before.having(plan.old).having(plan.new)
    told = "\n".join(what_follows(before, after, "E2"))
    assert "Weight: 95 lb, was 60 lb" in told
    assert "Bracket: none listed for N1" in told
    assert "Blocking: N1/backing, open (" in told
    arm = make(Equipment, "E3", name="arm", what="mount", opening="N1", holes="600x400")
    told = "\n".join(what_follows(before.having(arm), after.having(arm), "E2"))
    assert "Bracket: E3 arm, holes 600x400; the TV has 400x400" in told
    assert not [line for line in what_follows(start(), start(), "E1") if line.startswith(("Weight", "Bracket"))]
