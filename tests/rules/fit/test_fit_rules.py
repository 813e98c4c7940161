"""Room for equipment: clear sizes, needs, spares, verdicts, and the findings that follow."""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.length import inches
from store.records.equipment import Equipment
from store.records.wiring import Cable
from store.rules.core.broken import newly
from store.rules.core.findings import findings
from tests.jobs.wall_jobs import ROOM, TODAY, device, figure, found, job_of, made, one, opening
from tests.rows import rows

BOX = opening("N1", 10, 10, 33, 13.5, thickness="3/4")
"""Clear inside 31 1/2 in by 12 in by 20 in."""


def test_clear_size_takes_the_material_off_both_sides() -> None:
    job = job_of(*ROOM, BOX, opening("N2", 60, 10, 30, 20))
    assert figure(job, "N1", "clear_width") == inches(31.5)
    assert figure(job, "N1", "clear_height") == inches(12)
    assert figure(job, "N1", "clear_depth") == inches(20)
    assert figure(job, "N2", "clear_width") == inches(30)


def test_needs_and_spares_by_hand() -> None:
    asks = {"clear_left": 2, "clear_right": 1, "clear_top": 3, "clear_back": 2}
    job = job_of(*ROOM, BOX, device("E1", 17, 6, 15, **asks))
    wanted = {"needs_width": 20, "needs_height": 9, "needs_depth": 17, "spare_width": 11.5, "spare_left": 5.75}
    wanted |= {"spare_right": 5.75, "spare_top": 3, "spare_bottom": 0, "spare_front": 3, "spare_behind": 3}
    for name, value in wanted.items():
        assert figure(job, "E1", name) == inches(value), name
    assert figure(job, "E1", "verdict") == "fits"
    assert figure(job, "E1", "missing") == []


def test_what_hangs_is_in_the_middle_and_an_offset_is_from_the_left_inside() -> None:
    hung = job_of(*ROOM, BOX, device("E1", 17, 6, 15, mounting="wall bracket"))
    assert figure(hung, "E1", "spare_top") == figure(hung, "E1", "spare_bottom") == inches(3)
    put = job_of(*ROOM, BOX, device("E1", 17, 6, 15, offset=2))
    assert (figure(put, "E1", "spare_left"), figure(put, "E1", "spare_right")) == (inches(2), inches(12.5))


@rows(
    ("kind", "behind"),
    [("cat6", 1 + 4 * 0.25 + 0.25), ("rg6", 1 + 10 * 0.272 + 0.272), ("12-2 nm", 0)],
)
def test_plug_and_bend_count_behind(kind: str, behind: float) -> None:
    cable = made(Cable, "K1", type=kind, start="E1", end="")
    job = job_of(*ROOM, BOX, device("E1", 17, 6, 15), cable)
    assert figure(job, "E1", "needs_depth").inches == pytest.approx(15 + behind, abs=1e-6)
    # The clearance behind serves the bend too: the larger of both counts.
    roomy = job_of(*ROOM, BOX, device("E1", 17, 6, 15, clear_back=5), cable)
    assert figure(roomy, "E1", "needs_depth") == inches(20)


def test_a_cable_of_no_known_kind_leaves_the_depth_open() -> None:
    job = job_of(*ROOM, BOX, device("E1", 17, 6, 15), made(Cable, "K1", type="mystery", start="E1"))
    assert figure(job, "E1", "verdict") == "not known"
    assert figure(job, "E1", "missing") == ["kind of cable K1, for its bend"]


@rows(
    ("width", "verdict", "rule"),
    [(31.5, "tight", "tight"), (31.375, "fits", ""), (31.5625, "does not fit", "does_not_fit")],
)
def test_verdicts_at_their_edges(width: float, verdict: str, rule: str) -> None:
    job = job_of(*ROOM, BOX, device("E1", width, 6, 15))
    assert figure(job, "E1", "verdict") == verdict
    told = [each for name in ("tight", "does_not_fit", "fit_not_known") for each in found(job, name)]
    assert [each.rule for each in told] == ([rule] if rule else [])
    assert all(each.severity == ("fix" if rule == "does_not_fit" else "look") for each in told)


def test_a_figure_not_noted_is_named() -> None:
    job = job_of(*ROOM, BOX, _without(17, 6))
    assert figure(job, "E1", "verdict") == "not known"
    assert figure(job, "E1", "missing") == ["depth", "clearance above"]
    finding = one(job, "fit_not_known")
    assert finding.severity == "look"
    assert "depth, clearance above" in finding.says


def _without(width: float, height: float) -> Equipment:
    clear = {"clear_left": 0, "clear_right": 0, "clear_bottom": 0, "clear_front": 0, "clear_back": 0}
    return made(Equipment, "E1", name="device", opening="N1", width=width, height=height, **clear)


def test_too_much_is_too_much_whatever_else_is_not_known() -> None:
    job = job_of(*ROOM, BOX, _without(17, 13))
    assert figure(job, "E1", "verdict") == "does not fit"
    assert 'at least 13" of height' in one(job, "does_not_fit").says
    assert not found(job, "fit_not_known")


def test_an_offset_too_far_to_the_right_does_not_fit() -> None:
    fits = job_of(*ROOM, BOX, device("E1", 17, 6, 15, offset=14.25))
    over = job_of(*ROOM, BOX, device("E1", 17, 6, 15, offset=14.625, clear_right=None))
    assert not found(fits, "does_not_fit")
    assert one(over, "does_not_fit").numbers == {"right": 'at its offset it is short by 1/8" on the right'}


def test_pieces_share_an_opening_side_by_side() -> None:
    # 17 + 14 + the larger of the clearances between them, 1/2: just the 31 1/2 in there is.
    pair = (device("E1", 17, 6, 15, clear_right=0.5), device("E2", 14, 6, 15, clear_left=0.25))
    job = job_of(*ROOM, BOX, *pair)
    assert (figure(job, "N1", "row_needs"), figure(job, "N1", "row_spare")) == (inches(31.5), inches(0))
    assert not found(job, "row_does_not_fit")
    wider = job_of(*ROOM, BOX, pair[0], device("E2", 14.0625, 6, 15))
    assert one(wider, "row_does_not_fit").tags == ("N1", "E1", "E2")
    assert figure(wider, "E2", "verdict") == "does not fit"
    assert not found(wider, "does_not_fit")


def test_pieces_at_their_offsets_keep_their_distance() -> None:
    def at(second: float) -> Any:
        return job_of(
            *ROOM, BOX, device("E1", 10, 6, 15, offset=0, clear_right=1), device("E2", 10, 6, 15, offset=second)
        )

    assert not found(at(11), "row_does_not_fit")
    assert one(at(10.875), "row_does_not_fit").numbers["lacks"] == '1/8"'


def test_a_count_of_pieces_stands_side_by_side() -> None:
    assert not found(job_of(*ROOM, BOX, device("E1", 10.5, 6, 15, count=3)), "row_does_not_fit")
    assert found(job_of(*ROOM, BOX, device("E1", 10.5, 6, 15, count=4)), "row_does_not_fit")


def test_what_fits_inside_may_not_get_in() -> None:
    def behind_a_door(width: float) -> Any:
        values = {"door": "solid", "hinge": "left", "door_width": width, "door_height": 11}
        return job_of(*ROOM, opening("N1", 10, 10, 33, 13.5, thickness="3/4", **values), device("E1", 17, 8, 15))

    assert figure(behind_a_door(15), "E1", "way_in") == "tight"
    assert not found(behind_a_door(15), "does_not_get_in")
    # Its narrowest face that stays under 11 in is 15 in by 8 in; turned up it is 15 in or 17 in high.
    assert figure(behind_a_door(14.9375), "E1", "way_in") == "does not fit"
    assert one(behind_a_door(14.9375), "does_not_get_in").numbers == {"lacks": '1/16"'}


def test_what_is_retired_takes_no_room() -> None:
    job = job_of(*ROOM, BOX, device("E1", 17, 6, 15), device("E2", 17, 6, 15, retired=TODAY))
    assert figure(job, "N1", "row_verdict") is None


def test_in_front_of_a_heater_the_room_must_be_clear_not_the_recess() -> None:
    hot = {"what": "fireplace", "mounting": "made to be recessed", "clear_front": 36}
    assert figure(job_of(*ROOM, BOX, device("E1", 17, 6, 15, **hot)), "E1", "verdict") == "fits"
    shut = opening("N1", 10, 10, 33, 13.5, thickness="3/4", door="glass")
    assert figure(job_of(*ROOM, shut, device("E1", 17, 6, 15, **hot)), "E1", "verdict") == "does not fit"


def test_a_change_of_size_lists_what_it_broke() -> None:
    before = job_of(*ROOM, BOX, opening("N2", 50, 10, 20, 13.5), device("E1", 31, 6, 15))
    wider = opening("N1", 10, 10, 41, 13.5, thickness="3/4")
    after = job_of(*ROOM, wider, opening("N2", 50, 10, 20, 13.5), device("E1", 31, 6, 15))
    assert [each.key for each in newly(findings(before), findings(after))] == ["openings_overlap:N1,N2"]
    assert newly(findings(before), findings(before)) == []
    more = job_of(
        *ROOM,
        opening("N1", 10, 10, 42, 13.5, thickness="3/4"),
        opening("N2", 50, 10, 20, 13.5),
        device("E1", 31, 6, 15),
    )
    assert [each.numbers["across"] for each in newly(findings(after), findings(more))] == ['2"']


@pytest.mark.parametrize(("second", "verdict", "rule"), [(9.125, "fits", ""), (9.0625, "tight", "tight")])
def test_pieces_at_their_offsets_are_tight_like_others(second: float, verdict: str, rule: str) -> None:
    job = job_of(
        *ROOM,
        opening("N1", 10, 10, 20, 20),
        device("E1", 8, 10, 10, offset=1),
        device("E2", 8, 10, 10, offset=second),
    )
    assert figure(job, "N1", "row_verdict") == verdict
    assert [each.tags[0] for each in found(job, "tight")] == (["E1", "E2"] if rule else [])


def test_a_door_that_lets_a_thing_just_through_or_is_not_measured_is_told() -> None:
    def behind_a_door(**door: Any) -> Any:
        return job_of(*ROOM, opening("N1", 10, 10, 20, 20, door="solid", **door), device("E1", 10, 10, 9))

    assert not found(behind_a_door(door_width="9 1/8", door_height="10 1/8"), "way_in_doubtful")
    assert one(behind_a_door(door_width="9 1/16", door_height=11), "way_in_doubtful").numbers == {"spare": '1/16"'}
    unknown = one(behind_a_door(door_width=11), "way_in_doubtful")
    assert unknown.numbers == {"missing": "clear door height"}
    assert not found(behind_a_door(door_width=8, door_height=11), "way_in_doubtful")
    assert found(behind_a_door(door_width=8, door_height=11), "does_not_get_in")
    assert not found(job_of(*ROOM, opening("N1", 10, 10, 20, 20), device("E1", 10, 10, 9)), "way_in_doubtful")
