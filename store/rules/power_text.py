"""Reading the short texts of a box and a circuit: devices, conductors and wire sizes, as people write them.

A device is words and the size of the wire on it: `receptacle 12`, `single receptacle TR 20 A 12`, `2 x switch 14`,
`dimmer 14 2-gang`. A cable in a box is its size and number of insulated conductors, with `G` when it brings a ground:
`12-2 G`, `14/3 with ground`, `3 x 12-2 G`, `14-2 G through`. Loose conductors are `9 x 12`, grounds alone `ground 12`.
A wire size is `12`, `12 AWG`, `2.5 mm2` or `2.5 mm²`.
"""

from __future__ import annotations

import re

import msgspec

from store.measure.errors import BadValue
from store.trade import tables_us as us
from store.trade.box_fill import Cable, Device, How

MOST_OF_ONE = 99
"""More of one thing than any box holds is a slip of the hand."""
PLACES_DUPLEX, PLACES_SINGLE, PLACES_QUAD = 2, 1, 4

_COUNT = re.compile(r"^(\d{1,3})\s*[x×]\s*", re.ASCII)
_AMPS = re.compile(r"\b(\d{1,3})\s*a(?:mps?)?\b", re.ASCII)
_GANGS = re.compile(r"\b(\d)[- ]?gang\b", re.ASCII)
_TAMPER = re.compile(r"\btr\b|tamper")
_GAUGE = re.compile(r"(?<![\w.])(?:#\s*)?(\d{1,2})(?:\s*awg)?(?![\w.])", re.ASCII)
_PAIR = re.compile(r"(?<![\w./-])(\d{1,2})\s*(?:awg)?\s*[-/]\s*(\d{1,2})(?![\w.]|\s*[-/]\s*\d)", re.ASCII)
_GROUND = re.compile(r"\b(?:g|gr|gnd|grd|ground|grounds|egc|earth)\b|[-/]g\b")
_MM2 = re.compile(r"(\d+(?:\.\d+)?)\s*(?:mm2|mm²|sq\.?\s?mm|mm\^2)")
_AWG = re.compile(r"(?:#\s*)?(\d{1,2})\s*(?:awg|ga|gauge)?", re.ASCII)
_SIGNAL = re.compile(
    r"speaker|control|bell|thermostat|\bcat|ethernet|network|hdmi|coax|\brg|fibre|fiber|usb|infrared|audio|patch|display"
    r"|low.?volt|alarm|trigger|\bir\b|\bcl[23]"
)
_SHEATHED = re.compile(r"\bnm\b|nm-?b|\buf\b")
_POWER_WORDS = re.compile(r"\bnm\b|nm-?b|\buf(?:-b)?\b|\bmc\b|\bac\b|thhn|twin|mains|line voltage")
_CORD = re.compile(r"\bcord\b|extension|\bflex\b|power lead|mains lead|kettle lead")


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

    @property
    def places(self) -> int:
        """Places to plug in that they offer together."""
        name = self.device.name
        if "receptacle" not in name and "socket" not in name and "outlet" not in name:
            return 0
        each = PLACES_SINGLE if "single" in name else PLACES_QUAD if "quad" in name else PLACES_DUPLEX
        return self.count * each


class Wires(msgspec.Struct, frozen=True):
    """What one text of conductors stands for."""

    cables: tuple[Cable, ...] = ()
    grounds: tuple[int, ...] = ()
    """Sizes of grounding conductors that come without a cable."""


def read_size(text: str, metric: bool = False) -> Size:
    """The size of a conductor. A bare number is AWG, or mm² in a metric job or with a decimal. Raises BadValue."""
    plain = text.strip().lower().replace(",", ".")
    if found := _MM2.fullmatch(plain):
        return Size(mm2=float(found[1]))
    if re.fullmatch(r"\d{1,3}\.\d{1,2}", plain, re.ASCII) or (metric and plain.isascii() and plain.isdigit()):
        return Size(mm2=float(plain))
    if found := _AWG.fullmatch(plain):
        return Size(awg=int(found[1]))
    raise BadValue(f"{text.strip()[:40]!r} is not a wire size: write it like 12, 12 AWG or 2.5 mm2")


def read_device(text: str) -> Gear:
    """A device of a box with the size of the largest wire on it. Raises BadValue with a sentence for the person."""
    count, plain = _counted(text)
    amps = _AMPS.search(plain)
    gangs = _GANGS.search(plain)
    bare = _GANGS.sub(" ", _AMPS.sub(" ", plain))
    sizes = _GAUGE.findall(bare)
    name = " ".join(_GAUGE.sub(" ", bare).replace("#", " ").split())
    if len(sizes) != 1 or not name:
        raise BadValue(f"{text.strip()[:40]!r} needs the size of the wire on it: write it like receptacle 12")
    return Gear(
        Device(name, _known(int(sizes[0]), text), int(gangs[1]) if gangs else 1),
        count,
        int(amps[1]) if amps else None,
        bool(_TAMPER.search(plain)),
    )


def read_wires(text: str) -> Wires:
    """A cable, loose conductors or grounds in a box. Raises BadValue with a sentence for the person."""
    count, plain = _counted(text)
    ground = bool(_GROUND.search(plain))
    how: How = "looped" if "loop" in plain else "through" if "through" in plain else "ends"
    if "pigtail" in plain or "stays" in plain:
        how = "stays"
    if pair := _PAIR.search(plain):
        gauge, conductors = _known(int(pair[1]), text), int(pair[2])
        grounded = ground or bool(_SHEATHED.search(plain))
        return Wires(cables=(Cable(gauge, conductors, grounded, how),) * count)
    sizes = _GAUGE.findall(plain)
    if len(sizes) != 1:
        raise BadValue(f"{text.strip()[:40]!r} is not a cable: write it like 12-2 G, 14-3 G, 3 x 12 or ground 12")
    gauge = _known(int(sizes[0]), text)
    return Wires(grounds=(gauge,) * count) if ground else Wires(cables=(Cable(gauge, 1, False, how),) * count)


def read_mains(type_text: str) -> tuple[Size, int] | None:
    """Size and number of insulated conductors of a mains cable of the plan, by its type; None for any other cable.

    `nm-12-2`, `12-2 nm`, `12/2`, `2.5 mm2 twin and earth`. Speaker, control and data cable is not mains.
    """
    plain = type_text.strip().lower()
    if _SIGNAL.search(plain) or is_cord(plain):
        return None
    if found := _MM2.search(plain):
        return Size(mm2=float(found[1])), 3 if "three" in plain or "3 core" in plain else 2
    pair = _PAIR.search(re.sub(r"nm-?b?|uf-?b?", " ", plain).replace(" -", " "))
    if pair and int(pair[1]) in us.AMPACITY_60C_A:
        return Size(awg=int(pair[1])), int(pair[2])
    return None


def is_cord(type_text: str) -> bool:
    """True for a flexible cord: an extension, a device's own lead; never for a patch cord of a network."""
    plain = type_text.strip().lower()
    return bool(_CORD.search(plain)) and "patch" not in plain


def is_mains_word(type_text: str) -> bool:
    """True when the type says mains although its size cannot be read."""
    plain = type_text.strip().lower()
    return bool(_POWER_WORDS.search(plain)) and not _SIGNAL.search(plain)


def standard_box(text: str) -> us.StandardBox | None:
    """The metal box of Table 314.16(A) that a text such as `4 x 1-1/2 square` names; None when it names none."""
    wanted = _box_key(text)
    if not wanted:
        return None
    exact = [box for box in us.STANDARD_BOXES if _box_key(box.size) == wanted]
    near = exact or [box for box in us.STANDARD_BOXES if _box_key(box.size).startswith(wanted)]
    return near[0] if len(near) == 1 else None


def _box_key(text: str) -> str:
    plain = text.lower().replace("×", "x")
    return re.sub(r"[\s\"”″]|\bin\b|\bbox\b", "", plain)


def _counted(text: str) -> tuple[int, str]:
    plain = " ".join(text.lower().split())
    found = _COUNT.match(plain)
    count = int(found[1]) if found else 1
    if not 0 < count <= MOST_OF_ONE:
        raise BadValue(f"{text.strip()[:40]!r}: a box holds 1 to {MOST_OF_ONE} of one thing")
    return count, plain[found.end() :] if found else plain


def _known(gauge: int, text: str) -> int:
    if gauge not in us.CONDUCTOR_IN3:
        sizes = ", ".join(map(str, us.CONDUCTOR_IN3))
        raise BadValue(f"{text.strip()[:40]!r}: {gauge} AWG has no box allowance; the sizes are {sizes}")
    return gauge
