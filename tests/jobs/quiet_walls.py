"""Ten ordinary walls, well made and entered in full: what a good superintendent would walk past without a word.

`WALLS` is by name. Each is made of the pieces below, so that a figure is corrected for all at once.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from store.measure.length import parse_length
from store.measure.mass import parse_mass
from store.records.access import Panel
from store.records.base import R, Record
from store.records.equipment import Equipment
from store.records.job import Settings
from store.records.wall import Opening, Reading, Wall
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Cable, Circuit, Raceway

TODAY = date(2026, 10, 14)
_LENGTHS = (
    "x", "y", "width", "height", "depth", "level", "measured", "length", "value", "first_stud", "thickness", "cord",
    "diagonal", "clear_left", "clear_right", "clear_top", "clear_bottom", "clear_front", "clear_back", "keep_above",
    "seat", "eye",
    "hole", "door_width", "door_height", "finish", "stud_depth", "spacing", "stud_width", "offset", "slack_start",
    "slack_end",
)  # fmt: skip


def made(cls: type[R], tag: str, **values: Any) -> R:
    """A record; texts that stand where a length or a mass is meant are read."""
    for key, each in values.items():
        if isinstance(each, str) and key in _LENGTHS:
            values[key] = parse_length(each)
        elif isinstance(each, str) and key == "weight":
            values[key] = parse_mass(each)
    return cls(tag=tag, **values)


def job_of(*groups: Record | tuple[Record, ...], **settings: Any) -> Job:
    """A job of these records, its settings answered."""
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    given: dict[str, Any] = {
        "name": "quiet wall", "owner": "Robin", "seat": "8' 6", "eye": "42", "permit": "needed", **settings,
    }  # fmt: skip
    tables["job"]["job"] = made(Settings, "job", **given)
    for each in groups:
        for record in each if isinstance(each, tuple) else (each,):
            tables[record.kind][record.tag] = record
    return Job(tables, today=TODAY)


def wall(width: str = "12'", height: str = "8'", **more: Any) -> tuple[Record, ...]:
    """A wall that carries nothing, read at three places."""
    given: dict[str, Any] = {"name": "Media wall", "first_stud": "16", "bearing": "no", "burns": "no", **more}
    found: list[Record] = [made(Wall, "W1", **given)]
    for number, (what, value) in enumerate((("width", width), ("height", height)) * 3, 1):
        where = ("low", "low", "middle", "middle", "top", "top")[number - 1]
        found.append(
            made(Reading, f"D{number}", wall="W1", what=what, value=value, where=where, date=TODAY, by="Robin")
        )
    return tuple(found)


def clear(**more: Any) -> dict[str, Any]:
    """Clearances of two inches, and where the figures are from."""
    sides = {f"clear_{side}": "2" for side in ("left", "right", "top", "back")}
    return {**sides, "clear_bottom": "0", "clear_front": "0", "source": "data sheet", "read_on": TODAY, **more}


def screen(**more: Any) -> Equipment:
    """A screen of 65 in on its bracket."""
    given: dict[str, Any] = {
        "name": "TV", "what": "screen", "width": "57", "height": "32 3/4", "depth": "2 1/4", "weight": "50 lb",
        "diagonal": "65", "lines": 2160, "watts": 180.0, "hours": 2.0, "mounting": "wall bracket", "holes": "400x400",
        "power": "cord", "cord": "5'", "plug": "B1", "state": "owned",
        "ports": ("2x hdmi in", "hdmi arc in", "ethernet"), **clear(clear_back="0"),
    }  # fmt: skip
    return made(Equipment, "E1", **{**given, **more})


def device(tag: str, name: str, what: str, **more: Any) -> Equipment:
    """Something for a shelf of the cabinet, plugged in there."""
    given: dict[str, Any] = {
        "width": "10", "height": "2 1/2", "depth": "9", "weight": "4 lb", "watts": 15.0, "hours": 2.0, "state": "owned",
        "mounting": "shelf", "power": "cord", "cord": "5'", "plug": "B3", "opening": "N2", **clear(),
    }  # fmt: skip
    return made(Equipment, tag, name=name, what=what, **{**given, **more})


def recess(**more: Any) -> Opening:
    """A recess for the screen in the framing."""
    given: dict[str, Any] = {"x": "41", "y": "40", "width": "62", "height": "38", "depth": "4"}
    return made(Opening, "N1", name="TV recess", use="screen", wall="W1", **{**given, **more})


def cabinet(**more: Any) -> Opening:
    """A cabinet for equipment, in front of the wall."""
    given: dict[str, Any] = {
        "x": "41", "y": "4", "width": "62", "height": "20", "depth": "18", "material": "plywood", "thickness": "3/4",
        "door": "mesh", "hinge": "left", "door_width": "29", "door_height": "18",
    }  # fmt: skip
    return made(Opening, "N2", name="Cabinet", use="equipment", wall="W1", **{**given, **more})


def circuit(tag: str = "C1", **more: Any) -> Circuit:
    """A circuit of 20 A in 12 AWG."""
    given: dict[str, Any] = {
        "name": "Media", "breaker": 20.0, "volts": 120.0, "conductor": "12", "length": "45'", "afci": True, "slot": "7",
    }  # fmt: skip
    return made(Circuit, tag, **{**given, **more})


def outlet(tag: str, x: str, y: str, **more: Any) -> Box:
    """A duplex, tamper-resistant, in a roomy box."""
    given: dict[str, Any] = {
        "what": "receptacle", "wall": "W1", "circuit": "C1", "receptacles": 2, "volume": 22.5,
        "devices": ("receptacle TR 12",),
    }  # fmt: skip
    return made(Box, tag, x=x, y=y, **{**given, **more})


def jack(tag: str, x: str, y: str, **more: Any) -> Box:
    """A low-voltage box of two gangs."""
    return made(Box, tag, what="low-voltage", wall="W1", x=x, y=y, gangs=2, **more)


def run(tag: str, kind: str, rating: str, start: str = "", end: str = "", **more: Any) -> Cable:
    """A cable in the wall."""
    return made(Cable, tag, type=kind, rating=rating, start=start, end=end, **more)


def cord(tag: str, kind: str, start: str, end: str, **more: Any) -> Cable:
    """A cord in the cabinet."""
    return made(Cable, tag, type=kind, start=start, end=end, in_wall=False, **more)


OLD = (("B98", "20"), ("B99", "124"))
"""Receptacles that were there before."""


def power() -> tuple[Record, ...]:
    """A circuit with the cabinet's receptacle first and the screen's behind it."""
    return (
        circuit(),
        circuit("C9", name="Room", breaker=15.0, conductor="14", load=300.0, slot="9"),
        *(outlet(tag, x, "14", new=False, circuit="C9", devices=("receptacle 14",)) for tag, x in OLD),
        outlet("B1", "60", "56", reached="N1"),
        outlet("B3", "54", "14", reached="N2"),
        run("K1", "nm-12-2", "NM-B", end="B3"),
        run("K2", "nm-12-2", "NM-B", "B3", "B1", route="points"),
    )


def signal() -> tuple[Record, ...]:
    """A raceway from the cabinet to the screen with the picture in it, and two network cables."""
    return (
        jack("B2", "84", "56", reached="N1"),
        jack("B4", "90", "14", reached="N2"),
        made(Raceway, "R1", type="ENT", size="1-1/2", start="B4", end="B2", length="5'", string=True, bends=90.0),
        run("K3", "hdmi", "CL3", "B4", "B2", route="raceway", raceway="R1", carries="18 Gbit/s"),
        run("K4", "cat6", "CMR", "B4", "B2", route="points"),
    )


def plain_tv() -> Job:
    """A screen on a bracket in a shallow recess, a streamer and a router in a cabinet under it."""
    return job_of(
        wall(), recess(), cabinet(), screen(opening="N1"), power(), signal(),
        device("E2", "Streamer", "streamer", ports=("hdmi out", "ethernet"), watts=8.0),
        device("E3", "Router", "router", ports=("4x ethernet",), watts=12.0, hours=24.0, wireless=True),
        cord("K5", "patch", "E3", "E2"),
    )  # fmt: skip


HOLE: dict[str, Any] = {"use": "speaker", "wall": "W1", "y": "40", "width": "9", "height": "14", "depth": "4"}


def receiver() -> Job:
    """A receiver with a player, three speakers in the wall and a subwoofer; sound comes back by ARC."""
    speakers = (
        made(Opening, "N3", name="Left speaker", x="18", **HOLE),
        made(Opening, "N4", name="Right speaker", x="113", **HOLE),
        device("E6", "Left", "speaker", opening="N3", power="none", plug="", width="8 1/2", height="13 1/2", depth="3",
               mounting="made to be recessed", watts=None, ports=("speaker in",), **NO_CLEARANCE),
        device("E7", "Right", "speaker", opening="N4", power="none", plug="", width="8 1/2", height="13 1/2", depth="3",
               mounting="made to be recessed", watts=None, ports=("speaker in",), **NO_CLEARANCE),
        run("K7", "speaker-14-2", "CL3", "B4", "N3", carries="8 ohm 100 W", route="points"),
        run("K8", "speaker-14-2", "CL3", "B4", "N4", carries="8 ohm 100 W", route="points"),
    )  # fmt: skip
    return job_of(
        wall(), recess(), cabinet(width="62", height="24"), screen(opening="N1"), power(), signal(), speakers,
        device("E2", "Receiver", "receiver", width="17", height="6", depth="13", watts=400.0, offset="3",
               ports=("3x hdmi in", "hdmi arc out", "ethernet", "3x speaker out", "sub out")),
        device("E4", "Disc player", "player", width="17", ports=("hdmi out",), offset="26", watts=20.0),
        cord("K5", "hdmi", "E4", "E2", carries="18 Gbit/s"),
    )  # fmt: skip


NO_CLEARANCE: dict[str, Any] = {f"clear_{side}": "0" for side in ("left", "right", "top", "back")}


def fireplace() -> Job:
    """A recessed fireplace on a circuit of its own under the screen, hardwired, with its manual read."""
    heater = made(
        Equipment, "E5", name="Fireplace", what="fireplace", heats=True, heat_side="front", width="42", height="18",
        depth="5", weight="40 lb", watts=1500.0, hours=4.0, mounting="made to be recessed", power="hard-wired",
        plug="B5", opening="N5", state="owned", source="manual", read_on=TODAY, breaker=20.0, plate_volts=120.0,
        clear_left="0", clear_right="0", clear_top="0", clear_bottom="0", clear_back="0", clear_front="36",
        keep_above="12",
    )  # fmt: skip
    return job_of(
        wall(stud_depth="5 1/2"), recess(), screen(opening="N1"),
        made(Opening, "N5", name="Fireplace", use="fireplace", wall="W1", x="50 1/2", y="6", width="43", height="19",
             depth="6"), heater,
        power_for_fire(), circuit("C2", name="Fireplace", slot="11", only_for="E5"),
        made(Box, "B5", what="junction", wall="W1", x="53", y="15", circuit="C2", reached="N5", volume=21.0),
        run("K6", "nm-12-2", "NM-B", end="B5"),
    )  # fmt: skip


def power_for_fire() -> tuple[Record, ...]:
    """The screen's receptacle from the room's old one, over the fireplace."""
    return (
        circuit("C9", name="Room", load=300.0, slot="9"),
        *(outlet(tag, x, "14", new=False, circuit="C9", conductors=("12-2 G",)) for tag, x in OLD),
        outlet("B1", "60", "56", reached="N1", circuit="C9"),
        run("K2", "nm-12-2", "NM-B", "B98", "B1", route="up and over"),
    )


def metric() -> Job:
    """The plain screen wall in millimetres, at 230 V."""
    job: dict[str, Any] = {"region": "metric", "units": "millimetres", "currency": "EUR"}
    wires: dict[str, Any] = {"conductor": "2.5 mm2", "volts": 230.0, "gfci": True, "afci": False, "length": "14 m"}
    twin = "2.5 mm2 twin and earth"
    return job_of(
        wall("3600 mm", "2400 mm", spacing="400 mm", first_stud="400 mm"), recess(), cabinet(), screen(opening="N1"),
        circuit(breaker=20.0, **wires),
        outlet("B1", "60", "56", reached="N1", devices=("twin socket",)),
        outlet("B3", "54", "14", reached="N2", devices=("twin socket",)),
        run("K1", twin, "", end="B3"), run("K2", twin, "", "B3", "B1", route="points"), signal(),
        device("E2", "Streamer", "streamer", ports=("hdmi out", "ethernet"), watts=8.0),
        **job,
    )  # fmt: skip


def bearing() -> Job:
    """A screen on the face of a bearing wall: nothing is cut, cables go through holes of 3/4 in."""
    return job_of(
        wall(bearing="yes"), screen(x="72", y="56", plug="B1"),
        circuit(), outlet("B1", "66", "56"), jack("B2", "78", "56"), jack("B4", "78", "14"),
        run("K1", "nm-12-2", "NM-B", end="B1"),
        run("K3", "hdmi-optical", "CL3", "B4", "B2", carries="48 Gbit/s", directional=True),
        run("K4", "cat6", "CMR", "B4", "B2"), run("K5", "cat6", "CMR", "B4", "B2", spare=True),
        *(outlet(tag, x, "14", new=False, circuit="C9") for tag, x in OLD),
        circuit("C9", name="Room", breaker=15.0, conductor="14", load=300.0, slot="9"),
    )  # fmt: skip


def panel_wall() -> Job:
    """The receiver wall with an access panel in the back of the cabinet, behind its own gear."""
    job = plain_tv()
    panel = made(Panel, "A1", name="Cabinet back", wall="W1", x="80", y="8", width="12", height="12", opens="lift-out",
                 passes="two hands", behind=("B4", "R1"))  # fmt: skip
    return Job({**job.tables, "panel": {"A1": panel}}, today=TODAY)


def printed_jackets() -> Job:
    """The plain wall with what is printed on its jackets copied as it is."""
    job = plain_tv()
    cables = dict(job.tables["cable"])
    for tag, text in (
        ("K1", "TYPE NM-B 600V 12/2 W/G (UL)"),
        ("K4", "CMR c(UL)us CAT6 23AWG"),
        ("K3", "CL3 FT4 c(UL)us"),
    ):
        cables[tag] = made(Cable, tag, **{**{f: getattr(cables[tag], f) for f in KEPT}, "rating": text})
    return Job({**job.tables, "cable": cables}, today=TODAY)


KEPT = ("type", "start", "end", "route", "raceway", "carries")


def furred() -> Job:
    """The wall built out 6 in with studs of its own, so that recess and cabinet stand in new framing."""
    job = plain_tv()
    one = made(
        Wall, "W1", name="Built out", first_stud="16", bearing="no", burns="no", stud_depth="5 1/2", framing="new wood"
    )
    return Job({**job.tables, "wall": {"W1": one}}, today=TODAY)


def shelves() -> Job:
    """The plain wall with two open shelves beside the screen."""
    boards = tuple(
        made(Opening, tag, name="Shelf", use="shelf", wall="W1", x=x, y="44", width="30", height="14", depth="11",
             material="plywood", thickness="3/4", strip=parse_length("2 1/4"))
        for tag, x in (("N6", "6"), ("N7", "108"))
    )  # fmt: skip
    job = plain_tv()
    return Job({**job.tables, "opening": {**job.tables["opening"], **{each.tag: each for each in boards}}}, today=TODAY)


def soundbar() -> Job:
    """A screen with a soundbar under it in the recess, on eARC."""
    bar = device("E2", "Soundbar", "soundbar", width="40", height="2 1/2", depth="3", opening="N1", plug="B1",
                 watts=60.0, ports=("hdmi earc out", "hdmi in"), mounting="wall bracket", **NO_CLEARANCE)  # fmt: skip
    return job_of(
        wall(stud_depth="7 1/2"), recess(y="34", height="44", depth="8"),
        screen(opening="N1", ports=("2x hdmi in", "hdmi earc in", "ethernet"), wireless=True),
        bar, circuit(), outlet("B1", "60", "56", reached="N1", receptacles=2),
        run("K1", "nm-12-2", "NM-B", end="B1"), cord("K5", "hdmi", "E2", "E1", carries="18 Gbit/s"),
        *(outlet(tag, x, "14", new=False, circuit="C9") for tag, x in OLD),
        circuit("C9", name="Room", breaker=15.0, conductor="14", load=300.0, slot="9"),
    )  # fmt: skip


WALLS: dict[str, Callable[[], Job]] = {
    "plain TV": plain_tv, "receiver": receiver, "fireplace": fireplace, "metric": metric, "bearing": bearing,
    "panel": panel_wall, "printed jackets": printed_jackets, "built out": furred, "shelves": shelves,
    "soundbar": soundbar,
}  # fmt: skip
