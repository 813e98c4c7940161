"""Wishes that are kept, and what serves them."""

from __future__ import annotations

from typing import Any

from store.records.people import Wish
from tests.jobs.wall_jobs import ROOM, TODAY, device, found, job_of, one


def wishing(*others: Any, kept: Any = "kept", served_by: tuple[str, ...] = ()) -> Any:
    return job_of(*ROOM, *others, Wish(tag="L1", what="no cord to be seen", kept=kept, served_by=served_by))  # type: ignore[arg-type]


def test_a_kept_wish_that_nothing_serves_is_to_be_looked_at() -> None:
    finding = one(wishing(), "wish_not_served")
    assert (finding.severity, finding.tags) == ("look", ("L1",))


def test_a_wish_that_is_served_open_or_dropped_is_left_alone() -> None:
    assert not found(wishing(device("E1", 5, 5, 5), served_by=("E1",)), "wish_not_served")
    assert not found(wishing(kept="open"), "wish_not_served")
    assert not found(wishing(kept="dropped"), "wish_not_served")


def test_what_was_retired_serves_no_more() -> None:
    job = wishing(device("E1", 5, 5, 5, retired=TODAY), served_by=("E1",))
    assert "out of use" in one(job, "wish_not_served").says
