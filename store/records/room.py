"""What stands in the room in front of a wall: furniture, which a door swings into and an access panel hides behind."""

from typing import Annotated, ClassVar, Literal

from store.measure.length import Length
from store.records.base import Record
from store.records.field import F, Ref


class Furniture(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A piece of furniture in front of a wall, by its size and where it stands."""

    kind: ClassVar[str] = "furniture"
    letter: ClassVar[str] = "J"
    one: ClassVar[str] = "piece of furniture"
    many: ClassVar[str] = "pieces of furniture"
    about: ClassVar[str] = "what is in the room in front of a wall: sofa, bench, low table, plant"

    name: Annotated[str, F("name", "what it is", col=20, must=True, example=("Bench",))]
    wall: Annotated[Ref, F("wall", "the wall it is in front of, like W1", col=5, kinds=("wall",), alone=True)]
    x: Annotated[Length, F("from left", "left end of the wall to its left side", col=11, place=True)]
    width: Annotated[Length, F("width", "along the wall", col=10, above_zero=True, place=True, example=("4'", "1200"))]
    depth: Annotated[Length, F("depth", "out into the room", col=10, above_zero=True, example=("18", "450"))]
    height: Annotated[Length, F("height", "floor to top", col=10, above_zero=True, example=("18", "450"))]
    off: Annotated[Length, F("off the wall", "face of the wall to its back; 0 = against it", col=11, place=True)] = (
        Length(0)
    )
    y: Annotated[Length, F("off the floor", "0 = on the floor", place=True)] = Length(0)
    moves: Annotated[
        Literal["unknown", "easily", "two people", "never"], F("moves", "how it can be moved out of the way")
    ] = "unknown"
