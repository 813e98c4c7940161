"""Another way through the wall for a cable that goes where it must not."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from store.measure.length import INCH_NM, Length
from store.records.field import Ref
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.legs import BEYOND
from store.rules.cable.raceway_ways import raceway_way_words, raceway_ways
from store.rules.cable.routes import routes
from store.rules.cable.ways import OUTSIDE, way_words, ways_round
from store.rules.core.findings import Finding
from store.rules.core.wording import listed
from store.rules.fixes.fix import Fix, fixes
from store.rules.wall.layout import walls
from store.rules.wall.places import point_of, wall_of

LEVELS_APART_IN = 6
"""Heights that are tried for a run through the studs."""


@fixes("cable_across_heater", "cable_through_hole", "cable_off_wall", "signal_beside_power", "cable_in_air_space",
       "cables_bundled")  # fmt: skip
def led_round(job: Job, finding: Finding) -> Iterator[Fix]:
    """The nearest way that clears what is in the way; level at another height; over the top or under the floor."""
    cables = [one for tag in finding.tags if (one := job.of(Cable).get(tag)) is not None]
    cables = [one for one in cables if one.state in ("planned", "bought") and one.retired is None]
    for one in cables:
        if (way := ways_round(job).get(one.tag)) is not None:
            yield Fix(f"Run {one.tag} {way_words(job, way, brief=True)}", (way.cable,))
    groups = [[one] for one in cables] if finding.rule == "signal_beside_power" else []
    if finding.rule == "signal_beside_power":
        groups.sort(key=lambda each: each[0].type.startswith(("nm", "mc", "ac", "uf", "flat")))
    for group in [*groups, cables]:
        if group:
            yield from _ways(job, group)


@fixes("raceway_across_heater", "raceway_through_hole", "raceway_off_wall", "raceway_hole_large")
def raceway_led_round(job: Job, finding: Finding) -> Iterator[Fix]:
    """The nearest way of a raceway that can be built."""
    for tag in finding.tags:
        led = raceway_ways(job).get(tag) if tag in job.of(Raceway) else None
        if led is not None:
            yield Fix(f"Run {tag} {raceway_way_words(job, led, brief=True)}", (led.raceway,))


@fixes("route_not_as_entered")
def route_as_entered(job: Job, finding: Finding) -> Iterator[Fix]:
    """The route that its raceway or its points were entered for."""
    cable = job.of(Cable).get(finding.tags[0])
    if cable is not None and "raceway" in finding.numbers:
        yield Fix(f"Run {cable.tag} in {cable.raceway}", (replace(cable, route="raceway"),))
    elif cable is not None:
        yield Fix(f"Run {cable.tag} by its points", (replace(cable, route="points"),))


def _ways(job: Job, cables: list[Cable]) -> Iterator[Fix]:
    """The same new way for each of some cables."""
    first = cables[0]
    tags = listed([one.tag for one in cables])
    on = walls(job).get(wall_of(job, first.start)) or walls(job).get(wall_of(job, first.end))
    start = point_of(job, first.start) or point_of(job, first.end)
    top = on.height_nm if on is not None and on.height_nm is not None else None
    now = first.level.nm if first.level is not None else start[1] if start is not None else 0
    plain = [replace(one, route="through studs", raceway=Ref(""), points=()) for one in cables]
    step = 150_000_000 if job.settings.metric else LEVELS_APART_IN * INCH_NM
    if top is not None and routes(job).get(first.tag) is not None:
        for level in sorted(range(step, top, step), key=lambda each: abs(each - now))[:14]:
            led = tuple(replace(one, level=Length(level)) for one in plain)
            yield Fix(f"Run {tags} through the studs at another height", led)
    for route in BEYOND:
        yield Fix(f"Run {tags} {OUTSIDE[route]}", tuple(replace(one, route=route, level=None) for one in plain))
