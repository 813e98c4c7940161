"""What is in each raceway, how full it is, and what would still go through."""

from __future__ import annotations

import msgspec

from store.measure.length import INCH_NM, Length
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.courses import bends_of, raceway_course
from store.rules.cable.legs import Leg
from store.rules.cable.lengths import Need, needs, thickness_in
from store.rules.cable.raceway_later import later_in
from store.rules.cable.raceway_plugs import Lying, goes_in, items_of, lying, to_come, worst_plug
from store.rules.cable.routes import studs_on
from store.rules.core.keyed import index, of_each
from store.trade.cable.raceway_fill import Fill, bundle_diameter_in, fill, how_many_more, raceway, usual_radius_in
from store.trade.cable.types import CABLE_TYPES, CableType
from store.trade.power.tables_us import RACEWAYS, RacewaySize

NEXT_CABLE = "cat6"
"""The cable that the next one is taken to be where a raceway is empty; common practice."""
OUTSIDE_IN = {
    "ENT": {"1/2": 0.840, "3/4": 1.050, "1": 1.315, "1-1/4": 1.660, "1-1/2": 1.900, "2": 2.375},
    "EMT": {"1/2": 0.706, "3/4": 0.922, "1": 1.163, "1-1/4": 1.510, "1-1/2": 1.740, "2": 2.197},
}
"""Outside diameter, in, by trade size. NEMA TC 13 (ENT) and ANSI C80.3 (EMT), from memory."""
_DECIMAL = {"0.5": "1/2", "0.75": "3/4", "1.0": "1", "1.25": "1-1/4", "1.5": "1-1/2", "2.0": "2"}
HOLE_ROOM_IN = 0.25
"""Added to a bundle and its plug for a hole that it goes through with ease; common practice, no source."""
GROMMETS_IN = (1.5, 2.0, 2.5, 3.0, 3.5, 4.0)
"""Desk grommets as sold, by the hole they take, in; common practice, from memory."""
BORES_MM = (25, 32, 40, 50, 63)
"""Inside diameters to choose from in a metric job, mm; common practice, no source."""


class Inside(msgspec.Struct, frozen=True):
    """A raceway with what is in it."""

    raceway: Raceway
    bore_in: float | None
    """Inside diameter; None while neither a trade size of the table nor a diameter is noted."""
    cables: tuple[Need, ...]
    unknown: tuple[str, ...]
    """Cables in it whose diameter is not known."""
    lying: tuple[Lying, ...]
    """What is in it, then what is to be drawn in later."""
    fill: Fill | None
    fill_later: Fill | None
    """With what is to be drawn in later."""
    more: int
    more_of: str
    hole_in: float
    """Round hole that all of its cables go through, the largest plug with its grip last."""
    studs: int | None

    @property
    def power(self) -> bool:
        """True when mains wiring is in it, so that the code's fill limits bind."""
        return any(each.power for each in self.cables)

    @property
    def now(self) -> tuple[Lying, ...]:
        """What is in it, without what comes later."""
        return tuple(each for each in self.lying if not each.later)

    @property
    def later(self) -> tuple[Lying, ...]:
        """What is to be drawn in later."""
        return tuple(each for each in self.lying if each.later)


in_raceway = index(Cable, lambda one: (one.raceway,) if one.route == "raceway" else ())
"""The cables that are led through each raceway."""


@of_each(Raceway)
def insides(job: Job, one: Raceway) -> Inside:
    """Every raceway with what is in it, by tag."""
    found = (needs(job).get(each.tag) for each in in_raceway(job).get(one.tag, ()))
    there = [need for need in found if need is not None]
    bore = bore_in(one)
    there_in = lying(there, later_in(job, one))
    now = tuple(each for each in there_in if not each.later)
    unknown = tuple(need.cable.tag for need in there if thickness_in(need) is None)
    largest = max((each for each in now if each.wide_in), key=lambda each: each.wide_in or 0.0, default=None)
    more_wide = (largest and largest.wide_in) or CABLE_TYPES[NEXT_CABLE].outside_nm / INCH_NM
    more_of = next((need.cable.type for need in there if largest and need.cable.tag == largest.name), NEXT_CABLE)
    short = one.length.inches if one.length is not None and one.length.nm > 0 else None
    filled, later = (fill(bore, items_of(each), length_in=short) if bore else None for each in (now, there_in))
    more = how_many_more(bore, items_of(there_in), more_wide, length_in=short) if bore else 0
    return Inside(
        one, bore, tuple(there), unknown, there_in, filled, later, more, more_of, _hole_in(now), _studs(job, one)
    )


def _hole_in(there: tuple[Lying, ...]) -> float:
    worst = worst_plug(there, grip=True)
    wide = [each.wide_in for each in there if each.wide_in is not None]
    return worst.needs_in if worst is not None else bundle_diameter_in(wide) if wide else 0.0


def bore_in(one: Raceway) -> float | None:
    """Inside diameter of a raceway, in: as noted, else by its trade size."""
    if one.inside is not None:
        return one.inside.inches if one.inside.nm > 0 else None
    if one.type in ("ENT", "EMT"):
        try:
            return raceway(one.type, tidy_size(one.size)).inside_in
        except ValueError:
            return None
    return None


def tidy_size(text: str) -> str:
    """A trade size as the table writes it: `1 1/2 in` and `1.5` are `1-1/2`."""
    plain = text.strip().rstrip('" ')
    if plain in _DECIMAL:
        return _DECIMAL[plain]
    return "-".join(text.lower().replace('"', " ").replace("inch", " ").replace("in", " ").replace("-", " ").split())


def outside_in(one: Raceway) -> float | None:
    """Outside diameter of a raceway, in; None where its trade size is not in the table."""
    return OUTSIDE_IN.get(one.type, {}).get(tidy_size(one.size))


def bend_radius_in(one: Raceway, bore: float) -> float:
    """Radius of a usual bend of a raceway, in: Chapter 9, Table 2; of one with no trade size as of a tube as wide."""
    sizes = (each for each in RACEWAYS if (each.kind, each.trade_size) == (one.type, tidy_size(one.size)))
    return next((each.bend_radius_in for each in sizes), None) or usual_radius_in(bore)


def bends_deg(job: Job, one: Raceway) -> float:
    """All turns of a raceway, degrees; nothing while not known."""
    return max(0.0, bends_of(job, one) or 0.0)


def sizes_that_do(job: Job, inside: Inside) -> list[RacewaySize]:
    """The trade sizes of its type that hold what is in it and what comes later, and let its plugs be pulled; the
    smallest first. Empty where none does, or its type has none."""
    bends, kind = bends_deg(job, inside.raceway), inside.raceway.type
    sizes = (each for each in RACEWAYS if each.kind == kind)
    return [each for each in sizes if goes_in(inside.lying, each.inside_in, each.bend_radius_in, bends)]


def bores_that_do(job: Job, inside: Inside) -> list[Length]:
    """The inside diameters, of usual steps in a metric job, that hold what is in it and what comes later, and let its
    plugs be pulled; the smallest first. Common practice: what a tube of a nominal size has inside is the maker's."""
    bends = bends_deg(job, inside.raceway)
    bores = (Length(mm * 1_000_000, metric=True) for mm in BORES_MM)
    return [each for each in bores if goes_in(inside.lying, each.inches, usual_radius_in(each.inches), bends)]


def takes(job: Job, inside: Inside, kind: CableType, count: int) -> bool:
    """Whether so many more cables of a kind go into a raceway: by its fill, and by their plugs."""
    bore = inside.bore_in
    if bore is None:
        return False
    there = (*inside.lying, *(to_come(kind) for _ in range(count)))
    return goes_in(there, bore, bend_radius_in(inside.raceway, bore), bends_deg(job, inside.raceway))


def grommet_in(hole_in: float) -> float | None:
    """The smallest desk grommet that a bundle and its plug go through with ease; None when none is large enough."""
    return next((each for each in GROMMETS_IN if each >= hole_in + HOLE_ROOM_IN), None)


def _studs(job: Job, one: Raceway) -> int | None:
    """Studs that a raceway between two places is bored through; None while not known."""
    if one.type == "grommet":
        return 0
    way = raceway_course(job, one)
    if isinstance(way, str):
        return None
    met = studs_met(job, way.within)
    return None if met is None else sum(met.values())


def studs_met(job: Job, legs: tuple[Leg, ...]) -> dict[str, int] | None:
    """Studs that stretches are bored through, by wall; None while not known."""
    found: dict[str, int] = {}
    for leg in legs:
        if leg.start[0] == leg.end[0]:
            continue
        met = studs_on(job, leg, ends=len({each.wall for each in legs}) > 1, level=None)
        if met is None:
            return None
        found[leg.wall] = found.get(leg.wall, 0) + len(met)
    return found
