"""The channel that light tape lies in, as it is cut and bought, and the tape that goes in."""

from __future__ import annotations

from store.measure.errors import BadValue
from store.measure.length import INCH_NM, parse_length
from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.core.keyed import of_each
from store.trade.build.channel import METRIC_STOCK_NM, STOCK_NM, Channel, channel

SHORTEST_NM = 12 * INCH_NM
"""Channel is sold in nothing shorter: what is less is mistyped, and the usual length counts."""
MOST_PIECES = 24
"""More pieces of one run than any wall has; what follows is mistyped."""


@of_each(Equipment)
def channels(job: Job, one: Equipment) -> Channel | None:
    """The channel of every light whose pieces were entered; what cannot be read is left out of it."""
    if one.what != "light" or one.retired is not None or not one.pieces:
        return None
    pieces = [nm for text in one.pieces if (nm := piece_nm(job, text)) is not None]
    stock = METRIC_STOCK_NM if job.settings.metric else STOCK_NM
    sold = one.channel.nm if one.channel is not None and one.channel.nm >= SHORTEST_NM else stock
    step = one.cut_step.nm if one.cut_step is not None and one.cut_step.nm > 0 else None
    return channel(pieces[:MOST_PIECES], one.joined, sold, step) if pieces else None


def piece_nm(job: Job, text: str) -> int | None:
    """A length of channel as typed; None for what is none, or not above 0."""
    try:
        found = parse_length(text, job.settings.metric).nm
    except BadValue:
        return None
    return found if found > 0 else None


def tape_nm(job: Job, one: Equipment) -> int | None:
    """The tape of a light: as entered, else what its channel takes; None for no tape."""
    if one.tape is not None:
        return one.tape.nm
    run = channels(job).get(one.tag)
    return sum(run.tape_nm) if run is not None else None
