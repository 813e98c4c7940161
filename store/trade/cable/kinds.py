"""Every kind of cable that is known here, by its key: the usual ones, and those that are made like one of them.

Outside diameters are usual figures of data sheets, from memory: the sheet of the cable bought wins.
"""

from __future__ import annotations

import msgspec

from store.measure.length import INCH_NM, MM_NM
from store.trade.cable.length import METRE_NM
from store.trade.cable.types import CABLE_TYPES, CableType

UF = "NFPA 70 (NEC) 340.10, 2020 edition: underground feeder cable, indoors by the rules of NM cable (from memory)"
METAL = "NFPA 70 (NEC) 320.10 and 330.10, 2020 edition: armored and metal-clad cable (from memory)"
SINGLE = "NFPA 70 (NEC) 300.3(A) and 310.10, 2020 edition (from memory): single conductors only in a raceway"
_COILS = (25 * METRE_NM, 50 * METRE_NM, 100 * METRE_NM)

_NM = (
    # key, name, like, outside in hundredths of an inch, jacket, source of that
    *((f"nm-{gauge}-3", f"NM-B {gauge}/3 with ground", f"nm-{gauge}-2", wide, "NM-B", "")
      for gauge, wide in ((14, 40), (12, 46), (10, 56))),
    *((f"uf-{gauge}-{number}", f"UF-B {gauge}/{number} with ground", f"nm-{gauge}-2", wide, "UF-B", UF)
      for gauge, number, wide in ((14, 2, 41), (12, 2, 46), (10, 2, 55), (14, 3, 58), (12, 3, 65), (10, 3, 73))),
    *((f"{armor}-{gauge}-{number}", f"{armor.upper()} {gauge}/{number}", f"nm-{gauge}-2", wide, armor.upper(), METAL)
      for armor in ("mc", "ac")
      for gauge, number, wide in ((14, 2, 47), (12, 2, 51), (10, 2, 58), (14, 3, 50), (12, 3, 54), (10, 3, 62))),
    *((f"thhn-{gauge}", f"THHN/THWN single conductor {gauge} AWG", f"nm-{gauge}-2", wide, "THHN", SINGLE)
      for gauge, wide in ((14, 11), (12, 13), (10, 16))),
)  # fmt: skip
_METRIC = (
    # key, name, like, outside in tenths of a millimetre; under no jacket table that is held here
    *((f"flat-{size}", f"Flat twin and earth {size} mm²", like, wide)
      for size, like, wide in (("1", "nm-14-2", 78), ("1.5", "nm-14-2", 80), ("2.5", "nm-12-2", 100),
                               ("4", "nm-10-2", 120), ("6", "nm-10-2", 131))),
    *((f"flat3-{size}", f"Flat three-core and earth {size} mm²", "nm-14-2", wide)
      for size, wide in (("1", 100), ("1.5", 105))),
    *((f"nym-{cores}x{size}", f"NYM-J {cores} × {size} mm²", like, wide)
      for cores, size, like, wide in ((3, "1.5", "nm-14-2", 87), (3, "2.5", "nm-12-2", 102),
                                      (5, "1.5", "nm-14-2", 102), (5, "2.5", "nm-12-2", 121))),
    *((f"h07v-{size}", f"Single conductor H07V {size} mm²", like, wide)
      for size, like, wide in (("1.5", "nm-14-2", 30), ("2.5", "nm-12-2", 36), ("4", "nm-10-2", 42))),
)  # fmt: skip
_SPEAKER_MM2 = (
    # conductors, size in mm², like, outside in tenths of a millimetre (usual figures, from memory)
    (2, "0.75", "speaker-20-2", 50), (2, "1", "speaker-18-2", 56), (2, "1.5", "speaker-16-2", 65),
    (2, "2.5", "speaker-14-2", 78), (2, "4", "speaker-12-2", 96), (2, "6", "speaker-10-2", 112),
    (4, "1.5", "speaker-16-4", 80), (4, "2.5", "speaker-14-4", 95),
)  # fmt: skip
_SIGNAL = (
    # key, name, like, outside in hundredths of an inch
    ("cat7", "Category 7 S/FTP", "cat6a", 31), ("cat8", "Category 8", "cat6a", 33),
    ("speaker-18-4", "Speaker cable, two pairs 18 AWG", "speaker-16-4", 30),
    ("speaker-12-4", "Speaker cable, two pairs 12 AWG", "speaker-14-4", 49),
    ("displayport", "DisplayPort, copper", "usb", 29),
    *((f"control-{gauge}-{number}", f"Control {gauge} AWG, {number} conductors", "control-18-2", wide)
      for gauge, number, wide in ((16, 2, 25), (18, 3, 21), (18, 4, 23), (18, 5, 24), (18, 6, 26), (18, 7, 28),
                                  (18, 8, 30), (20, 2, 17), (20, 4, 20), (22, 2, 14), (22, 6, 19), (22, 8, 21))),
)  # fmt: skip


def _more() -> dict[str, CableType]:
    found = {}
    for key, name, like, wide, needs, source in _NM:
        given = {"key": key, "name": name, "outside_nm": wide * INCH_NM // 100, "needs": needs}
        found[key] = msgspec.structs.replace(CABLE_TYPES[like], **given, **({"needs_source": source} if source else {}))
    for key, name, like, tenths in _METRIC:
        given = {"key": key, "name": name, "outside_nm": tenths * MM_NM // 10, "needs": ""}
        found[key] = msgspec.structs.replace(CABLE_TYPES[like], **given, sold_feet=(), sold_metric=_COILS)
    for number, size, like, tenths in _SPEAKER_MM2:
        key = f"speaker-{number}x{size}"
        given = {"key": key, "name": f"Speaker cable {number} × {size} mm²", "outside_nm": tenths * MM_NM // 10}
        found[key] = msgspec.structs.replace(CABLE_TYPES[like], **given)
    for key, name, like, wide in _SIGNAL:
        given = {"key": key, "name": name, "outside_nm": wide * INCH_NM // 100}
        found[key] = msgspec.structs.replace(CABLE_TYPES[like], **given)
    found["displayport"] = msgspec.structs.replace(
        found["displayport"], family="displayport", limit_nm=None, limit_source="the data sheet", bend_multiple=10
    )
    return found


KINDS: dict[str, CableType] = {**CABLE_TYPES, **_more()}
"""Every kind that is known, by its key; one whose `needs` is empty is under no jacket table that is held here."""

IN_RACEWAY_ONLY = frozenset(key for key in KINDS if key.startswith(("thhn-", "h07v-")))
"""Single conductors: no cable, so not loose in a wall. SINGLE; for H07V: IEC 60364-5-52, table of wiring methods."""
