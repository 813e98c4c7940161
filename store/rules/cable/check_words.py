"""The words of rough-in checks that follow from the plan: how a cable is called, which test value is asked for."""

from __future__ import annotations

from store.records.wiring import Cable

TEST_WANTED: dict[str, str] = {
    "line voltage": "continuity and insulation, by whom, with what tester",
    "category": "wire map of all pairs, and the length or rate that the tester shows",
    "coax": "reading of the meter, dB or signal",
    "hdmi": "an hour of picture at full rate",
    "displayport": "an hour of picture at full rate",
    "speaker": "ohm across the pair, and which conductor is plus",
    "line": "sound without hum at the far end",
    "fibre": "light through, or loss in dB",
    "usb": "a device seen at the far end",
    "infrared": "a device obeys through it",
    "control": "continuity of each conductor",
}
"""Evidence of the test, by family of cable; common practice."""
TESTED_OTHERWISE = "what was tried, and the value read"


def named_cable(cable: Cable) -> str:
    """`K3 (network to the screen, cat6)`."""
    words = ", ".join(each for each in (cable.name, cable.type) if each)
    return f"{cable.tag} ({words})" if words else cable.tag
