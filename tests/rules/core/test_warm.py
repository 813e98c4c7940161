"""A program that runs for days tells the same as one that was just started, whatever was edited meanwhile."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest

from store.measure.length import INCH_NM, Length
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.core import memo
from store.rules.core.checks import close, rough_in
from store.rules.core.memo import cold
from store.rules.core.view import BITS, EVERYTHING, Reads, View
from store.rules.gate.gate import standing
from store.rules.wall.layout import in_opening
from tests.rules.core.edits import Edits, starter, with_records
from tests.rules.core.told import difference, every_query, told

SEEDS = range(2)
EDITS = 25


def astray(seed: int, edits: int, *, every: bool = False, start: str = "demo") -> str:
    """Where a warm program and a cold one part ways after random edits, in words; empty where they never do.

    One edit in five is stepped over unasked, as two edits in quick succession are. What cannot be worked out at all
    must fail alike; the next edit starts from the job before it.
    """
    job = starter(start)
    first = told(job, every=every)
    assert not [name for name, text in first.items() if text.startswith("raises")], "the job to start from is sound"
    some = Edits(seed, job)
    for number in range(edits):
        name, after = some.next(job)
        if number % 5 == 4:
            job = after
            continue
        warm, anew = told(after, every=every), told(cold(after), every=every)
        if differs := difference(warm, anew):
            return f"seed {seed}, edit {number} ({name}): {differs}"
        job = job if any(each.startswith("raises") for each in anew.values()) else after
    return ""


@pytest.mark.parametrize("seed", SEEDS)
def test_warm_tells_what_cold_tells(seed: int) -> None:
    assert astray(seed, EDITS, every=True) == ""


def test_every_query_is_looked_at() -> None:
    known = every_query()
    assert "store.rules.cable.routes.routes" in known
    assert "store.rules.core.checks.items" in known
    assert len(known) > 60


def test_the_edits_are_of_every_sort_and_reach_the_gate() -> None:
    job: Job = starter()
    some = Edits(0, job)
    seen: set[str] = set()
    stages: set[str] = set()
    for _ in range(120):
        name, job = some.next(job)
        seen.add(name)
        stages.update(each.stage for each in job.tables["passage"].values())  # type: ignore[attr-defined]
    assert len(seen) == len({way.__name__ for way in some._ways})
    assert "Drywall" in stages


# --- the fault that the hand-kept lists of inputs had ---


def test_a_neighbour_made_wider_opens_the_checks_of_cables_that_end_beside_it() -> None:
    """All checks closed; a device beside another in the same opening gets wider, and moves what the cables end at."""
    job = _nothing_in_the_way(starter())
    cables = [each for each in job.of(Cable).values() if each.in_wall and each.retired is None]
    row = next(group for group in in_opening(job).values() if sum(one.offset is None for one in group) > 1)
    beside, moved = row[0], row[1]
    job = with_records(job, msgspec.structs.replace(cables[0], end=Ref(moved.tag), route="through studs"))
    job = with_records(job, *(close(each, "Ann", job.today, "", "tried by hand") for each in rough_in(cold(job))))
    before = standing(job)
    wide = Length((beside.width.nm if beside.width else 0) + 6 * INCH_NM)
    after = with_records(job, msgspec.structs.replace(beside, width=wide, offset=None))
    warm, anew = standing(after), standing(cold(after))
    assert [each.key for each in warm.holds] == [each.key for each in anew.holds]
    assert {each.key for each in warm.open} > {each.key for each in before.open}


def _nothing_in_the_way(job: Job) -> Job:
    """The job with every device of an opening standing beside the others, as wide as is known or a foot."""
    devices = [
        msgspec.structs.replace(
            one, offset=None, width=one.width or Length(12 * INCH_NM), height=one.height or one.width
        )
        for one in job.of(Equipment).values()
        if one.opening
    ]
    return with_records(job, *devices)


# --- what the comparison above must notice ---


def _kept_from(part: str) -> Callable[[pytest.MonkeyPatch], None]:
    """An engine that does not note reads of one sort."""

    def broken(patch: pytest.MonkeyPatch) -> None:
        note = Reads.note

        def some(self: Reads, where: tuple[str, str | None], bit: int, seen: object) -> None:
            if (where[1] is None) != (part == "tags"):
                note(self, where, bit, seen)

        patch.setattr(Reads, "note", some)

    return broken


def _blind_to(bit: str) -> Callable[[pytest.MonkeyPatch], None]:
    """An engine that does not notice a change of one part of the job."""

    def broken(patch: pytest.MonkeyPatch) -> None:
        differing = memo._differing
        patch.setattr(memo, "_differing", lambda one, other: differing(one, other) & ~BITS[bit])

    return broken


def _same_when_equal(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(memo, "as_before", lambda was, now: was if was == now else now)


def _asked_not_noted(patch: pytest.MonkeyPatch) -> None:
    def stands(self: memo.Node, view: View) -> bool:
        if self.at >= 0 and not view.since.get(self.at, EVERYTHING) & self.own:
            self.at = view.number
            return True
        return False

    patch.setattr(memo.Node, "_stands", stands)


BROKEN: dict[str, Callable[[pytest.MonkeyPatch], None]] = {
    "a record that is read is not noted": _kept_from("records"),
    "the tags of a table are not noted": _kept_from("tags"),
    "another day is not noticed": _blind_to("today"),
    "what was done outside is not noticed": _blind_to("outside"),
    "another cable is not noticed": _blind_to("cable"),
    "other settings are not noticed": _blind_to("job"),
    "a closing is not noticed": _blind_to("closing"),
    "what is equal counts as the same": _same_when_equal,
    "the answers of others are not looked at": _asked_not_noted,
}


@pytest.mark.parametrize("fault", BROKEN)
def test_the_comparison_notices(fault: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(memo, "_KEPT", memo.Engine())
    BROKEN[fault](monkeypatch)
    assert any(astray(seed, 60) for seed in range(8)), f"nobody noticed that {fault}"
