"""The walk: one item after the other, one key for each thing to do, remembered when it is left."""

from __future__ import annotations

from pathlib import Path

from store.records.field import Ref
from store.records.gate import Check, Closing
from store.records.wall import Wall
from store.records.wiring import Box, Cable
from store.rules.core.proof import kinds_for
from tests.jobs.power_case import make
from tests.jobs.proofs import take_picture
from tests.tui.seat import LOW, WIDE, Seat, seat_at, small_job, stored
from tui.acts.walk_screen import Walk
from tui.acts.walking import Walking
from tui.screen.job_screen import JobScreen
from tui.widgets.half_blocks import HalfBlocks

BOXES = [
    make(Box, f"B{n}", name=f"box {n}", what="low-voltage", wall=Ref("W1"), x=str(16 * n + 8), y="15")
    for n in (1, 2, 3)
]
RECORDS = [
    make(Wall, "W1", name="North"),
    *BOXES,
    make(Cable, "K1", name="net", type="cat6", start=Ref("B1"), end=Ref("B2")),
    make(Check, "Q1", what="Blocks in", trade="carpenter", wants="photo"),
    make(Check, "Q2", what="Opening square", trade="carpenter"),
]


def walking(seat: Seat) -> Walking:
    assert isinstance(seat.top, Walk)
    return seat.top.walking


def closings(path: Path) -> dict[str, Closing]:
    return dict(stored(path).job.of(Closing))


async def test_a_walk_closes_item_after_item_and_goes_on_where_it_was_left(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    take_picture(tmp_path)
    async with seat_at(path, LOW, first="") as seat:
        await seat.keys("W")
        await seat.until(lambda: isinstance(seat.top, Walk))
        walk = walking(seat)
        first = walk.at
        assert first == "B1/set"
        assert "▸B1" in seat.text, "the piece of the drawing that it is about"
        # Who signs off, and when: asked once, then kept.
        await seat.keys("b")
        seat.top.query_one("#line").value = "Kim"  # type: ignore[attr-defined]
        await seat.keys("enter", "enter")
        assert walk.name == "Kim"
        # Done, with what was seen; two keys beside what is typed.
        await seat.keys("c")
        await seat.write("set and fast")
        await seat.keys("enter")
        done = closings(path)
        assert (done[first].by, done[first].evidence, done[first].proof) == ("Kim", "set and fast", "seen")
        assert walk.at != first
        # Back shows it, undo opens it again, and the next time it takes the words of the last.
        await seat.keys("left")
        assert walk.at == first
        assert "✓ B1/set" in seat.text
        await seat.keys("u")
        assert first not in closings(path)
        await seat.keys("c", "enter")
        assert closings(path)[first].evidence == "set and fast"
        # What is no proof is refused at once, and stays to be mended.
        before = closings(path)
        await seat.keys("c")
        await seat.write("ok")
        await seat.keys("enter")
        assert closings(path) == before
        assert seat.text.count("no proof") == 1, "told once, whole, above what was typed"
        await seat.keys("escape")
        # Skip saves nothing, and Esc leaves.
        here = walk.at
        await seat.keys("s")
        there = walk.at
        assert there != here
        assert closings(path) == before
        await seat.keys("escape")
        assert seat.top_is(JobScreen)
    async with seat_at(path, LOW, first="") as seat:
        await seat.keys("W")
        await seat.until(lambda: isinstance(seat.top, Walk))
        assert (walking(seat).at, walking(seat).name) == (there, "Kim")


async def test_one_proof_for_all_of_a_kind_where_the_rules_let_it_and_not_a_reading(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path, LOW, first="") as seat:
        await seat.keys("W")
        await seat.until(lambda: isinstance(seat.top, Walk))
        walk = walking(seat)
        await seat.keys("C")
        assert "All 3 at once" in seat.text
        await seat.write("set and fast, all three")
        await seat.keys("enter")
        assert {f"B{n}/set" for n in (1, 2, 3)} <= set(closings(path))
        walk.at = "K1/tested"
        assert kinds_for(walk.item.check) == ("test",)  # type: ignore[union-attr]
        before = closings(path)
        await seat.keys("C")
        assert closings(path) == before
        assert "A reading is for one item" in seat.text, "told before anything is typed"
        # Not needed: why, and who says so.
        await seat.keys("n")
        await seat.write("it is no longer run")
        await seat.keys("enter")
        assert "Who says so?" in seat.text
        await seat.keys("enter")
        closing = closings(path)["K1/tested"]
        assert (closing.outcome, closing.reason, closing.by) == ("not needed", "it is no longer run", "Robin")


async def test_a_picture_beside_the_job_is_seen_picked_and_signs_off(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    take_picture(tmp_path)
    async with seat_at(path, WIDE, first="Items") as seat:
        seat.table.move_to("Q1")
        await seat.keys("W")
        await seat.until(lambda: isinstance(seat.top, Walk))
        walk = walking(seat)
        assert walk.at == "Q1", "the walk starts at the row under the cursor"
        await seat.keys("p")
        assert "1 of 1: photos/wall.png" in walk.said
        await seat.until(lambda: bool(seat.top.query_one(HalfBlocks)._lines))
        assert "▀" in seat.text, "the picture itself"
        await seat.keys("c")
        assert closings(path)["Q1"].proof == "photo"
        walk.at = "B1/set"
        await seat.keys("p", "C")
        assert "All 3 at once, B1/set B2/set B3/set" in seat.text, "the picture in sight, for all of its kind"
        await seat.keys("escape")
        walk.at = "Q2"
        assert walk.suggested() == "", "what was written by hand is like nothing before it"
        walk.at = "K1/tested"
        await seat.keys("p")
        assert "A photo won't do here" in walk.said
        # The other order walks from the same item.
        walk.at = "B2/located"
        await seat.keys("v")
        assert (walk.at, walk.by) == ("B2/located", "by trade")


async def test_a_walk_of_what_the_list_shows(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path, LOW, first="Items") as seat:
        await seat.keys("slash")
        await seat.write("trade:carpenter q1")
        await seat.keys("enter", "W")
        await seat.until(lambda: isinstance(seat.top, Walk))
        walk = walking(seat)
        assert walk.keys == ["Q1"]
        await seat.keys("c")
        await seat.write("both blocks nailed")
        await seat.keys("enter")
        assert walk.item is None or walk.at == "Q1"
        await seat.keys("s", "c", "n", "p", "escape")
        assert set(closings(path)) <= {"Q1"}
