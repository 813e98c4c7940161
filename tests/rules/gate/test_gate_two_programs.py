"""The program that runs for days and one that was just started, each a process of its own, tell the same holds."""

from __future__ import annotations

import asyncio
import json
import os
import subprocess
import sys
from datetime import date
from pathlib import Path
from typing import Any

import msgspec

from store.book.changes import add, edit
from store.measure.length import inches
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.wall import Opening, Reading
from store.records.wiring import Box, Cable
from store.rules.gate.gate import passage, standing
from store.rules.gate.guard import Held
from tests.book.build import reopen, wall
from tests.jobs.gate_job import job_before, shut_all
from tui.screen.app import StudbookApp
from tui.screen.job_screen import JobScreen

ROOT = Path(__file__).parents[3]
RUNNING = "import sys; from tests.rules.gate.test_gate_two_programs import running; running(sys.argv[1])"


def running(path: str) -> None:
    """The program with its screen: what follows is shown, then a player gets wider, and the wall is to be closed."""
    asyncio.run(_running(Path(path)))


async def _running(path: Path) -> None:
    app = StudbookApp(path, "Ann")
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, JobScreen)
        told = {"before": [each.key for each in screen.desk.state.standing.holds]}
        await pilot.press("2")
        player = screen.book.job.of(Equipment)["E2"]
        wider = msgspec.structs.replace(player, width=inches(14))
        screen.book.act("Edit E2", [edit(player, wider)])
        screen.desk.look_again()
        await pilot.pause()
        told["holds"] = [each.key for each in screen.desk.state.standing.holds]
        try:
            screen.book.act("Pass on", lambda job: [add(passage(job, "Ann"))])
        except Held as held:
            told["refused"] = [str(held)]
        told["stage"] = [standing(screen.book.job).stage]
    print(json.dumps(told))


def _process(*arguments: str) -> str:
    done = subprocess.run(
        [sys.executable, *arguments],
        cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, ""), done.stderr
    return done.stdout


def closed_wall(path: Path) -> None:
    """A job with every item closed: a player and a receiver side by side, and a cable in the wall to the receiver."""
    cabinet = Opening(
        tag="N1", name="Cabinet", use="equipment", wall=Ref("W1"), x=inches(16), y=inches(12), width=inches(60),
        height=inches(30), depth=inches(20),
    )  # fmt: skip
    side: Any = {"opening": Ref("N1"), "height": inches(6), "depth": inches(12), "state": "owned"}
    book = job_before(
        "Drywall",
        path,
        wall("W1"),
        Reading(tag="D1", wall=Ref("W1"), what="width", value=inches(144)),
        Reading(tag="D2", wall=Ref("W1"), what="height", value=inches(96)),
        cabinet,
        Equipment(tag="E2", name="Player", what="player", width=inches(12), **side),
        Equipment(tag="E1", name="Receiver", what="receiver", width=inches(17), **side),
        Box(tag="B1", name="Screen", what="low-voltage", wall=Ref("W1"), x=inches(110), y=inches(60)),
        Cable(tag="K1", name="Picture", type="hdmi", start=Ref("E1"), end=Ref("B1"), in_wall=True, rating="CL2",
              route="through studs"),
    )  # fmt: skip
    shut_all(book)
    assert [each.what for each in standing(book.job).holds] == []
    book.close()


def test_running_and_fresh_tell_the_same_holds(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    closed_wall(path)
    told = json.loads(_process("-c", RUNNING, str(path)))
    fresh = json.loads(_process("-m", "tui", "status", str(path), "--json"))
    assert told["before"] == []
    assert told["holds"] == [each["key"] for each in fresh["holds"]]
    assert any(key.startswith("K1/") for key in told["holds"])
    assert told["refused"]
    assert told["stage"] == [fresh["stage"]] == ["Rough-in"]
    assert standing(reopen(path, day=date.today).job).stage == "Rough-in"
