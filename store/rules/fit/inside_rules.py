"""Findings about shelves and dividers inside an opening, and about the gear that stands on them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations

from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_least, at_most, compared, few_of, named, sized, were
from store.rules.wall.contents import opening_of_box
from store.rules.wall.hung import BOX_NM
from store.rules.wall.inside import Inside, Stand, boards_in, insides, shelf_depth_nm, thickness_nm
from store.rules.wall.pieces import nm_of
from store.rules.wall.places import board_rect
from store.trade.fit.inside import PIN_OFF_NM, Laid, on_pins, plug_gap_nm

MAKER = "Manufacturer's figures, as entered"
PLANE = "Plane geometry"
PRACTICE = "Common practice"
MOST_BOARDS = 60
"""Of one opening that are held against each other; more are mistyped."""


def _says(job: Job, laid: Laid) -> str:
    return "Divider" if laid.divider else "Shelf"


@rule
@from_each(Opening)
def shelf_not_placed(job: Job, opening: Opening) -> Iterable[Finding]:
    """Shelves without a height and dividers without a place, in an opening whose size is known: one finding."""
    boards = boards_in(job).get(opening.tag, ())
    open_ = [one.tag for one in boards if (one.along if one.what == "divider" else one.up) is None]
    if open_:
        yield Finding(
            "shelf_not_placed",
            "look",
            (opening.tag, *open_),
            "No height or place entered for a shelf",
            "Enter the height inside of each shelf, and of each divider how far it is from the left inside.",
            PRACTICE,
            {"blank": ", ".join(open_)},
            why=f"Not entered: {few_of(open_)} in {named(job, opening.tag)}.",
            about=tuple(open_),
        )


@rule
@from_each(Opening)
def shelf_out_of_place(job: Job, opening: Opening) -> Iterable[Finding]:
    """A shelf or a divider that is outside its opening, in another one's way, or stands on nothing."""
    there = insides(job).get(opening.tag)
    if there is None:
        return
    boards = there.boards[:MOST_BOARDS]
    for one in boards:
        if beyond := _beyond(there, one):
            side, far = beyond
            yield _misplaced(
                job, opening, (one,), f"{_says(job, one)} {sized(job, far)} beyond the {side} of {opening.tag}",
                f"{opening.tag} is {sized(job, there.width_nm)} wide and {sized(job, there.height_nm)} high inside.",
            )  # fmt: skip
        elif one.divider and not _carried(boards, one):
            yield _misplaced(
                job, opening, (one,), "Divider has nothing under it",
                f"It is entered {sized(job, one.bottom_nm)} above the bottom, and no shelf is at that height.",
            )  # fmt: skip
    for first, second in combinations(boards, 2):
        if first.over(second.left_nm, second.right_nm) and first.crosses(second.bottom_nm, second.top_nm):
            yield _misplaced(
                job, opening, (second, first), f"{_says(job, second)} in the way of {first.tag}",
                f"{first.tag} and {second.tag} take the same place in {named(job, opening.tag)}.",
            )  # fmt: skip


def _misplaced(job: Job, opening: Opening, boards: Sequence[Laid], head: str, why: str) -> Finding:
    one = boards[0]
    at = "its place and its height" if one.divider else "its height"
    return Finding(
        "shelf_out_of_place",
        "fix",
        (*(each.tag for each in boards), opening.tag),
        head,
        f"Measure again inside {opening.tag} and enter {at}; measure everything from its left side and bottom, inside.",
        PLANE,
        {"left": sized(job, one.left_nm), "top": sized(job, one.top_nm)},
        why=why,
        about=(one.tag,),
    )


def _beyond(there: Inside, one: Laid) -> tuple[str, int] | None:
    """The side of its opening that a board is beyond, and how far."""
    far = {
        "bottom": -one.bottom_nm,
        "top": one.top_nm - there.height_nm,
        "left": -one.left_nm,
        "right": max(one.right_nm - there.width_nm, one.left_nm - one.right_nm + 1),
    }
    side = max(far, key=lambda each: far[each])
    return (side, far[side]) if far[side] > 0 else None


def _carried(boards: Sequence[Laid], divider: Laid) -> bool:
    """Whether a divider has the bottom or a shelf under its foot."""
    low = divider.bottom_nm
    return low <= PIN_OFF_NM or any(
        not each.divider and abs(each.top_nm - low) <= PIN_OFF_NM and each.over(divider.left_nm, divider.right_nm)
        for each in boards
    )


# --- what stands there ---


@rule
@from_each(Opening)
def stands_astray(job: Job, opening: Opening) -> Iterable[Finding]:
    """Gear that is said to stand on what is not in its opening."""
    there = insides(job).get(opening.tag)
    for tag in there.astray if there is not None else ():
        on = str(job.of(Equipment)[tag].stands_on)
        board, gear = job.of(ShelfBoard).get(on), job.of(Equipment).get(on)
        into = str(board.opening) if board is not None else str(gear.opening) if gear is not None else on
        why = f"It is in {named(job, opening.tag)} and sits on {named(job, on)}"
        yield Finding(
            "stands_astray",
            "fix",
            (tag, on, opening.tag),
            f"Sits on {on}, which carries nothing in {opening.tag}",
            f"Pick a shelf of {opening.tag}, equipment that is on it, or {opening.tag} itself for its bottom.",
            PLANE,
            {"stands on": on, "opening": opening.tag},
            why=f"{why}, which is in {named(job, into)}." if into not in ("", opening.tag) else f"{why}.",
            about=(tag,),
        )


@rule
@from_each(Opening)
def shelf_not_chosen(job: Job, opening: Opening) -> Iterable[Finding]:
    """Gear in an opening with shelves, of which nobody said on which it stands: one finding for the opening."""
    there = insides(job).get(opening.tag)
    if there is not None and there.unsaid:
        tags = there.unsaid
        yield Finding(
            "shelf_not_chosen",
            "look",
            (opening.tag, *tags),
            f"On which shelf of {opening.tag}?",
            f"Enter what each sits on: a shelf, other equipment, or {opening.tag} for its bottom.",
            PRACTICE,
            {"not said": ", ".join(tags)},
            why=f"{few_of(tags)} {were(len(tags), 'is', 'are')} in {named(job, opening.tag)}, which has "
            f"{were(len(there.boards), 'a shelf', 'shelves')}. Until it is entered, the whole opening is checked.",
            about=tags,
        )


@rule
@from_each(Opening)
def shelf_row_does_not_fit(job: Job, opening: Opening) -> Iterable[Finding]:
    """Several things that do not stand side by side on one shelf, with the space that their manuals ask for."""
    there = insides(job).get(opening.tag)
    for each in there.rows if there is not None else ():
        if each.row.verdict != "does not fit" or (len(each.tags) == 1 and job.of(Equipment)[each.tags[0]].count == 1):
            continue
        where = each.space.floor or opening.tag
        numbers = {"pieces": ", ".join(each.tags), "inside": sized(job, each.space.width_nm)}
        if each.row.needed_nm is not None:
            both = compared(job, each.space.width_nm, each.row.needed_nm)
            how = f"With clearances they need {both.need}; the space on {where} is {both.have} wide"
            numbers["needs"], short = sized(job, each.row.needed_nm), both.short
        else:
            short = at_least(job, -(each.row.spare_nm or 0))
            how = f"At their offsets they are {short} short on {where}"
        yield Finding(
            "shelf_row_does_not_fit",
            "fix",
            (*each.tags, where),
            f"Too wide side by side on {where} by {short}",
            "Put one of them on another shelf, or make the space wider. Keep the manufacturers' clearances.",
            MAKER,
            numbers,
            why=f"{how}.",
            about=each.tags,
        )


@rule
@from_each(Opening)
def stacked_without_space(job: Job, opening: Opening) -> Iterable[Finding]:
    """Gear on other gear, whose manuals ask for more space between the two than there is."""
    there = insides(job).get(opening.tag)
    for stand in there.stands.values() if there is not None else ():
        if stand.asked_nm is None or stand.has_nm is None or stand.has_nm >= stand.asked_nm:
            continue
        lower = stand.below[0]
        asked, has = sized(job, stand.asked_nm), sized(job, stand.has_nm)
        yield Finding(
            "stacked_without_space",
            "fix",
            (stand.tag, lower, opening.tag),
            f"{asked} must be free between it and {lower}",
            f"Put it on a shelf of its own, or on a stand that leaves {asked}, and enter that as raised by.",
            MAKER,
            {"asked": asked, "has": has},
            why=f"It sits on {named(job, lower)}; the manuals ask for {asked} between them, and there is {has}.",
            about=(stand.tag,),
        )


@rule
@from_each(Opening)
def gear_collides(job: Job, opening: Opening) -> Iterable[Finding]:
    """Gear on other gear that sticks out into what stands beside, or beyond the side of its opening."""
    there = insides(job).get(opening.tag)
    if there is None:
        return
    stands = list(there.stands.values())[:MOST_BOARDS]
    for one in (each for each in stands if each.below):
        beside = [each for each in stands if each.tag not in (one.tag, *one.below) and one.tag not in each.below]
        hit = next((each for each in beside if _meets(one, each)), None)
        out = max(one.space.left_nm - one.left_nm, one.right_nm - one.space.right_nm)
        if hit is None and out <= 0:
            continue
        what = hit.tag if hit is not None else "the side"
        yield Finding(
            "gear_collides",
            "fix",
            (one.tag, *((hit.tag,) if hit is not None else ()), opening.tag),
            f"Runs into {what} where it sits",
            "Put it on another shelf, or enter another offset.",
            PLANE,
            {"left": sized(job, one.left_nm), "right": sized(job, one.right_nm)},
            why=f"On {named(job, one.below[0])} it is from {sized(job, one.left_nm)} to {sized(job, one.right_nm)}, "
            f"measured from the left inside of {opening.tag}.",
            about=(one.tag,),
        )


def _meets(one: Stand, other: Stand) -> bool:
    across = one.left_nm < other.right_nm and other.left_nm < one.right_nm
    return across and one.bottom_nm < other.top_nm and other.bottom_nm < one.top_nm


@rule
@from_each(Opening)
def shelf_overhung(job: Job, opening: Opening) -> Iterable[Finding]:
    """Gear deeper than its shelf, or wider than the gear it stands on: its feet may find nothing under them."""
    there = insides(job).get(opening.tag)
    for stand in there.stands.values() if there is not None else ():
        one = job.of(Equipment)[stand.tag]
        if stand.below:
            lower = there.stands[stand.below[0]] if there is not None else stand
            out, what = max(lower.left_nm - stand.left_nm, stand.right_nm - lower.right_nm), lower.tag
        else:
            board, deep = job.of(ShelfBoard).get(stand.floor), nm_of(one.depth)
            there_deep = shelf_depth_nm(board, opening) if board is not None else None
            out, what = (0 if deep is None or there_deep is None else deep - there_deep), stand.floor
        if out > 0:
            yield Finding(
                "shelf_overhung",
                "look",
                (stand.tag, what, opening.tag),
                f"Overhangs {what} by {sized(job, out)}",
                "Check that all its feet are carried, or make the shelf deeper.",
                PRACTICE,
                {"overhang": sized(job, out)},
                why=f"It is {sized(job, out)} {'wider' if stand.below else 'deeper'} than {named(job, what)} there.",
                about=(stand.tag,),
            )


# --- the board itself ---


@rule
@from_each(ShelfBoard)
def shelf_off_pins(job: Job, board: ShelfBoard) -> Iterable[Finding]:
    """An adjustable shelf at a height where its opening has no pin holes."""
    opening = job.of(Opening).get(board.opening)
    if opening is None or board.what != "adjustable shelf" or board.up is None:
        return
    if opening.pin_first is None or opening.pin_step is None or opening.pin_step.nm <= 0:
        return
    thick = thickness_nm(board, opening)
    near = on_pins(board.up.nm - thick, opening.pin_first.nm, opening.pin_step.nm)
    if near is None:
        return
    tops = [sized(job, each + thick) for each in dict.fromkeys(near)]
    yield Finding(
        "shelf_off_pins",
        "look",
        (board.tag, opening.tag),
        f"No pin holes at this height in {opening.tag}",
        f"Set its top at {' or '.join(tops)} inside, or drill another row.",
        PRACTICE,
        {"top": sized(job, board.up.nm), "first": sized(job, opening.pin_first.nm)},
        why=f"Its underside is {sized(job, board.up.nm - thick)} up; pins are at {sized(job, opening.pin_first.nm)}, "
        f"then every {sized(job, opening.pin_step.nm)}.",
        about=(board.tag,),
    )


@rule
@from_each(Box)
def shelf_across_box(job: Job, box: Box) -> Iterable[Finding]:
    """A shelf or a divider that runs across a box in the back of its opening, so that no plug goes in."""
    tag = opening_of_box(job).get(box.tag, "")
    opening, there = job.of(Opening).get(tag), insides(job).get(tag)
    if opening is None or there is None or box.x is None or box.y is None or box.what == "junction":
        return
    low, high = box.y.nm - BOX_NM, box.y.nm + BOX_NM
    left, right = box.x.nm - BOX_NM // 2, box.x.nm + BOX_NM // 2
    for laid in there.boards:
        rect, board = board_rect(job, laid.tag), job.of(ShelfBoard)[laid.tag]
        if rect is None or (nm_of(board.gap) or 0) >= plug_gap_nm(job.settings.metric):
            continue
        if rect.x >= right or rect.right <= left or rect.y >= high or rect.top <= low:
            continue
        yield Finding(
            "shelf_across_box",
            "fix",
            (laid.tag, box.tag, tag),
            f"Runs across {box.tag}",
            _clear_of(job, opening, laid, rect.y - laid.bottom_nm, (low, high)),
            PRACTICE,
            {"box": sized(job, box.y.nm), "top": sized(job, rect.top)},
            why=f"{named(job, box.tag)} is in the back of {named(job, tag)}, just where {laid.tag} meets it. "
            "Nothing can be plugged in there.",
            about=(laid.tag,),
        )


def _clear_of(job: Job, opening: Opening, laid: Laid, floor: int, box: tuple[int, int]) -> str:
    if laid.divider:
        return f"Move it sideways, or leave {sized(job, plug_gap_nm(job.settings.metric))} behind it."
    lower, upper = box[0] - floor, box[1] - floor + laid.top_nm - laid.bottom_nm
    return (
        f"Set its top at {at_most(job, lower)} or lower inside, or at {at_least(job, upper)} or higher; or leave "
        f"{sized(job, plug_gap_nm(job.settings.metric))} behind it."
    )
