"""Findings about money: a budget that will not do, a reserve used up, more paid than was agreed."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.money import show_money
from store.measure.numbers import with_unit
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.money.ledger import WHOLE, Quote, ledger, ledger_totals, quotes
from store.trade.money.sums import with_holdback

PRACTICE = "common practice"


@rule
def over_budget(job: Job) -> Iterable[Finding]:
    """The job will cost more than its budget, or leaves nothing of it for surprises."""
    budget, found = job.settings.budget, ledger_totals(job)
    if not budget:
        return
    will = show_money(found.forecast, job.settings.currency)
    have = show_money(budget, job.settings.currency)
    if found.forecast > budget:
        over = show_money(found.forecast - budget, job.settings.currency)
        yield Finding(
            "over_budget", "fix", ("job",),
            f"{over} over budget",
            "Drop or swap what can wait, ask for another quote, or raise the budget.",
            PRACTICE, {"will cost": will, "budget": have},
why=f"If nothing changes, the projected cost is {will}; the budget is {have}.",
        )  # fmt: skip


@rule
def reserve_used_up(job: Job) -> Iterable[Finding]:
    """What the job costs beyond the plan has eaten the contingency."""
    found = ledger_totals(job)
    if found.contingency and found.contingency_left < 0:
        kept = show_money(found.contingency, job.settings.currency)
        over = show_money(found.forecast - found.planned, job.settings.currency)
        yield Finding(
            "reserve_used_up", "look", ("job",),
            f"Contingency used up: {over} over the plan",
            "Look at what changed since the plan, and decide what pays for it.",
            PRACTICE, {"over": over, "kept": kept},
why=f"The contingency was {kept}.",
        )  # fmt: skip


@rule
def holdback_beyond_the_whole(job: Job) -> Iterable[Finding]:
    """More than a whole promise is to be held back: a slip of the hand."""
    typed = job.settings.holdback
    if typed > WHOLE:
        yield Finding(
            "holdback_beyond_the_whole", "look", ("job",),
            f"Retainage of {with_unit(typed, '%')} is over 100%",
            "Correct it in the job settings. 5 to 10% is usual.",
            PRACTICE, {"held back": f"{typed:g} %"},
why="It counts as 100%.",
        )  # fmt: skip


@rule
def paid_too_much(job: Job) -> Iterable[Finding]:
    """More was paid than was agreed, or the whole before the work is signed back."""
    for row in ledger(job):
        line = row.line
        if line.committed is None or line.closed:
            continue
        paid, agreed = (show_money(each, job.settings.currency) for each in (line.paid, line.committed))
        if line.paid > line.committed:
            head = f"Paid {paid} of {agreed} agreed"
            says = f"{paid} is paid to {row.name}, and {agreed} was agreed."
            remedy = "Enter the quote for what was added, or ask for the difference back."
        elif row.sort == "trade" and row.held < (due := with_holdback(line.committed, line.holdback_percent)[1]):
            kept, due_words = (show_money(each, job.settings.currency) for each in (row.held, due))
            says = (
                f"{paid} of {agreed} is paid to {row.name}, and the work is not signed back: retainage is "
                f"{kept}, {due_words} was agreed."
            )
            head = f"Retainage too small: {kept} of {due_words}"
            remedy = "Have the packet signed back, and check that everything they must leave is there."
        else:
            continue
        yield Finding(
            "paid_too_much", "look", (row.key,), head, remedy, PRACTICE, {"paid": paid, "agreed": agreed}, why=says
        )


@rule
def quotes_in_other_words(job: Job) -> Iterable[Finding]:
    """Quotes of one trade from several people that are all counted, because they are for differently worded work."""
    counted: dict[str, list[Quote]] = {}
    for (trade, _), rows in quotes(job).items():
        counted.setdefault(trade, []).extend(each for each in rows if each.counted)
    for trade, mine in counted.items():
        people = list(dict.fromkeys(each.contact for each in mine))
        if len(people) < 2 or not any(each.state in ("to ask", "quoted") for each in mine):
            continue
        sums = [
            f"{show_money(each.amount, job.settings.currency)} of {each.name} for {each.scope or 'no scope entered'}"
            for each in mine
        ]
        yield Finding(
            "quotes_in_other_words", "look", tuple(people),
            f"All quotes of the {trade} are counted",
            (
"If they are for the same work, write the same words under \"covers\". Then they are "
"compared, and one is counted."
),
            PRACTICE, {each.tag: f"{each.amount} {each.scope}" for each in mine},
why=f"Each is for something else: {'; '.join(sums)}.",
about=(),
        )  # fmt: skip
