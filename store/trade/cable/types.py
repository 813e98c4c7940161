"""The kinds of cable a media wall uses: size, bend, jacket, lengths sold, limit; each figure with its source.

Diameters and lengths sold are what is usual in the trade: a starting value to be replaced by the figure on the
data sheet of the cable that is bought.
"""

from __future__ import annotations

from fractions import Fraction

import msgspec

from store.measure.length import FOOT_NM, INCH_NM
from store.trade.cable.category import CORDS_LIMIT_NM, LINK_LIMIT_NM
from store.trade.cable.length import METRE_NM

PRACTICE = "common practice, no source"
DATA_SHEETS = "common practice: usual figures of cable data sheets, from memory; read the sheet of the cable bought"
SHOPS = "common practice: lengths usually sold, from memory"
TIA_BEND = "ANSI/TIA-568.0-D (2015), smallest inside bend radius of 4-pair cable"
NM_BEND = "NFPA 70 (NEC) 334.24"
FIBRE_BEND = "ANSI/TIA-568.0-D (2015), fiber cable not under pull (from memory)"
NO_LIMIT = "no limit but the loss; see the loss for the run"


class CableType(msgspec.Struct, frozen=True, kw_only=True):
    """One kind of cable. Lengths in nm; every figure has a `..._source` that can be shown beside it."""

    key: str
    name: str
    family: str
    """line voltage, category, coax, hdmi, speaker, line, fibre, usb, infrared, control"""
    outside_nm: int
    """Usual outside diameter; of a flat cable, the wide side."""
    outside_source: str = DATA_SHEETS
    bend_multiple: int
    """Smallest inside bend radius as a multiple of the outside diameter."""
    bend_source: str = PRACTICE
    needs: str
    """The least jacket marking for a run inside a wall of a house, as in `jackets.SUBSTITUTES`."""
    needs_source: str
    assembled: bool = False
    """Comes with its plugs on, in lengths sold; it cannot be cut."""
    directional: bool = False
    """Works one way round only: mark the source end and the display end."""
    sold_feet: tuple[int, ...] = ()
    """Lengths sold in feet, in nm, ascending."""
    sold_metric: tuple[int, ...] = ()
    """Lengths sold in metres, in nm, ascending."""
    sold_source: str = SHOPS
    limit_nm: int | None = None
    """Longest run, or None where the kind has no single limit."""
    limit_source: str = NO_LIMIT
    plug_mm: tuple[float, float] | None = None
    """Width and height of the bare plug in mm, or None where ends are made up on site."""
    plug_source: str = ""


def _inches(text: str) -> int:
    return int(Fraction(text) * INCH_NM)


def _feet(*lengths: str) -> tuple[int, ...]:
    return tuple(int(Fraction(one) * FOOT_NM) for one in lengths)


def _metres(*lengths: str) -> tuple[int, ...]:
    return tuple(int(Fraction(one) * METRE_NM) for one in lengths)


_NM_FEET = _feet("25", "50", "100", "250", "1000")
_CAT_FEET = _feet("500", "1000")
_CAT_METRIC = _metres("100", "305")
_COAX_FEET = _feet("100", "250", "500", "1000")
_COAX_METRIC = _metres("25", "50", "100")
_SPEAKER_FEET = _feet("50", "100", "250", "500")
_HDMI_FEET = _feet("3/2", "3", "6", "8", "10", "12", "15", "20", "25", "30", "35", "40", "50")
_HDMI_METRIC = _metres("1/2", "1", "3/2", "2", "3", "5", "15/2", "10", "15", "20")
_PATCH_FEET = _feet("1/2", "1", "2", "3", "5", "7", "10", "14", "20", "25", "50", "75", "100")
_PATCH_METRIC = _metres("1/2", "1", "3/2", "2", "3", "5", "15/2", "10", "15", "20", "30")
_AOC_FEET = _feet("15", "25", "30", "35", "50", "65", "100")
_AOC_METRIC = _metres("5", "10", "15", "20", "30")
_USB_FEET = _feet("1", "3", "6", "10", "15")
_USB_METRIC = _metres("1/2", "1", "2", "3", "5")
_LV_FEET = _feet("100", "250", "500")

_CL2 = "NFPA 70 (NEC) 725.135 and 725.154 (2017, 2020); 722 (2023): Class 2 wiring in a wall"
_CM = "NFPA 70 (NEC) 800.113 and 800.154 (2020): communications wiring in a wall"
_CATV = "NFPA 70 (NEC) 820.113 (2017), 800.113 (2020): coax in a wall"
_NM = "NFPA 70 (NEC) 334.10: nonmetallic-sheathed cable in a dwelling; installed as local law says, by whom it says"
_OFN = "NFPA 70 (NEC) 770.113 (from memory)"
_CATEGORY_LIMIT = "ANSI/TIA-568.1 and .2: permanent link 90 m (from memory)"
_HDMI_PLUG = "HDMI specification, type A plug shell"
_HDMI_NO_LIMIT = "no length limit in the HDMI specification; it is a test of the finished cable"
_RJ45_PLUG = "IEC 60603-7 (from memory)"


def _nm(gauge: int, wide: str) -> CableType:
    return CableType(
        key=f"nm-{gauge}-2",
        name=f"NM-B {gauge}/2 with ground",
        family="line voltage",
        outside_nm=_inches(wide),
        bend_multiple=5,
        bend_source=NM_BEND,
        needs="NM-B",
        needs_source=_NM,
        sold_feet=_NM_FEET,
        limit_source="voltage drop; see the circuit",
    )


def _category(grade: str, outside: str) -> CableType:
    return CableType(
        key=f"cat{grade.lower()}",
        name=f"Category {grade} UTP",
        family="category",
        outside_nm=_inches(outside),
        bend_multiple=4,
        bend_source=TIA_BEND,
        needs="CM",
        needs_source=_CM,
        sold_feet=_CAT_FEET,
        sold_metric=_CAT_METRIC,
        limit_nm=LINK_LIMIT_NM,
        limit_source=_CATEGORY_LIMIT,
        plug_mm=(11.7, 8.0),
        plug_source=_RJ45_PLUG,
    )


def _coax(key: str, name: str, outside: str) -> CableType:
    return CableType(
        key=key,
        name=name,
        family="coax",
        outside_nm=_inches(outside),
        bend_multiple=10,
        needs="CATV",
        needs_source=_CATV,
        sold_feet=_COAX_FEET,
        sold_metric=_COAX_METRIC,
    )


def _speaker(gauge: int, outside: str, conductors: int = 2) -> CableType:
    return CableType(
        key=f"speaker-{gauge}-{conductors}",
        name=f"Speaker cable, {'one pair' if conductors == 2 else 'two pairs'} {gauge} AWG",
        family="speaker",
        outside_nm=_inches(outside),
        bend_multiple=5,
        needs="CL2",
        needs_source=_CL2,
        sold_feet=_SPEAKER_FEET,
        sold_metric=_metres("50", "100"),
        limit_source="loop resistance at most 5 % of the impedance; see the run",
    )


def _hdmi(key: str, name: str, outside: str, *, active: bool = True, holds: str = "") -> CableType:
    return CableType(
        key=key,
        name=name,
        family="hdmi",
        outside_nm=_inches(outside),
        bend_multiple=10,
        needs="CL2",
        needs_source=_CL2 + holds,
        assembled=True,
        directional=active,
        sold_feet=_AOC_FEET if active else _HDMI_FEET,
        sold_metric=_AOC_METRIC if active else _HDMI_METRIC,
        limit_source="the data sheet" if active else _HDMI_NO_LIMIT,
        plug_mm=(13.9, 4.45),
        plug_source=_HDMI_PLUG,
    )


def _cord(
    key: str, name: str, family: str, outside: str, needs: str, needs_source: str, limit: str = "the data sheet"
) -> CableType:
    return CableType(
        key=key,
        name=name,
        family=family,
        outside_nm=_inches(outside),
        bend_multiple=10,
        needs=needs,
        needs_source=needs_source,
        assembled=True,
        sold_feet=_feet("3", "6", "10", "12", "15", "25", "35", "50"),
        sold_metric=_metres("1", "2", "3", "5", "10", "15"),
        limit_source=limit,
    )


def _class2(key: str, name: str, family: str, outside: str, sold: tuple[int, ...]) -> CableType:
    return CableType(
        key=key,
        name=name,
        family=family,
        outside_nm=_inches(outside),
        bend_multiple=5,
        needs="CL2",
        needs_source=_CL2,
        sold_feet=sold,
        limit_source="the data sheet",
    )


_ALL = (
    _nm(14, "0.37"),
    _nm(12, "0.42"),
    _nm(10, "0.50"),
    _category("5e", "0.20"),
    _category("6", "0.25"),
    _category("6A", "0.33"),
    CableType(
        key="patch",
        name="Category patch cord",
        family="category",
        outside_nm=_inches("0.25"),
        bend_multiple=4,
        bend_source=TIA_BEND,
        needs="CM",
        needs_source=_CM + "; most patch cords carry no in-wall marking",
        assembled=True,
        sold_feet=_PATCH_FEET,
        sold_metric=_PATCH_METRIC,
        limit_nm=CORDS_LIMIT_NM,
        limit_source="ANSI/TIA-568: cords of one channel, 10 m together (from memory)",
        plug_mm=(11.7, 8.0),
        plug_source=_RJ45_PLUG,
    ),
    _coax("rg59", "RG-59 coax", "0.242"),
    _coax("rg11", "RG-11 coax", "0.405"),
    _coax("rg6", "RG-6 coax", "0.272"),
    _coax("rg6-quad", "RG-6 coax, quad shield", "0.297"),
    _hdmi("hdmi", "HDMI, copper", "0.30", active=False),
    _hdmi(
        "hdmi-optical",
        "HDMI, active optical",
        "0.20",
        holds="; it has copper as well as fiber, so read the jacket (from memory)",
    ),
    _hdmi("hdmi-active", "HDMI, active copper", "0.30"),
    _speaker(22, "0.16"),
    _speaker(20, "0.19"),
    _speaker(18, "0.25"),
    _speaker(16, "0.30"),
    _speaker(14, "0.33"),
    _speaker(12, "0.40"),
    _speaker(10, "0.48"),
    _speaker(16, "0.37", 4),
    _speaker(14, "0.42", 4),
    _cord("line", "Line-level sound, shielded", "line", "0.24", "CL2", _CL2),
    _cord("toslink", "Optical sound cord (TOSLINK)", "fibre", "0.20", "OFN", _OFN, "5 m to 10 m, common practice"),
    CableType(
        key="fibre",
        name="Optical fiber, two strands",
        family="fibre",
        outside_nm=_inches("0.20"),
        bend_multiple=10,
        bend_source=FIBRE_BEND,
        needs="OFN",
        needs_source=_OFN,
        sold_metric=_metres("10", "15", "20", "30", "50", "100"),
        limit_source="the data sheet",
    ),
    CableType(
        key="usb",
        name="USB, passive",
        family="usb",
        outside_nm=_inches("0.20"),
        bend_multiple=5,
        needs="CL2",
        needs_source=_CL2 + " (from memory)",
        assembled=True,
        sold_feet=_USB_FEET,
        sold_metric=_USB_METRIC,
        limit_nm=5 * METRE_NM,
        limit_source="common practice: 5 m for USB 2.0 passive cable, from memory; faster links are shorter",
    ),
    _class2("infrared", "Infrared emitter or receiver lead", "infrared", "0.12", ()),
    _class2("control-18-2", "Control pair 18 AWG", "control", "0.20", _LV_FEET),
    _class2("control-22-4", "Control 22 AWG, four conductors", "control", "0.16", _LV_FEET),
)

CABLE_TYPES: dict[str, CableType] = {one.key: one for one in _ALL}
"""Every kind of cable by its key."""


def sold_lengths_nm(cable: CableType, *, metric: bool) -> tuple[int, ...]:
    """Return the lengths sold, ascending, in nm: the wanted system's, or the other's where it has none."""
    first, second = (cable.sold_metric, cable.sold_feet) if metric else (cable.sold_feet, cable.sold_metric)
    return first or second
