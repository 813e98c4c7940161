"""The wall as found: walls, the readings taken of them, what is in the way, and the openings to be framed."""

from typing import Annotated, ClassVar, Literal

from store.measure.length import INCH_NM, Length
from store.measure.mass import Mass
from store.measure.money import Money
from store.records.base import Record
from store.records.fan import FanCurve
from store.records.field import Day, F, Ref

Known = Literal["unknown", "yes", "no"]
FaceName = Literal["nearest", "wall", "front", "left return", "right return", "underside", "top"]
"""A face that things are on; `nearest` is the one nearest to the room at their place: the wall's own, or the front of
the build-out there."""


class Wall(Record, frozen=True, kw_only=True, omit_defaults=True):
    """One flat face that is measured, framed and covered."""

    kind: ClassVar[str] = "wall"
    letter: ClassVar[str] = "W"
    one: ClassVar[str] = "wall"
    many: ClassVar[str] = "walls"
    about: ClassVar[str] = "each flat face that you measure, frame and cover"

    name: Annotated[str, F("name", col=22, must=True, example=("TV wall",))]
    stud_width: Annotated[
        Length, F("stud thickness", "along the wall", group="Framing", above_zero=True, example=("1-1/2", "38"))
    ] = Length(3 * INCH_NM // 2)
    stud_depth: Annotated[Length, F("stud depth", "into the wall", above_zero=True, example=("3-1/2", "89"))] = Length(
        7 * INCH_NM // 2
    )
    spacing: Annotated[Length, F("stud spacing", "on center", col=10, above_zero=True, example=("16", "400"))] = Length(
        16 * INCH_NM
    )
    first_stud: Annotated[
        Length | None,
        F(
            "first stud",
            "left end of the wall to the center of any stud in the row",
            col=10,
            place=True,
            example=("15-1/4", "390"),
        ),
    ] = None
    odd_studs: Annotated[
        tuple[str, ...],
        F("off-layout studs", "centers from the left end, like 30-1/2, 2 x 64 (a double)", was=("odd studs",)),
    ] = ()
    missing_studs: Annotated[
        tuple[str, ...], F("missing studs", "layout centers where you found no stud, like 48, 64")
    ] = ()
    framing: Annotated[
        Literal["existing", "new wood", "furred out", "new 18 mil steel", "new 30 mil steel", "new 33 mil steel"],
        F("framing", "existing = buy only what openings and blocking add"),
    ] = "existing"
    insulation: Annotated[
        Literal["unknown", "none", "batts", "blown in", "spray foam"],
        F("insulation", "in its stud bays; power cables in it carry less"),
    ] = "unknown"
    top_plates: Annotated[Literal["2", "1"], F("top plates", "1 is usual in a non-bearing wall")] = "2"
    bearing: Annotated[
        Known, F("load-bearing?", "unknown counts as yes; ask a licensed pro before cutting", col=9, was=("bearing",))
    ] = "unknown"
    burns: Annotated[Known, F("combustible?", "wood, paper or fabric facing the heater", was=("surface burns",))] = (
        "unknown"
    )
    meets_left: Annotated[
        Ref,
        F(
            "meets at left",
            "the wall around that corner, seen from the room",
            kinds=("wall",),
            group="Corners",
            was=("left end meets",),
        ),
    ] = Ref("")
    meets_right: Annotated[
        Ref, F("meets at right", "the wall around that corner", kinds=("wall",), was=("right end meets",))
    ] = Ref("")
    left_corner: Annotated[
        Literal["inside", "outside"], F("left corner", "inside or outside; outside = the next wall goes away from you")
    ] = "inside"
    right_corner: Annotated[
        Literal["inside", "outside"], F("right corner", "inside or outside, as for the left one")
    ] = "inside"
    floor_line: Annotated[
        tuple[str, ...],
        F(
            "floor line",
            "from left/height over floor zero, like 0/0, 12'/1/2; blank = level",
            group="Floor and ceiling",
        ),
    ] = ()
    ceiling_line: Annotated[
        tuple[str, ...],
        F("ceiling line", "from left/height, like 0/8', 6'/8', 12'/5'; one place twice = a step; blank = level"),
    ] = ()
    scribe: Annotated[
        Length | None,
        F("scribe allowance", "what the trim can cover at the sides", group="Trim", example=("3/4", "20")),
    ] = None
    to_board: Annotated[
        Known, F("hang drywall", "yes = buy drywall for this wall; unknown = only on new framing", group="Drywall")
    ] = "unknown"
    level: Annotated[
        Literal["0", "1", "2", "3", "4", "5"],
        F("finish level", "4 for flat paint; 5 where light grazes it or the paint shines"),
    ] = "4"
    tile: Annotated[
        float | None,
        F("tile backer", "backer board where tile or stone goes on its face", unit="ft²", example=("24", "2.2")),
    ] = None
    lumber_price: Annotated[Money | None, F("price of lumber", "for all its framing", group="Buying")] = None
    drywall_price: Annotated[Money | None, F("price of drywall", "for all its drywall, with tape and compound")] = None
    parts: Annotated[
        tuple[str, ...], F("parts on hand", "already bought for it: framing, drywall, finishing", example=("framing",))
    ] = ()
    framed: Annotated[
        Day | None, F("framing changed", "the day it changed; older readings no longer count", when="past")
    ] = None


class Reading(Record, frozen=True, kw_only=True, omit_defaults=True):
    """One reading of a tape or a laser; several of one thing are normal."""

    kind: ClassVar[str] = "reading"
    letter: ClassVar[str] = "D"
    one: ClassVar[str] = "reading"
    many: ClassVar[str] = "readings"
    about: ClassVar[str] = "readings by tape or laser; take each size at three places; the smallest governs"

    wall: Annotated[Ref, F("wall", "the wall it is on, like W1", col=5, kinds=("wall",), alone=True, must=True)]
    what: Annotated[
        Literal["width", "height", "depth", "diagonal", "out of plumb", "left corner", "right corner"],
        F(
            "what",
            "which size you took; a corner: the 5 of 3-4-5",
            col=9,
            must=True,
        ),
    ]
    where: Annotated[str, F("where", 'at the floor, at 48", left end, A to C', col=18)] = ""
    value: Annotated[
        Length,
        F("reading", "as the tape shows it", col=14, above_zero=True, place=True, example=("8'-0 1/16\"", "2440")),
    ]
    date: Annotated[Day | None, F("date", col=12, when="past")] = None
    by: Annotated[str, F("by", "who read it", col=10, example=("Robin",))] = ""
    over: Annotated[
        Length | None,
        F(
            "over height",
            "for out of plumb: the height you read it over; blank = the whole wall",
            above_zero=True,
            was=("over",),
            example=("8'", "2400"),
        ),
    ] = None
    leans: Annotated[
        Literal["unknown", "into the room", "away from it"], F("top leans", "for out of plumb: which way the top leans")
    ] = "unknown"


class BuildOut(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A box that is in front of a wall: a chimney breast, a bump-out, a run of cabinets, a soffit."""

    kind: ClassVar[str] = "buildout"
    letter: ClassVar[str] = "U"
    one: ClassVar[str] = "build-out"
    many: ClassVar[str] = "build-outs"
    about: ClassVar[str] = "what is in front of the flat wall: chimney breast, built-out framing, cabinet run, soffit"

    name: Annotated[str, F("name", col=20, must=True, example=("Chimney breast",))]
    wall: Annotated[Ref, F("wall", "the wall it is on, like W1", col=5, kinds=("wall",), alone=True, must=True)]
    x: Annotated[Length, F("from left", "left end of the wall to its left return", col=11, place=True)]
    width: Annotated[
        Length, F("width", "return to return, finished", col=11, above_zero=True, place=True, example=("5'", "1500"))
    ]
    depth: Annotated[
        Length, F("depth", "face of the wall to its front, finished", col=10, above_zero=True, example=("12", "300"))
    ]
    y: Annotated[
        Length, F("off the floor", "finished floor to its underside; 0 = on the floor", col=11, place=True)
    ] = Length(0)
    height: Annotated[Length | None, F("height", "blank = up to the ceiling", col=11, above_zero=True, place=True)] = (
        None
    )
    work: Annotated[Literal["framing", "cabinet", "masonry"], F("made of", "framing, or cabinet work", col=9)] = (
        "framing"
    )
    stud_width: Annotated[
        Length,
        F(
            "stud thickness",
            "of its framing, along the wall",
            group="Framing",
            above_zero=True,
            example=("1-1/2", "38"),
        ),
    ] = Length(3 * INCH_NM // 2)
    stud_depth: Annotated[Length, F("stud depth", "of its front framing", above_zero=True, example=("3-1/2", "89"))] = (
        Length(7 * INCH_NM // 2)
    )
    spacing: Annotated[
        Length, F("stud spacing", "on center, of its front framing", above_zero=True, example=("16", "400"))
    ] = Length(16 * INCH_NM)
    first_stud: Annotated[
        Length | None, F("stud found", "left end of the wall to the center of any of its studs", place=True)
    ] = None
    bearing: Annotated[Known, F("load-bearing?", "unknown counts as yes where it is framing")] = "no"
    new: Annotated[bool, F("new", "yes = you build it, no = existing")] = True


class Zone(Record, frozen=True, kw_only=True, omit_defaults=True):
    """Part of a face with a finish of its own: stone over the fireplace, wood, tile, plain board."""

    kind: ClassVar[str] = "zone"
    letter: ClassVar[str] = "Z"
    one: ClassVar[str] = "finish zone"
    many: ClassVar[str] = "finish zones"
    about: ClassVar[str] = "parts of a wall with a finish of their own: stone, tile, wood, mirror"

    name: Annotated[str, F("name", "what the finish is, like ledge stone", col=20, must=True, example=("Stone",))]
    wall: Annotated[Ref, F("wall", "the wall it is on, like W1", col=5, kinds=("wall",), alone=True, must=True)]
    face: Annotated[FaceName, F("face", "nearest = whatever face is there", col=9)] = "nearest"
    on: Annotated[Ref, F("build-out", "which one it is on, if there are several", kinds=("buildout",))] = Ref("")
    x: Annotated[Length, F("from left", "left end of the wall to its left edge", col=11, place=True)]
    y: Annotated[Length, F("off the floor", "finished floor to its bottom edge", col=11, place=True)]
    width: Annotated[
        Length, F("width", "left edge to right edge", col=11, above_zero=True, place=True, example=("5'", "1500"))
    ]
    height: Annotated[
        Length, F("height", "bottom edge to top edge", col=11, above_zero=True, place=True, example=("4'", "1200"))
    ]
    thickness: Annotated[
        Length,
        F(
            "thickness",
            "studs to finished face, all layers: board, mortar, stone",
            col=10,
            above_zero=True,
            example=("1-1/4", "32"),
        ),
    ]
    burns: Annotated[
        Known, F("combustible?", "wood, paper or fabric: yes; stone or tile on cement board: no", col=12)
    ] = "unknown"
    weight: Annotated[
        float | None,
        F(
            "weight",
            "by area, all layers, from the data sheet",
            unit="lb/ft²",
            above_zero=True,
            example=("12", "60"),
        ),
    ] = None
    backing: Annotated[
        Literal["drywall", "cement board", "plywood", "masonry", "other"],
        F("fixed to", "what is behind the finish", was=("put on",)),
    ] = "drywall"


class Obstacle(Record, frozen=True, kw_only=True, omit_defaults=True):
    """Something already on the wall that the work must keep clear of."""

    kind: ClassVar[str] = "obstacle"
    letter: ClassVar[str] = "O"
    one: ClassVar[str] = "obstacle"
    many: ClassVar[str] = "obstacles"
    about: ClassVar[str] = "what is on the wall now: vents, windows, switches, baseboard"

    wall: Annotated[Ref, F("wall", "the wall it is on, like W1", col=5, kinds=("wall",), alone=True, must=True)]
    what: Annotated[
        Literal["vent", "return air", "window", "switch", "outlet", "baseboard", "crown", "door", "pipe", "other"],
        F("kind", "what is there; return air = a stud bay takes air back there", col=10, must=True, was=("what",)),
    ]
    x: Annotated[Length, F("from left", "left end of the wall to its left edge", col=12, place=True)]
    y: Annotated[
        Length, F("off the floor", "finished floor to its bottom edge", col=12, was=("from floor",), place=True)
    ]
    width: Annotated[Length, F("width", "left edge to right edge", col=12, above_zero=True, example=("12", "300"))]
    height: Annotated[Length, F("height", "bottom edge to top edge", col=12, above_zero=True, example=("6", "150"))]


class Opening(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A framed opening or a piece of cabinetry; sizes are outer sizes, its place is its lower left corner."""

    kind: ClassVar[str] = "opening"
    letter: ClassVar[str] = "N"
    one: ClassVar[str] = "opening"
    many: ClassVar[str] = "openings"
    about: ClassVar[str] = "places framed for equipment: TV, fireplace, shelves, speakers"

    name: Annotated[str, F("name", col=20, must=True, example=("TV opening",))]
    use: Annotated[
        Literal["screen", "fireplace", "equipment", "shelf", "drawer", "speaker", "other"],
        F("use", "what goes in it", col=10),
    ] = "other"
    wall: Annotated[Ref, F("wall", "the wall it is on, like W1", col=5, kinds=("wall",), alone=True)] = Ref("")
    x: Annotated[
        Length | None,
        F("from left", "left end of the wall to its left edge", col=11, group="Place and size", place=True),
    ] = None
    y: Annotated[
        Length | None, F("off the floor", "finished floor to its bottom edge", col=11, was=("from floor",), place=True)
    ] = None
    width: Annotated[Length | None, F("width", "outside", col=11, above_zero=True, example=("60", "1500"))] = None
    height: Annotated[Length | None, F("height", "outside", col=11, above_zero=True, example=("36", "900"))] = None
    depth: Annotated[Length | None, F("depth", "outside", col=10, above_zero=True, example=("16", "400"))] = None
    face: Annotated[FaceName, F("face", "nearest = the build-out's front there, or the wall")] = "nearest"
    on: Annotated[Ref, F("build-out", "which one it is on, if there are several", kinds=("buildout",))] = Ref("")
    header: Annotated[
        Length | None,
        F(
            "header",
            "its height, as sized by a licensed pro or the code's table",
            above_zero=True,
            example=("5-1/2", "140"),
        ),
    ] = None
    material: Annotated[str, F("material", group="Make", example=("birch plywood",))] = ""
    thickness: Annotated[
        Length | None, F("thickness", "of its sides; blank = bare framing", above_zero=True, example=("3/4", "18"))
    ] = None
    held: Annotated[
        Literal["pins", "cleats on 2 sides", "cleats on 3 sides", "fixed", "brackets"],
        F("shelf supports", "how the ends of its shelf or bottom are supported", group="Shelf"),
    ] = "pins"
    middle: Annotated[
        int, F("supports between", "how many between the ends; for a floating shelf, its brackets", example=("1",))
    ] = 0
    strip: Annotated[
        Length | None, F("front strip", "height of a strip along its front edge", example=("1-1/2", "38"))
    ] = None
    strip_thick: Annotated[
        Length | None, F("strip thickness", "front to back; blank = 3/4 in", above_zero=True, example=("3/4", "18"))
    ] = None
    strip_material: Annotated[str, F("strip material", "blank = that of the board", example=("maple",))] = ""
    rail: Annotated[Length | None, F("back rail", "height of a rail along its back edge", example=("3", "75"))] = None
    load: Annotated[
        Mass | None,
        F("will carry", "total weight with books; blank = what is placed there", example=("40 lb", "18 kg")),
    ] = None
    load_place: Annotated[
        Literal["spread", "middle"], F("load type", "spread along it, or one thing in the middle", was=("load lies",))
    ] = "spread"
    pin_first: Annotated[
        Length | None,
        F("lowest shelf pins", "bottom inside to the underside of a shelf on them", example=("6", "150")),
    ] = None
    pin_step: Annotated[
        Length | None, F("pin holes every", "up the side, hole to hole", above_zero=True, example=("1-1/4", "32"))
    ] = None
    door: Annotated[Literal["none", "solid", "glass", "mesh"], F("door", "what closes it", group="Door")] = "none"
    hinge: Annotated[
        Literal["none", "left", "right", "top", "bottom", "drawer", "sliding"],
        F("door opens", "hinge side, or a drawer, or sliding", was=("hinged",)),
    ] = "none"
    door_laid: Annotated[
        Literal["overlay", "inset"], F("door fit", "overlay, or inset in the box", was=("door lies",))
    ] = "overlay"
    tied: Annotated[Known, F("tied to the wall", "yes = the standing cabinet is screwed to the framing")] = "unknown"
    door_width: Annotated[
        Length | None, F("clear door width", "clear width past the frame, hinges and slides", example=("20", "500"))
    ] = None
    door_height: Annotated[
        Length | None, F("clear door height", "clear height past the frame", example=("18", "450"))
    ] = None
    air_in: Annotated[
        float | None, F("air in", "free area, lower vents", unit="in²", group="Air", example=("24", "150"))
    ] = None
    air_out: Annotated[float | None, F("air out", "free area, upper vents", unit="in²", example=("24", "150"))] = None
    free_share: Annotated[
        float | None,
        F(
            "free share",
            "percent open of the grille or mesh, if the areas above are its whole face",
            unit="%",
            example=("60",),
        ),
    ] = None
    gap: Annotated[
        Length | None, F("gap around the door", "total open area; air goes through it too", example=("1/8", "3"))
    ] = None
    fan: Annotated[float | None, F("fan", "flow from its data sheet", unit="cfm", example=("40", "70"))] = None
    fan_shut: Annotated[
        float | None, F("fan pressure", "at no flow", unit="inH2O", above_zero=True, example=("0.1", "25"))
    ] = None
    fan_curve: FanCurve = ()
    fan_noise: Annotated[float | None, F("fan noise", "its data sheet, dB at 1 m", unit="dB", example=("22",))] = None
    air_through: Annotated[
        Ref,
        F("air comes through", "raceway or neighbor cabinet its air passes first", kinds=("raceway", "opening")),
    ] = Ref("")
    price: Annotated[Money | None, F("price", "for its boards, doors and hardware", group="Buying")] = None
    parts: Annotated[tuple[str, ...], F("parts on hand", "already bought: boards, hardware, fan, vents")] = ()
