"""What a cable must carry against what it can: speaker loss, coax loss, data rates; read from what was noted."""

from __future__ import annotations

import re
from collections.abc import Mapping

import msgspec

from store.records.whole import Job
from store.rules.cable.lengths import Need, needs, number_of
from store.rules.core.keyed import by_key
from store.rules.signal.chain import Link, links, splitter_outputs
from store.trade.cable.types import CableType
from store.trade.signal.coax import LOSS_DB_PER_100_FT, run_loss_db
from store.trade.signal.speaker import longest_run_nm, loss_percent, metric_longest_run_nm, metric_loss_percent

USUAL_OHM = 8.0
"""Nominal impedance where none is noted; common practice."""
USUAL_MHZ = 950.0
"""Frequency at which coax is judged where none is noted: the top of cable television; common practice."""
MOST_COAX_DB = 10.0
"""Loss that is worth a look where no limit is noted. Common practice, no source."""
MOST_CHAIN = 8
"""Splitters in a row that are followed."""


class SpeakerRun(msgspec.Struct, frozen=True):
    """A speaker cable against the 5 % rule."""

    size: str
    """The wire: `14 AWG`, `2.5 mm²`."""
    ohm: float
    noted: bool
    """False when the impedance is the usual one."""
    percent: float
    longest: int


def speaker_run(need: Need) -> SpeakerRun | None:
    """The loss of a speaker cable; None for another kind or while its path is not known."""
    if need.kind is None or need.kind.family != "speaker" or not need.route.path:
        return None
    noted = number_of(need.cable.carries, r"(?:ohms?|Ω)")
    ohm = noted or USUAL_OHM
    size = need.kind.key.split("-")[1]
    if "x" in size:
        mm2 = float(size.partition("x")[2])
        percent, longest = metric_loss_percent(need.route.path, mm2, ohm), metric_longest_run_nm(mm2, ohm)
        return SpeakerRun(f"{mm2:g} mm²", ohm, bool(noted), percent, longest)
    percent = loss_percent(need.route.path, int(size), ohm, stranded=True)
    return SpeakerRun(f"{size} AWG", ohm, bool(noted), percent, longest_run_nm(int(size), ohm, stranded=True))


class CoaxLoss(msgspec.Struct, frozen=True):
    """What is lost from the source to the far end of a coax cable, splitters on the way included."""

    db: float
    """Along the paths, as tables of loss are read."""
    whole_db: float
    """Of the pieces as they are cut, with waste and slack: the most, while nothing is cut short."""
    mhz: float
    runs: tuple[str, ...]
    splitters: tuple[int, ...]
    limit: float
    noted: bool
    """True when the limit was noted for the cable."""


@by_key
def _by_cable(job: Job) -> Mapping[str, Link]:
    """What each cable joins."""
    return {link.cable: link for link in links(job).made}


@by_key
def _coax_into(job: Job) -> Mapping[str, Link]:
    """The coax link that ends at a device, by the device."""
    return {link.sink: link for link in links(job).made if link.port == "coax" and link.sink}


def coax_loss(job: Job, tag: str) -> CoaxLoss | None:
    """The loss of a coax cable and of what feeds it; None for another kind or while a path is not known."""
    need = needs(job).get(tag)
    if need is None or need.kind is None or need.kind.family != "coax":
        return None
    mhz = number_of(need.cable.carries, "MHz") or USUAL_MHZ
    if not _loss_known(need.kind, mhz):
        return None
    total, whole, at = 0.0, 0.0, tag
    runs: list[str] = []
    splitters: list[int] = []
    while at and len(runs) < MOST_CHAIN and at not in runs:
        here = needs(job)[at]
        if here.route.path is None or here.cut is None:
            return None
        ways = [int(each) for each in re.findall(r"(\d)[- ]way", here.cable.carries)]
        link = _by_cable(job).get(at)
        ways += [splitter_outputs(job, link.source)] if link and link.source else []
        ways = [each for each in ways if 1 < each <= 8]
        if here.kind is None or not _loss_known(here.kind, mhz):
            return None
        kind = here.kind.key.split("-")[0]
        total += run_loss_db(here.route.path, mhz, kind, ways)
        whole += run_loss_db(here.cut, mhz, kind, ways)
        runs.append(at)
        splitters += ways
        feeding = _coax_into(job).get(link.source) if link and link.source and ways else None
        at = feeding.cable if feeding else ""
    noted = number_of(need.cable.carries, "dB")
    return CoaxLoss(total, whole, mhz, tuple(runs), tuple(splitters), noted or MOST_COAX_DB, noted is not None)


def _loss_known(kind: CableType, mhz: float) -> bool:
    """Whether the loss of a kind of coax at a frequency is in the tables."""
    rows = LOSS_DB_PER_100_FT.get(kind.key.split("-")[0], ())
    return bool(rows) and rows[0][0] <= mhz <= rows[-1][0]
