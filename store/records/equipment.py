"""What goes into the wall: the manufacturer's figures, where it stands, and how its buying goes."""

from typing import Annotated, ClassVar, Literal

from store.measure.length import Length
from store.measure.mass import Mass
from store.measure.money import Money
from store.records.base import Record
from store.records.field import Day, F, Ref

BuyingState = Literal["to buy", "ordered", "owned"]
BUYING: tuple[BuyingState, ...] = ("to buy", "ordered", "owned")
"""The order in which a thing is bought; one key moves it along."""


class Equipment(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A device, with the manufacturer's figures read before buying."""

    kind: ClassVar[str] = "equipment"
    letter: ClassVar[str] = "E"
    one: ClassVar[str] = "equipment"
    many: ClassVar[str] = "equipment"
    about: ClassVar[str] = "what goes in the wall; enter the manufacturer's sizes before you buy"

    name: Annotated[str, F("name", "what it is, in your words", col=24, must=True, example=("Receiver",))]
    state: Annotated[BuyingState, F("buying state", "to buy, ordered or owned", col=8, was=("state",))] = "to buy"
    what: Annotated[
        Literal[
            "other", "screen", "fireplace", "receiver", "player", "streamer", "console", "recorder",
            "router", "switch", "speaker", "subwoofer", "soundbar", "light", "driver", "strip", "mount",
            "heater", "extender", "part", "floating shelf", "floating cabinet", "mantel", "hearth", "sconce", "picture",
            "thermostat", "power supply", "splitter",
        ],
        F("kind", "what it does", col=10, was=("sort",)),
    ] = "other"  # fmt: skip
    count: Annotated[int, F("count", "how many", above_zero=True, example=("2",))] = 1
    width: Annotated[
        Length | None,
        F("width", "outside, from the manual", group="From the manual", above_zero=True, example=("17-1/8", "435")),
    ] = None
    height: Annotated[
        Length | None, F("height", "outside, from the manual", above_zero=True, example=("6-3/8", "162"))
    ] = None
    depth: Annotated[
        Length | None, F("depth", "outside, without plugs", above_zero=True, example=("15-1/4", "387"))
    ] = None
    weight: Annotated[Mass | None, F("weight", "like 65 lb", above_zero=True)] = None
    diagonal: Annotated[
        Length | None,
        F("diagonal", "of the picture, for a TV", above_zero=True, inches=True, example=("65", '65"')),
    ] = None
    aspect: Annotated[str, F("aspect", "of the picture, like 16:9")] = "16:9"
    lines: Annotated[int | None, F("resolution", "1080, 2160 or 4320", was=("picture lines",))] = None
    shows: Annotated[
        str, F("picture mode", "the best the TV shows, like 4K 120, 8K 60 or 2160p60 HDR", was=("to show",))
    ] = ""
    watts: Annotated[float | None, F("power draw", "watts on the nameplate, like 420", unit="W", was=("watts",))] = None
    idle: Annotated[
        float | None, F("idle watts", "on standby; measured, or from the manual", unit="W", example=("18",))
    ] = None
    warmest: Annotated[
        float | None,
        F(
            "air temp. limit",
            "warmest air around it that its manual allows, often 35 or 40",
            was=("warmest air",),
            unit="°C",
            above_zero=True,
        ),
    ] = None
    plate_volts: Annotated[
        float | None, F("nameplate volts", "as on the nameplate", unit="V", above_zero=True, example=("120", "230"))
    ] = None
    breaker: Annotated[
        float | None, F("breaker", "the size the manual asks for", unit="A", above_zero=True, example=("15",))
    ] = None
    hours: Annotated[
        float | None, F("runs for", "hours at a stretch; 3 or more is continuous", unit="h", example=("4",))
    ] = None
    heats: Annotated[bool, F("gives heat", "yes for a fireplace or a heater", was=("heats",))] = False
    heat_side: Annotated[
        Literal["unknown", "front", "top", "bottom", "sides"],
        F("heat outlet", "where the warm air comes out"),
    ] = "unknown"
    clear_left: Annotated[
        Length | None, F("clearance left", "from the manual; blank = not known", example=("2", "50"))
    ] = None
    clear_right: Annotated[Length | None, F("clearance right", "from the manual", example=("2", "50"))] = None
    clear_top: Annotated[Length | None, F("clearance above", "from the manual", example=("4", "100"))] = None
    clear_bottom: Annotated[Length | None, F("clearance below", "from the manual", example=("2", "50"))] = None
    clear_front: Annotated[Length | None, F("clearance in front", "from the manual", example=("2", "50"))] = None
    clear_back: Annotated[Length | None, F("clearance behind", "from the manual", example=("2", "50"))] = None
    keep_above: Annotated[
        Length | None,
        F(
            "combustibles above",
            "manual's least distance up to anything combustible, like a shelf",
            was=("clear above it",),
            example=("12", "300"),
        ),
    ] = None
    keep_screen: Annotated[
        Length | None,
        F("TV above", "manual's least distance up to a TV", was=("clear to a TV",), example=("15", "380")),
    ] = None
    keep_sides: Annotated[
        Length | None,
        F(
            "combustibles beside",
            "manual's least distance to anything combustible beside it",
            was=("clear beside it",),
            example=("3", "75"),
        ),
    ] = None
    mantel: Annotated[
        tuple[str, ...],
        F("mantel heights", "mantel depth/least height above the unit, like 6/10, 8/12", example=("6/10", "150/250")),
    ] = ()
    mounting: Annotated[
        Literal["shelf", "wall bracket", "made to be recessed", "surface only", "unknown"],
        F("mounting", "as the manual says"),
    ] = "unknown"
    holes: Annotated[str, F("hole pattern", "on the back of a TV, mm, like 400x400")] = ""
    reach: Annotated[
        Length | None,
        F("arm reach", "on a swing arm: wall to the back of the TV, fully out", above_zero=True, example=("22", "560")),
    ] = None
    source: Annotated[
        str, F("figures from", "where you read them: manual, data sheet, nameplate", example=("manual, page 12",))
    ] = ""
    read_on: Annotated[Day | None, F("figures read", "the day you read them", when="past")] = None
    opening: Annotated[Ref, F("opening", "where it goes, like N1", col=8, kinds=("opening",), group="Place")] = Ref("")
    offset: Annotated[Length | None, F("offset", "from the left inside edge of its opening", example=("2", "50"))] = (
        None
    )
    stands_on: Annotated[
        Ref,
        F(
            "sits on",
            "shelf, equipment under it, or the tag of its opening = the bottom; a strip: what it is fastened to",
            was=("stands on",),
            kinds=("shelf", "equipment", "opening"),
        ),
    ] = Ref("")
    raised: Annotated[
        Length | None, F("raised by", "a stand or spacers between it and what it sits on", example=("2", "50"))
    ] = None
    wall: Annotated[
        Ref, F("wall", "for equipment in no opening: the wall it is on or in, like W1", kinds=("wall",))
    ] = Ref("")
    x: Annotated[
        Length | None, F("from left", "left end of the wall to its center, when it is in no opening", place=True)
    ] = None
    y: Annotated[
        Length | None,
        F("off the floor", "finished floor to its center, when it is in no opening", was=("from floor",), place=True),
    ] = None
    face: Annotated[
        Literal["nearest", "wall", "front", "left return", "right return", "underside", "top", "behind"],
        F("face", "nearest = on the face there; behind = in the wall, like a driver"),
    ] = "nearest"
    on: Annotated[Ref, F("build-out", "which one it is on, if there are several", kinds=("buildout",))] = Ref("")
    off_wall: Annotated[
        Length | None, F("off the face", "wall face to its back, on its bracket", example=("1-1/2", "38"))
    ] = None
    reached: Annotated[
        Ref,
        F("access through", "the access panel or opening, like A1", kinds=("panel", "opening"), was=("reached by",)),
    ] = Ref("")
    material: Annotated[
        str, F("material", "what a floating shelf or a mantel is made of, in one piece", example=("white oak",))
    ] = ""
    brackets: Annotated[
        int, F("brackets", "that carry a floating shelf, evenly along it; blank = 2", example=("3",))
    ] = 0
    load: Annotated[
        Mass | None,
        F("will carry", "total weight on it; blank on a shelf = books", above_zero=True, example=("40 lb", "18 kg")),
    ] = None
    power: Annotated[
        Literal["unknown", "cord", "hard-wired", "wall-wart", "none"],
        F("power", "how it gets power", group="Power and signal"),
    ] = "unknown"
    cord: Annotated[Length | None, F("cord length", "from the manual", example=("5'", "1500"))] = None
    plug: Annotated[
        Ref,
        F("plugs into", "receptacle or power strip, or the box it is wired in", kinds=("box", "equipment")),
    ] = Ref("")
    half: Annotated[
        Literal["either", "always on", "switched"],
        F("receptacle half", "which half of a half-switched receptacle", was=("which half",)),
    ] = "either"
    places: Annotated[int, F("outlets", "on a power strip, how many", was=("plug places",), example=("6",))] = 0
    rating: Annotated[
        float | None,
        F("rated load", "the limit of a power strip or LED driver", unit="W", was=("rating",), example=("60",)),
    ] = None
    tape: Annotated[
        Length | None,
        F("tape length", "of light tape, in total", group="Light", above_zero=True, example=("8'", "2400")),
    ] = None
    per_ft: Annotated[
        float | None, F("tape power", "from its label", unit="W/ft", above_zero=True, example=("4.4", "14.4"))
    ] = None
    volts: Annotated[float | None, F("light volts", "of the tape or driver: 12 or 24", unit="V", above_zero=True)] = (
        None
    )
    fed: Annotated[Literal["one end", "both ends", "middle"], F("tape fed", "where its wire comes in")] = "one end"
    longest_run: Annotated[
        Length | None,
        F("longest run", "of tape fed at one end, from its data sheet", above_zero=True, example=("16'", "5000")),
    ] = None
    tape_ohm: Annotated[
        float | None,
        F(
            "tape resistance",
            "both rails together, from its data sheet",
            unit="ohm/ft",
            above_zero=True,
            example=("0.04", "0.13"),
        ),
    ] = None
    leds: Annotated[
        float | None,
        F(
            "LEDs by length",
            "from its label",
            unit="per ft",
            above_zero=True,
            example=("36", "120"),
            was=("LEDs per foot",),
        ),
    ] = None
    cut_step: Annotated[
        Length | None, F("cut marks every", "the tape is cut only there", above_zero=True, example=("2", "50"))
    ] = None
    pieces: Annotated[
        tuple[str, ...],
        F(
            "channel pieces",
            "outside lengths of its channel in order, a corner after each but the last",
            example=("24, 60, 24", "600, 1500, 600"),
        ),
    ] = ()
    joined: Annotated[
        Literal["mitered", "corner connectors", "apart"],
        F("channel corners", "how its pieces meet; apart = each on a wire of its own"),
    ] = "mitered"
    channel: Annotated[
        Length | None,
        F("channel stock", "length that its channel is sold in", above_zero=True, example=("6'6\"", "2000")),
    ] = None
    dims: Annotated[
        Literal["unknown", "none", "phase", "0-10 V", "low-voltage", "radio"],
        F("dims by", "what the driver dims with; none = on and off only"),
    ] = "unknown"
    dimmer: Annotated[
        Literal["unknown", "none", "phase", "0-10 V", "low-voltage", "radio"],
        F("dimmer", "what controls the driver; none = a plain switch, or always on"),
    ] = "unknown"
    faces: Annotated[
        Literal["unknown", "down", "up", "room", "wall"],
        F("light direction", "which way the light source faces", was=("shines",)),
    ] = "unknown"
    lip: Annotated[
        Length | None, F("lip", "how far the lip or channel goes past the light source", example=("1", "25"))
    ] = None
    lip_behind: Annotated[
        Length | None, F("behind the lip", "from the lip back to the light source", example=("2", "50"))
    ] = None
    lamp_up: Annotated[
        Length | None, F("lamp height", "for a lamp in the room: floor to lamp", example=("5'", "1500"))
    ] = None
    lamp_out: Annotated[
        Length | None, F("lamp from the wall", "out into the room", above_zero=True, example=("4'", "1200"))
    ] = None
    lamp_across: Annotated[Length | None, F("lamp from left", "from the wall's left corner", example=("2'", "600"))] = (
        None
    )
    ports: Annotated[
        tuple[str, ...],
        F("ports", "like 3x hdmi in, hdmi arc out, ethernet, speaker out", picks="port", group="Signal"),
    ] = ()
    remote: Annotated[Literal["none", "infrared", "radio"], F("remote", "how its remote control works")] = "none"
    wireless: Annotated[bool, F("wireless", "sends or receives by radio")] = False
    price: Annotated[Money | None, F("price", "expected or on the bill, each", col=11, group="Buying")] = None
    paid: Annotated[Money | None, F("paid", "so far, in all")] = None
    parts: Annotated[tuple[str, ...], F("parts on hand", "already bought for it: channel", example=("channel",))] = ()
    supplier: Annotated[str, F("supplier", "who sells it", example=("Mill Road shop",))] = ""
    lead: Annotated[int | None, F("lead days", "from order to delivery", example=("21",))] = None
    needed_for: Annotated[
        Ref, F("needed for", "the step it must be there for; blank = first hook-up step", kinds=("step",))
    ] = Ref("")
    ordered: Annotated[Day | None, F("ordered", when="past")] = None
    arrived: Annotated[Day | None, F("arrived", when="past")] = None
    return_by: Annotated[Day | None, F("return by", "last day to send it back", col=12, when="ahead")] = None
    tested: Annotated[Day | None, F("test fit", "the day you try it in place")] = None
    warranty: Annotated[Day | None, F("warranty ends", when="ahead")] = None
    maker: Annotated[str, F("manufacturer", "as on the nameplate")] = ""
    model: Annotated[str, F("model", "as on the nameplate", example=("HX-200",))] = ""
    manual: Annotated[str, F("manual", "where it is: a web address or a drawer", example=("drawer 2",))] = ""
    serial: Annotated[str, F("serial no.", "as on the nameplate", was=("serial number",))] = ""
    service: Annotated[Day | None, F("next service", "day to clean a filter or check a fan", when="ahead")] = None
    retired: Annotated[Day | None, F("retired", "the day it left the wall")] = None
    replaced_by: Annotated[Ref, F("replaced by", "what took its place, like E9", kinds=("equipment",))] = Ref("")
