"""What each cable takes: the length to cut, and what to buy for it."""

from __future__ import annotations

import re
from fractions import Fraction

import msgspec

from store.measure.errors import BadValue
from store.measure.length import FOOT_NM, INCH_NM, LONGEST_NM
from store.measure.money import Money, parse_money
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.kinds import SHORT, Slack, Waste, is_power, kind_of, slack_at, sold_text, step_nm, waste_of
from store.rules.cable.routes import Route, route_of, routes
from store.rules.core.keyed import of_each
from store.trade.cable.bends import least_radius_nm
from store.trade.cable.length import METRE_NM, cut_length_nm, next_sold_nm
from store.trade.cable.types import CableType, sold_lengths_nm

SPOOL = "from a spool"
_OFFER = re.compile(
    r"(?P<length>\d{1,5}(?:\.\d{1,3})?)\s*(?P<unit>ft|feet|foot|'|m|metres?|meters?)(?P<rest>(?:[\s:=@(].*)?)", re.ASCII
)
_BETWEEN = re.compile(r"(?:(?:box|spool|coil|reel|roll)\b)?\s*(?:at\b(?! hand)|for\b|[:=@])?\s*")
"""What people write between a length and its price."""
_OWNED = re.compile(r"\(?(?:owned|at hand)\b\)?[\s,:#]*(?P<name>.*)")


class Offer(msgspec.Struct, frozen=True):
    """One length in which a kind of cable is to be had."""

    length: int
    price: Money | None = None
    owned: bool = False
    """A spool or cord that is in the house already."""
    name: str = ""
    """What tells a spool that is owned from another of the same length."""

    def at_hand(self, number: int) -> Offer:
        """This one once it is bought; `number` tells it from others of its length."""
        return Offer(self.length, Money(0), True, str(number) if number > 1 else "")

    @property
    def text(self) -> str:
        """One that is owned, as `read_offer` takes it back; of a length that was typed, or is sold."""
        unit, name = (FOOT_NM, "ft") if self.length * 1000 % FOOT_NM == 0 else (METRE_NM, "m")
        length = f"{self.length / unit:.3f}".rstrip("0").rstrip(".")
        return f"{length} {name} owned" + (f" {self.name}" if self.name else "")


class Need(msgspec.Struct, frozen=True):
    """What one cable takes."""

    cable: Cable
    kind: CableType | None
    route: Route
    power: bool
    waste: Waste
    """What is added to the path."""
    slack: tuple[Slack, Slack]
    cut: int | None
    """Length to cut, rounded up; None while the path is not known."""
    sold: int | None = None
    """Length to buy of a cable that comes with its plugs on."""

    @property
    def assembled(self) -> bool:
        """True when it comes with its plugs on and cannot be cut."""
        return self.kind is not None and self.kind.assembled


@of_each(Cable)
def needs(job: Job, cable: Cable) -> Need | None:
    """What every cable in use takes, by tag."""
    route = routes.one(job, cable.tag)
    return _need(job, cable, route) if route is not None else None


def _need(job: Job, cable: Cable, route: Route) -> Need:
    kind = kind_of(cable)
    own = (cable.slack_start, cable.slack_end)
    start, end = (
        slack_at(job, cable, tag, each.nm if each is not None else None)
        for tag, each in zip((cable.start, cable.end), own, strict=True)
    )
    waste = waste_of(job, cable)
    metric = job.settings.metric
    cut = None if route.path is None else cut_length_nm(route.path, waste.percent, start.nm, end.nm, step_nm(metric))
    sold = None
    if kind is not None and kind.assembled and cut is not None:
        had = offers(cable, kind, metric)
        # One that is in the house and long enough is taken, whatever shops have.
        mine, shop = ([each.length for each in had if each.owned == owned] for owned in (True, False))
        sold = next_sold_nm(cut, mine) or next_sold_nm(cut, shop)
    return Need(cable, kind, route, is_power(job, cable), waste, (start, end), cut, sold)


def cut_of(job: Job, cable: Cable) -> int | None:
    """Length to cut of a cable that is in use no more; None while its path is not known."""
    return _need(job, cable, route_of(job, cable)).cut


def noted(cable: Cable, currency: str = "") -> tuple[Offer, ...]:
    """The lengths that are noted for a cable, as far as they can be read; prices in the job's `currency`."""
    return tuple(each for text in cable.sold if (each := read_offer(text, currency)) is not None)


def off_spool(cable: Cable) -> Offer | None:
    """The spool at hand that a cable is noted as off: the first, where it names several."""
    return next((each for each in noted(cable) if each.owned), None)


def offers(cable: Cable, kind: CableType, metric: bool, currency: str = "") -> tuple[Offer, ...]:
    """The lengths in which a cable is to be had: as noted for it; where no shop is, those usually sold as well."""
    found = noted(cable, currency)
    if any(not each.owned for each in found):
        return found
    return (*found, *(Offer(each) for each in sold_lengths_nm(kind, metric=metric)))


def read_offer(text: str, currency: str = "") -> Offer | None:
    """An offer as typed: `250 ft 49.90`, `30 m`, `60 ft owned`, `60 ft owned 2`; None when it cannot be read.

    Feet or metres only, no inches: in `10 ft 9` the 9 is a price.
    """
    found = _OFFER.fullmatch(text.strip().lower())
    if found is None:
        return None
    unit = FOOT_NM if found["unit"][0] in "f'" else METRE_NM
    length = int(Fraction(found["length"]) * unit)
    if not 0 < length <= LONGEST_NM * 2:
        return None
    rest = found["rest"].strip()
    rest = rest[between.end() :] if (between := _BETWEEN.match(rest)) else rest
    if mine := _OWNED.fullmatch(rest):
        return Offer(length, Money(0), True, mine["name"].strip())
    if not rest:
        return Offer(length)
    try:
        price = parse_money(rest, currency)
    except BadValue:
        return None
    return Offer(length, price) if price >= 0 else None


def buy_text(need: Need, metric: bool) -> str:
    """What to buy for a cable, in words."""
    if need.route.path is None:
        return f"not known yet: {need.route.why}"
    if need.kind is None:
        return f"not known yet: {need.cable.type} is not a type on the list"
    if not need.assembled:
        return SPOOL
    name = SHORT.get(need.kind.key, need.kind.name)
    if need.sold is None:
        return f"{name}: no length sold is long enough"
    return f"{sold_text(need.sold, metric)} {name}"


def thickness_in(need: Need) -> float | None:
    """Outside diameter in inches, as noted or usual for its kind; None for a kind that is not known."""
    if need.cable.outside is not None:
        return need.cable.outside.inches
    return None if need.kind is None else need.kind.outside_nm / INCH_NM


_NUMBER = r"(\d+(?:\.\d+)?)"


def number_of(text: str, unit: str) -> float | None:
    """The number in front of a unit in what a cable must carry, like 48 of `48 Gbit/s`; None without one."""
    found = re.search(rf"{_NUMBER}\s*{unit}\b", text, re.IGNORECASE)
    return float(found[1]) if found else None


def gbit_s(text: str) -> float | None:
    """The data rate that is noted, Gbit/s; None without one."""
    if (found := number_of(text, r"(?:Gbit/s|Gbps|Gb/s|G)")) is not None:
        return found
    found = number_of(text, r"(?:Mbit/s|Mbps|Mb/s)")
    return None if found is None else found / 1000


def bend_radius_nm(need: Need) -> int | None:
    """The least inside bend radius of a cable; None for a kind that is not known."""
    return None if need.kind is None else least_radius_nm(need.kind.outside_nm, need.kind.bend_multiple)
