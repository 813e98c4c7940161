"""Figures of screens and of the seat."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.screen.view import View, suggested_centre_nm, views
from store.trade.screen.viewing import (
    CINEMA_ANGLES_DEG,
    FARTHEST_SEAT_ANGLE_DEG,
    acuity_distance,
    distance_for_angle,
    horizontal_angle,
)


@figures_of("equipment")
def pictures(job: Job) -> Iterable[Figure]:
    """Size of the picture, apart from the outside of the set, and the distances that suit it."""
    for tag, view in views(job).items():
        one = job.of(Equipment)[tag]
        if one.width is not None:
            yield tag, "outside_width", one.width
        if one.height is not None:
            yield tag, "outside_height", one.height
        if view.picture is None:
            continue
        width, height = view.picture.width_nm, view.picture.height_nm
        yield tag, "picture_width", Length(width)
        yield tag, "picture_height", Length(height)
        yield tag, "distance_30", Length(distance_for_angle(width, FARTHEST_SEAT_ANGLE_DEG))
        yield tag, "distance_40", Length(distance_for_angle(width, CINEMA_ANGLES_DEG[1]))
        if one.lines is not None and one.lines > 0:
            yield tag, "distance_acuity", Length(acuity_distance(height, one.lines))
        if view.distance_nm is not None:
            yield tag, "viewing_angle_deg", round(horizontal_angle(width, view.distance_nm), 3)


@figures_of("equipment")
def sights(job: Job) -> Iterable[Figure]:
    """How high the centre is and should be, and the angles up to it from the seated eye."""
    for tag, view in views(job).items():
        if view.centre_nm is not None:
            yield tag, "centre_height", Length(view.centre_nm)
        yield from _seen(tag, view)


def _seen(tag: str, view: View) -> Iterable[Figure]:
    if view.sight is not None and view.centre_nm is not None:
        yield tag, "centre_above_eye", Length(view.centre_nm - view.eye_nm)
        yield tag, "centre_angle_deg", round(view.sight.centre_deg, 3)
        yield tag, "top_angle_deg", round(view.sight.top_deg, 3)
        yield tag, "bottom_angle_deg", round(view.sight.bottom_deg, 3)
    if view.band is not None:
        yield tag, "eye_height", Length(view.eye_nm)
        yield tag, "suggested_centre", Length(suggested_centre_nm(view.band))
        yield tag, "highest_centre", Length(view.band.highest_nm)
