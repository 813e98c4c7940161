"""Many rows of one table in one test: each is tried, and all that fail are told together, by their row."""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Iterable
from typing import Any

import pytest

Check = Callable[..., None]


def rows(names: str | tuple[str, ...], table: Iterable[Any]) -> Callable[[Check], Check]:
    """Like `pytest.mark.parametrize`, but one test. A test of its own costs some milliseconds besides what it does,
    which is too much for rows that take microseconds; whatever needs a fixture of its own, or time, is parametrized.

    Raises:
        ValueError: the table has no rows, so that nothing would be tried.
    """
    parts = [each.strip() for each in names.split(",")] if isinstance(names, str) else list(names)
    given = [row if len(parts) > 1 else (row,) for row in table]
    if not given:
        raise ValueError(f"there is no row of {', '.join(parts)}")

    def over(check: Check) -> Check:
        @functools.wraps(check)
        def each(*rest: Any, **more: Any) -> None:
            wrong: list[BaseException] = []
            for row in given:
                try:
                    check(*rest, **more, **dict(zip(parts, row, strict=True)))
                except (Exception, pytest.fail.Exception) as error:
                    error.add_note(f"in the row {', '.join(f'{n}={v!r}' for n, v in zip(parts, row, strict=True))}")
                    wrong.append(error)
            if wrong:
                raise BaseExceptionGroup(f"{len(wrong)} of {len(given)} rows", wrong)

        left = inspect.signature(check)
        kept = [each for name, each in left.parameters.items() if name not in parts]
        each.__signature__ = left.replace(parameters=kept)  # type: ignore[attr-defined]
        return each

    return over
