"""Which device in a box a text names: a closed list in the trade's words with their usual spellings."""

from __future__ import annotations

import re
from functools import lru_cache

from store.measure.spelling import MOST_KEPT, words

DEVICES: dict[str, str] = {
    # name, as it is typed; its spellings
    "single receptacle": r"single (?:receptacle|outlet|socket(?: outlet)?)s?",
    "quad receptacle": r"quad(?: receptacle| outlet)?s?|quadruplex|four ?plex",
    "GFCI receptacle": r"(?:gfci|gfi|rcd)(?: receptacle| outlet| socket(?: outlet)?)?s?",
    "receptacle": r"receptacles?|receps?|recpts?|rec|outlets?|sockets?|socket outlets?|duplex(?:es)?|plugs?|"
    r"(?:twin|double|single) socket|schuko|clock outlet",
    "recessed inlet": r"(?:recessed |power )?inlets?|flanged inlet",
    "3-way switch": r"(?:3|three|4|four) ?way(?: switch(?:es)?)?|two ?way switch(?:es)?|2 way switch(?:es)?",
    "switch": r"switch(?:es)?|sw|toggles?|rockers?|(?:single|double) pole|isolators?|disconnects?|"
    r"occupancy sensors?|motion sensors?|vacancy sensors?|timers?|"
    r"pilot lights?|key ?pads?|fan controls?|relays?|contactors?",
    "dimmer": r"dimmers?|dim",
    "thermostat": r"thermostats?|line voltage thermostats?",
    "fused connection unit": r"fused (?:connection unit|spur)s?|spurs?|fcus?|cord outlets?|flex outlets?",
    "USB charger": r"usb(?: charg(?:er|ing(?: outlet)?))?s?|charger outlets?",
    "luminaire": r"luminaires?|light(?: fixture)?s?|fixtures?|lamp ?holders?|sconces?|ceiling rose",
    "driver or transformer": r"drivers?|led drivers?|transformers?|power suppl(?:y|ies)",
    "surge protector": r"surge (?:protect(?:or|ive device)|suppressor)s?|spds?|tvss",
    "smoke alarm": r"smoke (?:alarm|detector)s?|co alarms?",
    "doorbell button": r"(?:door ?bell|bell)(?: buttons?| push(?:es)?| chimes?)?|chimes?",
    "terminal block": r"terminal blocks?|splic(?:e|es|ing)|wire (?:nuts?|connectors?)|lever connectors?|"
    r"junctions?|joints?",
    "blank plate": r"blank(?: plate| cover)?s?",
    "jack plate": r"(?:data |network |phone |coax |hdmi |speaker |keystone |av )?(?:jacks?|keystones?|"
    r"wall ?plates?|plates?)|rj ?45|f ?connectors?|binding posts?|brush plates?|volume controls?|"
    r"pass ?throughs?|couplers?|feed ?throughs?",
}
"""Every device that is known, by its name. Common practice: as electricians and shops call them."""
_SIGNAL = re.compile(
    r"\b(?:data|network|phone|coax|hdmi|speaker|keystones?|av|jacks?|rj ?45|f connectors?|binding|brush)\b"
)
"""What makes a jack plate one for signal: a plain plate covers any box."""
_FORMS = {name: re.compile(rf"\b(?:{spellings})\b") for name, spellings in DEVICES.items()}


@lru_cache(MOST_KEPT)
def device_named(text: str) -> str:
    """The device that a text names, as the list calls it; empty when it names none.

    Of several names in a text the longest counts: `GFCI receptacle 12` and `3-way switch 14` are no plain ones.
    """
    plain = words(text)
    found = [(len(match[0]), name) for name, form in _FORMS.items() if (match := form.search(plain))]
    return max(found, key=lambda each: each[0], default=(0, ""))[1]


@lru_cache(MOST_KEPT)
def is_signal_jack(text: str) -> bool:
    """True where a text names a jack or a plate for signal cables: `hdmi jack`, `brush plate`; no cover plate."""
    return device_named(text) == "jack plate" and _SIGNAL.search(words(text)) is not None
