"""The closed lists behind the free fields of a form: what F2 offers, and how what was typed is understood.

What is on no list is kept as it was typed; the findings ask about it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from store.measure.errors import BadValue
from store.rules.cable.raceway_later import later_cable
from store.rules.power.box_text import read_size
from store.trade.cable.cords import cord_named
from store.trade.cable.jackets import SUBSTITUTES, markings
from store.trade.cable.kinds import KINDS
from store.trade.cable.names import kind_key
from store.trade.power.devices import DEVICES, device_named
from store.trade.power.tables_metric import OHM_PER_KM_20C
from store.trade.power.tables_us import AMPACITY_60C_A
from store.trade.signal.ports import PORTS, port_key

Choice = tuple[str, str]
"""What is put into the field, and the line that offers it."""
NOT_KNOWN = "Not on the list. F2 = choose"
_WAYS = ("in", "out")
_MM2 = re.compile(r"flat|nym|h07v|speaker-\dx")
"""Keys of cable sold by mm²."""


def _cables(metric: bool) -> list[Choice]:
    """The kinds of cable; in a metric job those of the other system last."""
    shown = [(key, f"{key}  {kind.name}") for key, kind in KINDS.items()]

    def other_system(key: str) -> bool:
        return KINDS[key].family in ("line voltage", "speaker") and bool(_MM2.match(key)) != metric

    return sorted(shown, key=lambda each: other_system(each[0]))


_MADE_FOR = (
    ("CL2", "speaker, HDMI and control"), ("CL3", "speaker, HDMI and control, to 300 V"),
    ("CM", "network, and all that CL2 does"),
    ("CATV", "coax"), ("OFN", "fiber"), ("OFC", "fiber with metal in it"), ("PLTC", "class 2 in trays"),
    ("NM", "line voltage in a house"), ("UF", "line voltage, underground"), ("MC", "line voltage, metal-clad"),
    ("AC", "line voltage, armored"), ("T", "single conductors in a raceway"), ("X", "single conductors in a raceway"),
)  # fmt: skip
"""What a jacket rating is for, by how it begins."""
_RANKS = {"P": "plenum", "R": "riser", "X": "limited use"}


def _jackets(metric: bool) -> list[Choice]:
    """The jacket ratings, those of a plain wall first."""
    shown = []
    for mark in SUBSTITUTES:
        begins, made_for = next(each for each in _MADE_FOR if mark.startswith(each[0]))
        rank = _RANKS.get(mark.removeprefix(begins), "")
        shown.append((mark, f"{mark}  {made_for}{f', {rank}' if rank else ''}", bool(rank)))
    return [(mark, label) for mark, label, _ in sorted(shown, key=lambda each: each[2])]


def _conductors(metric: bool) -> list[Choice]:
    american = [(f"{gauge} AWG copper", f"{gauge} AWG copper") for gauge in AMPACITY_60C_A]
    squares = [(f"{size:g} mm2", f"{size:g} mm² copper") for size in OHM_PER_KM_20C]
    return [*squares, *american] if metric else [*american, *squares]


def _devices(metric: bool) -> list[Choice]:
    return [(name, name) for name in DEVICES]


def _ports(metric: bool) -> list[Choice]:
    return [(f"{key} {way}", f"{key} {way}  {name}") for key, (name, _) in PORTS.items() for way in _WAYS]


OFFERED: dict[str, Callable[[bool], list[Choice]]] = {
    "cable": _cables, "cables": _cables, "jacket": _jackets, "conductor": _conductors, "device": _devices,
    "port": _ports,
}  # fmt: skip
"""Each list by the name that a field has for it."""


def offered(picks: str, metric: bool) -> Sequence[Choice]:
    """What a list offers; empty for no list."""
    return OFFERED[picks](metric) if picks else ()


def read_back(picks: str, text: str, metric: bool) -> str:
    """How a typed text is understood, for the hint under the form; empty while nothing is typed."""
    if not text.strip():
        return ""
    return _UNDERSTOOD[picks](text, metric) or NOT_KNOWN


def _cable(text: str, metric: bool) -> str:
    if cord := cord_named(text):
        return f"= flexible cord ({cord}): never in a wall"
    key = kind_key(text)
    return f"= {KINDS[key].name}" if key else ""


def _jacket(text: str, metric: bool) -> str:
    if cord := cord_named(text):
        return f"= flexible cord ({cord}): never in a wall"
    return " ".join(("=", *markings(text))) if markings(text) else ""


def _conductor(text: str, metric: bool) -> str:
    try:
        return f"= {read_size(text, metric).text} copper"
    except BadValue as error:
        return f"! {error}"


def _each(text: str, read: Callable[[str], str]) -> str:
    """How each of several is understood; empty when one is not."""
    found = [read(part) for part in text.split(",") if part.strip()]
    return f"= {', '.join(found)}" if all(found) else ""


def _so_many(text: str) -> str:
    count, kind = later_cable(text)
    return f"{count} x {kind.key}" if kind is not None else ""


_UNDERSTOOD: dict[str, Callable[[str, bool], str]] = {
    "cable": _cable,
    "cables": lambda text, metric: _each(text, _so_many),
    "jacket": _jacket,
    "conductor": _conductor,
    "device": lambda text, metric: _each(text, device_named),
    "port": lambda text, metric: _each(text, lambda part: PORTS[port_key(part)][0] if port_key(part) else ""),
}
