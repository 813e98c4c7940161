"""`python -m tests.faults [--short]`: try every fault, and print what was tried and what was lost."""

from __future__ import annotations

import argparse
import os
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Sequence

from tests.faults import calls, changed, killed, places
from tests.faults.tried import Tried

Trial = Callable[[], Sequence[Tried]]


def trials(short: bool, mutations: int) -> list[tuple[str, Trial]]:
    """The faults, by name. The short form tries each kind, with fewer turns of it."""
    kills = 15 if short else 400
    many = [(200, kills)] if short else [(200, kills), (20_000, 60)]
    signals = [signal.SIGHUP] if short else [signal.SIGHUP, signal.SIGTERM, signal.SIGKILL]
    return [
        ("kills", lambda: [killed.saving(records, times) for records, times in many]),
        ("terminal", lambda: [killed.terminal(each) for each in signals]),
        ("writing", lambda: calls.writing(short)),
        ("reading", lambda: calls.reading(short)),
        ("disk", places.full_disk),
        ("locks", places.locks),
        ("open", places.while_open),
        ("clock", places.clock),
        ("home", places.no_home),
        ("manners", places.manners),
        ("people", lambda: [*places.two_people(), *places.held_by_two()]),
        ("endless", changed.bounded),
        ("mutations", lambda: [changed.jobs(mutations), changed.starters(mutations), changed.lists(mutations)]),
    ]


def table(rows: Sequence[Tried]) -> str:
    """What was tried and what was lost, a line each."""
    wide = max((len(row.what) for row in rows), default=5)
    lines = [f"{'fault':{wide}}  {'tried':>7}  lost", f"{'-' * wide}  {'-' * 7}  ----"]
    for row in rows:
        lost = f"not tried: {row.skipped}" if row.skipped else str(row.lost) if row.lost else "nothing"
        lines.append(f"{row.what:{wide}}  {row.times:7,}  {lost}")
        lines += [f"{'':{wide}}           {note}" for note in row.notes]
    every = sum(row.lost for row in rows)
    # Said once more at the end: of a long output, the end is what is kept.
    lines += [f"LOST: {row.what}: {'; '.join(row.notes)}" for row in rows if row.lost]
    lines.append(f"{'all':{wide}}  {sum(row.times for row in rows):7,}  {every or 'nothing'}")
    return "\n".join(lines)


def main(arguments: Sequence[str] | None = None) -> int:
    """Try the faults; 0 when nothing was lost."""
    parser = argparse.ArgumentParser(prog="python -m tests.faults", description="Try every fault upon a job.")
    parser.add_argument("names", nargs="*", metavar="NAME", help="only these; without any, all of them")
    parser.add_argument("--short", action="store_true", help="fewer turns of each, in about a minute")
    parser.add_argument("--mutations", type=int, default=0, help="changed files of each kind (10,000; short: 150)")
    options = parser.parse_args(arguments)
    rows: list[Tried] = []
    with tempfile.TemporaryDirectory() as home:
        # What is remembered of a person is remembered here, and of nobody else.
        os.environ.update(HOME=home, XDG_STATE_HOME=f"{home}/state", XDG_CACHE_HOME=f"{home}/cache")
        for name, trial in trials(options.short, options.mutations or (150 if options.short else 10_000)):
            if options.names and name not in options.names:
                continue
            start = time.monotonic()
            rows += trial()
            print(f"{name}: {time.monotonic() - start:.0f} s", file=sys.stderr, flush=True)
    print(table(rows))
    return 1 if any(row.lost for row in rows) or not rows else 0


if __name__ == "__main__":
    raise SystemExit(main())
