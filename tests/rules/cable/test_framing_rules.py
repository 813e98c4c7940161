"""Cables in shallow, steel and air-moving framing: each rule with a job that raises it and one that does not."""

from __future__ import annotations

from datetime import date
from typing import Any

import msgspec

from store.records.wall import Obstacle
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable import framing_rules as rules
from tests.jobs.cable_jobs import at, box, cable, job_of, make, put, told, wall


def on(depth: str = "3 1/2", kind: str = "12-2 nm", framing: str = "existing", **more: Any) -> Job:
    """A wall of framing so deep, with a cable between two boxes."""
    boxes = box("B1", "2'", "1'", "receptacle"), box("B2", "90", "5'", "receptacle")
    return job_of(wall(stud_depth=at(depth), framing=framing), *boxes, cable(kind=kind, **more))


def test_no_cable_is_far_enough_back_in_shallow_furring() -> None:
    # NEC 300.4(D): in 3/4 in strips no cable can be 1-1/4 in back; in 1-1/2 in strips only one up to 1/4 in thick.
    assert told(rules.cable_too_near_face, on("3/4")) == [("cable_too_near_face", "fix", ("K1", "W1"))]
    assert told(rules.cable_too_near_face, on("1 1/2"))
    assert not told(rules.cable_too_near_face, on("1 1/2", "cat6"))
    assert told(rules.cable_too_near_face, on("3/4", "cat6"))
    assert not told(rules.cable_too_near_face, on("3 1/2"))


def test_emt_needs_no_plate_and_ent_does() -> None:
    for kind, count in (("EMT", 0), ("ENT", 1)):
        tube = make(Raceway, "R1", type=kind, size="1", start="B1", end="B2")
        shallow = put(on("3/4", route="raceway", raceway="R1"), tube)
        assert len(told(rules.cable_too_near_face, shallow)) == count


def test_bushings_in_steel_studs() -> None:
    steel = on(framing="new 18 mil steel")
    assert told(rules.steel_stud_bushings, steel) == [("steel_stud_bushings", "look", ("K1", "W1"))]
    assert not told(rules.steel_stud_bushings, on(framing="new wood"))
    assert not told(rules.steel_stud_bushings, on(kind="mc-12-2", framing="new 18 mil steel"))
    assert not told(rules.steel_stud_bushings, on(kind="cat6", framing="new 18 mil steel"))


def vented(x: str, **more: Any) -> Job:
    """The wall with a vent, 10 in wide; the cable goes up at 90 in, in the bay from 80 to 96 in."""
    what = more.pop("what", "vent")
    vent = make(Obstacle, "O1", wall="W1", what=what, x=x, y="0.5", width="10", height="6")
    return put(on(**more), vent)


def test_a_cable_along_the_bay_of_a_vent() -> None:
    found = told(rules.cable_in_air_space, vented("92", kind="cat6", rating="CMR"))
    assert found == [("cable_in_air_space", "look", ("K1", "O1"))]
    assert not told(rules.cable_in_air_space, vented("92", kind="cat6", rating="CMP"))
    assert not told(rules.cable_in_air_space, vented("60", kind="cat6", rating="CMR"))
    # Where it is known that the bay takes air back, nothing is left to ask.
    known = told(rules.cable_in_air_space, vented("92", kind="cat6", rating="CMR", what="return air"))
    assert known == [("cable_in_air_space", "stop", ("K1", "O1"))]
    assert not told(rules.cable_in_air_space, vented("92", kind="cat6", rating="CL3P", what="return air"))
    assert not told(rules.cable_in_air_space, vented("92", kind="cat6", rating="CMR", what="window"))
    assert not told(rules.cable_in_air_space, vented("92", kind="mc-12-2", rating="MC"))
    for kind, rating, never in (("cat6", "CMR", False), ("12-2 nm", "NM-B", True)):
        (found_one,) = rules.cable_in_air_space(vented("92", kind=kind, rating=rating, what="return air"))
        assert ("K1: NM is not allowed along it at all." in found_one.why) is never
    abroad = vented("92", kind="cat6", rating="CMR", what="return air")
    assert not told(rules.cable_in_air_space, put(abroad, msgspec.structs.replace(abroad.settings, region="metric")))
    assert told(rules.cable_in_air_space, vented("92"))


def test_a_cable_out_of_use_has_no_path_and_is_not_looked_at() -> None:
    job = vented("92", kind="cat6", rating="CMR")
    old = msgspec.structs.replace(job.of(Cable)["K1"], retired=date(2026, 3, 2))
    assert not told(rules.cable_in_air_space, put(job, old))
