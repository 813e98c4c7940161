"""A first plan for any wall: it tells by how much it does not fit, or it is inside the wall and dangerous nowhere."""

from __future__ import annotations

from datetime import date

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM, Length
from store.measure.terms import TERMS
from store.records.access import Panel
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.wall import Opening, Reading, Wall
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.core.findings import findings
from store.rules.core.proposed import proposals
from store.rules.first_plan.layout import MM_NM, Asked, lay_out, off_studs
from store.rules.first_plan.plan import Plan, first_plan
from store.rules.gate.gate import _holds, standing
from store.rules.wall.readings import Size, sizes
from store.trade.screen.seat import sight
from tests.tries import tries

METRIC = Asked(
    region="metric", width_nm=3600 * MM_NM, height_nm=2400 * MM_NM, depth_nm=550 * MM_NM, fireplace_nm=1270 * MM_NM,
    seat_nm=3000 * MM_NM, eye_nm=1070 * MM_NM,
)  # fmt: skip
HALF_BOX_NM = 9 * INCH_NM // 8
"""Half of a box of one gang, 2-1/4 in wide."""


def job_of(plan: Plan) -> Job:
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    for record in plan.records:
        tables[record.kind][record.tag] = record
    return Job(tables=tables, today=date(2026, 3, 2))


def test_what_a_metric_plan_names_is_in_the_words_of_its_region() -> None:
    for asked, words in ((METRIC, TERMS["metric"]), (Asked(), TERMS["us"])):
        job = job_of(first_plan(asked))
        assert job.tables["cable"]["K1"].name == f"{words['home_run']} of the media circuit"  # type: ignore[attr-defined]
        assert words["breaker"] in job.tables["circuit"]["C2"].notes


def millimeters(low: int, high: int) -> st.SearchStrategy[int]:
    return st.integers(low, high).map(lambda each: each * MM_NM)


ANY = st.builds(
    Asked,
    width_nm=millimeters(1000, 8000),
    height_nm=millimeters(1800, 3500),
    depth_nm=millimeters(50, 900),
    diagonal_in=st.sampled_from((32.0, 43.0, 50.0, 55.0, 65.0, 75.0, 85.0, 98.0)),
    fireplace_nm=st.none() | millimeters(600, 2000),
    cabinets=st.sampled_from(("both", "left", "right", "none")),
    speakers=st.sampled_from((0, 2, 3, 5)),
    seat_nm=millimeters(1000, 7000),
    eye_nm=millimeters(800, 1300),
    region=st.sampled_from(("us", "metric")),
)


@tries(30)
@given(ANY)
def test_it_says_by_how_much_it_does_not_fit_or_fits_and_is_dangerous_nowhere(asked: Asked) -> None:
    plan = first_plan(asked)
    if plan.short:
        assert all(each.by_nm > 0 and each.what for each in plan.short)
        return
    job = job_of(plan)
    assert [each.key for each in findings(job) if each.severity == "stop"] == []
    openings = list(job.of(Opening).values())
    for one in openings:
        assert one.x is not None and one.y is not None and one.width is not None and one.height is not None  # noqa: PT018
        assert one.x.nm >= 0
        assert one.y.nm >= 0
        assert one.x.nm + one.width.nm <= asked.width_nm
        assert one.y.nm + one.height.nm <= asked.height_nm
        assert one.depth is not None
        assert one.depth.nm < asked.depth_nm
    wall = job.of(Wall)["W1"]
    for box in job.of(Box).values():
        assert box.x is not None
        off = box.x.nm % wall.spacing.nm
        clear = min(off, wall.spacing.nm - off)
        assert clear >= HALF_BOX_NM + wall.stud_width.nm // 2 or box.x.nm < wall.spacing.nm // 2, box.tag
    assert {"openings_overlap", "outside_wall"} & {each.rule for each in findings(job)} == set()


@pytest.mark.parametrize("asked", [Asked(), METRIC])
def test_a_usual_wall_gets_a_whole_plan(asked: Asked) -> None:
    plan = first_plan(asked)
    assert plan.short == ()
    job = job_of(plan)
    for cls in (Opening, Equipment, Box, Circuit, Cable, Raceway, Panel):
        assert job.of(cls), cls.kind
    assert len(standing(job).items) > 20, "its rough-in"
    assert {each.rule for each in findings(job) if each.severity == "fix"} <= {"raceway_hole_large"}
    for cable in job.of(Cable).values():
        assert cable.end in job.of(Box) or cable.end in job.of(Equipment)


def test_a_larger_fault_is_told_by_how_much() -> None:
    narrow = first_plan(msgspec.structs.replace(Asked(), width_nm=108 * INCH_NM)).short
    narrower = first_plan(msgspec.structs.replace(Asked(), width_nm=107 * INCH_NM)).short
    assert len(narrow) == len(narrower) == 1
    assert narrower[0].by_nm - narrow[0].by_nm == INCH_NM
    wide = first_plan(msgspec.structs.replace(Asked(), width_nm=108 * INCH_NM + narrow[0].by_nm))
    assert wide.short == ()
    flat = first_plan(msgspec.structs.replace(Asked(), depth_nm=4 * INCH_NM)).short
    assert {each.what.partition(":")[0]: each.by_nm // INCH_NM for each in flat} == {
        "TV recess": 2, "fireplace": 4, "cabinets": 12,
    }  # fmt: skip


def test_the_picture_is_as_near_to_the_eye_as_the_fireplace_lets_it() -> None:
    free = lay_out(msgspec.structs.replace(Asked(), fireplace_nm=None)).places["screen"]
    assert abs(free.y + free.height // 2 - Asked().eye_nm) <= INCH_NM
    above = lay_out(Asked()).places
    assert above["screen"].y == above["fireplace"].top + 12 * INCH_NM
    screen = above["screen"]
    seen = sight(Asked().eye_nm, screen.y + screen.height // 2, screen.height, Asked().seat_nm)
    assert seen.centre_deg < 15


def test_a_box_goes_to_the_nearest_place_between_studs() -> None:
    stud, half = 3 * INCH_NM // 2, 2 * INCH_NM
    at = off_studs(32 * INCH_NM, half, 16 * INCH_NM, 0, 144 * INCH_NM, stud)
    assert abs(at - 32 * INCH_NM) == half + stud // 2
    assert off_studs(40 * INCH_NM, half, 16 * INCH_NM, 0, 144 * INCH_NM, stud) == 40 * INCH_NM


def test_everything_is_a_proposal_until_it_was_changed_or_agreed_and_the_stage_says_so() -> None:
    plan = first_plan(Asked())
    job = job_of(plan)
    assert proposals(job) == plan.tags
    told = [each for each in findings(job) if each.rule == "proposed_not_agreed"]
    assert {tag for each in told for tag in each.tags} == set(plan.tags)
    assert any("2 rough sizes to measure or agree to" in each.what for each in standing(job).holds)
    changed = msgspec.structs.replace(job, marks={"N1": 4, "N2": 1})
    assert "N1" not in proposals(changed)
    assert "N2" in proposals(changed)
    few = job.having(msgspec.structs.replace(job.settings, proposed=(Ref("N1"), Ref("N2"))))
    told_of = [
        hold.what for one in (job, few) for hold in _holds(one, "Mock-up", (), (), None) if hold.key == "proposed"
    ]
    assert told_of == [
        f"{len(plan.tags)} things of the first plan not agreed yet",
        "2 things of the first plan not agreed yet: N1 and N2",
    ]
    agreed = job.having(msgspec.structs.replace(job.settings, proposed=()))
    assert proposals(agreed) == ()
    assert not any(each.rule == "proposed_not_agreed" for each in findings(agreed))
    assert not any(each.key == "proposed" for each in standing(agreed).holds)
    older = job.having(msgspec.structs.replace(job.of(Opening)["N1"], width=Length(INCH_NM)))
    assert "N1" in proposals(older), "only an action of the book says that somebody looked"


def test_a_rough_size_counts_until_somebody_measured_and_what_it_held_is_free_then() -> None:
    job = job_of(first_plan(Asked()))
    rough = job.of(Reading)["D1"]
    wider = Length(rough.value.nm + INCH_NM)
    taken = job.having(msgspec.structs.replace(rough, tag="D9", value=wider))
    assert sizes(job)["W1", "width"].tags == ("D1",)
    assert sizes(taken)["W1", "width"] == Size("W1", "width", ("D9",), wider, wider, "D9"), "also where it is greater"
    assert "D1" not in proposals(taken)
    assert [each.what for each in standing(taken).holds if each.key == "proposed"] == [
        "1 rough size to measure or agree to: D2"
    ]
    elsewhere = job.having(msgspec.structs.replace(rough, tag="D9", what="depth"))
    assert {"D1", "D2"} <= {*proposals(elsewhere)}
    agreed = taken.having(msgspec.structs.replace(taken.settings, proposed=()))
    assert sizes(agreed)["W1", "width"].least_tag == "D1", "one that was agreed to is a reading like any other"
