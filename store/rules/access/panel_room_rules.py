"""Findings about the room that an access panel needs: to swing, to lift off, and before it for a person."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.length import INCH_NM
from store.records.access import Panel
from store.records.inside import ShelfBoard
from store.records.room import Furniture
from store.records.whole import Job
from store.rules.access.means import PRACTICE
from store.rules.access.panel_contents import before_panels
from store.rules.access.reaching import cabinet_of
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_least, listed, named, said, sized, were
from store.rules.fit.furniture import SIDES, SWINGING, Side, furniture_before, hit_by_leaf, work_nm
from store.rules.wall.hung import hung
from store.rules.wall.inside import insides
from store.rules.wall.lines import ceilings
from store.rules.wall.places import board_rect, rect_of
from store.rules.wall.readings import sizes
from store.rules.wall.shape import spot
from store.trade.measured.plane import Rect, overlap_rect

PLANE = "Plane geometry"
LIFT_NM = INCH_NM // 2
"""A lift-out cover is raised so much before its foot comes out: common practice; the manufacturer's figure wins."""


@rule
@from_each(Panel)
def panel_behind_furniture(job: Job, panel: Panel) -> Iterable[Finding]:
    """An access panel that furniture stands in front of, or upon: it has to be moved first, if it can be."""
    tags = furniture_before(job).get(panel.tag, ())
    rect = rect_of(panel)
    if not tags or rect is None:
        return
    things = [job.of(Furniture)[tag] for tag in tags]
    never = [one.tag for one in things if one.moves == "never"]
    work = work_nm(job.settings.metric)
    swings = _swing(job, panel, things)
    needs, how = work, "a person needs to work at it"
    if swings > work:
        needs, how = swings, "its leaf needs to swing open"
    upon = panel.face == "floor"
    nearest = min(one.off.nm for one in things) - _front(job, panel)
    what = listed(list(never or tags))
    yield Finding(
        "panel_behind_furniture",
        "fix" if never else "look",
        (panel.tag, *tags),
        f"{what} {were(len(never or tags), 'is', 'are')} {'on' if upon else 'in front of'} it",
        f"Keep {said(job, needs)} free in front of it, or put the panel somewhere else."
        if never and not upon
        else "Put the panel elsewhere."
        if never
        else f"Move {'it' if len(tags) == 1 else 'them'} first: check that whoever opens it can do that.",
        PRACTICE,
        {
            "free": said(job, max(0, nearest)),
            "needs": said(job, needs),
            "moves": ", ".join(one.moves for one in things),
        },
        why=f"{listed([named(job, tag) for tag in tags])} {were(len(tags), 'is', 'are')} on it."
        if upon
        else f"{named(job, tags[0])} is {said(job, max(0, nearest))} in front of it; {how} {said(job, needs)}.",
        about=(panel.tag,),
    )


def _front(job: Job, panel: Panel) -> int:
    place = spot(job, panel.tag)
    return place.out_nm if place is not None else 0


def _swing(job: Job, panel: Panel, things: list[Furniture]) -> int:
    """How far out a leaf swings that runs into furniture however it may be hinged; 0 where it opens."""
    rect = rect_of(panel)
    if rect is None or panel.opens not in SWINGING or panel.face == "floor":
        return 0
    leaf, front = rect.plane, _front(job, panel)
    sides: tuple[Side, ...] = SIDES[:2] if panel.hinge == "unknown" else (panel.hinge,)
    if not all(any(hit_by_leaf(one, leaf, front, side) for one in things) for side in sides):
        return 0
    return leaf.width_nm if sides[0] in ("left", "right") else leaf.height_nm


@rule
@from_each(Panel)
def panel_swing_hits(job: Job, panel: Panel) -> Iterable[Finding]:
    """A swinging access panel that runs into furniture with its hinge where it is planned, and would not at another."""
    rect = rect_of(panel)
    tags = furniture_before(job).get(panel.tag, ())
    if rect is None or panel.opens not in SWINGING or panel.hinge == "unknown" or not tags or panel.face == "floor":
        return
    leaf, front = rect.plane, _front(job, panel)
    things = [job.of(Furniture)[tag] for tag in tags]
    hits = [one.tag for one in things if hit_by_leaf(one, leaf, front, panel.hinge)]
    free = [side for side in SIDES[:2] if not any(hit_by_leaf(one, leaf, front, side) for one in things)]
    if hits and free:
        yield Finding(
            "panel_swing_hits",
            "fix",
            (panel.tag, *hits),
            f"Runs into {listed(hits)} as it swings open",
            f"Hinge it on the {free[0]}, or make it lift out.",
            PLANE,
            {"hinge": panel.hinge, "leaf": sized(job, leaf.width_nm)},
            why=f"Hinged on the {panel.hinge}, its {sized(job, leaf.width_nm)} leaf hits {named(job, hits[0])}.",
            about=(panel.tag,),
        )


@rule
@from_each(Panel)
def panel_cannot_lift(job: Job, panel: Panel) -> Iterable[Finding]:
    """A lift-out cover with no room above it to be raised."""
    rect = rect_of(panel)
    if rect is None or panel.opens != "lift-out" or panel.face in ("ceiling", "floor"):
        return
    above = min(_above(job, panel, rect.plane), default=None)
    if above is not None and above[0] < LIFT_NM:
        free, what = above
        yield Finding(
            "panel_cannot_lift",
            "fix",
            (panel.tag, *((what,) if job.get(what) is not None else ())),
            f"No room to lift it out, {what} above",
            f"Leave {at_least(job, LIFT_NM)} free above it, or fasten it with screws or magnets.",
            f"{PRACTICE}; the manufacturer's figure wins",
            {"free": sized(job, free), "needs": sized(job, LIFT_NM)},
            why=f"It is raised {sized(job, LIFT_NM)} before it comes out; {what} is {sized(job, free)} above it.",
            about=(panel.tag,),
        )


def _above(job: Job, panel: Panel, rect: Rect) -> Iterator[tuple[int, str]]:
    """How far above a panel each thing is that is in its way up, and what it is."""
    line = ceilings(job).get(panel.wall)
    if line is not None:
        yield max(0, line.lowest(rect.x_nm, rect.right_nm) - rect.top_nm), "the ceiling"
    for each in hung(job).get(panel.wall, ()):
        if each.rect.x_nm < rect.right_nm and rect.x_nm < each.rect.right_nm and each.rect.y_nm >= rect.top_nm:
            yield each.rect.y_nm - rect.top_nm, each.tag
    for opening in _cabinets(job, panel):
        there = insides(job).get(opening)
        for laid in there.boards if there is not None else ():
            board = board_rect(job, laid.tag)
            if board is not None and board.x < rect.right_nm and rect.x_nm < board.right and board.y >= rect.top_nm:
                yield board.y - rect.top_nm, laid.tag


def _cabinets(job: Job, panel: Panel) -> tuple[str, ...]:
    named_one = cabinet_of(job, panel)
    return (named_one.tag,) if named_one is not None else before_panels(job).get(panel.tag, ())


@rule
@from_each(Panel)
def shelf_across_panel(job: Job, panel: Panel) -> Iterable[Finding]:
    """A fixed shelf or a divider that runs across a panel in the back of its cabinet: it comes off no more."""
    rect = rect_of(panel)
    if rect is None or panel.face in ("ceiling", "floor", "cabinet left side", "cabinet right side"):
        return
    seen = rect.plane
    for opening in _cabinets(job, panel):
        there = insides(job).get(opening)
        for laid in there.boards if there is not None else ():
            board, made = board_rect(job, laid.tag), job.of(ShelfBoard)[laid.tag]
            if board is None or made.what == "adjustable shelf":
                continue
            if overlap_rect(seen, board.plane) is None:
                continue
            yield Finding(
                "shelf_across_panel",
                "fix",
                (panel.tag, laid.tag, opening),
                f"{laid.tag} runs across it",
                f"Move {panel.tag} or {laid.tag}, or make the shelf adjustable so that you can take it out."
                if not laid.divider
                else f"Move {panel.tag} or {laid.tag}.",
                PLANE,
                {"top": said(job, board.top), "panel": said(job, rect.y)},
                why=f"{named(job, laid.tag)} is fixed in {named(job, opening)}, right in front of the panel.",
                about=(panel.tag,),
            )


@rule
@from_each(Panel)
def panel_of_which_cabinet(job: Job, panel: Panel) -> Iterable[Finding]:
    """A panel in the side of a cabinet that nobody named, or in a ceiling that stands nowhere."""
    if panel.face in ("cabinet left side", "cabinet right side") and cabinet_of(job, panel) is None:
        yield Finding(
            "panel_of_which_cabinet",
            "fix",
            (panel.tag,),
            "In the side of which cabinet?",
            "Enter the cabinet that it is in.",
            PRACTICE,
            {"in": str(panel.on) or "none"},
            why=f"Its face is the {panel.face}, and no cabinet is entered.",
            about=(panel.tag,),
        )


@rule
@from_each(Panel)
def panel_off_face(job: Job, panel: Panel) -> Iterable[Finding]:
    """A panel in a ceiling, a floor, or the side or the back of a cabinet that is not whole in it."""
    rect, bounds = rect_of(panel), _bounds(job, panel)
    if rect is None or bounds is None:
        return
    own = rect.plane
    over = max(
        bounds.x_nm - own.x_nm, own.right_nm - bounds.right_nm, bounds.y_nm - own.y_nm, own.top_nm - bounds.top_nm
    )
    if over > 0:
        cabinet = cabinet_of(job, panel) if panel.face in CABINET else None
        where = f"{panel.face} of {cabinet.tag if cabinet is not None else panel.wall}"
        yield Finding(
            "panel_off_face",
            "fix",
            (panel.tag, cabinet.tag if cabinet is not None else str(panel.wall)),
            f"{sized(job, over)} past the edge of the {panel.face}",
            "Move it or make it smaller, or correct its place. In a ceiling or a floor up is out from the wall; in a "
            "cabinet's side across is from its back to its front.",
            PLANE,
            {"over": sized(job, over)},
            why=f"It is {sized(job, own.width_nm)} by {sized(job, own.height_nm)}; not all of it is in the {where}.",
            about=(panel.tag,),
        )


CABINET = ("cabinet back", "cabinet left side", "cabinet right side")
FARTHEST_NM = 1000 * INCH_NM
"""A ceiling goes on into the room as far as anybody would enter a panel."""


def _bounds(job: Job, panel: Panel) -> Rect | None:
    """The face of a panel that is in none of a wall or a build-out, in its own places; None while it is not known."""
    if panel.face in ("ceiling", "floor"):
        wide = sizes(job).get((panel.wall, "width"))
        return Rect(0, 0, wide.least.nm, FARTHEST_NM) if wide is not None else None
    cabinet = cabinet_of(job, panel) if panel.face in CABINET else None
    around = rect_of(cabinet) if cabinet is not None else None
    if cabinet is None or around is None or cabinet.depth is None:
        return None
    if panel.face == "cabinet back":
        return around.plane
    return Rect(0, around.y, cabinet.depth.nm, around.height)
