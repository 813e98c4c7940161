"""Packets: what they wait for, exactly what changed since they were given, and what signing them back closes."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import msgspec
from msgspec.structs import replace

import store.rules
from store.book.book import Book
from store.book.changes import add, drop, edit
from store.measure.length import INCH_NM, Length
from store.records.equipment import Equipment
from store.records.gate import Check, Closing, Passage
from store.records.job import Settings
from store.records.people import Contact, Handoff, Stage, Step, Wish
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.core.checks import items, rough_in
from store.rules.core.findings import Finding
from store.rules.handoff import questions
from store.rules.handoff.changes import changes_since
from store.rules.handoff.packet import by_signature, folded, handed, packet, signed_back, trades_with_packets
from store.rules.handoff.questions import asked
from store.rules.handoff.scope import SCHEDULES
from tests.book.build import NO_PERMIT
from tests.jobs.order_jobs import MONDAY, job_of, step
from tests.jobs.proofs import sound
from tests.rows import rows


def inches(number: float) -> Length:
    return Length(int(number * INCH_NM))


def book(folder: Path) -> Book:
    """A wall with power and signal, an electrician before a drywall crew."""
    path = folder / "wall.json"
    records = (
        Settings(tag="job", name="Wall", **NO_PERMIT),
        Wall(tag="W1", name="Media wall"),
        Contact(tag="T1", name="Sam", trade="electrician", state="booked", phone="555-0101"),
        Contact(tag="T2", name="Jo", trade="drywall", state="quoted", phone="555-0104"),
        Contact(tag="T3", name="Kim", trade="painter", phone="555-0105"),
        step("S1", 2, who="T1", stage="Rough-in"),
        step("S2", 2, "S1", who="T2", stage="Drywall"),
        step("S3", 1, "S2", who="T3", stage="Finish"),
        Circuit(tag="C1", name="Media", breaker=15.0, volts=120.0, conductor="12"),
        Box(tag="B1", name="screen", what="receptacle", wall="W1", x=inches(60), y=inches(66), circuit="C1"),  # type: ignore[arg-type]
        Box(tag="B2", name="jack", what="low-voltage", wall="W1", x=inches(70), y=inches(66)),  # type: ignore[arg-type]
        Opening(tag="N1", name="Screen", wall="W1", x=inches(40), y=inches(50), width=inches(58), height=inches(34)),  # type: ignore[arg-type]
        Equipment(tag="E1", name="Screen", watts=180.0, opening="N1"),  # type: ignore[arg-type]
        Cable(tag="K1", type="nm-12-2", start="B1"),  # type: ignore[arg-type]
        Cable(tag="K2", type="cat6", start="B2"),  # type: ignore[arg-type]
        Check(tag="Q1", what="Free conductor left in every box", trade="electrician"),
        Check(tag="Q2", what="Ends tested", trade="electrician", wants="test value"),
        Check(tag="Q3", what="Ends labelled", trade="low-voltage"),
    )
    return Book.create(path, [add(one, keep_tag=True) for one in records], "Robin", "Start", lambda: MONDAY)


def entries(one: Book) -> list[dict[str, Any]]:
    plain: list[dict[str, Any]] = msgspec.to_builtins(one.entries())
    return plain


def put(one: Book, tag: str, **values: Any) -> None:
    old = one.job.get(tag)
    assert old is not None
    one.act(f"Edit {tag}", [edit(old, replace(old, **values))])


def give(one: Book, trade: Any) -> Handoff:
    point = max(entry.n for entry in one.entries())
    one.act("Give", [add(handed(one.job, trade, point))])
    return next(each for each in one.job.of(Handoff).values() if each.trade == trade)


def test_of_six_changes_the_electrician_is_told_of_just_his_three(tmp_path: Path) -> None:
    one = book(tmp_path)
    given = give(one, "electrician")
    assert (given.contact, given.given, given.point) == ("T1", MONDAY, 1)
    put(one, "B1", x=inches(62))
    put(one, "E1", price=90_000, supplier="shop in town")
    put(one, "C1", breaker=20.0)
    put(one, "K2", type="cat6a")
    one.act("Wish", [add(Wish(tag="", what="No cord to be seen"))])
    one.act("Add", [add(Cable(tag="", type="nm-14-2", start="B1", name="lamp"))])  # type: ignore[arg-type]
    told = [each.says for each in changes_since(one.job, given, entries(one))]
    assert told == [
        "B1 screen: from left was 5'-0\", is 5'-2\".",
        "C1 Media: breaker was 15 A, is 20 A.",
        "K3 lamp is new: type nm-14-2; from B1.",
    ]
    found = packet(one.job, "electrician", entries(one))
    assert [each.says for each in found.changed] == told


def test_a_packet_noted_by_hand_knows_what_its_day_knew(tmp_path: Path) -> None:
    one = book(tmp_path)
    put(one, "C1", breaker=20.0)
    one.act("Noted", [add(Handoff(tag="", trade="electrician", given=MONDAY))])
    put(one, "B1", x=inches(62))
    by_hand, known = one.job.of(Handoff)["H1"], entries(one)
    days = ("2026-11-01", "2026-11-02", "2026-11-02", "2026-11-02")
    known = [{**each, "at": f"{day}T09:00:00Z"} for each, day in zip(known, days, strict=True)]
    told = [each.says for each in changes_since(one.job, by_hand, known)]
    assert told == ["B1 screen: from left was 5'-0\", is 5'-2\"."]
    # Written down a day late: what changed in between is told as well.
    early = replace(by_hand, given=date(2026, 11, 1))
    told = [each.tag for each in changes_since(one.job, early, known)]
    assert told == ["C1", "B1"]
    # Given before the book was begun: it knows what there was when it was written down.
    older = [{**each, "at": "2026-11-09T09:00:00Z"} for each in known]
    assert [each.tag for each in changes_since(one.job, by_hand, older)] == ["B1"]


def test_each_trade_is_told_of_its_own(tmp_path: Path) -> None:
    one = book(tmp_path)
    for trade in ("electrician", "low-voltage", "drywall", "carpenter", "painter"):
        give(one, trade)
    put(one, "B2", y=inches(60))
    put(one, "N1", depth=inches(6))
    put(one, "T2", phone="555-0199")
    told = {
        each.trade: {(line.tag, line.what) for line in changes_since(one.job, each, entries(one))}
        for each in one.job.of(Handoff).values()
    }
    assert told == {
        "electrician": {("T2", "phone")},
        "low-voltage": {("B2", "off the floor")},
        "drywall": {("B2", "off the floor")},
        "carpenter": {("N1", "depth")},
        "painter": {("T2", "phone")},
    }


def test_what_was_changed_and_changed_back_is_no_change(tmp_path: Path) -> None:
    one = book(tmp_path)
    given = give(one, "electrician")
    put(one, "B1", x=inches(62))
    one.undo()
    one.act("Add", [add(Circuit(tag="", name="Spare"))])
    one.act("Drop", [drop(one.job.of(Circuit)["C2"])])
    assert changes_since(one.job, given, entries(one)) == ()


def test_what_is_removed_or_becomes_something_else_is_gone(tmp_path: Path) -> None:
    one = book(tmp_path)
    given = give(one, "electrician")
    one.act("Drop", [drop(one.job.of(Cable)["K1"])])
    put(one, "B1", what="pass-through", circuit="")
    told = {(each.tag, each.what): each.says for each in changes_since(one.job, given, entries(one))}
    assert set(told) == {("K1", "gone"), ("B1", "gone")}
    assert told["B1", "gone"] == "B1 screen is no longer on your list."


# --- drafts ---


def missing(job: Job, trade: Any) -> list[str]:
    return [each.what for each in packet(job, trade).missing]


def at_rough_in(*more: Any) -> Job:
    stages: tuple[Stage, ...] = ("Design", "Mock-up", "Rough-in")
    passages = [Passage(tag=f"P{at}", stage=stage, date=MONDAY, by="Robin") for at, stage in enumerate(stages, 1)]
    return job_of(*passages, *more, **NO_PERMIT)


def test_a_packet_is_a_draft_until_the_step_before_is_done_the_things_are_there_and_papers_are_good() -> None:
    crew = Contact(tag="T1", name="Sam", trade="electrician", state="booked", insured_until=date(2026, 11, 1))
    job = at_rough_in(
        crew,
        step("S1", 1, stage="Rough-in"),
        step("S2", 1, "S1", who="T1", stage="Rough-in"),
        Equipment(tag="E1", name="Fireplace", needed_for="S2", state="ordered"),  # type: ignore[arg-type]
    )
    assert missing(job, "electrician") == ["S1 work S1", "E1 Fireplace is on site", "The insurance of Sam is valid"]
    ready = (
        job.having(step("S1", 1, stage="Rough-in", done=MONDAY))
        .having(Equipment(tag="E1", name="Fireplace", needed_for="S2", state="owned"))  # type: ignore[arg-type]
        .having(replace(crew, insured_until=date(2026, 12, 1)))
    )
    assert missing(ready, "electrician") == []
    # A paper that is good today and ends before the work does is not ticked.
    longer = ready.having(step("S2", 3, "S1", who="T1", stage="Rough-in"))
    assert missing(longer.having(replace(crew, insured_until=date(2026, 11, 4))), "electrician") == [
        "The insurance of Sam is valid"
    ]


def test_the_drywall_packet_is_a_draft_while_a_check_is_open_and_whatever_its_step_says() -> None:
    crew = Contact(tag="T1", name="Jo", trade="drywall", state="booked")
    check = Check(tag="Q1", what="Photos taken", wants="photo")
    for stage in ("Drywall", "Rough-in", "Survey"):
        job = at_rough_in(crew, check, step("S1", 1, who="T1", stage=stage))
        assert missing(job, "drywall") == ["Q1 Photos taken"]
        closing = sound(rough_in(job)[0], "Robin", MONDAY)
        assert missing(job.having(closing), "drywall") == []


def test_without_steps_the_drywall_packet_is_still_held() -> None:
    assert missing(job_of(), "drywall") == ["The job is at Drywall"]
    assert missing(job_of(), "painter") == ["The job is at Finish"]


def test_a_stop_finding_on_what_they_are_given_makes_a_draft(tmp_path: Path) -> None:
    job = at_rough_in(
        Wall(tag="W1", name="Wall"),
        Box(tag="B1", what="low-voltage", wall="W1", x=inches(10), y=inches(10)),  # type: ignore[arg-type]
        Box(tag="B2", what="low-voltage", wall="W1", x=inches(40), y=inches(10)),  # type: ignore[arg-type]
        Cable(tag="K1", type="lamp cord", rating="SPT-2", start="B1", end="B2"),  # type: ignore[arg-type]
    )
    assert any("K1" in what for what in missing(job, "low-voltage"))
    assert not any("K1" in what for what in missing(job, "electrician"))


def test_one_day_is_a_day() -> None:
    job = at_rough_in(
        Contact(tag="T1", name="Sam", trade="electrician"), step("S1", 1, who="T1"), step("S2", 2, who="T1")
    )
    assert [", 1 working day," in one for one in packet(job, "electrician").scope] == [True, False]
    assert ", 2 working days," in packet(job, "electrician").scope[1]


def test_the_visit_is_the_next_one_of_several() -> None:
    crew = Contact(tag="T1", name="Lee", trade="carpenter", state="booked")
    job = at_rough_in(
        crew,
        step("S1", 1, who="T1", stage="Rough-in", done=MONDAY),
        step("S2", 1, "S1", who="T1", stage="Finish"),
    )
    found = packet(job, "carpenter")
    assert (found.stage, [one.tag for one in found.visit]) == ("Finish", ["S2"])
    assert found.draft


# --- what they leave ---


def test_signing_back_closes_what_has_evidence_or_asks_for_none(tmp_path: Path) -> None:
    one = book(tmp_path)
    given = give(one, "electrician")
    wanted = {item.key for item in items(one.job) if item.check.trade == "electrician"}
    assert {item.key for item in packet(one.job, "electrician").leaves} == wanted
    assert {"Q1", "Q2", "K1/tested", "B1/set"} <= wanted
    lines = by_signature(one.job, given, ()) | {"K1/tested": "insulation 200 Mohm", "Q3": "not mine", "Q2": " "}
    back = signed_back(one.job, given, "Sam", MONDAY, lines)
    assert {each.tag for each in back.closings} == {"Q1", "K1/tested"}
    assert {each.key for each in back.still_open} == wanted - {"Q1", "K1/tested"}
    one.act("Signed back", [edit(given, back.handoff), *(add(each, keep_tag=True) for each in back.closings)])
    closed = {item.key for item in items(one.job) if not item.open}
    assert closed == {"Q1", "K1/tested"}
    assert one.job.of(Closing)["Q1"].evidence == "signed back on packet H1"
    assert one.job.of(Handoff)["H1"].signed == MONDAY


def test_what_only_the_drawing_shows_is_told_too(tmp_path: Path) -> None:
    one = book(tmp_path)
    trades = ("electrician", "low-voltage", "inspector", "hvac", "painter", "supplier")
    for trade in trades:
        give(one, trade)
    put(one, "W1", first_stud=inches(14), scribe=inches(1))
    told = {
        each.trade: [line.what for line in changes_since(one.job, each, entries(one))]
        for each in one.job.of(Handoff).values()
    }
    drawn = {trade: ["first stud"] for trade in trades[:4]}
    assert told == {**drawn, "painter": ["first stud"], "supplier": []}


def test_the_supplier_reads_what_is_to_come_and_when_it_is_needed() -> None:
    job = at_rough_in(
        step("S1", 2, stage="Rough-in"),
        step("S2", 1, "S1", stage="Hook-up"),
        Equipment(tag="E1", name="Screen"),
        Equipment(tag="E2", name="Router", state="owned"),
        Equipment(tag="E3", name="Fireplace", state="ordered", needed_for="S1"),  # type: ignore[arg-type]
    )
    found = packet(job, "supplier")
    assert found.scope == (
        "E3 Fireplace: needed on site by Nov 2, 2026",
        "E1 Screen: needed on site by Nov 4, 2026",
    )
    (things,) = [each for each in found.listed if each.title == "Still to be delivered"]
    assert [row[0] for row in things.rows] == ["E1", "E3"]
    assert packet(job, "drywall").scope == ()


def test_nobody_signs_for_what_was_not_on_the_sheet(tmp_path: Path) -> None:
    one = book(tmp_path)
    given = give(one, "electrician")
    one.act("New", [add(Check(tag="", what="bond the duct", trade="electrician"))])
    one.act("Other", [edit(one.job.of(Check)["Q1"], replace(one.job.of(Check)["Q1"], what="another thing"))])
    changed = packet(one.job, "electrician", entries(one)).changed
    assert {each.tag for each in changed} >= {"Q1", "Q4"}
    assert by_signature(one.job, given, changed) == {}
    back = signed_back(one.job, given, "Sam", MONDAY, by_signature(one.job, given, changed))
    assert not back.closings
    assert {"Q1", "Q4"} <= {each.key for each in back.still_open}


def test_packets_are_made_for_whoever_is_named_or_has_a_check(tmp_path: Path) -> None:
    assert trades_with_packets(book(tmp_path).job) == (
        "owner", "electrician", "low-voltage", "carpenter", "drywall", "painter",
    )  # fmt: skip


def test_neighbours_are_those_before_and_after(tmp_path: Path) -> None:
    found = packet(book(tmp_path).job, "drywall")
    assert ([one.tag for one in found.before], [one.tag for one in found.after]) == (["T1"], ["T3"])


@rows("trade", ["owner", "other", "supplier", "hvac", "inspector"])
def test_an_empty_job_has_a_packet_of_every_trade(trade: Any) -> None:
    found = packet(job_of(), trade)
    assert isinstance(found.visit, tuple)
    assert found.cautions
    assert not any(isinstance(step, Step) for step in found.visit)


@rows(("rule", "tags", "trades"), [
    ("tamper_resistant", ("B1",), {"electrician", "inspector"}),
    ("receptacles_too_far", ("W1",), {"electrician", "inspector"}),
    ("does_not_fit", ("E1", "N1"), {"carpenter"}),
    ("interrupts_studs", ("W1", "N1"), {"carpenter"}),
    ("corner_taken", ("W1", "K1"), {"low-voltage"}),
    ("corner_taken", ("W1", "K2"), {"electrician", "inspector"}),
    ("no_sound_return", ("E1",), {"low-voltage"}),
    ("box_set_too_deep", ("B1",), {"electrician", "inspector", "drywall"}),
    ("return_by_near", ("E1",), set()),
    ("over_budget", ("job",), set()),
    ("insurance_ran_out", ("T1",), set()),
])  # fmt: skip
def test_a_question_is_put_to_whoever_can_answer_it(rule: str, tags: tuple[str, ...], trades: set[str]) -> None:
    job = job_of(
        Wall(tag="W1", name="wall"), Opening(tag="N1", name="recess"), Equipment(tag="E1", name="Screen"),
        Box(tag="B1", what="receptacle"), Cable(tag="K1", type="cat6"), Cable(tag="K2", type="nm-12-2"),
    )  # fmt: skip
    one = Finding(rule, "look", tags, "So.", "Do.", "common practice")
    own = {"W1", "N1", "E1", "B1", "K1", "K2", "T1", "job"}
    assert {trade for trade in SCHEDULES if asked(job, trade, one, own)} == trades
    assert not any(asked(job, trade, replace(one, severity="stop"), own) for trade in SCHEDULES)


def test_what_sorts_the_questions_names_rules_that_there_are() -> None:
    modules = [path for each in store.rules.__path__ for path in Path(each).rglob("*_rules.py")]
    assert len(modules) > 20, "the rules were not found"
    text = "".join(path.read_text("utf-8") for path in modules)
    tables = (questions.ALSO, questions.NOT)
    named = {each for table in tables for row in table.values() for each in row}
    named |= set(questions.OWNERS)
    # The names of these two are put together from the paper that they are about.
    text += '"licence_ran_out" "insurance_ran_out"' if '"{paper}_ran_out"' in text else ""
    assert [begin for begin in named if f'"{begin}' not in text and f"def {begin}" not in text] == []


def test_what_is_calculated_is_said_once_of_those_of_which_it_is_the_same() -> None:
    rated = "rated by its manufacturer"
    rows = [("N1", "16 mm thick"), ("N1", "sags 1 mm"), ("N1", rated)]
    rows += [("N2", "18 mm thick"), ("N2", rated), ("N3", "18 mm thick"), ("N3", rated)]
    assert folded(rows) == (
        ("N1", "16 mm thick"),
        ("N1", "sags 1 mm"),
        ("N2, N3", "18 mm thick"),
        ("all", rated),
    )
    assert folded(rows[:3]) == tuple(rows[:3]), "of one thing alone nothing is of all"
