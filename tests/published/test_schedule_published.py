"""The order of the work against printed networks, and the sums of the trade."""

from __future__ import annotations

from datetime import date

from msgspec.structs import replace

from store.trade.money.sums import share_of, with_holdback
from store.trade.schedule.critical_path import Schedule, Step, plan, slip
from store.trade.schedule.working_days import EVERY_DAY, WorkWeek
from tests.rows import rows

DAY_0 = date(2024, 1, 1)
ALWAYS = WorkWeek(weekdays=EVERY_DAY)


def network(rows: str) -> list[Step]:
    """Read 'key days predecessors' lines."""
    steps = []
    for row in rows.strip().splitlines():
        key, days, *before = row.split()
        steps.append(Step(key=key, days=int(days), after=tuple(before), week=ALWAYS))
    return steps


def figures(schedule: Schedule, key: str) -> tuple[int, int, int, int, int, int]:
    """Return ES, EF, LS, LF, total and free float of a step as the books print them: EF is ES + duration."""
    one = schedule.step(key)
    return (
        (one.start - DAY_0).days,
        (one.finish - DAY_0).days + 1,
        (one.late_start - DAY_0).days,
        (one.late_finish - DAY_0).days + 1,
        one.total_float,
        one.free_float,
    )


# Hendrickson, Project Management for Construction, chapter 10, the nine-activity project: names, durations and
# predecessors as printed; times by the method of the same chapter.
NINE = network("""
A 4
B 3
C 8 A
D 7 A
E 9 B C
F 12 B C
G 2 D E
H 5 D E
I 6 F G
""")


@rows(
    ("key", "printed"),
    [
        ("A", (0, 4, 0, 4, 0, 0)),
        ("B", (0, 3, 9, 12, 9, 9)),
        ("C", (4, 12, 4, 12, 0, 0)),
        ("D", (4, 11, 15, 22, 11, 10)),
        ("E", (12, 21, 13, 22, 1, 0)),
        ("F", (12, 24, 12, 24, 0, 0)),
        ("G", (21, 23, 22, 24, 1, 1)),
        ("H", (21, 26, 25, 30, 4, 4)),
        ("I", (24, 30, 24, 30, 0, 0)),
    ],
)
def test_nine_activities(key: str, printed: tuple[int, ...]) -> None:
    """Source: Hendrickson, Project Management for Construction, ch. 10."""
    assert figures(plan(NINE, DAY_0), key) == printed


def test_nine_activities_take_thirty_days_along_a_c_f_i() -> None:
    """Source: Hendrickson, ch. 10: finish 30; the critical path from memory."""
    schedule = plan(NINE, DAY_0)
    assert (schedule.finish - DAY_0).days + 1 == 30
    assert schedule.chain == ("A", "C", "F", "I")
    assert {one.key for one in schedule.steps if one.critical} == {"A", "C", "F", "I"}


def test_float_by_its_definition() -> None:
    """A navy training manual's worked figures: ES 3 and LS 5 make a total float of 2; EF 10 and the next ES 11
    make a free float of 1. A network is built here in which a step has just these."""
    schedule = plan(
        network("""
        before 3
        step 7 before
        beside 11
        next 5 beside step
        long 17
        """),
        DAY_0,
    )
    early, finish, _late, _late_finish, total, free = figures(schedule, "step")
    assert (early, finish, figures(schedule, "next")[0], free) == (3, 10, 11, 1)
    assert (_late, total) == (5, 2)


# A room of our own; durations invented, times computed by hand.
ROOM = network("""
survey 1
order 1 survey
delivery 10 order
demo 1 survey
frame 2 demo
line-rough 1 frame
low-rough 1 line-rough
inspection 1 line-rough low-rough
insulation 1 inspection
board 1 insulation
tape 1 board
second 1 tape
third 1 second
paint 2 third
cabinet 2 paint delivery
devices 1 paint
screen 1 cabinet devices
record 1 screen
""")


def test_a_room_takes_eighteen_days_and_three_steps_have_float() -> None:
    """Computed by hand."""
    schedule = plan(ROOM, DAY_0)
    assert (schedule.finish - DAY_0).days + 1 == 18
    floats = {one.key: (one.total_float, one.free_float) for one in schedule.steps if not one.critical}
    assert floats == {"order": (2, 0), "delivery": (2, 2), "devices": (1, 1)}


def test_three_days_more_of_delivery_cost_one_and_turn_the_chain() -> None:
    """Computed by hand: a delivery of 13 days makes 19, and the order decides."""
    assert slip(ROOM, "delivery", 3, DAY_0).end_moves_days == 1
    late = [replace(one, days=13) if one.key == "delivery" else one for one in ROOM]
    schedule = plan(late, DAY_0)
    assert (schedule.finish - DAY_0).days + 1 == 19
    assert schedule.chain == ("survey", "order", "delivery", "cabinet", "screen", "record")


def test_holdback_and_contingency() -> None:
    """Computed; the shares are common practice: 10 % of 8000 held back, 10, 15 and 20 % in reserve."""
    assert with_holdback(800_000, 10) == (720_000, 80_000)
    assert [share_of(800_000, percent) for percent in (10, 15, 20)] == [80_000, 120_000, 160_000]
