"""Access for years: panels, the log of their openings, and photos of the open wall."""

from typing import Annotated, ClassVar, Literal

from store.measure.length import Length
from store.records.base import Record
from store.records.field import Day, F, Note, Ref
from store.records.wall import FaceName

PanelFace = Literal[
    FaceName, "ceiling", "floor", "cabinet back", "cabinet left side", "cabinet right side",
]  # fmt: skip
"""A face that a panel is in. On a ceiling or a floor its place is from the left and from the wall out into the room; in
the side of a cabinet from the back of it towards its front, and off the floor."""


class Panel(Record, frozen=True, kw_only=True, omit_defaults=True):
    """An access panel, removable shelf or door through which something is changed."""

    kind: ClassVar[str] = "panel"
    letter: ClassVar[str] = "A"
    one: ClassVar[str] = "access panel"
    many: ClassVar[str] = "access panels"
    about: ClassVar[str] = "access panels, removable shelves and doors: how you get behind the finished wall"

    name: Annotated[str, F("name", "where it is, in your words", col=20, must=True, example=("Left of the fireplace",))]
    wall: Annotated[
        Ref, F("wall", "the wall it is on, like W1", col=5, kinds=("wall",), alone=True, group="Place and size")
    ] = Ref("")
    x: Annotated[Length | None, F("from left", "left end of the wall to its clear left edge", col=11, place=True)] = (
        None
    )
    y: Annotated[
        Length | None,
        F(
            "off the floor",
            "finished floor to its clear bottom edge; of a ceiling or a floor: out from the wall",
            col=11,
            was=("from floor",),
            place=True,
        ),
    ] = None
    width: Annotated[
        Length | None,
        F("clear width", "of the opening a hand goes through", col=10, above_zero=True, example=("12", "300")),
    ] = None
    height: Annotated[
        Length | None,
        F("clear height", "of the opening a hand goes through", col=10, above_zero=True, example=("10", "250")),
    ] = None
    face: Annotated[PanelFace, F("face", "nearest = the build-out's front there, or the wall")] = "nearest"
    on: Annotated[
        Ref, F("in", "the build-out or the cabinet it is in", kinds=("buildout", "opening"), was=("build-out",))
    ] = Ref("")
    hinge: Annotated[
        Literal["unknown", "left", "right", "top", "bottom"], F("hinge side", "of one that swings, as you face it")
    ] = "unknown"
    opens: Annotated[
        Literal["hinged", "lift-out", "screwed", "magnets", "touch latch", "removable shelf", "door"],
        F("opens", "how it comes off", col=12),
    ] = "hinged"
    behind: Annotated[tuple[Ref, ...], F("behind it", "tags, like K3 B2 E5", col=18, group="Behind it")] = ()
    holds: Annotated[Note, F("also behind it", "in words: joints, valves, slack")] = Note("")
    passes: Annotated[
        Literal["one hand", "two hands", "an arm", "a part"], F("must pass", "what has to get through")
    ] = "two hands"
    part: Annotated[Ref, F("largest part", "the largest part swapped through it", kinds=("equipment",))] = Ref("")
    blocked_by: Annotated[Ref, F("blocked by", "what is fixed in front of it", kinds=("equipment", "opening"))] = Ref(
        ""
    )
    fitted: Annotated[
        Day | None, F("installed", "the day the panel itself went in", col=12, was=("fitted",), when="past")
    ] = None


class Visit(Record, frozen=True, kw_only=True, omit_defaults=True):
    """One opening of an access panel, for the log."""

    kind: ClassVar[str] = "visit"
    letter: ClassVar[str] = "V"
    one: ClassVar[str] = "visit"
    many: ClassVar[str] = "visits"
    about: ClassVar[str] = "each time you open an access panel: why, what you found, what you changed"

    panel: Annotated[
        Ref, F("access panel", "the one that was opened, like A1", col=6, kinds=("panel",), must=True, was=("panel",))
    ]
    date: Annotated[Day, F("date", col=12, when="past")]
    who: Annotated[str, F("who", "who opened it", col=14, must=True, example=("Robin",))]
    why: Annotated[str, F("why", col=24, example=("new HDMI cable",))] = ""
    found: Annotated[Note, F("found", "what you saw", col=24)] = Note("")
    changed: Annotated[Note, F("changed", "what you changed")] = Note("")


class Photo(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A picture of the open wall, or of a label: the only way to see through board later."""

    kind: ClassVar[str] = "photo"
    letter: ClassVar[str] = "F"
    one: ClassVar[str] = "photo"
    many: ClassVar[str] = "photos"
    about: ClassVar[str] = "photos of the open wall, labels and nameplates: the only way to see through drywall later"

    file: Annotated[str, F("file", "path of the picture", col=30, must=True, example=("photos/left-bay.jpg",))]
    shows: Annotated[str, F("shows", "what you see in it", col=24, example=("left stud bay before drywall",))] = ""
    of: Annotated[tuple[Ref, ...], F("belongs to", "tags of what it shows, like B2 K3", was=("of",), col=12)] = ()
    wall: Annotated[Ref, F("wall", "the wall it is on, like W1", kinds=("wall",))] = Ref("")
    x: Annotated[Length | None, F("from left", "left end of the wall to what it shows", place=True)] = None
    y: Annotated[
        Length | None, F("off the floor", "finished floor to what it shows", was=("from floor",), place=True)
    ] = None
    date: Annotated[Day | None, F("date", "the day it was taken", col=12, when="past")] = None
