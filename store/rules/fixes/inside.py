"""Shelves in a cabinet, what stands on them, and room before doors and panels: another height, a stand, a hinge."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from msgspec.structs import replace

from store.measure.length import INCH_NM, MM_NM, Length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.inside import ShelfBoard
from store.records.room import Furniture
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.findings import Finding
from store.rules.fit.furniture import met
from store.rules.fixes.fix import Fix, fixes
from store.rules.wall.inside import inside_at, thickness_nm
from store.trade.fit.inside import on_pins, plug_gap_nm

MOST_STEPS = 13


def _step(job: Job) -> int:
    """A step as heights are chosen in this job, nanometres."""
    return 10 * MM_NM if job.settings.metric else INCH_NM // 2


def higher_shelf(job: Job, one: Equipment) -> Iterator[Fix]:
    """The shelf over a thing a step higher at a time, of what is too tall under it."""
    found = inside_at(job, one)
    board = job.of(ShelfBoard).get(found[1].above) if found is not None else None
    if board is None or board.up is None or board.what == "divider":
        return
    for count in range(1, MOST_STEPS + 1):
        up = Length(board.up.nm + count * _step(job))
        yield Fix(f"Set {board.tag} higher", (replace(board, up=up),))


@fixes("shelf_across_box", "cord_past_shelf")
def clear_of_box(job: Job, finding: Finding) -> Iterator[Fix]:
    """A gap behind the shelf; else the shelf higher or lower."""
    board = job.of(ShelfBoard).get(finding.tags[0])
    if board is None:
        return
    yield Fix(f"Leave a gap behind {board.tag}", (replace(board, gap=Length(plug_gap_nm(job.settings.metric))),))
    if finding.rule == "shelf_across_box" and board.up is not None:
        for count in (at * way for at in range(1, MOST_STEPS + 1) for way in (1, -1)):
            if (up := board.up.nm + count * _step(job)) > 0:
                yield Fix(f"Set {board.tag} at another height", (replace(board, up=Length(up)),))


@fixes("shelf_off_pins")
def onto_its_pins(job: Job, finding: Finding) -> Iterator[Fix]:
    """The nearest height at which there are holes."""
    board = job.of(ShelfBoard).get(finding.tags[0])
    opening = job.of(Opening).get(board.opening) if board is not None else None
    if board is None or opening is None or board.up is None or opening.pin_first is None or opening.pin_step is None:
        return
    thick = thickness_nm(board, opening)
    under = board.up.nm - thick
    for height in sorted(
        on_pins(under, opening.pin_first.nm, opening.pin_step.nm) or (), key=lambda at: abs(at - under)
    ):
        yield Fix(f"Set {board.tag} on its pins", (replace(board, up=Length(height + thick)),))


@fixes("stacked_without_space")
def on_a_stand(job: Job, finding: Finding) -> Iterator[Fix]:
    """A stand as high as the manuals ask; a shelf of its own is another plan."""
    one = job.of(Equipment).get(finding.tags[0])
    found = inside_at(job, one) if one is not None else None
    if one is not None and found is not None and found[1].asked_nm:
        yield Fix(f"Put {one.tag} on a stand", (replace(one, raised=Length(found[1].asked_nm)),))
        yield Fix(f"Put {one.tag} on the bottom", (replace(one, stands_on=Ref(str(one.opening)), raised=None),))


@fixes("stands_astray")
def on_what_is_there(job: Job, finding: Finding) -> Iterator[Fix]:
    """The opening that its shelf is in; else the bottom of its own."""
    one, on = job.of(Equipment).get(finding.tags[0]), job.of(ShelfBoard).get(finding.tags[1])
    if one is None:
        return
    if on is not None and on.what != "divider" and on.opening != one.opening:
        yield Fix(f"Put {one.tag} in {on.opening}", (replace(one, opening=Ref(str(on.opening))),))
    yield Fix(f"Put {one.tag} on the bottom of {one.opening}", (replace(one, stands_on=Ref(str(one.opening))),))


@fixes("door_meets_furniture")
def furniture_farther_out(job: Job, finding: Finding) -> Iterator[Fix]:
    """The piece as far from the wall as the door needs; else the door hinged on the other side."""
    opening, one = job.of(Opening).get(finding.tags[0]), job.of(Furniture).get(finding.tags[1])
    if opening is None or one is None:
        return
    for each, free in met(job, opening):
        if each.tag == one.tag and one.moves != "never":
            step = _step(job)
            yield Fix(f"Move {one.tag} away from the wall", (replace(one, off=Length(-(-free // step) * step)),))
    other: dict[str, Literal["left", "right"]] = {"left": "right", "right": "left"}
    if opening.hinge in other:
        yield Fix(f"Hinge {opening.tag} on the other side", (replace(opening, hinge=other[opening.hinge]),))


@fixes("panel_swing_hits")
def other_hinge(job: Job, finding: Finding) -> Iterator[Fix]:
    """The hinge on the side where the leaf swings free."""
    panel = job.of(Panel).get(finding.tags[0])
    sides: tuple[Literal["left", "right"], ...] = ("left", "right")
    for side in sides if panel is not None else ():
        if panel is not None and panel.hinge != side:
            yield Fix(f"Hinge {panel.tag} on the {side}", (replace(panel, hinge=side),))


@fixes("panel_cannot_lift")
def not_lifted(job: Job, finding: Finding) -> Iterator[Fix]:
    """Magnets, which pull straight off."""
    panel = job.of(Panel).get(finding.tags[0])
    if panel is not None:
        yield Fix(f"Hold {panel.tag} with magnets", (replace(panel, opens="magnets"),))


@fixes("shelf_across_panel")
def comes_out_first(job: Job, finding: Finding) -> Iterator[Fix]:
    """The shelf made adjustable, so that it comes out before the panel does."""
    board = job.of(ShelfBoard).get(finding.tags[1])
    if board is not None and board.what == "fixed shelf":
        yield Fix(f"Make {board.tag} adjustable", (replace(board, what="adjustable shelf", held="pins"),))
