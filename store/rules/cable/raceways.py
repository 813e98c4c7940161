"""What is in each raceway, how full it is, and what would still go through."""

from __future__ import annotations

import msgspec

from store.measure.length import INCH_NM
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.kinds import GRIP_MM
from store.rules.cable.lengths import Need, needs, thickness_in
from store.rules.cable.routes import raceway_course, studs_on
from store.rules.core.keyed import index, of_each
from store.trade.cable.raceway_fill import Fill, Plug, cable_item, fill, hole_for, how_many_more, raceway
from store.trade.cable.types import CABLE_TYPES

NEXT_CABLE = "cat6"
"""The cable that the next one is taken to be where a raceway is empty; common practice."""
OUTSIDE_IN = {
    "ENT": {"1/2": 0.840, "3/4": 1.050, "1": 1.315, "1-1/4": 1.660, "1-1/2": 1.900, "2": 2.375},
    "EMT": {"1/2": 0.706, "3/4": 0.922, "1": 1.163, "1-1/4": 1.510, "1-1/2": 1.740, "2": 2.197},
}
"""Outside diameter, in, by trade size. NEMA TC 13 (ENT) and ANSI C80.3 (EMT), from memory."""
_DECIMAL = {"0.5": "1/2", "0.75": "3/4", "1.0": "1", "1.25": "1-1/4", "1.5": "1-1/2", "2.0": "2"}
MM_IN = 25.4
HOLE_ROOM_IN = 0.25
"""Added to a bundle and its plug for a hole that it goes through with ease; common practice, no source."""
GROMMETS_IN = (1.5, 2.0, 2.5, 3.0, 3.5, 4.0)
"""Desk grommets as sold, by the hole they take, in; common practice, from memory."""


class Inside(msgspec.Struct, frozen=True):
    """A raceway with what is in it."""

    raceway: Raceway
    bore_in: float | None
    """Inside diameter; None while neither a trade size of the table nor a diameter is noted."""
    cables: tuple[Need, ...]
    unknown: tuple[str, ...]
    """Cables in it whose diameter is not known."""
    fill: Fill | None
    more: int
    more_of: str
    hole_in: float
    """Round hole that all of its cables go through, the largest plug with its grip last."""
    studs: int | None

    @property
    def power(self) -> bool:
        """True when mains wiring is in it, so that the code's fill limits bind."""
        return any(each.power for each in self.cables)


in_raceway = index(Cable, lambda one: (one.raceway,) if one.route == "raceway" else ())
"""The cables that are led through each raceway."""


@of_each(Raceway)
def insides(job: Job, one: Raceway) -> Inside:
    """Every raceway with what is in it, by tag."""
    found = (needs(job).get(each.tag) for each in in_raceway(job).get(one.tag, ()))
    there = [need for need in found if need is not None]
    bore = bore_in(one)
    known = [(need, wide) for need in there if (wide := thickness_in(need)) is not None]
    unknown = tuple(need.cable.tag for need in there if thickness_in(need) is None)
    items = [cable_item(wide) for _, wide in known]
    largest = max(known, key=lambda each: each[1], default=None)
    more_wide = largest[1] if largest else CABLE_TYPES[NEXT_CABLE].outside_nm / INCH_NM
    more_of = largest[0].cable.type if largest else NEXT_CABLE
    short = one.length.inches if one.length is not None and one.length.nm > 0 else None
    filled = fill(bore, items, length_in=short) if bore else None
    more = how_many_more(bore, items, more_wide, length_in=short) if bore else 0
    others, plug = _last_in([each[0] for each in known])
    hole = hole_for(others, plug) if known else 0.0
    return Inside(one, bore, tuple(there), unknown, filled, more, more_of, hole, _studs(job, one))


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


def plug_of(need: Need, *, grip: bool = False) -> Plug | None:
    """The plug of a cable that comes with its plugs on, or the grip behind it; None for one made up on site."""
    if need.kind is None or not need.assembled or need.kind.plug_mm is None:
        return None
    wide, high = GRIP_MM.get(need.kind.family, need.kind.plug_mm) if grip else need.kind.plug_mm
    return Plug(wide / MM_IN, high / MM_IN)


def _last_in(there: list[Need]) -> tuple[list[float], Plug | None]:
    """The other cables' diameters, and the largest plug with its grip, which goes through last."""
    ends = ((need, plug_of(need, grip=True)) for need in there)
    plugged = [(plug.diagonal_in, need.cable.tag, plug) for need, plug in ends if plug is not None]
    widest = max(plugged, key=lambda each: each[0], default=None)
    own = widest[1] if widest else ""
    others = [wide for need in there if need.cable.tag != own and (wide := thickness_in(need)) is not None]
    return others, widest[2] if widest else None


def plugs_in(inside: Inside) -> tuple[Need, ...]:
    """The cables in a raceway that come with their plugs on."""
    return tuple(need for need in inside.cables if plug_of(need) is not None)


def bend_radius_in(one: Raceway) -> float | None:
    """Radius of a usual bend of a raceway, in: Chapter 9, Table 2; None where its size is not of the table."""
    if one.type not in ("ENT", "EMT"):
        return None
    try:
        return raceway(one.type, tidy_size(one.size)).bend_radius_in
    except ValueError:
        return None


def worst_plug(inside: Inside, *, grip: bool) -> tuple[Need, Plug, float] | None:
    """The plug that needs the largest bore beside the other cables, and that bore in inches."""
    found = []
    widths = [thickness_in(each) for each in inside.cables]
    holes: dict[tuple[Plug, float | None], float] = {}
    for at, need in enumerate(inside.cables):
        if (plug := plug_of(need, grip=grip)) is not None:
            # Plugs of one size on cables of one thickness have the same beside them.
            if (kind := (plug, widths[at])) not in holes:
                others = [wide for place, wide in enumerate(widths) if place != at and wide is not None]
                holes[kind] = hole_for(others, plug)
            found.append((need, plug, holes[kind]))
    return max(found, key=lambda each: each[2], default=None)


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
    met = [
        studs_on(job, leg, ends=len({each.wall for each in way.legs}) > 1, level=None)
        for leg in way.legs
        if leg.start[0] != leg.end[0]
    ]
    return None if None in met else sum(len(each) for each in met if each is not None)
