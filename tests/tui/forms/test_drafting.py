"""What is typed into a form outlives the terminal it is typed on."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest

from store.book import drafts
from store.book.drafts import Draft
from store.records.people import Contact
from tests.tui.seat import seat_at, small_job, stored
from tui.forms.record_form import RecordForm
from tui.widgets.dialogs import Confirm, LongNote, Pick


def _left(path: Path) -> list[Path]:
    return sorted(each for each in path.parent.iterdir() if ".draft-" in each.name)


def _orphaned(path: Path) -> None:
    """Let the draft be one of a program that is gone."""
    (kept,) = _left(path)
    draft = msgspec.json.decode(kept.read_bytes(), type=Draft)
    kept.write_bytes(msgspec.json.encode(msgspec.structs.replace(draft, process=2**22 + 1)))


@pytest.mark.parametrize("size", [(80, 24), (140, 44)])
async def test_a_form_cut_off_is_offered_on_the_next_start_and_saved(tmp_path: Path, size: tuple[int, int]) -> None:
    path = small_job(tmp_path)
    async with seat_at(path, size) as seat:
        seat.job_screen.desk.fill_in(Contact, {})
        await seat.until(lambda: seat.top_is(RecordForm) and seat.app.focused is not None)
        await seat.write("Half")
        assert _left(path) == []
        seat.form.keep_draft()
        assert len(_left(path)) == 1
        _orphaned(path)
    assert len(_left(path)) == 1
    async with seat_at(path, size) as seat:
        await seat.until(lambda: seat.top_is(Pick))
        assert "New contact" in seat.text
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(RecordForm) and seat.app.focused is not None)
        assert seat.form.body.texts["name"] == "Half"
        assert seat.form.unsaved
        assert len(_left(path)) == 1
        form = seat.form
        await seat.fill(trade="owner")
        form.keep_draft()  # a clock that ticked while it was saved
        await seat.until(lambda: not seat.top_is(RecordForm))
    assert _left(path) == []
    assert drafts.left(path) == []
    assert "Half" in [each.name for each in stored(path).job.of(Contact).values()]


async def test_what_a_new_form_began_with_is_in_it_again(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    async with seat_at(path, (80, 24)) as seat:
        seat.job_screen.desk.fill_in(Contact, {"trade": "carpenter"})
        await seat.until(lambda: seat.top_is(RecordForm) and seat.app.focused is not None)
        await seat.write("Half")
        seat.form.keep_draft()
        _orphaned(path)
    async with seat_at(path, (80, 24)) as seat:
        await seat.until(lambda: seat.top_is(Pick))
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(RecordForm) and seat.app.focused is not None)
        assert (seat.form.body.texts["name"], seat.form.body.texts["trade"]) == ("Half", "carpenter")


async def test_a_form_left_on_purpose_leaves_no_draft(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    async with seat_at(path, (80, 24)) as seat:
        seat.job_screen.desk.fill_in(Contact, {})
        await seat.until(lambda: seat.top_is(RecordForm) and seat.app.focused is not None)
        await seat.write("Half")
        seat.form.keep_draft()
        await seat.keys("escape")
        await seat.until(lambda: seat.top_is(Confirm))
        await seat.keys("y")
        await seat.until(lambda: not seat.top_is(RecordForm))
    assert _left(path) == []


async def test_a_paste_without_end_is_refused_in_words_and_in_time(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    text = "e" + "\u0301\u0323" * 500_000
    async with seat_at(path, (80, 24)) as seat:
        seat.job_screen.desk.fill_in(Contact, {})
        await seat.until(lambda: seat.top_is(RecordForm) and seat.app.focused is not None)
        await seat.paste(text)
        await seat.calm()
        assert seat.form.body.texts["name"] == ""
        await seat.to_field("notes")
        await seat.paste(text)
        await seat.calm()
        assert seat.top_is(RecordForm)
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(LongNote))
        await seat.paste(text)
        await seat.paste("short")
        await seat.until(lambda: isinstance(seat.top, LongNote) and seat.top.text == "short")
        assert len(seat.app._notifications) == 3
