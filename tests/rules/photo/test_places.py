"""Photos on the wall: each is marked at its own place, or at that of what it shows, and belongs to that."""

from __future__ import annotations

from store.records.access import Photo
from store.records.equipment import Equipment
from store.records.gate import Check
from store.records.wiring import Cable
from store.rules.drawing.elevation import Spot, kin, scene
from store.rules.photo.places import photo_places, photos_by_tag
from tests.jobs.access_jobs import at, box, job_of, make, opening, panel
from tests.rows import rows

THINGS = (
    opening("N1", "equipment", "40", "10", "30", "20", depth=at("16")),
    panel("A1", "20", "10"),
    box("B1", "low-voltage", "20", "60"),
    box("B2", "low-voltage", "80", "60"),
    make(Cable, "K1", type="cat6", start="B1", end="B2", level=at("70")),
    make(Equipment, "E1", name="player", what="player", opening="N1", width=at("10"), height=at("4"), offset=at("2")),
    make(Check, "Q1", what="walk the wall", about_tag="B2"),
    make(Check, "Q2", what="sweep up"),
)


def place(photo: Photo) -> tuple[float, float] | None:
    """Where a photo is marked on W1, inches."""
    found = photo_places(job_of(*THINGS, photo)).get(photo.tag)
    return None if found is None else (inch(found[1][0]), inch(found[1][1]))


def inch(nm: int) -> float:
    """Inches of nanometres."""
    return nm / 25_400_000


@rows(
    ("of", "where"),
    [
        (("B1",), (20, 60)),
        (("A1",), (26, 16)),
        (("N1",), (55, 20)),
        (("E1",), (47, 12)),
        (("K1",), (20, 65)),
        (("Q1",), (80, 60)),
        (("Q2", "B1"), (20, 60)),
        (("Q2",), None),
        ((), None),
    ],
)
def test_a_photo_is_marked_at_the_first_thing_that_has_a_place(
    of: tuple[str, ...], where: tuple[float, float] | None
) -> None:
    assert place(make(Photo, "F1", file="a.jpg", of=of)) == where


def test_its_own_place_wins_over_that_of_what_it_shows() -> None:
    own = make(Photo, "F1", file="a.jpg", of=("B1",), wall="W1", x=at("5"), y=at("6"))
    assert place(own) == (5, 6)
    assert place(make(Photo, "F1", file="a.jpg", of=("B1",), wall="W1", x=at("5"))) == (20, 60)


def test_the_wall_shows_its_mark_and_lights_it_up_with_its_thing() -> None:
    job = job_of(*THINGS, make(Photo, "F1", file="a.jpg", shows="bay, tape in it", of=("A1", "B1")))
    spot = scene(job, "W1").get("F1")
    assert isinstance(spot, Spot)
    assert (spot.layer, spot.kind, spot.label) == ("photos", "photo", "bay, tape in it")
    assert "F1" in kin(job, "A1")
    assert "F1" in kin(job, "B1")
    assert kin(job, "F1") == {"A1", "B1"}
    assert [each.tag for each in photos_by_tag(job)["B1"]] == ["F1"]


def test_a_photo_on_another_wall_is_not_on_this_one() -> None:
    job = job_of(*THINGS, make(Photo, "F1", file="a.jpg", wall="W1", x=at("5"), y=at("6")))
    assert scene(job, "W1").get("F1") is not None
    elsewhere = make(Photo, "F1", file="a.jpg", wall="W2", x=at("5"), y=at("6"))
    assert scene(job.having(elsewhere), "W1").get("F1") is None
