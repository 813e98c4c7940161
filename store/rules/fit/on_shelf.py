"""The room of a thing that says what it stands on: the space over its shelf, and what is stacked there."""

from __future__ import annotations

from itertools import pairwise

import msgspec

from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.wall.inside import Inside, Shared, Stand, inside_at, on_top_of
from store.rules.wall.pieces import nm_of
from store.trade.fit.pieces import Row, Size


class Room(msgspec.Struct, frozen=True):
    """What a thing needs of the space it stands in, and what there is."""

    needs_height_nm: int | None
    """From the shelf up to its own top, with what is under it; None while a height is not known."""
    inside: Size
    """Width of the space, height up to what is over it, depth of the opening."""
    row: Row | None
    """How it stands beside others; None for what stands on other gear."""
    left_nm: int | None
    """Free at its left beyond every clearance; None while a clearance is not known, or on other gear."""
    right_nm: int | None
    missing: tuple[str, ...]
    """Figures of the stack that are not known."""
    stand: Stand
    topmost: bool
    """Nothing stands on it."""


def room_of(job: Job, one: Equipment, depth_nm: int | None) -> Room | None:
    """The room of a thing that says what it stands on; None for other things."""
    found = inside_at(job, one)
    if found is None:
        return None
    there, stand = found
    stack = [one, *(job.of(Equipment)[tag] for tag in stand.below)]
    unknown = [f"height of {each.tag}" for each in stack[1:] if each.height is None]
    for upper, lower in pairwise(stack):
        unknown += [f"clearance above {lower.tag}"] if lower.clear_top is None else []
        unknown += [f"clearance below {upper.tag}"] if upper.clear_bottom is None else []
    base = stack[-1]
    foot = max(0, (nm_of(base.clear_bottom) or 0) - (nm_of(base.raised) or 0))
    whole = stand.top_nm - stand.space.bottom_nm + foot
    known = one.height is not None and not any(each.startswith("height") for each in unknown)
    shared = next((each for each in there.rows if one.tag in each.tags), None)
    left, right = _beside(job, there, shared, stand) if shared is not None else (None, None)
    return Room(
        whole if known else None,
        Size(stand.space.width_nm, stand.ceiling_nm - stand.space.bottom_nm, depth_nm),
        shared.row if shared is not None else None,
        left,
        right,
        tuple(unknown),
        stand,
        not on_top_of(there, one.tag),
    )


def _beside(job: Job, there: Inside, shared: Shared, stand: Stand) -> tuple[int | None, int | None]:
    """What is free at both sides of a thing in its row beyond what the manuals ask for."""
    at = shared.tags.index(stand.tag)
    one, devices = job.of(Equipment)[stand.tag], job.of(Equipment)
    before = devices[shared.tags[at - 1]] if at else None
    after = devices[shared.tags[at + 1]] if at + 1 < len(shared.tags) else None
    edge_left = there.stands[before.tag].right_nm if before is not None else shared.space.left_nm
    edge_right = there.stands[after.tag].left_nm if after is not None else shared.space.right_nm
    asked_left = [nm_of(one.clear_left), nm_of(before.clear_right) if before is not None else 0]
    asked_right = [nm_of(one.clear_right), nm_of(after.clear_left) if after is not None else 0]
    left = None if None in asked_left else stand.left_nm - edge_left - max(each or 0 for each in asked_left)
    right = None if None in asked_right else edge_right - stand.right_nm - max(each or 0 for each in asked_right)
    return left, right
