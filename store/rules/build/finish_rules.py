"""Findings about finishes by zone: an edge through a thing, a step to scribe to, too heavy for what it is put on."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.length import INCH_NM
from store.records.wall import Opening, Wall, Zone
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.build.boards import boards, zones_of
from store.rules.build.takeoff_words import area_text
from store.rules.build.way_in import way_in
from store.rules.core.amounts import heavy
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import few_of, named, plain, sized
from store.rules.wall.finishes import ZoneOn, zones, zones_over
from store.rules.wall.pieces import COVERING
from store.rules.wall.shape import bounds_of, face_of, rect_on
from store.trade.build.finish import SQUARE_FOOT_NM2
from store.trade.build.sheets import SOURCE as GA_SOURCE
from store.trade.measured.plane import Rect, inside, overlap_rect

GEOMETRY = "Geometry"
BOARD_LB_FT2 = 6.5
"""Most that tile and adhesive weigh on drywall: 32 kg/m², BS 5385-1, from memory (medium)."""
BOARD_SOURCE = "Tile on plasterboard up to 32 kg/m²: BS 5385-1, from memory"
ADHERED_LB_FT2 = 15.0
"""Most that a stone or brick veneer weighs that is glued on with mortar alone: TMS 402 13.3, from memory (high)."""
ADHERED_SOURCE = "Adhered veneer up to 15 lb/ft² and 2-5/8 in: TMS 402 13.3, from memory"
BOX_HALF_NM = 9 * INCH_NM // 8


@rule
@from_each(Box)
def box_on_finish_edge(job: Job, box: Box) -> Iterator[Finding]:
    """A box through whose plate the edge of a finish runs: its front can be flush with one side only."""
    face, rect = face_of(job, box.tag), rect_on(job, box.tag)
    if face is None or rect is None:
        return
    plate = Rect(rect.x_nm - BOX_HALF_NM, rect.y_nm - 2 * BOX_HALF_NM, 2 * BOX_HALF_NM, 4 * BOX_HALF_NM)
    for each in zones_over(job, face, plate):
        if overlap_rect(plate, each.rect) is not None and not inside(plate, each.rect) and _steps(job, each):
            yield Finding(
                "box_on_finish_edge",
                "fix",
                (box.tag, each.zone.tag),
                f"On the edge of {each.zone.tag}",
                "Move it so that the whole plate is on one finish.",
                GEOMETRY,
                {"step": sized(job, _step(job, each))},
                why=f"One side of it is on {named(job, each.zone.tag)}, which is {sized(job, _step(job, each))} "
                "thicker or thinner than what is beside it.",
                about=(box.tag,),
            )


def _step(job: Job, each: ZoneOn) -> int:
    return abs(each.zone.thickness.nm - job.settings.finish.nm)


def _steps(job: Job, each: ZoneOn) -> bool:
    return _step(job, each) > INCH_NM // 16


@rule
@from_each(Opening)
def scribe_to_finish(job: Job, one: Opening) -> Iterator[Finding]:
    """Cabinet work across the edge of a finish: the trim has to cover the step."""
    face, rect, wall = face_of(job, one.tag), rect_on(job, one.tag), job.of(Wall).get(one.wall)
    if face is None or rect is None or wall is None or one.thickness is None or one.use not in COVERING:
        return
    for each in zones_over(job, face, rect):
        step = _step(job, each)
        across = overlap_rect(rect, each.rect) is not None and not inside(rect, each.rect)
        covers = wall.scribe.nm if wall.scribe is not None else 0
        if across and _steps(job, each) and step > covers:
            yield Finding(
                "scribe_to_finish",
                "fix",
                (one.tag, each.zone.tag),
                f"Trim covers {sized(job, covers)}, {each.zone.tag} steps {sized(job, step)}",
                f"Plan a scribe of at least {sized(job, step)} where it meets {each.zone.tag}, or end the finish at "
                "its edge.",
                GEOMETRY,
                {"step": sized(job, step), "covers": sized(job, covers)},
                why=f"{named(job, one.tag)} is partly on {named(job, each.zone.tag)}, {sized(job, step)} off the "
                "face beside it.",
                about=(one.tag,),
            )


@rule
@from_each(Zone)
def finish_too_heavy(job: Job, zone: Zone) -> Iterator[Finding]:
    """A finish heavier than what it is put on is meant for."""
    if zone.weight is None:
        return
    board = zone.backing == "drywall" and zone.weight > BOARD_LB_FT2
    if zone.weight <= ADHERED_LB_FT2 and not board:
        return
    over = zone.weight > ADHERED_LB_FT2
    most, source = (ADHERED_LB_FT2, ADHERED_SOURCE) if over else (BOARD_LB_FT2, BOARD_SOURCE)
    total = zone.weight * sum(each.square_feet for each in zones(job).get(zone.wall, ()) if each.zone.tag == zone.tag)
    yield Finding(
        "finish_too_heavy",
        "fix",
        (zone.tag,),
        "Too heavy to be glued on" if over else "Too heavy for drywall",
        "Have its weight carried from the floor or a ledge, tied to the framing, as its manufacturer and a licensed "
        "builder say."
        if over
        else "Put it on cement board or what its manufacturer asks for, screwed to the studs.",
        source,
        {"weight": plain(zone.weight), "most": plain(most)},
        why=f"{plain(zone.weight)} lb per square foot, {heavy(job, total)} in all; at most {plain(most)} lb.",
    )


@rule
@from_each(Zone)
def finish_past_edge(job: Job, zone: Zone) -> Iterator[Finding]:
    """A zone that reaches past the face it is on."""
    face, rect = face_of(job, zone.tag), rect_on(job, zone.tag)
    bounds = bounds_of(job, face) if face is not None else None
    if face is None or rect is None or bounds is None or inside(rect, bounds):
        return
    if zone.face == "nearest" and face.out:
        return  # it may go over a build-out and the wall beside it
    yield Finding(
        "finish_past_edge",
        "look",
        (zone.tag, face.out or face.wall),
        f"Past the edge of {face.out or face.wall}",
        "Correct its place or its size. The weight and what to buy depend on them.",
        GEOMETRY,
        {"face": f"{sized(job, bounds.width_nm)} by {sized(job, bounds.height_nm)}"},
        why=f"That face is {sized(job, bounds.width_nm)} by {sized(job, bounds.height_nm)}.",
        about=(zone.tag,),
    )


@rule
@from_each(Zone)
def finishes_overlap(job: Job, zone: Zone) -> Iterator[Finding]:
    """Two zones of one size on each other: which one is there cannot be told. A smaller one within is what is there."""
    mine = next((each for each in zones(job).get(zone.wall, ()) if each.zone.tag == zone.tag), None)
    for other in zones(job).get(zone.wall, ()) if mine is not None else ():
        later = int(other.zone.tag[1:]) > int(zone.tag[1:])
        if mine is None or not later or other.face != mine.face or overlap_rect(mine.rect, other.rect) is None:
            continue
        if inside(mine.rect, other.rect) != inside(other.rect, mine.rect):
            continue
        yield Finding(
            "finishes_overlap",
            "look",
            (zone.tag, other.zone.tag),
            f"Overlaps {other.zone.tag}",
            "Correct the place or the size of one.",
            GEOMETRY,
            {"other": other.zone.tag},
            why=f"{named(job, zone.tag)} and {named(job, other.zone.tag)} overlap.",
            about=(zone.tag,),
        )


@rule
@from_each(Wall)
def backer_disagrees(job: Job, wall: Wall) -> Iterator[Finding]:
    """Tile backer entered as an area that the zones by place do not come to: the zones count."""
    found = boards(job).get(wall.tag) if wall.tile is not None else None
    if found is None or not found.placed or wall.tile is None:
        return
    if abs(wall.tile - found.backed_ft2) <= max(1.0, found.backed_ft2 / 10):
        return
    typed, placed = (area_text(job, round(each * SQUARE_FOOT_NM2)) for each in (wall.tile, found.backed_ft2))
    zones_there = [each.zone for each in zones_of(found) if each.sheets == "cement board"]
    yield Finding(
        "backer_disagrees",
        "look",
        (wall.tag, *dict.fromkeys(zones_there)),
        f"Tile backer {typed} entered, its zones have {placed}",
        "Clear the tile backer of the wall, or enter the zone that is missing.",
        GEOMETRY,
        {"typed": typed, "zones": placed},
        why=f"The zones with cement board come to {placed}; these are bought.",
        about=(wall.tag,),
    )


@rule
@from_each(Wall)
def drywall_not_laid(job: Job, wall: Wall) -> Iterator[Finding]:
    """Faces that are to be boarded and whose sheets cannot be laid: told once for a wall."""
    found = boards(job).get(wall.tag)
    bare = [each for each in found.faces if each.cannot] if found is not None else []
    if not bare:
        return
    first = bare[0]
    long, wide = sized(job, way_in(job).longest_nm), sized(job, first.cover.at.width_nm)
    more = f" The same goes for {few_of([each.cover.name for each in bare[1:]])}." if bare[1:] else ""
    yield Finding(
        "drywall_not_laid",
        "fix",
        (wall.tag, *dict.fromkeys(each.cover.out for each in bare if each.cover.out)),
        f"Drywall of the {first.cover.side} can't be laid",
        _way_out(job, first.cannot),
        GA_SOURCE,
        {"longest": long, "width": wide},
        why=f"{first.cannot[0].upper()}{first.cannot[1:]}: the face is {wide} wide, the longest sheet {long}.{more}",
        about=(wall.tag,),
    )


def _way_out(job: Job, cannot: str) -> str:
    if "stud" in cannot:
        return "Enter a stud of it, or add one where the sheets are to meet."
    shortest = "2400 mm" if job.settings.metric else "8 ft"
    if way_in(job).round_nm == way_in(job).longest_nm:
        return f"Find a way in without that corner, such as a window: {shortest} is the shortest that is sold."
    return f"Enter the longest sheet that gets into the room: {shortest} is the shortest that is sold."
