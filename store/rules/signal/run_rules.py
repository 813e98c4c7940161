"""What a run loses on its way."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.lengths import Need, needs
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import listed, run_at_most, said, sentence
from store.rules.signal.limits import coax_loss, speaker_run
from store.rules.signal.rates import picture_gbit_s, wanted_of_cable
from store.trade.cable.length import METRE_NM
from store.trade.measured.bounds import past
from store.trade.signal.hdmi import SOURCE_ADVICE, Advice, advise
from store.trade.signal.speaker import MOST_LOSS_PERCENT, thinnest_gauge, thinnest_mm2

SPEAKER_SOURCE = (
    "common practice: loop resistance at most 5 % of the impedance; copper of ASTM B258 and IEC 60028, "
    "metric sizes of IEC 60228 class 5"
)


COAX_SOURCE = "a manufacturer's table of RG-6 loss, and usual splitter losses; the limit is common practice"


USUAL_GBIT_S = 18.0
"""Taken for a picture cable where no rate is noted: 2160 lines at 60 Hz, 8 bits a colour. HDMI 2.0."""
USUAL = " That is the usual rate: none is entered."


@rule
@from_each(Cable)
def picture_cable_long(job: Job, cable: Cable) -> Iterable[Finding]:
    """Advice on a copper picture cable by its length and rate."""
    tag, need = cable.tag, needs(job).get(cable.tag)
    if need is None:
        return
    if need.kind is None or need.kind.key != "hdmi" or need.cut is None:
        return
    own, asked = picture_gbit_s(need.cable.carries), wanted_of_cable(job).get(tag)
    rate = own or (asked.rate if asked else USUAL_GBIT_S)
    length = need.sold or need.cut
    try:
        advice = advise(length, rate)
    except ValueError:
        return
    quiet = (Advice.PASSIVE,) if need.cable.in_wall else (Advice.PASSIVE, Advice.TRY)
    if advice.advice in quiet:
        return
    remedy = {
        Advice.TRY: "Try it with an hour of picture before close-in.",
        Advice.ACTIVE: "Use an active optical cable, or an extender (HDMI over twisted pair). Mark the source end.",
    }.get(advice.advice, "Use the length that the manufacturer certifies for that rate.")
    noted = "" if own else " That rate is what its TV must show." if asked and asked.words else USUAL
    works = advice.advice != Advice.ACTIVE
    yield Finding(
        "picture_cable_long",
        "look" if works else "fix",
        (tag,),
        f"HDMI cable of {length / METRE_NM:.1f} m at {rate:g} Gbit/s"
        if job.settings.metric
        else f"HDMI cable of {said(job, length)} at {rate:g} Gbit/s",
        f"{remedy} Grade to buy: {advice.grade}.",
        SOURCE_ADVICE,
        {"length": said(job, length), "rate": f"{rate:g} Gbit/s"},
        why=f"{sentence(advice.advice)}{noted}{_sold_longer(job, need)}",
    )


def _sold_longer(job: Job, need: Need) -> str:
    """Where the cable is sold longer than its way asks for, both figures: the one stands in the list of cables."""
    if need.sold is None or need.cut is None or need.sold <= need.cut:
        return ""
    return f" Its way needs {said(job, need.cut)}; it is sold {said(job, need.sold)} long."


@rule
@from_each(Cable)
def speaker_cable_thin(job: Job, cable: Cable) -> Iterable[Finding]:
    """A speaker cable that loses more than 5 % of the impedance."""
    tag, need = cable.tag, needs(job).get(cable.tag)
    if need is None:
        return
    run = speaker_run(need)
    if run is None or need.route.path is None or need.route.path <= run.longest:
        return
    if job.settings.metric:
        mm2 = thinnest_mm2(need.route.path, run.ohm)
        thicker = "" if mm2 is None else f"{mm2:g} mm²"
    else:
        awg = thinnest_gauge(need.route.path, run.ohm, stranded=True)
        thicker = "" if awg is None else f"{awg} AWG"
    remedy = f"Use {thicker}" if thicker else "No usual wire size is enough: move the amplifier closer"
    taken = "" if run.noted else ", assumed: none entered"
    yield Finding(
        "speaker_cable_thin",
        "fix",
        (tag,),
        f"Speaker cable too thin: {past(run.percent, MOST_LOSS_PERCENT)}% loss",
        f"{remedy}, or shorten the run.",
        SPEAKER_SOURCE,
        {"path": said(job, need.route.path), "loss": f"{run.percent:.1f} %", "impedance": f"{run.ohm:g} ohm"},
        why=(
            f"{said(job, need.route.path)} of {run.size} to {run.ohm:g} ohm{taken} loses "
            f"{past(run.percent, MOST_LOSS_PERCENT)}% of the impedance. {MOST_LOSS_PERCENT:g}% is the most, reached at "
            f"{run_at_most(job, run.longest)}."
        ),
    )


@rule
@from_each(Cable)
def coax_loses_much(job: Job, cable: Cable) -> Iterable[Finding]:
    """A coax run that, with its splitters, loses more than its limit."""
    tag, loss = cable.tag, coax_loss(job, cable.tag)
    # A limit that is noted is the budget of what is installed, so what is left over at the ends counts there.
    if loss is None or (loss.whole_db if loss.noted else loss.db) <= loss.limit:
        return
    over = loss.db > loss.limit
    through = f" through {listed([f'a {each}-way splitter' for each in loss.splitters])}" if loss.splitters else ""
    whole = "" if over else f", {past(loss.whole_db, loss.limit)} dB with waste and slack"
    yield Finding(
        "coax_loses_much" if over else "coax_nearly_loses_much",
        "fix" if loss.noted and over else "look",
        (tag,),
        f"Coax loses {past(loss.db, loss.limit) if over else f'{loss.db:.1f}'} dB",
        (
            "Use fewer splits, shorten the run, or amplify at the source. Then measure it while the wall is open."
            if over
            else "Leave less slack at its ends, and measure it while the wall is open."
        ),
        COAX_SOURCE,
        {"loss": f"{loss.db:.1f} dB", "limit": f"{loss.limit:g} dB"},
        why=(
            f"At {loss.mhz:g} MHz{through}{whole}. {loss.limit:g} dB is "
            f"{'the most you entered' if loss.noted else 'where it is worth a check'}."
        ),
    )
