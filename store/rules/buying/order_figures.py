"""The day by which each thing is to be ordered."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.rules.buying.order_by import orders
from store.rules.core.figures import Figure, figures_of


@figures_of("equipment")
def order_days(job: Job) -> Iterable[Figure]:
    """The day each thing must be in the house, the last day to order it, and when it is expected."""
    for tag, one in orders(job).items():
        yield tag, "needed_on", one.needed_on.isoformat()
        yield tag, "needed_for_step", one.step
        if one.order_by is not None:
            yield tag, "order_by", one.order_by.isoformat()
        if one.expected is not None:
            yield tag, "expected_on", one.expected.isoformat()
