"""Whether two answers are the very same, so that nothing which was made from the one need be made again."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from decimal import Decimal
from fractions import Fraction
from itertools import compress, count
from operator import is_not, not_
from typing import Any, TypeVar

import msgspec

from store.measure.length import Length
from store.measure.mass import Mass

T = TypeVar("T")

_EQUAL_IS_SAME = frozenset({str, int, bool, bytes, date, datetime, Fraction, type(None)})
"""Types whose equal values cannot be told apart, as long as both are of that type."""
_TOLD_BY_TEXT = frozenset({float, Decimal})
"""`0.0` equals `-0.0`, and `1.0` equals `1.00`; they are not written alike."""


def same(one: Any, other: Any) -> bool:
    """True when nobody could tell the two apart: types, units, and the order of what is in them too.

    A type that is not known here counts as changed: that costs work and is never wrong. Equality alone would not
    do: `1 in` equals `25.4 mm`, and dictionaries in another order are equal.
    """
    if one is other:
        return True
    kind = type(one)
    if kind is not type(other):
        return False
    if kind is tuple:
        return len(one) == len(other) and same_in_turn(one, other)
    if kind in _EQUAL_IS_SAME:
        return bool(one == other)
    if kind in _TOLD_BY_TEXT:
        return repr(one) == repr(other)
    return _same_parts(kind, one, other)


def _same_parts(kind: type, one: Any, other: Any) -> bool:
    if kind is Length:
        return bool(one.nm == other.nm and one.metric is other.metric)
    if kind is Mass:
        return bool(one.ug == other.ug and one.metric is other.metric)
    if kind is dict:
        return len(one) == len(other) and same_in_turn(one, other) and same_in_turn(one.values(), other.values())
    if issubclass(kind, (tuple, list, frozenset, set)):
        # Equal sets that grew otherwise can give their members in another order, which shows in what is made of them.
        return len(one) == len(other) and same_in_turn(one, other)
    if issubclass(kind, msgspec.Struct):
        return same_in_turn(msgspec.structs.astuple(one), msgspec.structs.astuple(other))
    return False


def same_in_turn(one: Any, other: Any) -> bool:
    """True when the members of two, in their order, are the same; both must have as many."""
    differ = list(map(is_not, one, other))
    return True not in differ or all(map(same, compress(one, differ), compress(other, differ)))


def not_among(those: Sequence[T], others: Sequence[T]) -> list[T]:
    """Those that are not, as the very same objects, among the others: quick where nearly all are, in one order.

    Nothing may be in one of the two more than once.
    """
    if len(those) == len(others):
        differ = list(map(is_not, those, others))
        those, others = list(compress(those, differ)), list(compress(others, differ))
    else:
        shorter = min(len(those), len(others))
        head = next(compress(count(), map(is_not, those, others)), shorter)
        tail = next(compress(count(), map(is_not, reversed(those), reversed(others))), shorter)
        tail = min(tail, shorter - head)
        those, others = those[head : len(those) - tail], others[head : len(others) - tail]
    known = set(map(id, others))
    return list(compress(those, map(not_, map(known.__contains__, map(id, those)))))


def as_before(was: Any, now: Any) -> Any:
    """A new answer with all that is the same as in the old one put in from there: what still stands on that is kept."""
    if type(was) is dict and type(now) is dict:
        if len(was) == len(now) and same_in_turn(was, now):
            differing = list(compress(now, map(is_not, was.values(), now.values())))
            others = {key: now[key] for key in differing if not same(was[key], now[key])}
            return {**was, **others} if others else was
        return {key: _one_as_before(was.get(key, _NOTHING), value) for key, value in now.items()}
    return was if same(was, now) else now


_NOTHING = object()


def _one_as_before(was: Any, now: Any) -> Any:
    return was if was is not now and was is not _NOTHING and same(was, now) else now
