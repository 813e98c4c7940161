"""The ledger in words, for the screen and for paper: the sums, the groups, what changed since the plan."""

from __future__ import annotations

import msgspec

from store.measure.money import show_money
from store.measure.numbers import with_unit
from store.records.whole import Job
from store.rules.money.ledger import Row, by_category, changes, ledger_totals

GROUP_TITLES = ("planned", "quoted", "promised", "paid", "to pay", "retainage", "projected cost")


class Sum(msgspec.Struct, frozen=True):
    """One sum of the whole job."""

    name: str
    amount: int
    strong: bool = False
    """It is the one that the others lead to."""


def sums(job: Job) -> tuple[Sum, ...]:
    """Planned, quoted, promised, paid, still to pay, held back, the cost at the end, and what is kept for surprises."""
    found, budget = ledger_totals(job), job.settings.budget
    share = with_unit(job.settings.contingency, "%", metric=job.settings.metric)
    rows = [
        Sum("planned", found.planned),
        Sum("quoted", found.quoted),
        Sum("promised (committed)", found.committed),
        Sum("paid", found.paid),
        Sum("still to pay", found.still_to_pay),
        Sum("of that, retainage until signed back", found.held_back),
        Sum("projected cost, if nothing changes", found.forecast, strong=True),
        Sum("more than planned" if found.forecast >= found.planned else "less than planned",
            abs(found.forecast - found.planned)),
        Sum(f"kept for surprises, {share}", found.contingency),
        Sum("left of that", found.contingency_left),
    ]  # fmt: skip
    if budget is not None:
        rows += [Sum("budget", budget), Sum("left of the budget", budget - found.forecast)]
    return tuple(rows)


def groups(job: Job) -> tuple[tuple[str, ...], ...]:
    """A row for each trade and sort of thing: its name, and the amounts of GROUP_TITLES."""
    return tuple(
        (
            name,
            *(
                show_money(each, job.settings.currency, bare=True)
                for each in (
                    one.planned, one.quoted, one.committed, one.paid, one.still_to_pay, one.held_back, one.forecast
                )
            ),
        )
        for name, one in by_category(job).items()
    )  # fmt: skip


def changed_lines(job: Job) -> list[str]:
    """What will cost other than planned, a line each, the greatest change first."""
    return [change_words(row, job.settings.currency) for row in changes(job)]


def change_words(row: Row, currency: str) -> str:
    """`T4 Jo costs 150.00 more than planned (1,000.00, now 1,150.00)`."""
    way = "more" if row.change > 0 else "less"
    was, now, by = (show_money(each, currency) for each in (row.line.planned, row.expected, abs(row.change)))
    planned = f"{was}, now {now}" if row.line.planned else f"nothing was planned, now {now}"
    return f"{row.key} {row.name} costs {by} {way} than planned ({planned})"
