"""What the gate stands on: checks written by hand, closings, answers and passages."""

from typing import Annotated, ClassVar, Literal

from store.records.base import Record
from store.records.field import Day, F, Ref
from store.records.people import Stage, Trade

Proof = Literal["", "photo", "test", "inspection", "seen", "reason"]
"""What shows that an item is done; `reason`: it is not needed. Empty: it was signed off before form 3 of the file, when
no proof of a kind was asked for yet."""


class Check(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A rough-in item written by hand; it holds the drywall until it is closed."""

    kind: ClassVar[str] = "check"
    letter: ClassVar[str] = "Q"
    one: ClassVar[str] = "rough-in item"
    many: ClassVar[str] = "rough-in items"
    about: ClassVar[str] = "what must be done, seen and signed off before the wall is covered"

    what: Annotated[
        str,
        F(
            "item",
            "what must be true before the wall is covered",
            col=34,
            must=True,
            was=("what",),
            example=("Gas valve can be reached",),
        ),
    ]
    trade: Annotated[Trade, F("trade", "who does it", col=12)] = "owner"
    where: Annotated[str, F("where", "place on the wall, in words", col=18, example=("right of the fireplace",))] = ""
    about_tag: Annotated[Ref, F("belongs to", "the thing it is about, like B4", col=6)] = Ref("")
    wants: Annotated[str, F("proof needed", "photo, reading, or who saw it", col=18, was=("evidence wanted",))] = ""
    proof: Annotated[
        Literal["", "photo", "test", "inspection", "seen"],
        F("kind of proof", "the only kind that counts; blank = any, or what proof needed asks for"),
    ] = ""


class Closing(Record, frozen=True, kw_only=True, omit_defaults=True):
    """The word of someone that a check is done, or not needed; its tag is the key of the check."""

    kind: ClassVar[str] = "closing"
    one: ClassVar[str] = "sign-off"
    many: ClassVar[str] = "sign-offs"
    about: ClassVar[str] = "who signed off an item, when, and on what proof"

    outcome: Annotated[
        Literal["closed", "not needed"], F("state", "done, or not needed here", col=11, was=("outcome",))
    ] = "closed"
    date: Annotated[Day, F("date", col=12, when="past")]
    by: Annotated[str, F("signed off by", "who saw it", col=14, must=True, was=("by",))]
    proof: Annotated[Proof, F("kind of proof", "photo, test, inspection, or seen")] = ""
    evidence: Annotated[str, F("proof shown", "photo, test reading, or what was seen", col=30, was=("evidence",))] = ""
    office: Annotated[str, F("office", "for an inspection: the office or the inspector")] = ""
    reference: Annotated[str, F("reference", "for an inspection: report or permit no.")] = ""
    inspected: Annotated[Day | None, F("inspected", "the day of the inspection", when="past")] = None
    reason: Annotated[str, F("reason", "why it is not needed", col=20)] = ""
    pictures: dict[str, str] = {}
    """The content of each picture that it rests on, as a digest, by the file's path from the job's folder."""
    vouches: dict[str, str] = {}
    """What was true of the subject when it was closed; a change of it opens the check again."""


class Answer(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A person's answer to a finding; its tag is the key of the finding."""

    kind: ClassVar[str] = "answer"
    one: ClassVar[str] = "answer"
    many: ClassVar[str] = "answers"
    about: ClassVar[str] = "who accepted a problem, from what office, with what reference"

    date: Annotated[Day, F("date", col=12, when="past")]
    by: Annotated[str, F("accepted by", "the person who may decide", col=14, must=True, was=("by",))]
    office: Annotated[
        str, F("license or office", "license no., or the office that decides", col=18, was=("licence or office",))
    ] = ""
    reference: Annotated[str, F("reference", "letter, permit or code section", col=18)] = ""
    says: Annotated[str, F("answer", "what they decided", col=30, must=True)]
    vouches: dict[str, str] = {}
    """The numbers of the finding when it was answered; other numbers open it again."""


class Passage(Record, frozen=True, kw_only=True, omit_defaults=True):
    """A stage that was passed to; the stage of a job is calculated from these and never stored."""

    kind: ClassVar[str] = "passage"
    letter: ClassVar[str] = "P"
    one: ClassVar[str] = "stage"
    many: ClassVar[str] = "stages"
    about: ClassVar[str] = "the stages reached: when, by whom, and what was signed off"

    stage: Annotated[Stage, F("stage", "stage the job moved to", col=10, must=True)]
    date: Annotated[Day, F("date", col=12, when="past")]
    by: Annotated[str, F("by", "who moved the job on", col=14, must=True)]
    reason: Annotated[str, F("reason", "why you moved on with gate items open", col=30)] = ""
    checked: tuple[str, ...] = ()
    """Keys of the checks that existed, closed, when the stage was passed."""
