"""The order of a walk: along the wall from the left, at each place as the work is done; or trade after trade."""

from __future__ import annotations

from store.records.field import Ref
from store.records.gate import Check
from store.records.wall import Wall
from store.records.wiring import Box, Cable
from store.rules.agenda.walk_order import ORDERS, subject_of, walk_order
from store.rules.core.checks import items
from tests.book.build import NO_PERMIT
from tests.jobs.power_case import job_of, make
from tests.rules.core.edits import starter

WALLS = (make(Wall, "W1", name="North"), make(Wall, "W2", name="East"))
NEAR = make(Box, "B2", name="near", what="low-voltage", wall=Ref("W1"), x="20", y="15")
FAR = make(Box, "B1", name="far", what="receptacle", wall=Ref("W1"), x="100", y="15")
OTHER = make(Box, "B3", name="other wall", what="receptacle", wall=Ref("W2"), x="5", y="15")


def test_along_the_wall_from_the_left_and_wall_after_wall() -> None:
    job = job_of(*WALLS, FAR, NEAR, OTHER, make(Check, "Q1", what="anywhere", trade="owner"), **NO_PERMIT)
    order = [key.partition("/")[0] for key in walk_order(job, "along the wall") if key[0] in "BQ"]
    assert list(dict.fromkeys(order)) == ["B2", "B1", "B3", "Q1"]


def test_at_one_place_the_box_is_set_before_the_cable_is_pulled_and_tested() -> None:
    cable = make(Cable, "K1", name="feed", type="nm-12-2", start=Ref("B1"), end=Ref("B2"))
    order = walk_order(job_of(*WALLS, FAR, NEAR, cable, **NO_PERMIT), "along the wall")
    cables = [key for key in order if key.startswith("K1/")]
    assert cables.index("K1/pulled") < cables.index("K1/labelled") < cables.index("K1/tested")
    boxes = [key for key in order if key.startswith("B2/")]
    assert boxes[0] == "B2/set"
    # The leftmost end of a run says where it is walked.
    assert order.index("K1/pulled") < order.index("B1/set")


def test_by_trade_no_trade_is_come_back_to() -> None:
    job = starter()
    trades = {each.key: each.check.trade for each in items(job)}
    walked = [trades[key] for key in walk_order(job, "by trade")]
    assert len(list(dict.fromkeys(walked))) == sum(a != b for a, b in zip(walked, ["", *walked[:-1]], strict=True))


def test_each_order_has_every_item_once_and_the_inspection_sees_all_the_rest() -> None:
    job = starter()
    keys = sorted(each.key for each in items(job))
    for by in ORDERS:
        assert sorted(walk_order(job, by)) == keys
    assert walk_order(job, "along the wall")[-1] == "job/inspection"


def test_the_thing_that_an_item_is_about_is_no_item() -> None:
    job = starter()
    known = {each.key: each for each in items(job)}
    assert subject_of(job, known["K3/photographed"]) == "K3"
    assert not subject_of(job, known["Q1"]).startswith("Q")
