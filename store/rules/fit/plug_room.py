"""The room that a plug and the bend behind it take at the back of a device."""

from __future__ import annotations

from store.measure.length import INCH_NM
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.kinds import POWER, kind_of, plug_set_nm
from store.trade.cable.bends import room_for_turn_nm

CONNECTOR_NM = {
    "category": INCH_NM,
    "coax": INCH_NM,
    "infrared": INCH_NM,
    "control": INCH_NM,
    "hdmi": 3 * INCH_NM // 2,
    "speaker": 3 * INCH_NM // 2,
    "fibre": 3 * INCH_NM // 2,
    "usb": 3 * INCH_NM // 2,
}
"""How far a plug with its stiff part stands off the socket, by family, where the settings of the job say nothing:
common practice, no source. Measure yours."""


def turn_room_nm(job: Job, cable: Cable) -> int | None:
    """Depth in nm that the plug of a cable and a right-angle bend behind it take; 0 for mains wiring, which enters
    where the maker's drawing shows.

    Plug, then the inside radius (4 outside diameters for twisted pair: ANSI/TIA-568.0-D; 10 for coax: common
    practice), then the cable itself; its own diameter where that is noted, else a usual one. None when the kind of
    cable is not known. The maker's figures win.
    """
    kind = kind_of(cable)
    if kind is None:
        return None
    if kind.family == POWER:
        return 0
    own = plug_set_nm(job, cable)
    plug = CONNECTOR_NM[kind.family] if own is None else own
    return room_for_turn_nm(plug, kind.outside_nm, kind.bend_multiple)
