"""Photos: tied to something, named as pictures are, and what a look at the disk adds."""

from __future__ import annotations

from datetime import timedelta

from store.records.access import Photo
from store.rules.photo.photo_rules import photo_name, photo_of_nothing
from store.rules.photo.pictures import Look, photo_findings
from tests.jobs.access_jobs import TODAY, at, box, job_of, make, told


def test_a_photo_belongs_to_a_thing_or_to_a_place() -> None:
    loose = make(Photo, "F1", file="a.jpg")
    of_thing = make(Photo, "F2", file="b.jpg", of=("B1",))
    of_place = make(Photo, "F3", file="c.jpg", wall="W1", x=at("4"), y=at("5"))
    half = make(Photo, "F4", file="d.jpg", wall="W1", x=at("4"))
    job = job_of(box("B1", "junction", "1", "1"), loose, of_thing, of_place, half)
    assert told(photo_of_nothing, job) == [("photo_of_nothing", "look", ("F1", "F4"))]
    assert not told(photo_of_nothing, job_of(of_place))


def test_a_page_or_a_link_is_no_picture() -> None:
    job = job_of(make(Photo, "F1", file="https://example.com/page"), make(Photo, "F2", file="C:\\walls\\IMG 1.JPG"))
    assert told(photo_name, job) == [("photo_name", "look", ("F1",))]


def test_a_file_that_is_not_there_is_told_with_its_path() -> None:
    job = job_of(make(Photo, "F1", file="a.jpg"))
    found = list(photo_findings(job, {"F1": Look("/walls/a.jpg", why="there is no such file")}))
    assert [(each.rule, each.tags) for each in found] == [("photo_missing", ("F1",))]
    assert "/walls/a.jpg" in found[0].says
    assert not list(photo_findings(job, {"F1": Look("/walls/a.jpg", "jpeg", TODAY)}))
    assert not list(photo_findings(job, {"F9": Look("/walls/a.jpg", why="gone")}))


def test_the_date_of_the_camera_is_set_against_the_note() -> None:
    job = job_of(make(Photo, "F1", file="a.jpg", date=TODAY))
    for days, told_of in ((0, False), (1, False), (2, True), (-2, True)):
        seen = Look("a.jpg", "jpeg", TODAY + timedelta(days), by_camera=True)
        assert bool(list(photo_findings(job, {"F1": seen}))) is told_of
    by_file = Look("a.jpg", "jpeg", TODAY + timedelta(9), by_camera=False)
    assert not list(photo_findings(job, {"F1": by_file}))
