"""Answers stand as long as what they were made from, and not a moment longer."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import date, timedelta
from typing import Any

import msgspec
import pytest

from store.measure.length import INCH_NM, Length
from store.records.base import Record
from store.records.field import Ref
from store.records.wall import Wall
from store.records.whole import Job, Outside, Removed
from store.records.wiring import Box, Cable
from store.rules.core.keyed import from_each, index, of_each
from store.rules.core.memo import SWEEP, Cycle, Engine, cold, once
from store.rules.core.same import same
from store.rules.core.view import MOST_READ
from tests.book.build import TODAY, settings
from tests.rows import rows

ENDS = index(Cable, lambda cable: (cable.start, cable.end))


def job_of(*records: Record, **given: Any) -> Job:
    """A job of these records."""
    tables: dict[str, dict[str, Record]] = {"job": {"job": settings()}}
    for each in records:
        tables.setdefault(each.kind, {})[each.tag] = each
    return Job(tables, **{"today": TODAY, **given})


def put(job: Job, *records: Record) -> Job:
    """The job with these records put in place."""
    for each in records:
        job = job.having(each)
    return job


def wall(tag: str = "W1", **given: Any) -> Wall:
    """A wall."""
    return Wall(**{"tag": tag, "name": f"wall {tag}", **given})


def cable(tag: str, start: str = "B1", end: str = "B2") -> Cable:
    """A cable from box to box."""
    return Cable(tag=tag, name=tag, type="cat6", start=Ref(start), end=Ref(end))


WALLS = job_of(wall("W1"), wall("W2"))


class Counted:
    """A query, and how often it was worked out."""

    def __init__(self, ask: Callable[[Job], Any]) -> None:
        self.runs = 0

        def counted(job: Job) -> Any:
            self.runs += 1
            return ask(job)

        self.ask = once(counted)

    def again(self, job: Job) -> bool:
        """True when asking of this job works it out again."""
        before = self.runs
        self.ask(job)
        return self.runs > before


def test_asked_twice_it_is_worked_out_once() -> None:
    names = Counted(lambda job: [each.name for each in job.of(Wall).values()])
    assert names.ask(WALLS) == ["wall W1", "wall W2"]
    assert names.ask(WALLS) == ["wall W1", "wall W2"]
    assert names.runs == 1


def test_a_copy_of_the_job_works_nothing_out() -> None:
    names = Counted(lambda job: [each.name for each in job.of(Wall).values()])
    names.ask(WALLS)
    assert not names.again(msgspec.structs.replace(WALLS))


READS: dict[str, tuple[Callable[[Job], Any], Job, Job]] = {
    "a record": (lambda job: job.of(Wall)["W1"], put(WALLS, wall("W1", name="x")), put(WALLS, wall("W2", name="x"))),
    "by its tag": (lambda job: job.get("W1"), put(WALLS, wall("W1", name="x")), put(WALLS, wall("W2", name="x"))),
    "that it is not there": (lambda job: "W3" in job.of(Wall), put(WALLS, wall("W3")), put(WALLS, wall("W4"))),
    "the tags": (lambda job: list(job.of(Wall)), put(WALLS, wall("W3")), put(WALLS, wall("W1", name="x"))),
    "how many": (lambda job: len(job.of(Wall)), put(WALLS, wall("W3")), put(WALLS, wall("W1", name="x"))),
    "whether any": (lambda job: bool(job.of(Cable)), put(WALLS, cable("K1")), put(WALLS, wall("W3"))),
    "their order": (lambda job: list(job.of(Wall).keys()), job_of(wall("W2"), wall("W1")), put(WALLS, wall("W1"))),
    "all records": (lambda job: [*job.of(Wall).items()], put(WALLS, wall("W2", name="x")), put(WALLS, cable("K1"))),
    "a table": (lambda job: [*job.tables["wall"].values()], put(WALLS, wall("W2", name="x")), put(WALLS, cable("K1"))),
    "the settings": (
        lambda job: job.settings.units, put(WALLS, settings(units="millimetres")), put(WALLS, wall("W3")),
    ),
    "the manner": (
        lambda job: job.manner.metric, put(WALLS, settings(units="millimetres")), put(WALLS, wall("W3")),
    ),
    "the day": (
        lambda job: job.today, msgspec.structs.replace(WALLS, today=TODAY + timedelta(1)), put(WALLS, wall("W3")),
    ),
    "what was done outside": (
        lambda job: job.outside, msgspec.structs.replace(WALLS, outside=(Outside("wall", "W1", "added"),)),
        put(WALLS, wall("W3")),
    ),
    "what was taken off": (
        lambda job: job.removed, msgspec.structs.replace(WALLS, removed=(Removed("Q1", "", "", "", ""),)),
        put(WALLS, wall("W3")),
    ),
    "the numbers of changes": (
        lambda job: job.marks.get("W1"), msgspec.structs.replace(WALLS, marks={"W1": 2}), put(WALLS, wall("W3")),
    ),
    "which tables there are": (lambda job: list(job.tables), put(WALLS, cable("K1")), msgspec.structs.replace(WALLS)),
    "every record": (
        lambda job: [each.tag for each in job.each()], put(WALLS, cable("K1")), msgspec.structs.replace(WALLS),
    ),
    "who names it": (
        lambda job: ENDS(job).get("B1", ()), put(WALLS, cable("K1", "B1", "B2")), put(WALLS, cable("K1", "B3", "B2")),
    ),
}  # fmt: skip


@rows("what", READS)
def test_what_is_read_is_noted_and_no_more(what: str) -> None:
    ask, other, alike = READS[what]
    query = Counted(ask)
    query.ask(WALLS)
    assert not query.again(alike)
    query.ask(WALLS)
    assert query.again(other)
    assert query.ask(other) == ask(other)


def test_many_records_read_one_by_one_are_still_noted() -> None:
    walls = [wall(f"W{number}") for number in range(1, 3 * MOST_READ)]
    job = job_of(*walls)
    names = Counted(lambda job: [job.of(Wall)[each.tag].name for each in walls])
    names.ask(job)
    for each in (walls[0], walls[MOST_READ], walls[-1]):
        assert names.again(put(job, msgspec.structs.replace(each, name="other")))


def test_an_answer_that_is_the_same_stops_the_spread() -> None:
    metric = once(lambda job: job.settings.metric)
    words = Counted(lambda job: "mm" if metric(job) else "in")
    words.ask(WALLS)
    assert not words.again(put(WALLS, settings(room="hall")))
    assert words.again(put(WALLS, settings(units="millimetres")))


def test_what_says_the_same_through_many_edits_spreads_none_and_what_is_gone_is_let_go() -> None:
    names = once(lambda job: tuple(each.name for each in job.of(Wall).values()))
    user = Counted(lambda job: names(job))
    for number in range(4):
        user.ask(put(WALLS, wall("W1", notes=f"once more {number}")))
    assert user.runs == 1
    named = once(lambda job, tag: job.of(Wall)[tag].name)
    engine = Engine()
    for number in range(3 * SWEEP):
        view: Any = engine.look(put(WALLS, wall(f"W{number + 9}")))
        assert named(view, f"W{number + 9}")
    assert max(map(len, engine.nodes.values())) <= 2 * SWEEP + 1


def test_what_an_answer_came_to_stand_on_meanwhile_counts_for_those_who_asked() -> None:
    """The first query reads another table after its first change, and says the same: its asker stands on both."""
    first = once(lambda job: len(job.of(Box)) if job.get("W3") is None else len(job.of(Cable)))
    asker = Counted(lambda job: first(job) + 1)
    assert asker.ask(WALLS) == 1
    later = put(WALLS, wall("W3"))
    assert not asker.again(later)
    assert asker.ask(put(later, cable("K1"))) == 2


def _both(job: Job) -> tuple[object, int]:
    return _first(job), _second(job)


_first = once(lambda job: ENDS(job).get("B1", ()) if job.get("W3") is None else job.of(Wall)["W3"].name)
_second = once(lambda job: len(ENDS(job)))


@pytest.mark.parametrize(
    "asker",
    [once(_both), of_each(Wall)(lambda job, one: _first(job) if one.tag == "W1" else str(_second(job)))],
    ids=["of the job", "of each record"],
)
def test_who_looked_somewhere_once_and_is_told_of_it_in_vain_still_tells_others(asker: Callable[[Job], Any]) -> None:
    """The first query looks at an index no more. The second has it made again, and that tells the first of it."""
    looks = put(WALLS, cable("K1"))
    no_more = put(looks, wall("W3"))
    told_in_vain = put(no_more, wall("W3", name="one"), cable("K1", "B3"))
    for job in (looks, no_more, told_in_vain, put(told_in_vain, wall("W3", name="two"))):
        assert asker(job) == asker(cold(job))


def test_a_former_job_is_answered_as_it_was() -> None:
    names = Counted(lambda job: [each.name for each in job.of(Wall).values()])
    renamed = put(WALLS, wall("W1", name="other"))
    for _ in range(3):
        assert names.ask(WALLS) == ["wall W1", "wall W2"]
        assert names.ask(renamed) == ["other", "wall W2"]


def test_keys_have_an_answer_each() -> None:
    runs: list[str] = []

    @once
    def name_of(job: Job, tag: str) -> str:
        runs.append(tag)
        return job.of(Wall)[tag].name

    assert (name_of(WALLS, "W1"), name_of(WALLS, "W2")) == ("wall W1", "wall W2")
    assert name_of(put(WALLS, wall("W2", name="other")), "W1") == "wall W1"
    assert name_of(put(WALLS, wall("W2", name="other")), "W2") == "other"
    assert runs == ["W1", "W2", "W2"]


def test_of_each_record_that_has_something_to_say() -> None:
    runs: list[str] = []

    @of_each(Wall)
    def bearing(job: Job, one: Wall) -> str | None:
        """What it carries."""
        runs.append(one.tag)
        return None if one.bearing == "unknown" else one.bearing

    job = put(WALLS, wall("W2", bearing="yes"))
    assert bearing(job) == {"W2": "yes"}
    assert (bearing.one(job, "W1"), bearing.one(job, "W2"), bearing.one(job, "W9")) == (None, "yes", None)
    after = put(job, wall("W1", bearing="no"))
    assert list(bearing(after).items()) == [("W1", "no"), ("W2", "yes")]
    assert runs == ["W1", "W2", "W1"]
    assert bearing.__doc__ == "What it carries."


def test_from_each_record_all_that_it_gives() -> None:
    @from_each(Wall)
    def letters(job: Job, one: Wall) -> Iterator[str]:
        yield from (one.tag, one.name) if one.bearing == "yes" else ()

    assert letters(put(WALLS, wall("W2", bearing="yes"))) == ("W2", "wall W2")


def test_a_query_that_asks_for_itself_is_told() -> None:
    @once
    def one(job: Job) -> int:
        return other(job)

    @once
    def other(job: Job) -> int:
        return one(job)

    with pytest.raises(Cycle, match="one"):
        one(WALLS)


def test_an_error_goes_when_what_was_read_changes_also_for_who_caught_it() -> None:
    @once
    def first(job: Job) -> str:
        return job.of(Wall)["W3"].name

    def guarded(job: Job) -> str:
        try:
            return first(job)
        except KeyError:
            return "none"

    caught = Counted(guarded)
    with pytest.raises(KeyError):
        first(WALLS)
    assert caught.ask(WALLS) == "none"
    assert not caught.again(put(WALLS, wall("W1", name="x")))
    there = put(WALLS, wall("W3"))
    assert first(there) == "wall W3"
    assert caught.ask(there) == "wall W3"


def test_a_job_that_a_query_made_up_is_asked_apart() -> None:
    names = once(lambda job: [each.name for each in job.of(Wall).values()])
    with_third = Counted(lambda job: (names(job.having(wall("W3"))), names(job)))
    assert with_third.ask(WALLS) == (["wall W1", "wall W2", "wall W3"], ["wall W1", "wall W2"])
    assert with_third.ask(put(WALLS, wall("W1", name="x"))) == (["x", "wall W2", "wall W3"], ["x", "wall W2"])


def test_cold_keeps_nothing_of_before() -> None:
    names = Counted(lambda job: [each.name for each in job.of(Wall).values()])
    names.ask(WALLS)
    anew = cold(WALLS)
    assert names.again(anew)
    assert not names.again(anew)
    assert not names.again(WALLS)


def test_threads_get_answers_of_their_own_job() -> None:
    names = once(lambda job: tuple(each.name for each in job.of(Wall).values()))
    jobs = [put(WALLS, wall("W1", name=f"name {number}")) for number in range(8)]
    with ThreadPoolExecutor(4) as pool:
        found = list(pool.map(lambda job: [names(job)[0] for _ in range(50)], jobs))
    assert found == [[f"name {number}"] * 50 for number in range(8)]


class Pair(msgspec.Struct, frozen=True):
    """Two of something."""

    one: Any
    other: Any


LIKE: list[tuple[Any, Any, bool]] = [
    (Length(INCH_NM), Length(INCH_NM), True),
    (Length(INCH_NM), Length(INCH_NM, metric=True), False),
    (1, True, False),
    (1.0, 1, False),
    (0.0, -0.0, False),
    (float("nan"), float("nan"), True),
    ({"a": 1, "b": 2}, {"b": 2, "a": 1}, False),
    ({"a": 1, "b": 2}, {"a": 1, "b": 2}, True),
    ((1, [2]), (1, [2]), True),
    ((1, 2), [1, 2], False),
    (Pair(1, Length(INCH_NM)), Pair(1, Length(INCH_NM, metric=True)), False),
    (Pair(1, "x"), Pair(1, "x"), True),
    (date(2026, 1, 1), date(2026, 1, 1), True),
    (None, 0, False),
    (object(), object(), False),
]


@rows(("one", "other", "alike"), LIKE)
def test_the_same_is_what_nobody_could_tell_apart(one: Any, other: Any, alike: bool) -> None:
    assert same(one, other) is alike


def test_settings_are_read_field_by_field() -> None:
    units = Counted(lambda job: job.settings.metric)
    manner = Counted(lambda job: job.manner)
    table = Counted(lambda job: job.of(type(settings()))["job"].owner)
    job = job_of(wall())
    assert (units.ask(job), manner.ask(job).metric, table.ask(job)) == (False, False, settings().owner)
    owned = put(job, settings(owner="Robin"))
    assert [each.again(owned) for each in (units, manner, table)] == [False, False, True]
    assert table.ask(owned) == "Robin"
    dollars = put(owned, settings(owner="Robin", currency="EUR"))
    assert [each.again(dollars) for each in (units, manner)] == [False, True]
    assert manner.ask(dollars).currency == "EUR"
    metric = put(dollars, settings(units="millimetres"))
    assert [each.again(metric) for each in (units, manner)] == [True, True]
    assert units.ask(metric)


def test_settings_that_come_or_go_are_noticed() -> None:
    named = Counted(lambda job: job.settings.name if job.of(type(settings())) else "")
    job, without = job_of(wall()), Job({"wall": {"W1": wall()}}, today=TODAY)
    assert (named.ask(job), named.ask(without), named.ask(job)) == (settings().name, "", settings().name)
