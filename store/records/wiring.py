"""Power and signal: boxes, circuits, cables and the raceways they run in."""

from typing import Annotated, ClassVar, Literal

from store.measure.length import Length
from store.measure.money import Money
from store.records.base import Record
from store.records.field import Day, F, Ref
from store.records.wall import FaceName


class Box(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A box in the wall, existing or new; its place is its centre."""

    kind: ClassVar[str] = "box"
    letter: ClassVar[str] = "B"
    one: ClassVar[str] = "box"
    many: ClassVar[str] = "boxes"
    about: ClassVar[str] = "every box in the wall, for power or signal, existing or new"

    name: Annotated[str, F("name", col=20, example=("Behind the TV",))] = ""
    what: Annotated[
        Literal["receptacle", "switch", "low-voltage", "junction", "pass-through", "quick-connect"],
        F("kind", "what it is for", col=13, must=True),
    ]
    new: Annotated[bool, F("new", "yes = you set it, no = existing", col=5)] = True
    wall: Annotated[Ref, F("wall", "the wall it is on, like W1", col=5, kinds=("wall",), alone=True, group="Place")] = (
        Ref("")
    )
    x: Annotated[Length | None, F("from left", "left end of the wall to its center", col=11, place=True)] = None
    y: Annotated[
        Length | None, F("off the floor", "finished floor to its center", col=11, was=("from floor",), place=True)
    ] = None
    face: Annotated[FaceName, F("face", "nearest = the build-out's front there, or the wall")] = "nearest"
    on: Annotated[Ref, F("build-out", "which one it is on, if there are several", kinds=("buildout",))] = Ref("")
    setback: Annotated[Length | None, F("set back", "front edge behind the finished wall", example=("1/8", "3"))] = None
    reached: Annotated[
        Ref,
        F("access through", "the access panel or opening, like A1", kinds=("panel", "opening"), was=("reached by",)),
    ] = Ref("")
    circuit: Annotated[
        Ref, F("circuit", "the circuit that feeds it, like C1", col=8, kinds=("circuit",), group="What is in it")
    ] = Ref("")
    gangs: Annotated[int, F("gangs", "how many devices wide", above_zero=True, example=("1",))] = 1
    receptacles: Annotated[int, F("receptacles", "plugs it takes; a duplex counts 2", was=("places",))] = 0
    switched: Annotated[Literal["none", "half", "all"], F("switched", "which receptacles a wall switch turns off")] = (
        "none"
    )
    volume: Annotated[
        float | None, F("volume", "stamped inside the box", unit="in³", region="us", example=("22.5",))
    ] = None
    size: Annotated[
        str, F("standard size", "of a metal box, like 4 x 1-1/2 square; for a box with no volume stamped", region="us")
    ] = ""
    ring: Annotated[
        float, F("ring volume", "stamped on its mud ring or extender", unit="in³", region="us", example=("3.5",))
    ] = 0.0
    fittings: Annotated[
        tuple[str, ...], F("fittings", "stud or hickey in it, each type once", region="us", example=("stud",))
    ] = ()
    plate: Annotated[bool, F("blank plate", "yes = a blank cover shows on the finished wall")] = False
    metal: Annotated[bool, F("metal box", "yes = metal, no = plastic")] = False
    clamps: Annotated[bool, F("clamps inside", "yes = clamps in the box hold the cables")] = False
    devices: Annotated[
        tuple[str, ...],
        F(
            "devices",
            "each with its wire size, like receptacle 12, 2 x switch 14; on another circuit: receptacle 12 C2",
            picks="device",
        ),
    ] = ()
    conductors: Annotated[
        tuple[str, ...], F("cables in it", "like 12-2 G (with a ground), 3 x 12, K4; blank = those in the plan")
    ] = ()
    divider: Annotated[bool, F("divider", "between line voltage and low voltage")] = False
    bought: Annotated[bool, F("bought", "yes = you have it")] = False
    parts: Annotated[
        tuple[str, ...], F("parts on hand", "already bought for it: plate", was=("parts at hand",), example=("plate",))
    ] = ()


class Circuit(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A branch circuit from the electrical panel."""

    kind: ClassVar[str] = "circuit"
    letter: ClassVar[str] = "C"
    one: ClassVar[str] = "circuit"
    many: ClassVar[str] = "circuits"
    about: ClassVar[str] = "branch circuits, each with its breaker and wire size"

    name: Annotated[str, F("name", col=22, must=True, example=("TV wall",))]
    breaker: Annotated[float | None, F("breaker", "like 20", unit="A", col=9, above_zero=True)] = None
    slot: Annotated[
        str, F("breaker no.", "as on the electrical panel's directory", col=8, was=("breaker number",), example=("7",))
    ] = ""
    volts: Annotated[float | None, F("volts", "like 120 or 240", unit="V", col=7, above_zero=True)] = None
    conductor: Annotated[str, F("wire size", "copper, AWG, like 12", col=10, picks="conductor", was=("conductor",))] = (
        ""
    )
    strands: Annotated[Literal["solid", "stranded"], F("strands", "stranded = flexible, class 5", region="metric")] = (
        "solid"
    )
    length: Annotated[
        Length | None, F("run to panel", "one way, along the cable", col=12, was=("length to the panel",), place=True)
    ] = None
    lies: Annotated[
        Literal["100", "101", "102", "103", "C", "A"],
        F("installed as", "reference method of the cable", was=("lies",), region="metric"),
    ] = "102"
    wiring: Annotated[Literal["radial", "ring"], F("wiring", "ring = back to where it starts", region="metric")] = (
        "radial"
    )
    load: Annotated[
        float,
        F(
            "existing load",
            "watts of what is not in this book",
            unit="W",
            was=("load already on it",),
            example=("600",),
        ),
    ] = 0.0
    lighting: Annotated[bool, F("lighting on it", "yes = lights are on it too")] = False
    only_for: Annotated[Ref, F("only for", "the one thing it feeds, like E3", kinds=("equipment",))] = Ref("")
    afci: Annotated[bool, F("AFCI", "yes = AFCI breaker or outlet")] = False
    gfci: Annotated[bool, F("GFCI", "yes = GFCI breaker or outlet")] = False


class Cable(Record, frozen=True, kw_only=True, omit_defaults=True):
    """One cable from one place to another; its tag goes on both ends."""

    kind: ClassVar[str] = "cable"
    letter: ClassVar[str] = "K"
    one: ClassVar[str] = "cable"
    many: ClassVar[str] = "cables"
    about: ClassVar[str] = "every wire in or on the wall, from one place to another; its tag goes on both ends"

    name: Annotated[str, F("name", "what it is for", col=20, example=("TV to receiver",))] = ""
    type: Annotated[str, F("type", "like cat6, rg6, hdmi, speaker-14-2, nm-12-2", col=14, must=True, picks="cable")]
    rating: Annotated[
        str, F("jacket rating", "printed on its jacket, like CL2, CMR, NM-B", picks="jacket", was=("rating",))
    ] = ""
    start: Annotated[
        Ref,
        F("from", "box, equipment or opening; measured to its center", col=7, kinds=("box", "equipment", "opening")),
    ] = Ref("")
    end: Annotated[
        Ref, F("to", "box, equipment or opening; measured to its center", col=7, kinds=("box", "equipment", "opening"))
    ] = Ref("")
    in_wall: Annotated[bool, F("in the wall", "no = it stays in the cabinet", col=5)] = True
    route: Annotated[
        Literal["through studs", "up and over", "down and under", "raceway", "cabinet", "points"],
        F("route", "studs: level; over: at the top; under: at the floor; cabinet, points: straight"),
    ] = "through studs"
    level: Annotated[
        Length | None,
        F(
            "height of run",
            "through the studs; blank = the height of its first end",
            was=("at height",),
            place=True,
            example=("4'-2\"", "1270"),
        ),
    ] = None
    raceway: Annotated[Ref, F("raceway", "the one it runs in, like R1", kinds=("raceway",))] = Ref("")
    points: Annotated[
        tuple[str, ...],
        F("points", "on the way: 4'/2'-6\" on its first wall, W2 1'/3', or a tag like B7"),
    ] = ()
    carries: Annotated[str, F("must carry", "like 48 Gbit/s, 1000 Mbit/s, 8 ohm 100 W, 1500 W")] = ""
    spare: Annotated[bool, F("spare cable", "pulled for later", was=("spare",))] = False
    directional: Annotated[bool, F("one-way", "has a source end and a TV end")] = False
    hole: Annotated[
        Length | None, F("bored hole", "diameter, where it goes through studs", above_zero=True, example=("3/4", "20"))
    ] = None
    notch: Annotated[Length | None, F("notch", "depth, where studs are notched for it", above_zero=True)] = None
    measured: Annotated[
        Length | None, F("measured length", "by hand, along the route; overrides the plan", place=True)
    ] = None
    slack_start: Annotated[
        Length | None,
        F(
            "slack at from end",
            "blank = default",
            was=("slack at from", "left over at from"),
            place=True,
            example=("12", "300"),
        ),
    ] = None
    slack_end: Annotated[
        Length | None,
        F(
            "slack at to end",
            "blank = default",
            was=("slack at to", "left over at to"),
            place=True,
            example=("12", "300"),
        ),
    ] = None
    outside: Annotated[
        Length | None, F("diameter", "outside, from its data sheet", above_zero=True, example=("1/4", "6"))
    ] = None
    sold: Annotated[tuple[str, ...], F("sold in", "at your shop, like 250 ft 49.90; on hand: 60 ft owned")] = ()
    state: Annotated[Literal["planned", "bought", "pulled", "connected"], F("state", "how far it is", col=10)] = (
        "planned"
    )
    price: Annotated[Money | None, F("price", "for the whole cable", example=("38",))] = None
    parts: Annotated[
        tuple[str, ...],
        F(
            "parts on hand",
            "already bought for it: plugs and jacks, nail plates, labels",
            was=("parts at hand",),
            example=("labels",),
        ),
    ] = ()
    reached: Annotated[
        Ref,
        F("access through", "the access panel or opening, like A1", kinds=("panel", "opening"), was=("reached by",)),
    ] = Ref("")
    retired: Annotated[Day | None, F("retired", "the day it went out of use")] = None
    replaced_by: Annotated[Ref, F("replaced by", "what took its place, like K9", kinds=("cable",))] = Ref("")


class Raceway(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A tube or pass-through that lets cables be changed later."""

    kind: ClassVar[str] = "raceway"
    letter: ClassVar[str] = "R"
    one: ClassVar[str] = "raceway"
    many: ClassVar[str] = "raceways"
    about: ClassVar[str] = "raceways that let you change cables later"

    name: Annotated[str, F("name", col=20, example=("TV to cabinet",))] = ""
    type: Annotated[Literal["ENT", "EMT", "grommet", "other"], F("type", "as printed on it", col=8)] = "ENT"
    size: Annotated[str, F("trade size", "like 1, 1-1/4, 1-1/2, 2", col=10, region="us")] = ""
    inside: Annotated[Length | None, F("inside diameter", "for one with no trade size", example=("1-1/2", "40"))] = None
    start: Annotated[
        Ref, F("from", "box, opening or access panel, like B5", col=7, kinds=("box", "opening", "panel"))
    ] = Ref("")
    end: Annotated[Ref, F("to", "box, opening or access panel, like B2", col=7, kinds=("box", "opening", "panel"))] = (
        Ref("")
    )
    length: Annotated[
        Length | None,
        F("length", "blank = square to the framing, end to end", col=11, place=True, example=("9'", "2700")),
    ] = None
    points: Annotated[
        tuple[str, ...],
        F("points", "on the way: 4'/2'-6\" on its first wall, W2 1'/3', or a tag like B7"),
    ] = ()
    route: Annotated[
        Literal["square", "up and over", "down and under"],
        F("route", "square, over the top or under the floor; points come first"),
    ] = "square"
    bends: Annotated[
        float | None, F("bends", "all bends added up, in degrees; blank = those of its route", unit="°")
    ] = None
    string: Annotated[bool, F("pull string", "yes = one is left in it", col=6)] = False
    later: Annotated[
        tuple[str, ...], F("for later", "cables to be drawn in later, like hdmi, 2x cat6", picks="cables")
    ] = ()
    bought: Annotated[bool, F("bought", "yes = you have it")] = False
    parts: Annotated[
        tuple[str, ...],
        F(
            "parts on hand",
            "already bought for it: pull string, nail plates, labels",
            was=("parts at hand",),
            example=("pull string",),
        ),
    ] = ()
