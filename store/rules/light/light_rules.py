"""Findings about light tape: too long a run, too thin a wire, too small a driver, and what an eye sees."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.build.channels import channels, piece_nm, tape_nm
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import listed, plain, said
from store.rules.light.lights import drivers, lights, wire_text
from store.rules.light.sight import seen
from store.trade.light.driver import CLASS_2_SOURCE, CLASS_2_W, HEADROOM, go_together, most_load_w
from store.trade.light.tape import GOOD_DROP_PCT, MOST_DROP_PCT, SOURCE
from store.trade.measured.bounds import past

PRACTICE = "Common practice; the manufacturer's figures win"
SPARE_NM = 2 * INCH_NM
"""A dark end as short as this is hidden by the end cap and the diffuser; our own line."""


@rule
@from_each(Equipment)
def driver_headroom(job: Job, record: Equipment) -> Iterable[Finding]:
    """A driver with less than a fifth of its rating to spare."""
    tag, one = record.tag, drivers(job).get(record.tag)
    if one is None:
        return
    rating = one.rating_w
    if rating is None or not most_load_w(rating) + 1e-9 < one.watts <= rating:
        return
    size = f"{one.wanted.size_w} W" if one.wanted.size_w else f"{one.wanted.watts:.0f} W, in two drivers"
    yield Finding(
        "driver_headroom",
        "look",
        (tag, *one.lights),
        "Driver loaded past 80%",
        f"Use a driver of {size}, or move a light to another one.",
        PRACTICE,
        {"load": f"{one.watts:.1f} W", "rated": f"{rating:g} W"},
        why=f"{past(one.watts, most_load_w(rating))} W on a driver of {rating:g} W; {HEADROOM:.0%} of it is "
        f"{plain(most_load_w(rating))} W.",
    )


@rule
@from_each(Equipment)
def class_2_output(job: Job, record: Equipment) -> Iterable[Finding]:
    """More lights on a driver than its Class 2 outputs may carry."""
    tag, one = record.tag, drivers(job).get(record.tag)
    if one is None:
        return
    most = CLASS_2_W.get(round(one.volts))
    if most is None or not one.outputs or one.wanted.outputs <= one.outputs:
        return
    yield Finding(
        "class_2_output",
        "fix",
        (tag, *one.lights),
        f"Needs {one.wanted.outputs} Class 2 outputs, has {one.outputs}",
        f"Use a driver with {one.wanted.outputs} outputs and split the lights, or a second driver.",
        CLASS_2_SOURCE,
        {"load": f"{one.watts:.1f} W", "outputs": str(one.outputs), "volts": f"{one.volts:g} V"},
        why=f"{plain(one.watts)} W at {one.volts:g} V; one output carries {plain(HEADROOM * most)} W "
        f"({HEADROOM:.0%} of {most:.0f} W).",
    )


@rule
@from_each(Equipment)
def tape_too_long(job: Job, record: Equipment) -> Iterable[Finding]:
    """Tape longer than its feed reaches."""
    tag, one = record.tag, lights(job).get(record.tag)
    if one is None:
        return
    if one.longest_nm is None or one.tape_nm is None or one.tape_nm <= one.longest_nm:
        return
    fed = job.of(Equipment)[tag].fed
    again = "Feed it in the middle or from both ends, or" if fed == "one end" else "Split it into two runs, or"
    yield Finding(
        "tape_too_long",
        "fix",
        (tag,),
        "Tape run too long, its end goes dim",
        f"{again} use a tape of more volts.",
        PRACTICE,
        {"tape": said(job, one.tape_nm), "longest": said(job, one.longest_nm), "fed": fed},
        why=f"{said(job, one.tape_nm)} fed at {fed}; {said(job, one.longest_nm)} is the longest at "
        f"{one.volts:g} V. Beyond that, white goes dim and yellow, and colors lose blue first.",
    )


@rule
@from_each(Equipment)
def light_wire_thin(job: Job, record: Equipment) -> Iterable[Finding]:
    """A wire from driver to tape that loses more than 3 %."""
    tag, one = record.tag, lights(job).get(record.tag)
    if one is None:
        return
    feeder = one.feeder
    if feeder is None or feeder.drop.percent <= GOOD_DROP_PCT + 1e-9:
        return
    would = f"Pull {wire_text(job, feeder.would_do)}" if feeder.would_do else "Split the tape over two wires"
    volts = "" if one.volts_known else f" (volts not entered: {one.volts:g} V assumed)"
    yield Finding(
        "light_wire_thin",
        "fix" if feeder.drop.percent > MOST_DROP_PCT + 1e-9 else "look",
        (feeder.cable, tag),
        f"Wire loses {past(feeder.drop.percent, GOOD_DROP_PCT)}% of the light's volts",
        f"{would}, move the driver closer, or use tape of more volts.",
        SOURCE,
        {"drop": f"{feeder.drop.percent:.2f} %", "gauge": feeder.size.removesuffix(" AWG")},
        why=f"{feeder.amps:.1f} A over {said(job, feeder.length_nm)} of {feeder.size} loses "
        f"{feeder.drop.volts:.2f} V of {one.volts:g} V{volts}; past {GOOD_DROP_PCT:g}% the color shifts.",
    )


@rule
@from_each(Equipment)
def tape_end_dim(job: Job, record: Equipment) -> Iterable[Finding]:
    """Tape whose far end loses more than 5 % of its volts, with its wire; judged once its resistance is entered."""
    one = lights(job).get(record.tag)
    if one is None or one.along is None or one.drop_pct is None or one.drop_pct <= MOST_DROP_PCT + 1e-9:
        return
    wire = 0.0 if one.feeder is None else one.feeder.drop.percent
    again = "Feed it in the middle or from both ends" if record.fed == "one end" else "Split it into two runs"
    yield Finding(
        "tape_end_dim",
        "look",
        (record.tag,),
        f"Far end of the tape loses {past(one.drop_pct, MOST_DROP_PCT)}% of its volts",
        f"{again}, pull a thicker wire, or use tape of more volts.",
        SOURCE,
        {"along": f"{one.along.percent:.2f} %", "wire": f"{wire:.2f} %", "fed": record.fed},
        why=f"{one.along.percent:.1f}% along the tape and {wire:.1f}% on its wire; past {MOST_DROP_PCT:g}% the far end "
        "is dimmer and warmer than the near one.",
    )


@rule
@from_each(Equipment)
def tape_not_channel(job: Job, record: Equipment) -> Iterable[Finding]:
    """Tape that is longer than its channel, or leaves the end of it dark; and pieces that cannot be read."""
    run = channels(job).get(record.tag)
    bad = [text for text in record.pieces if piece_nm(job, text) is None]
    like = "600, 1500, 600" if job.settings.metric else "24, 60, 24"
    if record.what == "light" and record.retired is None and bad:
        yield Finding(
            "tape_not_channel",
            "look",
            (record.tag,),
            "Can't read a piece of the channel",
            f"Write each as one length, in order, like {like}.",
            "Common practice",
            {"piece": bad[0]},
            why=f"Not a length above 0: {listed(bad)}.",
        )
    tape, step = tape_nm(job, record), record.cut_step.nm if record.cut_step is not None else 0
    if run is None or tape is None or bad:
        return
    whole = sum(run.pieces_nm)
    if sum(run.tape_nm) - max(step, SPARE_NM) <= tape <= whole:
        return
    long = tape > whole
    yield Finding(
        "tape_not_channel",
        "fix" if long else "look",
        (record.tag,),
        "Tape longer than its channel" if long else "Tape leaves its channel dark at the end",
        "Enter the tape that goes in it, or longer pieces." if long else "Enter more tape, or shorter pieces.",
        "Geometry",
        {"tape": said(job, tape), "channel": said(job, whole)},
        why=f"Tape {said(job, tape)}; the pieces of channel are {said(job, whole)} in all.",
    )


@rule
@from_each(Equipment)
def outputs_unknown(job: Job, record: Equipment) -> Iterable[Finding]:
    """A driver that needs more than one Class 2 output, and nobody entered how many it has."""
    one = drivers(job).get(record.tag)
    most = None if one is None else CLASS_2_W.get(round(one.volts))
    if one is None or most is None or one.outputs or one.wanted.outputs <= 1:
        return
    yield Finding(
        "outputs_unknown",
        "look",
        (record.tag, *one.lights),
        "Class 2 outputs of this driver not entered",
        f"Enter its outputs from the data sheet: it needs {one.wanted.outputs}, with the lights split over them.",
        CLASS_2_SOURCE,
        {"load": f"{one.watts:.1f} W", "volts": f"{one.volts:g} V"},
        why=f"{plain(one.watts)} W at {one.volts:g} V; one output carries {plain(HEADROOM * most)} W "
        f"({HEADROOM:.0%} of {most:.0f} W).",
    )


@rule
@from_each(Equipment)
def light_volts_differ(job: Job, one: Equipment) -> Iterable[Finding]:
    """A light on a driver of other volts than its own."""
    driver = job.of(Equipment).get(one.plug)
    if one.what != "light" or one.retired is not None or driver is None or driver.what != "driver":
        return
    if one.volts is None or driver.volts is None or one.volts == driver.volts:
        return
    yield Finding(
        "light_volts_differ",
        "fix",
        (one.tag, driver.tag),
        f"{one.volts:g} V light on a {driver.volts:g} V driver",
        f"Use a driver of {one.volts:g} V, or a light made for {driver.volts:g} V.",
        PRACTICE,
        {"light": f"{one.volts:g} V", "driver": f"{driver.volts:g} V"},
        why="It burns out at once." if driver.volts > one.volts else "It stays dim or dark.",
        about=(one.tag,),
    )


@rule
@from_each(Equipment)
def dimmer_mismatch(job: Job, one: Equipment) -> Iterable[Finding]:
    """A dimmer that does not work its driver."""
    tag = one.tag
    if one.what != "driver" or one.retired is not None:
        return
    together = go_together(one.dimmer, one.dims)
    if together is None and (one.dimmer not in ("unknown", "none") or one.dims not in ("unknown", "none")):
        missing = "what the driver dims by" if one.dims == "unknown" else "the dimmer"
        yield Finding(
            "dimmer_mismatch",
            "look",
            (tag,),
            "Dimmer and driver not matched yet",
            "Enter both from their data sheets before you buy either.",
            PRACTICE,
            {"dimmer": one.dimmer, "dims": one.dims},
            why=f"Not entered: {missing}.",
        )
    elif together is False:
        yield Finding(
            "dimmer_mismatch",
            "fix",
            (tag,),
            "Dimmer does not suit this driver",
            f"Use a driver made for a {one.dimmer} dimmer, or a {one.dims} dimmer.",
            PRACTICE,
            {"dimmer": one.dimmer, "dims": one.dims},
            why=f"The dimmer is {one.dimmer}, the driver dims by {one.dims}: it flickers, hums or stays dark.",
        )


@rule
@from_each(Equipment)
def light_glares(job: Job, record: Equipment) -> Iterable[Finding]:
    """A bare source that a seated or standing eye sees."""
    tag, one = record.tag, seen(job).get(record.tag)
    if one is None:
        return
    met = [(who, look) for who, look in one.bare if look.seen]
    if not met:
        return
    looks = listed([f"{who} {_against(look.eye_deg, look.shield_deg)}" for who, look in met])
    yield Finding(
        "light_glares",
        "look",
        (tag,),
        f"{met[0][0].capitalize()} eyes see the bare light source",
        "Put it farther behind the lip, use a deeper lip or profile, or turn it to the wall.",
        "Geometry",
        {who: f"{look.eye_deg:.1f}° / {look.shield_deg:.1f}°" for who, look in met},
        why=f"Light source {said(job, one.up_nm)} off the floor; eye's angle against the lip's: {looks}.",
    )


@rule
@from_each(Equipment)
def light_in_screen(job: Job, record: Equipment) -> Iterable[Finding]:
    """A lamp whose mirror stands in the picture, seen from the seat."""
    tag, one = record.tag, seen(job).get(record.tag)
    if one is None:
        return
    if not one.in_screen or one.mirrored is None:
        return
    across, up = one.mirrored
    yield Finding(
        "light_in_screen",
        "look",
        (tag, one.in_screen),
        "Lamp reflects in the TV",
        "Move it until its reflection is off the picture, shade it toward the TV, or put it on its own switch.",
        "Geometry: mirror image in a flat screen",
        {"across": said(job, across), "up": said(job, up)},
        why=f"From the seat its reflection is {said(job, up)} off the floor, {said(job, across)} from left, "
        f"within the picture of {one.in_screen}.",
    )


def _against(eye_deg: float, shield_deg: float) -> str:
    """Two angles in as many digits as it takes to tell them apart."""
    digits = next((each for each in range(4) if f"{eye_deg:.{each}f}" != f"{shield_deg:.{each}f}"), 4)
    return f"{eye_deg:.{digits}f}° against {shield_deg:.{digits}f}°"
