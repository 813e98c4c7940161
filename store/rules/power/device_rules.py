"""Findings about words that sums of power depend on and that nobody knows: a device in a box, a conductor."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.records.wiring import Box, Circuit
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import ELECTRICIAN, few_of
from store.rules.power.box_text import conductor_known
from store.rules.power.plan import power
from store.rules.wall.places import POWER_BOXES
from store.trade.measured.citations import nec
from store.trade.power.devices import device_named

PRACTICE = "common practice"
LINE_VOLTAGE_DEVICES = frozenset(
    {
        "single receptacle", "quad receptacle", "GFCI receptacle", "receptacle", "recessed inlet", "3-way switch",
        "switch", "dimmer", "fused connection unit", "luminaire", "surge protector",
    }
)  # fmt: skip
"""Devices of the list that line voltage comes to."""


def unknown_devices(box: Box) -> tuple[str, ...]:
    """The texts of a box that name no device of the list."""
    return tuple(text for text in box.devices if not device_named(text))


@rule
@from_each(Box)
def box_device_unknown(job: Job, box: Box) -> Iterable[Finding]:
    """A device that nobody knows in a box for power: in a new one, before the wall is closed over it."""
    odd = unknown_devices(box) if box.what in POWER_BOXES else ()
    if odd:
        sizes = ("12", "12", "14") if is_us(job) else ("2.5", "2.5", "1.5")
        like = "receptacle {}, GFCI receptacle {} or switch {}".format(*sizes)
        yield Finding(
            "box_device_unknown",
            "stop" if box.new else "look",
            (box.tag,),
            "Unknown device in a box",
            f"Pick it from the list, like {like}. {ELECTRICIAN}",
            nec("314.16", edition(job)) if is_us(job) else PRACTICE,
            {"devices": ", ".join(odd)},
            why=f"{', '.join(repr(each[:40]) for each in odd)}: not on the list, so "
            f"{'its box fill' if is_us(job) else 'what it needs'} is unchecked.",
        )


@rule
@from_each(Box)
def power_device_in_low_voltage_box(job: Job, box: Box) -> Iterable[Finding]:
    """A device for line voltage in a box for low voltage, whatever divider it has and whether a circuit is named."""
    power_ones = [text for text in box.devices if device_named(text) in LINE_VOLTAGE_DEVICES]
    if box.what != "low-voltage" or not (power_ones or box.receptacles > 0):
        return
    what = few_of(repr(each[:40]) for each in power_ones) or f"{box.receptacles} places to plug in"
    yield Finding(
        "power_device_in_low_voltage_box",
        "stop",
        (box.tag,),
        "Line voltage in a low-voltage box",
        f"Give it a power box of its own, or list this as a power box with a listed divider. {ELECTRICIAN}",
        f"{nec('300.15', edition(job))} and 725.136" if is_us(job) else f"{METRIC_CODE} 526.5 and 528.1 (from memory)",
        {"devices": ", ".join(power_ones), "places": str(box.receptacles)},
        why=f"It holds {what}. Splices and devices for power need a box made for them; a low-voltage bracket has none.",
    )


@rule
@from_each(Circuit)
def conductor_unknown(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """A circuit that feeds a new box through a conductor that nobody knows."""
    tag, on = circuit.tag, power(job).circuits.get(circuit.tag)
    if on is None:
        return
    text = on.circuit.conductor
    if not text.strip() or conductor_known(text, not is_us(job)):
        return
    new = [box for box in on.boxes if job.of(Box)[box].new]
    if new:
        yield Finding(
            "conductor_unknown",
            "stop",
            (tag,),
            "Unknown conductor",
            f"Read the jacket and pick it from the list, like 12 AWG or 2.5 mm2. {ELECTRICIAN}",
            nec("240.4", edition(job)) if is_us(job) else PRACTICE,
            {"conductor": text},
            why=f"{text[:40]!r} is not a wire size on the list. It is not known which breaker it can have. "
            f"It feeds {', '.join(new)}.",
        )
