"""Small sets of linear equations."""

from __future__ import annotations

from collections.abc import Sequence


def solve(left: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """The unknowns of as many equations: Gauss, the largest pivot first.

    Raises ZeroDivisionError when the equations do not fix them.
    """
    size = len(right)
    table = [[*row, value] for row, value in zip(left, right, strict=True)]
    for at in range(size):
        best = max(range(at, size), key=lambda each: abs(table[each][at]))
        table[at], table[best] = table[best], table[at]
        for below in range(at + 1, size):
            share = table[below][at] / table[at][at]
            table[below] = [one - share * other for one, other in zip(table[below], table[at], strict=True)]
    found = [0.0] * size
    for at in reversed(range(size)):
        known = sum(table[at][other] * found[other] for other in range(at + 1, size))
        found[at] = (table[at][size] - known) / table[at][at]
    return found
