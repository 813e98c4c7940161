"""What has to come out before a piece that stands on a shelf, or on other equipment, comes out."""

from __future__ import annotations

from store.rules.access.steps import in_front, reach
from tests.jobs.wall_jobs import ROOM, board, device, job_of, opening


def test_only_what_is_on_top_of_a_piece_comes_out_before_it() -> None:
    """E2 is on E1, E3 beside them on the bottom, E4 nobody said where: it may be in front of either."""
    job = job_of(
        *ROOM, opening("N1", 20, 10, 50, 30, thickness=0.75, use="equipment"), board("G1", 12),
        device("E1", 17, 5, 12, stands_on="G1"), device("E2", 6, 2, 6, stands_on="E1"),
        device("E3", 12, 4, 10, stands_on="N1"), device("E4", 5, 2, 5),
    )  # fmt: skip
    assert in_front(job, "N1", "E1") == ("E2", "E4")
    assert in_front(job, "N1", "E2") == ("E4",)
    assert reach(job, "E3").first == ("E4",)
    assert in_front(job, "N1", "E4") == ("E1", "E2", "E3")
