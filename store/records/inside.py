"""What is inside a cabinet or another opening: its shelves, fixed or adjustable, and its dividers."""

from typing import Annotated, ClassVar, Literal

from store.measure.length import Length
from store.measure.mass import Mass
from store.records.base import Record
from store.records.field import F, Ref


class ShelfBoard(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A shelf or a divider in an opening. Its places are from the inside of the opening: left side and bottom."""

    kind: ClassVar[str] = "shelf"
    letter: ClassVar[str] = "G"
    one: ClassVar[str] = "shelf"
    many: ClassVar[str] = "shelves and dividers"
    about: ClassVar[str] = "boards inside a cabinet or an opening: shelves at their heights, and dividers"

    opening: Annotated[
        Ref, F("in", "the cabinet or opening, like N3", col=5, kinds=("opening",), alone=True, must=True)
    ]
    what: Annotated[
        Literal["adjustable shelf", "fixed shelf", "divider"],
        F("kind", "adjustable: on pins in rows of holes", col=16),
    ] = "adjustable shelf"
    up: Annotated[
        Length | None,
        F(
            "height inside",
            "bottom inside to the top of a shelf, or to the foot of a divider; blank divider: on the bottom",
            col=10,
            example=("12", "300"),
        ),
    ] = None
    along: Annotated[
        Length | None,
        F(
            "from left inside",
            "left side inside to a divider's left face, or to a shelf's left end; blank shelf: at the side",
            col=10,
            example=("18", "450"),
        ),
    ] = None
    height: Annotated[
        Length | None,
        F("divider height", "blank = up to the top of the opening", above_zero=True, example=("12", "300")),
    ] = None
    depth: Annotated[
        Length | None,
        F("depth", "front to back; blank = as deep as the opening", above_zero=True, example=("15-1/4", "387")),
    ] = None
    gap: Annotated[
        Length | None, F("gap behind it", "to the back, for cords and air; blank = none", example=("2", "50"))
    ] = None
    thickness: Annotated[
        Length | None, F("thickness", "blank = as the sides", above_zero=True, example=("3/4", "18"))
    ] = None
    material: Annotated[str, F("material", "blank = as the opening", example=("birch plywood",))] = ""
    held: Annotated[
        Literal["pins", "cleats on 2 sides", "cleats on 3 sides", "fixed"],
        F("shelf supports", "how its ends are supported"),
    ] = "pins"
    middle: Annotated[int, F("supports between", "the ends", example=("1",))] = 0
    strip: Annotated[
        Length | None, F("front strip", "full height of a strip along its front edge", example=("1-1/2", "38"))
    ] = None
    load: Annotated[
        Mass | None,
        F("will carry", "total weight with books; blank = what is placed there", example=("40 lb", "18 kg")),
    ] = None
    name: Annotated[str, F("name", "where two could be meant", col=14, example=("receiver shelf",))] = ""
