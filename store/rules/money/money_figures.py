"""Figures of money, in minor units of the job's currency: the whole job, and what each line will have cost."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.money import show_money
from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.money.ledger import ledger, ledger_totals


@figures_of("job", "contact", "equipment", "cable", "wall", "fixing", "opening")
def money(job: Job) -> Iterable[Figure]:
    """Totals, as text and (`_minor`) as a whole number of minor units."""
    found = ledger_totals(job)
    for name in found.__struct_fields__:
        yield "job", name, show_money(getattr(found, name), job.settings.currency)
        yield "job", f"{name}_minor", getattr(found, name)
    for row in ledger(job):
        yield row.key, "will_cost", show_money(row.expected, job.settings.currency)
        yield row.key, "will_cost_minor", row.expected
        yield row.key, "still_to_pay_minor", row.to_pay
