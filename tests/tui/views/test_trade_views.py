"""Steps, money and handoffs by key, each seen in the file."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from msgspec.structs import replace

from store.book.changes import add, edit
from store.measure.length import INCH_NM, Length
from store.measure.money import Money
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.gate import Check, Closing
from store.records.people import Amount, Contact, Handoff, Step
from store.records.wall import Wall
from store.records.wiring import Box, Cable, Circuit
from tests.rules.money.test_ledger import worked_example
from tests.tui.seat import seat_at, small_job, stored
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.views.crew.steps import Steps
from tui.widgets.dialogs import AskText, ReadPage

TODAY = date.today()
CREW = Contact(tag="T1", name="Sam", trade="electrician", state="booked", week="every day")


def inches(number: int) -> Length:
    return Length(number * INCH_NM)


async def test_a_step_is_begun_then_done_and_its_bar_follows(tmp_path: Path) -> None:
    steps = [
        Step(tag="S1", what="Power", days=2.0, who=Ref("T1")),
        Step(tag="S2", what="Signal", after=(Ref("S1"),), who=Ref("T1")),
    ]
    path = small_job(tmp_path, [CREW, *steps])
    async with seat_at(path) as seat:
        await seat.go("Steps")
        assert seat.cells("S1")[1] == "* Power"
        assert "█" in seat.cells("S1")[5]
        await seat.keys("space")
        assert seat.record("S1").began == TODAY  # type: ignore[attr-defined]
        await seat.keys("space")
        assert seat.record("S1").done == TODAY  # type: ignore[attr-defined]
        assert "░" in seat.cells("S1")[5]
        assert seat.cells("S1")[4] == "done"
        await seat.keys("u", "u")
        assert seat.record("S1").began is None  # type: ignore[attr-defined]


def test_coats_are_added_to_an_empty_list_too() -> None:
    """The first steps of a job may be its coats: their key needs no row."""
    assert {each.label for each in Steps.keys if each.alone} == {"Coats"}


async def test_a_slip_is_asked_about_and_nothing_is_changed(tmp_path: Path) -> None:
    booked = TODAY + timedelta(days=1)
    steps = [
        Step(tag="S1", what="Power", who=Ref("T1")),
        Step(tag="S2", what="Signal", after=(Ref("S1"),), who=Ref("T1"), booked=booked),
    ]
    path = small_job(tmp_path, [CREW, *steps])
    before = path.read_bytes()
    async with seat_at(path) as seat:
        await seat.go("Steps")
        await seat.keys("v")
        await seat.until(lambda: seat.top_is(AskText))
        await seat.write("3")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert "1 booking to change" in seat.text
        await seat.keys("escape")
        await seat.until(lambda: seat.top_is(JobScreen))
    assert path.read_bytes() == before


async def test_money_stands_under_whom_it_is_of_and_adds_up(tmp_path: Path) -> None:
    amounts = [
        Amount(tag="M1", of=Ref("T1"), what="quote", amount=Money(185_000)),
        Amount(tag="M2", of=Ref("T1"), what="deposit", amount=Money(60_000)),
    ]
    path = small_job(tmp_path, [CREW, *amounts])
    async with seat_at(path) as seat:
        await seat.go("Money")
        assert seat.rows() == ["T1", "M1", "M2"]
        assert seat.cells("T1")[2:7] == ("1,850.00", "1,850.00", "600.00", "1,250.00", "1,850.00")
        assert "to pay $1,250.00" in seat.text
        # At 80 cells every amount is in sight, up to what it will have cost.
        assert "projected" in seat.text
        await seat.keys("f")
        assert seat.rows() == ["T1"]


async def test_the_sums_of_a_worked_example_are_seen_at_80_by_24(tmp_path: Path) -> None:
    path = small_job(tmp_path, worked_example())
    async with seat_at(path) as seat:
        await seat.go("Money")
        await seat.keys("v")
        await seat.until(lambda: seat.top_is(ReadPage))
        shown = " ".join(seat.text.split())
        for words in (
            "planned $3,269.00", "quoted $3,469.00", "promised (committed) $2,099.00", "paid $900.00",
            "still to pay $2,569.00", "of that, retainage until signed back $120.00",
            "projected cost, if nothing changes $3,469.00", "more than planned $200.00",
            "kept for surprises, 10% $326.90", "left of that $126.90",
        ):  # fmt: skip
            assert words in shown
        await seat.keys(*(["down"] * 8))
        shown = " ".join(seat.text.split())
        assert "T1 Sam costs $200.00 more than planned ($1,000.00, now $1,200.00)" in shown.replace(" │ │ ", " ")
        assert "electrician 1,000.00 1,200.00 800.00 400.00 1,200.00" in shown


async def test_the_bars_are_in_sight_at_80_by_24(tmp_path: Path) -> None:
    steps = [
        Step(tag="S1", what="Power", days=10.0, who=Ref("T1")),
        Step(tag="S2", what="Signal", days=3.0, after=(Ref("S1"),), who=Ref("T1"), booked=TODAY),
    ]
    async with seat_at(small_job(tmp_path, [CREW, *steps])) as seat:
        await seat.go("Steps")
        assert "██████████" in seat.text
        assert "1 booking to change (!)" in seat.text


async def test_a_packet_is_given_only_when_it_is_ready(tmp_path: Path) -> None:
    path = small_job(tmp_path, [CREW, Handoff(tag="H1", trade="drywall")])
    async with seat_at(path) as seat:
        await seat.go("Packets")
        await seat.keys("space")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert "still a draft" in seat.text
    assert stored(path).job.of(Handoff)["H1"].given is None


async def test_of_six_changes_after_a_packet_was_given_its_three_are_told(tmp_path: Path) -> None:
    records = [
        CREW,
        Wall(tag="W1", name="Media wall"),
        Box(tag="B1", what="receptacle", name="screen", wall=Ref("W1"), x=inches(60), y=inches(66), circuit=Ref("C1")),
        Circuit(tag="C1", name="Media", breaker=15.0),
        Equipment(tag="E1", name="Screen", what="screen"),
        Cable(tag="K1", type="cat6", end=Ref("E1")),
        Handoff(tag="H1", trade="electrician", contact=Ref("T1"), given=TODAY, point=1),
        Handoff(tag="H2", trade="drywall"),
    ]
    path = small_job(tmp_path, records)
    edits: list[tuple[str, dict[str, object]]] = [
        ("B1", {"x": inches(62)}),
        ("C1", {"breaker": 20.0}),
        ("E1", {"price": Money(90_000)}),
        ("K1", {"type": "cat6a"}),
        ("W1", {"scribe": inches(1)}),
    ]
    async with seat_at(path) as seat:
        await seat.go("Packets")
        assert seat.cells("H2")[3].startswith("draft:")
        assert seat.cells("H1")[3] == "sent, nothing changed since"
        for tag, values in edits:
            old = seat.book.job.get(tag)
            assert old is not None
            seat.book.act(f"Edit {tag}", [edit(old, replace(old, **values))])
        seat.book.act("Add", [add(Cable(tag="", type="nm-14-2", start=Ref("B1"), name="lamp"))])
        seat.job_screen.desk.look_again()
        assert seat.cells("H1")[3] == "! OUT OF DATE: 3 changes to send"
        assert "1 out of date" in seat.text
        await seat.keys("v")
        await seat.until(lambda: seat.top_is(ReadPage))
        page = seat.text
        at = page.index("Changed for them. Print the packet again:")
        told = [line.split("│")[1].strip() for line in page[at:].split("\n")[1:5]]
        assert told == [
            "B1 screen: from left was 5'-0\", is 5'-2\".",
            "C1 Media: breaker was 15 A, is 20 A.",
            "K2 lamp is new: type nm-14-2; from B1.",
            "",
        ]
        await seat.keys("escape")
        await seat.until(lambda: seat.top_is(JobScreen))
        await seat.keys("P")
        await seat.until(lambda: "Wrote packet-electrician as a DRAFT: " in seat.said)
        paper = path.with_name("small-packet-electrician.html").read_text("utf-8")
        banner = paper[paper.index("OUT OF DATE (H1") :].split("</div>")[0]
        assert banner.count("<p>") == 4
        assert "C1 Media: breaker was 15 A, is 20 A." in banner


SHEET = [
    Check(tag="Q1", what="Boxes set", trade="electrician"),
    Check(tag="Q2", what="Feed tested", trade="electrician", wants="test value"),
    Check(tag="Q3", what="Board here", trade="drywall"),
    Check(tag="Q4", what="Lights tested", trade="electrician", wants="test value"),
    Check(tag="Q5", what="Plates nailed on", trade="electrician", wants="photo"),
]


async def test_a_signed_sheet_is_typed_in_line_by_line_and_is_one_undo(tmp_path: Path) -> None:
    packet = Handoff(tag="H1", trade="electrician", contact=Ref("T1"), given=TODAY)
    path = small_job(tmp_path, [CREW, *SHEET, packet])
    async with seat_at(path) as seat:
        await seat.go("Packets")
        await seat.keys("c")
        await seat.until(lambda: seat.top_is(RecordForm))
        form = seat.app.screen
        assert isinstance(form, RecordForm)
        assert form.body.texts["by"] == "Sam"
        assert form.body.texts["line0"] == "signed back on packet H1"
        assert "Q3" not in seat.text
        await seat.keys("down", "down", "down")
        assert "Feed tested. Asked for: test value. Needs: " in seat.text
        await seat.write("500 MΩ")
        await seat.keys("down")
        await seat.write('"')
        await seat.keys("ctrl+s")
        await seat.until(lambda: "A reading is for one item" in seat.text)
        await seat.keys("ctrl+u")
        await seat.write("200 MΩ")
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert "3 items signed off, 1 open. u = undo" in seat.said
        job = stored(path).job
        closings = {tag: (one.by, one.evidence) for tag, one in job.of(Closing).items()}
        assert closings == {
            "Q1": ("Sam", "signed back on packet H1"),
            "Q2": ("Sam", "500 MΩ"),
            "Q4": ("Sam", "200 MΩ"),
        }
        assert job.of(Handoff)["H1"].signed == TODAY
        await seat.keys("u")
    job = stored(path).job
    assert (dict(job.of(Closing)), job.of(Handoff)["H1"].signed) == ({}, None)


async def test_a_sheet_is_not_signed_on_a_day_that_cannot_be_and_nothing_typed_is_lost(tmp_path: Path) -> None:
    packet = Handoff(tag="H1", trade="electrician", given=TODAY)
    path = small_job(tmp_path, [*SHEET, packet])
    async with seat_at(path) as seat:
        await seat.go("Packets")
        await seat.keys("c")
        await seat.until(lambda: seat.top_is(RecordForm))
        await seat.write("Kim")
        await seat.keys("down")
        await seat.write(str(TODAY + timedelta(days=1)))
        await seat.keys("down", "ctrl+u")
        await seat.write('"')
        await seat.keys("ctrl+s")
        assert "is still to come" in seat.text
        await seat.keys("up")
        await seat.write(str(TODAY - timedelta(days=1)))
        await seat.keys("ctrl+s")
        assert "before the packet was sent" in seat.text
        await seat.keys("ctrl+u")
        await seat.write(str(TODAY))
        await seat.keys("ctrl+s")
        assert "There is no line above" in seat.text
        assert stored(path).job.of(Handoff)["H1"].signed is None
        await seat.keys("down", "ctrl+u", "ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
    job = stored(path).job
    assert (job.of(Handoff)["H1"].signed, dict(job.of(Closing))) == (TODAY, {})


async def test_quotes_stand_side_by_side_and_the_next_call_is_told(tmp_path: Path) -> None:
    people = [
        Contact(tag="T1", name="Bo", trade="drywall", state="quoted", phone="555-0112"),
        Contact(tag="T2", name="Cy", trade="drywall", state="quoted", insured_until=TODAY + timedelta(days=2)),
    ]
    quotes = [
        Amount(tag="M1", of=Ref("T1"), what="quote", amount=Money(90_000), scope="board", leaves_out="sanding"),
        Amount(tag="M2", of=Ref("T2"), what="quote", amount=Money(85_000), scope="Board", leaves_out="corner bead"),
    ]
    steps = [
        Step(tag="S1", what="Hang", who=Ref("T1")),
        Step(tag="S2", what="Tape", days=5.0, after=(Ref("S1"),), who=Ref("T2")),
    ]
    async with seat_at(small_job(tmp_path, [*people, *quotes, *steps])) as seat:
        await seat.keys("5")
        assert seat.cells("T2")[4].startswith("! ")
        assert "next call" in seat.said
        assert "T1 Bo (555-0112), book S1" in seat.text
        await seat.keys("v")
        await seat.until(lambda: seat.top_is(ReadPage))
        lines = [line.split("│")[1].strip() for line in seat.text.split("\n") if line.count("│") >= 2]
        at = lines.index("For: board")
        assert [" ".join(line.split()) for line in lines[at + 1 : at + 5]] == [
            "$850.00 lowest T2 Cy", "leaves out: corner bead (quoted, counted)",
            "$900.00 +$50.00 T1 Bo", "leaves out: sanding (quoted)",
        ]  # fmt: skip
        await seat.keys("escape")
        await seat.until(lambda: seat.top_is(JobScreen))
        await seat.keys("k")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert "their insurance ends on" in " ".join(seat.text.replace("│", " ").split())
