"""Coats of drywall in the calendar: whether they have time to dry, and the steps that give it."""

from __future__ import annotations

from typing import Any

from store.records.people import Step
from store.records.whole import Job
from store.rules.build.coats import coat_steps
from tests.jobs.wall_jobs import found, job_of, made, one, read, wall


def job(
    days: float = 2, wait: int = 0, *, settings: dict[str, Any] | None = None, step: bool = True, **values: Any
) -> Job:
    """A new wall at level 4, and one step of the drywall."""
    steps = [made(Step, "S1", what="Hang the board", stage="Drywall", days=days, wait=wait, who="T1")] if step else []
    walls = wall(first_stud=16, **{"framing": "new wood", **values})
    return job_of(walls, read("D1", "width", 144), read("D2", "height", 96), *steps, **(settings or {}))


def test_three_coats_and_a_day_to_hang_want_four_days() -> None:
    assert one(job(2, 1), "coats_dry").severity == "look"
    assert found(job(2, 2), "coats_dry") == []
    assert found(job(1, 0, level="0"), "coats_dry") == []
    assert found(job(1, 0, framing="existing"), "coats_dry") == []
    assert found(job(step=False), "coats_dry") == []


def test_damp_air_takes_longer_and_cold_air_dries_nothing() -> None:
    # 80 % at 65 °F: 54 h, three days a coat.
    assert found(job(2, 8, settings={"humidity": 80.0}), "coats_dry") == []
    assert one(job(2, 7, settings={"humidity": 80.0}), "coats_dry")
    assert "cold" in one(job(9, 9, settings={"drying_f": 35.0}), "coats_dry").says
    assert coat_steps(job(settings={"drying_f": 35.0})) == []


def test_the_coats_become_steps_one_after_the_other() -> None:
    before = job(1)
    steps = coat_steps(before)
    assert [each.what[:7] for each in steps] == ["Coat 1:", "Coat 2:", "Coat 3:"]
    assert [each.after for each in steps] == [("S1",), ("S2",), ("S3",)]
    assert {(each.stage, each.wait, each.who) for each in steps} == {("Drywall", 1, "T1")}
    after = before
    for each in steps:
        after = after.having(each)
    assert coat_steps(after) == []
    assert found(after, "coats_dry") == []


def test_a_tag_that_was_used_is_not_used_again() -> None:
    import msgspec

    gone = msgspec.structs.replace(job(1), marks={"S7": 3})
    assert [each.tag for each in coat_steps(gone)] == ["S8", "S9", "S10"]
