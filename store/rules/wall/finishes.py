"""The finish at each place: that of the zone there, else the wall's own drywall as the job has it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

import msgspec

from store.records.wall import Wall, Zone
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.wall.places import wall_of
from store.rules.wall.shape import Face, face_of, rect_on
from store.trade.measured.plane import Rect

NM2_PER_SQUARE_FOOT = (12 * 25_400_000) ** 2


class Finish(msgspec.Struct, frozen=True):
    """What the face is made of at a place."""

    thickness_nm: int
    """From the studs, or what it is put on, to the finished face."""
    burns: Literal["unknown", "yes", "no"]
    zone: str = ""
    """The zone; empty for the wall's own."""


class ZoneOn(msgspec.Struct, frozen=True):
    """A zone with its place on its face."""

    zone: Zone
    face: Face
    rect: Rect

    @property
    def square_feet(self) -> float:
        """Its area; openings in it are not taken off."""
        return self.rect.width_nm * self.rect.height_nm / NM2_PER_SQUARE_FOOT


@by_key
def zones(job: Job) -> Mapping[str, tuple[ZoneOn, ...]]:
    """The zones of each wall, the smallest first: where two lie on each other the smaller one counts."""
    found: dict[str, list[ZoneOn]] = {tag: [] for tag in job.of(Wall)}
    for tag, zone in job.of(Zone).items():
        face, rect = face_of(job, tag), rect_on(job, tag)
        if face is not None and rect is not None:
            found.setdefault(zone.wall, []).append(ZoneOn(zone, face, rect))
    return {wall: tuple(sorted(each, key=lambda one: one.square_feet)) for wall, each in found.items()}


def zones_over(job: Job, face: Face, rect: Rect) -> Iterator[ZoneOn]:
    """The zones on a face that share a place with a rectangle, or hold a point."""
    for each in zones(job).get(face.wall, ()):
        meets = (
            each.rect.x_nm <= rect.right_nm
            and rect.x_nm <= each.rect.right_nm
            and each.rect.y_nm <= rect.top_nm
            and rect.y_nm <= each.rect.top_nm
        )
        if meets and _on(each, face):
            yield each


def _on(each: ZoneOn, face: Face) -> bool:
    """Whether a zone is on a face; one that names no face goes over the wall and the fronts of its build-outs."""
    if each.zone.face == "nearest" and not each.zone.on:
        return face.side in ("wall", "front")
    return each.face == face


@once
def finish_at(job: Job, tag: str) -> Finish:
    """The finish where the middle of a thing is: an opening, a box, a panel, a thing on a face."""
    face, rect = face_of(job, tag), rect_on(job, tag)
    record = job.of(Wall).get(face.wall if face is not None else wall_of(job, tag))
    burns = record.burns if record is not None else "unknown"
    if face is None or rect is None:
        return Finish(job.settings.finish.nm, burns)
    middle = Rect(rect.x_nm + rect.width_nm // 2, rect.y_nm + rect.height_nm // 2, 0, 0)
    there = next(zones_over(job, face, middle), None)
    if there is None:
        return Finish(job.settings.finish.nm, burns)
    return Finish(there.zone.thickness.nm, there.zone.burns, there.zone.tag)
