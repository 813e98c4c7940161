"""Checks of the plan, condition by condition: what each vouches for, what it is about, and when it is there."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from store.records.base import Record
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.wiring import Raceway
from store.rules.core.checks import RoughIn, close, rough_in
from tests.jobs.cable_jobs import TODAY, at, box, cable, make, plain, wall

B1, B2 = "B1 at 24 in / 12 in on W1", "B2 at 96 in / 60 in on W1"
MET = "32 in, 48 in, 64 in, 80 in, 96 in"


def of(*records: Record | tuple[Record, ...], **settings: Any) -> dict[str, RoughIn]:
    """The checks of a job of one wall, by key."""
    return {check.key: check for check in rough_in(plain(*records, **settings))}


def test_a_cable_is_about_its_ends_their_openings_their_walls_and_every_place_on_its_way() -> None:
    plain_run = of(cable())["K1/pulled"]
    assert plain_run.tags == ("K1", "B1", "W1", "B2")
    assert plain_run.vouches == {"type": "cat6", "from": B1, "to": B2, "route": "through studs"}
    opening = make(Opening, "N1", name="bay", use="equipment", wall="W1", x="8'", y="2'", width="30", height="20")
    device = make(Equipment, "E1", name="set", what="receiver", opening="N1", width="17", height="6", depth="12")
    assert of(opening, device, cable(end="E1"))["K1/pulled"].tags == ("K1", "B1", "W1", "E1", "N1")
    assert of(opening, cable(end="N1"))["K1/pulled"].tags == ("K1", "B1", "W1", "N1")
    assert of(cable(end=""))["K1/pulled"].tags == ("K1", "B1", "W1")
    assert of(cable(end=""))["K1/pulled"].vouches["to"] == ""
    led = of(opening, device, box("B3", "5'", "3'"), cable(route="points", points=("b3", "n1", "E1", "W1 6' / 2'")))
    assert led["K1/pulled"].tags == ("K1", "B1", "W1", "B2", "job", "B3", "N1", "E1")
    on_the_way = led["K1/pulled"].vouches["route"]
    assert on_the_way.startswith("points B3 at 60 in / 36 in on W1, N1 at 111 in / 34 in on W1, E1 at 111 in / ")
    assert on_the_way.endswith(", W1 6' / 2'")
    tube = make(Raceway, "R1", type="ENT", size="1", start="B1", end="B3")
    inside = of(tube, box("B3", "5'", "3'"), cable(route="raceway", raceway="R1"))["K1/pulled"]
    assert inside.tags == ("K1", "B1", "W1", "B2", "R1", "B3")
    assert inside.vouches["route"] == f"raceway R1 {B1} to B3 at 60 in / 36 in on W1"
    assert of(cable(route="raceway"))["K1/pulled"].tags == ("K1", "B1", "W1", "B2")


def test_round_a_corner_counts_how_the_walls_meet() -> None:
    side = box("B3", "3'", "2'", on="W2")
    met = of(wall("W2", meets_left="W1"), side, cable(end="B3"))
    assert met["K1/pulled"].vouches["route"] == "through studs, left end of W2 meets W1"
    assert met["K1/plates"].vouches["studs"] == "round the corner"
    assert of(wall("W2"), side, cable(end="B3"))["K1/pulled"].vouches["route"] == "through studs"


def test_plates_are_asked_for_where_studs_are_bored_and_places_are_known() -> None:
    assert of(cable())["K1/plates"].vouches["studs"] == MET
    led = cable(route="points", points=("5' / 2'",))
    assert of(led)["K1/plates"].vouches["studs"] == MET
    away = cable(route="points", points=("W2 5' / 2'",))
    assert of(wall("W2"), away)["K1/plates"].vouches["studs"] == "round the corner"
    for none in (cable(route="up and over"), cable(start=""), cable(end=""), cable(route="raceway", raceway="R1")):
        assert "K1/plates" not in of(none), none
    for start, end in (("B1", "B4"), ("B4", "B1")):
        assert "K1/plates" not in of(box("B4", "5'", "3'", on=""), cable(start=start, end=end))


def test_a_hole_that_is_too_large_says_so_in_the_lengths_of_its_reader() -> None:
    large = of(cable(hole=at("2-1/2")))["K1/plates"]
    assert large.what == "Bored hole too large for its studs, K1 cat6"
    assert large.more.endswith('The hole is too large: the most is 1-3/8", or repair the stud as an engineer says')
    assert large.vouches["too large"] == "the most is 1.4 in"
    assert (large.vouches["bored hole"], large.vouches["stud depth"]) == ("2 1/2 in", "3 1/2 in")
    metric = of(cable(hole=at("2-1/2")), units="millimetres")["K1/plates"]
    assert "the most is 35 mm, or" in metric.more
    for fair in (at("1"), at("0"), None):
        plates = of(cable(hole=fair))["K1/plates"]
        assert plates.what == "Nail plates on bored studs, K1 cat6"
        assert "too large" not in plates.vouches
        assert "too large" not in plates.more
        assert ("bored hole" in plates.vouches) is bool(fair and fair.nm)
    flat = of(wall("W1", stud_depth=at("0")), cable(hole=at("2-1/2")))["K1/plates"]
    assert "too large" not in flat.vouches


def test_a_raceway_bores_studs_where_it_runs_through_them_between_places() -> None:
    def keys(**more: Any) -> list[str]:
        tube = make(Raceway, "R1", **{"type": "ENT", "size": "1", "start": "B1", "end": "B2", **more})
        return sorted(key for key in of(box("B4", "5'", "3'", on=""), tube) if key.startswith("R1/"))

    assert keys() == ["R1/in", "R1/plates", "R1/string"]
    assert keys(route="up and over", points=("5' / 3'",)) == ["R1/in", "R1/plates", "R1/string"]
    for none in ({"route": "up and over"}, {"start": ""}, {"end": ""}, {"end": "B4"}, {"start": "B4"}):
        assert keys(**none) == ["R1/in", "R1/string"], none
    assert keys(type="grommet") == ["R1/in"]
    tube = make(Raceway, "R1", type="ENT", size="1", start="B1", end="B2", route="up and over")
    assert of(tube)["R1/in"].vouches["way"] == "up and over"
    assert "way" not in of(make(Raceway, "R1", type="ENT", size="1", start="B1", end="B2"))["R1/in"].vouches


def test_the_studs_that_a_raceway_bores_are_those_between_all_its_places() -> None:
    def studs(**more: Any) -> str:
        tube = make(Raceway, "R1", **{"type": "ENT", "size": "1", "start": "B1", "end": "B2", **more})
        return of(wall("W2"), box("B3", "3'", "2'", on="W2"), tube)["R1/plates"].vouches["studs"]

    assert studs() == studs(points=("5' / 3'",)) == MET
    assert studs(points=("W1 1' / 3'",)) == f"16 in, {MET}"
    assert studs(points=("12' / 3'",)) == f"{MET}, 112 in, 128 in, 144 in"
    assert studs(points=("W2 5' / 3'",)) == studs(end="B3") == studs(start="B3") == "round the corner"


def test_what_is_retired_counts_until_that_day_and_is_named_by_its_name() -> None:
    for days, there in ((-1, False), (0, False), (1, True)):
        run = cable(kind="12-2 nm", name="feed", retired=TODAY + timedelta(days=days))
        found = of(run)
        assert ("K1/pulled" in found) is there
        assert found["job/inspection"].vouches.get("power wiring") == ("K1" if there else "")
    assert found["K1/pulled"].full == "Pulled, K1 feed. 12-2 nm"
    assert of(cable(kind="12-2 nm"))["K1/pulled"].full == "Pulled, K1 12-2 nm"
    out = of(cable(kind="12-2 nm", in_wall=False))
    assert (out.get("K1/pulled"), out["job/inspection"].vouches) == (None, {"power wiring": ""})
    tube = make(Raceway, "R1", type="ENT", size="1", start="B1", end="B2", name="tube")
    assert of(tube)["R1/in"].what == "In, strapped and reamed, R1 tube"


def test_a_box_is_its_trades_and_named_and_an_old_one_is_not_asked_about() -> None:
    sofa = box("B3", "5'", "3'", "receptacle", name="sofa")
    found = of(sofa, box("B4", "6'", "3'", "receptacle", new=False))
    assert [(found[key].trade, found[key].where, found[key].what) for key in ("B1/set", "B3/set")] == [
        ("low-voltage", "low-voltage", "Box set and fastened, B1 low-voltage"),
        ("electrician", "sofa", "Box set and fastened, B3 sofa"),
    ]
    assert "B4/set" not in found
    seen = found["job/inspection"]
    assert seen.vouches == {
        "power wiring": "B3",
        "B3": "receptacle at B3 at 60 in / 36 in on W1, circuit not entered",
    }
    assert seen.tags == ("job", "B3")
    signed = close(seen, "Ann", TODAY, office="building department", reference="R-112", inspected=TODAY)
    assert of(signed)["job/inspection"].tags == ("job", "B3")
    assert of(sofa, signed)["job/inspection"].tags == ("job", "B3")


def test_the_words_of_a_cable_follow_its_region_its_height_and_its_route() -> None:
    metric = of(cable(), region="metric")["K1/plates"].more
    assert metric.endswith("where an edge is within reach of a screw")
    assert of(cable())["K1/plates"].more.endswith("where an edge is closer than 1-1/4 in")
    assert of(cable(level="3'"))["K1/pulled"].vouches["route"] == "through studs at 36 in"
    assert of(cable(level="3'", route="up and over"))["K1/pulled"].vouches["route"] == "up and over"
    known, lost = of(cable())["K1/tested"].test, of(cable(end=""))["K1/tested"].test
    assert known is not None
    assert lost is not None
    assert [limit.low for limit in known.limits if limit.what == "length"] == [1.524]
    assert [limit.low for limit in lost.limits if limit.what == "length"] == [0]


def test_an_inspector_saw_power_cables_in_their_raceways_and_blocking_is_of_its_wall() -> None:
    tube = make(Raceway, "R1", type="ENT", size="1", start="B1", end="B2")
    seen = of(tube, cable(kind="12-2 nm", route="raceway", raceway="R1"), cable("K2", "14-2 nm"))["job/inspection"]
    assert seen.vouches["K1"] == f"12-2 nm from {B1} to {B2}, raceway R1"
    assert seen.vouches["K2"] == f"14-2 nm from {B1} to {B2}, through studs"
    assert of(box("B3", "5'", "3'"))["B3/depth"].more == '1/2" of finish counted'
    opening = make(Opening, "N1", name="tv", use="screen", wall="W1", x="8'", y="2'", width="30", height="20")
    fixing = make(Fixing, "X1", of="N1", into="blocking")
    held = {key: check.tags for key, check in of(opening, fixing).items() if key.startswith("X")}
    assert held == {"X1/blocking": ("X1", "N1", "W1")}
    nowhere = {key: check.tags for key, check in of(fixing).items() if key.startswith("X")}
    assert nowhere == {"X1/blocking": ("X1", "N1")}
