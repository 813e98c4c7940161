"""Days to keep: calls to make, orders and returns, and the packets that wait for a hand."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date, timedelta

from store.records.equipment import Equipment
from store.records.people import Contact, Handoff, Trade
from store.records.whole import Job
from store.rules.agenda.due import Due, Place
from store.rules.buying.order_by import orders
from store.rules.buying.returns import return_days_left
from store.rules.core.wording import date_text, listed, named, plural
from store.rules.handoff.changes import Entry, changes_since
from store.rules.handoff.packet import last_given, open_of, trades_with_packets
from store.rules.handoff.people import contacts_of, visit_of
from store.rules.schedule.calendar import calendar
from store.rules.trades.all_signed import all_signed
from store.rules.trades.calls import calls

AHEAD_DAYS = 14
"""Days are told this far ahead (our own choice: two weekends)."""


def days(job: Job) -> list[Due]:
    """Calls, orders and returns up to two weeks ahead, by day; what is overdue stands first."""
    found = [*_calls(job), *_orders(job), *_returns(job)]
    last = job.today + timedelta(days=AHEAD_DAYS)
    near = [each for each in found if each.day is not None and each.day <= last]
    near.sort(key=lambda each: (each.day, each.key))
    return [*near, *_no_lead_days(job)]


def _calls(job: Job) -> Iterator[Due]:
    """One line for each person: everything that a call is about, by the first of its days."""
    found: dict[str, list[tuple[date, str]]] = {}
    for one in calls(job):
        found.setdefault(one.contact, []).append((one.day, one.why))
    for tag, whys in found.items():
        contact = job.of(Contact)[tag]
        reasons = "; ".join(why for _, why in whys)
        yield Due(
            group="days", key=f"call:{tag}", day=whys[0][0], tags=(tag,), place=Place("contacts", tag),
            what=f"Call {named(job, tag)}", do=f"{contact.phone}: {reasons}" if contact.phone else reasons, why=reasons,
        )  # fmt: skip


def _orders(job: Job) -> Iterator[Due]:
    for tag, one in orders(job).items():
        if one.order_by is not None:
            needed = f"for {one.step}" if one.step else "for its test fit"
            yield Due(
                group="days", key=f"order:{tag}", day=one.order_by, tags=(tag,), place=Place("equipment", tag),
                what=f"Order {named(job, tag)}", do=f"Needed {needed} on {date_text(job, one.needed_on)}",
            )  # fmt: skip
        elif one.expected is not None and one.expected < job.today:
            yield Due(
                group="days", key=f"arrival:{tag}", day=one.expected, tags=(tag,), place=Place("equipment", tag),
                what=f"Ask where {named(job, tag)} is", do=f"It was due on {date_text(job, one.expected)}",
            )  # fmt: skip


def _returns(job: Job) -> Iterator[Due]:
    for tag, one in job.of(Equipment).items():
        left = return_days_left(one, job)
        if left is not None and left >= 0:
            yield Due(
                group="days", key=f"return:{tag}", day=one.return_by, tags=(tag,), place=Place("equipment", tag),
                what=f"Try {named(job, tag)} in place", do="Or send it back: after this day you can't",
            )  # fmt: skip


def _no_lead_days(job: Job) -> Iterator[Due]:
    """What is still to buy and has no day to order by, since nobody entered how long it takes to come."""
    things = job.of(Equipment)
    blank = [tag for tag in orders(job) if things[tag].state == "to buy" and things[tag].lead is None]
    if blank:
        yield Due(
            group="days", key="lead", tags=tuple(blank), place=Place("equipment", blank[0]),
            what=f"{plural(len(blank), 'thing')} to buy, no order-by day", do="Ask the seller, enter the lead days",
            why=f"No lead days entered: {listed(blank[:12])}",
        )  # fmt: skip


def packets(job: Job, changed: Mapping[Trade, int], used: bool = False) -> list[Due]:
    """Packets to send, to send again and to ask back; `changed` says how many changes a trade was not told of. None is
    sent for the first time in a wall that is `used`, where no stage is left to work for."""
    found = ((trade, _packet(job, trade, changed.get(trade, 0))) for trade in trades_with_packets(job))
    return [due for trade, due in found if due is not None and not (used and last_given(job, trade) is None)]


def untold(job: Job, entries: Callable[[], Iterable[Entry]]) -> dict[Trade, int]:
    """How many changes each trade with a packet was not told of; `entries` reads the history, where one is out."""
    given = {trade: one for trade in trades_with_packets(job) if (one := last_given(job, trade)) is not None}
    if not given:
        return {}
    history = list(entries())
    return {trade: len(changes_since(job, one, history)) for trade, one in given.items()}


def _packet(job: Job, trade: Trade, changed: int) -> Due | None:
    given = last_given(job, trade)
    people = contacts_of(job, trade)
    to = named(job, people[0].tag) if people else f"the {trade}"
    draft = next((tag for tag, one in job.of(Handoff).items() if one.trade == trade and one.given is None), "")
    if given is not None and changed:
        what, do, tag = f"Tell {to} about {plural(changed, 'change')}", "v = what is new for them", given.tag
    elif given is not None and given.signed is None:
        left = len(open_of(job, trade))
        what, tag = f"{given.tag} not signed back: {to}", given.tag
        do = f"{plural(left, 'item')} on it still open. c = signed back" if left else "c = signed back"
    elif given is None and (start := _visit_start(job, trade)) is not None:
        what, do, tag = f"Send {to} the packet", f"Work can start {date_text(job, start)}", draft
    else:
        return None
    place = Place("packets", tag, trade=None if tag else trade)
    return Due(group="packet", key=f"packet:{trade}", what=what, do=do, place=place, tags=(tag,) if tag else ())


def _visit_start(job: Job, trade: Trade) -> date | None:
    """The first day of the next visit of a trade, where that is near; None where it is far, or nobody is named."""
    if trade == "owner" or not contacts_of(job, trade):
        return None
    _, visit = visit_of(job, trade)
    dated = calendar(job).dated
    starts = [
        dated[step.tag].start for step in visit if step.tag in dated and step.done is None and not all_signed(job, step)
    ]
    first = min(starts, default=None)
    return first if first is not None and first <= job.today + timedelta(days=AHEAD_DAYS) else None
