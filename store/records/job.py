"""The job itself: what holds for the whole wall."""

from typing import Annotated, ClassVar, Literal

from store.measure.length import INCH_NM, Length
from store.measure.money import Money
from store.records.base import Record
from store.records.field import F, Ref

LabelPaper = Literal[
    "usual", "letter-30", "letter-10", "letter-80", "letter-wrap-49", "a4-21", "a4-65", "a4-wrap-40", "roll-12",
    "roll-24", "roll-2x1",
]  # fmt: skip
"""The label papers; `usual` is the first of the job's own size of page."""


class Settings(Record, frozen=True, kw_only=True, omit_defaults=True):
    """The one record that speaks of the job as a whole; its tag is `job`."""

    kind: ClassVar[str] = "job"
    one: ClassVar[str] = "job"
    many: ClassVar[str] = "jobs"
    about: ClassVar[str] = "what applies to the whole job"

    name: Annotated[str, F("name", "what you call this wall", must=True, example=("Living room wall",))]
    room: Annotated[str, F("room", example=("living room",))] = ""
    owner: Annotated[str, F("owner", "who keeps this book; signs off from the screen", example=("Robin",))] = ""
    units: Annotated[Literal["feet-inches", "millimetres"], F("units", "how you type and read lengths")] = "feet-inches"
    region: Annotated[Literal["us", "metric"], F("code region", "us: 120 V and NEC; metric: 230 V and mm²")] = "us"
    currency: Annotated[str, F("currency", "three letters, like USD or EUR")] = "USD"
    decimal: Annotated[Literal["point", "comma"], F("decimal sign", "point or comma in numbers")] = "point"
    budget: Annotated[Money | None, F("budget", "for the whole wall", example=("6000",))] = None
    contingency: Annotated[
        float, F("contingency", "percent of the budget kept for surprises", unit="%", example=("10",))
    ] = 10.0
    holdback: Annotated[
        float,
        F(
            "retainage",
            "percent kept from each trade until the work is signed back",
            unit="%",
            was=("held back",),
            example=("10",),
        ),
    ] = 10.0
    permit: Annotated[
        Literal["unknown", "needed", "not needed"], F("permit", "ask the building department before wiring")
    ] = "unknown"
    permit_by: Annotated[str, F("no permit, said by", "who said that no permit is needed")] = ""
    permit_office: Annotated[str, F("no permit, office", "the office of whoever said so")] = ""
    permit_no: Annotated[str, F("permit no.", "as on the permit", example=("2026-0417",))] = ""
    address: Annotated[str, F("address", "of the house, for whoever comes", group="For the trades")] = ""
    getting_in: Annotated[str, F("getting in", "door, parking, key box, dog; what to know at the door")] = ""
    phone: Annotated[str, F("owner's phone", "who to call on site")] = ""
    policy: Annotated[str, F("policy no.", "of the insurance of the house")] = ""
    seat: Annotated[
        Length | None,
        F(
            "seat to TV",
            "eyes to picture, along the floor",
            group="Seat",
            was=("seat to screen",),
            place=True,
            example=("10'", "3000"),
        ),
    ] = None
    eye: Annotated[
        Length | None, F("seated eye height", "off the finished floor", place=True, example=("42", "1070"))
    ] = None
    finish: Annotated[
        Length,
        F(
            "wall finish",
            "thickness of the drywall on the studs",
            group="Wall",
            above_zero=True,
            example=("1/2", "12.5"),
        ),
    ] = Length(INCH_NM // 2)
    longest_sheet: Annotated[
        Length | None,
        F(
            "longest sheet",
            "longest drywall that gets up the stairs to the room; blank = 12 ft",
            above_zero=True,
            example=("10'", "3000"),
        ),
    ] = None
    hallway: Annotated[
        Length | None,
        F(
            "hallway on the way in",
            "clear width before the tightest corner that sheets are carried round; blank = no tight corner",
            above_zero=True,
            example=("36", "900"),
        ),
    ] = None
    turns_into: Annotated[
        Length | None,
        F(
            "turns into",
            "clear width of the doorway or hallway after that corner; blank = the widest door",
            above_zero=True,
            example=("32", "800"),
        ),
    ] = None
    drying_f: Annotated[
        float,
        F(
            "drying temperature",
            "of the room while joint compound dries",
            was=("room while drying",),
            unit="°F",
            above_zero=True,
            example=("65", "18"),
        ),
    ] = 65.0
    humidity: Annotated[
        float,
        F(
            "drying humidity",
            "of the room while joint compound dries",
            was=("humidity while drying",),
            unit="%",
            example=("50",),
        ),
    ] = 50.0
    tolerance: Annotated[Length, F("tolerance", "spread of readings you accept", example=("1/8", "3"))] = Length(
        INCH_NM // 8
    )
    edition: Annotated[Literal["2017", "2020", "2023"], F("code edition", "ask your electrician", region="us")] = "2020"
    waste: Annotated[
        float,
        F(
            "cable waste",
            "added to every run for sag and detours; 10 is common practice",
            unit="%",
            group="Cables",
            example=("10",),
        ),
    ] = 10.0
    waste_by_kind: Annotated[
        tuple[str, ...], F("waste by kind", "by type or family, like nm 15, cat6 5; others as above")
    ] = ()
    slack: Annotated[
        tuple[str, ...],
        F(
            "slack at ends",
            "by type and end, like cat6 box 18 in, speaker device 5 ft; blank = default",
            was=("left over at ends",),
        ),
    ] = ()
    plugs: Annotated[
        tuple[str, ...],
        F("plug lengths", "off the socket, by type or family, like hdmi 2 1/4, cat6 1 1/2; blank = default"),
    ] = ()
    arm: Annotated[
        Length | None,
        F("arm reach", "how far in you can still work; blank = 24 in, common practice", example=("24", "600")),
    ] = None
    children: Annotated[
        Literal["unknown", "yes", "no"],
        F("small children", "yes = they live or visit here; what they can reach is checked"),
    ] = "unknown"
    proposed: tuple[Ref, ...] = ()
    """What the first plan proposed, by tag. It says so until someone changed it or agreed to it."""
    label_paper: Annotated[LabelPaper, F("label paper", "the sheet you print labels on")] = "usual"

    @property
    def metric(self) -> bool:
        """True when lengths are typed and shown in millimetres."""
        return self.units == "millimetres"
