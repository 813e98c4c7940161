"""Reading the short texts of a box and a circuit: devices, conductors and wire sizes, as people write them.

A device is words, with the size of the wire on it where that is known: `receptacle 12`, `single receptacle TR 20 A 12`,
`2 x switch 14`, `3-way switch`, `dimmer 14 2-gang`. A cable in a box is its size and number of insulated conductors,
with `G` when it brings a ground: `12-2 G`, `14/3 NM`, `3 x 12-2 with ground`, `12-2 G x 3`, `14-2 G through`. Loose
conductors are `9 x 12`, grounds alone `ground 12` or `bare 12`. A wire size is `12`, `12 AWG copper`, `12-2 NM-B`,
`2.5 mm2` or `2.5 mm² twin and earth`. What could be read in two ways is refused with a form to copy.
"""

from __future__ import annotations

import re
from functools import lru_cache

import msgspec

from store.measure.errors import BadValue, quoted
from store.trade.cable.cords import cord_named
from store.trade.cable.kinds import KINDS
from store.trade.cable.names import kind_key
from store.trade.cable.types import CableType
from store.trade.power import tables_us as us
from store.trade.power.box_fill import Cable, Device, How

MOST_OF_ONE = 99
"""More of one thing than any box holds is a slip of the hand."""
MOST_KEPT = 4096
"""Readings kept: the same text means the same, and each is read again after every change of the job."""
PLACES_DUPLEX, PLACES_SINGLE, PLACES_QUAD = 2, 1, 4

_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_NUMBER = rf"(\d{{1,3}}|{'|'.join(_WORDS)})"
_NOT_A_SIZE = r"(?![\w.]|[- ](?:way|pole|speed|gang)\b)"
_COUNTS = (
    rf"^\(?{_NUMBER}\)?\s*[x×]\s*(?=\S)",  # 2 x 12-2 G
    r"^\((\d{1,3})\)\s*(?=\S)",  # (2) 12-2 G
    rf"^({'|'.join(_WORDS)})\s+(?=\S)",  # two 12-2 G
    # A first number that is followed by a size is a count: 6 #12, 6 12 AWG, 2 12/2 NM, 2 receptacles 12.
    r"^(\d{1,3})\s+(?!awg|ga\b|gauge|way|pole|speed|gang)"
    rf"(?=#|\d{{1,2}}\s*(?:awg|[-/])|[a-z(].*?(?<![\w.])\d{{1,2}}{_NOT_A_SIZE})",
    r"^(\d{1,3})\s+(?=(?:[a-z-]+\s+)*(?:receptacle|outlet|switche?|dimmer|device|socket)s\b)",  # 2 switches
)
_TIMES_AFTER = r"(?<![\w.])\s*[x×]\s*(\d{1,3})$"
_AMPS = re.compile(r"\b(\d{1,3})\s*a(?:mps?)?\b", re.ASCII)
_NEMA = re.compile(r"\b(?:nema\s*)?l?(?:5|6|14)-(15|20|30|50)[rp]?\b", re.ASCII)
_VOLTS = re.compile(r"\b\d{2,3}\s*v(?:olts?)?\b", re.ASCII)
_GANGS = re.compile(rf"\b{_NUMBER}[- ]?gang\b", re.ASCII)
_LETTERS = re.compile(r"\b(?:tr|wr|gfci|gfi|afci|usb)\b")
"""What is written in capitals on a device and in its name."""
_TAMPER = re.compile(r"\btr\b|tamper")
_CIRCUITS = re.compile(
    r"(?:\b(?:on|circuits?)\s+)?\bc(\d{1,3})\b((?:\s*(?:[+/,&]|\band\b)\s*c\d{1,3}\b)*)", re.ASCII | re.IGNORECASE
)
_APPLIANCE_INLET = re.compile(r"\binlet|\biec\b", re.IGNORECASE)
"""Beside these words C14 is the shape of an inlet and no circuit."""
_GAUGE = re.compile(rf"(?<![\w.])(?:awg\s*|#\s*)?(\d{{1,2}})(?:\s*awg)?{_NOT_A_SIZE}", re.ASCII)
_PAIR = re.compile(r"(?<![\w./-])(\d{1,2})\s*(?:awg)?\s*[-/]\s*(\d{1,2})(?![\w.]|\s*[-/]\s*\d)", re.ASCII)
_SPELLED_PAIR = re.compile(
    r"(?<![\w./-])(\d{1,2})\s*(?:awg|ga|gauge)?\s+(\d{1,2})[\s-]*(?:conductors?|wires?|cores?)\b", re.ASCII
)
_GROUND = re.compile(r"\b(?:g|gr|gnd|grd|ground|grounds|grounding|egc|egcs|earth|cpc|wg|bare|green|bonding)\b|[-/]g\b")
_NO_GROUND = re.compile(
    r"\b(?:without|no|w/o)\s+(?:an? )?(?:equipment )?(?:g|gnd|grounds?|egcs?|earth|bare)\b|ungrounded"
)
_MM2 = re.compile(r"(?<![\d.])(\d{1,3}(?:\.\d{1,3})?)\s*(?:mm2|mm²|sq\.?\s?mm|mm\^2)")
_NOT_COPPER = re.compile(r"\balumin(?:i)?um\b|\bal\b|\bcca\b|copper[- ]clad")
_SIGNAL = re.compile(
    r"speaker|control|bell|thermostat|\bcat|ethernet|network|hdmi|coax|\brg|fibre|fiber|usb|infrared|audio|patch|display"
    r"|low.?volt|alarm|trigger|\bir\b|\bcl[23]"
)
_SHEATHED = re.compile(r"\b(?:nm|uf)(?:-?b)?\b")
_SHEATH = re.compile(r"\b(?:nm|uf)(?:-?b)?-?(?![a-z])")
_POWER_WORDS = re.compile(
    r"\bnm\b|nm-?b|\buf(?:-b)?\b|\bmc\b|\bac\b|thhn|thwn|h07v|twin|earth|nym|nyy|624[23]|mains"
    r"|line voltage"
)
LINE_VOLTAGE = "line voltage"
_OUTLETS = ("receptacle", "socket", "outlet")
_OUTLETS_TOO = ("duplex", "gfci", "gfi")
"""Words that stand for a receptacle where none of the plain ones is said, as in `GFCI 20 A 12`."""


class Size(msgspec.Struct, frozen=True):
    """The size of a copper conductor: AWG or mm², one of the two."""

    awg: int | None = None
    mm2: float | None = None

    @property
    def text(self) -> str:
        """As it is printed: `12 AWG`, `2.5 mm²`."""
        return f"{self.awg} AWG" if self.awg is not None else f"{self.mm2:g} mm²"


class Gear(msgspec.Struct, frozen=True):
    """One kind of device in a box, as its text says."""

    device: Device
    count: int
    amps: int | None
    """The rating of a receptacle where the text has it."""
    tamper: bool
    """The text says that it is tamper-resistant."""
    circuits: tuple[str, ...] = ()
    """The circuits that it is on, where its text names them; two of them on one yoke."""

    @property
    def places(self) -> int:
        """Places to plug in that they offer together."""
        name = self.device.name.lower()
        words = _OUTLETS if "switch" in name else (*_OUTLETS, *_OUTLETS_TOO)
        if not any(word in name for word in words):
            return 0
        each = PLACES_SINGLE if "single" in name else PLACES_QUAD if "quad" in name else PLACES_DUPLEX
        return self.count * each


class Wires(msgspec.Struct, frozen=True):
    """What one text of conductors stands for."""

    cables: tuple[Cable, ...] = ()
    grounds: tuple[int, ...] = ()
    """Sizes of grounding conductors that come without a cable."""


@lru_cache(MOST_KEPT)
def read_size(text: str, metric: bool = False) -> Size:
    """The size of a copper conductor. A bare number is AWG, or mm² in a metric job or with a decimal. Raises BadValue.

    The words of a jacket may stand beside it: `12 AWG copper`, `12-2 NM-B`, `nm-12-2`, `2.5 mm2 twin and earth`.
    """
    plain = " ".join(text.lower().replace(",", ".").split())
    if _NOT_COPPER.search(plain):
        raise BadValue(f"{quoted(text)} is not copper. The tables here are for copper: ask the electrician.")
    areas = _MM2.findall(plain)
    if len(areas) == 1:
        return Size(mm2=float(areas[0]))
    if re.fullmatch(r"\d{1,3}\.\d{1,2}", plain, re.ASCII) or (metric and re.fullmatch(r"\d{1,3}", plain, re.ASCII)):
        return Size(mm2=float(plain))
    bare = _SHEATH.sub(" ", plain)
    pair = _PAIR.search(bare)
    sizes = [pair[1]] if pair and int(pair[2]) else [] if areas or pair else _GAUGE.findall(bare)
    if len(sizes) != 1:
        raise BadValue(f"{quoted(text)} is not a wire size. Write 12, 12 AWG or 2.5 mm².")
    return Size(awg=int(sizes[0]))


def conductor_known(text: str, metric: bool = False) -> bool:
    """True when the text of a conductor is a size that can be read, or says that it is not of copper."""
    if _NOT_COPPER.search(text.lower()):
        return True
    try:
        read_size(text, metric)
    except BadValue:
        return False
    return True


def says_no_ground(text: str) -> bool:
    """True when the text of a cable itself says that it brings no ground."""
    return bool(_NO_GROUND.search(" ".join(text.lower().split())))


def says_stranded(text: str) -> bool:
    """True when the text of a conductor itself says that it is stranded."""
    return "strand" in text.lower()


@lru_cache(MOST_KEPT)
def device_circuits(text: str) -> tuple[str, ...]:
    """The tags of the circuits that the text of a device names: `receptacle 12 C2`, `duplex on C1 + C2`."""
    if _APPLIANCE_INLET.search(text):
        return ()
    return tuple(dict.fromkeys(tag.upper() for found in _CIRCUITS.finditer(text) for tag in _TAG.findall(found[0])))


_TAG = re.compile(r"\bc\d{1,3}\b", re.IGNORECASE | re.ASCII)


@lru_cache(MOST_KEPT)
def read_device(text: str) -> Gear:
    """A device of a box, with the size of the largest wire on it where it is said. Raises BadValue with a sentence."""
    circuits = device_circuits(text)
    plain = " ".join((_CIRCUITS.sub(" ", text) if circuits else text).lower().split())
    rating, gangs = _AMPS.search(plain) or _NEMA.search(plain), _GANGS.search(plain)
    for pattern in (_NEMA, _AMPS, _VOLTS, _GANGS):
        plain = pattern.sub(" ", plain)
    count, plain = _counted(plain, text)
    sizes = _GAUGE.findall(plain)
    name = " ".join(_GAUGE.sub(" ", plain).replace("#", " ").split()).strip(" ()=:+-")
    if len(sizes) > 1 or not re.search(r"[^\W\d_]{2}", name):
        raise BadValue(f"{quoted(text)} is not a device with its wire size. Write receptacle 12.")
    gauge = _known(int(sizes[0]), text) if sizes else None
    return Gear(
        Device(_LETTERS.sub(lambda found: found[0].upper(), name), gauge, _number(gangs[1]) if gangs else 1),
        count,
        int(rating[1]) if rating else None,
        bool(_TAMPER.search(plain)),
        circuits,
    )


@lru_cache(MOST_KEPT)
def read_wires(text: str) -> Wires:
    """A cable, loose conductors or grounds in a box. Raises BadValue with a sentence for the person."""
    count, plain = _counted(" ".join(text.lower().split()), text)
    refused = bool(_NO_GROUND.search(plain))
    ground = not refused and bool(_GROUND.search(plain))
    how: How = "looped" if "loop" in plain else "through" if "through" in plain else "ends"
    if "pigtail" in plain or "stays" in plain:
        how = "stays"
    bare = _SHEATH.sub(" ", plain)
    if pair := _PAIR.search(bare) or _SPELLED_PAIR.search(bare):
        gauge, conductors = _known(int(pair[1]), text), int(pair[2])
        grounded = ground or (not refused and bool(_SHEATHED.search(plain)))
        return Wires(cables=(Cable(gauge, conductors, grounded, how),) * count)
    sizes = _GAUGE.findall(bare)
    if len(sizes) != 1:
        raise BadValue(f"{quoted(text)} is not a cable. Write 12-2 G, 14-3 G, 3 x 12 or ground 12.")
    gauge = _known(int(sizes[0]), text)
    if ground and how != "stays":
        return Wires(grounds=(gauge,) * count)
    return Wires(cables=(Cable(gauge, 1, False, how),) * count)


@lru_cache(MOST_KEPT)
def read_mains(type_text: str) -> tuple[Size, int] | None:
    """Size and number of insulated conductors of a mains cable of the plan, by its type; None for any other cable.

    `nm-12-2`, `12-2 nm`, `12/2`, `2.5 mm2 twin and earth`. Speaker, control and data cable is not mains. Of a text that
    names no kind of the list, what can be read of its size is taken, so that sums go on until the kind is picked.
    """
    if kind := KINDS.get(kind_key(type_text)):
        return _size_of(kind)
    plain = type_text.strip().lower()
    if _SIGNAL.search(plain) or is_cord(plain):
        return None
    if found := _MM2.search(plain):
        return Size(mm2=float(found[1])), 3 if "three" in plain or "3 core" in plain else 2
    pair = _PAIR.search(re.sub(r"nm-?b?|uf-?b?", " ", plain).replace(" -", " "))
    if pair and int(pair[1]) in us.AMPACITY_60C_A:
        return Size(awg=int(pair[1])), int(pair[2])
    return None


_OF_KIND = re.compile(
    r"(?P<form>[a-z0-7]+?)(?P<three>3)?-(?:(?P<cores>\d)x)?(?P<size>[\d.]+)(?:-(?P<number>\d))?", re.ASCII
)


def _size_of(kind: CableType) -> tuple[Size, int] | None:
    """Size and insulated conductors of a kind of house wiring, from its key: one of its cores is the ground."""
    found = _OF_KIND.fullmatch(kind.key)
    if kind.family != LINE_VOLTAGE or found is None:
        return None
    if found["number"] or found["form"] == "thhn":
        return Size(awg=int(found["size"])), int(found["number"] or 1)
    if found["cores"]:
        return Size(mm2=float(found["size"])), int(found["cores"]) - 1
    return Size(mm2=float(found["size"])), 1 if found["form"] == "h07v" else 3 if found["three"] else 2


def is_cord(type_text: str) -> bool:
    """True for a flexible cord by any of its names: an extension, a device's own lead; never for a patch cord."""
    return bool(cord_named(type_text))


@lru_cache(MOST_KEPT)
def is_mains_word(type_text: str) -> bool:
    """True when the type says mains, also where its size cannot be read."""
    plain = type_text.strip().lower()
    return bool(_POWER_WORDS.search(plain)) and not _SIGNAL.search(plain)


_SIZE_PART = re.compile(r"(\d{1,2})[- ](\d{1,2})/(\d{1,2})|(\d{1,2})/(\d{1,2})|(\d{1,2}(?:\.\d{1,4})?)", re.ASCII)
_SHAPES = {
    "square": "square",
    "sq": "square",
    "round": "round",
    "oct": "round",
    "device": "device",
    "masonry": "masonry",
}


@lru_cache(MOST_KEPT)
def standard_box(text: str) -> us.StandardBox | None:
    """The metal box of Table 314.16(A) that a text such as `4 x 1-1/2 square` names; None when it names none, or two.

    Inches with a fraction or a decimal; a side that is written twice, as in `4 x 4 x 1.5`, makes a square box.
    """
    plain = re.sub(r"[\"”″]|\bin\b|\binch(?:es)?\b", " ", text.lower().replace("×", "x"))
    sizes = _sizes_of(plain)
    shape = next((kind for word, kind in _SHAPES.items() if word in plain), "")
    if len(sizes) == 3 and sizes[0] == sizes[1]:
        sizes, shape = sizes[1:], shape or "square"
    fits = [box for box in us.STANDARD_BOXES if _sizes_of(box.size) == sizes and shape in ("", box.kind)]
    return fits[0] if sizes and len(fits) == 1 else None


def _sizes_of(text: str) -> list[float]:
    """The dimensions in a text, inches, in order."""
    found = []
    for whole, top, under, top_only, under_only, plain in _SIZE_PART.findall(text):
        if plain:
            found.append(float(plain))
        else:
            above, below = int(top or top_only), int(under or under_only)
            found.append(int(whole or 0) + above / below if below else 0.0)
    return found


def _number(text: str) -> int:
    return _WORDS.index(text) + 1 if text in _WORDS else int(text)


def _counted(plain: str, text: str) -> tuple[int, str]:
    """How many of a thing a text speaks of, before it or after it, and the rest of the text. Raises BadValue."""
    before = next((found for form in _COUNTS if (found := re.search(form, plain, re.ASCII))), None)
    rest = plain[before.end() :] if before else plain
    after = re.search(_TIMES_AFTER, rest, re.ASCII)
    if before and after:
        raise BadValue(f"{quoted(text)} has two counts. Write 2 x 12-2 G.")
    count = _number(before[1]) if before else int(after[1]) if after else 1
    if not 0 < count <= MOST_OF_ONE:
        raise BadValue(f"{quoted(text)} is not 1 to {MOST_OF_ONE}. Correct the count.")
    return count, rest[: after.start()] if after else rest


def _known(gauge: int, text: str) -> int:
    if gauge not in us.CONDUCTOR_IN3:
        sizes = ", ".join(map(str, us.CONDUCTOR_IN3))
        raise BadValue(f"{quoted(text)} has no box allowance: {gauge} AWG. Choose: {sizes}.")
    return gauge
