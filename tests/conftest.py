"""What holds for every test: no animation, private folders, no stopwatch, and nothing left out without a word."""

from __future__ import annotations

import gc
import os
import shutil
import sys
from collections import Counter, defaultdict
from collections.abc import Generator, Iterator, Mapping
from itertools import count as numbers
from pathlib import Path
from typing import Any

# Read once, when textual is imported: animations would only make tests wait.
os.environ["TEXTUAL_ANIMATIONS"] = "none"
# Whatever terminal the tests are started from, the one that they look at shows all colors, and is asked for them.
os.environ["COLORTERM"] = "truecolor"
os.environ.pop("NO_COLOR", None)

import msgspec
import pytest
from hypothesis import HealthCheck, settings

from store.book import book, tables, taken
from store.records.whole import Job
from store.rules.core import memo
from store.rules.core.view import View
from tests.tries import LONG, USUAL
from tui.shared import collector

MEMORY = Path("/dev/shm")
ENOUGH = 1 << 30
"""Bytes: many times what the tests need."""
ENOUGH_A_CORE = 4 << 30
"""Bytes: twice what a process takes that lets go of nothing."""


def _memory_a_core() -> int:
    """Bytes of the machine's memory for each of its cores; none where that is not told."""
    if not hasattr(os, "sysconf"):
        return 0
    return os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") // (os.cpu_count() or 1)


# The tests start the program a hundred times: it is compiled once, also where bytecode is not kept otherwise.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False
# Thousands of small files are made, synced and removed. In memory that is no work; what a job file does on a disk is
# tried on one, in `tests/book`.
if "TMPDIR" not in os.environ and MEMORY.is_dir() and shutil.disk_usage(MEMORY).free > ENOUGH:
    os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(MEMORY))
# A process of tests ends before it matters what holds itself in a circle, such as each program that a test started: to
# look for it takes a sixth of their time. Where there is little memory, or tests go on for long, as properties do in
# the long profile, it is done.
collector.SELDOM = (30_000_000 if _memory_a_core() > ENOUGH_A_CORE else 1_000_000, 20, 50)
# Until the tests begin everything stays that is made, and looking for what does not would be in vain.
gc.disable()

MOST_RECORDS, MOST_TABLES = 400, 6
"""Of a kind, for which records are given again: those of the starters, and of the jobs at hand."""
MOST_JOBS = 3
"""Whose answers are kept."""

settings.register_profile("house", deadline=None, max_examples=USUAL, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("long", deadline=None, max_examples=LONG, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "house"))

HOMES = (
    ("HOME", ""),
    ("XDG_CONFIG_HOME", ".config"),
    ("XDG_DATA_HOME", ".local/share"),
    ("XDG_STATE_HOME", ".local/state"),
    ("XDG_CACHE_HOME", ".cache"),
)


@pytest.fixture(scope="session")
def _homes(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """One empty home after the other: the same again for as long as nobody put anything into it."""
    folder = tmp_path_factory.mktemp("homes")

    def each() -> Iterator[Path]:
        for number in numbers():
            home = folder / str(number)
            home.mkdir()
            while not any(home.iterdir()):
                yield home

    return each()


@pytest.fixture(autouse=True)
def _private_folders(_homes: Iterator[Path], monkeypatch: pytest.MonkeyPatch) -> None:
    """A home of its own for each test, so that none reads or writes the files of whoever runs it."""
    home = next(_homes)
    for name, folder in HOMES:
        monkeypatch.setenv(name, str(home / folder))


@pytest.fixture(scope="session", autouse=True)
def _a_table_read_again_gives_the_same_records() -> None:
    """Tests open the same few jobs hundreds of times. A table that is the same gives the records that it gave before,
    so that answers which are kept of them stand, as they do while a program runs.
    """
    kept: defaultdict[str, list[tuple[Mapping[str, Any], tables.TableRead]]] = defaultdict(list)
    read_table = tables.read_table

    def again(path: Path, kind: str, table: Mapping[str, Any], *before: Any) -> tables.TableRead:
        if len(table) > MOST_RECORDS:
            return read_table(path, kind, table, *before)
        read = next((read for was, read in kept[kind] if was == table), None)
        if read is None:
            read = read_table(path, kind, table, *before)
            kept[kind] = [(table, read), *kept[kind][: MOST_TABLES - 1]]
        return msgspec.structs.replace(read, docs=dict(read.docs), numbers=dict(read.numbers))

    for each in (book, taken):
        setattr(each, "read_table", again)  # noqa: B010  (it is theirs by import)


class _AnEngineForEachJob(memo.Engine):
    """Of the jobs last asked about each keeps its own answers. A program has one job, which changes; tests go from job
    to job, where holding the answers of one against those of the next is more work than to begin anew.
    """

    def __init__(self) -> None:
        super().__init__()
        self._last: list[memo.Engine] = []

    def look(self, job: Job) -> View:
        """The view of a job, by the engine of the job that has most of its tables, or else by a new one."""
        tables = {id(table) for table in job.tables.values() if table}

        def shared(engine: memo.Engine) -> int:
            return sum(id(table) in tables for table in engine.view.job.tables.values()) if engine.view else 0

        best = max(self._last, key=shared, default=None)
        if best is None or not shared(best):
            best = memo.Engine()
            self._last = [best, *self._last[: MOST_JOBS - 1]]
        return best.look(job)


@pytest.fixture(scope="session", autouse=True)
def _each_job_keeps_its_answers() -> None:
    memo._KEPT = _AnEngineForEachJob()


def pytest_collection_finish() -> None:
    """What was collected stays to the end, and need not be looked through."""
    collector.collect_seldom()


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """One process a core for folders; a file or a test asked for by name runs at once, in this one."""
    return 0 if all(".py" in each for each in config.args) else None


@pytest.hookimpl(wrapper=True, tryfirst=True)
def pytest_sessionfinish(session: pytest.Session) -> Generator[None]:
    """Say below the last line which tests did not run, and what they lack."""
    yield
    report = session.config.pluginmanager.get_plugin("terminalreporter")
    if report is None or hasattr(session.config, "workerinput"):
        return
    reasons = Counter(each.longrepr[2].removeprefix("Skipped: ") for each in report.stats.get("skipped", ()))
    for reason, count in sorted(reasons.items()):
        report.write_line(f"NOT RUN: {count} {'test' if count == 1 else 'tests'}. {reason}", yellow=True)
