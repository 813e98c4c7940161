"""Findings about what an inspector looks for: arc-fault and residual-current protection, receptacles, old boxes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.length import INCH_NM
from store.records.access import Panel
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each, of_each, said_by
from store.rules.core.wording import ELECTRICIAN, INSPECTOR, few_of, plain
from store.rules.core.wording import named as called
from store.rules.power.box_contents import looks
from store.rules.power.box_text import says_no_ground
from store.rules.power.plan import power
from store.rules.wall.places import POWER_BOXES
from store.trade.heat.heater import ARC_FAULT_UP_TO_A
from store.trade.measured.citations import cite, nec
from store.trade.power.devices import device_named

CHILD_REACH_NM = 66 * INCH_NM
"""5-1/2 ft: NEC 406.12."""
GFCI = "GFCI receptacle"
BEHIND = ("screen", "fireplace")
"""Uses of an opening whose thing has to come out before a hand gets to what is behind it."""
LOW_VOLTS = 125.0
"""NEC 210.12 and 406.12 speak of 120 V circuits and 125 V receptacles; 240 V ones are above this."""


@rule
@from_each(Circuit)
def arc_fault_missing(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """A 120 V circuit of a living room with new outlets and no arc-fault protection noted."""
    if not is_us(job):
        return
    tag, on = circuit.tag, power(job).circuits.get(circuit.tag)
    if on is None:
        return
    new = _new_outlets(job).get(circuit.tag, ())
    small = on.circuit.breaker is None or on.circuit.breaker <= ARC_FAULT_UP_TO_A
    if new and small and on.volts <= LOW_VOLTS and not on.circuit.afci:
        yield Finding(
            "arc_fault_missing",
            "fix",
            (tag,),
            "No AFCI protection entered",
            (
                "Use an AFCI breaker or another listed means, and enter it on the circuit. States and cities "
                f"change this rule. {ELECTRICIAN}"
            ),
            cite("afci", edition(job)),
            {"new": few_of(new), "volts": plain(on.volts)},
            why=f"The circuit gets new outlets ({few_of(new)}) in a living area.",
        )


@said_by(Box)
def _new_outlets(box: Box) -> Iterator[tuple[str, str]]:
    """The new boxes for power on each circuit."""
    if box.new and box.what in POWER_BOXES:
        yield str(box.circuit), box.tag


@rule
@from_each(Circuit)
def residual_current_missing(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """A 230 V circuit with new cable in the wall and no 30 mA protection noted."""
    if is_us(job):
        return
    tag, on = circuit.tag, power(job).circuits.get(circuit.tag)
    if on is None:
        return
    new = _new_outlets(job).get(circuit.tag, ())
    if new and not on.circuit.gfci:
        yield Finding(
            "residual_current_missing",
            "fix",
            (tag,),
            "No RCD protection entered",
            (
                "Use 30 mA RCD protection and enter it on the circuit. Keep cable less than 50 mm deep in "
                f"a wall in its zones: straight up, down or sideways from a box. {ELECTRICIAN}"
            ),
            f"{METRIC_CODE} 522.6.202 and .203 (from memory)",
            {"new": few_of(new)},
            why=f"The circuit gets new boxes ({few_of(new)}), and no 30 mA protection is entered.",
        )


@of_each(Box)
def _not_tamper_resistant(job: Job, box: Box) -> bool | None:
    # 406.12, exceptions: one more than 5-1/2 ft above the floor, by its place and not by a word.
    new = box.new and box.what == "receptacle" and not _out_of_reach(box)
    return (new and not any(each.tamper for each in power(job).gear[box.tag] if each.places)) or None


@rule
def tamper_resistant(job: Job) -> Iterable[Finding]:
    """New receptacles that are not noted as tamper-resistant: one reminder for all."""
    open_ones = tuple(_not_tamper_resistant(job))
    if open_ones and is_us(job):
        yield Finding(
            "tamper_resistant",
            "look",
            open_ones,
            "Not tamper-resistant",
            f"Buy TR receptacles, then enter it in the device, like: receptacle TR 12. {INSPECTOR}",
            nec("406.12", edition(job)),
            {"boxes": few_of(open_ones, 99)},
            why="New receptacles in a house must be TR, and these are not entered as TR.",
        )


def _out_of_reach(box: Box) -> bool:
    return box.y is not None and box.y.nm > CHILD_REACH_NM


@rule
@from_each(Box)
def protection_out_of_reach(job: Job, box: Box) -> Iterable[Finding]:
    """A receptacle with a test button where nobody reaches it: behind a panel, the TV or the fireplace."""
    if not is_us(job) or not any(device_named(text) == GFCI for text in box.devices):
        return
    way = job.get(str(box.reached)) if box.reached else None
    behind = isinstance(way, Panel) or (isinstance(way, Opening) and way.use in BEHIND)
    if behind:
        yield Finding(
            "protection_out_of_reach",
            "fix",
            (box.tag, str(box.reached)),
            f"GFCI receptacle out of reach, behind {box.reached}",
            f"Put the protection at the breaker or in a box in reach, and an ordinary receptacle here. {ELECTRICIAN}",
            nec("210.8", edition(job)),
            {"devices": ", ".join(box.devices), "behind": str(box.reached)},
            why=f"It is behind {called(job, str(box.reached))}, and must be readily accessible to be tested and reset.",
            about=(box.tag,),
        )


@rule
@from_each(Box)
def no_ground_there(job: Job, box: Box) -> Iterable[Finding]:
    """A receptacle that is fed by cable which is said to bring no ground."""
    without = [text for text in box.conductors if says_no_ground(text)]
    look = looks(job).get(box.tag)
    if box.what != "receptacle" or not without or look is None or look.grounded:
        return
    if not box.new and not power(job).mains.get(box.tag):
        return
    yield Finding(
        "no_ground_there",
        "fix",
        (box.tag,),
        "No ground in the box",
        "Bring a ground to it: a new cable from the electrical panel, or a ground run as the code allows. Plan "
        f"nothing new from it until then. {ELECTRICIAN}",
        f"{nec('406.4(A)', edition(job))} and 250.130(C)" if is_us(job) else METRIC_CODE,
        {"cables": ", ".join(without)},
        why=f"{', '.join(repr(each[:40]) for each in without)}: grounding receptacles, and what is fed on from them, "
        "need a ground.",
    )


@rule
@from_each(Cable)
def tap_from_existing(job: Job, cable: Cable) -> Iterable[Finding]:
    """A new box fed from an old one: what has to be known of the old circuit first."""
    boxes = job.of(Box)
    tag = cable.tag
    ends = (boxes.get(cable.start), boxes.get(cable.end))
    if cable.retired is not None or None in ends or cable not in power(job).mains.get(cable.start, ()):
        return
    old = next((box for box in ends if box is not None and not box.new), None)
    if old is None or all(box is not None and not box.new for box in ends):
        return
    missing = _tap_missing(job, old)
    if missing:
        yield Finding(
            "tap_from_existing",
            "look",
            (old.tag, tag),
            f"Existing box tapped by {tag}: entries missing",
            (
                "Find everything the old breaker feeds and enter its watts. Read the old box's volume "
                f"and count its cables with the new one. {ELECTRICIAN}"
            ),
            f"{nec('314.16', edition(job))}; {cite('afci', edition(job))}" if is_us(job) else METRIC_CODE,
            {"not noted": few_of(missing)},
            why=(f"{called(job, tag)} taps {called(job, old.tag)}, which is existing. Not entered: {few_of(missing)}."),
            about=(old.tag,),
        )


def _tap_missing(job: Job, old: Box) -> list[str]:
    on = power(job).circuits.get(old.circuit)
    if on is None:
        return ["its circuit"]
    missing = []
    if not on.circuit.load:
        missing.append("the load already on the circuit")
    if on.circuit.breaker is None or not on.circuit.conductor:
        missing.append("breaker and wire")
    look = looks(job).get(old.tag)
    if look is not None and (look.volume_in3 is None or look.fill is None):
        missing.append("the volume of the old box and what is in it")
    return missing
