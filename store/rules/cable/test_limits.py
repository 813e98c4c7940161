"""How each kind of cable is tested before the wall is covered, and what a reading is judged against."""

from __future__ import annotations

from store.records.wiring import Cable
from store.rules.cable.kinds import kind_named
from store.rules.cable.lengths import gbit_s, number_of
from store.rules.core.tested import ANY, Limit, Test, modes_of
from store.trade.cable.category import LINK_LIMIT_NM
from store.trade.cable.length import METRE_NM
from store.trade.signal.speaker import MOST_LOSS_PERCENT

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
LICENSED = "the words of the licensed person with the license no."


def test_of(cable: Cable) -> Test:
    """What a test of the cable is judged against; of a kind that is not known, any reading or named tester will do."""
    kind = kind_named(cable.type)
    make = _MAKERS.get(kind.family) if kind is not None else None
    return make(cable) if make is not None else ANY


def _line_voltage(cable: Cable) -> Test:
    least = Limit("insulation", "ohm", least=LEAST_INSULATION_OHM, source="IEC 60364-6, table 6A")
    testers = ("insulation", "multifunction", "installation tester")
    example = f"`insulation 200 Mohm`, `insulation tester: pass`, or {LICENSED}"
    return Test((least,), testers, licensed=True, example=example)


def _category(cable: Cable) -> Test:
    rate = gbit_s(cable.carries) or USUAL_GBIT_S
    limits = (
        Limit("link rate", "Gb/s", least=rate, source="what it must carry"),
        Limit("length", "m", most=LINK_LIMIT_NM / METRE_NM, source="ANSI/TIA-568, from memory"),
    )
    testers = ("wire map", "cable tester", "network tester", "certifier", "link", "qualifier")
    return Test(limits, testers, example=f"`wire map: pass`, `{rate:g} Gb/s`, or the length of its pairs: `12.4 m`")


def _coax(cable: Cable) -> Test:
    most = number_of(cable.carries, "dB") or MOST_COAX_DB
    testers = ("signal", "meter", "continuity", "coax tester", "tv", "receiver")
    return Test(
        (Limit("loss", "dB", most=most, source="as entered, or common practice"),), testers,
        example=f"loss up to `{most:g} dB`, or `signal meter: pass`",
    )  # fmt: skip


def _picture(cable: Cable) -> Test:
    """By the picture shown: at least what the cable is noted to carry."""
    noted = max(modes_of(cable.carries), default=(0, 0))
    rate = gbit_s(cable.carries)
    limits = (Limit("data rate", "Gb/s", least=rate, source="what it must carry"),) if rate else ()
    return Test(limits, ("hdmi tester", "cable tester"), mode=noted, example="the picture shown: `2160p60 for an hour`")


def _speaker(cable: Cable) -> Test:
    ohm = number_of(cable.carries, r"(?:ohms?|Ω)") or USUAL_OHM
    most = ohm * MOST_LOSS_PERCENT / 100
    limit = Limit(
        "loop resistance", "ohm", most=most, source=f"{MOST_LOSS_PERCENT:g} % of {ohm:g} ohm, common practice"
    )
    example = f"`0.2 ohm` around the loop with the far end joined, at most {most:g} ohm; or `polarity tester: pass`"
    return Test((limit,), ("polarity", "continuity", "speaker tester", "battery"), example=example)


def _fibre(cable: Cable) -> Test:
    limit = Limit("loss", "dB", most=MOST_FIBRE_DB, source="common practice")
    return Test((limit,), ("light", "fault finder", "loss"), example="`light: pass`, or loss like `0.8 dB`")


def _line(cable: Cable) -> Test:
    return Test((), ("sound", "tone", "continuity", "hum", "meter"), example="`sound: no hum`, or `continuity: pass`")


def _usb(cable: Cable) -> Test:
    return Test((), ("device", "usb", "keyboard", "drive"), example="`device: seen at the far end`")


def _infrared(cable: Cable) -> Test:
    return Test((), ("device", "remote", "receiver", "eye"), example="`remote: device obeys`")


def _control(cable: Cable) -> Test:
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
