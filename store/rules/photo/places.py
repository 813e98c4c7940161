"""Where on a wall each photo belongs: the place noted with it, else that of the first thing it shows that has one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from store.records.access import Photo
from store.records.gate import Check
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.routes import routes
from store.rules.core.keyed import by_key
from store.rules.wall.places import Point, point_of, wall_of


@by_key
def photo_places(job: Job) -> Mapping[str, tuple[str, Point]]:
    """The wall and the place of each photo, by its tag; one that shows nothing with a place is left out."""
    found = {}
    for tag, photo in job.of(Photo).items():
        if photo.wall and photo.x is not None and photo.y is not None:
            found[tag] = (str(photo.wall), (photo.x.nm, photo.y.nm))
        elif place := next(_places(job, photo), None):
            found[tag] = place
    return found


@by_key
def photos_by_tag(job: Job) -> Mapping[str, tuple[Photo, ...]]:
    """The photos of each thing."""
    found: dict[str, list[Photo]] = {}
    for photo in job.of(Photo).values():
        for tag in photo.of:
            found.setdefault(str(tag), []).append(photo)
    return {tag: tuple(photos) for tag, photos in found.items()}


def _places(job: Job, photo: Photo) -> Iterator[tuple[str, Point]]:
    for each in map(str, photo.of):
        record = job.get(each)
        if isinstance(record, Check):
            each, record = str(record.about_tag), job.get(str(record.about_tag))
        if isinstance(record, Cable):
            route = routes(job).get(each)
            yield from ((leg.wall, _middle(leg.start, leg.end)) for leg in (route.legs if route else ())[:1])
        ends = (str(record.start), str(record.end)) if isinstance(record, Cable | Raceway) else (each,)
        for end in ends:
            wall, point = wall_of(job, end), point_of(job, end)
            if wall and point is not None:
                yield wall, point


def _middle(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) // 2, (a[1] + b[1]) // 2
