"""Help: of every list one screen of 80 by 24 with what it is for, what to do first and its keys; the page of signs."""

from __future__ import annotations

from pathlib import Path

from store.records.whole import LETTERS
from store.rules.gate.gate import STAGES
from tests.tui.seat import LOW, assert_fits, seat_at, small_job
from tui.acts.page import SIGN
from tui.forms.record_form import RecordForm
from tui.screen.help import CAUTION, LINES, help_text, lines_of, signs_text
from tui.views.index import Views
from tui.widgets.dialogs import ReadPage


def test_help_of_every_list_is_one_screen() -> None:
    views = list(Views())
    assert {
        view.title: len(lines_of(help_text(view))) for view in views if len(lines_of(help_text(view))) > LINES
    } == {}
    for view in views:
        text = help_text(view)
        assert text.startswith(view.about), view.title
        assert f"First: {view.first}" in text, view.title
        assert len(view.first) > 10, view.title
        for key in view.keys:
            assert f"= {key.label[0].lower()}{key.label[1:]}" in text, (view.title, key.key)
        assert "_" not in text
        assert text.endswith(CAUTION)


def test_the_page_of_signs_leaves_none_out() -> None:
    text = signs_text()
    assert [letter for letter, cls in LETTERS.items() if f"{letter} {cls.one}" not in text] == []
    assert [stage for stage in STAGES if f"\n  {stage}" not in text] == []
    assert [sign for sign in SIGN.values() if sign not in text] == []


async def test_it_is_in_sight_whole_and_leads_to_the_signs_and_back(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path), LOW, first="Boxes") as seat:
        for title in ("Boxes", "Gate", "Problems", "Equipment"):
            await seat.go(title)
            await seat.keys("question_mark")
            assert_fits(seat, LOW)
            flat = " ".join(seat.text.replace("│", " ").split())
            assert "First:" in flat, title
            assert flat.index(" ".join(CAUTION.split())) < flat.index("L = tags, signs, colors, stages"), title
            await seat.keys("L")
            assert "Tags: a letter and a number" in seat.text
            await seat.keys("escape")
            assert not seat.top_is(ReadPage)
        await seat.go("Contacts")
        await seat.keys("a", "f1")
        assert "F2 = choices" in " ".join(seat.text.replace("│", " ").split())
        await seat.keys("escape")
        assert seat.top_is(RecordForm)
