"""Flexible cords by every name they go by: type letters, connectors at their ends, and what people call them.

A flexible cord is no wiring for the inside of a wall, in a sleeve or raceway neither. So whatever names one is taken
for one, also in the middle of other words; a name that also stands for a signal cable ("patch cord") is not.
"""

from __future__ import annotations

import re
from functools import lru_cache

from store.measure.spelling import MOST_KEPT, spaced, words

SOURCE_TYPES = "NFPA 70 (NEC) Table 400.4 and UL 62 (letters from memory); EN 50525 for H03, H05 and H07"

_OIL = r"(?:oo?)?w?(?: ?a)?"
LETTERS = (
    # S, SJ and SV with their insulation, oil and weather letters: SJTW, SOOW, SVT, STW.
    rf"\bs[jv] ?[te]?{_OIL}\b",
    rf"\bs[te]{_OIL}(?<!\bst)(?<!\bse)\b|\bsoo?w(?: ?a)?\b|\bsoo\b",
    r"\bsp(?:t|e)? ?[123] ?w?\b|\bsp[te]\b",
    r"\bhp[nd]\b|\bhsj?oo?w?\b|\bhsj\b|\bhs\b(?= \d)|\btpt\b|\btst\b|\bc?xtw\b|\bevj?[te]\b",
)
"""Types of UL 62 that mean nothing else."""
SHORT_LETTERS = re.compile(r"\b(?:s|so|st|se|sp|sv|pd)\b")
"""Types of UL 62 that are also words or parts of other names: they count alone, or with a size: `SO 12/3`."""
HARMONISED = re.compile(r"\b[ha] ?0[1357] ?[a-z0-9 ]{1,9}?[fh](?: ?\d+)?\b")
"""H05VV-F, H03VVH2-F, H07RN-F: the F or H at the end says flexible; U, R and K are wire for conduit."""
BRITISH = re.compile(r"\b(?:309[1-4]|318[2-5]|218[1-3]|219[1-3]|2099)(?: ?[xypt]q?)?\b")
"""Sheathed flex of BS 6500 and EN 50525 by its old numbers, like 3183Y (from memory)."""
PLUGS = (
    r"\biec\b(?! 60228)",
    r"\bc-?(?:5|7|13|14|15|17|19|20)\b(?! ?awg)|(?<!\d )(?<!\d)\bc (?:7|13|14|15|19|20)\b(?! ?awg)",
    r"\bnema\b|\b(?:1|5|6|10|14) (?:15|20|30|50)[pr]\b",
    r"\bclover ?leaf\b|\bfig(?:ure)?(?: of)? ?(?:8|eight)\b|\bschuko\b|\beuro ?plug\b|\bplug(?:ged)? (?:lead|top|"
    r"end)\b",
)
"""Connectors at the ends of cords: IEC 60320, NEMA, national plugs."""
PHRASES = (
    r"\b(?:lamp|zip|appliance|kettle|iron|vacuum|toaster|heater|drop|trailing|jumper|adapt[eo]r|charger|laptop|"
    r"monitor|computer|pc|printer|wall ?wart|tv|television|plug in|supply) ?(?:power )?(?:cords?|wires?|leads?|flex)\b",
    r"\b(?:lamp|zip|kettle|appliance) ?cables?\b|\b(?:power|mains) ?(?:cords?|leads?|flex)\b|\bline ?cords?\b",
    r"\bcab ?t[iy]re\b|\btough rubber\b|\btrs\b|\b(?:power|surge|plug|outlet) ?strips?\b|\bsurge protector\b",
    r"\bflexible (?:power |mains |rubber )?(?:cords?|cables?|leads?)\b",
    r"\b(?:cable|lead|cord) with (?:a )?(?:moulded |molded )?plugs?\b|\bplug in (?:cables?|wires?)\b",
    r"\bext(?:ension)? ?cords?\b|\bmickey mouse (?:cords?|leads?|cables?)\b|\bmulti ?plugs?\b|"
    r"\b(?:\d |four |six |two )?gang (?:leads?|extensions?)\b",
    r"\b(?:fairy|string|christmas) ?lights?(?: (?:cords?|leads?|cables?|wires?))?\b",
    r"\bpower (?:adapt[eo]r|brick|supply) (?:cables?|leads?|wires?)\b",
)
"""What people call them."""
EXTENSION = re.compile(r"\bextension ?(?:leads?|reels?)\b|\bextension\b$|^extension\b|\bext leads?\b")
"""One of power, unless a word of signal cable is beside it: `speaker extension lead`, `active USB extension`."""
LOOSE = re.compile(r"\bcords?\b|\bcordset\b|\bflex\b")
"""Words that also stand beside signal cable: `HDMI cord`."""
WEAK = re.compile(
    r"\b(?:power|mains|electric(?:al)?|ac power|supply|extension) ?(?:supply )?(?:cables?|wires?|"
    r"leads?)\b"
)
"""Words that also stand beside fixed wiring: `NM-B power cable`."""
_FIXED = re.compile(r"\b(?:nmc? ?b?|nmd|uf ?b?|mc|thhn|thwn|xhhw|twin|earth|nym|nyy|armou?red|bx|6242|6243|6491)\b")
_SIGNAL = re.compile(
    r"\b(?:speakers?|control|bell|thermostat|cat(?:egory)?|ethernet|network|lan|hdmi|display ?port|coax(?:ial)?|rg|"
    r"fib(?:re|er)|toslink|optical|usb|infra ?red|ir|audio|sound|video|rca|xlr|patch|rj|antenna|aerial|alarm|trigger|"
    r"pull|draw|rip|midi|dmx|telephone|phone|aux|sub ?woofer|line level|stereo|head ?phones?|thunderbolt|"
    r"mini ?jack|f type|satellite|sat|component|composite|vga|dvi|keystone|modular|mic(?:rophone)?|guitar)\b"
)
_CONDUIT = re.compile(r"\bflex(?:ible)? (?:metal|conduit|duct|tube|raceway)|\bconduit\b")
_PAIR = re.compile(r"(?<![\d.])\d{1,2} (?:awg |x )?\d(?![\d.])")


@lru_cache(MOST_KEPT)
def cord_named(text: str) -> str:
    """The part of a text that names a flexible cord, as read; empty when none does. SOURCE_TYPES; common practice.

    `SJTW 16/3`, `lamp cord`, `IEC C13`, `H05VV-F 3G1.5`, `power cable`. Never for `patch cord`, `HDMI cord`, and not
    for `power cable` beside a name of fixed wiring.
    """
    plain, apart = words(text), spaced(text)
    for pattern in (*LETTERS, *PHRASES):
        if found := re.search(pattern, plain):
            return found[0]
    if (found := EXTENSION.search(plain)) and not _SIGNAL.search(apart):
        return found[0]
    for pattern in PLUGS:
        found = re.search(pattern, plain) or re.search(pattern, apart)
        if found and not ("speaker" in plain and "fig" in found[0]):
            return found[0]
    for form in (HARMONISED, BRITISH):
        if found := form.search(plain) or form.search(apart):
            return found[0]
    short = SHORT_LETTERS.search(plain)
    if short and (plain == short[0] or _PAIR.search(apart)) and not _SIGNAL.search(apart):
        return short[0]
    return _loosely(plain, apart)


def _loosely(plain: str, apart: str) -> str:
    """By a word that counts only where nothing says signal cable, fixed wiring or conduit."""
    if _SIGNAL.search(apart) or _CONDUIT.search(plain):
        return ""
    if found := LOOSE.search(plain):
        return found[0]
    weak = WEAK.search(plain)
    return weak[0] if weak and not _FIXED.search(apart) else ""
