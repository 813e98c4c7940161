"""Money of the job in whole minor units (cents): what is planned, promised, paid and still to come.

No binary fractions anywhere: a share is rounded once, and the parts of a split always add up to the whole.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from fractions import Fraction

import msgspec

Share = int | Decimal | Fraction

CONTINGENCY_PERCENT = 15
"""Reserve on the plan: 10 % to 20 %, nearer 20 % in an older house. Common practice, no source."""
HOLDBACK_PERCENT = 10
"""Share of each payment kept until the end: 5 % to 10 %. Common practice; the contract and local law win."""


class Line(msgspec.Struct, frozen=True, kw_only=True):
    """One thing or one trade to be paid for; all amounts in minor units."""

    planned: int = 0
    quoted: int | None = None
    """The quote that would be taken; None while there is none."""
    committed: int | None = None
    """What has been ordered or signed for; None while nothing is."""
    paid: int = 0
    """Paid less refunded: deposits count as paid."""
    closed: bool = False
    """Nothing more will be paid: what is paid is the cost."""
    holdback_percent: Share = 0
    """Share of what is committed that is kept until the end."""


class Totals(msgspec.Struct, frozen=True, kw_only=True):
    """The job's money; all amounts in minor units."""

    planned: int
    quoted: int
    committed: int
    paid: int
    still_to_pay: int
    """Forecast less paid, line by line; includes what is held back."""
    held_back: int
    """The part of `still_to_pay` that is kept until the end."""
    overpaid: int
    """Paid on closed or committed lines beyond what was committed."""
    forecast: int
    """What the job will have cost at the end, as far as it is known now."""
    contingency: int
    contingency_left: int
    """Contingency less what the forecast exceeds the plan by; negative when it is used up and more."""


def share_of(amount: int, percent: Share) -> int:
    """Return a percentage of an amount, rounded to the nearest minor unit, halves away from zero."""
    exact = Fraction(percent) * abs(amount) / 100
    size = abs(exact)
    whole = (2 * size.numerator + size.denominator) // (2 * size.denominator)
    return whole if (exact < 0) == (amount < 0) else -whole


def with_holdback(payment: int, percent: Share = HOLDBACK_PERCENT) -> tuple[int, int]:
    """Split a payment into what is paid now and what is held back; the two add up to the payment.

    Raises ValueError unless the share is from 0 to 100.
    """
    if not 0 <= percent <= 100:
        raise ValueError("a share held back lies between 0 and 100 %")
    kept = share_of(payment, percent)
    return payment - kept, kept


def split(amount: int, weights: Sequence[Share]) -> tuple[int, ...]:
    """Split an amount by weights (percentages or any shares) so that the parts add up to it exactly.

    Each part is within one minor unit of its exact share; spare units go to the largest remainders, and
    among equal ones to the first. Raises ValueError on a negative weight or weights that add up to nothing.
    """
    exact = [Fraction(one) for one in weights]
    whole = sum(exact, Fraction(0))
    if whole <= 0 or min(exact) < 0:
        raise ValueError("weights are not negative and add up to more than nothing")
    shares = [abs(amount) * one / whole for one in exact]
    parts = [one.numerator // one.denominator for one in shares]
    by_remainder = sorted(range(len(parts)), key=lambda at: (parts[at] - shares[at], at))
    for at in by_remainder[: abs(amount) - sum(parts)]:
        parts[at] += 1
    return tuple(-one for one in parts) if amount < 0 else tuple(parts)


def expected(line: Line) -> int:
    """Return what a line will have cost: paid if closed, else committed, else quoted, else planned, and never
    less than what is paid already; minor units."""
    if line.closed:
        return line.paid
    for figure in (line.committed, line.quoted):
        if figure is not None:
            return max(figure, line.paid)
    return max(line.planned, line.paid)


def held_back(line: Line) -> int:
    """Return how much of what is still to pay on a line is kept until the end; minor units."""
    if line.closed or line.committed is None:
        return 0
    _now, kept = with_holdback(line.committed, line.holdback_percent)
    return min(kept, max(0, line.committed - line.paid))


def totals(lines: Iterable[Line], contingency_percent: Share = CONTINGENCY_PERCENT) -> Totals:
    """Add the lines up. The contingency is a share of the whole plan. Raises ValueError if it is negative."""
    if contingency_percent < 0:
        raise ValueError("a contingency cannot be negative")
    rows = list(lines)
    planned = sum(one.planned for one in rows)
    forecast = sum(expected(one) for one in rows)
    contingency = share_of(planned, contingency_percent)
    return Totals(
        planned=planned,
        quoted=sum(one.quoted or 0 for one in rows),
        committed=sum(one.committed or 0 for one in rows),
        paid=sum(one.paid for one in rows),
        still_to_pay=sum(expected(one) - one.paid for one in rows),
        held_back=sum(held_back(one) for one in rows),
        overpaid=sum(max(0, one.paid - one.committed) for one in rows if one.committed is not None),
        forecast=forecast,
        contingency=contingency,
        contingency_left=contingency - max(0, forecast - planned),
    )
