"""`python -m tests.bench [NAME ...] [--kills N]`: every bench of this folder in one run, as one table."""

from __future__ import annotations

import argparse
import sys
import time
from importlib import import_module
from pathlib import Path
from typing import Any

from tests.bench.rows import as_row, table

ENDING = "_bench"
"""A module of this folder whose name ends so and that has `run() -> list of rows` takes part."""


def names() -> list[str]:
    """The benches that there are."""
    return sorted(path.stem.removesuffix(ENDING) for path in Path(__file__).parent.glob(f"*{ENDING}.py"))


def main(arguments: list[str] | None = None) -> int:
    """Run the benches; 0 when nothing is past its bar."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description="Measure, and hold against the bars.")
    parser.add_argument("names", nargs="*", choices=[[], *names()], metavar="NAME", help=f"of: {', '.join(names())}")
    parser.add_argument("--kills", type=int, default=1000, help="how often a saving process is killed (1000)")
    options = parser.parse_args(arguments)
    rows = []
    for name in options.names or names():
        start = time.perf_counter()
        run: Any = import_module(f"tests.bench.{name}{ENDING}").run
        given = {"kills": options.kills} if "kills" in run.__code__.co_varnames[: run.__code__.co_argcount] else {}
        rows += [as_row(each) for each in run(**given)]
        print(f"{name}: {time.perf_counter() - start:.0f} s", file=sys.stderr)
    print(table(rows))
    return 0 if all(row.ok for row in rows) else 1


if __name__ == "__main__":
    raise SystemExit(main())
