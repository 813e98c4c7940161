"""Each light and each driver: what is drawn, what the wire loses, and the driver that it wants."""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import isfinite

import msgspec

from store.measure.length import FOOT_NM
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.build.channels import tape_nm
from store.rules.cable.routes import routes
from store.rules.core.keyed import of_each
from store.rules.core.memo import once
from store.rules.wall.layout import cables_at
from store.trade.light.driver import Wanted, wanted
from store.trade.light.tape import (
    OHM_PER_KFT,
    OHM_PER_KM,
    Draw,
    Drop,
    draw,
    feeder_drop,
    gauge_for,
    longest_run_nm,
    metric_feeder_drop,
    mm2_for,
    tape_drop,
)

USUAL_V = 24.0
"""Where neither the light nor its driver says its volts; our own assumption, told beside the figure."""
_GAUGE = re.compile(r"(?:^|[^0-9])(\d\d)-\d")
_MM2 = re.compile(r"(?:^|[^0-9.,])\d ?[x×] ?(\d(?:[.,]\d+)?)(?!\d)")


class Feeder(msgspec.Struct, frozen=True):
    """The wire from the driver to a light."""

    cable: str
    size: str
    """As sold: `18 AWG`, `1.5 mm²`."""
    length_nm: int
    drop: Drop
    would_do: float | None
    """The thinnest that keeps to 3 %, in AWG or mm² as the job has it; None where none does."""
    amps: float
    """What runs in it: half of all where a wire runs to each end."""


class Light(msgspec.Struct, frozen=True):
    """One light on low voltage."""

    tag: str
    drawn: Draw
    volts: float
    volts_known: bool
    by_tape: bool
    """Worked out from its length and watts by the foot."""
    count: int
    driver: str
    feeder: Feeder | None
    longest_nm: int | None
    """Of tape fed as it is; None where it is no tape or nothing is known."""
    tape_nm: int | None
    along: Drop | None
    """Lost along the tape itself, to its darkest place; None while its resistance is not entered."""

    @property
    def drop_pct(self) -> float | None:
        """Lost on the wire and along the tape together, percent; None where neither is known."""
        known = [one.percent for one in (self.feeder.drop if self.feeder else None, self.along) if one is not None]
        return sum(known) if known else None

    @property
    def watts(self) -> float:
        """Of all pieces of it."""
        return self.drawn.watts * self.count


class Driver(msgspec.Struct, frozen=True):
    """One driver and all lights on it."""

    tag: str
    lights: tuple[str, ...]
    watts: float
    volts: float
    wanted: Wanted
    rating_w: float | None
    outputs: int
    """Outputs that it has; 0 where nobody entered them."""


@of_each(Equipment)
def lights(job: Job, one: Equipment) -> Light | None:
    """Every light whose watts are known and that is on a driver, or is tape."""
    driver, tape = _driver_of(job, one), tape_nm(job, one)
    if one.what != "light" or one.retired is not None or (driver is None and tape is None):
        return None
    volts = _above_zero(one.volts) or (None if driver is None else _above_zero(driver.volts))
    used = volts or USUAL_V
    per_ft = _above_zero(one.per_ft)
    by_tape = tape is not None and tape > 0 and per_ft is not None
    if tape is not None and tape > 0 and per_ft is not None:
        drawn = draw(tape, per_ft, used)
    elif (watts := _above_zero(one.watts)) is not None:
        drawn = Draw(watts, watts / used)
    else:
        return None
    longest = None
    along = None
    if tape is not None and tape > 0:
        longest = longest_run_nm(used, one.fed, None if one.longest_run is None else one.longest_run.nm)
        if (each := _above_zero(one.tape_ohm)) is not None:
            along = tape_drop(drawn, used, each * feet(tape), one.fed)
    feeder = _feeder(job, one, driver, drawn, used)
    return Light(
        one.tag, drawn, used, volts is not None, by_tape, max(1, one.count), driver.tag if driver else "", feeder,
        longest, tape, along,
    )  # fmt: skip


def _above_zero(value: float | None) -> float | None:
    return value if value is not None and isfinite(value) and value > 0 else None


def _driver_of(job: Job, one: Equipment) -> Equipment | None:
    at = job.of(Equipment).get(one.plug) if one.plug else None
    return at if at is not None and at.what == "driver" and at.retired is None else None


def _feeder(job: Job, one: Equipment, driver: Equipment | None, drawn: Draw, volts: float) -> Feeder | None:
    """The wire to the light that loses most, from its driver where any comes from there; with a wire to each end of a
    tape that is fed from both, half of it runs in each."""
    wires = list(_wires(job, one))
    own = [each for each in wires if driver is not None and driver.tag in (each[0].start, each[0].end)] or wires[:1]
    amps = drawn.amps / (2 if one.fed == "both ends" and len(own) > 1 else 1)
    found = [
        Feeder(cable.tag, size.text, path, size.drop(amps, volts, path), _would_do(job, amps, volts, path), amps)
        for cable, size, path in own
    ]
    return max(found, key=lambda each: each.drop.volts, default=None)


def _wires(job: Job, one: Equipment) -> Iterator[tuple[Cable, WireSize, int]]:
    """Each wire that ends at a light, with its size and its length."""
    for cable in cables_at(job).get(one.tag, ()):
        size, route = _size(cable), routes.one(job, cable.tag)
        if size is not None and route is not None and route.path:
            yield cable, size, route.path


class WireSize(msgspec.Struct, frozen=True):
    """What one conductor of a cable is."""

    awg: int = 0
    mm2: float = 0.0

    @property
    def text(self) -> str:
        """As it is sold."""
        return f"{self.mm2:g} mm²" if self.mm2 else f"{self.awg} AWG"

    def drop(self, amps: float, volts: float, one_way_nm: int) -> Drop:
        """What it loses there and back."""
        if self.mm2:
            return metric_feeder_drop(amps, volts, one_way_nm, self.mm2)
        return feeder_drop(amps, volts, one_way_nm, self.awg)


def _size(cable: Cable) -> WireSize | None:
    if metric := _MM2.search(cable.type):
        mm2 = float(metric[1].replace(",", "."))
        return WireSize(mm2=mm2) if mm2 in OHM_PER_KM else None
    read = _GAUGE.search(cable.type)
    gauge = int(read[1]) if read else 0
    return WireSize(awg=gauge) if gauge in OHM_PER_KFT else None


def _would_do(job: Job, amps: float, volts: float, one_way_nm: int) -> float | None:
    return (mm2_for if job.settings.metric else gauge_for)(amps, volts, one_way_nm)


def wire_text(job: Job, size: float) -> str:
    """A size that would do: `16 AWG`, or `1.5 mm²`."""
    return f"{size:g} {'mm²' if job.settings.metric else 'AWG'}"


@once
def _on_drivers(job: Job) -> dict[str, tuple[Light, ...]]:
    """The lights by the driver that they are on."""
    found: dict[str, tuple[Light, ...]] = {}
    for each in lights(job).values():
        found[each.driver] = (*found.get(each.driver, ()), each)
    return found


@of_each(Equipment)
def drivers(job: Job, one: Equipment) -> Driver | None:
    """Every driver with lights on it."""
    if one.what != "driver" or one.retired is not None:
        return None
    on = _on_drivers(job).get(one.tag, ())
    watts = sum(each.watts for each in on)
    if watts <= 0:
        return None
    volts = _above_zero(one.volts) or next((each.volts for each in on if each.volts_known), USUAL_V)
    return Driver(
        one.tag, tuple(each.tag for each in on), watts, volts, wanted(watts, volts), _above_zero(one.rating), one.places
    )


def feet(nm: int) -> float:
    """A length in feet."""
    return nm / FOOT_NM
