"""What stands in the way: what is proud of the face of a wall, and what stands before a panel."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.wall.hung import hung
from store.rules.wall.inside import inside_at
from store.rules.wall.layout import Placed, WallLayout, in_opening, overlapping, walls
from store.rules.wall.pieces import hangs, inside_of, is_hidden
from store.rules.wall.places import equipment_rect
from store.rules.wall.shape import stands_out_nm
from store.trade.measured.plane import Rect


def standing_out(job: Job, wall: WallLayout) -> Iterator[tuple[Placed, int]]:
    """What stands out of the wall's face, as it hangs, and how far."""
    inside_by = in_opening(job)
    for each in wall.openings:
        opening = job.of(Opening)[each.tag]
        for one in inside_by.get(each.tag, ()):
            place = equipment_rect(job, one)
            if place is None or one.depth is None:
                continue
            held = inside_of(opening).depth_nm if one.mounting != "surface only" else 0
            out = one.depth.nm - held if held is not None else 0
            if out > 0:
                yield Placed(one.tag, place.plane), out

    for each in hung(job).get(wall.wall.tag, ()):
        proud = stands_out_nm(job, job.of(Equipment)[each.tag])
        if proud:
            yield each, proud


@by_key
def standing_before(job: Job) -> Mapping[str, tuple[str, ...]]:
    """What stands in front of each panel, by its tag: in the opening it lies in, or proud of the wall beside one.

    A piece whose place in its opening is not known is counted, unless it is a light or the like.
    """
    found: dict[str, dict[str, None]] = {}
    for wall in walls(job).values() if job.of(Panel) else ():
        for panel, opening in overlapping(wall.panels, wall.openings):
            for one in in_opening(job).get(opening.tag, ()):
                if _covers(job, one, panel.rect):
                    found.setdefault(panel.tag, {})[one.tag] = None
        ahead = [each for each, _ in standing_out(job, wall)] if wall.panels else []
        for panel, thing in overlapping(wall.panels, ahead):
            found.setdefault(panel.tag, {})[thing.tag] = None
        for panel, thing in overlapping(wall.panels, hung(job).get(wall.wall.tag, ())) if wall.panels else ():
            found.setdefault(panel.tag, {})[thing.tag] = None
    return {tag: tuple(things) for tag, things in found.items()}


def _covers(job: Job, one: Equipment, rect: Rect) -> bool:
    """Whether a piece stands before a panel. Of what stands on no shelf that it names its width alone tells."""
    place = equipment_rect(job, one)
    if place is None:
        return not is_hidden(one)
    beside = place.right <= rect.x_nm or rect.right_nm <= place.x
    if hangs(one) or inside_at(job, one) is not None:
        return not beside and place.y < rect.top_nm and rect.y_nm < place.top
    return one.offset is None or not beside
