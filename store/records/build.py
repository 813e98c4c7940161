"""What is built: the screws and anchors that hold something on the wall."""

from typing import Annotated, ClassVar, Literal

from store.measure.length import Length
from store.measure.mass import Mass
from store.measure.money import Money
from store.records.base import Record
from store.records.field import F, Ref


class Fixing(Record, frozen=True, kw_only=True, omit_defaults=True):
    """The screws or anchors of one bracket, shelf or cabinet."""

    kind: ClassVar[str] = "fixing"
    letter: ClassVar[str] = "X"
    one: ClassVar[str] = "fixing"
    many: ClassVar[str] = "fixings"
    about: ClassVar[str] = "the screws of a bracket, a shelf or a cabinet, and what they go into"

    of: Annotated[Ref, F("holds", "the mount, equipment or opening", col=7, kinds=("equipment", "opening"), must=True)]
    what: Annotated[
        Literal[
            "unknown", "lag 1/4", "lag 5/16", "lag 3/8", "wood screw 8", "wood screw 10", "wood screw 12",
            "wood screw 14", "steel screw 6", "steel screw 8", "steel screw 10", "steel screw 12", "toggle bolt",
            "drywall anchor", "masonry anchor",
        ],
        F("screw", "kind and size", col=14),
    ] = "unknown"  # fmt: skip
    count: Annotated[int, F("count", "how many in all", col=6, above_zero=True, example=("4",))] = 4
    into: Annotated[
        Literal[
            "unknown", "stud", "blocking", "steel 18 mil", "steel 27 mil", "steel 30 mil", "steel 33 mil",
            "steel 43 mil", "drywall", "masonry",
        ],
        F("into", "what the screw goes into", col=12),
    ] = "unknown"  # fmt: skip
    wood: Annotated[
        Literal["unknown", "SPF", "Hem-Fir", "Douglas Fir-Larch", "Southern Pine"],
        F("wood", "of the stud, as stamped on it; unknown counts as the lightest"),
    ] = "unknown"
    length: Annotated[
        Length | None, F("screw length", "under the head", col=9, above_zero=True, example=("3", "75"))
    ] = None
    rows: Annotated[Literal["2", "1"], F("rows", "of screws, one above the other")] = "2"
    apart: Annotated[
        Length | None,
        F(
            "rows apart",
            "upper row to lower row; with one row, down to the bracket's lower edge",
            above_zero=True,
            example=("16", "400"),
        ),
    ] = None
    out: Annotated[
        Length | None,
        F(
            "load standoff",
            "wall to the middle of the load, at its farthest; blank = half its depth",
            example=("12", "300"),
        ),
    ] = None
    rated: Annotated[
        Mass | None,
        F("rated load", "for one anchor in this drywall, as printed by its manufacturer", example=("50 lb", "23 kg")),
    ] = None
    price: Annotated[Money | None, F("price", "for all of them")] = None
    bought: Annotated[bool, F("bought", "yes = you have them")] = False
