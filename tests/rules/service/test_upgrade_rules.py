"""What is wanted in years: told at the rough-in with what is missing, silent before, after, and when all is there."""

from __future__ import annotations

from typing import Any

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.gate import Passage
from store.records.people import Wish
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.service.upgrade_rules import upgrade_not_ready
from store.rules.service.upgrades import upgrades
from tests.jobs.access_jobs import TODAY, box, job_of, make, only, opening, panel, told
from tests.rows import rows

ROUGH = (
    make(Passage, "P1", stage="Design", date=TODAY, by="Robin"),
    make(Passage, "P2", stage="Mock-up", date=TODAY, by="Robin"),
    make(Passage, "P3", stage="Rough-in", date=TODAY, by="Robin"),
)


def wish(**values: Any) -> Wish:
    """A projector in three years."""
    return make(Wish, "L1", **({"what": "A second console over hdmi", "years": 3, "served_by": ("N1",)} | values))


def ready(*more: Record, **raceway: Any) -> Job:
    """A shelf with a raceway, ways to both of its ends, and a free place to plug in."""
    tube = {"size": "1-1/2", "start": "B1", "end": "B2", "string": True} | raceway
    return job_of(
        *ROUGH,
        opening("N1", "shelf", "10", "40", "30", "20"),
        opening("N2", "screen", "60", "44", "60", "36"),
        box("B1", "low-voltage", "20", "50", reached="N1"),
        box("B2", "low-voltage", "90", "60", reached="N2"),
        box("B3", "receptacle", "30", "50", reached="N1", receptacles=2),
        make(Raceway, "R1", **tube),
        *more,
    )


def test_nothing_is_told_when_all_is_there() -> None:
    job = ready(wish())
    assert not told(upgrade_not_ready, job)
    one = upgrades(job)[0]
    assert (one.places, one.ways, one.power) == (("N1",), ("N1", "N2"), (("B3", 2),))
    assert one.room[0][0] == "R1"
    assert one.room[0][2] == "hdmi"
    assert one.room[0][1] >= 1


def test_what_goes_to_a_box_at_the_face_of_the_wall_needs_no_opening() -> None:
    face = (box("B8", "low-voltage", "140", "80"), box("B9", "receptacle", "150", "80", receptacles=2))
    job = ready(*face, wish(what="A projector over hdmi", served_by=("B8", "B9")), end="B8")
    one = upgrades(job)[0]
    assert (one.places, one.ways, one.power, one.missing) == (("B8", "B9"), ("N1", "B8"), (("B9", 2),), ())
    bare = upgrades(ready(*face, wish(served_by=("B8",))))[0]
    assert bare.missing == ("a raceway to B8 box B8", "a free place to plug in at B8 box B8")


@rows(
    ("job", "missing"),
    [
        (ready(wish(), string=False), "a pull string in R1"),
        (ready(wish(), start="B2", end=""), "a raceway to N1 opening N1"),
        (ready(wish(served_by=())), "the place it will go"),
        (ready(wish(), size=""), "a raceway with room"),
        (ready(wish()).having(box("B3", "receptacle", "50", "10")), "a free place to plug in"),
        (ready(wish()).having(box("B2", "low-voltage", "90", "60", reached="A1")).having(
            panel("A1", "85", "55", blocked_by="E1")).having(make(Equipment, "E1", name="fixed")),
         "access to both ends of R1"),
    ],
)  # fmt: skip
def test_what_is_missing_is_named(job: Job, missing: str) -> None:
    found = only(upgrade_not_ready(job))
    assert (found.severity, found.tags[0]) == ("look", "L1")
    assert missing in found.numbers["missing"]


def test_a_full_raceway_has_no_room() -> None:
    thick = [
        make(Cable, f"K{n}", type="rg6-quad", start="B1", end="B2", route="raceway", raceway="R1") for n in range(1, 40)
    ]
    found = only(upgrade_not_ready(ready(wish(), *thick)))
    assert "a raceway with room: R1 is full" in found.numbers["missing"]


def test_it_is_told_while_the_wall_is_open_and_not_before_or_after() -> None:
    job = ready(wish(), string=False)
    closed = job.having(make(Passage, "P4", stage="Drywall", date=TODAY, by="Robin"))
    assert told(upgrade_not_ready, job)
    assert not told(upgrade_not_ready, closed)
    early = Job({**job.tables, "passage": {}}, today=TODAY)
    assert not told(upgrade_not_ready, early)


def test_a_wish_for_now_or_one_that_was_dropped_is_no_upgrade() -> None:
    assert not upgrades(ready(wish(years=None)))
    assert not upgrades(ready(wish(kept="dropped")))


def test_a_raceway_that_the_wish_names_is_the_one_that_counts() -> None:
    spare = make(Raceway, "R2", size="1-1/4", start="B1", end="B2", string=True)
    job = ready(wish(served_by=("N1", "R2")), spare)
    assert [tag for tag, _, _ in upgrades(job)[0].room] == ["R2"]


def test_a_raceway_with_room_by_area_and_none_for_the_plug_is_not_ready() -> None:
    """1 in ENT takes eleven picture cables by area and no plug round its bend: 6.274 in where it has 6.25."""
    (one,) = upgrades(ready(wish(), size="1"))
    assert one.room == ()
    assert "too tight for a plug" in one.missing[0]
    assert upgrades(ready(wish(what="A second access point over cat6"), size="1"))[0].room


def test_places_follow_from_equipment_and_boxes_too() -> None:
    gear = make(Equipment, "E1", name="console", opening="N1")
    assert upgrades(ready(wish(served_by=("E1",)), gear))[0].places == ("N1",)
    assert upgrades(ready(wish(served_by=("B3",))))[0].places == ("N1",)
