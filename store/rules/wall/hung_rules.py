"""Findings about what is on the face of a wall: what it hides, what it is on, what hits it."""

from __future__ import annotations

from collections.abc import Iterator

from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import few_of, named, sized
from store.rules.wall.hung import hides, hung, obstacle_kind
from store.rules.wall.layout import overlapping, walls
from store.rules.wall.shape import face_of, stands_in_front, stands_out_nm
from store.trade.measured.plane import overlap_rect

PRACTICE = "common practice"
GEOMETRY = "Geometry"
WHY = {
    "switch": "You need to reach a switch every day.",
    "vent": "A covered vent moves no air.",
    "return air": "A covered return moves no air.",
    "window": "A window must open, and in a bedroom it is a way out.",
    "door": "A door must open.",
    "junction": "A junction box must stay in sight, or in reach without taking anything down.",
}
MUST_BE_FREE = tuple(WHY)
"""Kinds of box or obstacle that nothing may be in front of."""
OUTLETS = ("receptacle", "outlet")


@rule
@from_each(Equipment)
def hides_what_is_used(job: Job, one: Equipment) -> Iterator[Finding]:
    """A thing on the face in front of a switch, a vent, a window or a joint."""
    behind = [tag for tag in hides(job).get(one.tag, ()) if obstacle_kind(job, tag) in MUST_BE_FREE]
    if behind:
        kinds = list(dict.fromkeys(obstacle_kind(job, tag) for tag in behind))
        yield Finding(
            "hides_what_is_used",
            "fix",
            (one.tag, *behind),
            f"In front of {few_of(f'{obstacle_kind(job, tag)} {tag}' for tag in behind[:3])}",
            f"Move {one.tag}, or have {few_of(behind, 3)} moved first by someone who may.",
            PRACTICE,
            {"behind": ", ".join(behind)},
            why=f"On the plan {one.tag} is in front of {few_of(named(job, tag) for tag in behind)}. "
            + " ".join(WHY[kind] for kind in kinds),
            about=(one.tag,),
        )


@rule
@from_each(Equipment)
def hides_receptacle(job: Job, one: Equipment) -> Iterator[Finding]:
    """A thing on the face in front of a receptacle that it does not plug into itself."""
    behind = [
        tag
        for tag in hides(job).get(one.tag, ())
        if obstacle_kind(job, tag) in OUTLETS and tag != one.plug and not _serves_here(job, one, tag)
    ]
    if behind:
        yield Finding(
            "hides_receptacle",
            "look",
            (one.tag, *behind),
            f"Receptacle behind it: {' '.join(behind[:4])}",
            f"Move {behind[0]} beside {one.tag}, or use a recessed box. Enter what plugs in there.",
            PRACTICE,
            {"behind": ", ".join(behind)},
            why=f"{one.tag} covers {few_of(named(job, tag) for tag in behind)}. To plug in there you have to take "
            f"{one.tag} down, and a plain plate with a plug keeps it off the wall.",
            about=(one.tag,),
        )


def _serves_here(job: Job, one: Equipment, box: str) -> bool:
    """True for a receptacle that something at the same place plugs into: a soundbar, or what is behind a TV."""
    plugged = [each for each in job.of(Equipment).values() if each.plug == box and each.retired is None]
    return bool(plugged) and all(each.wall == one.wall and not each.opening for each in plugged)


@rule
def things_overlap(job: Job) -> Iterator[Finding]:
    """Two things on one face in the same place; a mount and its TV are one thing."""
    for things in hung(job).values():
        for one, other in overlapping(things):
            first, second = sorted((one, other), key=lambda each: int(each.tag[1:] or 0))
            kinds = {job.of(Equipment)[each.tag].what for each in (one, other)}
            shared = overlap_rect(one.rect, other.rect)
            if kinds == {"mount", "screen"} or shared is None or face_of(job, one.tag) != face_of(job, other.tag):
                continue
            yield Finding(
                "things_overlap",
                "fix",
                (first.tag, second.tag),
                f"Overlaps {second.tag}",
                f"Move {first.tag} or {second.tag}, or pick a smaller one.",
                GEOMETRY,
                {"across": sized(job, shared.width_nm), "up": sized(job, shared.height_nm)},
                why=f"{named(job, first.tag)} and {named(job, second.tag)} share {sized(job, shared.width_nm)} across "
                f"and {sized(job, shared.height_nm)} up.",
                about=(first.tag,),
            )


@rule
def on_a_hole(job: Job) -> Iterator[Finding]:
    """A thing on the face over a framed hole, or where a cabinet comes out farther than the face it is on."""
    for tag, things in hung(job).items():
        on = walls(job).get(tag)
        for thing, opening in overlapping(things, on.openings) if on is not None and things else ():
            one, hole = job.of(Equipment)[thing.tag], job.of(Opening)[opening.tag]
            shared = overlap_rect(thing.rect, opening.rect)
            if shared is None or one.what == "picture":
                continue
            cabinet = stands_in_front(job, hole)
            yield Finding(
                "on_a_hole",
                "fix" if cabinet else "look",
                (thing.tag, opening.tag),
                f"Runs into {opening.tag}" if cabinet else f"Hangs over the hole of {opening.tag}",
                f"Move {thing.tag} or {opening.tag}."
                if cabinet
                else f"Put it in {opening.tag} if that is its place, or frame something for its screws.",
                GEOMETRY,
                {"across": sized(job, shared.width_nm), "up": sized(job, shared.height_nm)},
                why=f"{sized(job, shared.width_nm)} by {sized(job, shared.height_nm)} of it is where "
                f"{named(job, opening.tag)} is.",
                about=(thing.tag,),
            )


@rule
def over_an_edge(job: Job) -> Iterator[Finding]:
    """A thing on the face that is partly over a window, a door or a vent; what covers most of one is told of that."""
    for tag, things in hung(job).items():
        on = walls(job).get(tag)
        for thing, each in overlapping(things, on.obstacles) if on is not None and things else ():
            what, shared = obstacle_kind(job, each.tag), overlap_rect(thing.rect, each.rect)
            face = face_of(job, thing.tag)
            if what not in THROUGH or shared is None or each.tag in hides(job).get(thing.tag, ()):
                continue
            if face is not None and face.side not in ("wall", "front"):
                continue
            yield Finding(
                "over_an_edge",
                "fix",
                (thing.tag, each.tag),
                f"Partly over {what} {each.tag}",
                f"Move {thing.tag} clear of it, or correct where one of them is.",
                GEOMETRY,
                {"across": sized(job, shared.width_nm), "up": sized(job, shared.height_nm)},
                why=f"{sized(job, shared.width_nm)} by {sized(job, shared.height_nm)} of {named(job, thing.tag)} is in "
                f"front of the {what}, where nothing holds it.",
                about=(thing.tag,),
            )


THROUGH = ("window", "door", "vent")
"""What is no wall to screw into."""


@rule
@from_each(Equipment)
def rests_on_plug(job: Job, one: Equipment) -> Iterator[Finding]:
    """A TV flat on the wall over the receptacle it plugs into: a plug and its cord need more room than the bracket."""
    box = job.of(Box).get(one.plug)
    out = stands_out_nm(job, one)
    if box is None or out is None or one.depth is None or one.off_wall is None or box.setback is not None:
        return
    if box.tag in hides(job).get(one.tag, ()) and one.off_wall.nm < PLUG_NM and box.what == "receptacle":
        yield Finding(
            "rests_on_plug",
            "look",
            (one.tag, box.tag),
            f"{sized(job, one.off_wall.nm)} behind it for a plug",
            f"Use a recessed receptacle and enter how far {box.tag} is set back, or move it to beside {one.tag}.",
            f"Depth of a plug with its cord, 1-1/2 in or more: {PRACTICE}",
            {"room": sized(job, one.off_wall.nm)},
            why=f"{box.tag} is behind {one.tag}, whose bracket leaves {sized(job, one.off_wall.nm)} there.",
            about=(one.tag,),
        )


PLUG_NM = 38_100_000
"""Depth that a straight plug and its cord take in front of a plate, 1-1/2 in; common practice, from memory."""
