"""Findings about cords: none in or through a wall, each long enough, and power where the screen hangs."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.compare import Compared
from store.measure.length import INCH_NM, Length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.cable.in_wall import cord_of, in_the_wall
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each, of_each
from store.rules.core.wording import ELECTRICIAN, compared, shown, sized
from store.rules.core.wording import named as called
from store.rules.plug.places import reach_nm, strip_opening
from store.rules.power.plan import PLUG_BOXES, Feed, has_plug, in_use, is_mains, power, things
from store.rules.wall.contents import IN_THE_WALL, known_place, opening_of, opening_of_box, straight_nm
from store.rules.wall.layout import cables_at
from store.rules.wall.pieces import on_face
from store.trade.measured.citations import COMMON_PRACTICE, cite, nec

BESIDE_NM = 36 * INCH_NM
"""How near a receptacle counts as beside a quick-connect: a short cord reaches it. Common practice, no source."""


def _cord_source(job: Job) -> str:
    return (
        cite("cords", edition(job))
        if is_us(job)
        else f"{METRIC_CODE} 522 and the manufacturers' instructions (from memory)"
    )


@rule
@from_each(Cable)
def cord_in_wall(job: Job, cable: Cable) -> Iterable[Finding]:
    """A flexible cord that the plan runs in the wall or in a raceway."""
    tag = cable.tag
    cord = cord_of(job, cable) if cable.retired is None else ""
    if cord and (cable.raceway or in_the_wall(job, cable)):
        yield Finding(
            "cord_in_wall",
            "stop",
            (tag,),
            "Flexible cord in the wall",
            (
                "Plan a receptacle where you need power, fed by cable made for use in a wall. If this is "
                f"such cable, pick its type, like {'nm-12-2' if is_us(job) else 'flat-2.5'}. A raceway or sleeve "
                "does not change that. "
                f"{ELECTRICIAN}"
            ),
            _cord_source(job),
            {
                "type": cable.type,
                "in the wall": f"{cable.start or 'not entered'} to {cable.end or 'not entered'}",
                "raceway": str(cable.raceway),
                **({"rating": cable.rating} if cable.rating else {}),
            },
            why=f"{cord.upper()!r} is a flexible cord"
            + (f", and it runs through {cable.raceway}." if cable.raceway else ", and it runs in the wall."),
        )


@rule
def strip_in_wall(job: Job) -> Iterable[Finding]:
    """A power strip behind an access panel or the face of a wall, or fed by a cable in it."""
    behind = {str(tag): panel for panel, one in job.of(Panel).items() for tag in one.behind}
    for one in things(job):
        if one.what != "strip":
            continue
        fed = [
            cable.tag
            for cable in cables_at(job).get(one.tag, ())
            if in_the_wall(job, cable) and (is_mains(job, cable) or cord_of(job, cable))
        ]
        panel = behind.get(one.tag) or (one.reached if one.reached in job.of(Panel) else "")
        cable = fed[-1] if fed else ""
        inside = str(one.wall) if one.face == "behind" and one.wall and not one.opening else ""
        hidden = panel or inside
        if hidden or cable:
            where = f"is behind {called(job, hidden)}" if hidden else f"is fed by {called(job, cable)} in the wall"
            yield Finding(
                "strip_in_wall",
                "stop",
                (one.tag,),
                "Power strip inside the wall" if hidden else "Power strip fed through the wall",
                (
                    "Put it in a cabinet where you can see it, plugged into a receptacle, or have more "
                    f"receptacles wired. {ELECTRICIAN}"
                ),
                f"{_cord_source(job)}; UL 1363",
                {"panel": str(panel), "cable": str(cable)} | ({"behind": inside} if inside else {}),
                why=f"It {where}. Never put a power strip inside a wall or in place of its wiring.",
            )


@rule
@from_each(Cable)
def wired_to_a_cord(job: Job, cable: Cable) -> Iterable[Finding]:
    """House wiring that ends at a thing with a cord: it has no place for it, and its plug needs a receptacle."""
    if cable.retired is not None or not is_mains(job, cable):
        return
    for end in (cable.start, cable.end):
        one = job.of(Equipment).get(end)
        if one is None or one.power not in ("cord", "wall-wart") or one.what == "strip":
            continue
        yield Finding(
            "wired_to_a_cord",
            "fix",
            (cable.tag, one.tag),
            f"Ends at {one.tag}, which has a cord",
            f"End it in a box with a receptacle, and plug {one.tag} in there. Never wire it into the appliance. "
            f"{ELECTRICIAN}",
            f"{nec('110.3(B)', edition(job))} and 300.15" if is_us(job) else f"{METRIC_CODE} 134.1.1; the manual",
            {"ends at": one.tag, "power": one.power},
            why=f"{called(job, one.tag)} is plugged in; {cable.tag} is wiring for a box.",
            about=(cable.tag,),
        )


@rule
@from_each(Equipment)
def plug_inside_wall(job: Job, one: Equipment) -> Iterable[Finding]:
    """A thing behind the face of the wall that is not wired but plugged in: its cord and plug are inside the wall."""
    behind = bool(one.wall) and one.x is not None and one.y is not None and not one.opening and not on_face(one)
    if not in_use(one) or not behind or one.power not in ("cord", "wall-wart") or one.what == "strip":
        return
    yield Finding(
        "plug_inside_wall",
        "stop",
        (one.tag,),
        "Plug and cord inside the wall",
        "Put it in a cabinet or behind the TV where you can see its plug, or choose one that is wired in a box. "
        f"{ELECTRICIAN}",
        _cord_source(job),
        {"power": one.power, "at": f"{one.wall} {one.face}"},
        why=f"It is behind the face of {one.wall} and has a plug. No cord or plug-in supply may be concealed "
        "in a wall, not behind an access panel either.",
        about=(one.tag,),
    )


@rule
def cord_through_wall(job: Job) -> Iterable[Finding]:
    """A cord that would have to go through the wall to reach the place its plug is named to be."""
    for one, at, place, there in _hops(job):
        if there == place or not place:
            continue
        uses = {job.of(Opening)[each].use for each in (place, there) if each}
        numbers = {"in": place, "plug in": there or "the face of the wall"}
        goal = called(job, there) if there else "the face of the wall"
        if uses & set(IN_THE_WALL):
            yield Finding(
                "cord_through_wall",
                "stop",
                (one.tag, at),
                f"Cord would go through the wall to {at}",
                (f"Plan a receptacle in {place} for it, fed by cable made for use in a wall. {ELECTRICIAN}"),
                _cord_source(job),
                numbers,
                why=f"{one.tag} is in {called(job, place)} and plugs into {called(job, at)}, in {goal}.",
                about=(one.tag,),
            )
        elif there:
            yield Finding(
                "cord_between_cabinets",
                "look",
                (one.tag, at),
                f"Cord runs from {place} to {there}",
                (
                    "Run it through the sides of the cabinets, where you can see it and pull it out, never "
                    f"through the wall behind. Or plan a closer receptacle. {ELECTRICIAN}"
                ),
                _cord_source(job),
                numbers,
                why=f"It goes from {called(job, place)} to {called(job, there)}.",
                about=(one.tag,),
            )


def _hops(job: Job) -> Iterable[tuple[Equipment, str, str, str]]:
    """Each plug whose two places are known: the thing, what it plugs into, its opening and that of the other."""
    boxes, equipment = job.of(Box), job.of(Equipment)
    for one in things(job):
        if not has_plug(one):
            continue
        place = strip_opening(job, one) if one.what == "strip" else opening_of(job, one)
        if not place:
            continue
        box, other = boxes.get(one.plug), equipment.get(one.plug)
        if box is not None and box.what in PLUG_BOXES and known_place(job, box):
            yield one, box.tag, place, opening_of_box(job).get(box.tag, "")
        elif other is not None and other.what == "strip" and (there := strip_opening(job, other)):
            yield one, other.tag, place, there


def _cord(job: Job, have: Length, need: Length) -> Compared:
    """The length of a cord and the way it has to go."""
    return compared(job, have.nm, need.nm)


@rule
@from_each(Equipment)
def cord_too_short(job: Job, one: Equipment) -> Iterable[Finding]:
    """A cord that does not reach, with the cords of the strips it goes by."""
    if not in_use(one):
        return
    feed = power(job).feeds.get(one.tag, Feed())
    box = job.of(Box).get(feed.box)
    cords = [one.cord, *(job.of(Equipment)[strip].cord for strip in feed.via)]
    if box is None or not has_plug(one) or any(cord is None for cord in cords):
        return
    reach = reach_nm(job, one, box)
    if reach is None:
        return
    have = Length(sum(cord.nm for cord in cords if cord is not None))
    straight, square = Length(reach[0]), Length(reach[1])
    with_strip = " with the cord of its strip" if feed.via else ""
    if have < straight:
        yield Finding(
            "cord_too_short",
            "fix",
            (one.tag, box.tag),
            (f"Cord too short: {_cord(job, have, straight).have}, {_cord(job, have, straight).need} to {box.tag}"),
            (f"Plug it in closer, or plan a closer receptacle. No extension cord instead. {ELECTRICIAN}"),
            COMMON_PRACTICE,
            {"cord": shown(have, job), "straight way": shown(straight, job)},
            why=(
                f"The cord is {_cord(job, have, straight).have}{with_strip}; {called(job, box.tag)} is "
                f"{_cord(job, have, straight).need} from the nearest edge of {one.tag}."
            ),
            about=(one.tag,),
        )
    elif have < square:
        yield Finding(
            "cord_just_reaches",
            "look",
            (one.tag, box.tag),
            f"Cord barely reaches {box.tag}",
            "Find where the cord comes out, and lay its full length out at the mock-up.",
            COMMON_PRACTICE,
            {"cord": shown(have, job), "square way": shown(square, job)},
            why=(
                f"The cord is {_cord(job, have, square).have}{with_strip}. Straight it reaches; around "
                f"corners from its middle it needs {_cord(job, have, square).need}."
            ),
            about=(one.tag,),
        )


@of_each(Box)
def _power_in(job: Job, box: Box) -> str | None:
    """The opening of every box that a cord can be plugged into."""
    return opening_of_box(job).get(box.tag) if box.what in PLUG_BOXES else None


@rule
def no_receptacle_behind_screen(job: Job) -> Iterable[Finding]:
    """A screen with a cord, and no receptacle where it hangs."""
    with_power = set(_power_in(job).values())
    for one in things(job):
        at = opening_of(job, one)
        if one.what == "screen" and one.power in ("cord", "wall-wart", "unknown") and at and at not in with_power:
            yield Finding(
                "no_receptacle_behind_screen",
                "fix",
                (one.tag, at),
                f"No receptacle behind the TV, in {at}",
                (
                    "Plan a receptacle there, recessed so that the plug clears, fed by cable made for use in "
                    f"a wall. {ELECTRICIAN}"
                ),
                cite("cords", edition(job)) if is_us(job) else COMMON_PRACTICE,
                {"receptacles": "0"},
                why=f"{called(job, at)} has no receptacle, and a cord can't run in the wall.",
                about=(one.tag,),
            )


@rule
def quick_connect_without_power(job: Job) -> Iterable[Finding]:
    """A quick-connect with no receptacle beside it, no circuit and no cable from one that has."""
    boxes = job.of(Box)
    found = [tag for tag, box in boxes.items() if box.what == "quick-connect"]
    fed = {tag for tag in found if boxes[tag].circuit or _receptacle_beside(job, boxes[tag])}
    waiting = list(fed)
    while waiting:
        for cable in power(job).mains.get(waiting.pop(), ()):
            for end in (str(cable.start), str(cable.end)):
                if end in found and end not in fed:
                    fed.add(end)
                    waiting.append(end)
    for tag in found:
        if tag in fed or any(end not in found for end in _other_ends(job, tag)):
            continue
        yield Finding(
            "quick_connect_without_power",
            "fix",
            (tag,),
            "Recessed inlet has no power",
            (
                "Plan a receptacle beside it, or enter the circuit that feeds it. Ask the inspector: "
                f'"May a cord feed this inlet?" {ELECTRICIAN}'
            ),
            COMMON_PRACTICE,
            {"circuit": "none", "receptacle beside": "none"},
            why=(f"No receptacle within {sized(job, BESIDE_NM)}, no circuit, and no cable from one that has power."),
        )


def _other_ends(job: Job, tag: str) -> set[str]:
    """The boxes at the far ends of the mains cables of a box."""
    ends = {str(end) for cable in power(job).mains.get(tag, ()) for end in (cable.start, cable.end)}
    return {end for end in ends if end in job.of(Box) and end != tag}


def _receptacle_beside(job: Job, box: Box) -> bool:
    if box.x is None or box.y is None:
        return False
    here = (box.x.nm, box.y.nm)
    return any(
        other.what == "receptacle"
        and other.wall == box.wall
        and other.x is not None
        and other.y is not None
        and straight_nm(here, (other.x.nm, other.y.nm)) <= BESIDE_NM
        for other in job.of(Box).values()
    )
