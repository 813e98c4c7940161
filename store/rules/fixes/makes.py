"""Another make of the same thing: jacket, conductor, box, raceway, protection."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.cable.raceways import bores_that_do, insides, sizes_that_do
from store.rules.core.findings import Finding
from store.rules.core.wording import listed, sized
from store.rules.fixes.fix import Fix, fixes
from store.rules.power.box_contents import fill_with_plan, looks
from store.trade.cable.cords import cord_named
from store.trade.cable.kinds import KINDS
from store.trade.cable.names import kind_key
from store.trade.power.tables_us import STANDARD_BOXES
from store.trade.signal.speaker import OHM_PER_KM

JACKETS = ("CL2", "CL3", "CM", "CMR", "CATV", "OFNR", "NM-B", "CL2R", "CL3R")
"""Jackets for a plain wall, as they are sold; which one a cable needs is told by the rule."""
THICKER = {"18": "16", "16": "14", "14": "12", "12": "10", "10": "8", "8": "6"}
"""The next thicker wire, AWG."""
THICKER_MM2 = {"1": "1.5", "1.5": "2.5", "2.5": "4", "4": "6", "6": "10", "10": "16"}
BREAKERS_A = (15.0, 20.0, 25.0, 30.0, 40.0, 50.0)
METRIC_BREAKERS_A = (6.0, 10.0, 16.0, 20.0, 25.0, 32.0, 40.0)


@fixes("cable_not_rated", "cable_rating_not_noted", "cord_in_wall", "cable_unknown_in_wall")
def jacket(job: Job, finding: Finding) -> Iterator[Fix]:
    """A cable of the same use with a jacket that may be in a wall."""
    cable = job.of(Cable).get(finding.tags[0])
    if cable is None or cable.state in ("pulled", "connected"):
        return  # what hangs in the wall is looked at, and not renamed
    kinds = [cable.type]
    if cord_named(cable.type) or cord_named(cable.rating) or finding.rule == "cable_unknown_in_wall":
        kinds = _of_the_same_use(job, cable)
    for kind in kinds:
        for mark in JACKETS:
            yield Fix(f"Pull {kind} with a {mark} jacket", (replace(cable, type=kind, rating=mark),))


def _of_the_same_use(job: Job, cable: Cable) -> list[str]:
    """Types made for a wall that do what a cable is for, as far as its ends and words tell."""
    ends = [job.get(tag) for tag in (cable.start, cable.end)]
    words = f"{cable.name} {cable.carries} {cable.type}".lower()
    speaker = "speaker-2x2.5" if job.settings.metric else "speaker-14-2"
    if any(isinstance(one, Equipment) and one.what in ("speaker", "subwoofer") for one in ends) or "speaker" in words:
        return [speaker]
    if any(isinstance(one, Equipment) and one.what in ("light", "driver") for one in ends):
        return ["control-16-2", speaker]
    if all(isinstance(one, Box) and one.what in ("low-voltage", "pass-through") for one in ends):
        return ["control-18-2"]
    if all(isinstance(one, Box) for one in ends):
        return ["nm-12-2", "nm-14-2"] if job.settings.region == "us" else ["flat-2.5"]
    return []


@fixes("thin_wire_on_breaker", "breaker_over_wire", "voltage_drop")
def conductor(job: Job, finding: Finding) -> Iterator[Fix]:
    """A thicker wire on a circuit, or a breaker that its wire can take."""
    for tag in finding.tags:
        circuit = job.of(Circuit).get(tag)
        if circuit is None:
            continue
        metric = job.settings.region != "us"
        if finding.rule in ("thin_wire_on_breaker", "breaker_over_wire"):
            for amps in reversed(METRIC_BREAKERS_A if metric else BREAKERS_A):
                if circuit.breaker is not None and amps < circuit.breaker:
                    yield Fix(f"Use a {amps:g} A breaker", (replace(circuit, breaker=amps),))
        size = circuit.conductor
        for _ in range(4):
            size = _thicker(size, metric)
            if not size:
                break
            runs = tuple(
                replace(one, type=_grown(one.type, size))
                for one in job.of(Cable).values()
                if one.state == "planned" and _on(job, one, tag) and _grown(one.type, size) != kind_key(one.type)
            )
            yield Fix(f"Pull {size}{'' if metric else ' AWG copper'}", (replace(circuit, conductor=size), *runs))


def _thicker(text: str, metric: bool) -> str:
    """The next size of wire, written as sizes are picked; empty above the largest."""
    plain = text.lower().replace("awg", "").replace("copper", "").replace("mm2", "").replace("mm²", "").strip()
    return f"{THICKER_MM2[plain]} mm2" if metric and plain in THICKER_MM2 else THICKER.get(plain, "")


def _grown(kind: str, size: str) -> str:
    kind = kind_key(kind) or kind
    family, _, rest = kind.partition("-")
    gauge, _, wires = rest.partition("-")
    return f"{family}-{size}-{wires}" if family == "nm" and gauge.isdecimal() and wires else kind


def _on(job: Job, cable: Cable, circuit: str) -> bool:
    ends = [job.of(Box).get(tag) for tag in (cable.start, cable.end)]
    return any(box is not None and box.circuit == circuit for box in ends)


@fixes("speaker_cable_thin", "light_wire_thin")
def thicker_cable(job: Job, finding: Finding) -> Iterator[Fix]:
    """The same cable with thicker wires."""
    cable = next((one for tag in finding.tags if (one := job.of(Cable).get(tag)) is not None), None)
    if cable is None or cable.state in ("pulled", "connected"):
        return
    family, _, rest = (kind_key(cable.type) or cable.type).partition("-")
    number, cross, mm2 = rest.partition("x")
    for size in OHM_PER_KM if cross else ():
        if size > float(mm2) and f"{family}-{number}x{size:g}" in KINDS:
            yield Fix(f"Pull {family} {number} x {size:g} mm²", (replace(cable, type=f"{family}-{number}x{size:g}"),))
    gauge, _, wires = rest.partition("-")
    while gauge in THICKER and wires:
        gauge = THICKER[gauge]
        kind = f"{family}-{gauge}-{wires}"
        yield Fix(f"Pull {kind}", (replace(cable, type=kind),))


@fixes("box_overfull", "box_overfull_with_plan", "box_volume_unknown")
def box_size(job: Job, finding: Finding) -> Iterator[Fix]:
    """A box of a standard size with room for what is in it; what is in the wall already keeps its size."""
    box = job.of(Box).get(finding.tags[0])
    look = looks(job).get(finding.tags[0])
    if box is None or look is None or not box.new or box.bought:
        return
    fill = fill_with_plan(job, look)[1] or look.fill
    if fill is None:
        return
    kinds = ("round", "square") if box.what == "junction" else ("device", "square") if box.gangs == 1 else ("square",)
    for size in sorted(STANDARD_BOXES, key=lambda each: each.volume_in3):
        if size.kind in kinds and size.volume_in3 >= fill.total_in3:
            yield Fix(f"Use a {size.size} box", (replace(box, volume=None, size=size.size, metal=True),))
    for volume in (18.0, 20.3, 22.5, 34.0, 42.0, 55.0, 68.0):
        if volume >= fill.total_in3:
            yield Fix(f"Use a box of {volume:g} in³", (replace(box, volume=volume, size=""),))


@fixes("more_devices_than_gangs")
def gangs(job: Job, finding: Finding) -> Iterator[Fix]:
    """A wider box."""
    box = job.of(Box).get(finding.tags[0])
    if box is not None and box.new and not box.bought:
        for wide in range(box.gangs + 1, 6):
            yield Fix(f"Use a box of {wide} gangs", (replace(box, gangs=wide),))


@fixes("box_set_too_deep")
def box_depth(job: Job, finding: Finding) -> Iterator[Fix]:
    """The box flush with the finished face."""
    box = job.of(Box).get(finding.tags[0])
    if box is not None and box.new:
        yield Fix(f"Set {box.tag} flush with the finished wall", (replace(box, setback=type(box.setback)(0)),))  # type: ignore[misc]


@fixes("junction_buried")
def blank_plate(job: Job, finding: Finding) -> Iterator[Fix]:
    """A blank plate on the finished wall."""
    box = job.of(Box).get(finding.tags[0])
    if box is not None:
        yield Fix(f"Bring {box.tag} to the face, under a blank plate", (replace(box, plate=True),))


@fixes("tamper_resistant")
def tamper_resistant(job: Job, finding: Finding) -> Iterator[Fix]:
    """Tamper-resistant receptacles in every box of the finding."""
    changed = []
    for tag in finding.tags:
        box = job.of(Box)[tag]
        devices = tuple(_tr(text) for text in box.devices) or ("receptacle TR",)
        changed.append(replace(box, devices=devices))
    yield Fix(f"Buy TR receptacles for {listed(finding.tags)}", tuple(changed))


def _tr(text: str) -> str:
    head, found, rest = text.partition("receptacle")
    return f"{head}receptacle TR{rest}" if found and " tr" not in text.lower() else text


@fixes("arc_fault_missing")
def arc_fault(job: Job, finding: Finding) -> Iterator[Fix]:
    """An AFCI breaker on the circuit."""
    one = job.of(Circuit)[finding.tags[0]]
    yield Fix(f"Put {one.tag} on an AFCI breaker", (replace(one, afci=True),))


@fixes("residual_current_missing")
def residual_current(job: Job, finding: Finding) -> Iterator[Fix]:
    """A 30 mA RCD on the circuit."""
    one = job.of(Circuit)[finding.tags[0]]
    yield Fix(f"Put {one.tag} on a 30 mA RCD", (replace(one, gfci=True),))


@fixes(
    "raceway_overfull", "plug_does_not_pass", "plug_is_tight", "raceway_full_for_later", "plugs_hard_to_pull",
    "raceway_size_unknown", "raceway_small_for_later",
)  # fmt: skip
def raceway_size(job: Job, finding: Finding) -> Iterator[Fix]:
    """The larger sizes that hold what is in it and what comes later, and let its plugs be pulled."""
    raceway, inside = job.of(Raceway).get(finding.tags[0]), insides(job).get(finding.tags[0])
    if raceway is None or inside is None or raceway.bought:
        return
    if job.settings.metric:
        for bore in bores_that_do(job, inside):
            if bore.inches > (inside.bore_in or 0.0):
                yield Fix(f"Use one {sized(job, bore.nm)} wide inside", (replace(raceway, size="", inside=bore),))
        return
    for size in sizes_that_do(job, inside):
        if size.inside_in > (inside.bore_in or 0.0):
            yield Fix(f"Use {raceway.type} {size.trade_size}", (replace(raceway, size=size.trade_size, inside=None),))


@fixes("raceway_without_string")
def pull_string(job: Job, finding: Finding) -> Iterator[Fix]:
    """A pull string left in it."""
    one = job.of(Raceway)[finding.tags[0]]
    yield Fix(f"Leave a pull string in {one.tag}", (replace(one, string=True),))
