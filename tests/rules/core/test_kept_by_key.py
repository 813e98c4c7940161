"""Each sort of keyed query, upon each other, over random changes of a very small job: warm as cold, order included."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Mapping
from typing import Any

import msgspec
import pytest

from store.measure.length import INCH_NM, Length
from store.measure.mass import Mass
from store.records.base import Record
from store.records.field import Ref
from store.records.gate import Check, Closing
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.core.keyed import by_key, filed, from_each, index, of_each, said_by
from store.rules.core.memo import cold, once
from store.rules.core.same import as_before, same
from tests.book.build import TODAY, settings

ENDS = index(Cable, lambda cable: [end for end in (cable.start, cable.end) if end])


@by_key
def places(job: Job) -> Mapping[str, tuple[Any, ...]]:
    """Where boxes are, by box; those on no wall are left out."""
    return {tag: (box.wall, box.x, box.what) for tag, box in job.of(Box).items() if box.wall}


@of_each(Cable)
def reach(job: Job, cable: Cable) -> tuple[Any, ...] | None:
    """The places of both ends; None without a start."""
    if not cable.start:
        return None
    return places(job).get(cable.start), places(job).get(cable.end), len(ENDS(job).get(cable.start, ()))


@filed(Cable, Box)
def on_wall(job: Job, one: Cable | Box) -> Iterator[tuple[str, str]]:
    """What is on each wall."""
    if isinstance(one, Box):
        if one.wall:
            yield one.wall, f"{one.tag} {one.what}"
    else:
        for end in (one.start, one.end):
            if place := places(job).get(end):
                yield place[0], f"{one.tag} {one.type}"


@said_by(Check, Closing)
def signed(one: Check | Closing) -> Iterator[tuple[str, str]]:
    """Items and sign-offs, which may bear one tag, by the tag."""
    yield one.tag, type(one).__name__ + (one.what if isinstance(one, Check) else one.by)


@from_each(Box)
def told(job: Job, box: Box) -> Iterator[str]:
    """What is told of each box."""
    if box.what == "junction" and not ENDS(job).get(box.tag):
        raise ValueError(f"{box.tag} is lost")
    for cable in ENDS(job).get(box.tag, ()):
        yield f"{box.tag} {cable.tag} {reach(job).get(cable.tag)} {on_wall(job).get(box.wall)}"


@once
def walls(job: Job) -> list[str]:
    """All that is on each wall that there is, and what is signed of it."""
    return [
        f"{tag} {on_wall(job).get(tag)} {signed(job).get('Q1')} {'B1' in places(job)} {job.settings.metric}"
        for tag in job.of(Wall)
    ]


@once
def counted(job: Job) -> tuple[Any, ...]:
    """Numbers and keys of whole dictionaries."""
    return len(places(job)), tuple(reach(job)), tuple(signed(job).values()), tuple(on_wall(job).keys())


ASKED: dict[str, Callable[[Job], Any]] = {
    "places": lambda job: list(places(job).items()),
    "reach": lambda job: list(reach(job).items()),
    "on_wall": lambda job: list(on_wall(job).items()),
    "signed": lambda job: list(signed(job).items()),
    "ends": lambda job: list(ENDS(job).items()),
    "told": told,
    "walls": walls,
    "counted": counted,
}


def asked(name: str, job: Job) -> str:
    """What a query says, or what it raises."""
    try:
        return repr(ASKED[name](job))
    except ValueError as error:
        return f"raises {error}"


def some_record(dice: random.Random) -> Record:
    """A record of one of a few tags, with one of a few values each."""
    number, wall = dice.randrange(1, 5), Ref(dice.choice(["W1", "W2", ""]))
    end = [Ref(f"B{dice.randrange(1, 5)}") if dice.random() < 0.8 else Ref("") for _ in range(2)]
    return dice.choice([
        Box(tag=f"B{number}", name="box", what=dice.choice(["switch", "receptacle", "junction"]), wall=wall,
            x=Length(dice.randrange(3) * INCH_NM, metric=dice.random() < 0.5)),
        Cable(tag=f"K{number}", name="run", type=dice.choice(["cat6", "hdmi"]), start=end[0], end=end[1]),
        Check(tag=f"Q{number % 2}", what=dice.choice(["Blocks", "Straps"])),
        Closing(tag=f"Q{number % 2}", outcome="closed", date=TODAY, by=dice.choice(["Ann", "Ben"])),
        Wall(tag=f"W{number % 3}", name="wall"),
        settings(units=dice.choice(["millimetres", "feet-inches"]), owner=dice.choice(["Ann", "Ben"])),
    ])  # fmt: skip


def changed(job: Job, dice: random.Random) -> Job:
    """The job with a record put, put last, or taken away."""
    record, sort = some_record(dice), dice.random()
    table = dict(job.tables.get(record.kind, {}))
    if sort > 0.6 and record.kind != "job":
        table.pop(record.tag, None)
    if sort < 0.8 or record.kind == "job":
        table[record.tag] = record
    return msgspec.structs.replace(job, tables={**job.tables, record.kind: table})


@pytest.mark.parametrize("seed", range(1))
def test_keyed_answers_are_those_of_a_cold_job(seed: int) -> None:
    dice = random.Random(seed)
    job = Job({"job": {"job": settings()}}, today=TODAY)
    seen, before = set(), job
    for _ in range(700):
        job, before = (before, job) if dice.random() < 0.1 else (changed(job, dice), job)
        for name in dice.sample(list(ASKED), dice.randrange(len(ASKED))):
            warm = asked(name, job)
            seen.add((name, warm))
            assert warm == asked(name, cold(job)), name
    assert len(seen) > 500, "the changes are seen in what is told"
    assert any(text.startswith("raises") for _, text in seen)


def test_what_is_the_same_is_told_by_type_unit_and_order() -> None:
    inch, metric = Length(INCH_NM), Length(INCH_NM, metric=True)
    alike = [
        (inch, Length(INCH_NM)),
        (Mass(5), Mass(5)),
        ({"a": [1]}, {"a": [1]}),
        ((inch, "x"), (Length(INCH_NM), "x")),
    ]
    assert [same(*each) for each in alike] == [True] * len(alike)
    others = [
        (inch, metric), (inch, Length(2 * INCH_NM)), (Mass(5), Mass(6)), (Mass(5), Mass(5, metric=True)), (1, True),
        ({"a": 1, "b": 2}, {"b": 2, "a": 1}), ({"a": 1}, {"a": 2}), ({"a": 1}, {"a": 1, "b": 2}), ((1,), (1, 2)),
        ([1, 2], [2, 1]), (0.0, -0.0),
    ]  # fmt: skip
    assert [same(*each) for each in others] == [False] * len(others)


def test_of_a_new_dictionary_what_is_the_same_is_the_old_object() -> None:
    was = {"a": (1, "x"), "b": (2, "y")}
    assert as_before(was, {"a": (1, "x"), "b": (2, "y")}) is was
    now = as_before(was, {"a": (1, "x"), "b": (3, "y")})
    assert (now, now["a"] is was["a"]) == ({"a": (1, "x"), "b": (3, "y")}, True)
    more = as_before(was, {"b": (2, "y"), "c": (4, "z"), "a": (9, "x")})
    assert (list(more.items()), more["b"] is was["b"]) == ([("b", (2, "y")), ("c", (4, "z")), ("a", (9, "x"))], True)
    turned = as_before(was, {"b": (2, "y"), "a": (1, "x")})
    assert (list(turned), turned["a"] is was["a"]) == (["b", "a"], True)
    assert as_before(None, was) is was


def test_several_kinds_are_filed_each_with_its_own_also_where_they_bear_one_tag() -> None:
    by_word = said_by(Check, Closing)(lambda one: [(getattr(one, "what", "") or one.by, one.tag)])
    ours = filed(Check, Closing)(lambda job, one: [(one.tag, type(one).kind)])
    checks = {tag: Check(tag=tag, what=f"item {tag}") for tag in ("Q1", "Q2")}
    signed = {"Q1": Closing(tag="Q1", date=TODAY, by="Ann")}
    job = Job({"job": {"job": settings()}, "check": checks, "closing": signed}, today=TODAY)
    assert dict(by_word(job)) == {"item Q1": ("Q1",), "item Q2": ("Q2",), "Ann": ("Q1",)}
    assert dict(ours(job)) == {"Q1": ("check", "closing"), "Q2": ("check",)}
    apart = msgspec.structs.replace(job, tables={**job.tables, "closing": {}})
    assert dict(by_word(apart)) == {"item Q1": ("Q1",), "item Q2": ("Q2",)}
