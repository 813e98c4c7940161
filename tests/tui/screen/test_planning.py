"""The guided new job: answers, what does not fit, and the job opened."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from store.rules.core.proposed import proposals
from tests.tui.seat import seat_at, stored
from tui.cli.planning import plan_job
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import AskText, Pick


async def test_a_new_job_asks_tells_what_does_not_fit_and_opens(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    async with seat_at(None) as seat:
        assert "first plan: 12 questions" in seat.text
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(AskText))
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(RecordForm))
        assert "wall width" in seat.text
        await seat.fill(width="9'")
        assert seat.top_is(RecordForm)
        assert "wall too narrow by" in seat.text.replace("\n", " ")
        await seat.fill(width="14'", cabinets="left")
        await seat.until(lambda: seat.top_is(JobScreen) and "hold:proposed" in seat.rows())
        seat.table.move_to("hold:proposed")
        await seat.keys("F")
        await seat.until(lambda: "Agree to" in seat.text)
        await seat.keys("escape")
    job = stored(tmp_path / "my-wall.json").job
    assert "N1" in proposals(job)
    assert job.settings.seat is not None


def test_the_command_line_takes_the_same_answers(tmp_path: Path) -> None:
    import datetime

    today = datetime.date(2026, 3, 2)
    made = plan_job("media-wall-metric", {"width": "4200", "fireplace": "none"}, today)
    assert not any(put.tag == "N2" for put in made)
    with pytest.raises(ValueError, match="--width"):
        plan_job("media-wall", {"width": "wide"}, today)
    with pytest.raises(ValueError, match="Use it with --starter"):
        plan_job("empty", {"width": "12'"}, today)
    path = tmp_path / "job.json"
    words = ["new", str(path), "--starter", "media-wall", "--width", "12'", "--screen", "55"]
    done = subprocess.run([sys.executable, "-m", "tui", *words], check=False, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert "All of it is a proposal" in done.stdout
    assert path.exists()
