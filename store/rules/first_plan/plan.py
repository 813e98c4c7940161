"""The records of a first plan: wall, front, openings, equipment, boxes, circuits, cables, raceway, panel."""

from __future__ import annotations

from typing import Any

import msgspec
from msgspec.structs import replace

from store.measure.length import INCH_NM, Length
from store.measure.terms import regional
from store.records.access import Panel
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.inside import ShelfBoard
from store.records.job import Settings
from store.records.wall import BuildOut, Opening, Reading, Wall
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.first_plan.layout import MM_NM, Asked, Layout, Place, Short, lay_out, off_studs

TAG_OF = {
    "screen": "N1", "fireplace": "N2", "left": "N3", "right": "N4", "left low": "N5", "left high": "N6",
    "right low": "N7", "right high": "N8",
}  # fmt: skip
"""The tag of each role; the shipped starters have the same."""
NAMES = {
    "screen": "TV recess", "fireplace": "Fireplace", "left low": "Left shelf, low", "left high": "Left shelf, high",
    "right low": "Right shelf, low", "right high": "Right shelf, high",
}  # fmt: skip


class Plan(msgspec.Struct, frozen=True):
    """A first plan."""

    records: tuple[Record, ...]
    short: tuple[Short, ...]
    """What does not fit; a plan that has any of these is not laid out whole."""

    @property
    def tags(self) -> tuple[str, ...]:
        """Everything that is proposed and has a tag."""
        return tuple(each.tag for each in self.records if each.tag != "job")


def first_plan(asked: Asked) -> Plan:
    """A whole proposal for the wall. Raises ValueError for sizes of 0 or less."""
    layout = lay_out(asked)
    maker = _Maker(asked, layout)
    made = [_in_words(each, asked.metric) for each in maker.make()]
    job = Settings(
        tag="job", name=asked.name, room=asked.room, seat=Length(asked.seat_nm), eye=Length(asked.eye_nm),
        proposed=tuple(Ref(each.tag) for each in made),
        **(_METRIC if asked.metric else {}),
    )  # fmt: skip
    return Plan((job, *made), layout.short)


_METRIC: dict[str, Any] = {
    "units": "millimetres", "region": "metric", "currency": "EUR", "finish": Length(12_500_000),
    "tolerance": Length(3 * MM_NM),
}  # fmt: skip


def _in_words(record: Record, metric: bool) -> Record:
    """A proposed record with its name and notes in the words of the region: once in a job, they stay as written."""
    texts = {key: getattr(record, key, "") for key in ("name", "notes")}
    turned = {key: regional(text, metric) for key, text in texts.items() if regional(text, metric) != text}
    return replace(record, **turned) if turned else record


class _Maker:
    """Makes the records of one plan."""

    def __init__(self, asked: Asked, layout: Layout) -> None:
        self.asked, self.places, self.spacing = asked, layout.places, layout.spacing_nm
        self.stud = 38 * MM_NM if asked.metric else 3 * INCH_NM // 2
        # What has shelves and doors for the equipment: the left cabinet, else the right one.
        self.gear = next((side for side in ("left", "right") if side in self.places), "")
        self.sounds = asked.speakers > 0 and bool(self.gear)

    def size(self, inches: float, mm: int) -> int:
        """A length of the region, nanometres."""
        return mm * MM_NM if self.asked.metric else round(inches * INCH_NM)

    def make(self) -> list[Record]:
        """Everything."""
        return [
            *self._wall(),
            *self._openings(),
            *self._shelves(),
            *self._equipment(),
            *self._boxes(),
            *self._circuits(),
            *self._cables(),
            *self._ways(),
        ]

    def _wall(self) -> list[Record]:
        asked = self.asked
        studs: dict[str, Any] = {
            "stud_width": Length(self.stud), "stud_depth": Length(self.size(3.5, 89)),
            "spacing": Length(self.spacing), "first_stud": Length(self.spacing),
        }  # fmt: skip
        rough = "rough, from the first plan"
        found: list[Record] = [
            Wall(tag="W1", name="Media wall", scribe=Length(self.size(0.5, 12)), **studs),
            Reading(tag="D1", wall=Ref("W1"), what="width", where=rough, value=Length(asked.width_nm)),
            Reading(tag="D2", wall=Ref("W1"), what="height", where=rough, value=Length(asked.height_nm)),
            BuildOut(
                tag="U1", name="Built-out front", wall=Ref("W1"), x=Length(0), width=Length(asked.width_nm),
                depth=Length(asked.depth_nm), **studs,
            ),
        ]  # fmt: skip
        return found

    def _openings(self) -> list[Record]:
        board = {"material": "plywood", "thickness": Length(self.size(0.75, 18))}
        found: list[Record] = []
        for role, place in self.places.items():
            more: dict[str, Any] = {}
            use = role
            if role in ("left", "right"):
                use = "equipment" if role == self.gear else "drawer"
                door = {"door": "mesh", "hinge": role} if use == "equipment" else {"door": "solid", "hinge": "drawer"}
                more = {**board, **door}
            elif role not in ("screen", "fireplace"):
                use, more = "shelf", {**board, "strip": Length(self.size(2.25, 57))}
            name = NAMES.get(role) or ("Equipment cabinet" if use == "equipment" else "Drawers")
            found.append(Opening(tag=TAG_OF[role], name=name, use=use, wall="W1", **{**_edges(place), **more}))  # type: ignore[arg-type]
        return found

    def _shelves(self) -> list[Record]:
        """A shelf in the equipment cabinet: the receiver under it, what is small on it, a gap for cords behind."""
        if not self.gear:
            return []
        up, gap = Length(self.size(16, 400)), Length(self.size(2, 50))
        return [ShelfBoard(tag="G1", name="Small gear", opening=Ref(TAG_OF[self.gear]), up=up, gap=gap)]

    def _equipment(self) -> list[Record]:
        plug = {"power": "cord", "plug": "B4" if self.gear else "B1", "opening": TAG_OF.get(self.gear, "N1")}
        low, high = ({"stands_on": TAG_OF[self.gear]}, {"stands_on": "G1"}) if self.gear else ({}, {})
        diagonal = Length(round(self.asked.diagonal_in * INCH_NM))
        found: list[dict[str, Any]] = [
            {"tag": "E1", "name": "TV", "what": "screen", "opening": "N1", "power": "cord", "plug": "B1",
             "diagonal": diagonal, "ports": ("hdmi in", "hdmi arc in", "ethernet"), "wireless": not self.gear},
            {"tag": "E2", "name": "TV bracket", "what": "mount", "power": "none"},
        ]  # fmt: skip
        if self.asked.fireplace_nm is not None:
            found.append({
                "tag": "E3", "name": "Fireplace, made to be recessed", "what": "fireplace", "heats": True,
                "opening": "N2", "plug": "B3",
                "notes": "Choose one made to be recessed; no other kind goes into a wall.",
            })  # fmt: skip
        if self.sounds:
            ports = ("3x hdmi in", "hdmi arc out", "ethernet", f"{self.asked.speakers}x speaker out")
            found.append({"tag": "E4", "name": "Receiver", "what": "receiver", **plug, **low, "ports": ports})
            speakers = {"what": "speaker", "count": self.asked.speakers, "power": "none"}
            found.append({"tag": "E8", "name": "Speakers", **speakers})
        found.append({"tag": "E6", "name": "Streamer", "what": "streamer", **plug, **high, "ports": ("hdmi out",)})
        if self.gear:
            found.append({"tag": "E7", "name": "Router", "what": "router", **plug, **high, "ports": ("8x ethernet",)})
        return [Equipment(**each) for each in found]

    def _box(self, tag: str, name: str, what: str, place: Place, across: int, up: int, **more: Any) -> Box:
        half = self.size(2.25, 60) if more.get("gangs", 1) > 1 else self.size(1.5, 40)
        x = off_studs(across, half, self.spacing, place.x + half, place.right - half, self.stud)
        return Box(tag=tag, name=name, what=what, wall="W1", x=Length(x), y=Length(up), **more)  # type: ignore[arg-type]

    def _boxes(self) -> list[Record]:
        us = not self.asked.metric
        tv = self.places["screen"]
        apart, up = self.size(7, 180), tv.y + tv.height // 2
        volume = {"volume": 22.5} if us else {}
        devices = {"devices": ("receptacle TR 12",)} if us else {}
        found: list[Record] = [
            self._box("B1", "Behind the TV, power", "receptacle", tv, tv.middle - apart, up, circuit="C1",
                      receptacles=2, reached="N1", **devices, **volume),
            self._box("B2", "Behind the TV, signal", "low-voltage", tv, tv.middle + apart, up, gangs=2, reached="N1"),
        ]  # fmt: skip
        if (fire := self.places.get("fireplace")) is not None:
            found.append(
                self._box("B3", "Fireplace", "junction", fire, fire.x + self.size(4, 100), fire.y + self.size(10, 250),
                          circuit="C2", reached="N2", **volume)
            )  # fmt: skip
        if self.gear:
            found += self._gear_boxes(us)
        return found

    def _gear_boxes(self, us: bool) -> list[Record]:
        cabinet, at = self.places[self.gear], TAG_OF[self.gear]
        # Power at the side away from the TV's cables, signal beside them.
        inner = cabinet.right - self.size(6, 150) if self.gear == "left" else cabinet.x + self.size(6, 150)
        outer = cabinet.x + self.size(6, 150) if self.gear == "left" else cabinet.right - self.size(6, 150)
        more: dict[str, Any] = {"volume": 34.0, "devices": ("2 x receptacle TR 12",)} if us else {}
        found: list[Record] = [
            self._box("B4", "Equipment cabinet, power", "receptacle", cabinet, inner, self.size(14, 350),
                      circuit="C1", gangs=2, receptacles=4, reached=at, **more),
            self._box("B5", "Equipment cabinet, signal", "low-voltage", cabinet, outer, self.size(28, 700), gangs=2,
                      reached=at),
        ]  # fmt: skip
        for tag, side in (("B7", "left"), ("B8", "right")) if self.sounds else ():
            shelf = self.places.get(f"{side} low")
            if shelf is not None:
                found.append(
                    self._box(tag, f"Speaker, {side}", "low-voltage", shelf, shelf.middle, shelf.y + self.size(6, 150),
                              reached=TAG_OF[f"{side} low"])
                )  # fmt: skip
        return found

    def _circuits(self) -> list[Record]:
        kind: dict[str, Any] = (
            {"breaker": 16.0, "volts": 230.0, "conductor": "2.5 mm2", "gfci": True}
            if self.asked.metric
            else {"breaker": 20.0, "volts": 120.0, "conductor": "12", "afci": True}
        )
        found: list[Record] = [Circuit(tag="C1", name="Media equipment", **kind)]
        if "fireplace" in self.places:
            notes = "The fireplace's instructions name its breaker and wire; they win."
            found.append(Circuit(tag="C2", name="Fireplace, alone", only_for="E3", notes=notes, **kind))  # type: ignore[arg-type]
        return found

    def _cables(self) -> list[Record]:
        mains = {"type": "2.5 mm2 twin and earth"} if self.asked.metric else {"type": "nm-12-2", "rating": "NM-B"}
        found: list[dict[str, Any]] = []
        first = "B4" if self.gear else "B1"
        found.append({"name": "home run of the media circuit", **mains, "end": first})
        if self.gear:
            tv = self.places["screen"]
            # At 230 V a run keeps in line with what it feeds (BS 7671 522.6.202, from memory).
            level = tv.y + tv.height // 2 if self.asked.metric else tv.y - self.size(4, 100)
            found.append({"name": "power to the TV", **mains, "start": "B4", "end": "B1", "level": Length(level)})
        if "fireplace" in self.places:
            found.append({"name": "home run of the fireplace circuit", **mains, "end": "B3"})
        found += self._signal()
        return [Cable(tag=f"K{number}", **each) for number, each in enumerate(found, 1)]

    def _signal(self) -> list[dict[str, Any]]:
        beside = {"type": "hdmi", "in_wall": False, "route": "cabinet", "start": "E6"}
        if not self.gear:
            return [{"name": "streamer to the TV", **beside, "end": "E1"}]
        network = {"type": "cat6", "rating": "CMR"}
        way = {"start": "B5", "end": "B2", "route": "raceway", "raceway": "R1"}
        found: list[dict[str, Any]] = [
            {"name": "picture to the TV", "type": "hdmi", "rating": "CL2", **way},
            {"name": "network to the TV", **network, **way},
            {"name": "network to the TV, spare", **network, **way, "spare": True},
        ]
        if self.sounds:
            found.append({"name": "streamer to the receiver", **beside, "end": "E4"})
        kind = "speaker-2x2.5" if self.asked.metric else "speaker-14-2"
        for tag, side in (("B7", "left"), ("B8", "right")) if self.sounds else ():
            if f"{side} low" in self.places:
                found.append({
                    "name": f"speaker, {side}", "type": kind, "rating": "CL3", "start": "B5", "end": tag,
                    "route": "up and over",
                })  # fmt: skip
        return found

    def _ways(self) -> list[Record]:
        if not self.gear:
            return []
        cabinet = self.places[self.gear]
        side, tube = self.size(12, 300), "" if self.asked.metric else "1-1/2"
        x = cabinet.x + self.size(2, 50) if self.gear == "left" else cabinet.right - self.size(2, 50) - side
        return [
            Raceway(
                tag="R1", name="Cabinet to TV", start=Ref("B5"), end=Ref("B2"), string=True, size=tube,
                inside=None if tube else Length(40 * MM_NM, metric=True),
            ),
            Panel(
                tag="A1", name="Back of the equipment cabinet", wall=Ref("W1"),
                x=Length(x), y=Length(self.size(20, 500)),
                width=Length(side), height=Length(side), opens="lift-out", behind=(Ref("B5"), Ref("R1")),
            ),
        ]  # fmt: skip


def _edges(place: Place) -> dict[str, Length]:
    return {
        "x": Length(place.x), "y": Length(place.y), "width": Length(place.width), "height": Length(place.height),
        "depth": Length(place.depth),
    }  # fmt: skip
