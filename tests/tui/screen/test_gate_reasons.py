"""Keys that would take an item off the list, or open one behind drywall: each asks why, and saves nothing before."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from store.book.changes import add
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.gate import Check
from store.rules.core.taken_off import taken_off
from store.rules.gate.gate import passage, standing
from tests.jobs.proofs import sound, take_picture
from tests.rules.gate.test_gate_taken_off import WHOLE, inches
from tests.tui.seat import Seat, seat_at, small_job, stored
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import AskText, Confirm, ReadPage

TODAY = date.today()
JUNK = ("x", "ok", ".")


def covered(folder: Path, *more: Record) -> Path:
    """A job behind drywall, every item of it signed off."""
    path = small_job(folder, [*WHOLE, Check(tag="Q1", what="Blocks nailed"), *more])
    take_picture(folder)
    book = stored(path)
    while standing(book.job).stage != "Drywall":
        if standing(book.job).next == "Drywall":
            closings = [sound(each.check, day=TODAY) for each in standing(book.job).open]
            book.act("Sign off", [add(each, keep_tag=True) for each in closings])
        book.act("on", lambda job: [add(passage(job, "Robin", "as planned"))], "as planned")
    book.close()
    return path


def listed(path: Path) -> tuple[set[str], set[str]]:
    """The keys on the list, and those that are open."""
    now = standing(stored(path).job)
    return {each.key for each in now.items}, {each.key for each in now.open}


async def to_row(seat: Seat, view: str, key: str) -> None:
    """The cursor on a row of a view."""
    await seat.go(view)
    await seat.keys("home", *["down"] * seat.rows().index(key))


async def refuses_junk(seat: Seat, junks: tuple[str, ...] = ("", *JUNK)) -> None:
    """The question why takes no nod; Esc leaves it."""
    for junk in junks:
        await seat.until(lambda: seat.top_is(AskText))
        await seat.write(junk)
        await seat.keys("enter")
    assert seat.top_is(AskText)
    assert f"“{junks[-1]}” gives no reason. Write a few words." in seat.text
    await seat.keys("escape")


async def leave_form(seat: Seat) -> None:
    """Out of the form, what was typed thrown away."""
    await seat.keys("escape")
    if seat.top_is(Confirm):
        await seat.keys("y")
    assert seat.top_is(JobScreen)


EDITS = (
    ("Cables", "K1", {"in_wall": "no"}, "K1/tested"),
    ("Cables", "K1", {"retired": TODAY.isoformat()}, "K1/pulled"),
    ("Cables", "K1", {"end": "B3"}, "K1/pulled"),
    ("Boxes", "B3", {"new": "no"}, "B3/set"),
    ("Boxes", "B3", {"x": "70"}, "B3/located"),
    ("Openings", "N1", {"use": "other"}, "N1/backing"),
    ("Access panels", "A1", {"width": "14"}, "A1/framed"),
    ("Items", "Q1", {"what": "Blocks"}, "Q1"),
)


async def test_no_edit_loses_or_opens_an_item_behind_drywall_without_a_reason(tmp_path: Path) -> None:
    path = covered(tmp_path)
    before, saved = listed(path), path.read_bytes()
    async with seat_at(path, (120, 36)) as seat:
        for number, (view, tag, fields, key) in enumerate(EDITS):
            await to_row(seat, view, tag)
            await seat.keys("e")
            await seat.fill(**fields)
            assert seat.top_is(AskText), (tag, fields)
            assert key in seat.text, (tag, fields)
            await refuses_junk(seat, ("", *JUNK) if not number else ("ok",))
            assert seat.top_is(RecordForm), "what was typed stays"
            assert "Not saved yet: it needs a reason." in seat.text
            await leave_form(seat)
            assert path.read_bytes() == saved, (tag, fields)
        await to_row(seat, "Cables", "K1")
        await seat.keys("e")
        await seat.fill(in_wall="no")
        await seat.write("it runs in the cabinet")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert "Saved K1" in seat.said
        off = {each.tag: (each.by, each.reason) for each in taken_off(stored(path).job)}
        assert off["K1/tested"] == ("Robin", "it runs in the cabinet")
        await seat.keys("u")
        assert listed(path) == before
        await seat.keys("r")
        assert "K1/tested" in {each.tag for each in taken_off(stored(path).job)}
        assert standing(stored(path).job).stage == "Drywall"


async def test_no_key_deletes_a_thing_behind_drywall_without_a_reason(tmp_path: Path) -> None:
    path = covered(tmp_path)
    saved = path.read_bytes()
    things = (("Cables", "K1"), ("Boxes", "B3"), ("Access panels", "A1"), ("Raceways", "R1"), ("Openings", "N1"),
              ("Items", "Q1"))  # fmt: skip
    async with seat_at(path, (120, 36)) as seat:
        for view, tag in things:
            await to_row(seat, view, tag)
            for key in ("d", "delete"):
                await seat.keys(key)
                if seat.top_is(Confirm):
                    await seat.keys("y")
                assert seat.top_is(AskText), (
                    tag,
                    key,
                    seat.said,
                    seat.rows(),
                    seat.job_screen.view.title,
                    str(seat.top),
                )
                await refuses_junk(seat, ("", *JUNK) if (tag, key) == ("K1", "d") else ("x",))
                assert seat.top_is(JobScreen)
            assert path.read_bytes() == saved, tag
        # From the drawing as well, where it is moved or deleted.
        await to_row(seat, "Boxes", "B3")
        await seat.keys("w", "m", "right", "right", "enter")
        await refuses_junk(seat) if seat.top_is(AskText) else None
        await seat.keys("escape", "escape") if not seat.top_is(JobScreen) else None
        assert path.read_bytes() == saved
        for keys in ("o", "n", "c", "C"):
            await to_row(seat, "Items", "K1/tested")
            await seat.keys(keys)
            await seat.keys("escape") if not seat.top_is(JobScreen) else None
        assert path.read_bytes() == saved


async def test_an_added_thing_that_opens_an_item_asks_why_and_its_form_closes_when_told(tmp_path: Path) -> None:
    path = covered(tmp_path)
    before = listed(path)
    async with seat_at(path, (120, 36)) as seat:
        await seat.go("Equipment")
        for answer in ("", "the old set was too small"):
            await seat.keys("a")
            await seat.fill(name="Set", what="TV", opening="N1", weight="40 lb", mounting="wall bracket")
            assert seat.top_is(AskText)
            assert "N1/backing" in seat.text
            if not answer:
                await refuses_junk(seat)
                await leave_form(seat)
                assert listed(path) == before
                continue
            await seat.write(answer)
            await seat.keys("enter")
            await seat.until(lambda: seat.top_is(JobScreen))
        assert "Added E2 Set" in seat.said
        assert "N1/backing" in listed(path)[1]
        assert stored(path).entries()[-1].why == "the old set was too small"
        assert len([each for each in stored(path).job.of(Equipment) if each == "E2"]) == 1


async def test_a_replacement_tells_what_it_opens_before_it_is_saved_whatever_reason_it_was_given(
    tmp_path: Path,
) -> None:
    device = Equipment(tag="E2", name="Set", what="screen", opening=Ref("N1"), mounting="wall bracket",
                       width=inches(40), height=inches(24))  # fmt: skip
    path = covered(tmp_path, device)
    async with seat_at(path, (120, 36)) as seat:
        await to_row(seat, "Equipment", "E2")
        await seat.keys("x")
        await seat.until(lambda: seat.top_is(AskText))
        await seat.write("the old one failed")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(RecordForm))
        await seat.fill(name="Larger set", width="44")
        assert seat.top_is(AskText)
        assert "N1/backing" in seat.text
        assert "the old one failed" in seat.text
        await seat.keys("escape")
        assert seat.top_is(RecordForm)
        assert list(stored(path).job.of(Equipment)) == ["E1", "E2"]
        await seat.keys("ctrl+s", "enter")
        await seat.until(lambda: not seat.top_is(AskText) and not seat.top_is(RecordForm))
        if seat.top_is(ReadPage):
            await seat.keys("escape")
        assert seat.top_is(JobScreen)
        assert stored(path).job.of(Equipment)["E2"].replaced_by == "E3"
        assert list(stored(path).job.of(Equipment)) == ["E1", "E2", "E3"]
        assert stored(path).entries()[-1].why == "the old one failed"


@pytest.mark.parametrize("keys", ["u", "ctrl+z"])
async def test_undoing_what_made_an_item_asks_why(tmp_path: Path, keys: str) -> None:
    path = covered(tmp_path)
    async with seat_at(path, (120, 36)) as seat:
        await seat.go("Items")
        await seat.keys("a")
        await seat.fill(what="Straps on the raceway")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert "Q2" in listed(path)[1]
        await seat.keys(keys)
        await refuses_junk(seat)
        assert "Q2" in listed(path)[1]
        await seat.keys(keys)
        await seat.write("entered twice")
        await seat.keys("enter")
        assert "Q2" not in listed(path)[0]
        assert ("Q2", "entered twice") in {(each.tag, each.reason) for each in taken_off(stored(path).job)}


async def test_the_gate_moves_only_to_the_stage_that_it_showed(tmp_path: Path) -> None:
    path = covered(tmp_path, Equipment(tag="E2", name="Set", state="to buy"))
    book = stored(path)
    book.act("on", lambda job: [add(passage(job, "Robin", "as planned"))], "as planned")
    async with seat_at(path, (120, 36)) as seat:
        await seat.keys("g", "y")
        await seat.until(lambda: seat.top_is(AskText))
        assert "Why move to Hook-up with these open?" in seat.text
        book.act("on", lambda job: [add(passage(job, "Eve", "as planned"))], "as planned")
        seat.job_screen.look()
        await seat.write("as planned")
        await seat.keys("enter")
        assert standing(stored(path).job).stage == "Hook-up"
