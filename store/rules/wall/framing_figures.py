"""Figures of the framing: where studs should be, and the bay that a box, a panel or an opening falls in."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.equipment import Equipment
from store.records.wall import Opening, Zone
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.amounts import heavy
from store.rules.core.figures import Figure, figures_of
from store.rules.core.keyed import from_each
from store.rules.core.wording import plain, said
from store.rules.wall.finishes import zones
from store.rules.wall.hung import hung_face
from store.rules.wall.layout import Placed, WallLayout, walls
from store.rules.wall.shape import depth_there, face_of, rect_on, stands_in_front, stands_out_nm
from store.rules.wall.uprights import bays_at, bays_of_front, row_of, studs_at
from store.trade.measured.framing import Bay, bay_of, studs_cut


@figures_of("wall")
def framing(job: Job) -> Iterable[Figure]:
    """The centres of the studs from the left corner, as spacing and first stud lay them out, both ends included."""
    for tag, wall in walls(job).items():
        if wall.studs:
            yield tag, "studs", [said(job, each.centre_nm) for each in wall.studs]
            yield tag, "bays", [said(job, each.clear_nm) for each in wall.bays]


@figures_of("opening", "panel")
def bays_of_outlines(job: Job) -> Iterable[Figure]:
    """The bay that an opening or a panel falls in, counted from 1 at the left; or the studs that it runs into."""
    for wall in walls(job).values():
        for each in (*wall.openings, *wall.panels) if wall.studs else ():
            face = face_of(job, each.tag)
            out = face.out if face is not None and face.side == "front" else ""
            row = row_of(job, wall.wall.tag, out)
            if not row:
                continue
            left, right = each.rect.x_nm, each.rect.right_nm
            bay = bay_of(_bays(job, wall, each, out), left, right)
            if bay is not None:
                yield each.tag, "bay", bay.number
                continue
            whole = bays_of_front(job, out, row) if out else wall.bays
            over = [bay.number for bay in whole if bay.left_nm < right and left < bay.right_nm]
            yield each.tag, "bay", f"{over[0]} to {over[-1]}" if len(over) > 1 else "".join(map(str, over)) or "none"
            opening = job.of(Opening).get(each.tag)
            if opening is None or not stands_in_front(job, opening):
                yield each.tag, "studs_cut", [said(job, stud.centre_nm) for stud in studs_cut(row, left, right)]


def _bays(job: Job, wall: WallLayout, each: Placed, out: str) -> tuple[Bay, ...]:
    """Of a panel the bays beside it as framed; of an opening those of the row, which it changes itself."""
    if each.tag in job.of(Opening):
        return bays_of_front(job, out, row_of(job, wall.wall.tag, out)) if out else wall.bays
    return bays_at(job, wall.wall.tag, each.rect.y_nm, each.rect.top_nm, out)


@figures_of("box")
@from_each(Box)
def bays_of_boxes(job: Job, box: Box) -> Iterable[Figure]:
    """The bay that the centre of a box falls in; a box whose centre is in front of a stud says so."""
    wall = walls(job).get(box.wall)
    if wall is None or box.x is None or box.y is None or not wall.studs:
        return
    at, up = box.x.nm, box.y.nm
    face = face_of(job, box.tag)
    out = face.out if face is not None and face.side == "front" else ""
    line = studs_at(job, box.wall, up, up, out)
    on = next((stud for stud in line if stud.left_nm < at < stud.right_nm), None)
    if on is not None:
        yield box.tag, "bay", f"on the stud at {said(job, on.centre_nm)}"
    elif (bay := bay_of(bays_at(job, box.wall, up, up, out), at, at)) is not None:
        yield box.tag, "bay", bay.number


@figures_of("equipment")
@from_each(Equipment)
def studs_behind_things(job: Job, one: Equipment) -> Iterable[Figure]:
    """The studs behind a thing on a face, for its screws; `none` where it is between two."""
    rect, face, wall = rect_on(job, one.tag), face_of(job, one.tag), walls(job).get(one.wall)
    if not hung_face(job, one.tag) or rect is None or face is None or wall is None or not wall.studs:
        return
    line = studs_at(job, one.wall, rect.y_nm, rect.top_nm, face.out)
    behind = [said(job, each.centre_nm) for each in studs_cut(line, rect.x_nm, rect.right_nm)]
    yield one.tag, "studs_behind", behind or "none"
    out = stands_out_nm(job, one)
    if out is not None:
        yield one.tag, "stands_out", Length(out)


@figures_of("opening")
@from_each(Opening)
def depth_of_openings(job: Job, one: Opening) -> Iterable[Figure]:
    """How deep it is where an opening is: the build-out and the wall behind it."""
    there = depth_there(job, one.tag)
    if there is not None and not stands_in_front(job, one):
        yield one.tag, "depth_there", Length(there)


@figures_of("zone")
@from_each(Zone)
def of_zones(job: Job, zone: Zone) -> Iterable[Figure]:
    """The area of a finish, openings not taken off, and what all of it weighs."""
    for each in zones(job).get(zone.wall, ()):
        if each.zone.tag == zone.tag:
            yield zone.tag, "finish_area", f"{plain(each.square_feet)} ft²"
            if zone.weight is not None:
                yield zone.tag, "finish_weight", heavy(job, zone.weight * each.square_feet)
