"""The sums of a light, of its channel and of its driver, in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.length import FOOT_NM
from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.core.amounts import fine
from store.rules.core.wording import plural, said, sized
from store.rules.light.lights import Driver, Light, feet
from store.trade.build.channel import Channel, led_pitch_nm
from store.trade.light.driver import CLASS_2_W, HEADROOM, wanted
from store.trade.light.tape import GOOD_DROP_PCT

METER_FT = 1_000_000_000 / FOOT_NM
"""Feet in a meter: a foot is 304.8 mm exactly."""
LICENSED = "line-voltage wiring is for a licensed electrician; the manufacturer's sheets and local code decide"


def light_lines(job: Job, one: Light) -> Iterable[str]:
    """What it draws, what its wire and its tape lose, and the driver that it wants."""
    record = job.of(Equipment)[one.tag]
    if one.by_tape and one.tape_nm is not None:
        yield _tape(job, one.tape_nm, one.drawn.watts)
    volts = "" if one.volts_known else ", not entered: assumed"
    times = f" x {one.count}" if one.count > 1 else ""
    yield f"{one.drawn.watts:.1f} W{times} / {one.volts:g} V{volts} = {one.watts / one.volts:.2f} A"
    if record.leds is not None and record.leds > 0:
        pitch = fine(job, led_pitch_nm(record.leds))
        yield f"an LED every {pitch}: a diffuser at least as far in front of them hides the dots"
    if one.longest_nm is not None:
        yield f"longest run fed so ({record.fed}): {said(job, one.longest_nm)}"
    if one.feeder is not None:
        wire = one.feeder
        yield (
            f"{wire.cable}: 2 x {said(job, wire.length_nm)} of {wire.size} at {wire.amps:.2f} A loses "
            f"{wire.drop.volts:.2f} V, {wire.drop.percent:.1f}%"
        )
    if one.along is not None:
        share = "half" if record.fed == "one end" else "an eighth"
        yield (
            f"along the tape, fed at {record.fed}: {share} of amperes x ohms loses {one.along.volts:.2f} V, "
            f"{one.along.percent:.1f}%"
        )
    if one.drop_pct is not None:
        yield f"in all {one.drop_pct:.1f}%; past {GOOD_DROP_PCT:g}% white turns warmer and dims, colors lose blue first"
    if one.feeder is None and one.along is None:
        yield "no wire of a known size runs to it yet: what the wire loses is not known"
    yield f"driver: {one.watts:.1f} W / {HEADROOM:g} = {wanted(one.watts, one.volts).watts:.1f} W at least"
    yield LICENSED


def _tape(job: Job, nm: int, watts: float) -> str:
    if job.settings.metric:
        meters = nm / 1e9
        return f"{meters:.2f} m x {watts / meters:.1f} W/m = {watts:.1f} W"
    return f"{feet(nm):.1f} ft x {watts / feet(nm):g} W/ft = {watts:.1f} W"


def driver_lines(job: Job, one: Driver) -> Iterable[str]:
    """The driver that its lights want, its outputs, and its dimmer."""
    record = job.of(Equipment)[one.tag]
    yield f"{', '.join(one.lights)}: {one.watts:.1f} W / {HEADROOM:g} = {one.wanted.watts:.1f} W"
    if one.wanted.size_w is not None:
        yield f"next size sold: {one.wanted.size_w} W"
    if one.rating_w is not None:
        yield f"its rating: {one.rating_w:g} W"
    if (most := CLASS_2_W.get(round(one.volts))) is not None:
        has = f", has {one.outputs}" if one.outputs else ", how many it has is not entered"
        yield (
            f"Class 2 outputs: {one.watts:.1f} W / ({HEADROOM:g} x {most:g} W) = {plural(one.wanted.outputs, 'output')}"
            f"{has}"
        )
    yield f"dims by {record.dims}, dimmer {record.dimmer}: both must be the same"
    yield f"keep the driver where a hand and air reach it; {LICENSED}"


def channel_lines(job: Job, run: Channel) -> Iterator[str]:
    """The pieces to saw, what comes off each length, the tape in each piece, corners and caps."""
    for number, (piece, tape) in enumerate(zip(run.pieces_nm, run.tape_nm, strict=True), 1):
        yield f"piece {number}: {sized(job, piece)} outside, tape {sized(job, tape)} in it"
    for cut in run.bought.cuts:
        pieces = ", ".join(sized(job, each) for each in cut.pieces_nm)
        yield f"from one of {sized(job, run.stock_nm)}: {pieces}; left {sized(job, cut.left_nm)}"
    if run.corners:
        ends = f", {run.miters} ends cut at 45°" if run.miters else ", a connector in each"
        yield f"{plural(run.corners, 'corner')}{ends}; tape doesn't bend sideways: cut it at each and join it there"
    yield f"{plural(run.caps, 'end cap')}; cut tape only at its marks"
    yield f"its manufacturer says where it may be cut and what channel cools it; {LICENSED}"
