"""Which kind of cable a text names: a closed list in the trade's words, with the spellings of people and of jackets.

A text names a kind only when all of it is understood and no other kind fits as well: nothing is guessed.
"""

from __future__ import annotations

import re
from functools import lru_cache

import msgspec

from store.measure.spelling import MOST_KEPT, peeled, spaced
from store.trade.cable.cords import cord_named
from store.trade.cable.kinds import KINDS

MARKS = (
    r"\bcl [23](?: ?[prx])?\b|\bcm ?(?:[prgx]|uc)?\b|\bcatv ?[prx]?\b|\bof[nc][prg]?\b(?<!ofc)|\bpltc\b|"
    r"\bft [46]\b|\bfpl[pr]?\b"
)
"""Jacket ratings that manufacturers print beside the kind; what they allow is shown in `jackets`."""
PRINT = (
    MARKS,
    r"\b(?:60|75|80|90|105) (?:deg(?:rees?)? )?c\b|\b[1-9]\d{1,3} v(?:olts?|ac|dc)?\b",
    r"\bc ?(?:ul|etl|csa) ?us\b|\bc ?(?:ul|etl|csa)\b|\b(?:ul|etl|csa) ?us\b|\b(?:ul|etl|csa|intertek|nec|ansi|"
    r"tia|eia|iec|iso|rohs)\b",
    r"\be \d{5,6}\b|\bawm(?: style)?(?: \d{4,5})?\b|\bvw 1\b|\bft 1\b|\b568 ?c? ?2?(?: ?d)?\b",
    r"\b\d+(?:\.\d+)? (?:[mg]hz|ohms?|prs?|pairs?)\b",
    r"\b\d{1,6} (?:ft|feet|foot|m|mtr|met(?:re|er)s?)\b",
)
"""Who certified it, for what heat, voltage and test; how long and how many pairs: printed with every kind."""
FILLERS = (
    r"\b(?:cables?|wires?|wiring|leads?|cords?|runs?|bulk|reel|spool|box|type|listed|verified|certified|rated|"
    r"grade|in ?wall|"
    r"inside|plenum|riser|outdoor|indoor|direct burial|sun(?:light)? res(?:istant)?|wet|dry|jacket(?:ed)?|"
    r"sheath(?:ed)?|"
    r"pvc|lszh|lsoh|ls ?0 ?h|lsf|solid|stranded|bare|tinned|pure|copper|cu|bc|black|white|blue|red|green|gr[ae]y|"
    r"yellow|"
    r"orange|brown|purple|the|a|an|for|of|with|and|or|to|from|new|only|conductors?|condrs?|cond|cores?|twisted|"
    r"(?:un)?shield(?:ed)?|foil|braid(?:ed)?|drain|screened|high quality|heavy duty|flat|round)\b"
)
"""Words that name no kind."""
_AWG = r"(?: (?:awg|gauge|ga)\b)?"
_PAIR = rf"(?<![\d.])(?P<gauge>\d\d)\b{_AWG} (?:x )?(?P<number>\d)\b(?: c\b)?(?!\.\d)"
_PAIR_BACK = rf"(?<![\d.])(?P<number>\d) (?:c |conductors? |cond |cores? |x )(?P<gauge>\d\d)\b{_AWG}(?!\.\d)"
_GAUGE = rf"(?<![\d.])(?:awg )?(?P<gauge>\d\d)\b{_AWG}(?!\.\d)"
_MM2 = r"(?<![\d.])(?:(?P<cores>\d) ?(?:g|x|c|cores?)? )?(?P<size>\d(?:\.\d)?5?0?)(?: sq)?(?: mm(?: 2)?)?(?![\d.])"


class Family(msgspec.Struct, frozen=True):
    """How the kinds of one family are named."""

    heads: tuple[tuple[str, str], ...]
    """Word that says the family, and the key it leads to: groups of all that matched are filled in."""
    also: str = ""
    """Other words that belong to it."""
    size: tuple[str, ...] = ()
    """Forms in which a size stands beside its word, the fullest first."""
    bare: bool = False
    """A size alone, taken for wiring of a house: not where a rating of signal cable stands beside it."""


_HIGH = (
    r"premium|ultra|standard|high|speed|ethernet|\d\.\d ?[ab]?|\d{1,2} k|\d{1,3} g(?: ?bps| bit s| b s)?|passive|"
    r"hdr|uhd|e?arc|"
    r"cec|male|plug|hdcp|\d\d awg|extension|cinema|display|video|hz|4 4 4|certified|60|120"
)
_FIBRE = r"(?:active )?(?:optical(?: fib(?:re|er))?|fib(?:re|er)(?: optic(?:al)?)?|aoc|hybrid)(?: active)?"
_GROUND = (
    r"w ?g|g|gnd|ground(?:ed)?|bare ground|b|earth|nonmetallic|non metallic|sheathed|home ?run|nmd|90|"
    r"underground|feeder"
)
FAMILIES = (
    Family(
        (
            (
                r"\bnmc? ?b?\b|\bnmd(?: ?90)?\b|"
                r"\bnon ?metallic sheathed\b",
                "nm-{gauge}-{number}",
            ),
        ),
        _GROUND,
        (_PAIR, _PAIR_BACK),
    ),
    Family(((r"\buf(?: ?b)?\b", "uf-{gauge}-{number}"),), _GROUND, (_PAIR, _PAIR_BACK)),
    Family(
        (
            (r"\bmc\b|\bmetal ?clad\b", "mc-{gauge}-{number}"),
            (
                r"\bac\b|\bbx\b|"
                r"\barmou?red\b",
                "ac-{gauge}-{number}",
            ),
        ),
        _GROUND + "|lite|steel|alumin(?:i)?um armou?r|armou?r(?:ed)?",
        (_PAIR, _PAIR_BACK),
    ),
    Family(
        (
            (
                r"\b(?:thhn|thwn(?: 2)?|"
                r"xhhw(?: 2)?)\b",
                "thhn-{gauge}",
            ),
        ),
        "thwn|thhn|2|mtw|single|t 90|nylon",
        (_GAUGE,),
    ),
    Family(
        (
            (
                r"^(?P<gauge>14|12|10) (?P<number>[23])\b|\b(?P<gauge2>14|12|"
                r"10) (?P<number2>[23])$",
                "nm-{gauge}-{number}",
            ),
        ),
        r"w ?g|g|ground",
        bare=True,
    ),
    Family(
        (
            (r"\bthree core (?:and )?earth\b|\b3 core (?:and )?earth\b|\b6243 ?y\b", "flat3-{size}"),
            (
                r"\b(?:flat )?twin (?:and )?earth\b|\bt (?:and )?e\b|\bt and e\b|\b6242 ?(?:y|b|yh)\b|"
                r"\bflat twin\b",
                "flat-{size}",
            ),
            (r"^(?P<size>1|1\.5|2\.5|4|6) (?:sq )?mm(?: 2)?\b", "flat-{size}"),
        ),
        r"y|b|cpc|mm|2",
        (_MM2,),
    ),
    Family(((r"\bnym(?: ?[jo])?\b|\bnyy(?: ?[jo])?\b", "nym-{cores}x{size}"),), r"j|o|re|mm|2", (_MM2,)),
    Family(((r"\bh 07 v(?: ?[ukr])?\b|\b6491 ?[xb]\b", "h07v-{size}"),), r"single|mm|2", (_MM2,)),
    Family(
        ((r"\bpatch\b|\b(?:network|ethernet|lan|rj 45|internet)(?: patch)? (?:cords?|leads?)\b", "patch"),),
        r"patch|cat(?:egory)?(?: (?:5 ?e|6 ?a?|7|8))?|network|ethernet|lan|rj 45|[usf]|s?f?utp|[us]?ftp|stp|"
        r"\d\d awg|snagless|booted",
    ),
    Family(
        ((r"\bcat(?:egory)? (?P<grade>5 ?e|6 ?a|6|7|8)(?: [12])?\b", "cat{grade}"),),
        r"[usfb]|sf|utp|[us]?ftp|s?stp|futp|uutp|uftp|sftp|sfutp|ethernet|network|internet|lan|data|poe|"
        r"hd ?base ?t|"
        r"gigabit|horizontal|\d\d awg|awg|pairs?|\d ?x 2|rj 45|ae",
    ),
    Family(
        (
            (r"\brg 6(?: u)?(?=.*\bquad\b)|\bquad(?: shield(?:ed)?)?(?: coax)?\b(?=.*\brg 6\b)", "rg6-quad"),
            (r"\brg (?P<grade>6|59|11)(?: u)?\b", "rg{grade}"),
            (r"^coax(?:ial)?$", "rg6"),
        ),
        r"rg 6(?: u)?|coax(?:ial)?|quad|tri|dual|satellite|sat|antenna|aerial|tv|cctv|ccs|swept|sweep|video|u|"
        r"18 awg|f|\d\d percent|75|3",
    ),
    Family(
        (
            (rf"\bhdmi\b(?=.*\b{_FIBRE}\b)|\b{_FIBRE}\b(?=.*\bhdmi\b)", "hdmi-optical"),
            (r"\bhdmi\b(?=.*\bactive\b)|\bactive\b(?=.*\bhdmi\b)", "hdmi-active"),
            (r"\bhdmi\b", "hdmi"),
        ),
        rf"hdmi|{_FIBRE}|active|{_HIGH}",
    ),
    Family(((r"\bdisplay ?port\b|\bdp\b", "displayport"),), rf"dp|{_HIGH}"),
    Family(
        ((r"\b(?:loud)?speakers?\b|\bofc\b|\boxygen free\b", "speaker-{gauge}-{number}"),),
        r"(?:loud)?speakers?|ofc|oxygen|free|strands?|\d{2,3} strands?|pairs?|audio|home|theat(?:er|re)|sound|"
        r"surround|"
        r"two|2|awg|gauge|ga|mm|c|parallel|banana",
        (_PAIR, _PAIR_BACK, _MM2, _GAUGE),
    ),
    Family(
        (
            (r"\b(?:digital coax(?:ial)?|s ?pdif|coax(?:ial)? digital)\b", "line"),
            (
                r"\b(?:line(?: level| out| in)?|sub ?woofer|sub|rca|phono|xlr|balanced|mic(?:rophone)?|composite|"
                r"component|"
                r"aux|analog(?:ue)?|audio|s video|stereo)\b",
                "line",
            ),
        ),
        r"line|level|out|in|rca|phono|xlr|balanced|audio|stereo|mono|interconnect|video|sub|subwoofer|3\.5 mm|\d|"
        r"\d\d \d|\d\d awg|sound|signal|analog(?:ue)?|mini ?jack|component|composite|aux|coax(?:ial)?|digital|"
        r"s ?pdif",
    ),
    Family(
        (
            (
                r"\btos ?link\b|\boptical (?:digital )?(?:audio|sound)\b|\bdigital optical(?: audio|"
                r" sound)?\b",
                "toslink",
            ),
        ),
        r"toslink|optical|digital|audio|sound|s ?pdif|mini",
    ),
    Family(
        ((r"\bfib(?:re|er)(?: optic(?:al|s)?)?\b|\b(?:om [1-5]|os [12])\b", "fibre"),),
        r"fib(?:re|er)s?|optic(?:al|s)?|om [1-5]|os [12]|lc|sc|st|duplex|simplex|(?:single|multi) ?mode|mode|"
        r"two|2|"
        r"strands?|50 125|9 125|62\.5 125|mm|sm|upc|apc",
    ),
    Family(
        ((r"\busb\b", "usb"),),
        r"\d(?:\.\d)?|gen|x|[abc]|micro|mini|male|female|plug|data|extension|passive|super ?speed|hi|high|"
        r"speed|\d{1,2} g ?(?:bps|bit s|b s)?|\d{3} m ?(?:bps|bit s|b s)|active|to",
    ),
    Family(
        ((r"\binfra ?red\b|\bir\b", "infrared"),),
        r"ir|emitters?|eyes?|receivers?|repeaters?|target|extension|extender|blasters?|flashers?|3\.5 mm",
    ),
    Family(
        (
            (
                r"\b(?:control|thermostat|(?:door ?)?bell|security|alarm|intercom|sensor|keypad|trigger|led|lighting|"
                r"landscape|class 2|low voltage|shades?|blinds?|motor|rs (?:232|485))\b",
                "control-{gauge}-{number}",
            ),
            (
                r"^(?P<gauge>18) (?P<number>2)(?: c)?$|"
                r"^(?P<gauge2>22) (?P<number2>4)(?: c)?$",
                "control-{gauge}-{number}",
            ),
        ),
        r"control|thermostat|bell|door ?bell|security|alarm|burglar|intercom|sensor|keypad|trigger|led|strip|"
        r"tape|lighting|"
        r"light|low|voltage|landscape|class|2|shades?|blinds?|motor|rs (?:232|485)|hvac|pair|\d\d v|station|"
        r"multi",
        (_PAIR, _PAIR_BACK),
    ),
)
"""The families, each with the words that may stand in a name of one of its kinds."""


@lru_cache(MOST_KEPT)
def kind_key(text: str) -> str:
    """The key of the kind of cable that a text names; empty when it names none, more than one, or a flexible cord.

    `cat 6a U/FTP`, `Type NM-B 600V 12/2 W/G`, `16/2 OFC`, `ultra high speed hdmi`, `NYM-J 3x1.5`. Common practice.
    """
    plain = " ".join(text.lower().split())
    if plain in KINDS:
        return plain
    if cord_named(text):
        return ""
    counted = _counted(spaced(text))
    read, marked = peeled(counted, PRINT), peeled(counted, PRINT[1:])
    found = {key for family in FAMILIES if (key := _key_in(family, marked if family.bare else read))}
    return found.pop() if len(found) == 1 else ""


def _counted(plain: str) -> str:
    """A text with conductors in figures: `two pairs` is `4 c`, `four conductors` is `4 c`."""
    plain = re.sub(r"\b(?:one|1) pair\b|\b(?<=control )pair\b", "2 c", plain)
    plain = re.sub(r"\b(?:two|2) (?:pairs|pair|prs?)\b", "4 c", plain)
    for number, word in enumerate(("two", "three", "four", "five", "six", "seven", "eight"), 2):
        plain = re.sub(rf"\b{word} (?:conductors?|cores?|wires?)\b(?! and earth| earth)", f"{number} c", plain)
    return plain


def _key_in(family: Family, plain: str) -> str:
    """The key of a kind of one family that a text names with all its words; empty for none."""
    for head, form in family.heads:
        found = re.search(head, plain)
        if found is None:
            continue
        filled = {name.rstrip("2"): value for name, value in found.groupdict().items() if value}
        rest = f"{plain[: found.start()]} {plain[found.end() :]}"
        if "{" in form and not filled:
            rest, filled = _sized(family, rest)
        rest = peeled(rest, (rf"\b(?:{family.also})\b",) if family.also else ())
        return "" if peeled(rest, (FILLERS,)) else _listed(form, filled)
    return ""


def _sized(family: Family, plain: str) -> tuple[str, dict[str, str]]:
    """What is left of a text without its size, and the size."""
    for form in family.size:
        if found := re.search(form, " ".join(plain.split())):
            plain = " ".join(plain.split())
            return plain[: found.start()] + " " + plain[found.end() :], {
                name: value for name, value in found.groupdict().items() if value
            }
    return plain, {}


def _listed(form: str, filled: dict[str, str]) -> str:
    """The key, if it is one of the list."""
    size = filled.get("size", "")
    if form.startswith("speaker"):
        filled = {"number": filled.get("cores", "2"), **filled}
        form = "speaker-{number}x{size}" if size else form
    if size:
        filled = {**filled, "size": _size(size)}
    given = {name: filled.get(name, "").replace(" ", "") for name in ("cores", "size", "gauge", "number", "grade")}
    key = form.format(**given)
    return key if key in KINDS else ""


def _size(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text
