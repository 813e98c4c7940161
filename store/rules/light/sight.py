"""Where an eye is, and what it sees of a light: its bare source, or its mirror in the TV."""

from __future__ import annotations

from typing import Literal

import msgspec

from store.measure.length import FOOT_NM, INCH_NM
from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.core.keyed import of_each
from store.rules.screen.view import views
from store.rules.wall.places import equipment_rect, fastened_to, wall_of
from store.trade.light.sight import Eye, Lamp, Look, mirrored_at, past_lip
from store.trade.measured.plane import Rect

STANDING_UP_NM, STANDING_OUT_NM = 63 * INCH_NM, 4 * FOOT_NM
"""A standing eye and how near it comes to the wall; our own assumption."""

Who = Literal["seated", "standing"]


class Seen(msgspec.Struct, frozen=True):
    """What eyes meet of one light."""

    tag: str
    up_nm: int
    bare: tuple[tuple[Who, Look], ...]
    """Each eye that was looked from."""
    mirrored: tuple[int, int] | None
    """Where its mirror is on the wall, across and up; None where it is no lamp in the room."""
    in_screen: str
    """The TV in which it is seen; empty where it is in none."""


@of_each(Equipment)
def seen(job: Job, one: Equipment) -> Seen | None:
    """Every light that says which way it shines, or where in the room it hangs."""
    if one.what != "light" or one.retired is not None:
        return None
    rect = equipment_rect(job, one)
    up = one.lamp_up.nm if one.lamp_up is not None else None
    if up is None and rect is not None:
        up = rect.y if one.faces == "down" else rect.top if one.faces == "up" else rect.centre[1]
    if up is None:
        return None
    out = _out(job, one) or 0
    mirror, screen = _mirror(job, one, up, out)
    bare = _bare(job, one, up, out)
    return Seen(one.tag, up, bare, mirror, screen) if bare or mirror else None


def _out(job: Job, one: Equipment) -> int | None:
    """How far from the wall it is: as entered, else by the front of the shelf that it is fastened to."""
    if one.lamp_out is not None:
        return one.lamp_out.nm
    shelf = fastened_to(job, one)
    if shelf is None or shelf.depth is None:
        return None
    return max(0, shelf.depth.nm - (one.lip_behind.nm if one.lip_behind is not None else 0))


def _eyes(job: Job) -> list[tuple[Who, Eye]]:
    settings = job.settings
    eyes: list[tuple[Who, Eye]] = [("standing", Eye(STANDING_UP_NM, STANDING_OUT_NM))]
    if settings.seat is not None and settings.eye is not None and settings.seat.nm > 0:
        eyes.insert(0, ("seated", Eye(settings.eye.nm, settings.seat.nm)))
    return eyes


def _bare(job: Job, one: Equipment, up: int, out: int) -> tuple[tuple[Who, Look], ...]:
    """A source that faces down is met from below, one that faces up from above; one at the wall not at all."""
    if one.faces not in ("down", "up", "room"):
        return ()
    lip = max(0, one.lip.nm) if one.lip is not None else 0
    behind = max(0, one.lip_behind.nm) if one.lip_behind is not None else 0
    looks = []
    for who, eye in _eyes(job):
        if eye.out_nm <= out:
            continue
        facing = {"down": eye.up_nm < up, "up": eye.up_nm > up, "room": True}[one.faces]
        look = past_lip(eye, Lamp(up, out), lip, behind)
        if one.faces == "room":
            look = look._replace(seen=not lip or look.seen)
        looks.append((who, look if facing else look._replace(seen=False)))
    return tuple(looks)


def _mirror(job: Job, one: Equipment, up: int, out: int) -> tuple[tuple[int, int] | None, str]:
    """A lamp that stands out in the room, or tape along the edge of a shelf, as the seat sees it in each TV.

    Of tape each place along it is mirrored: its two ends say how far its image reaches.
    """
    settings = job.settings
    if _out(job, one) is None or settings.seat is None or settings.eye is None:
        return None, ""
    if min(out, settings.seat.nm) <= 0:
        return None, ""
    at, own = None, equipment_rect(job, one)
    for tag, view in views(job).items():
        rect = equipment_rect(job, job.of(Equipment)[tag])
        if rect is None or not _before(job, one, tag):
            continue
        middle = rect.centre[0]
        eye = Eye(settings.eye.nm, settings.seat.nm, middle)
        ends = [one.lamp_across.nm] if one.lamp_across is not None else [own.x, own.right] if own else [middle]
        images = [mirrored_at(eye, Lamp(up, out, across)) for across in ends]
        at = (sum(x for x, _ in images) // len(images), images[0][1])
        picture = rect.plane
        if view.picture is not None:
            wide, high = view.picture.width_nm, view.picture.height_nm
            picture = Rect(middle - wide // 2, rect.centre[1] - high // 2, wide, high)
        across = min(x for x, _ in images) <= picture.right_nm and max(x for x, _ in images) >= picture.x_nm
        if across and picture.y_nm <= at[1] <= picture.top_nm:
            return at, tag
    return at, ""


def _before(job: Job, one: Equipment, screen: str) -> bool:
    """Whether a light can shine at a TV at all: it is on no wall, or on the one with the TV; a light turned to the wall
    or up shows the TV no bare source."""
    wall = wall_of(job, one.tag)
    return one.faces not in ("wall", "up") and wall in ("", wall_of(job, screen))
