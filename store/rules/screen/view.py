"""What each screen looks like from the seat: its picture, where its centre is, and the angles to it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

import msgspec

from store.measure.length import MM_NM
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.wall.pieces import hangs, on_face
from store.trade.screen.seat import DEFAULT_EYE_HEIGHT_NM, CentreBand, Sight, centre_band, sight
from store.trade.screen.viewing import Picture, picture_size

_ASPECT = re.compile(r"(\d{1,4}(?:\.\d{1,4})?)\s*[:/x×]\s*(\d{1,4}(?:\.\d{1,4})?)", re.ASCII)
_HOLES = re.compile(r"(\d{2,4})\s*[x×*]\s*(\d{2,4})\s*(?:mm)?", re.ASCII)


class View(msgspec.Struct, frozen=True):
    """One screen. None: a figure that it needs is not noted."""

    tag: str
    picture: Picture | None
    centre_nm: int | None
    """Height of its centre above the finished floor, from its opening."""
    distance_nm: int | None
    eye_nm: int
    """The eye height noted, or the usual one."""
    sight: Sight | None
    band: CentreBand | None


def read_aspect(text: str) -> tuple[int, int] | None:
    """Across and up of an aspect like `16:9` or `2.35:1`, in whole numbers; None when it cannot be read."""
    found = _ASPECT.fullmatch(text.strip())
    if found is None:
        return None
    across, up = Fraction(found[1]), Fraction(found[2])
    if across <= 0 or up <= 0:
        return None
    ratio = across / up
    return ratio.numerator, ratio.denominator


def read_holes(text: str) -> tuple[int, int] | None:
    """A hole pattern like `400x300`, across and up, in nm; None when it cannot be read."""
    found = _HOLES.fullmatch(text.strip().lower())
    return (int(found[1]) * MM_NM, int(found[2]) * MM_NM) if found else None


@by_key
def views(job: Job) -> Mapping[str, View]:
    """Every screen that is not retired, by tag."""
    return {
        tag: _view(job, one) for tag, one in job.of(Equipment).items() if one.what == "screen" and one.retired is None
    }


def _view(job: Job, one: Equipment) -> View:
    aspect = read_aspect(one.aspect)
    picture = picture_size(one.diagonal.nm, aspect) if one.diagonal is not None and aspect is not None else None
    centre, settings = centre_height_nm(job, one), job.settings
    eye = settings.eye.nm if settings.eye is not None else DEFAULT_EYE_HEIGHT_NM
    distance = settings.seat.nm if settings.seat is not None and settings.seat.nm > 0 else None
    if picture is None or distance is None:
        return View(one.tag, picture, centre, distance, eye, None, None)
    seen = None if centre is None else sight(eye, centre, picture.height_nm, distance)
    return View(one.tag, picture, centre, distance, eye, seen, centre_band(eye, picture.height_nm, distance))


def centre_height_nm(job: Job, one: Equipment) -> int | None:
    """Height of the centre of a screen: its own on a face, the middle of its opening, or half its height up."""
    if on_face(one):
        return None if one.y is None else one.y.nm
    opening = job.of(Opening).get(one.opening)
    if opening is None or opening.y is None:
        return None
    if hangs(one):
        return None if opening.height is None else opening.y.nm + opening.height.nm // 2
    side = opening.thickness.nm if opening.thickness is not None else 0
    return None if one.height is None else opening.y.nm + side + one.height.nm // 2


def suggested_centre_nm(band: CentreBand) -> int:
    """The height of the eye, or as near to it as the limits of sight and the floor allow."""
    return min(max(band.level_nm, band.lowest_nm), band.highest_nm)
