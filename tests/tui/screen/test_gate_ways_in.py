"""Ways round the gate through the forms and lists of the screen: none of them closes what nobody has seen."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from msgspec.structs import replace

from store.book.changes import edit
from store.measure.length import INCH_NM, Length
from store.measure.mass import Mass
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.gate import Answer, Check, Closing
from store.records.people import Contact, Handoff
from store.records.wall import Opening, Wall
from store.rules.core.checks import items
from store.rules.core.findings import findings
from store.rules.gate.gate import standing
from store.rules.gate.mock_up import why_not_agreed
from tests.jobs.proofs import take_picture
from tests.tui.seat import NORTH, job_file, seat_at, small_job, stored
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import AskText, ReadPage

TODAY = date.today()


def inches(number: int) -> Length:
    return Length(number * INCH_NM)


def change_by_another(path: Path, tag: str, **fields: object) -> None:
    """Another copy of the program changes a record."""
    other = stored(path)
    old = other.job.get(tag)
    assert old is not None
    other.act("Another thing", [edit(old, replace(old, **fields))])
    other.close()


async def test_a_signature_vouches_only_for_what_the_sheet_said(tmp_path: Path) -> None:
    crew = Contact(tag="T1", name="Sam", trade="electrician")
    checks = [Check(tag=f"Q{n}", what="Boxes set", trade="electrician", wants="photo") for n in (1, 2)]
    path = small_job(tmp_path, [crew, *checks, Handoff(tag="H1", trade="electrician", contact=Ref("T1"), given=TODAY)])
    async with seat_at(path) as seat:
        await seat.go("Packets")
        await seat.keys("c")
        await seat.until(lambda: seat.top_is(RecordForm))
        change_by_another(path, "Q1", what="Something else altogether")
        seat.job_screen.look()
        take_picture(tmp_path)
        await seat.fill(line0="wall.png", line1="wall.png")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert "1 item signed off, 1 open" in seat.said
    by_key = {item.key: item for item in items(stored(path).job)}
    assert "what was Boxes set, is Something else altogether" in by_key["Q1"].why_open
    assert not by_key["Q2"].open


async def test_an_agreement_vouches_only_for_what_stood_there_when_it_was_asked(tmp_path: Path) -> None:
    at = inches(20)
    shelf = Opening(tag="N1", name="Shelf", wall=Ref("W1"), use="shelf", x=at, y=at, width=at, height=at, depth=at)
    path = small_job(tmp_path, [Wall(tag="W1", name="Wall"), shelf])
    async with seat_at(path) as seat:
        await seat.go("Openings")
        await seat.keys("y")
        await seat.until(lambda: seat.top_is(AskText))
        change_by_another(path, "N1", x=inches(30))
        seat.job_screen.look()
        await seat.write("both of us")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(JobScreen))
    assert "N1" in why_not_agreed(stored(path).job)


async def test_a_finding_answered_by_nobody_holds_on(tmp_path: Path) -> None:
    bracket = Equipment(
        tag="E1", name="Bracket", what="mount", wall=Ref("W1"), x=inches(60), y=inches(50),
        width=inches(20), height=inches(16), depth=inches(2), weight=Mass(27 * 10**9),
    )  # fmt: skip
    anchors = Fixing(tag="X1", of=Ref("E1"), what="drywall anchor", count=4, into="drywall")
    path = small_job(tmp_path, [*NORTH, bracket, anchors])
    (stop,) = [each for each in findings(stored(path).job) if each.severity == "stop" and not each.answered]
    async with seat_at(path) as seat:
        await seat.go("Problems")
        seat.table.move_to(stop.key)
        await seat.keys("y")
        await seat.until(lambda: seat.top_is(RecordForm))
        for unseen in (" ", "\u2061", "\u200b\ufe0f"):
            seat.form._go(list(seat.form.body.texts).index("by"))
            seat.form.line.select_all()
            await seat.paste(unseen)
            await seat.fill(says="it is fine")
            await seat.keys("escape") if seat.top_is(ReadPage) else None
            assert seat.top_is(RecordForm)
            assert stored(path).job.of(Answer).get(stop.key) is None
    assert [each.answered for each in findings(stored(path).job) if each.key == stop.key] == [False]


async def test_ticking_the_whole_buying_list_closes_nothing(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    before, closings = standing(stored(path).job), dict(stored(path).job.of(Closing))
    async with seat_at(path) as seat:
        await seat.go("Buying list")
        groups = [key for key in seat.rows() if key.startswith("/")]
        for _ in groups:
            await seat.keys("home", "space")
        assert not any(cells[0] == "□" for cells in map(seat.cells, seat.rows()))
    job = stored(path).job
    assert not [one for one in job.of(Equipment).values() if one.state == "to buy" and one.retired is None]
    assert job.of(Closing) == closings
    after = standing(job)
    assert after.stage == before.stage
    assert {each.key for each in after.open} >= {each.key for each in before.open}
