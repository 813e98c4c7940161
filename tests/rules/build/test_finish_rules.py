"""Finishes by zone, like stone on a chimney breast: what box, screw, scribe, heater and board take from them."""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.length import INCH_NM
from store.records.wall import BuildOut, Zone
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.checks import rough_in
from store.rules.wall.finishes import finish_at
from tests.jobs.wall_jobs import ROOM, figure, found, job_of, made, one, opening, wall


def stone(**values: Any) -> Zone:
    """Ledge stone over the middle of the wall, 2 in thick with its board, from 42 to 102 in and up to 60 in."""
    given = {"name": "Ledge stone", "wall": "W1", "x": 42, "y": 0, "width": 60, "height": 60, "thickness": 2, **values}
    return made(Zone, "Z1", **given)


def box(tag: str, x: float, y: float, **values: Any) -> Box:
    """A receptacle on W1."""
    return made(Box, tag, what="receptacle", wall="W1", x=x, y=y, **values)


def with_stone(*more: Any, **values: Any) -> Job:
    return job_of(*ROOM, stone(**values), *more)


def test_the_finish_follows_the_zone_and_the_smaller_one_within_another() -> None:
    hearth = made(Zone, "Z2", name="slate", wall="W1", x=50, y=0, width=20, height=20, thickness=1, burns="no")
    job = with_stone(hearth, box("B1", 72, 30), box("B2", 60, 10), box("B3", 20, 30), burns="no")
    assert [(finish_at(job, tag).thickness_nm / INCH_NM, finish_at(job, tag).zone) for tag in ("B1", "B2", "B3")] == [
        (2, "Z1"), (1, "Z2"), (0.5, ""),
    ]  # fmt: skip


def test_a_zone_on_a_build_out_is_not_the_wall_beside_it() -> None:
    breast = made(BuildOut, "U1", name="Breast", wall="W1", x=42, width=60, depth=24)
    job = with_stone(breast, box("B1", 72, 30), box("B2", 72, 30, face="wall"), face="front", on="U1")
    assert finish_at(job, "B1").zone == "Z1"
    assert finish_at(job, "B2").zone == ""


def test_the_depth_of_a_box_is_that_of_the_zone() -> None:
    checks = {each.key: each for each in rough_in(with_stone(box("B1", 72, 30), box("B2", 20, 30)))}
    assert checks["B1/depth"].vouches["finish"] == "2 in"
    assert checks["B2/depth"].vouches["finish"] == "1/2 in"


def test_wood_over_part_of_the_wall_wants_its_boxes_flush() -> None:
    """1/8 in back: allowed in drywall that does not burn, not in wood."""
    back = {"setback": made(Zone, "Z9", name="-", wall="W1", x=0, y=0, width=1, height=1, thickness=0.125).thickness}
    assert not found(with_stone(box("B1", 72, 30, **back), burns="no"), "box_set_too_deep")
    assert one(with_stone(box("B1", 72, 30, **back), burns="yes"), "box_set_too_deep").tags == ("B1",)
    assert one(with_stone(box("B1", 72, 30, **back)), "box_in_unknown_surface").remedy.count("Z1") == 1


def test_a_box_on_the_edge_of_the_stone() -> None:
    """A plate 2-1/4 in wide about 42 in is half on it; about 43-1/8 in it is wholly on it."""
    assert one(with_stone(box("B1", 42, 30)), "box_on_finish_edge").numbers["step"] == '1 1/2"'
    assert not found(with_stone(box("B1", 43.125, 30)), "box_on_finish_edge")
    assert not found(with_stone(box("B1", 40.8, 30)), "box_on_finish_edge")


@pytest.mark.parametrize(("scribe", "told"), [(None, True), (1.4375, True), (1.5, False)])
def test_a_cabinet_across_the_edge_is_scribed_to_the_step(scribe: float | None, told: bool) -> None:
    cabinet = opening("N1", 30, 10, 30, 20, thickness=0.75, use="equipment", depth=3)
    job = job_of(wall(scribe=scribe), *ROOM[1:], stone(), cabinet)
    assert bool(found(job, "scribe_to_finish")) is told
    beside = opening("N1", 12, 10, 30, 20, thickness=0.75, use="equipment", depth=3)
    assert not found(job.having(beside), "scribe_to_finish")


@pytest.mark.parametrize(
    ("weight", "backing", "told"),
    [
        (6.5, "drywall", False), (6.6, "drywall", True), (6.6, "cement board", False), (15.0, "cement board", False),
        (15.5, "cement board", True),
    ],
)  # fmt: skip
def test_weight_against_what_it_is_put_on(weight: float, backing: str, told: bool) -> None:
    job = with_stone(weight=weight, backing=backing)
    assert bool(found(job, "finish_too_heavy")) is told


def test_area_weight_and_backer_of_a_zone() -> None:
    """60 x 60 in: 25 ft²; at 12 lb 300 lb; of cement board 25 x 1.1 / 15: two sheets."""
    job = job_of(wall(first_stud=16), *ROOM[1:], stone(weight=12.0, backing="cement board"))
    assert figure(job, "Z1", "finish_area") == "25 ft²"
    assert figure(job, "Z1", "finish_weight") == "300 lb"


def test_past_the_face_and_two_on_each_other() -> None:
    assert not found(with_stone(height=96), "finish_past_edge")
    assert found(with_stone(height=97), "finish_past_edge")
    beside = made(Zone, "Z2", name="wood", wall="W1", x=90, y=10, width=30, height=20, thickness=1)
    assert one(with_stone(beside), "finishes_overlap").tags == ("Z1", "Z2")
    within = made(Zone, "Z2", name="wood", wall="W1", x=50, y=10, width=30, height=20, thickness=1)
    assert not found(with_stone(within), "finishes_overlap")
