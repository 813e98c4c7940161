"""Furniture where something else is already, along the wall, up and out from it; figures by hand."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from store.records.equipment import Equipment
from store.records.room import Furniture
from store.records.wall import BuildOut, Wall
from store.records.whole import Job
from tests.jobs.wall_jobs import ROOM, found, job_of, made, opening
from tests.rows import rows


def room(*records: Any, **table: Any) -> Job:
    """A cabinet 16 deep from 20 to 60; a breast 12 deep from 100; a TV 3 deep, 60 to 88 up; a table 30 high."""
    given = {"wall": "W1", "x": 30, "width": 20, "depth": 14, "height": 30, "off": 16, **table}
    return job_of(
        *ROOM, opening("N1", 20, 6, 40, 24, depth=16, thickness=0.75, use="equipment"),
        made(BuildOut, "U1", name="Breast", wall="W1", x=100, width=40, depth=12),
        made(Equipment, "E1", name="TV", what="screen", wall="W1", x=40, y=74, width=48, height=28, depth=3),
        made(Furniture, "J1", name="Table", **given), *records,
    )  # fmt: skip


@rows(
    ("table", "told"),
    [
        ({}, ()), ({"off": 15.5}, ("N1",)), ({"off": 0, "x": 60}, ()), ({"off": 0, "x": 59}, ("N1",)),
        ({"off": 0, "y": 30, "height": 10}, ()), ({"off": 0, "y": 29, "height": 10}, ("N1",)),
        ({"x": 90, "off": 11}, ("U1",)), ({"x": 90, "off": 12}, ()), ({"x": 80, "off": 0}, ()),
        ({"off": 2, "y": 30, "height": 40}, ("E1",)), ({"off": 3, "y": 30, "height": 40}, ()),
        ({"off": 0, "height": 70}, ("N1", "E1")),
    ],
)  # fmt: skip
def test_what_comes_out_of_the_wall_is_in_the_way_of_furniture(table: Any, told: tuple[str, ...]) -> None:
    said = found(room(**table), "furniture_in_the_wall_work")
    assert [each.tags for each in said] == ([("J1", *told)] if told else [])


def test_of_two_pieces_in_one_place_the_later_is_told() -> None:
    other = made(Furniture, "J2", name="Chair", wall="W1", x=45, width=18, depth=18, height=34, off=29)
    (told,) = found(room(other), "furniture_in_the_wall_work")
    assert told.tags == ("J2", "J1")
    # The table ends 16 + 14 = 30 from the wall, the chair begins at 29.
    assert '1"' in told.do


@pytest.mark.parametrize(("x", "over"), [(124, ""), (125, '1"')])
def test_past_an_inside_corner_is_the_wall_beside(x: float, over: str) -> None:
    """20 wide before a wall of 144; round an outside corner nothing is in its way."""
    job = room(x=x, off=40)
    assert [each.numbers["over"] for each in found(job, "furniture_past_the_corner")] == ([over] if over else [])
    outside = job.having(msgspec.structs.replace(job.of(Wall)["W1"], right_corner="outside"))
    assert not found(outside, "furniture_past_the_corner")
