"""The job itself: what holds for the whole wall."""

from typing import Annotated, ClassVar, Literal

from store.measure.length import INCH_NM, Length
from store.measure.money import Money
from store.records.base import Record
from store.records.field import F

LabelPaper = Literal["usual", "letter-30", "letter-80", "letter-wrap-49", "a4-21", "a4-65", "a4-wrap-40"]
"""The label papers; `usual` is the first of the job's own size of page."""


class Settings(Record, frozen=True, kw_only=True, omit_defaults=True):
    """The one record that speaks of the job as a whole; its tag is `job`."""

    kind: ClassVar[str] = "job"
    one: ClassVar[str] = "job"
    many: ClassVar[str] = "jobs"
    about: ClassVar[str] = "what holds for the whole wall"

    name: Annotated[str, F("name", "what you call this wall", must=True)]
    room: Annotated[str, F("room")] = ""
    owner: Annotated[str, F("owner", "who keeps this book; signs what is done from the screen")] = ""
    units: Annotated[Literal["feet-inches", "millimetres"], F("units", "how lengths are typed and shown")] = (
        "feet-inches"
    )
    region: Annotated[Literal["us", "metric"], F("code region", "us: 120 V tables; metric: 230 V, mm² tables")] = "us"
    currency: Annotated[str, F("currency", "three letters, like USD or EUR")] = "USD"
    decimal: Annotated[
        Literal["point", "comma"], F("decimal sign", "what you type before a fraction: 1,234.50 or 1.234,50")
    ] = "point"
    budget: Annotated[Money | None, F("budget")] = None
    contingency: Annotated[float, F("contingency", "kept back for surprises", unit="%")] = 10.0
    holdback: Annotated[float, F("held back", "of what a trade is promised, until it has signed", unit="%")] = 10.0
    permit: Annotated[
        Literal["unknown", "needed", "not needed"], F("permit", "ask the building office before wiring")
    ] = "unknown"
    permit_by: Annotated[str, F("no permit, said by", "who said that no permit is needed")] = ""
    permit_office: Annotated[str, F("no permit, office", "the office of whoever said so")] = ""
    seat: Annotated[Length | None, F("seat to screen", "eyes to picture, along the floor", group="Seat")] = None
    eye: Annotated[Length | None, F("seated eye height", "measured from the finished floor")] = None
    finish: Annotated[
        Length, F("wall finish", "thickness of the board on the studs", group="Wall", above_zero=True)
    ] = Length(INCH_NM // 2)
    longest_sheet: Annotated[
        Length | None, F("longest sheet", "of drywall that gets into the room; empty: 12 ft", above_zero=True)
    ] = None
    drying_f: Annotated[float, F("room while drying", "temperature", unit="°F", above_zero=True)] = 65.0
    humidity: Annotated[float, F("humidity while drying", "of the air", unit="%")] = 50.0
    tolerance: Annotated[Length, F("tolerance", "spread of readings that needs no remark")] = Length(INCH_NM // 8)
    edition: Annotated[Literal["2017", "2020", "2023"], F("code edition", "as your electrician says")] = "2020"
    waste: Annotated[
        float,
        F("cable waste", "added to every path for sag and detours; 10 is common practice", unit="%", group="Cables"),
    ] = 10.0
    waste_by_kind: Annotated[
        tuple[str, ...], F("waste by kind", "where it is another, by kind or family, like nm 15, cat6 5; else as above")
    ] = ()
    slack: Annotated[
        tuple[str, ...],
        F("left over at ends", "by kind and end, like cat6 box 18 in, speaker device 5 ft; else what is usual"),
    ] = ()
    children: Annotated[
        Literal["unknown", "yes", "no"], F("small children", "live or visit here: what they can reach is looked at")
    ] = "unknown"
    label_paper: Annotated[LabelPaper, F("label paper", "the sheet that labels are printed on")] = "usual"

    @property
    def metric(self) -> bool:
        """True when lengths are typed and shown in millimetres."""
        return self.units == "millimetres"
