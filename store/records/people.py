"""People, time and money: contacts, steps, amounts, handoffs and wishes."""

from typing import Annotated, ClassVar, Literal

from store.measure.money import Money
from store.records.base import Record
from store.records.field import Day, F, Ref

Trade = Literal[
    "owner",
    "electrician",
    "carpenter",
    "low-voltage",
    "drywall",
    "painter",
    "hvac",
    "inspector",
    "supplier",
    "other",
]
Stage = Literal["Survey", "Design", "Mock-up", "Rough-in", "Drywall", "Finish", "Hook-up", "In use"]


class Contact(Record, frozen=True, kw_only=True, omit_defaults=True):
    """Someone who works on the wall, sells for it or inspects it."""

    kind: ClassVar[str] = "contact"
    letter: ClassVar[str] = "T"
    one: ClassVar[str] = "contact"
    many: ClassVar[str] = "contacts"
    about: ClassVar[str] = "who works on the wall, sells for it or inspects it"

    name: Annotated[str, F("name", col=22, must=True, example=("Sam Rivers",))]
    trade: Annotated[Trade, F("trade", "what they do here", col=12, must=True)]
    state: Annotated[Literal["to ask", "quoted", "booked", "done"], F("state", "where you are with them", col=8)] = (
        "to ask"
    )
    phone: Annotated[str, F("phone", "where you reach them", col=15, example=("555-0123", "020 7946 0000"))] = ""
    mail: Annotated[str, F("email", "where packets go", col=24, was=("mail",), example=("ann@example.com",))] = ""
    licence: Annotated[
        str, F("license no.", "as on the license", group="Papers", was=("licence number",), example=("EL-00417",))
    ] = ""
    licence_until: Annotated[Day | None, F("license until", col=13, was=("licence until",), when="ahead")] = None
    insured_until: Annotated[Day | None, F("insured until", col=13, when="ahead")] = None
    call_on: Annotated[Day | None, F("call on", "the day to call them next", when="ahead")] = None
    week: Annotated[
        Literal["mon-fri", "mon-sat", "weekends", "every day"],
        F("working week", "the days they work", group="Working days"),
    ] = "mon-fri"
    days_off: Annotated[tuple[str, ...], F("days off", "dates or weekdays, like 2026-12-24, every fri")] = ()


class Step(Record, frozen=True, kw_only=True, omit_defaults=True):
    """One piece of work in its order."""

    kind: ClassVar[str] = "step"
    letter: ClassVar[str] = "S"
    one: ClassVar[str] = "step"
    many: ClassVar[str] = "steps"
    about: ClassVar[str] = "the work in order: what each step waits for and who does it"

    what: Annotated[
        str, F("step", "the work, in a few words", col=28, must=True, was=("what",), example=("Pull the cables",))
    ]
    stage: Annotated[Stage, F("stage", "stage of the job it belongs to", col=9)] = "Rough-in"
    days: Annotated[float, F("working days", "rounded up to whole days", unit="d", col=8, example=("2",))] = 1.0
    after: Annotated[
        tuple[Ref, ...], F("after", "steps that must be done first, like S1 S4", col=12, kinds=("step",))
    ] = ()
    wait: Annotated[int, F("waiting days", "drying or waiting afterwards, calendar days", example=("1",))] = 0
    who: Annotated[Ref, F("who", "contact, like T2", col=6, kinds=("contact",))] = Ref("")
    booked: Annotated[Day | None, F("booked start", col=12, when="ahead")] = None
    began: Annotated[Day | None, F("began", when="past")] = None
    done: Annotated[Day | None, F("done", col=12, when="past")] = None


class Amount(Record, frozen=True, kw_only=True, omit_defaults=True):
    """An amount of money: quoted, paid or paid back."""

    kind: ClassVar[str] = "money"
    letter: ClassVar[str] = "M"
    one: ClassVar[str] = "amount"
    many: ClassVar[str] = "amounts"
    about: ClassVar[str] = "quotes, deposits, payments and refunds"

    date: Annotated[Day | None, F("date", col=12)] = None
    of: Annotated[
        Ref, F("for", "contact or equipment it is for, like T2", was=("of",), col=6, kinds=("contact", "equipment"))
    ] = Ref("")
    what: Annotated[
        Literal["planned", "quote", "deposit", "paid", "refund"], F("kind", "what kind of amount", col=9, must=True)
    ]
    amount: Annotated[Money, F("amount", "in the job's currency", col=12, example=("450",))]
    scope: Annotated[str, F("covers", "what it pays for", col=24, was=("for",), example=("rough-in wiring",))] = ""
    leaves_out: Annotated[str, F("leaves out", "what a quote does not cover", example=("patching",))] = ""


class Handoff(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A packet given to a trade, and when it was signed back."""

    kind: ClassVar[str] = "handoff"
    letter: ClassVar[str] = "H"
    one: ClassVar[str] = "packet"
    many: ClassVar[str] = "packets"
    about: ClassVar[str] = "what you give each trade, and when it comes back signed"

    trade: Annotated[Trade, F("trade", "who the packet is for", col=12, must=True)]
    contact: Annotated[Ref, F("contact", "who gets it, like T2", col=8, kinds=("contact",))] = Ref("")
    given: Annotated[Day | None, F("sent", "the day you gave them the packet", col=12, was=("given",), when="past")] = (
        None
    )
    point: Annotated[int, F("up to change", "how far it goes in this job's history; Space fills it in", col=10)] = 0
    signed: Annotated[Day | None, F("signed back", "the day they signed it", col=12, was=("signed",), when="past")] = (
        None
    )


class Wish(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A look or a feature that is wanted."""

    kind: ClassVar[str] = "wish"
    letter: ClassVar[str] = "L"
    one: ClassVar[str] = "wish"
    many: ClassVar[str] = "wishes"
    about: ClassVar[str] = "looks and features you want, kept or dropped, and what serves them"

    what: Annotated[str, F("wish", col=34, must=True, example=("no cable in sight",))]
    picture: Annotated[str, F("picture", "link or path", example=("photos/idea.jpg",))] = ""
    kept: Annotated[Literal["open", "kept", "dropped"], F("state", "open until you decide", col=8, was=("kept",))] = (
        "open"
    )
    why: Annotated[str, F("why", "kept or dropped", col=24, example=("too deep",))] = ""
    served_by: Annotated[tuple[Ref, ...], F("served by", "tags of what makes it possible", col=12)] = ()
    years: Annotated[
        int | None,
        F(
            "in years",
            "years from now, if wanted later: what it needs must be ready while the wall is open",
            example=("5",),
        ),
    ] = None
