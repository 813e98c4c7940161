"""Whatever is done in whatever order, a wall that counts as closed had everything behind it closed."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import msgspec
from hypothesis import settings as run_settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from store.book.book import Book
from store.book.changes import Change, add, drop, edit
from store.measure.errors import StudbookError
from store.measure.length import INCH_NM, Length
from store.records.base import Record
from store.records.field import Ref
from store.records.gate import Check, Closing, Passage
from store.records.wiring import Box, Cable
from store.rules.core.checks import close
from store.rules.gate.gate import STAGES, standing
from tests.book.build import TODAY, check, make, raw, reopen, wall
from tests.jobs.gate_job import DRYWALL, go_on
from tests.jobs.proofs import SEEN, sound, take_picture

PICK = st.integers(0, 99)
WHO = st.integers(0, 1)


def inches(number: int) -> Length:
    """So many inches."""
    return Length(number * INCH_NM)


class Machine(RuleBasedStateMachine):
    """One file and two copies of the program on it."""

    @initialize(stages=st.integers(0, 4))
    def begin(self, stages: int) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="gate", dir=os.environ.get("PYTEST_DEBUG_TEMPROOT")))
        self.path = self.folder / "wall.json"
        take_picture(self.folder)
        box = Box(tag="B1", what="low-voltage", wall=Ref("W1"), x=inches(20), y=inches(40))
        cable = Cable(tag="K1", type="cat6", start=Ref("B1"))
        first = make(self.path, wall("W1", first_stud=inches(8)), box, cable, check("Blocks", "Q1"))
        self.books = [first, reopen(self.path, "Ben")]
        for _ in range(stages):
            self.close_all(0)
            go_on(first, "a reason")

    def tried(self, who: int, act: Callable[[Book], object]) -> None:
        """Do something that may be refused; refused, it changes nothing."""
        before = self.path.read_bytes()
        try:
            act(self.books[who])
        except StudbookError:
            assert self.path.read_bytes() == before

    def edited(self, who: int, kind: type[Record], pick: int, **fields: Any) -> None:
        """Edit one of a kind."""
        self.books[who].refresh()
        found = list(self.books[who].job.of(kind).values())
        if found:
            one = found[pick % len(found)]
            change = edit(one, msgspec.structs.replace(one, **fields))
            self.tried(who, lambda book: book.act("Edit", [change]))

    @rule(who=WHO, what=st.sampled_from(["Blocks", "Photos"]))
    def write_an_item(self, who: int, what: str) -> None:
        self.tried(who, lambda book: book.act("Add", [add(check(what))]))

    @rule(who=WHO, pick=PICK, what=st.sampled_from(["Blocks", "Photos", "Plates"]))
    def edit_an_item(self, who: int, pick: int, what: str) -> None:
        self.edited(who, Check, pick, what=what)

    @rule(who=WHO, pick=PICK, why=st.sampled_from(["", "a reason"]))
    def remove_something(self, who: int, pick: int, why: str) -> None:
        self.books[who].refresh()
        kinds = (Check, Cable, Box, Closing, Passage)
        found = [each for kind in kinds for each in self.books[who].job.of(kind).values()]
        if found:
            self.tried(who, lambda book: book.act("Remove", [drop(found[pick % len(found)])], why))

    @rule(
        who=WHO,
        pick=PICK,
        evidence=st.sampled_from(["", "x", SEEN, "the other blocks too"]),
        reason=st.sampled_from(["", "none"]),
    )
    def close_one(self, who: int, pick: int, evidence: str, reason: str) -> None:
        self.books[who].refresh()
        job = self.books[who].job
        found = standing(job).items
        if found:
            one = found[pick % len(found)]
            old, new = job.of(Closing).get(one.key), close(one.check, "Ann", TODAY, evidence, reason)
            changes = [edit(old, new) if old else add(new, keep_tag=True)]
            self.tried(who, lambda book: book.act("Close", changes))

    @rule(who=WHO)
    def close_all(self, who: int) -> None:
        def changes(job: Any) -> Sequence[Change]:
            pairs = [(job.of(Closing).get(each.key), sound(each.check)) for each in standing(job).open]
            return [edit(old, new) if old else add(new, keep_tag=True) for old, new in pairs]

        self.tried(who, lambda book: book.act("Close all", changes))

    @rule(who=WHO, start=st.sampled_from(["", "B1"]))
    def plan_a_cable(self, who: int, start: str) -> None:
        cable = Cable(tag="", type="cat6", start=Ref(start))
        self.tried(who, lambda book: book.act("Add", [add(cable)]))

    @rule(who=WHO, pick=PICK, in_wall=st.booleans(), route=st.sampled_from(["through studs", "up and over"]))
    def edit_a_cable(self, who: int, pick: int, in_wall: bool, route: str) -> None:
        self.edited(who, Cable, pick, in_wall=in_wall, route=route)

    @rule(who=WHO, pick=PICK, x=st.integers(1, 60), new=st.booleans())
    def move_a_box(self, who: int, pick: int, x: int, new: bool) -> None:
        self.edited(who, Box, pick, x=inches(x), new=new)

    @rule(who=WHO, what=st.sampled_from(["receptacle", "low-voltage"]))
    def plan_a_box(self, who: int, what: str) -> None:
        box = Box(tag="", what=what, wall=Ref("W1"), x=inches(50), y=inches(12))  # type: ignore[arg-type]
        self.tried(who, lambda book: book.act("Add", [add(box)]))

    @rule(who=WHO, spacing=st.sampled_from([16, 24]), permit=st.sampled_from(["needed", "not needed"]))
    def edit_the_wall_and_the_job(self, who: int, spacing: int, permit: str) -> None:
        self.books[who].refresh()
        job = self.books[who].job
        one = job.tables["wall"]["W1"]
        changes = [
            edit(one, msgspec.structs.replace(one, spacing=inches(spacing))),
            edit(job.settings, msgspec.structs.replace(job.settings, permit=permit)),
        ]
        self.tried(who, lambda book: book.act("Edit", changes))

    @rule(who=WHO, reason=st.sampled_from(["", "a reason"]))
    def pass_on(self, who: int, reason: str) -> None:
        self.tried(who, lambda book: go_on(book, reason))

    @rule(who=WHO)
    def close_all_and_pass_on(self, who: int) -> None:
        self.close_all(who)
        self.tried(who, lambda book: go_on(book, "a reason"))

    @rule(who=WHO, why=st.sampled_from(["", "a reason"]))
    def undo(self, who: int, why: str) -> None:
        self.tried(who, lambda book: book.undo(why))

    @rule(who=WHO)
    def redo(self, who: int) -> None:
        self.tried(who, lambda book: book.redo())

    @rule(who=WHO)
    def open_anew(self, who: int) -> None:
        self.books[who].close()
        self.books[who] = reopen(self.path)

    @invariant()
    def a_closed_wall_was_earned(self) -> None:
        if not hasattr(self, "books"):
            return
        book = reopen(self.path, "Eve")
        now = standing(book.job)
        book.close()
        # Nothing done through the program is ever a claim.
        assert (now.claimed, now.unearned) == (None, "")
        passed = [each["stage"] for each in raw(self.path).get("passage", {}).values()]
        assert passed == list(STAGES[1 : len(passed) + 1])
        assert now.stage == STAGES[len(passed)]
        if STAGES.index(now.stage) < DRYWALL:
            assert now.found_after == ()
            return
        marks: dict[str, int] = {}
        for entry in raw(self.path)["history"].values():
            marks.update({step["tag"]: entry["n"] for step in entry["changes"]})
        covered = next(tag for tag, each in book.job.of(Passage).items() if each.stage == "Drywall")
        for item in now.items:
            touched_after = any(marks.get(tag, 0) > marks[covered] for tag in item.check.tags)
            assert touched_after or not item.open
            assert not item.open or item in now.found_after

    @invariant()
    def both_copies_see_the_same(self) -> None:
        for book in getattr(self, "books", []):
            book.refresh()
        if hasattr(self, "books"):
            assert standing(self.books[0].job) == standing(self.books[1].job)

    def teardown(self) -> None:
        if hasattr(self, "books"):
            self.books[0].audit()
            assert self.books[0].job.outside == ()
            shutil.rmtree(self.folder)


TestMachine = Machine.TestCase
TestMachine.settings = run_settings(
    max_examples=max(10, run_settings.default.max_examples // 4),  # type: ignore[union-attr]
    stateful_step_count=20,
    deadline=None,
)
