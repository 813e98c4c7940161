"""Findings about the size and the place of a panel: what must get through it, and whether it comes open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.mass import mass_text
from store.records.access import Panel, Visit
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Opening, Wall
from store.records.whole import Job
from store.rules.access.means import PRACTICE, blocked_panels
from store.rules.access.panel_contents import before_panels, panel_contents
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.memo import once
from store.rules.core.wording import at_most, listed, named, paired, plural, said, sized
from store.rules.fit.in_front import standing_before
from store.rules.wall.layout import Placed, WallLayout, overlapping, walls
from store.rules.wall.pieces import in_use, inside_of
from store.rules.wall.shape import face_of
from store.rules.wall.uprights import studs_at
from store.trade.fit.access_sizes import Way, framed_nm, held_through, least, lets_through, part_through, usual
from store.trade.fit.pieces import Size
from store.trade.measured.framing import BORE_SOURCE, Stud, studs_cut
from store.trade.measured.plane import inside, overlap_rect

LIGHT = ("player", "streamer", "console", "recorder", "router", "switch", "extender", "strip")
"""Sorts that one hand draws forward where no weight is entered. Common practice."""
ONE_LIFTS_UG = 35 * 453_592_370
"""35 lb: what one person lifts forward off a shelf. Common practice, no source."""


@once
def opened(job: Job) -> frozenset[str]:
    """The panels that somebody has worked through already, by the log."""
    return frozenset(str(visit.panel) for visit in job.of(Visit).values())


@rule
@from_each(Panel)
def panel_too_small(job: Job, panel: Panel) -> Iterable[Finding]:
    """A clear opening that what must pass does not get through."""
    tag = panel.tag
    asked = least(panel.passes, job.settings.metric)
    if panel.width is None or panel.height is None or lets_through(panel.width.nm, panel.height.nm, asked):
        return
    has, wants = paired(job, panel.width.nm, panel.height.nm), _way_text(job, asked)
    yield Finding(
        "panel_too_small",
        "fix",
        (tag,),
        f"Access panel too small for {_task(panel)}",
        f"Make it larger while the wall is open: {_pair(job, usual(panel.passes, job.settings.metric))} is usual.",
        asked.source,
        {"clear": has, "least": wants},
        why=f"Clear opening {_pair(job, panel)}; {_task(panel)} needs at least {_pair(job, asked)}.",
    )


@rule
@from_each(Panel)
def panel_tight(job: Job, panel: Panel) -> Iterable[Finding]:
    """A clear opening below what is usual, through which nobody has worked yet."""
    tag = panel.tag
    if panel.width is None or panel.height is None or tag in opened(job):
        return
    size = panel.width.nm, panel.height.nm
    metric = job.settings.metric
    wanted = usual(panel.passes, metric)
    if lets_through(*size, least(panel.passes, metric)) and not lets_through(*size, wanted):
        has, wants = paired(job, *size), _way_text(job, wanted)
        yield Finding(
            "panel_tight",
            "look",
            (tag,),
            f"Tight access panel for {_task(panel)}",
            "Try it before close-in and log the visit, or make it larger.",
            PRACTICE,
            {"clear": has, "usual": wants},
            why=(f"Clear opening {_pair(job, panel)}; {_pair(job, wanted)} is usual for {_task(panel)}."),
        )


@rule
@from_each(Panel)
def part_does_not_pass(job: Job, panel: Panel) -> Iterable[Finding]:
    """Equipment that is swapped through a panel and does not go through it, or not with hands on it."""
    tag = panel.tag
    if panel.width is None or panel.height is None:
        return
    for each in parts_of(job, panel):
        one = job.of(Equipment)[each]
        part = Size(*(side.nm if side else None for side in (one.width, one.height, one.depth)))
        size = panel.width.nm, panel.height.nm
        has = paired(job, *size)
        verdict = part_through(part, *size).verdict
        if verdict == "does not fit":
            yield Finding(
                "part_does_not_pass",
                "fix",
                (tag, each),
                f"Part does not fit through {tag}",
                (
                    "Make the access panel larger, or put the part where other access reaches it. Never "
                    "take anything "
                    "off the part to make it pass."
                ),
                "Manufacturer's size; geometry",
                {"clear": has, "part": _part_text(job, part)},
                why=(
                    f"{named(job, each)} must come out through {named(job, tag)}. It does not fit through "
                    f"{_pair(job, panel)} "
                    "whichever way you turn it."
                ),
                about=(each,),
            )
        elif held_through(part, *size) is False:
            yield Finding(
                "part_passes_unheld",
                "look",
                (tag, each),
                f"No room for hands through {tag}",
                "Try it before close-in, or make the access panel larger.",
                "MIL-STD-1472, hand room around a box gripped by its sides (from memory)",
                {"clear": has, "part": _part_text(job, part)},
                why=(
                    f"{named(job, each)} fits through {named(job, tag)} ({_pair(job, panel)} clear), but "
                    "not with hands at its "
                    "sides."
                ),
                about=(each,),
            )


def parts_of(job: Job, panel: Panel) -> tuple[str, ...]:
    """The equipment that is swapped through a panel: the part named for it, and what is said to be behind it."""
    found = [str(panel.part), *panel_contents(job)[panel.tag].said]
    return tuple(tag for tag in dict.fromkeys(found) if tag in job.of(Equipment) and in_use(job.get(tag)))


@rule
def panel_not_measured(job: Job) -> Iterable[Finding]:
    """Panels that things rely on, and whose clear size nobody noted: one finding."""
    open_ = [
        tag
        for tag, one in job.of(Panel).items()
        if (one.width is None or one.height is None) and (panel_contents(job)[tag].said or one.holds)
    ]
    if open_:
        yield Finding(
            "panel_not_measured",
            "look",
            tuple(open_),
            "No clear size entered",
            "Measure what a hand gets through, and enter it.",
            PRACTICE,
            {"not noted": ", ".join(open_)},
            why="Without the clear width and height, what fits through can't be checked.",
        )


@rule
@from_each(Panel)
def panel_is_blocked(job: Job, panel: Panel) -> Iterable[Finding]:
    """A panel that something fixed stands in front of: it gives access to nothing."""
    tag, piece = panel.tag, blocked_panels(job).get(panel.tag)
    if piece is None:
        return
    yield Finding(
        "panel_is_blocked",
        "fix",
        (tag, piece),
        f"Access panel blocked by {piece}",
        "Move the access panel to where nothing fixed is in front of it.",
        PRACTICE,
        {"in front": piece},
        why=f"{named(job, piece)} is fixed in front of it, so the panel can't open.",
        about=(tag,),
    )


@rule
@from_each(Wall)
def panel_on_stud(job: Job, record: Wall) -> Iterable[Finding]:
    """A panel in the face of the wall that studs run through, by their layout."""
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    for each, cut in _on_studs(job, wall):
        face = face_of(job, each.tag)
        front = job.of(BuildOut).get(face.out) if face is not None else None
        stands = front if front is not None else wall.wall
        bears = stands.bearing != "no"
        at = listed([said(job, stud.centre_nm) for stud in cut])
        widest = max((bay.clear_nm for bay in wall.bays), default=0)
        yield Finding(
            "panel_on_stud",
            "fix" if bears else "look",
            (each.tag, stands.tag),
            "Access panel over studs",
            f"Move it into a stud bay (up to {at_most(job, widest)} wide)"
            + (
                ". Cut no stud until a licensed professional has said what it carries."
                if bears
                else ", or have the rough opening framed with a header and trimmers."
            ),
            f"{BORE_SOURCE}; size of the framed hole: {PRACTICE}",
            {"studs": at, "bearing": stands.bearing},
            why=(
                f"{plural(len(cut), 'stud')} of {stands.tag} would run through it, {at} from the left. Its "
                f"rough opening is {sized(job, framed_nm(each.rect.width_nm))} wide."
            ),
            about=(each.tag,),
        )


def _on_studs(job: Job, wall: WallLayout) -> Iterator[tuple[Placed, tuple[Stud, ...]]]:
    for each in wall.panels if wall.studs else ():
        if each.tag in before_panels(job):
            continue  # in the back of a cabinet or a recess: the opening is what is framed
        extra = (framed_nm(each.rect.width_nm) - each.rect.width_nm) // 2
        left, right = each.rect.x_nm - extra, each.rect.right_nm + extra
        face = face_of(job, each.tag)
        there = studs_at(job, wall.wall.tag, each.rect.y_nm, each.rect.top_nm, face.out if face else "")
        if cut := studs_cut(there, left, right):
            yield each, cut


@rule
@from_each(Wall)
def panel_across_edge(job: Job, record: Wall) -> Iterable[Finding]:
    """A panel that is partly in an opening and partly beside it: it would be cut through by the edge.

    A shelf lies flat, and a door or a panel as large as the opening is its front: those are left alone.
    """
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    for each, opening in overlapping(wall.panels, wall.openings) if wall.panels else ():
        front = job.of(Panel)[each.tag].opens in ("removable shelf", "door")
        if front or inside(each.rect, opening.rect) or inside(opening.rect, each.rect):
            continue
        yield Finding(
            "panel_across_edge",
            "fix",
            (each.tag, opening.tag),
            f"Access panel crosses the edge of {opening.tag}",
            (
                "Move it or make it smaller, so that all of it is in the back of the opening, or all of it beside "
                "the opening."
            ),
            "geometry",
            _shared(job, each, opening),
            why=f"{each.tag} is partly in {named(job, opening.tag)} and partly beside it.",
            about=(each.tag,),
        )


@rule
@from_each(Wall)
def panels_overlap(job: Job, record: Wall) -> Iterable[Finding]:
    """Two panels that take the same place on a wall."""
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    for one, other in overlapping(wall.panels):
        first, second = sorted((one, other), key=lambda each: (len(each.tag), each.tag))
        yield Finding(
            "panels_overlap",
            "fix",
            (first.tag, second.tag),
            "Access panels overlap",
            "Measure both again. Move one, or make one panel of the two.",
            "geometry",
            _shared(job, first, second),
            why=f"{named(job, first.tag)} and {named(job, second.tag)} are in the same place.",
        )


def _shared(job: Job, one: Placed, other: Placed) -> dict[str, str]:
    shared = overlap_rect(one.rect, other.rect)
    return {"shared": paired(job, shared.width_nm, shared.height_nm)} if shared is not None else {}


@rule
@from_each(Panel)
def panel_cannot_swing(job: Job, record: Panel) -> Iterable[Finding]:
    """A hinged panel in the back of a cabinet that has no depth to swing in."""
    tag, openings = record.tag, before_panels(job).get(record.tag)
    if openings is None:
        return
    panel = job.of(Panel)[tag]
    if panel.opens not in ("hinged", "door", "touch latch") or panel.width is None or panel.height is None:
        return
    leaf = min(panel.width.nm, panel.height.nm)
    for each in openings:
        depth = inside_of(job.of(Opening)[each]).depth_nm
        if depth is not None and depth < leaf:
            yield Finding(
                "panel_cannot_swing",
                "fix",
                (tag, each),
                f"Hinged panel can't swing open in {each}",
                "Make it lift out, or fasten it with screws or magnets.",
                "geometry",
                {"leaf": said(job, leaf), "depth": said(job, depth)},
                why=(
                    f"The panel's narrow side is {sized(job, leaf)}; {named(job, each)} is "
                    f"{sized(job, depth)} "
                    "deep inside."
                ),
                about=(tag,),
            )


@rule
def panel_behind_things(job: Job) -> Iterable[Finding]:
    """Panels before which something stands that is not fixed, so that it comes out before them: one finding."""
    before = {
        tag: [each for each in things if each != blocked_panels(job).get(tag) and not _slides_out(job, each)]
        for tag, things in standing_before(job).items()
    }
    before = {tag: things for tag, things in before.items() if things}
    if before:
        told = [
            f"{named(job, tag)}: {listed([_heavy(job, each) for each in things])}" for tag, things in before.items()
        ]
        yield Finding(
            "panel_behind_things",
            "look",
            tuple(before),
            "Something in front of the access panel" if len(before) == 1 else "Something in front of access panels",
            (
                "Check that whoever opens it can lift that out by themselves and then reach the screws, magnets or "
                "latch. Otherwise move one of them."
            ),
            PRACTICE,
            {tag: ", ".join(things) for tag, things in before.items()},
            why=f"You have to take this out first: {'; '.join(told)}.",
        )


def _slides_out(job: Job, tag: str) -> bool:
    """True for light gear on a shelf, which is drawn forward with one hand: by its weight, else by what it is."""
    one = job.of(Equipment)[tag]
    if one.weight is None:
        return one.what in LIGHT and one.mounting in ("shelf", "unknown")
    return one.mounting == "shelf" and one.weight.ug <= ONE_LIFTS_UG


def _heavy(job: Job, tag: str) -> str:
    one = job.of(Equipment)[tag]
    return named(job, tag) + (f", {mass_text(one.weight, job.settings.metric)}" if one.weight is not None else "")


def _pair(job: Job, one: Panel | Way) -> str:
    """The clear size of a panel, or what must pass: `12" x 10"`."""
    if isinstance(one, Way):
        return paired(job, one.width_nm, one.height_nm)
    return paired(job, one.width.nm if one.width else 0, one.height.nm if one.height else 0)


def _way_text(job: Job, way: Way) -> str:
    return paired(job, way.width_nm, way.height_nm)


def _task(panel: Panel) -> str:
    return "the hand that holds a part" if panel.passes == "a part" else panel.passes


def _part_text(job: Job, part: Size) -> str:
    sides = (part.width_nm, part.height_nm, part.depth_nm)
    return " x ".join("?" if side is None else sized(job, side) for side in sides)
