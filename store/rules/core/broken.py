"""What a change breaks: the findings that were not there before it."""

from __future__ import annotations

from collections.abc import Sequence

from store.rules.core.findings import Finding


def newly(before: Sequence[Finding], after: Sequence[Finding]) -> list[Finding]:
    """The findings of `after` that `before` has not, or has with other numbers; the gravest first."""
    known = {(each.key, tuple(sorted(each.numbers.items()))) for each in before}
    return [each for each in after if (each.key, tuple(sorted(each.numbers.items()))) not in known]
