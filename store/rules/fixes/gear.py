"""What stands in the wall: boards, drivers, dimmers, openings that are too small, where a cord plugs in."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from store.measure.length import INCH_NM, Length
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.findings import Finding
from store.rules.fit.shelves import floating, inner_shelves, shelves, what_would_do
from store.rules.fixes.fix import Fix, fixes
from store.rules.fixes.inside import higher_shelf
from store.rules.light.lights import drivers
from store.rules.plug.proposal import plan_plugs
from store.rules.wall.places import point_of
from store.rules.wall.shape import depth_there
from store.trade.light.driver import SIZES_W


def _step(job: Job, inches: float, mm: int) -> int:
    """A step as lengths are chosen in this job, nanometres."""
    return mm * 1_000_000 if job.settings.metric else round(inches * INCH_NM)


@fixes("shelf_sags")
def thicker_shelf(job: Job, finding: Finding) -> Iterator[Fix]:
    """A thicker board, a support between, a strip along its front."""
    tag = finding.tags[0]
    one = job.of(Opening).get(tag) or job.of(ShelfBoard).get(tag)
    if (board := job.of(Equipment).get(tag)) is not None:
        yield from _floating(job, board)
    shelf = shelves(job).get(tag) or inner_shelves(job).get(tag)
    if one is None or shelf is None:
        return
    for would in what_would_do(shelf):
        if would.what == "thicker":
            yield Fix(f"Use a thicker board for {one.tag}", (replace(one, thickness=Length(would.nm)),))
        elif would.what == "strip":
            yield Fix(f"Glue a strip along the front edge of {one.tag}", (replace(one, strip=Length(would.nm)),))
        elif would.what == "middle":
            yield Fix(f"Put one more support under {one.tag}", (replace(one, middle=one.middle + 1),))


def _floating(job: Job, one: Equipment) -> Iterator[Fix]:
    """A thicker floating shelf, or one more bracket, while it is still to buy."""
    shelf = floating(job).get(one.tag)
    for would in what_would_do(shelf) if shelf is not None and one.state == "to buy" else ():
        if would.what == "thicker":
            yield Fix(f"Use a thicker board for {one.tag}", (replace(one, height=Length(would.nm)),))
        elif would.what == "middle":
            yield Fix(f"Put one more bracket under {one.tag}", (replace(one, brackets=(one.brackets or 2) + 1),))


@fixes("driver_headroom")
def larger_driver(job: Job, finding: Finding) -> Iterator[Fix]:
    """The next size of driver that carries its lights."""
    one, driver = job.of(Equipment).get(finding.tags[0]), drivers(job).get(finding.tags[0])
    if one is None or driver is None or one.state != "to buy":
        return
    for size in SIZES_W:
        if one.rating is None or size > one.rating:
            yield Fix(f"Use a driver of {size} W", (replace(one, rating=float(size)),))


@fixes("dimmer_mismatch")
def matching_driver(job: Job, finding: Finding) -> Iterator[Fix]:
    """A driver that its dimmer works; only one that is not bought yet."""
    one = job.of(Equipment).get(finding.tags[0])
    if one is not None and one.state == "to buy" and one.dimmer not in ("unknown", "none"):
        yield Fix(f"Use a driver made for a {one.dimmer} dimmer", (replace(one, dims=one.dimmer),))


@fixes("no_place_to_plug", "strip_on_strip", "wrong_kind_of_place", "too_few_places", "cord_too_short")
def plug_place(job: Job, finding: Finding) -> Iterator[Fix]:
    """Another place to plug in, the nearest that suits."""
    for tag in finding.tags:
        one = job.of(Equipment).get(tag)
        if one is None:
            continue
        free = job.having(replace(one, plug=Ref(""), half="either"))
        for who, place, half in plan_plugs(free).placed:
            if who == tag and place != one.plug:
                yield Fix(f"Plug {tag} into {place}", (replace(one, plug=Ref(place), half=half),))
    if finding.rule == "too_few_places":
        yield from _more_places(job, finding.tags[0])
    if finding.rule == "cord_too_short":
        yield from _nearer(job, finding)


def _more_places(job: Job, tag: str) -> Iterator[Fix]:
    """One more receptacle in a new box, or a strip with more outlets."""
    box, strip = job.of(Box).get(tag), job.of(Equipment).get(tag)
    if box is not None and box.new and not box.bought and box.what == "receptacle":
        for more in (1, 2):
            wider = replace(
                box,
                gangs=box.gangs + more,
                receptacles=box.receptacles + 2 * more,
                devices=(*box.devices, *box.devices[-1:] * more),
            )
            yield Fix(f"Put {more} more {'receptacle' if more == 1 else 'receptacles'} in {tag}", (wider,))
            yield Fix(
                f"Put {more} more {'receptacle' if more == 1 else 'receptacles'} in {tag}, a larger box",
                (replace(wider, volume=34.0 * more, size=""),),
            )
    if strip is not None and strip.state == "to buy":
        for places in (8, 10, 12):
            if places > strip.places:
                yield Fix(f"Use a strip with {places} outlets", (replace(strip, places=places),))


def _nearer(job: Job, finding: Finding) -> Iterator[Fix]:
    """The new box that it plugs into, nearer to it along the line between them."""
    at = point_of(job, finding.tags[0])
    for tag in finding.tags[1:]:
        box, there = job.of(Box).get(tag), point_of(job, tag)
        if box is None or not box.new or at is None or there is None:
            continue
        for share in range(1, 8):
            x, y = (mine + (its - mine) * share // 8 for mine, its in zip(there, at, strict=True))
            yield Fix(f"Set {tag} closer to {finding.tags[0]}", (replace(box, x=Length(x), y=Length(y)),))


@fixes("does_not_fit", "row_does_not_fit", "tight")
def larger_opening(job: Job, finding: Finding) -> Iterator[Fix]:
    """The opening a step larger at a time, in the one direction that is short, then in two."""
    for tag in finding.tags:
        if (gear := job.of(Equipment).get(tag)) is not None and gear.stands_on:
            yield from higher_shelf(job, gear)
            break
    one = next((each for tag in finding.tags if (each := job.of(Opening).get(tag)) is not None), None)
    if one is None:
        for tag in finding.tags:
            device = job.of(Equipment).get(tag)
            one = one or (job.of(Opening).get(device.opening) if device is not None else None)
    if one is None:
        return
    step = _step(job, 0.5, 10)
    for count in range(1, 14):
        for key in ("depth", "height", "width"):
            size = getattr(one, key)
            if size is not None:
                grown = Length(size.nm + count * step)
                yield Fix(f"Make {one.tag} {_WORD[key]}", (replace(one, **{key: grown}),))


_WORD = {"depth": "deeper", "height": "higher", "width": "wider"}


@fixes("deeper_than_there")
def shallower_opening(job: Job, finding: Finding) -> Iterator[Fix]:
    """The opening as deep as there is room for it, and whole steps less."""
    one, there = job.of(Opening).get(finding.tags[0]), depth_there(job, finding.tags[0])
    if one is None or there is None:
        return
    step = _step(job, 0.5, 10)
    for less in range(4):
        deep = there // step * step - less * step
        if deep > 0:
            yield Fix(f"Make {one.tag} less deep", (replace(one, depth=Length(deep)),))


@fixes("light_glares")
def deeper_lip(job: Job, finding: Finding) -> Iterator[Fix]:
    """A lip that comes farther past the source."""
    one = job.of(Equipment).get(finding.tags[0])
    if one is None or one.lip is None:
        return
    for count in range(1, 16):
        deep = Length(one.lip.nm + count * _step(job, 0.25, 5))
        yield Fix(f"Use a deeper lip or profile for {one.tag}", (replace(one, lip=deep),))
