"""`status` in plain text is one screen, whatever the job holds, and its counts are those of the gate."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from store.records.gate import Check
from store.records.whole import Job, Outside
from store.rules.core.findings import findings
from store.rules.gate.gate import locked_line, standing
from tests.jobs.gate_edges import ITEM, TO_DRYWALL, job_in, passed
from tests.jobs.power_case import make
from tests.rules.core.edits import starter, with_records
from tests.tui.seat import job_file
from tui.cli.brief import LINES, WIDTH, brief_lines
from tui.cli.main import main


def lines(job: Job) -> list[str]:
    """What is said of a job."""
    return brief_lines(job, findings(job), {"electrician": 3}, "wall.json")


def worst() -> Job:
    """The demo with everything that can be told besides: ten trades, changes outside, a name without end."""
    trades = ("painter", "hvac", "supplier", "other", "inspector", "drywall")
    checks = [make(Check, f"Q{90 + n}", what="x" * 300, trade=trade) for n, trade in enumerate(trades)]
    job = with_records(starter(), *checks, replace(starter().settings, name="n" * 500))
    return replace(job, outside=(Outside("cable", "K1", "changed", ("type",)),) * 30)


@pytest.mark.parametrize(
    "job", [starter(), starter("media-wall"), starter("empty"), worst()], ids=["demo", "media wall", "empty", "worst"]
)
def test_it_is_one_screen_and_no_line_is_wider(job: Job) -> None:
    said = lines(job)
    assert len(said) <= LINES
    assert max(map(len, said)) <= WIDTH
    assert said[-1] == "All of it: studbook status wall.json --all"


def test_its_counts_are_those_of_the_gate() -> None:
    job = starter()
    now = standing(job)
    said = lines(job)
    assert locked_line(now) in said
    assert f"Rough-in items: {len(now.items) - len(now.open)} of {len(now.items)} done" in said
    electrician = [each for each in now.items if each.check.trade == "electrician"]
    left = sum(each.open for each in electrician)
    assert any(f"{len(electrician) - left} of {len(electrician)} done, {left} open" in each for each in said)


def test_all_lists_everything(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = job_file(tmp_path)
    assert main(["status", str(path), "--all"]) == 0
    whole = capsys.readouterr().out
    for hold in standing(starter()).holds:
        assert hold.what in whole
    assert main(["status", str(path)]) == 0
    assert len(capsys.readouterr().out.splitlines()) <= LINES


def test_what_was_found_after_or_done_outside_is_told_by_its_key() -> None:
    def said(outside: tuple[Outside, ...]) -> list[str]:
        return brief_lines(job_in(ITEM, *passed(*TO_DRYWALL), outside=outside), [], {}, "wall.json")

    assert "Found after close-in: Q1" in said(())
    one, two = Outside("contact", "T1", "changed", ("phone",)), Outside("picture", "a.jpg", "was changed")
    assert "Outside of Studbook: contact T1 was changed outside of Studbook: phone" in said((one,))
    assert "Outside of Studbook + 1 more: picture a.jpg was changed, and items depend on it" in said((two, one))
    assert not [each for each in said(()) if each.startswith("Outside")]
    assert len(said((two, one))) <= 24
