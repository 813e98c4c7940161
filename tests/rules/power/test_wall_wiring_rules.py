"""Receptacles along the wall and holes in its studs: what raises each finding, and the nearest that does not."""

from __future__ import annotations

from typing import Any

import msgspec

from store.measure.length import inches
from store.records.wall import Obstacle, Opening, Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.core.figures import figures
from store.rules.power.wall_wiring import first_support
from tests.jobs.power_case import circuit, job_of, make, only, receptacle, told
from tests.rows import rows


def wall(width: str = "20'", **values: Any) -> tuple[Wall, Reading, Reading]:
    """A wall with its readings."""
    given: dict[str, Any] = {"name": "wall", "first_stud": inches(16), "stud_depth": inches(3.5), "bearing": "no"}
    one = make(Wall, "W1", **{**given, **values})
    return (
        one,
        make(Reading, "D1", wall="W1", what="width", value=width),
        make(Reading, "D2", wall="W1", what="height", value="8'"),
    )


def along(*xs: str, width: str = "20'", y: str = "16", more: tuple[Any, ...] = (), **values: Any) -> Job:
    """Receptacles at these places along a wall."""
    boxes = [receptacle(f"B{at}", wall="W1", x=x, y=y, **values) for at, x in enumerate(xs, 1)]
    return job_of(circuit(), *wall(width), *boxes, *more)


def test_receptacles_too_far_apart() -> None:
    """12 ft apart is right, 12 ft 2 in leaves 2 in out of reach."""
    finding = only(along("3'", "15' 2"), "receptacles_too_far", "fix")
    assert finding.numbers == {"out of reach": "9' to 9' 2\""}
    assert "210.52(A)" in finding.source
    assert not told(along("3'", "15'"), "receptacles_too_far")


def test_near_a_corner_the_next_wall_may_serve() -> None:
    assert only(along("7'", "15'"), "receptacles_too_far", "look").numbers == {"out of reach": "0\" to 1'"}


def test_a_receptacle_too_high_or_hidden_does_not_count() -> None:
    assert told(along("3'", "15'", y="66 1/16"), "receptacles_too_far")
    assert not told(along("3'", "15'", y="66"), "receptacles_too_far")
    assert told(along("3'", "15'", switched="all"), "receptacles_too_far")
    assert not told(along("3'", "15'", switched="half"), "receptacles_too_far")


def test_a_cabinet_on_the_floor_breaks_the_wall() -> None:
    def cabinet(y: str) -> Opening:
        return make(Opening, "N1", name="x", use="equipment", wall="W1", x="8'", y=y, width="4'", height="30")

    assert not told(along("4'", "16'", more=(cabinet("4"),)), "receptacles_too_far")
    apart = along("3'", "17'", more=(cabinet("4"),))
    assert not told(apart, "receptacles_too_far")
    assert told(along("3'", "17'", more=(cabinet("30"),)), "receptacles_too_far")


def test_a_doorway_breaks_the_wall() -> None:
    door = make(Obstacle, "O1", wall="W1", what="door", x="8'", y="0", width="4'", height="80")
    assert not told(along("3'", "17'", more=(door,)), "receptacles_too_far")


def test_a_wall_that_nobody_measured_is_not_judged() -> None:
    assert not told(job_of(make(Wall, "W1", name="x"), receptacle(wall="W1", x="1", y="16")), "receptacles_too_far")


def test_no_such_rule_where_the_code_is_another() -> None:
    job = job_of(*wall(), region="metric")
    assert not told(job, "receptacles_too_far")


def bored(hole: str, bearing: str = "no") -> Job:
    """A 12-2 cable through the studs between two receptacles."""
    boxes = [receptacle(f"B{n}", wall="W1", x=x, y="16") for n, x in ((1, "20"), (2, "60"))]
    cable = make(Cable, "K1", type="nm-12-2", start="B1", end="B2", hole=hole)
    return job_of(circuit(), *wall(bearing=bearing), *boxes, cable)


@rows(("hole", "bearing", "many"), [("2 1/8", "no", 1), ("2 1/16", "no", 0), ("1 7/16", "yes", 1), ("1 3/8", "yes", 0)])
def test_hole_too_large(hole: str, bearing: str, many: int) -> None:
    """60 % of 3-1/2 in is 2.1 in where the wall carries nothing, 40 % is 1.4 in where it does (R602.6)."""
    assert len(told(bored(hole, bearing=bearing), "hole_too_large")) == many


def test_a_wall_that_nobody_knows_counts_as_bearing() -> None:
    finding = only(bored("1 1/2", bearing="unknown"), "hole_too_large", "fix")
    assert "R602.6" in finding.source
    assert finding.tags == ("K1", "W1")


def test_a_hole_for_a_signal_cable_weakens_a_stud_as_much() -> None:
    job = bored("2 1/8")
    cable = msgspec.structs.replace(job.of(Cable)["K1"], type="cat6")
    assert only(Job({**job.tables, "cable": {"K1": cable}}, today=job.today), "hole_too_large", "fix")
    gone = msgspec.structs.replace(cable, retired=job.today)
    assert not told(Job({**job.tables, "cable": {"K1": gone}}, today=job.today), "hole_too_large")


def test_a_sliver_out_of_reach_is_not_shown_as_nothing() -> None:
    """A quarter of an inch at the left end is shown as one inch, not from nought to nought."""
    sliver = only(along("6' 1/4", "15'"), "receptacles_too_far", "look")
    assert sliver.numbers == {"out of reach": '0" to 1"'}


def test_nail_plates() -> None:
    """A centred hole over 1 in leaves less than 1-1/4 in in a two-by-four (300.4)."""
    finding = only(bored("1 1/16"), "nail_plates_needed", "look")
    assert "both faces" in finding.says
    assert finding.numbers["studs"] == "2"
    assert not told(bored("1"), "nail_plates_needed")
    assert not told(bored("2 1/8"), "nail_plates_needed"), "a hole that is too large is told once"


def test_figures_of_the_studs_are_rounded_down_to_the_tape() -> None:
    """60 % and 40 % of 3-1/2 in are 2.1 and 1.4 in: 2-1/16 and 1-3/8 on a tape, and 53 and 35 mm."""
    found = figures(bored("1"))["W1"]
    assert found["largest_hole"].inches == 2 + 1 / 16
    assert found["hole_without_plate"].inches == 1.0
    assert found["deepest_notch"].inches == 1 + 3 / 8
    metric = bored("1")
    settings = msgspec.structs.replace(metric.settings, units="millimetres")
    found = figures(Job({**metric.tables, "job": {"job": settings}}, today=metric.today))["W1"]
    assert (found["largest_hole"].mm, found["deepest_notch"].mm) == (53.0, 35.0)


def test_a_hole_of_the_figure_is_allowed_and_a_sixteenth_more_is_not() -> None:
    assert not told(bored("2 1/16"), "hole_too_large")
    assert told(bored("2 1/8"), "hole_too_large")


def test_first_support_depends_on_the_box() -> None:
    """12 in with clamps; 8 in for a single gang of plastic without (334.30, 314.17)."""
    assert first_support(make(Box, "B1", what="receptacle", clamps=True)).inches == 12
    assert first_support(make(Box, "B1", what="receptacle")).inches == 8
    assert first_support(make(Box, "B1", what="receptacle", gangs=2)).inches == 12
    assert first_support(make(Box, "B1", what="receptacle", metal=True)).inches == 12


def test_a_limit_is_never_shown_larger_than_it_is() -> None:
    """60 % of 3-1/2 in is 2.1 in: 2-1/16 in on a tape, though 2-1/8 in is the nearest mark."""
    assert only(bored("2 1/8"), "hole_too_large", "fix").numbers["most"] == '2 1/16"'
