"""Handoffs: the packet of each trade as plain data, what it waits for, and what signing it back closes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from fractions import Fraction

import msgspec

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Field, Ref, fields_of
from store.records.gate import Closing
from store.records.people import Contact, Handoff, Stage, Step, Trade
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.buying.order_by import orders
from store.rules.core import cautions
from store.rules.core.checks import Item, close
from store.rules.core.findings import Finding, findings
from store.rules.core.wording import date_text
from store.rules.gate.gate import STAGES, Standing, standing
from store.rules.handoff.built import built
from store.rules.handoff.changes import Changed, Entry, changes_since
from store.rules.handoff.people import before_and_after, contacts_of, visit_of
from store.rules.handoff.questions import asked
from store.rules.handoff.scope import SCHEDULES
from store.rules.schedule.calendar import calendar, span, who_words
from store.rules.trades.calls import paper_name, papers_short

POUND_KG, FOOT_M = Fraction("0.45359237"), Fraction("0.3048")
METRIC_UNITS = {
    "in³": ("cm³", Fraction("2.54") ** 3),
    "in²": ("cm²", Fraction("2.54") ** 2),
    "cfm": ("m³/h", FOOT_M**3 * 60),
    "lb/ft²": ("kg/m²", POUND_KG / FOOT_M**2),
}
"""What a number that is kept in a unit of inches or feet is printed in for a metric job, and what one of it is worth
there (NIST SP 811, 2008, appendix B.8)."""
MOST_HOLDS = 12
"""Things that hold a stage that are told one by one; of more, only their number."""


class Ready(msgspec.Struct, frozen=True):
    """One thing that must be so before they come."""

    what: str
    met: bool
    why: str = ""
    """How it stands."""


class Listed(msgspec.Struct, frozen=True):
    """One schedule, filled in: titles and rows of text, the tag first; columns that are empty throughout left out."""

    title: str
    titles: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class Packet(msgspec.Struct, frozen=True, kw_only=True):
    """Everything that a trade is handed."""

    trade: Trade
    job: str
    contacts: tuple[Contact, ...]
    stage: Stage
    visit: tuple[Step, ...]
    """The steps of the next visit."""
    scope: tuple[str, ...]
    ready: tuple[Ready, ...]
    listed: tuple[Listed, ...]
    leaves: tuple[Item, ...]
    """The rough-in checks that they leave closed."""
    questions: tuple[str, ...]
    cautions: tuple[str, ...]
    before: tuple[Contact, ...]
    after: tuple[Contact, ...]
    given: Handoff | None = None
    changed: tuple[Changed, ...] = ()
    """What they must be told, because it changed since the packet was given."""

    @property
    def missing(self) -> tuple[Ready, ...]:
        """What makes it a draft."""
        return tuple(one for one in self.ready if not one.met)

    @property
    def draft(self) -> bool:
        """True while something that must be ready is not."""
        return bool(self.missing)


def packet(job: Job, trade: Trade, entries: Iterable[Entry] = (), *, found: list[Finding] | None = None) -> Packet:
    """The packet of a trade; `entries` is the history as plain data, for what changed since it was given."""
    found = findings(job) if found is None else found
    now = standing(job, found)
    stage, visit = visit_of(job, trade)
    before, after = before_and_after(job, trade)
    given = last_given(job, trade)
    own = (*_listed(job, trade), *_built(job, trade))
    tags = {row[0] for each in own for row in each.rows} | {step.tag for step in visit}
    return Packet(
        trade=trade,
        job=job.settings.name,
        contacts=contacts_of(job, trade),
        stage=stage,
        visit=visit,
        scope=(*_scope(job, visit), *(_deliveries(job) if trade == "supplier" else ())),
        ready=tuple(_ready(job, trade, stage, visit, now, [one for one in found if tags & set(one.tags)])),
        listed=own,
        leaves=tuple(item for item in now.items if item.check.trade == trade),
        questions=tuple(_questions(job, trade, [one for one in found if asked(job, trade, one, tags)])),
        cautions=_cautions(trade),
        before=before,
        after=after,
        given=given,
        changed=changes_since(job, given, entries) if given is not None else (),
    )


def trades_with_packets(job: Job) -> tuple[Trade, ...]:
    """The trades for which there is something to hand over, in the order of the table of schedules."""
    named = {one.trade for one in job.of(Contact).values()}
    named |= {item.check.trade for item in standing(job, []).items}  # type: ignore[misc]
    return tuple(trade for trade in SCHEDULES if trade in named)


def last_given(job: Job, trade: Trade) -> Handoff | None:
    """The newest packet that was given to a trade."""
    given = [one for one in job.of(Handoff).values() if one.trade == trade and one.given is not None]
    return max(given, key=lambda one: (one.given or date.min, one.point), default=None)


def handed(job: Job, trade: Trade, point: int, contact: str = "") -> Handoff:
    """The record of a packet that is given today, at a point of history; the caller saves it."""
    people = contacts_of(job, trade)
    who = contact or (people[0].tag if people else "")
    return Handoff(tag="", trade=trade, contact=Ref(who), given=job.today, point=point)


class SignedBack(msgspec.Struct, frozen=True):
    """What a packet that comes back signed closes, and what stays open for want of evidence."""

    handoff: Handoff
    closings: tuple[Closing, ...]
    still_open: tuple[Item, ...]


def open_of(job: Job, trade: Trade) -> list[Item]:
    """The open rough-in checks of a trade, in the order in which its packet prints them."""
    return [item for item in standing(job, []).items if item.check.trade == trade and item.open]


def by_signature(job: Job, handoff: Handoff, changed: Iterable[Changed]) -> dict[str, str]:
    """What the signature alone says, by check: of those that ask for no evidence and were on the sheet as it is now.

    `changed` is what changed since the packet was given: what is new or other than on the sheet, nobody signed for.
    """
    unseen = {one.tag for one in changed}
    return {
        item.key: f"signed back on packet {handoff.tag}"
        for item in open_of(job, handoff.trade)
        if not item.check.wants.strip() and not unseen & set(item.check.tags)
    }


def signed_back(job: Job, handoff: Handoff, by: str, day: date, evidence: Mapping[str, str]) -> SignedBack:
    """What it means that a packet is signed back by somebody; the caller saves it.

    `evidence` has, by the key of a check, what was written on its line; a check with no words there stays open.
    """
    closings, left = [], []
    for item in open_of(job, handoff.trade):
        words = evidence.get(item.key, "").strip()
        if words:
            closings.append(close(item.check, by, day, evidence=words))
        else:
            left.append(item)
    return SignedBack(msgspec.structs.replace(handoff, signed=day), tuple(closings), tuple(left))


# --- the parts of a packet ---


def _scope(job: Job, visit: tuple[Step, ...]) -> Iterator[str]:
    dated = calendar(job).dated
    for step in visit:
        when = f", {span(job, dated[step.tag].start, dated[step.tag].finish)}" if step.tag in dated else ""
        booked = " (booked)" if step.booked is not None else ""
        days = f"{step.days:g} working day{'' if step.days == 1 else 's'}"
        state = ", done" if step.done is not None else f", {days}{when}{booked}"
        yield f"{step.tag} {step.what}{state}" + (f". {step.notes}" if step.notes else "")


def _deliveries(job: Job) -> Iterator[str]:
    """What is to be brought, and the day on which it is needed."""
    for tag, one in sorted(orders(job).items(), key=lambda each: each[1].needed_on):
        yield f"{tag} {job.of(Equipment)[tag].name}: needed on site by {date_text(job, one.needed_on)}"


def _ready(
    job: Job, trade: Trade, stage: Stage, visit: tuple[Step, ...], now: Standing, found: list[Finding]
) -> Iterator[Ready]:
    """What must be so before they come: the stage, the steps before, the things they fit, papers, nothing to stop."""
    yield from _stage_ready(stage, now)
    steps, dated = job.of(Step), calendar(job).dated
    mine = {step.tag for step in visit}
    for tag in dict.fromkeys(tag for step in visit for tag in step.after if tag not in mine):
        if (before := steps.get(tag)) is None:
            continue
        due = f"expected by {date_text(job, dated[tag].finish)}" if tag in dated else "not done"
        why = f"done {date_text(job, before.done)}" if before.done else f"{due}, {who_words(job, before)}"
        yield Ready(f"{tag} {before.what}", before.done is not None, why)
    for thing, one in job.of(Equipment).items():
        if one.retired is None and one.needed_for in mine:
            yield Ready(f"{thing} {one.name} is on site", one.state == "owned", one.state)
    for contact in contacts_of(job, trade):
        yield from _papers(job, contact)
    for each in found:
        if each.severity == "stop" and not each.answered:
            yield Ready(f"{', '.join(each.tags)}: {each.in_full}", False, each.remedy)


def _stage_ready(stage: Stage, now: Standing) -> Iterator[Ready]:
    at, wanted = STAGES.index(now.stage), STAGES.index(stage)
    what = f"The job is at {stage}"
    if at >= wanted:
        yield Ready(what, True, "yes" if at == wanted else f"past it, at {now.stage}")
    elif at + 1 == wanted and not now.holds:
        yield Ready(what, True, f"{stage} is unlocked")
    elif at + 1 == wanted:
        for hold in now.holds[:MOST_HOLDS]:
            yield Ready(hold.what, False, f"holds {stage}")
        if len(now.holds) > MOST_HOLDS:
            yield Ready(f"{len(now.holds) - MOST_HOLDS} more", False, f"hold {stage}")
    else:
        yield Ready(what, False, f"it is at {now.stage}")


def _papers(job: Job, contact: Contact) -> Iterator[Ready]:
    short = {paper: step for paper, _, step in papers_short(job, contact)}
    for paper, until in (("licence", contact.licence_until), ("insurance", contact.insured_until)):
        if until is not None and contact.state != "done":
            # One that ends before its work does is no paper for that work, good as it is today.
            good = until >= job.today and paper not in short
            says = "until" if good else f"before {short[paper]} is done:" if paper in short else "ended"
            yield Ready(
                f"The {paper_name(paper).lower()} of {contact.name} is valid", good, f"{says} {date_text(job, until)}"
            )


def _listed(job: Job, trade: Trade) -> Iterator[Listed]:
    for schedule in SCHEDULES[trade]:
        records = [one for one in job.of(schedule.cls).values() if schedule.wanted(job, one)]
        if records:
            yield listed(job, schedule.title, records, schedule.fields)


def _built(job: Job, trade: Trade) -> Iterator[Listed]:
    for title, rows in built(job, trade):
        yield Listed(title, ("tag", "calculated"), folded(rows))


def folded(rows: Iterable[tuple[str, ...]]) -> tuple[tuple[str, ...], ...]:
    """What is calculated of each tag, said once of those of which it is the same, and last what holds for all."""
    said: dict[str, list[str]] = {}
    for tag, text in rows:
        said.setdefault(tag, []).append(text)
    of_all = [text for text in next(iter(said.values()), []) if all(text in texts for texts in said.values())]
    shared = of_all if len(said) > 1 else []
    tags: dict[tuple[str, ...], list[str]] = {}
    for tag, texts in said.items():
        tags.setdefault(tuple(text for text in texts if text not in shared), []).append(tag)
    own = [(", ".join(named), text) for texts, named in tags.items() for text in texts]
    return (*own, *(("all", text) for text in dict.fromkeys(shared)))


def listed(job: Job, title: str, records: Iterable[Record], keys: Iterable[str]) -> Listed:
    """A schedule of these records and fields, as this owner writes."""
    rows = list(records)
    known = {field.key: field for field in fields_of(type(rows[0]))}
    mine = [known[key] for key in keys if known[key].fits(job.manner)]
    fields = [each for each in mine if any(_shown(job, each, one) for one in rows)]
    return Listed(
        title,
        ("tag", *(field.says.title for field in fields)),
        tuple((one.tag, *(_shown(job, field, one) for field in fields)) for one in rows),
    )


def _shown(job: Job, field: Field, record: Record) -> str:
    value = getattr(record, field.key)
    nothing = (
        value is None or value in ("unknown", "none", "either", "nearest") or (value == 0 and value == field.default)
    )
    if nothing:
        return ""
    if not job.settings.metric or field.says.unit not in METRIC_UNITS:
        return field.show(value, job.manner)
    unit, factor = METRIC_UNITS[field.says.unit]
    exact = Fraction(str(value)) * factor
    whole = round(exact)
    return f"{'' if whole == exact else '~'}{whole} {unit}"


def _questions(job: Job, trade: Trade, found: list[Finding]) -> Iterator[str]:
    if trade in ("electrician", "inspector") and job.settings.permit == "unknown":
        yield "Is a permit needed for this wiring, who takes it out, and what does the inspector want to see open?"
    if trade == "carpenter" and any(wall.bearing == "unknown" for wall in job.of(Wall).values()):
        yield "Is the wall load-bearing? Cut no stud until someone licensed has said."
    for each in found:
        yield f"{', '.join(each.tags)}: {each.in_full} {each.remedy}"


def _cautions(trade: Trade) -> tuple[str, ...]:
    more = {
        "electrician": (cautions.MAINS, cautions.CORDS, cautions.FIREPLACE),
        "low-voltage": (cautions.MAINS, cautions.CORDS),
        "carpenter": (cautions.STUDS, cautions.FIREPLACE, cautions.CORDS),
        "drywall": ("Cover nothing that this sheet lists as open. Ask before you close a hole you can't explain.",),
        "inspector": (cautions.MAINS,),
        "hvac": (cautions.FIREPLACE,),
        "owner": (cautions.MAINS, cautions.CORDS, cautions.LADDER),
    }.get(trade, ())
    return (*more, cautions.PLANNING)
