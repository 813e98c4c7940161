"""Programs that are killed: while they save, and while a form is half filled."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import struct
import sys
import tempfile
import termios
import time
from pathlib import Path

from tests.bench.storage_bench import killed
from tests.faults.tried import Tried, job, wrong_with

ROOT = Path(__file__).parents[2]
READY_S, MOST_S = 60.0, 90.0


def saving(many: int, kills: int) -> Tried:
    """Killed while saving a job of so many records."""
    row = Tried(f"killed while saving, {many:,} records", kills)
    with tempfile.TemporaryDirectory() as folder:
        found = killed(Path(folder), kills, many=many)
    for what in ("damaged", "half"):
        for _ in range(found[what]):
            row.bad(what)
    if found["litter"] > 2:
        row.bad(f"{found['litter']} files left behind")
    if found["actions"] <= 0:
        row.bad("nothing was being saved")
    return row


def terminal(number: signal.Signals) -> Tried:
    """The real program on a terminal of its own, a form half filled, and a signal: the draft is beside the job."""
    row = Tried(f"{number.name} with a form half filled", 1)
    with tempfile.TemporaryDirectory() as folder:
        path = job(Path(folder))
        pid, screen = pty.fork()
        if pid == 0:
            os.chdir(ROOT)
            os.environ.update(TERM="xterm-256color", PYTHONPATH=str(ROOT), TEXTUAL_ANIMATIONS="none")
            os.execv(sys.executable, [sys.executable, "-m", "tui", str(path)])
        fcntl.ioctl(screen, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        drafts = _typed(screen, path)
        os.kill(pid, number)
        ended = _ended(pid, screen)
        os.close(screen)
        if not drafts or not list(path.parent.glob(f".{path.name}.draft-*")):
            row.bad("no draft was kept")
        elif b"Halfway" not in next(iter(path.parent.glob(f".{path.name}.draft-*"))).read_bytes():
            row.bad("what was typed is not in the draft")
        if not ended:
            row.bad("the program did not end")
        if wrong := wrong_with(path):
            row.bad(wrong)
    return row


def _typed(screen: int, path: Path) -> bool:
    """Press keys until a draft is there: the contacts, the form of the first of them, and a name in it."""
    end = time.monotonic() + READY_S
    pressed = 0.0
    keys = [b"5", b"e"]
    while time.monotonic() < end:
        _drain(screen, 0.1)
        if list(path.parent.glob(f".{path.name}.draft-*")):
            _drain(screen, 1.5)
            return True
        if time.monotonic() - pressed > 3.0:
            os.write(screen, keys.pop(0) if keys else b"Halfway")
            pressed = time.monotonic()
    return False


def _drain(screen: int, seconds: float) -> None:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        ready, _, _ = select.select([screen], [], [], 0.05)
        if ready:
            try:
                if not os.read(screen, 65536):
                    return
            except OSError:
                return


def _ended(pid: int, screen: int) -> bool:
    end = time.monotonic() + MOST_S
    while time.monotonic() < end:
        _drain(screen, 0.1)
        if os.waitpid(pid, os.WNOHANG)[0]:
            return True
    os.kill(pid, signal.SIGKILL)
    os.waitpid(pid, 0)
    return False
