"""Printed networks, entered as records of a job, give the printed times."""

from __future__ import annotations

from datetime import date, timedelta

from store.records.people import Contact, Step
from store.records.whole import Job
from store.rules.core.figures import figures
from store.rules.schedule.calendar import calendar
from tests.jobs.order_jobs import job_of
from tests.rows import rows

DAY_0 = date(2026, 11, 2)


def job(rows: str) -> Job:
    """Read 'number days predecessors' lines; everybody works every day."""
    steps = []
    for row in rows.strip().splitlines():
        number, days, *before = row.split()
        after = tuple(f"S{one}" for one in before)
        steps.append(Step(tag=f"S{number}", what=f"activity {number}", days=float(days), after=after, who="T1"))  # type: ignore[arg-type]
    return job_of(Contact(tag="T1", name="Crew", trade="other", week="every day"), *steps, today=DAY_0)


# Hendrickson, Project Management for Construction, chapter 10, the nine-activity project (A to I are 1 to 9).
NINE = "1 4\n2 3\n3 8 1\n4 7 1\n5 9 2 3\n6 12 2 3\n7 2 4 5\n8 5 4 5\n9 6 6 7"
PRINTED = {
    1: (0, 4, 0, 4, 0, 0), 2: (0, 3, 9, 12, 9, 9), 3: (4, 12, 4, 12, 0, 0), 4: (4, 11, 15, 22, 11, 10),
    5: (12, 21, 13, 22, 1, 0), 6: (12, 24, 12, 24, 0, 0), 7: (21, 23, 22, 24, 1, 1), 8: (21, 26, 25, 30, 4, 4),
    9: (24, 30, 24, 30, 0, 0),
}  # fmt: skip


@rows(("number", "printed"), PRINTED.items())
def test_nine_activities(number: int, printed: tuple[int, ...]) -> None:
    """Source: Hendrickson, Project Management for Construction, ch. 10: ES, EF, LS, LF, total and free float."""
    named = figures(job(NINE))[f"S{number}"]
    days = [(date.fromisoformat(named[key]) - DAY_0).days for key in ("start", "finish", "late_start", "late_finish")]
    got = (days[0], days[1] + 1, days[2], days[3] + 1, named["float_days"], named["free_float_days"])
    assert got == printed


def test_nine_activities_take_thirty_days_along_a_c_f_i() -> None:
    """Source: Hendrickson, ch. 10: finish 30; the critical path from memory."""
    found = figures(job(NINE))["job"]
    assert date.fromisoformat(found["schedule_finish"]) == DAY_0 + timedelta(days=29)
    assert found["critical_chain"] == ["S1", "S3", "S6", "S9"]


# An example of our own: a media wall in eighteen steps, invented durations, calculated by hand.
ROOM = """
1 1
2 1 1
3 10 2
4 1 1
5 2 4
6 1 5
7 1 6
8 1 6 7
9 1 8
10 1 9
11 1 10
12 1 11
13 1 12
14 2 13
15 2 14 3
16 1 14
17 1 15 16
18 1 17
"""


def test_the_room_takes_eighteen_days_and_the_delivery_has_two_to_spare() -> None:
    dated = calendar(job(ROOM)).dated
    assert calendar(job(ROOM)).schedule.finish == DAY_0 + timedelta(days=17)
    floats = {tag: (one.total_float, one.free_float) for tag, one in dated.items() if one.total_float}
    assert floats == {"S2": (2, 0), "S3": (2, 2), "S16": (1, 1)}


def test_a_delivery_of_thirteen_days_decides_the_end() -> None:
    late = calendar(job(ROOM.replace("3 10 2", "3 13 2")))
    assert late.schedule.finish == DAY_0 + timedelta(days=18)
    assert late.schedule.chain == ("S1", "S2", "S3", "S15", "S17", "S18")
