"""Access for years: panels, the log of their openings, and photos of the open wall."""

from typing import Annotated, ClassVar, Literal

from store.measure.length import Length
from store.records.base import Record
from store.records.field import Day, F, Note, Ref


class Panel(Record, frozen=True, kw_only=True, omit_defaults=True):
    """An access panel, removable shelf or door through which something is changed."""

    kind: ClassVar[str] = "panel"
    letter: ClassVar[str] = "A"
    one: ClassVar[str] = "access panel"
    many: ClassVar[str] = "access panels"
    about: ClassVar[str] = "a way to what is behind the finished wall, kept for decades"

    name: Annotated[str, F("name", "where it is, in your words", col=20, must=True)]
    wall: Annotated[Ref, F("wall", "tag of the wall", col=5, kinds=("wall",), group="Place and size")] = Ref("")
    x: Annotated[Length | None, F("from left", "left corner to its clear left edge", col=11)] = None
    y: Annotated[Length | None, F("from floor", "finished floor to its clear bottom edge", col=11)] = None
    width: Annotated[Length | None, F("clear width", "what a hand gets through", col=10, above_zero=True)] = None
    height: Annotated[Length | None, F("clear height", col=10, above_zero=True)] = None
    opens: Annotated[
        Literal["hinged", "lift-out", "screwed", "magnets", "touch latch", "removable shelf", "door"],
        F("opens", "how it comes off", col=12),
    ] = "hinged"
    behind: Annotated[tuple[Ref, ...], F("behind it", "tags, like K3, B2, E5", col=18, group="Behind it")] = ()
    holds: Annotated[Note, F("also behind it", "in words: joints, valves, spare slack")] = Note("")
    passes: Annotated[Literal["one hand", "two hands", "an arm", "a part"], F("must pass", "what must get through")] = (
        "two hands"
    )
    part: Annotated[Ref, F("largest part", "that is swapped through it", kinds=("equipment",))] = Ref("")
    blocked_by: Annotated[Ref, F("blocked by", "fixed part in front of it", kinds=("equipment", "opening"))] = Ref("")
    fitted: Annotated[Day | None, F("fitted", "the day the panel itself went in", col=12)] = None


class Visit(Record, frozen=True, kw_only=True, omit_defaults=True):
    """One opening of an access panel, for the log."""

    kind: ClassVar[str] = "visit"
    letter: ClassVar[str] = "V"
    one: ClassVar[str] = "opening of a panel"
    many: ClassVar[str] = "openings of panels"
    about: ClassVar[str] = "each time a panel is opened: why, what was found, what was changed"

    panel: Annotated[Ref, F("panel", col=6, kinds=("panel",), must=True)]
    date: Annotated[Day, F("date", col=12)]
    who: Annotated[str, F("who", col=14, must=True)]
    why: Annotated[str, F("why", col=24)] = ""
    found: Annotated[Note, F("found", col=24)] = Note("")
    changed: Annotated[Note, F("changed")] = Note("")


class Photo(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A picture of the open wall, or of a label: the only way to see through board later."""

    kind: ClassVar[str] = "photo"
    letter: ClassVar[str] = "F"
    one: ClassVar[str] = "photo"
    many: ClassVar[str] = "photos"
    about: ClassVar[str] = "a picture of the open wall, of a label or of a rating plate"

    file: Annotated[str, F("file", "path of the picture", col=30, must=True)]
    shows: Annotated[str, F("shows", col=24)] = ""
    of: Annotated[tuple[Ref, ...], F("of", "tags it belongs to", col=12)] = ()
    wall: Annotated[Ref, F("wall", kinds=("wall",))] = Ref("")
    x: Annotated[Length | None, F("from left")] = None
    y: Annotated[Length | None, F("from floor")] = None
    date: Annotated[Day | None, F("date", col=12)] = None
