"""Findings about what stands round a heater: a TV, a mantel, shelves and cabinets nearer than its manual allows.

Inside its opening the clearances round the body count, which are told elsewhere. These are measured from the body out
to what burns above, beside and in front of it. No figure stands in for one that the manual does not give.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

import msgspec

from store.measure.errors import BadValue, quoted
from store.measure.length import Length, parse_length
from store.records.equipment import Equipment
from store.records.wall import Opening, Zone
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import by_key, filed, from_each
from store.rules.core.wording import compared, few_of, listed, named
from store.rules.fit.furniture import from_front, furniture_at
from store.rules.heat.heater import manual
from store.rules.wall.contents import opening_of_box
from store.rules.wall.hung import body as body_of_box
from store.rules.wall.hung import hung
from store.rules.wall.layout import walls
from store.rules.wall.pieces import gives_heat
from store.rules.wall.places import equipment_rect, wall_of
from store.rules.wall.shape import front_nm, rect_on, spot, stands_out_nm
from store.trade.measured.plane import Rect, overlap_rect

AHEAD = "in front of"
BURNS = ("screen", "mantel", "floating shelf", "floating cabinet", "picture", "soundbar", "speaker")
"""Kinds of thing on a face that heat does harm to, or that burn."""


class Near(msgspec.Struct, frozen=True):
    """Something beside or above a heater, and how far away."""

    tag: str
    side: str
    """`above`, `beside` or `in front of`."""
    gap_nm: int
    what: str
    depth_nm: int | None
    """How far it comes out from the wall, where that is known."""


@by_key
def round_heaters(job: Job) -> dict[str, tuple[Near, ...]]:
    """What is above, beside and in front of each heater on its wall: things on the face, openings for other things,
    finishes that burn, and furniture."""
    found = {}
    for tag, one in job.of(Equipment).items():
        rect, wall = equipment_rect(job, one), walls(job).get(wall_of(job, tag))
        if not gives_heat(one) or one.retired is not None or rect is None or wall is None:
            continue
        body = rect.plane
        near = [
            *_things(job, body, wall.wall.tag, tag),
            *_finishes(job, body, wall.wall.tag),
            *_furniture(job, one, body, wall.wall.tag),
            *(
                each
                for place in wall.openings
                if place.tag != one.opening and job.of(Opening)[place.tag].use != "fireplace"
                for each in _placed(place.tag, job.of(Opening)[place.tag].use, body, place.rect, None)
            ),
        ]
        found[tag] = tuple(sorted(near, key=lambda each: each.gap_nm))
    return found


def _things(job: Job, body: Rect, wall: str, heater: str) -> Iterator[Near]:
    for place in hung(job).get(wall, ()):
        one = job.of(Equipment)[place.tag]
        if place.tag != heater and one.what in BURNS:
            out = one.off_wall.nm if one.off_wall is not None else 0
            depth = one.depth.nm + out if one.depth is not None else None
            yield from _placed(place.tag, one.what, body, place.rect, depth)


def _finishes(job: Job, body: Rect, wall: str) -> Iterator[Near]:
    """The zones of a finish that burns; of what the heater itself is on another rule tells."""
    for tag, zone in job.of(Zone).items():
        rect = rect_on(job, tag)
        if zone.wall == wall and zone.burns == "yes" and rect is not None and zone.face in ("nearest", "wall", "front"):
            yield from _placed(tag, "finish", body, rect, None)


def _furniture(job: Job, heater: Equipment, body: Rect, wall: str) -> Iterator[Near]:
    """Furniture before the heater, by how far it is from the heater's front; and beside it, against the wall."""
    front = _front_nm(job, heater)
    for piece in furniture_at(job).get(wall, ()):
        rect = from_front(piece)
        ahead = piece.off.nm - front
        if overlap_rect(rect, body) is not None and ahead >= 0:
            yield Near(piece.tag, AHEAD, ahead, "furniture", piece.depth.nm)
        elif ahead <= 0:
            yield from _placed(piece.tag, "furniture", body, rect, piece.depth.nm)


def _front_nm(job: Job, heater: Equipment) -> int:
    """How far the front of a heater is out from its wall's own face: of one in an opening the front of that."""
    around = job.of(Opening).get(heater.opening)
    if around is not None:
        return front_nm(job, around)
    place, proud = spot(job, heater.tag), stands_out_nm(job, heater)
    return (place.out_nm if place is not None else 0) + (proud or 0)


def _placed(tag: str, what: str, body: Rect, rect: Rect, depth: int | None) -> Iterator[Near]:
    if rect.x_nm < body.right_nm and rect.right_nm > body.x_nm and rect.y_nm >= body.top_nm:
        yield Near(tag, "above", rect.y_nm - body.top_nm, what, depth)
    elif rect.y_nm < body.top_nm and rect.top_nm > body.y_nm:
        gap = rect.x_nm - body.right_nm if rect.x_nm >= body.right_nm else body.x_nm - rect.right_nm
        if gap >= 0:
            yield Near(tag, "beside", gap, what, depth)


def mantel_heights(one: Equipment, metric: bool) -> list[tuple[int, int]]:
    """The table of a manual: depth of a mantel and the least height above the unit for it, nm, shallowest first.

    Raises BadValue where a pair cannot be read.
    """
    found = []
    for text in one.mantel:
        # With spaces about it the stroke between the two is told from that of a fraction.
        first, stroke, last = text.partition(" / ") if " / " in text else text.partition("/")
        if not stroke:
            raise BadValue(f"{quoted(text)} is not a pair. Write depth/height, like 6/10.")
        depth, height = parse_length(first, metric), parse_length(last, metric)
        found.append((depth.nm, height.nm))
    return sorted(found)


def least_height(table: list[tuple[int, int]], depth_nm: int) -> int | None:
    """The height that a table asks for at a depth, nm: on the line between its two nearest depths, rounded up.

    At less than its smallest depth that of the smallest; None beyond its greatest: the manual gives no figure. Linear
    interpolation between printed figures: common practice, and never below the line between them.
    """
    if not table or depth_nm > table[-1][0]:
        return None
    low = (0, table[0][1])
    for depth, height in table:
        if depth_nm <= depth:
            along = Fraction(depth_nm - low[0], depth - low[0]) if depth > low[0] else Fraction(1)
            exact = low[1] + along * (height - low[1])
            return -(-exact.numerator // exact.denominator)
        low = (depth, height)
    return None


def _asks(one: Equipment, near: Near, metric: bool) -> int | None:
    """How far away the manual wants it, nm; None where it is not entered."""
    keep: Length | None
    if near.side == AHEAD:
        keep = one.clear_front
    elif near.side == "beside":
        keep = one.keep_sides
    elif near.what == "mantel" and one.mantel:
        try:
            table = mantel_heights(one, metric)
        except BadValue:
            return None
        return least_height(table, near.depth_nm) if near.depth_nm is not None else None
    else:
        keep = one.keep_screen if near.what == "screen" and one.keep_screen is not None else one.keep_above
    return keep.nm if keep is not None else None


@rule
@from_each(Equipment)
def too_near_heat(job: Job, one: Equipment) -> Iterable[Finding]:
    """A TV, a mantel, a shelf or a cabinet nearer to a heater than its manual allows."""
    for near in round_heaters(job).get(one.tag, ()):
        asked = _asks(one, near, job.settings.metric)
        if asked is None or near.gap_nm >= asked:
            continue
        both = compared(job, near.gap_nm, asked)
        yield Finding(
            "too_near_heat",
            "stop",
            (near.tag, one.tag),
            f"{both.have} {near.side} the heater {one.tag}",
            f"Move {near.tag} to at least {both.need} from the top of {one.tag}, or pick a unit that allows "
            "less. Never change the appliance."
            if near.side == "above"
            else f"Keep {both.need} between {near.tag} and {one.tag}. Never change the appliance.",
            manual(job),
            {"gap": both.have, "asks": both.need},
            why=f"{named(job, near.tag)} is {both.have} {near.side} {named(job, one.tag)}. The manual "
            f"asks for {both.need}.",
            about=(near.tag,),
        )


@rule
@from_each(Equipment)
def box_near_heater(job: Job, one: Equipment) -> Iterable[Finding]:
    """A box on the wall above or beside a heater, within what its manual keeps clear."""
    for near, on_right in _boxes_round(job).get(one.tag, ()):
        asked = _keeps_clear(one, near.side, on_right=on_right)
        if near.gap_nm >= asked:
            continue
        both = compared(job, near.gap_nm, asked)
        yield Finding(
            "box_near_heater",
            "fix",
            (near.tag, one.tag),
            f"{both.have} {near.side} the heater {one.tag}",
            f"Move {near.tag} to at least {both.need} from {one.tag}. No cord can hang in front of its warm air.",
            manual(job),
            {"gap": both.have, "asks": both.need},
            why=f"{named(job, near.tag)} is {both.have} {near.side} {named(job, one.tag)}. The manual keeps "
            f"{both.need} clear there.",
            about=(near.tag,),
        )


@by_key
def _kept_clear(job: Job) -> Mapping[str, tuple[tuple[str, Rect, int], ...]]:
    """The heaters of each wall whose manual keeps something clear: the place of each, and the most that is kept, nm."""
    found: dict[str, list[tuple[str, Rect, int]]] = {}
    for tag, one in job.of(Equipment).items():
        rect = equipment_rect(job, one) if gives_heat(one) and one.retired is None else None
        asked = (_keeps_clear(one, side, on_right=right) for side in ("above", "beside") for right in (False, True))
        if rect is not None and (most := max(asked)):
            found.setdefault(wall_of(job, tag), []).append((tag, rect.plane, most))
    return {wall: tuple(heaters) for wall, heaters in found.items()}


@filed(Box)
def _boxes_round(job: Job, box: Box) -> Iterator[tuple[str, tuple[Near, bool]]]:
    """The boxes near each heater, and whether each is on its right: of a thousand on a wall few are."""
    place = body_of_box(box)
    if place is None:
        return
    for heater, body, most in _kept_clear(job).get(box.wall, ()):
        for near in _placed(box.tag, box.what, body, place, None):
            if near.gap_nm < most and box.tag not in opening_of_box(job):
                yield heater, (near, place.x_nm >= body.right_nm)


def _keeps_clear(one: Equipment, side: str, *, on_right: bool) -> int:
    """What a manual keeps clear above or beside a heater, nm. In an opening its clearances count inside that alone."""
    keep = one.keep_above if side == "above" else one.keep_sides
    own = one.clear_top if side == "above" else one.clear_right if on_right else one.clear_left
    return max((each.nm for each in (keep, None if one.opening else own) if each is not None), default=0)


@rule
@from_each(Equipment)
def heat_around_not_known(job: Job, one: Equipment) -> Iterable[Finding]:
    """A heater with something above it, of which no figure of the manual is entered: told once."""
    open_ = [
        near
        for near in round_heaters(job).get(one.tag, ())
        if near.side == "above" and _asks(one, near, job.settings.metric) is None
    ]
    if not open_:
        return
    deep = [near for near in open_ if near.what == "mantel" and one.mantel]
    wanted = listed(
        [
            *(["the depth of the mantel, or a row of the table that is as deep"] if deep else []),
            *(["how far above the unit they can be"] if len(deep) < len(open_) else []),
        ]
    )
    yield Finding(
        "heat_around_not_known",
        "look",
        (one.tag, *(near.tag for near in open_)),
        f"Clearance above not entered: {' '.join(near.tag for near in open_[:4])}",
        f"Copy it from the manual of {one.name}: {wanted}. Ask the manufacturer for what it does not print.",
        manual(job),
        {"above": " ".join(near.tag for near in open_)},
        why=f"{few_of([named(job, near.tag) for near in open_])} above {named(job, one.tag)}: a TV, a mantel or a "
        "shelf has to keep the distance in the manual.",
        about=(one.tag,),
    )
