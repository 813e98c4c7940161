"""Findings about boxes: fill, depth, what would be buried, and power beside signal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from store.measure.compare import compare_numbers
from store.measure.length import INCH_NM, Length
from store.records.access import Panel
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import by_key, from_each, of_each, said_by
from store.rules.core.wording import ELECTRICIAN, all_called, few_of, plain, sentence, shown, sized, were
from store.rules.core.wording import named as called
from store.rules.power.box_contents import DEVICE_BOXES, BoxLook, fill_with_plan, looks
from store.rules.power.plan import is_mains, power
from store.rules.wall.finishes import finish_at
from store.rules.wall.layout import cables_at
from store.rules.wall.places import POWER_BOXES, Rect, point_of, rect_of, shows_on_wall
from store.trade.cable.install import SETBACK_NONCOMBUSTIBLE_IN
from store.trade.measured.bounds import exceeds
from store.trade.measured.citations import cite, nec

SIGNAL_BOXES = ("low-voltage",)
COVERING = ("equipment", "shelf", "drawer", "other")
"""Uses of an opening whose back hides the wall behind it; a recess of a screen or a fireplace is open to the front."""


@rule
@from_each(Box)
def box_overfull(job: Job, box: Box) -> Iterable[Finding]:
    """More in a box than its volume takes."""
    tag, look = box.tag, looks(job).get(box.tag)
    if look is None:
        return
    if look.fill is None or look.volume_in3 is None or not exceeds(look.fill.total_in3, look.volume_in3):
        return
    need, have = f"{look.fill.total_in3:.2f} in³", f"{look.volume_in3:.2f} in³"
    more = fill_with_plan(job, look)[1]
    coming = look.fill if more is None else more
    yield Finding(
        "box_overfull",
        "fix",
        (tag,),
        f"Box overfilled: {_short_fill(look.fill.total_in3, look.volume_in3)}",
        (
            f"Use a box with {coming.total_in3:.2f} in³ or more stamped in it (smallest metal box that works: "
            f"{look.box_for(coming)}), or move a cable to another box. {ELECTRICIAN}"
        ),
        nec("314.16", edition(job)),
        {"needs": need, "has": have},
        why=f"Cables and devices count {need}; the box has {have}."
        + (f" With what the plan brings it needs {coming.total_in3:.2f} in³." if more is not None else ""),
    )


@rule
@from_each(Box)
def box_overfull_with_plan(job: Job, box: Box) -> Iterable[Finding]:
    """A box that takes what it lists, and would not take the cables that the plan brings on top."""
    tag, look = box.tag, looks(job).get(box.tag)
    if look is None:
        return
    more, fill = fill_with_plan(job, look)
    if fill is None or look.fill is None or look.volume_in3 is None:
        return
    if exceeds(look.fill.total_in3, look.volume_in3) or not exceeds(fill.total_in3, look.volume_in3):
        return
    need, have = f"{fill.total_in3:.2f} in³", f"{look.volume_in3:.2f} in³"
    yield Finding(
        "box_overfull_with_plan",
        "fix",
        (tag, *more),
        f"Overfilled with planned cables: {_short_fill(fill.total_in3, look.volume_in3)}",
        (
            f"Use a larger box there (smallest metal box that works: {look.box_for(fill)}), or run the cable to "
            "another box. If the list counts that cable "
            f"already, write its tag there in place of its size. {ELECTRICIAN}"
        ),
        nec("314.16", edition(job)),
        {"needs": need, "has": have, "cables": few_of(more, 99)},
        why=(
            f"What it lists fits. With {all_called(job, more)}, which the plan ends there, it needs "
            f"{need} and has {have}."
        ),
        about=(tag,),
    )


@rule
@from_each(Box)
def box_text_unreadable(job: Job, box: Box) -> Iterable[Finding]:
    """A text of a box that stands for wires or devices and cannot be read."""
    tag, look = box.tag, looks(job).get(box.tag)
    if look is None:
        return
    if look.unreadable:
        said = "; ".join(f"{field}: {why}" for field, why in look.unreadable)
        yield Finding(
            "box_text_unreadable",
            "look",
            (tag,),
            "Box fill not calculated: can't read the entry",
            "Write the field as shown. Then the box fill is calculated.",
            nec("314.16", edition(job)),
            {"fields": said},
            why=sentence(said),
        )


@rule
@from_each(Box)
def box_volume_unknown(job: Job, box: Box) -> Iterable[Finding]:
    """A box with wires in it whose volume is not noted."""
    tag, look = box.tag, looks(job).get(box.tag)
    if look is None:
        return
    if look.fill is None or look.volume_in3 is not None or look.unreadable or _lacks(look):
        return
    more = fill_with_plan(job, look)[1] or look.fill
    need = f"{more.total_in3:.2f} in³"
    yield Finding(
        "box_volume_unknown",
        "look",
        (tag,),
        "No box volume entered",
        (f"Read the volume stamped in the box, or enter its standard size ({look.box_for(more)} works). {ELECTRICIAN}"),
        nec("314.16", edition(job)),
        {"needs": need},
        why=f"What is in it{' and what the plan brings' if more is not look.fill else ''} needs {need}.",
    )


@of_each(Box)
def _lacking(job: Job, box: Box) -> str | None:
    """What is not entered of every new box."""
    look = looks(job).get(box.tag) if box.new else None
    return (_lacks(look) or None) if look is not None else None


MOST_NAMED = 8
"""Boxes that one finding names; of the others it tells how many there are."""


@rule
def box_contents_unknown(job: Job) -> Iterable[Finding]:
    """New boxes of which only a part of what is in them is noted: one reminder for all."""
    lacking = _lacking(job)
    if lacking:
        first = [f"{called(job, tag)}: no {lacks} entered" for tag, lacks in [*lacking.items()][:MOST_NAMED]]
        yield Finding(
            "box_contents_unknown",
            "look",
            tuple(lacking),
            "Box fill incomplete",
            (
                "Enter the devices, like receptacle 12, and the cables, like 12-2 G with a ground. Or draw "
                "the cables that end at the box."
            ),
            nec("314.16", edition(job)),
            {"boxes": few_of([f"{tag} {lacks}" for tag, lacks in lacking.items()], 99)},
            why=f"{few_of([*first, *[*lacking][MOST_NAMED:]], MOST_NAMED)}.",
        )


def _short_fill(need_in3: float, have_in3: float) -> str:
    """`24 in³ in 18 in³`."""
    both = compare_numbers(have_in3, need_in3, "in³", places=2)
    return f"{both.need} in {both.have}"


def _lacks(look: BoxLook) -> str:
    """What a box for devices must have and does not list; empty when nothing is lacking or nothing is listed yet."""
    if look.unreadable:
        return ""
    if look.box.devices and look.fill is None:
        return "cables"
    if look.fill is None:
        return ""
    if look.box.what in DEVICE_BOXES and not look.box.devices:
        return "devices"
    return "" if look.grounded else "grounds"


@rule
@from_each(Box)
def more_devices_than_gangs(job: Job, box: Box) -> Iterable[Finding]:
    """Devices that need more gangs than the box has."""
    tag = box.tag
    gear = power(job).gear[tag]
    gangs = sum(each.count * each.device.gangs for each in gear)
    if gangs > box.gangs:
        yield Finding(
            "more_devices_than_gangs",
            "fix",
            (tag,),
            f"Devices need {gangs} gangs, box has {box.gangs}",
            "Use a box with as many gangs as devices, or take a device out.",
            "common practice",
            {"gangs": str(box.gangs), "devices take": str(gangs)},
            why=f"The box is {box.gangs} {were(box.gangs, 'gang', 'gangs')} wide.",
        )


@rule
@from_each(Box)
def box_set_too_deep(job: Job, box: Box) -> Iterable[Finding]:
    """A box that stands too far behind the finished face for what the face is made of."""
    tag = box.tag
    if box.setback is None or box.what not in POWER_BOXES or not is_us(job):
        return
    there = finish_at(job, tag)
    burns = there.burns
    limit = Length(0 if burns == "yes" else round(SETBACK_NONCOMBUSTIBLE_IN * INCH_NM))
    numbers = {"set back": shown(box.setback, job), "surface burns": burns}
    source = nec("314.20", edition(job))
    if limit < box.setback:
        allowed = "flush or proud" if burns == "yes" else f"at most {shown(limit, job)} behind"
        yield Finding(
            "box_set_too_deep",
            "fix",
            (tag,),
            f"Box set back {sized(job, box.setback.nm)} behind the finished wall",
            (
                "Bring the box forward by the full thickness of the finish "
                f"({sized(job, there.thickness_nm)}), or have a listed box extender put in. "
                f"{ELECTRICIAN}"
            ),
            source,
            numbers,
            why=f"In this surface it must be {allowed} the finished face.",
        )
    elif burns == "unknown" and Length(0) < box.setback:
        yield Finding(
            "box_in_unknown_surface",
            "look",
            (tag,),
            f"Set back {sized(job, box.setback.nm)}: is the wall combustible?",
            (
                f"Enter on the page of {there.zone or box.wall} whether it is combustible. "
                "Where wood covers drywall, the wood decides."
            ),
            source,
            numbers,
            why=(
                "Behind plaster or drywall that is allowed. In wood or another combustible surface the "
                "box must be flush."
            ),
        )


@by_key
def behind_panels(job: Job) -> Mapping[str, list[str]]:
    """The panels that give access, by the tag of what is behind them."""
    found: dict[str, list[str]] = {}
    for tag, panel in job.of(Panel).items():
        for each in panel.behind:
            found.setdefault(each, []).append(tag)
    return found


@rule
@from_each(Box)
def junction_buried(job: Job, box: Box) -> Iterable[Finding]:
    """A junction box that nobody could reach once the wall is closed."""
    tag = box.tag
    if shows_on_wall(box) or box.reached or tag in behind_panels(job):
        return
    yield Finding(
        "junction_buried",
        "stop",
        (tag,),
        "Buried junction box",
        (
            "Add a blank plate or an access panel and enter it here, or move the splice to a box you "
            f"can reach. {ELECTRICIAN}"
        ),
        _access_source(job),
        {"reached by": "nothing", "blank plate": "no", "at": _place(job, box)},
        why="Drywall covers it: no access panel, no opening, no blank plate.",
    )


@said_by(Opening)
def _covers(one: Opening) -> Iterator[tuple[str, tuple[str, Rect]]]:
    """The openings on each wall that cover it, and where."""
    rect = rect_of(one)
    if rect is not None and one.use in COVERING:
        yield one.wall, (one.tag, rect)


@rule
@from_each(Box)
def box_behind_cabinet(job: Job, box: Box) -> Iterable[Finding]:
    """A box for power that a cabinet would cover, with no way to it."""
    tag, hides = box.tag, box.what in POWER_BOXES and box.what != "junction" and not box.reached
    at = point_of(job, tag) if hides and tag not in behind_panels(job) else None
    if at is not None:
        x, y = at
        for opening, rect in _covers(job).get(box.wall, ()):
            if rect.x < x < rect.right and rect.y < y < rect.top:
                yield Finding(
                    "box_behind_cabinet",
                    "stop",
                    (tag, opening),
                    f"Buried box, behind {opening}",
                    (
                        f"If the back is cut out for the box, enter access through {opening}. Otherwise move the box "
                        f"or plan an access panel. {ELECTRICIAN}"
                    ),
                    _access_source(job),
                    {"reached by": "nothing", "behind": opening, "at": _place(job, box)},
                    why=f"{tag} is behind {called(job, opening)}, and no access is entered.",
                    about=(tag,),
                )


def _place(job: Job, box: Box) -> str:
    """Where a box is, so that an answer about its place counts for that place only."""
    x, y = (shown(each, job) if each is not None else "not entered" for each in (box.x, box.y))
    return f"{box.wall or 'no wall'}, {x} from the left, {y} up"


def _access_source(job: Job) -> str:
    return nec("314.29", edition(job)) if is_us(job) else f"{METRIC_CODE} 526.3 (from memory)"


@rule
@from_each(Box)
def power_in_low_voltage_box(job: Job, box: Box) -> Iterable[Finding]:
    """Mains wiring in a box for low voltage; where signal cables end in it too, the cables' own rule says so."""
    tag = box.tag
    if box.what not in SIGNAL_BOXES:
        return
    mains = [each.tag for each in power(job).mains.get(tag, ())]
    told_of_cables = mains and any(not is_mains(job, each) for each in cables_at(job).get(tag, ()))
    if box.divider or told_of_cables or not (mains or box.circuit):
        return
    holds = all_called(job, mains) or f"circuit {called(job, box.circuit)}"
    yield Finding(
        "power_in_low_voltage_box",
        "stop",
        (tag,),
        "Line voltage in a low-voltage box",
        f"Use a separate box for line voltage, or one box with a listed divider. {ELECTRICIAN}",
        _apart_source(job),
        {"power": few_of(mains) or str(box.circuit)},
        why=f"It has no divider, and line-voltage wiring is in it: {holds}.",
    )


def _apart_source(job: Job) -> str:
    if not is_us(job):
        return f"{METRIC_CODE} 528.1 (from memory)"
    one, other = cite("power apart, class 2", edition(job)), cite("power apart, communications", edition(job))
    return f"{one}; {other}"


@said_by(Box)
def _without_circuit(box: Box) -> Iterator[tuple[str, str]]:
    if box.what in ("receptacle", "switch", "junction") and not box.circuit:
        yield box.tag, box.what


@rule
def power_box_without_circuit(job: Job) -> Iterable[Finding]:
    """Boxes for power whose circuit is not noted: what they carry cannot be told."""
    lost = tuple(_without_circuit(job))
    if lost:
        yield Finding(
            "power_box_without_circuit",
            "look",
            lost,
            "No circuit entered" if len(lost) == 1 else f"{len(lost)} boxes have no circuit",
            "Find the breaker that turns it off, or plan its circuit, and enter it on the box.",
            "common practice",
            {"boxes": plain(len(lost))},
            why="Without its circuit, the load on it can't be checked.",
        )


@rule
@from_each(Box)
def half_of_one_place(job: Job, box: Box) -> Iterable[Finding]:
    """A half-switched box with fewer than two places."""
    tag = box.tag
    if box.switched == "half" and box.receptacles == 1:
        yield Finding(
            "half_of_one_place",
            "fix",
            (tag,),
            "Half-switched, but only one receptacle",
            "Enter it as switched or not switched, or use a duplex receptacle.",
            "common practice",
            {"places": "1"},
            why="Two halves need two receptacles.",
        )
