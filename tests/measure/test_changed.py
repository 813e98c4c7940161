"""What changed between two sets of kept texts, in words."""

from __future__ import annotations

from store.measure.changed import changed_words
from tests.rows import rows

AT = "B1 at 20 in / 20 in on W1"


@rows(
    ("was", "now", "says"),
    [
        (AT, "B1 at 24 in / 20 in on W1", "B1 moved from 1'-8\" to 2'-0\" from left"),
        (AT, "B1 at 20 in / 11 in on W1", 'B1 moved from 1\'-8" to 11" off the floor'),
        (
            AT,
            "B1 at 24 in / 31 1/2 in on W1",
            "B1 moved from 1'-8\" to 2'-0\" from left and from 1'-8\" to 2'-7 1/2\" off the floor",
        ),
        (
            AT,
            "B1 at 20 in / 20 in on W2",
            "B1 moved from 1'-8\" from left, 1'-8\" off the floor, W1 to 1'-8\" from left, 1'-8\" off the floor, W2",
        ),
        ("B1", AT, "place was B1, is B1 at 1'-8\" from left, 1'-8\" off the floor, W1"),
        (AT, "B2", "place was B1 at 1'-8\" from left, 1'-8\" off the floor, W1, is B2"),
        ("", "B1 at 2 in / 3 in on ", 'place was blank, is B1 at 2" from left, 3" off the floor'),
        (
            f"cat6 from {AT} to B2 at 60 in / 20 in on W1, through studs",
            f"cat6 from {AT} to B2 at 58 in / 20 in on W1, through studs",
            "B2 moved from 5'-0\" to 4'-10\" from left",
        ),
        ("20 in at 30 in / 40 in", "20 in at 32 in / 40 in", "place moved from 2'-6\" to 2'-8\" from left"),
        ("3/4", "1", "place was 3/4, is 1"),
    ],
)
def test_what_moved_is_said_from_where_to_where(was: str, now: str, says: str) -> None:
    assert changed_words({"place": was}, {"place": now}) == says


def test_what_is_alike_is_said_once_and_a_metric_job_reads_millimeters() -> None:
    was, now = {"from": AT, "size": "1", "to": "B2"}, {"from": AT.replace("20 in on", "508 mm on"), "to": "B2"}
    moved = {"from": AT.replace("20 in /", "24 in /"), "place": AT.replace("20 in /", "24 in /"), "size": "2"}
    told = changed_words({**was, "place": AT}, {**moved, "to": "B2"}, True)
    assert told == "B1 moved from 508 mm to ~610 mm from left; size was 1, is 2"
    assert changed_words(was, was) == ""
    assert changed_words(was, now).startswith("B1 moved from 20 in to 508 mm off the floor; size was 1, is blank")
