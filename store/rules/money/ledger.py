"""The money of a job, line by line: a contact, a thing or a cable, and what is paid to nobody named.

Amounts are minor units. Where nothing was planned for a line, the first figure noted counts as its plan: the first
quote of a contact, the price of a thing. A quote is promised (committed) when its contact is booked or done; a
thing when it is ordered or owned. Of quotes for the same scope by the same trade only one is counted: that of the
one who is booked, else the lowest.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import Literal

import msgspec

from store.measure.money import Money
from store.measure.numbers import show_number
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.people import Amount, Contact, Handoff, Step
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.core.was_done import cable_state
from store.trade.money.sums import Line, Totals, expected, held_back, totals

UNHELD = ("inspector", "supplier", "owner")
"""Trades from whom nothing is held back."""
WHOLE = Decimal(100)
"""No more than the whole can be held back, whatever was typed."""
OTHER = "other"
BOARDS = "boards"
"""On hand of an opening: its price stands beside its boards in the buying list."""
PAYMENTS = {"deposit": 1, "paid": 1, "refund": -1}


class Row(msgspec.Struct, frozen=True):
    """One line of the ledger."""

    key: str
    """Tag of the contact, thing, cable, wall, fixing or opening; `other` for amounts that name none."""
    name: str
    sort: Literal["trade", "thing", "cable", "material", "other"]
    category: str
    """The trade, or the sort of thing."""
    line: Line

    @property
    def expected(self) -> int:
        """What it will have cost."""
        return expected(self.line)

    @property
    def to_pay(self) -> int:
        """What is still to pay, with what is held back."""
        return self.expected - self.line.paid

    @property
    def held(self) -> int:
        """The part of it that is held back until it is signed."""
        return held_back(self.line)

    @property
    def change(self) -> int:
        """By how much it will cost more than planned."""
        return self.expected - self.line.planned


class Quote(msgspec.Struct, frozen=True):
    """A quote as it stands beside others for the same scope."""

    tag: str
    contact: str
    name: str
    amount: Money
    day: date | None
    scope: str
    leaves_out: str
    state: str
    counted: bool
    """It is the one that the ledger counts."""
    above_lowest: int


def percent(number: float) -> Decimal:
    """A typed percentage as an exact number."""
    return Decimal(show_number(number))


@by_key
def quotes(job: Job) -> Mapping[tuple[str, str], tuple[Quote, ...]]:
    """Quotes side by side, by trade and scope, the lowest first. A newer one of a contact replaces the older."""
    newest: dict[tuple[str, str], dict[str, Amount]] = {}
    for one in job.of(Amount).values():
        contact = job.of(Contact).get(one.of)
        if one.what != "quote" or contact is None:
            continue
        mine = newest.setdefault((contact.trade, same_scope(one.scope)), {})
        if one.of not in mine or (one.date or date.min) >= (mine[one.of].date or date.min):
            mine[one.of] = one
    return {key: _beside(job, list(rows.values())) for key, rows in newest.items()}


def same_scope(scope: str) -> str:
    """Scopes are the same when they are the same words in any case."""
    return " ".join(scope.lower().split())


def _beside(job: Job, rows: list[Amount]) -> tuple[Quote, ...]:
    rows.sort(key=lambda one: (one.amount, one.tag))
    contacts = [job.of(Contact)[one.of] for one in rows]
    taken = [one for one, contact in zip(rows, contacts, strict=True) if contact.state in ("booked", "done")]
    counted = {one.tag for one in taken or rows[:1]}
    return tuple(
        Quote(
            one.tag, contact.tag, contact.name, one.amount, one.date, one.scope, one.leaves_out, contact.state,
            one.tag in counted, one.amount - rows[0].amount,
        )
        for one, contact in zip(rows, contacts, strict=True)
    )  # fmt: skip


@once
def ledger(job: Job) -> tuple[Row, ...]:
    """Every line: contacts, things, cables with a price, and the rest."""
    amounts: dict[str, list[Amount]] = {}
    for one in job.of(Amount).values():
        amounts.setdefault(one.of, []).append(one)
    rows = [_contact_row(job, one, amounts.get(tag, [])) for tag, one in job.of(Contact).items()]
    rows += [_thing_row(one, amounts.get(tag, [])) for tag, one in job.of(Equipment).items()]
    rows += [_cable_row(job, one) for one in job.of(Cable).values() if one.price is not None]
    rows += [row for wall in job.of(Wall).values() if (row := _wall_row(wall)) is not None]
    rows += [
        Row(tag, one.what, "material", "material", _priced(one.price, one.bought))
        for tag, one in job.of(Fixing).items()
        if one.price is not None
    ]
    rows += [
        Row(tag, f"boards and hardware of {one.name}", "material", "material", _priced(one.price, BOARDS in one.parts))
        for tag, one in job.of(Opening).items()
        if one.price is not None
    ]
    if rest := amounts.get("", []):
        planned = _sum(rest, "planned")
        quoted = _sum(rest, "quote") if any(one.what == "quote" for one in rest) else None
        line = Line(planned=planned if planned is not None else quoted or 0, quoted=quoted, paid=_paid(rest))
        rows.append(Row(OTHER, "no name entered", "other", OTHER, line))
    return tuple(row for row in rows if row.line != Line(holdback_percent=row.line.holdback_percent))


def _contact_row(job: Job, one: Contact, amounts: list[Amount]) -> Row:
    mine = _counted(job).get(one.tag, ())
    quoted = sum(each.amount for each in mine) if mine else None
    planned = _sum(amounts, "planned")
    hired = one.state in ("booked", "done")
    line = Line(
        planned=planned if planned is not None else _first_quotes(amounts, {same_scope(each.scope) for each in mine}),
        quoted=quoted,
        committed=quoted if hired else None,
        paid=_paid(amounts),
        closed=one.state == "done" and quoted is None,
        holdback_percent=0
        if one.trade in UNHELD or signed_off(job, one)
        else min(WHOLE, percent(job.settings.holdback)),
    )
    return Row(one.tag, one.name, "trade", one.trade, line)


def _first_quotes(amounts: Iterable[Amount], scopes: set[str]) -> int:
    """The first quote for each scope that is counted."""
    first: dict[str, Amount] = {}
    for one in amounts:
        scope = same_scope(one.scope)
        if one.what != "quote" or scope not in scopes:
            continue
        if scope not in first or (one.date or date.min) < (first[scope].date or date.min):
            first[scope] = one
    return sum(one.amount for one in first.values())


def _thing_row(one: Equipment, amounts: list[Amount]) -> Row:
    price = one.price * one.count if one.price is not None else None
    planned = _sum(amounts, "planned")
    quoted = _sum(amounts, "quote") if any(each.what == "quote" for each in amounts) else price
    line = Line(
        planned=planned if planned is not None else quoted or 0,
        quoted=quoted,
        committed=(price if price is not None else quoted) if one.state != "to buy" else None,
        # `paid` of the thing is what was paid in all, and may repeat what is listed by the day.
        paid=max(one.paid or 0, _paid(amounts)) if not _refunded(amounts) else _paid(amounts),
        closed=one.retired is not None,
    )
    return Row(one.tag, one.name, "thing", one.what, line)


def _cable_row(job: Job, one: Cable) -> Row:
    return Row(
        one.tag, one.name or one.type, "cable", "cable", _priced(one.price or 0, cable_state(job, one) != "planned")
    )


def _wall_row(wall: Wall) -> Row | None:
    """What its lumber and its drywall cost, as far as that is entered."""
    prices = {"framing": wall.lumber_price, "drywall": wall.drywall_price}
    known = {part: price for part, price in prices.items() if price is not None}
    if not known:
        return None
    total, paid = sum(known.values()), sum(price for part, price in known.items() if part in wall.parts)
    line = Line(planned=total, quoted=total, committed=paid or None, paid=paid)
    return Row(wall.tag, f"lumber and drywall of {wall.name}", "material", "material", line)


def _priced(price: int, bought: bool) -> Line:
    """What is paid when it is bought."""
    return Line(planned=price, quoted=price, committed=price if bought else None, paid=price if bought else 0)


def _sum(amounts: Iterable[Amount], what: str) -> int | None:
    found = [one.amount for one in amounts if one.what == what]
    return sum(found) if found else None


def _paid(amounts: Iterable[Amount]) -> int:
    return sum(PAYMENTS[one.what] * one.amount for one in amounts if one.what in PAYMENTS)


def _refunded(amounts: Iterable[Amount]) -> bool:
    return any(one.what == "refund" for one in amounts)


@by_key
def _counted(job: Job) -> Mapping[str, list[Quote]]:
    """The quotes that count, by contact."""
    found: dict[str, list[Quote]] = {}
    for rows in quotes(job).values():
        for each in rows:
            if each.counted:
                found.setdefault(each.contact, []).append(each)
    return found


def signed_off(job: Job, contact: Contact) -> bool:
    """True when all that was given to a contact (or to its trade, naming nobody) is signed back, and its steps done."""
    at_work, given = _out(job)
    mine = given.get(contact.tag, []) + given.get(contact.trade, [])
    return contact.tag not in at_work and bool(mine) and all(one.signed is not None for one in mine)


@once
def _out(job: Job) -> tuple[set[str], dict[str, list[Handoff]]]:
    """The contacts who have a step that is not done, and the packets by contact, or by trade where none is named."""
    given: dict[str, list[Handoff]] = {}
    for one in job.of(Handoff).values():
        given.setdefault(one.contact or one.trade, []).append(one)
    return {step.who for step in job.of(Step).values() if step.done is None}, given


@once
def ledger_totals(job: Job) -> Totals:
    """The whole ledger added up."""
    return totals((row.line for row in ledger(job)), percent(job.settings.contingency))


def by_category(job: Job) -> dict[str, Totals]:
    """The ledger added up by trade and sort of thing, in the order in which they come up."""
    lines: dict[str, list[Line]] = {}
    for row in ledger(job):
        lines.setdefault(row.category, []).append(row.line)
    return {name: totals(each, 0) for name, each in lines.items()}


def changes(job: Job) -> list[Row]:
    """The lines that will cost other than planned, the greatest change first."""
    return sorted((row for row in ledger(job) if row.change), key=lambda row: -abs(row.change))
