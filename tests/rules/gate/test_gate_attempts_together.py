"""Ways round the gate with several things in one action, several copies, other days, the plan, or a new file."""

from __future__ import annotations

import os
import subprocess
import sys
from datetime import date, timedelta
from pathlib import Path

import msgspec
import pytest

from store.book.book import Book
from store.book.changes import Change, Restore, add, drop, edit
from store.measure.errors import BadValue
from store.records.base import to_doc
from store.records.field import Ref
from store.records.gate import Check, Closing, Passage
from store.records.wall import Wall
from store.records.wiring import Box, Cable
from store.rules.core.checks import close
from store.rules.gate.gate import passage, standing
from store.rules.gate.guard import Held, NeedsReason
from templates.starters.load import load
from tests.book.build import TODAY, check, puts, raw, settings, today, wall
from tests.jobs.gate_job import (
    at_drywall,
    before_drywall,
    check_of,
    go_on,
    job_before,
    pass_to,
    refused,
    shut,
    shut_all,
    stands,
)
from tests.jobs.proofs import PICTURE, SEEN, take_picture

ROOT = Path(__file__).parents[3]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the job is."""
    return tmp_path / "wall.json"


# --- several things in one action, several copies, several days ---


def test_import_that_adds_an_open_item_and_a_passage_together(path: Path) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    for order in (1, -1):
        both = [add(check("Photos")), add(pass_to("Drywall", "Q1", "Q2"))][::order]
        refused(book, both, says="Q2 Photos", why="imported")
        both = [add(check("Photos")), add(pass_to("Drywall", "Q1"))][::order]
        refused(book, both, says="Q2 Photos", why="imported")


def test_import_that_removes_a_closing_and_passes_together(path: Path) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    refused(book, [drop(book.job.of(Closing)["Q1"]), add(pass_to("Drywall", "Q1"))], says="Q1 Blocks")
    one = book.job.of(Check)["Q1"]
    moved = edit(one, msgspec.structs.replace(one, where="left"))
    refused(book, [add(pass_to("Drywall", "Q1")), moved], says="changed since Ann signed it off")


def test_import_that_closes_and_passes_together_is_earned(path: Path) -> None:
    book = before_drywall(path)
    closing = close(check_of(book.job, "Q1"), "Ann", TODAY, SEEN)
    book.act("Import", [add(pass_to("Drywall", "Q1")), add(closing, keep_tag=True)])
    assert stands(path).stage == "Drywall"


def test_one_action_that_takes_the_wall_down_and_closes_it_again(path: Path) -> None:
    book = at_drywall(path)
    swap: list[Change] = [drop(book.job.of(Passage)["P4"]), add(check("Photos")), add(pass_to("Drywall", "Q1", "Q2"))]
    refused(book, swap, why="a reason")
    swap = [drop(book.job.of(Passage)["P4"]), drop(book.job.of(Closing)["Q1"]), add(pass_to("Drywall", "Q1"))]
    refused(book, swap, why="a reason")


OTHER = """
import sys
from pathlib import Path
from store.book.changes import add
from tests.book.build import check, reopen
reopen(Path(sys.argv[1]), "Ben").act("Found", [add(check("Photos"))])
"""


def test_a_second_process_opens_an_item_between_looking_and_passing(path: Path) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    looked = passage(book.job, "Ann")
    assert standing(book.job).holds == ()
    done = subprocess.run(
        [sys.executable, "-c", OTHER, str(path)],
        cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    refused(book, [add(looked)], says="Q2 Photos")
    assert stands(path).stage == "Rough-in"


RACE = """
import sys
from pathlib import Path
from store.book.changes import add
from store.rules.gate.gate import passage
from store.rules.gate.guard import Held
from tests.book.build import check, reopen
path, role = Path(sys.argv[1]), sys.argv[2]
book = reopen(path, role)
print("ready", flush=True)
sys.stdin.readline()
try:
    if role == "pass":
        book.act("Pass", lambda job: [add(passage(job, role))])
    else:
        book.act("Found", [add(check("Photos"))])
    print("done")
except Held:
    print("held")
"""


def test_two_processes_at_the_same_moment(tmp_path: Path) -> None:
    for turn in range(3):
        path = tmp_path / f"wall{turn}.json"
        shut(before_drywall(path), "Q1")
        both = [
            subprocess.Popen(
                [sys.executable, "-c", RACE, str(path), role],
                cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, text=True,
                stdin=subprocess.PIPE, stdout=subprocess.PIPE,
            )
            for role in ("pass", "open")
        ]  # fmt: skip
        for each in both:
            assert each.stdout is not None
            assert each.stdout.readline() == "ready\n"
        for each in both:
            assert each.stdin is not None
            each.stdin.write("go\n")
            each.stdin.flush()
        passed, opened = (each.communicate(timeout=60)[0].strip() for each in both)
        now = stands(path)
        # Whoever was first: either the item held the passage, or it was found after it.
        assert opened == "done"
        assert (passed, now.stage, len(now.found_after)) in (("done", "Drywall", 1), ("held", "Rough-in", 0))
        assert now.claimed is None


def test_clock_set_back_or_ahead(path: Path) -> None:
    shut(before_drywall(path), "Q1")
    for away in (-3650, -1, 0, 1, 3650):
        day = TODAY + timedelta(days=away)
        book = Book.open(path, "Ann", lambda day=day: day)  # type: ignore[misc]
        assert standing(book.job).holds == ()
        book.act("Found", [add(check(f"Later {away}"))])
        with pytest.raises(Held):
            go_on(book)
        tag = list(book.job.of(Check))[-1]
        tomorrow = close(check_of(book.job, tag), "Ann", day + timedelta(days=2), SEEN)
        refused(book, [add(tomorrow, keep_tag=True)], BadValue, says="is still to come")
        book.act("Close", [add(close(check_of(book.job, tag), "Ann", day, SEEN), keep_tag=True)])
    # Closings of a day that has not come yet by today's clock were made on that day: they count.
    assert stands(path).holds == ()


def test_clock_set_back_does_not_make_a_late_item_an_early_one(path: Path) -> None:
    at_drywall(path)
    past = Book.open(path, "Ann", lambda: date(2020, 1, 1))
    past.act("Found", [add(check("Photos"))])
    now = stands(path)
    assert (now.stage, [each.key for each in now.found_after]) == ("Drywall", ["Q2"])


# --- the plan ---

PLAN = (
    wall("W1"),
    Box(tag="B1", what="low-voltage", new=False, wall=Ref("W1")),
    Cable(tag="K1", type="cat6", start=Ref("B1"), end=Ref("B1")),
)


def test_saying_that_a_cable_is_not_in_the_wall_until_the_wall_is_closed(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    one = book.job.of(Cable)["K1"]
    out = [edit(one, msgspec.structs.replace(one, in_wall=False))]
    refused(book, out, NeedsReason, says="takes 4 rough-in items off the list")
    book.act("Out", out, "it runs in the cabinet")
    assert {each.tag for each in book.job.removed} >= {"K1/tested", "K1/photographed"}
    shut_all(book)
    go_on(book)
    was = book.job.of(Cable)["K1"]
    book.act("In", [edit(was, msgspec.structs.replace(was, in_wall=True))])
    now = stands(path)
    assert now.stage == "Drywall"
    assert {each.key for each in now.found_after} >= {"K1/tested", "K1/photographed"}
    with pytest.raises(NeedsReason, match="Found after close-in"):
        go_on(book)


def test_deleting_a_cable_until_the_wall_is_closed(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    doc = to_doc(book.job.of(Cable)["K1"])
    refused(book, [drop(book.job.of(Cable)["K1"])], NeedsReason, says="K1/tested")
    book.act("Remove", [drop(book.job.of(Cable)["K1"])], "not wanted")
    shut_all(book)
    go_on(book)
    book.act("Bring back", [Restore("cable", "K1", doc, None)])
    assert {each.key for each in stands(path).found_after} >= {"K1/tested"}
    assert stands(path).stage == "Drywall"


def test_a_change_of_the_plan_after_a_check_was_closed(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    shut_all(book)
    one = book.job.of(Cable)["K1"]
    book.act("Reroute", [edit(one, msgspec.structs.replace(one, route="up and over"))])
    with pytest.raises(Held, match=r"K1.*changed since Ann signed it off"):
        go_on(book)


def test_a_change_of_the_plan_after_the_wall_was_closed(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    shut_all(book)
    go_on(book)
    one = book.job.of(Wall)["W1"]
    wider = [edit(one, msgspec.structs.replace(one, spacing=one.spacing + one.spacing))]
    refused(book, wider, NeedsReason, says="reopens 1 item behind drywall:\n  W1/fireblocking")
    book.act("Edit", wider, "measured through the panel")
    now = stands(path)
    assert (now.stage, now.claimed) == ("Drywall", None)
    assert "W1/fireblocking" in {each.key for each in now.found_after}


# --- a new file ---

CLAIM = """
[job]
name = "Claims"
permit = "not needed"
permit_by = "A. Clerk"
permit_office = "building department"
[[check]]
tag = "Q1"
what = "Blocks"
[[passage]]
stage = "Design"
date = "2026-11-01"
by = "Eve"
reason = "measured on paper"
[[passage]]
stage = "Mock-up"
date = "2026-11-02"
by = "Eve"
[[passage]]
stage = "Rough-in"
date = "2026-11-03"
by = "Eve"
[[passage]]
stage = "Drywall"
date = "2026-11-04"
by = "Eve"
"""


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ("", "Q1 Blocks"),
        ('[[closing]]\ncheck = "Q1"\ndate = "2026-11-04"\nby = "Eve"', "no proof"),
        (
            '[[closing]]\ncheck = "Q1"\ndate = "2027-11-04"\nby = "Eve"\nevidence = "both blocks nailed"',
            "still to come",
        ),
        (
            '[[closing]]\ncheck = "Q2"\ndate = "2026-11-04"\nby = "Eve"\nevidence = "both blocks nailed"',
            "there is no rough-in item Q2",
        ),
        ('[[passage]]\nstage = "In use"\ndate = "2026-11-04"\nby = "Eve"', "In use is recorded, not earned"),
    ],
)
def test_starter_that_claims_drywall_with_open_items(path: Path, more: str, says: str) -> None:
    starter = path.with_name("claims.toml")
    starter.write_text(CLAIM + more)
    with pytest.raises((Held, BadValue)) as caught:
        Book.create(path, load(str(starter), TODAY), "Eve", "Begin", today)
    assert says in str(caught.value)
    assert not path.exists()


def test_starter_that_skips_to_drywall(path: Path) -> None:
    records = [settings(), pass_to("Drywall")]
    with pytest.raises(
        Held, match=r"Drywall is recorded, not earned. The job was never moved to Design\. No file was made"
    ):
        Book.create(path, puts(records), "Eve", "Begin", today)
    assert not path.exists()


def test_starter_that_earned_drywall(path: Path) -> None:
    starter = path.with_name("earned.toml")
    closing = '[[closing]]\ncheck = "Q1"\ndate = "2026-11-04"\nby = "Eve"\nevidence = "both blocks nailed"'
    starter.write_text(CLAIM + closing)
    Book.create(path, load(str(starter), TODAY), "Eve", "Begin", today)
    assert stands(path).stage == "Drywall"
    assert raw(path)["passage"]["4"]["checked"] == ["Q1"]


BURIED = """
[[wall]]
tag = "W1"
name = "Wall"
[[box]]
tag = "B1"
what = "low-voltage"
new = false
wall = "W1"
x = "10 in"
y = "10 in"
[[box]]
tag = "B2"
what = "low-voltage"
new = false
wall = "W1"
x = "50 in"
y = "10 in"
[[cable]]
tag = "K1"
type = "speaker-16-2"
rating = "SPT-2"
start = "B1"
end = "B2"
"""
KEYS = ("Q1", "W1/fireblocking", *(f"K1/{each}" for each in ("pulled", "labelled", "tested", "photographed", "plates")))


@pytest.mark.parametrize("later", [(), ("Finish", "Hook-up")], ids=["at Drywall", "at Hook-up"])
@pytest.mark.parametrize("rating", ["SPT-2", "CL2"])
def test_starter_that_claims_drywall_over_what_must_not_be_buried(
    path: Path, rating: str, later: tuple[str, ...]
) -> None:
    starter = path.with_name("buried.toml")
    take_picture(path.parent)
    said = {"K1/tested": "0.2 ohm", "K1/photographed": PICTURE}
    closings = [f'[[closing]]\ncheck = "{key}"\nevidence = "{said.get(key, SEEN)}"' for key in KEYS]
    passages = [f'[[passage]]\nstage = "{stage}"' for stage in later]
    more = "".join(f'{each}\ndate = "2026-11-04"\nby = "Eve"\n' for each in (*closings, *passages))
    starter.write_text(CLAIM + BURIED.replace("SPT-2", rating) + more)
    changes = load(str(starter), TODAY)
    if rating == "CL2":
        Book.create(path, changes, "Eve", "Begin", today)
        assert stands(path).stage == (later or ("Drywall",))[-1]
        return
    with pytest.raises(Held, match=r"can't run in a wall, K1.*\nNo file was made"):
        Book.create(path, changes, "Eve", "Begin", today)
    assert not path.exists()
