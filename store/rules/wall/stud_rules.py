"""Findings about studs in the place of an opening: which ones, and who has to say how they are held."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_most, listed, plural, said, sized
from store.rules.wall.finishes import finish_at
from store.rules.wall.layout import Placed, WallLayout, walls
from store.rules.wall.lines import ceilings, floors
from store.rules.wall.shape import into_wall_nm, stands_in_front
from store.trade.measured.framing import BORE_SOURCE, Stud, notch_limit, studs_cut

HEADER_SOURCE = f"{BORE_SOURCE}; headers R602.7"


@rule
@from_each(Wall)
def cuts_studs(job: Job, record: Wall) -> Iterable[Finding]:
    """An opening through studs that carry the house, or may: which ones, and who has to say how they are held."""
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    for each, cut in _in_the_way(job, wall) if wall.wall.bearing != "no" else ():
        places = _places(job, cut)
        carries = (
            "The wall is load-bearing."
            if wall.wall.bearing == "yes"
            else "Whether it is load-bearing is not known, so treat it as load-bearing."
        )
        yield Finding(
            "cuts_studs",
            "fix",
            (each.tag, wall.wall.tag),
            f"Cuts {plural(len(cut), 'stud')} of {wall.wall.tag}",
            (
                "Cut no stud until a structural engineer or a licensed builder has said how the load "
                "goes around and the building department agrees. Enter their answer. Or move the opening "
                "into a stud bay. If it is in front of these studs, enter the build-out that it is in."
            ),
            HEADER_SOURCE,
            {"studs": places, "bearing": wall.wall.bearing},
            why=f"At {places} from the left. {carries}",
            about=(each.tag,),
        )


@rule
@from_each(Wall)
def deeper_than_studs(job: Job, record: Wall) -> Iterable[Finding]:
    """Cabinet work that is too deep to be in a wall that carries, or may: it stands in front, or goes right through.

    One that is tied to the framing stands in front of it."""
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    if wall.wall.bearing == "no" or (wall.wall.framing != "existing" and wall.wall.bearing != "yes"):
        return
    deep = tuple(
        each.tag
        for each in wall.openings
        if stands_in_front(job, job.of(Opening)[each.tag])
        and job.of(Opening)[each.tag].tied != "yes"
        and studs_cut(wall.studs, each.rect.x_nm, each.rect.right_nm)
    )
    if deep:
        tag, studs = wall.wall.tag, said(job, wall.wall.stud_depth.nm)
        yield Finding(
            "deeper_than_studs",
            "look",
            (*deep, tag),
            f"Deeper than the studs of {tag}",
            f"Check that it is in front of {tag}, and enter its build-out. If it goes through, cut no stud "
            "before an engineer or a licensed builder has said how the load goes around.",
            HEADER_SOURCE,
            {"studs": studs, "bearing": wall.wall.bearing},
            why=f"{tag} has studs {studs} deep and is (or may be) load-bearing. Cabinets in front cut no stud.",
            about=deep,
        )


@rule
@from_each(Wall)
def interrupts_studs(job: Job, record: Wall) -> Iterable[Finding]:
    """The openings through studs of a wall that is noted to carry nothing: one finding a wall."""
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    found = list(_in_the_way(job, wall)) if wall.wall.bearing == "no" else []
    if found:
        yield Finding(
            "interrupts_studs",
            "look",
            (wall.wall.tag, *(each.tag for each, _ in found)),
            f"Interrupts studs: {' '.join(each.tag for each, _ in found[:5])}",
            (
                "Have each framed with a header and trimmers as local code asks. Make sure that the wall "
                "carries nothing before anyone cuts a stud that is in place."
            ),
            HEADER_SOURCE,
            {each.tag: _places(job, cut) for each, cut in found},
            why=(
                f"{listed([each.tag for each, _ in found])} {'takes' if len(found) == 1 else 'take'} the "
                f"place of studs of {wall.wall.tag}, entered as non-bearing."
            ),
            about=(wall.wall.tag,),
        )


@rule
@from_each(Wall)
def notches_studs(job: Job, record: Wall) -> Iterable[Finding]:
    """An opening that goes into studs no deeper than a notch may."""
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    limit = _limit_nm(wall)
    for each in wall.openings:
        into = _into_nm(job, each)
        cut = studs_cut(wall.studs, each.rect.x_nm, each.rect.right_nm)
        if not cut or into is None or not 0 < into <= limit:
            continue
        deep, most, places = said(job, into), said(job, limit), _places(job, cut)
        yield Finding(
            "notches_studs",
            "look",
            (each.tag, wall.wall.tag),
            f"Notches {plural(len(cut), 'stud')} of {wall.wall.tag}, {sized(job, into)} deep",
            "Keep each notch within the limit and show it to the inspector. Local code decides.",
            BORE_SOURCE,
            {"studs": places, "into": deep, "limit": most},
            why=f"At {places} from the left. A notch up to {at_most(job, limit)} is allowed here.",
            about=(each.tag,),
        )


@rule
@from_each(Wall)
def cuts_plate(job: Job, record: Wall) -> Iterable[Finding]:
    """An opening in studs that stand whose hole takes the bottom plate or the top plates of the wall."""
    wall = walls(job).get(record.tag)
    if wall is None or record.framing != "existing":
        return
    thick = record.stud_width.nm
    floor, ceiling = floors(job).get(record.tag), ceilings(job).get(record.tag)
    for each in wall.openings:
        into = _into_nm(job, each)
        if into is None or into <= 0:
            continue
        left, right = each.rect.x_nm, each.rect.right_nm
        low = each.rect.y_nm < (0 if floor is None else floor.lowest(left, right)) + thick
        high = ceiling is not None and each.rect.top_nm > ceiling.lowest(left, right) - int(record.top_plates) * thick
        if low or high:
            yield _plate_cut(job, record, each, high=high)


def _plate_cut(job: Job, wall: Wall, each: Placed, *, high: bool) -> Finding:
    carries = wall.bearing != "no"
    at = each.rect.top_nm if high else each.rect.y_nm
    return Finding(
        "cuts_plate",
        "fix" if high and carries else "look",
        (each.tag, wall.tag),
        f"Cuts the {'top plates' if high else 'bottom plate'} of {wall.tag}",
        "Keep it below the top plates, or have an engineer or a licensed builder say how the load goes around."
        if high
        else "Raise it above the bottom plate, or have the carpenter tie the plate on both sides to the floor.",
        HEADER_SOURCE,
        {"edge": said(job, at), "bearing": wall.bearing},
        why=f"Its {'top' if high else 'bottom'} is {said(job, at)} off the floor, where the "
        f"{'plates' if high else 'plate'} of {wall.tag} {'are' if high else 'is'}.",
        about=(each.tag,),
    )


def _in_the_way(job: Job, wall: WallLayout) -> Iterator[tuple[Placed, tuple[Stud, ...]]]:
    """The openings that take more of a stud than a notch may, with the studs.

    New framing that carries nothing is set out round its openings: there is no stud in their way.
    """
    limit = _limit_nm(wall)
    if wall.wall.framing != "existing" and wall.wall.bearing != "yes":
        return
    for each in wall.openings:
        into = _into_nm(job, each)
        cut = studs_cut(wall.studs, each.rect.x_nm, each.rect.right_nm)
        if cut and (into is None or into > limit):
            yield each, cut


def _limit_nm(wall: WallLayout) -> int:
    return notch_limit(wall.wall.stud_depth.nm, False if wall.wall.bearing == "no" else None)


def _into_nm(job: Job, each: Placed) -> int | None:
    """How far an opening goes into the studs of the wall, behind its board; None while its depth is not known."""
    into = into_wall_nm(job, job.of(Opening)[each.tag])
    return None if into is None else into - finish_at(job, each.tag).thickness_nm


def _places(job: Job, cut: Sequence[Stud]) -> str:
    return listed([said(job, stud.centre_nm) for stud in cut])
