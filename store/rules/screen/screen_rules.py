"""Findings about screens: too high, too far, figures that do not go together. All of them are to be looked at."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.mass import POUND_UG
from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.core.amounts import heavy
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import listed, said
from store.rules.screen.view import read_aspect, read_holes, suggested_centre_nm, views
from store.trade.measured.bounds import past
from store.trade.screen.seat import CENTRE_LIMIT, DEFAULT_EYE_HEIGHT_NM, TOP_LIMIT
from store.trade.screen.viewing import (
    FARTHEST_SEAT_ANGLE_DEG,
    MOUNTING_CLASSES,
    MOUNTING_SOURCE,
    NEAR_ANGLE_DEG,
    distance_for_angle,
    horizontal_angle,
    look_at_mounting,
)

PRACTICE = "common practice"


@rule
@from_each(Equipment)
def screen_too_high(job: Job, one: Equipment) -> Iterable[Finding]:
    """A centre or a top of a picture that the seated eye looks up to more than is comfortable."""
    tag, view = one.tag, views(job).get(one.tag)
    if view is None:
        return
    if view.sight is None or view.band is None or view.centre_nm is None:
        return
    centre, top = view.sight.centre_deg, view.sight.top_deg
    over = []
    if abs(centre) > CENTRE_LIMIT.degrees:
        way, limit = "up" if centre > 0 else "down", CENTRE_LIMIT.degrees
        over.append(f"{past(abs(centre), limit)}° {way} to its center ({limit:g}°)")
    if top > TOP_LIMIT.degrees:
        over.append(f"{past(top, TOP_LIMIT.degrees)}° up to its top ({TOP_LIMIT.degrees:g}°)")
    if over:
        best, most = said(job, suggested_centre_nm(view.band)), said(job, view.band.highest_nm)
        yield Finding(
            "screen_too_high",
            "look",
            (tag,),
            "TV too high or too low from the seat",
            (f"Move its center toward {best} off the floor, {most} at most, or try the seat with tape first."),
            f"{CENTRE_LIMIT.source}; {TOP_LIMIT.source}",
            {"centre": f"{centre:.1f}°", "top": f"{top:.1f}°"},
            why=f"From the seat you look {listed(over)}; the limit is in brackets.",
        )


@rule
@from_each(Equipment)
def screen_size_for_seat(job: Job, one: Equipment) -> Iterable[Finding]:
    """A picture that is small or very wide from the seat."""
    tag, view = one.tag, views(job).get(one.tag)
    if view is None:
        return
    if view.picture is None or view.distance_nm is None:
        return
    width = view.picture.width_nm
    angle = horizontal_angle(width, view.distance_nm)
    if FARTHEST_SEAT_ANGLE_DEG <= angle <= NEAR_ANGLE_DEG:
        return
    far = angle < FARTHEST_SEAT_ANGLE_DEG
    limit = FARTHEST_SEAT_ANGLE_DEG if far else NEAR_ANGLE_DEG
    fills = _apart(angle, limit)
    yield Finding(
        "screen_size_for_seat",
        "look",
        (tag,),
        f"TV {'small' if far else 'large'} for the seat: fills {fills}",
        (f"It fills {limit:g}° from {said(job, distance_for_angle(width, limit))}. Mark it full size and sit down."),
        "SMPTE EG 18-1994 (secondary copy): at least 30° from the farthest seat" if far else PRACTICE,
        {"angle": fills},
        why=(
            f"From {said(job, view.distance_nm)} the picture fills {fills}, "
            f"{'less' if far else 'more'} than {limit:g}°."
        ),
    )


def _apart(angle: float, limit: float) -> str:
    """An angle with as many decimals as tell it from its limit: never "30.0°, less than 30°"."""
    texts = [f"{angle:.{decimals}f}" for decimals in range(1, 6)]
    return next((text for text in texts if float(text) != limit), texts[-1]) + "°"


@rule
def seat_not_noted(job: Job) -> Iterable[Finding]:
    """A screen whose seat or eye height was not measured."""
    settings = job.settings
    tags = tuple(tag for tag, view in views(job).items() if view.picture is not None)
    if not tags or (settings.seat is not None and settings.eye is not None):
        return
    missing = [
        words for words, one in (("seat to screen", settings.seat), ("seated eye height", settings.eye)) if one is None
    ]
    usual = f" A usual eye height of {said(job, DEFAULT_EYE_HEIGHT_NM)} is used." if settings.eye is None else ""
    yield Finding(
        "seat_not_noted",
        "look",
        tags[:1],
        "Seat not measured",
        ("Sit where you will sit, and have both measured: eyes to picture along the floor, eyes off the floor."),
        PRACTICE,
        {"missing": ", ".join(missing)},
        why=f"Not entered: {listed(missing)}.{usual}",
        about=(),
    )


@rule
@from_each(Equipment)
def screen_figures_doubtful(job: Job, record: Equipment) -> Iterable[Finding]:
    """An aspect or a hole pattern that cannot be read, or an outside smaller than the picture."""
    tag, view = record.tag, views(job).get(record.tag)
    if view is None:
        return
    one = job.of(Equipment)[tag]
    doubts = []
    if read_aspect(one.aspect) is None:
        doubts.append(f"the aspect “{one.aspect}” is not like 16:9")
    if one.holes and read_holes(one.holes) is None:
        doubts.append(f"the hole pattern “{one.holes}” is not like 400x400")
    if view.picture is not None:
        for side, outside, inside in (
            ("width", one.width, view.picture.width_nm),
            ("height", one.height, view.picture.height_nm),
        ):
            if outside is not None and outside.nm < inside:
                doubts.append(
                    f"its outside {side} of {said(job, outside.nm)} is less than its picture's {said(job, inside)}"
                )
    if doubts:
        yield Finding(
            "screen_figures_doubtful",
            "look",
            (tag,),
            "TV figures look wrong",
            "Read the figures in the manual again. The size it is sold under is often rounded.",
            "geometry",
            {"doubts": "; ".join(doubts)},
            why=f"{listed(doubts)[0].upper()}{listed(doubts)[1:]}.",
        )


@rule
def mounting_unusual(job: Job) -> Iterable[Finding]:
    """A hole pattern or a mass beyond what the mounting standard has for a screen of this size."""
    names = [each.name for each in MOUNTING_CLASSES]
    for tag in views(job):
        one = job.of(Equipment)[tag]
        holes = read_holes(one.holes) if one.holes else None
        if one.diagonal is None:
            continue
        look = look_at_mounting(one.diagonal.nm, holes, one.weight.ug if one.weight is not None else None)
        if look.expected is None:
            continue
        doubts = []
        if holes is not None and look.pattern_class is None:
            doubts.append(f"its hole pattern {one.holes} is in no VESA class")
        # A pattern of a smaller class is common on light sets.
        elif look.pattern_class is not None and names.index(look.pattern_class) > names.index(look.expected.name):
            doubts.append(f"its hole pattern {one.holes} belongs to larger TVs ({look.pattern_class})")
        if look.mass_expected is False:
            doubts.append(f"it weighs more than the {heavy(job, look.expected.mass_ug / POUND_UG)} of its class")
        if doubts:
            yield Finding(
                "mounting_unusual",
                "look",
                (tag,),
                "Unusual mount for this TV size",
                (
                    "Check the hole pattern, the screws and the weight in the manual, and that the mount is "
                    "made for them."
                ),
                MOUNTING_SOURCE,
                {"doubts": "; ".join(doubts)},
                why=f"For a TV of its size ({look.expected.name}), {listed(doubts)}.",
            )
