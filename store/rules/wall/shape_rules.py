"""Findings about the shape of a wall: deeper than what is there, half on a build-out, past the edge of a return."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import filed, from_each
from store.rules.core.wording import compared, few_of, named, plural, said, sized
from store.rules.wall.finishes import finish_at
from store.rules.wall.lines import bad_heights, ceilings, floors
from store.rules.wall.pieces import on_face
from store.rules.wall.places import RETURNS
from store.rules.wall.readings import sizes
from store.rules.wall.shape import (
    Face,
    Out,
    bounds_of,
    build_outs,
    depth_behind,
    face_of,
    out_of,
    outs_over,
    rect_on,
    stands_in_front,
)
from store.rules.wall.stud_row import bad_studs, read_odd
from store.rules.wall.unfold import hidden_by_out
from store.trade.measured.plane import Rect, inside, overlap_rect

PRACTICE = "common practice"
GEOMETRY = "Geometry"


@rule
@from_each(Opening)
def deeper_than_there(job: Job, one: Opening) -> Iterator[Finding]:
    """An opening that is deeper than the build-out and the wall at its place."""
    face = face_of(job, one.tag)
    if face is None or one.depth is None or stands_in_front(job, one):
        return
    there = depth_behind(job, face)
    read = bool(face.out) or (face.wall, "depth") in sizes(job)
    if there is not None and not read:
        there += finish_at(job, one.tag).thickness_nm - job.settings.finish.nm
    if there is None or one.depth.nm <= there:
        return
    both = compared(job, there, one.depth.nm)
    yield Finding(
        "deeper_than_there",
        "fix" if read else "look",
        (one.tag, face.out or face.wall),
        f"Deeper by {both.short} than {face.out or face.wall}",
        (
            f"Make {one.tag} at most {said(job, there)} deep, or build {face.out} out farther."
            if face.out
            else f"Enter the build-out that it is in, or the depth you read at {face.wall}, or make it shallower."
        ),
        GEOMETRY,
        {"depth": said(job, one.depth.nm), "there": said(job, there)},
        why=f"It is {both.need} deep. {_what_is_there(job, face, there)}",
        about=(one.tag,),
    )


def _what_is_there(job: Job, face: Face, there: int) -> str:
    out = out_of(job, face.out) if face.out else None
    if out is None:
        how = "as read" if (face.wall, "depth") in sizes(job) else "studs and drywall"
        return f"{named(job, face.wall)} is {sized(job, there)} deep, {how}."
    if face.side in RETURNS:
        return f"From its {face.side}, {named(job, face.out)} is {sized(job, there)} deep."
    behind = there - out.depth_nm
    wall = f", and {face.wall} behind it {sized(job, behind)}" if behind else ""
    return f"{named(job, face.out)} is {sized(job, out.depth_nm)} deep{wall}: {sized(job, there)} in all."


@rule
@from_each(BuildOut)
def half_on_build_out(job: Job, one: BuildOut) -> Iterator[Finding]:
    """What is partly on a build-out and partly beside it: its edge runs through the thing."""
    out = out_of(job, one.tag)
    if out is None:
        return
    for tag in _on_the_wall(job, out.wall):
        rect, face = rect_on(job, tag), face_of(job, tag)
        if rect is None or face is None or face.side not in ("wall", "front") or not rect.width_nm:
            continue
        whole = next((held for each, held in outs_over(job, out.wall, rect) if each.tag == out.tag), None)
        if whole is not False or getattr(job.get(tag), "face", "") == "wall":
            continue
        shared = overlap_rect(rect, out.rect)
        assert shared is not None
        yield Finding(
            "half_on_build_out",
            "fix",
            (tag, out.tag),
            f"Partly on {out.tag}, partly beside it",
            f"Move {tag} onto {out.tag} or clear of it. Where {out.tag} is only planned, you can change its edges.",
            GEOMETRY,
            {"on it": f"{said(job, shared.width_nm)} by {said(job, shared.height_nm)}"},
            why=f"{sized(job, shared.width_nm)} by {sized(job, shared.height_nm)} of it is on {named(job, out.tag)}, "
            f"which is {sized(job, out.depth_nm)} in front of the wall.",
            about=(tag,),
        )


def _on_the_wall(job: Job, wall: str) -> Iterator[str]:
    yield from (tag for tag, one in job.of(Opening).items() if one.wall == wall)
    yield from (tag for tag, one in job.of(Panel).items() if one.wall == wall)
    yield from (tag for tag, one in job.of(Equipment).items() if one.wall == wall and on_face(one))


@rule
@from_each(BuildOut)
def behind_corner_build_out(job: Job, one: BuildOut) -> Iterator[Finding]:
    """What is on a wall where a build-out of the wall round its inside corner stands before it."""
    out = out_of(job, one.tag)
    for wall, left, right in hidden_by_out(job, out) if out is not None else ():
        for tag in _on_the_wall(job, wall):
            rect, face = rect_on(job, tag), face_of(job, tag)
            if rect is None or face is None or face.side not in ("wall", "front") or not rect.width_nm or out is None:
                continue
            strip = Rect(left, out.rect.y_nm, right - left, out.rect.height_nm)
            shared = overlap_rect(rect, strip)
            if shared is None:
                continue
            yield Finding(
                "behind_corner_build_out",
                "fix",
                (tag, one.tag),
                f"Runs into {one.tag} around the corner",
                f"Move {tag} by {sized(job, shared.width_nm)} away from the corner, or end {one.tag} short of it.",
                GEOMETRY,
                {"across": sized(job, shared.width_nm), "depth": sized(job, out.depth_nm)},
                why=f"{named(job, one.tag)} on {out.wall} comes out {sized(job, out.depth_nm)} along {wall} from "
                "their corner.",
                about=(tag,),
            )


@rule
def past_the_face(job: Job) -> Iterator[Finding]:
    """What reaches past the edge of a return, an underside or a top; two things on one of them that overlap."""
    things = _by_side_face(job)
    for face, tags in things.items():
        bounds = bounds_of(job, face)
        for tag, rect in tags:
            # Of a box the rule of boxes tells, with how much it is.
            if bounds is not None and not inside(rect, bounds) and tag not in job.of(Box):
                yield Finding(
                    "past_the_face",
                    "fix",
                    (tag, face.out),
                    f"Past the edge of the {face.side} of {face.out}",
                    "Move it or make it smaller. On a return, from left is from the wall out.",
                    GEOMETRY,
                    {"face": f"{said(job, bounds.width_nm)} by {said(job, bounds.height_nm)}"},
                    why=f"That face is {sized(job, bounds.width_nm)} by {sized(job, bounds.height_nm)}.",
                    about=(tag,),
                )
        for at, (tag, rect) in enumerate(tags):
            for other, beside in tags[at + 1 :]:
                if overlap_rect(rect, beside) is not None:
                    yield _overlap(job, tag, other, face)


def _overlap(job: Job, tag: str, other: str, face: Face) -> Finding:
    return Finding(
        "overlap_on_return",
        "fix",
        (tag, other),
        f"Overlaps {other}",
        f"Move {tag} or {other}.",
        GEOMETRY,
        {"face": f"{face.side} of {face.out}"},
        why=f"Both are on the {face.side} of {named(job, face.out)}.",
        about=(tag,),
    )


@filed(Opening, Panel, Box, Equipment)
def _by_side_face(job: Job, one: Opening | Panel | Box | Equipment) -> Iterator[tuple[Face, tuple[str, Rect]]]:
    """What is on each return of a build-out, and where on it."""
    if one.face in RETURNS:
        face, rect = face_of(job, one.tag), rect_on(job, one.tag)
        if face is not None and face.side in RETURNS and rect is not None:
            yield face, (one.tag, rect)


@rule
@from_each(Opening, Panel, Box, Equipment)
def face_not_there(job: Job, one: Opening | Panel | Box | Equipment) -> Iterator[Finding]:
    """Something on a return of a build-out that is not there, or of which nobody can tell which is meant."""
    tag, side, wall, on = one.tag, one.face, one.wall, one.on
    if side not in (*RETURNS, "front") or not wall or (side == "front" and not on):
        return
    there = build_outs(job).get(wall, ())
    meant = [each for each in there if each.tag == on or (not on and len(there) == 1)]
    if meant and (against := _against(job, meant[0], side)):
        yield _no_such_face(job, tag, meant[0], side, against)
    if meant:
        return
    yield Finding(
        "face_not_there",
        "fix",
        (tag, wall),
        f"No {side} to put it on" if not there else f"On the {side} of which build-out?",
        f"Enter the build-out, or put {tag} on another face.",
        GEOMETRY,
        {"build-outs": few_of(each.tag for each in there) or "none"},
        why=f"{wall} has {plural(len(there), 'build-out') if there else 'no build-out'}"
        + (f", and {on} is none of them." if on and there else "; none is entered for it." if there else "."),
        about=(tag,),
    )


def _against(job: Job, out: Out, side: str) -> str:
    """What a side of a build-out is hard against, so that nothing can be on it; empty for a free side."""
    wall, wide = job.of(Wall).get(out.wall), sizes(job).get((out.wall, "width"))
    line, floor = ceilings(job).get(out.wall), floors(job).get(out.wall)
    rect = out.rect
    ends = rect.x_nm, rect.right_nm
    if wall is None:
        return ""
    if side == "left return" and rect.x_nm <= 0 and wall.left_corner == "inside":
        return "the left corner"
    if side == "right return" and wide is not None and rect.right_nm >= wide.least.nm and wall.right_corner == "inside":
        return "the right corner"
    if side == "underside" and rect.y_nm <= (0 if floor is None else floor.highest(*ends)):
        return "the floor"
    if side == "top" and line is not None and rect.top_nm >= line.lowest(*ends):
        return "the ceiling"
    return ""


def _no_such_face(job: Job, tag: str, out: Out, side: str, against: str) -> Finding:
    return Finding(
        "face_not_there",
        "fix",
        (tag, out.tag),
        f"No {side} of {out.tag} to put it on",
        f"Put {tag} on another face, or correct the place or the size of {out.tag}.",
        GEOMETRY,
        {"against": against},
        why=f"{named(job, out.tag)} goes to {against}: that side of it is covered.",
        about=(tag,),
    )


@rule
@from_each(BuildOut)
def build_out_past_edge(job: Job, one: BuildOut) -> Iterator[Finding]:
    """A build-out that reaches past the end of its wall, or above the ceiling."""
    line, wide = ceilings(job).get(one.wall), sizes(job).get((one.wall, "width"))
    right = one.x.nm + one.width.nm
    over = {}
    if wide is not None and right > wide.least.nm:
        over["right"] = f"{said(job, right - wide.least.nm)} past the right end"
    if line is not None and one.height is not None:
        top, room = one.y.nm + one.height.nm, line.lowest(one.x.nm, right)
        if top > room:
            over["top"] = f"{said(job, top - room)} above the ceiling there"
    if over:
        yield Finding(
            "build_out_past_edge",
            "fix",
            (one.tag, one.wall),
            f"Past the edge of {one.wall}",
            "Move it or make it smaller. It must stay within the smallest reading of the wall.",
            "the readings of the wall",
            over,
            why=f"It goes {' and '.join(over.values())}.",
            about=(one.tag,),
        )


@rule
@from_each(Wall)
def line_not_read(job: Job, wall: Wall) -> Iterator[Finding]:
    """A height of the floor line or the ceiling line that is not one place and one height."""
    metric = job.settings.metric
    bad = [*bad_heights(wall.floor_line, metric), *bad_heights(wall.ceiling_line, metric)]
    if bad:
        yield Finding(
            "line_not_read",
            "fix",
            (wall.tag,),
            "Heights of a line can't be read",
            "Write the place from the left end, a slash, and the height there, like 6'/8'.",
            PRACTICE,
            {"texts": ", ".join(each[:40] for each in bad)},
            why=f"Left out: {few_of(each[:40] for each in bad)}.",
        )


@rule
@from_each(Wall)
def stud_not_read(job: Job, wall: Wall) -> Iterator[Finding]:
    """An odd or a missing stud whose place cannot be read."""
    bad = bad_studs(wall, job.settings.metric)
    if bad:
        yield Finding(
            "stud_not_read",
            "fix",
            (wall.tag,),
            "Places of studs can't be read",
            "Write the center from the left end, like 30-1/2, or 2 x 64 for a double.",
            PRACTICE,
            {"texts": ", ".join(each[:40] for each in bad)},
            why=f"Left out: {few_of(each[:40] for each in bad)}.",
        )


@rule
@from_each(Wall)
def stud_past_end(job: Job, wall: Wall) -> Iterator[Finding]:
    """A stud that is entered beyond the right end of its wall."""
    wide = sizes(job).get((wall.tag, "width"))
    if wide is None:
        return
    metric, thick = job.settings.metric, wall.stud_width.nm
    odd = [text for text in wall.odd_studs if any(s.right_nm > wide.least.nm for s in read_odd(text, metric, thick))]
    first = wall.first_stud
    beyond = [said(job, first.nm)] if first is not None and first.nm > wide.least.nm else []
    if beyond or odd:
        yield Finding(
            "stud_past_end",
            "fix",
            (wall.tag,),
            f"Stud entered past the right end of {wall.tag}",
            "Measure from the left end of the wall to the center of the stud, and enter that.",
            "the readings of the wall",
            {"studs": ", ".join([*beyond, *odd]), "width": said(job, wide.least.nm)},
            why=f"Entered: {few_of([*beyond, *odd])}. The wall is {said(job, wide.least.nm)} wide.",
        )


@rule
@from_each(Wall)
def line_against_reading(job: Job, wall: Wall) -> Iterable[Finding]:
    """A ceiling line whose least height is not what the height readings say."""
    read, line = sizes(job).get((wall.tag, "height")), ceilings(job).get(wall.tag)
    floor = floors(job).get(wall.tag)
    if not wall.ceiling_line or read is None or line is None or floor is None:
        return
    heights = [y - floor.at(x, low=False) for x, y in line.points]
    least, greatest = min(heights), max(heights)
    tolerance = job.settings.tolerance.nm
    if read.least.nm < least - tolerance or read.greatest.nm > greatest + tolerance:
        yield Finding(
            "line_against_reading",
            "look",
            (wall.tag, *read.tags),
            "Ceiling line and height readings differ",
            "Read the height again where the ceiling turns, and correct the one that is wrong.",
            PRACTICE,
            {"line": f"{said(job, least)} to {said(job, greatest)}", "readings": said(job, read.least.nm)},
            why=f"The line goes from {said(job, least)} to {said(job, greatest)}; the readings from "
            f"{said(job, read.least.nm)} to {said(job, read.greatest.nm)}.",
        )
