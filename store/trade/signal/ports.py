"""Which port of a device a text names: a closed list with the words that manufacturers print beside the jack."""

from __future__ import annotations

import re
from functools import lru_cache

from store.measure.spelling import MOST_KEPT, spaced

PORTS: dict[str, tuple[str, str]] = {
    # key: name, and its spellings
    "hdmi": ("HDMI", r"hdmi|e ?arc|arc"),
    "displayport": ("DisplayPort", r"display ?port|dp"),
    "ethernet": ("Network (RJ-45)", r"ethernet|lan|rj ?45|network|internet|gigabit|poe|wan"),
    "hdbaset": ("HDBaseT link over category cable", r"hd ?base ?t"),
    "coax": (
        "Antenna or cable TV (F jack)",
        r"coax(?:ial)?|antenna|ant|aerial|rf|cable ?tv|catv|satellite|sat|"
        r"f (?:type|jack|connector)|cable(?= in\b|$)",
    ),
    "optical": ("Optical sound (TOSLINK)", r"optical|tos ?link|s ?pdif"),
    "line": (
        "Line-level sound (RCA, 3.5 mm)",
        r"line(?: level)?|rca|sub ?woofers?|sub|audio|pre|pre ?outs?|phono|aux|analog(?:ue)?|lfe|xlr|stereo|mini ?jack|"
        r"head ?phones?|digital (?:audio )?(?:in |out )?coax(?:ial)?|coax(?:ial)? (?:digital|audio|s ?pdif)|"
        r"s ?pdif (?:in |out )?coax(?:ial)?|3 5 ?mm|3\.5 ?mm",
    ),
    "speaker": ("Speaker terminals", r"(?:loud ?)?speakers?|binding posts?|banana"),
    "usb": ("USB", r"usb(?: ?[abc])?|type c"),
    "infrared": ("Infrared emitter or receiver", r"infra ?red|ir|emitters?"),
    "fibre": ("Optical fiber", r"(?:optical )?fib(?:re|er)|lc|sfp"),
    "trigger": ("12 V trigger", r"trigger"),
    "serial": ("Serial (RS-232)", r"serial|rs ?232|rs ?485|control"),
    "video": ("Analog video", r"(?:analog(?:ue)? )?video|component|composite|vga|dvi|scart"),
    "power": ("Power", r"power|mains|dc|ac"),
    "radio": ("Radio, no cable", r"wi ?fi|wireless|bluetooth|radio|wlan"),
    "card": ("Card slot", r"(?:sd |memory )?card"),
}
"""Every port that is known, by its key. Common practice: as manufacturers label them."""
_FORMS = {key: re.compile(rf"\b(?:{spellings})\b") for key, (_, spellings) in PORTS.items()}


@lru_cache(MOST_KEPT)
def port_key(text: str) -> str:
    """The port that a text names first, by its key; of two that begin at one place, the longer name. Empty for none.

    `HDMI 2 in (eARC)`, `RJ-45`, `antenna in`, `subwoofer pre-out`, `digital optical out`.
    """
    plain = spaced(text)
    found = ((match.start(), -len(match[0]), key) for key, form in _FORMS.items() if (match := form.search(plain)))
    return min(found, default=(0, 0, ""))[2]
