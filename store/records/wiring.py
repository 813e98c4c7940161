"""Power and signal: boxes, circuits, cables and the raceways they run in."""

from typing import Annotated, ClassVar, Literal

from store.measure.length import Length
from store.measure.money import Money
from store.records.base import Record
from store.records.field import Day, F, Ref


class Box(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A box in the wall, existing or new; its place is its centre."""

    kind: ClassVar[str] = "box"
    letter: ClassVar[str] = "B"
    one: ClassVar[str] = "box"
    many: ClassVar[str] = "boxes"
    about: ClassVar[str] = "a box in the wall for power or signal, existing or new"

    name: Annotated[str, F("name", col=20)] = ""
    what: Annotated[
        Literal["receptacle", "switch", "low-voltage", "junction", "pass-through", "quick-connect"],
        F("kind", col=13, must=True),
    ]
    new: Annotated[bool, F("new", "yes: to be set; no: there already", col=5)] = True
    wall: Annotated[Ref, F("wall", "tag of the wall", col=5, kinds=("wall",), group="Place")] = Ref("")
    x: Annotated[Length | None, F("from left", "left corner to its centre", col=11)] = None
    y: Annotated[Length | None, F("from floor", "finished floor to its centre", col=11)] = None
    setback: Annotated[Length | None, F("set back", "front edge behind the finished face")] = None
    reached: Annotated[Ref, F("reached by", "panel or opening that gives access", kinds=("panel", "opening"))] = Ref("")
    circuit: Annotated[Ref, F("circuit", col=8, kinds=("circuit",), group="What is in it")] = Ref("")
    gangs: Annotated[int, F("gangs", above_zero=True)] = 1
    receptacles: Annotated[int, F("places", "plugs it takes; a duplex receptacle takes 2")] = 0
    switched: Annotated[Literal["none", "half", "all"], F("switched")] = "none"
    volume: Annotated[float | None, F("volume", "stamped inside the box", unit="in³")] = None
    size: Annotated[str, F("standard size", "of a metal box, like 4 x 1-1/2 square, where no volume is given")] = ""
    ring: Annotated[float, F("ring volume", "marked on its plaster or extension ring", unit="in³")] = 0.0
    fittings: Annotated[tuple[str, ...], F("fittings", "stud or hickey in it, each type once")] = ()
    plate: Annotated[bool, F("blank plate", "its cover is seen on the finished wall")] = False
    metal: Annotated[bool, F("metal box")] = False
    clamps: Annotated[bool, F("clamps inside", "yes where the cables are held by clamps in the box")] = False
    devices: Annotated[
        tuple[str, ...], F("devices", "each with its wire gauge, like receptacle 12, 2 x switch 14", picks="device")
    ] = ()
    conductors: Annotated[
        tuple[str, ...], F("cables in it", "like 12-2 G (with a ground), 3 x 12, K4; empty counts those of the plan")
    ] = ()
    divider: Annotated[bool, F("divider", "between power and signal")] = False
    bought: Annotated[bool, F("bought", "it is in the house")] = False
    parts: Annotated[tuple[str, ...], F("parts at hand", "bought for it already: plate")] = ()


class Circuit(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A branch circuit from the electrical panel."""

    kind: ClassVar[str] = "circuit"
    letter: ClassVar[str] = "C"
    one: ClassVar[str] = "circuit"
    many: ClassVar[str] = "circuits"
    about: ClassVar[str] = "a branch circuit, with its breaker and its wire"

    name: Annotated[str, F("name", col=22, must=True)]
    breaker: Annotated[float | None, F("breaker", unit="A", col=9, above_zero=True)] = None
    slot: Annotated[str, F("breaker number", "as the panel's directory has it", col=8)] = ""
    volts: Annotated[float | None, F("volts", unit="V", col=7, above_zero=True)] = None
    conductor: Annotated[str, F("conductor", "copper, AWG gauge like 12, or 2.5 mm2", col=10, picks="conductor")] = ""
    strands: Annotated[Literal["solid", "stranded"], F("strands", "metric sizes: stranded is flexible, class 5")] = (
        "solid"
    )
    length: Annotated[Length | None, F("length to the panel", "one way, along the cable", col=12)] = None
    lies: Annotated[Literal["100", "101", "102", "103", "C", "A"], F("lies", "metric: reference method")] = "102"
    wiring: Annotated[Literal["radial", "ring"], F("wiring", "metric: does it come back to its start")] = "radial"
    load: Annotated[float, F("load already on it", "watts of what is not on these lists", unit="W")] = 0.0
    lighting: Annotated[bool, F("lighting on it")] = False
    only_for: Annotated[Ref, F("only for", "the one thing it serves", kinds=("equipment",))] = Ref("")
    afci: Annotated[bool, F("AFCI")] = False
    gfci: Annotated[bool, F("GFCI")] = False


class Cable(Record, frozen=True, kw_only=True, omit_defaults=True):
    """One cable from one place to another; its tag goes on both ends."""

    kind: ClassVar[str] = "cable"
    letter: ClassVar[str] = "K"
    one: ClassVar[str] = "cable"
    many: ClassVar[str] = "cables"
    about: ClassVar[str] = "one cable from a place to a place; its tag is written on both ends"

    name: Annotated[str, F("name", "what it is for", col=20)] = ""
    type: Annotated[str, F("type", "like cat6, rg6, hdmi, speaker-14-2, nm-12-2", col=14, must=True, picks="cable")]
    rating: Annotated[str, F("rating", "printed on its jacket, like CL2, CMR, NM-B", picks="jacket")] = ""
    start: Annotated[
        Ref,
        F("from", "box, equipment or opening; measured to its middle", col=7, kinds=("box", "equipment", "opening")),
    ] = Ref("")
    end: Annotated[
        Ref, F("to", "box, equipment or opening; measured to its middle", col=7, kinds=("box", "equipment", "opening"))
    ] = Ref("")
    in_wall: Annotated[bool, F("in the wall", "no: it stays in the cabinet", col=5)] = True
    route: Annotated[
        Literal["through studs", "up and over", "down and under", "raceway", "cabinet", "points"],
        F("route", "studs: level; over: at the wall's top; under: at the floor; cabinet, points: straight"),
    ] = "through studs"
    level: Annotated[Length | None, F("at height", "of the run through the studs; empty: that of its first end")] = None
    raceway: Annotated[Ref, F("raceway", "it runs along, with the way to its ends", kinds=("raceway",))] = Ref("")
    points: Annotated[
        tuple[str, ...],
        F("points", "places on the way: 4'/2' 6\" on its first wall, W2 1'/3', or a tag like B7"),
    ] = ()
    carries: Annotated[str, F("must carry", "like 48 Gbit/s, 1000 Mbit/s, 8 ohm 100 W, 1500 W")] = ""
    spare: Annotated[bool, F("spare", "pulled for later")] = False
    directional: Annotated[bool, F("one-way", "has a source end and a screen end")] = False
    hole: Annotated[Length | None, F("bored hole", "diameter, where it goes through studs", above_zero=True)] = None
    measured: Annotated[Length | None, F("measured length", "by hand, along the route; wins over the plan")] = None
    slack_start: Annotated[Length | None, F("left over at from", "empty takes what is usual")] = None
    slack_end: Annotated[Length | None, F("left over at to", "empty takes what is usual")] = None
    outside: Annotated[Length | None, F("diameter", "outside, from its data sheet", above_zero=True)] = None
    sold: Annotated[
        tuple[str, ...], F("sold in", "at your shop, like 250 ft 49.90; at hand: 60 ft owned, a second 60 ft owned 2")
    ] = ()
    state: Annotated[Literal["planned", "bought", "pulled", "connected"], F("state", col=10)] = "planned"
    price: Annotated[Money | None, F("price")] = None
    parts: Annotated[
        tuple[str, ...], F("parts at hand", "bought for it already: plugs and jacks, nail plates, labels")
    ] = ()
    reached: Annotated[Ref, F("reached by", "panel or opening that gives access", kinds=("panel", "opening"))] = Ref("")
    retired: Annotated[Day | None, F("retired", "the day it was given up")] = None
    replaced_by: Annotated[Ref, F("replaced by", kinds=("cable",))] = Ref("")


class Raceway(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A tube or pass-through that lets cables be changed later."""

    kind: ClassVar[str] = "raceway"
    letter: ClassVar[str] = "R"
    one: ClassVar[str] = "raceway"
    many: ClassVar[str] = "raceways"
    about: ClassVar[str] = "a tube in the wall that lets cables be changed later"

    name: Annotated[str, F("name", col=20)] = ""
    type: Annotated[Literal["ENT", "EMT", "grommet", "other"], F("type", col=8)] = "ENT"
    size: Annotated[str, F("trade size", "like 1, 1-1/4, 1-1/2, 2", col=10)] = ""
    inside: Annotated[Length | None, F("inside diameter", "when no trade size is given")] = None
    start: Annotated[Ref, F("from", col=7, kinds=("box", "opening", "panel"))] = Ref("")
    end: Annotated[Ref, F("to", col=7, kinds=("box", "opening", "panel"))] = Ref("")
    length: Annotated[Length | None, F("length", "empty: square to the framing, end to end", col=11)] = None
    bends: Annotated[float | None, F("bends", "all turns added up", unit="°")] = None
    string: Annotated[bool, F("pull string", "left in it", col=6)] = False
    bought: Annotated[bool, F("bought", "it is in the house")] = False
    parts: Annotated[tuple[str, ...], F("parts at hand", "at hand for it: pull string, nail plates, labels")] = ()
