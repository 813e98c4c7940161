"""How each kind of cable is tested before the wall is covered, and what a reading is judged against."""

from __future__ import annotations

import re

from store.records.wiring import Cable
from store.rules.cable.kinds import kind_named
from store.rules.cable.lengths import gbit_s, number_of
from store.rules.core.tested import ANY, Limit, Test, modes_of
from store.trade.cable.category import LINK_LIMIT_NM
from store.trade.cable.length import METRE_NM
from store.trade.signal.speaker import MOST_LOSS_PERCENT, loop_ohm, metric_loop_ohm

LEAST_INSULATION_OHM = 1e6
"""IEC 60364-6, table 6A: at least 1 Mohm at 500 V d.c. for circuits up to 500 V; common practice under the NEC."""
USUAL_OHM = 8.0
"""Nominal impedance of a speaker where none is noted; common practice."""
USUAL_GBIT_S = 1.0
"""What a network cable is to carry where nothing is noted: 1000BASE-T. Common practice."""
MOST_COAX_DB = 10.0
"""Loss of a coax run where no limit is noted. Common practice, no source."""
MOST_FIBRE_DB = 3.0
"""Loss of a short fiber run with its two ends. Common practice, no source."""
MOST_INSULATION_OHM = 10e12
"""What the best insulation testers show; common practice."""
MOST_GBIT_S, MOST_PICTURE_GBIT_S = 40.0, 96.0
"""40GBASE-T over category 8 (IEEE 802.3bq); HDMI 2.2 (from memory)."""
LEAST_SHARE = 0.5
"""Of what a run shows by its copper and its way on the plan, the least that is taken for a reading of it: testers and
plans are less sure than that by far. Our own assumption."""
SIGNAL_LEVELS = {"dBmV": (-15.0, 30.0), "dBµV": (45.0, 90.0)}
"""What a signal meter at the far end may show. Common practice, no source."""
LEVEL_SOURCE = "common practice at a receiver"
LICENSED = "the words of the licensed person with the license no."


def test_of(cable: Cable, path_nm: int | None) -> Test:
    """What a test of the cable is judged against; of a kind that is not known, any reading or named tester will do.

    `path_nm` is its length on the plan, where that is known: what such a length cannot show is no reading of it.
    """
    kind = kind_named(cable.type)
    make = _MAKERS.get(kind.family) if kind is not None else None
    return make(cable, path_nm or 0) if make is not None else ANY


def _line_voltage(cable: Cable, path_nm: int) -> Test:
    least = Limit(
        "insulation", "ohm", least=LEAST_INSULATION_OHM, source="IEC 60364-6, table 6A",
        high=MOST_INSULATION_OHM, reason="no tester shows more; common practice",
    )  # fmt: skip
    testers = ("insulation", "multifunction", "installation tester")
    example = f"`insulation 200 Mohm`, `insulation tester: pass`, or {LICENSED}"
    return Test((least,), testers, licensed=True, example=example)


def _category(cable: Cable, path_nm: int) -> Test:
    rate = gbit_s(cable.carries) or USUAL_GBIT_S
    limits = (
        Limit(
            "link rate", "Gb/s", least=rate, source="what it must carry",
            high=max(rate, MOST_GBIT_S), reason="IEEE 802.3: the fastest over twisted pairs is 40GBASE-T",
        ),
        Limit(
            "length", "m", most=LINK_LIMIT_NM / METRE_NM, source="ANSI/TIA-568, from memory",
            low=LEAST_SHARE * path_nm / METRE_NM, reason="half of its planned route",
        ),
    )  # fmt: skip
    testers = ("wire map", "cable tester", "network tester", "certifier", "link", "qualifier")
    return Test(limits, testers, example=f"`wire map: pass`, `{rate:g} Gb/s`, or the length of its pairs: `12.4 m`")


def _coax(cable: Cable, path_nm: int) -> Test:
    most = number_of(cable.carries, "dB") or MOST_COAX_DB
    testers = ("signal", "meter", "continuity", "coax tester", "tv", "receiver")
    levels = [
        Limit("signal level", unit, least=low, most=high, source=LEVEL_SOURCE)
        for unit, (low, high) in SIGNAL_LEVELS.items()
    ]
    return Test(
        (Limit("loss", "dB", most=most, source="as entered, or common practice", loss=True), *levels), testers,
        example=f"loss up to `{most:g} dB`, or `signal meter: pass`",
    )  # fmt: skip


def _picture(cable: Cable, path_nm: int) -> Test:
    """By the picture shown: at least what the cable is noted to carry."""
    noted = max(modes_of(cable.carries), default=(0, 0))
    rate = gbit_s(cable.carries)
    most = max(rate or 0.0, MOST_PICTURE_GBIT_S)
    limits = (
        Limit(
            "data rate", "Gb/s", least=rate, source="what it must carry",
            high=most, reason="the fastest picture cable of today; HDMI 2.2, from memory",
        ),
    ) if rate else ()  # fmt: skip
    return Test(limits, ("hdmi tester", "cable tester"), mode=noted, example="the picture shown: `2160p60 for an hour`")


def _speaker(cable: Cable, path_nm: int) -> Test:
    ohm = number_of(cable.carries, r"(?:ohms?|Ω)") or USUAL_OHM
    most = ohm * MOST_LOSS_PERCENT / 100
    limit = Limit(
        "loop resistance", "ohm", most=most, source=f"{MOST_LOSS_PERCENT:g} % of {ohm:g} ohm, common practice",
        low=_least_loop(cable, path_nm), reason="half of what copper of its size and planned route has: ASTM B258",
    )  # fmt: skip
    example = f"`0.2 ohm` around the loop with the far end joined, at most {most:g} ohm; or `polarity tester: pass`"
    return Test((limit,), ("polarity", "continuity", "speaker tester", "battery"), example=example)


def _least_loop(cable: Cable, path_nm: int) -> float | None:
    """Half of the loop resistance of its copper, ohm; None while its gauge or its way is not known."""
    kind = kind_named(cable.type)
    size = re.fullmatch(r"speaker-(?:(\d+)-\d+|\d+x([\d.]+))", kind.key) if kind is not None else None
    if size is None or path_nm <= 0:
        return None
    return LEAST_SHARE * (metric_loop_ohm(path_nm, float(size[2])) if size[2] else loop_ohm(path_nm, int(size[1])))


def _fibre(cable: Cable, path_nm: int) -> Test:
    limit = Limit("loss", "dB", most=MOST_FIBRE_DB, source="common practice", loss=True)
    return Test((limit,), ("light", "fault finder", "loss"), example="`light: pass`, or loss like `0.8 dB`")


def _line(cable: Cable, path_nm: int) -> Test:
    return Test((), ("sound", "tone", "continuity", "hum", "meter"), example="`sound: no hum`, or `continuity: pass`")


def _usb(cable: Cable, path_nm: int) -> Test:
    return Test((), ("device", "usb", "keyboard", "drive"), example="`device: seen at the far end`")


def _infrared(cable: Cable, path_nm: int) -> Test:
    return Test((), ("device", "remote", "receiver", "eye"), example="`remote: device obeys`")


def _control(cable: Cable, path_nm: int) -> Test:
    return Test((), ("continuity", "meter", "device", "tone"), example="`continuity: pass`")


_MAKERS = {
    "line voltage": _line_voltage,
    "category": _category,
    "coax": _coax,
    "hdmi": _picture,
    "displayport": _picture,
    "speaker": _speaker,
    "line": _line,
    "fibre": _fibre,
    "usb": _usb,
    "infrared": _infrared,
    "control": _control,
}
"""By family of cable."""
