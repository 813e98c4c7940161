"""Files changed at random: a job, a starter, a list. Refused in words or read whole, and never in long time."""

from __future__ import annotations

import random
import tempfile
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path

from templates.starters import load
from tests.faults.csv_faults import demo, try_all
from tests.faults.tried import Tried, acted, job, opened, told

SLOW_S = 10.0
MOST_S = 0.5
"""Of one list on average."""
WORDS = (
    *(b"{", b"}", b"[", b"]", b'"', b",", b":", b"=", b";", b"\\", b"\n", b"\r\n", b"''", b'"""'),
    *(b"\x00", b"\xff", b"\xe2\x80\xae", b"\xef\xbb\xbf"),
    *(b"1e999", b"null", b"true", b"-1", b"W1", b"99999999999999999999", b"NaN"),
)


def mutated(raw: bytes, chance: random.Random) -> bytes:
    """The bytes with one to five changes: bits turned, pieces cut, doubled, moved, words put in."""
    made = bytearray(raw)
    for _ in range(chance.randint(1, 5)):
        at = chance.randrange(len(made) + 1)
        length = chance.choice((1, 1, 2, 8, 60, 400))
        piece = bytes(made[at : at + length])
        what = chance.randrange(6)
        if what == 0 and at < len(made):
            made[at] ^= 1 << chance.randrange(8)
        elif what == 1:
            del made[at : at + length]
        elif what == 2:
            made[at:at] = piece
        elif what == 3:
            made[at:at] = chance.choice(WORDS)
        elif what == 4:
            to = chance.randrange(len(made) + 1)
            made[to : to + len(piece)] = piece
        elif chance.random() < 0.2:
            del made[at:]
    return bytes(made)


def _trial(row: Tried, work: Callable[[], object], raw: bytes) -> None:
    row.times += 1
    start = time.monotonic()
    came = told(work)
    if came.startswith("!"):
        row.bad(f"{came[:200]}: {raw[:60]!r}")
    if time.monotonic() - start > SLOW_S:
        row.bad(f"took {time.monotonic() - start:.0f} s: {raw[:60]!r}")


def jobs(times: int, seed: int = 1) -> Tried:
    """Changed job files: opening one never writes to it."""
    row, chance = Tried("job file changed at random"), random.Random(seed)
    with tempfile.TemporaryDirectory() as folder:
        path = job(Path(folder))
        book = opened(path)
        for number in range(8):
            acted(book, f"n{number}")
        book.close()
        whole = path.read_bytes()
        tried = path.with_name("tried.json")
        for _ in range(times):
            raw = mutated(whole, chance)
            tried.write_bytes(raw)

            def work() -> None:
                book = opened(tried)
                try:
                    book.audit(inside=True)
                finally:
                    book.close()

            _trial(row, work, raw)
            if tried.read_bytes() != raw:
                row.bad("it was written to")
    return row


STARTER = b"""[job]
name = "Media wall"
units = "feet-inches"
[[wall]]
name = "North wall"
notes = \"\"\"two
lines\"\"\"
[[wall.reading]]
what = "width"
value = "12' 6 1/2"
[[contact]]
tag = "T3"
name = "A. Sparks"
trade = "electrician"
phone = "555-0101"
[[box]]
wall = "W1"
what = "low-voltage"
x = "4'"
y = "12 in"
"""


def starters(times: int, seed: int = 2) -> Tried:
    """Changed starters."""
    row, chance = Tried("starter changed at random"), random.Random(seed)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "starter.toml"
        for _ in range(times):
            raw = mutated(STARTER, chance)
            path.write_bytes(raw)
            _trial(row, lambda: load(str(path), date(2026, 11, 25)), raw)
    return row


def lists(times: int, seed: int = 3) -> Tried:
    """Changed lists of every kind, read into the demo job: each read or refused in words."""
    row = Tried("list (csv) changed at random", times)
    start = time.monotonic()
    came = told(lambda: try_all(demo(), times, seed))
    if came != "done":
        row.bad(came[:200])
    if time.monotonic() - start > SLOW_S + times * MOST_S:
        row.bad(f"took {time.monotonic() - start:.0f} s")
    return row


def bounded() -> list[Tried]:
    """Files made to take all time or memory: refused within seconds."""
    row = Tried("files without end: deep, huge, devices, pipes")
    made = {
        "deep.toml": b"a = " + b"[" * 200_000,
        "dots.toml": b"[" + b"a." * 300_000 + b"b]\n" + b"x.y = 1\n" * 20_000,
        "keys.toml": b"[job]\n" + b"".join(b"k%d = 1\n" % number for number in range(100_000)),
        "huge.toml": b"# " + b"x" * 8_000_000,
        "digits.toml": b"a = " + b"9" * 100_000,
        "marks.toml": '[job]\nname = "{}"\n'.format("e" + "\u0301\u0323" * 500_000).encode(),
    }
    deep = {"deep.json": b'{"_meta":{"1":{"a":' + b"[" * 300_000, "long.json": b'{"' + b"x" * 5_000_000 + b'":{}}'}
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for each, raw in {**made, **deep}.items():
            (folder / each).write_bytes(raw)
        for each in made:
            _refused(row, lambda: load(str(folder / each), date(2026, 11, 25)), each)  # noqa: B023
        for each in deep:
            _refused(row, lambda: opened(folder / each), each)  # noqa: B023
        import os

        os.mkfifo(folder / "pipe")
        for path in (Path("/dev/zero"), folder / "pipe", folder):
            _refused(row, lambda: load(str(path), date(2026, 11, 25)), str(path))  # noqa: B023
            _refused(row, lambda: opened(path), str(path))  # noqa: B023
    return [row]


def _refused(row: Tried, work: Callable[[], object], name: str) -> None:
    row.times += 1
    start = time.monotonic()
    came = told(work)
    if came == "done" or came.startswith("!"):
        row.bad(f"{name}: {came[:200]}")
    if time.monotonic() - start > SLOW_S:
        row.bad(f"{name}: took {time.monotonic() - start:.0f} s")
