"""Random values for every field of every kind of record, built from the fields themselves."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cache, lru_cache
from typing import Any

from hypothesis import strategies as st

from store.measure.length import LONGEST_NM, SIXTY_FOURTH_NM, Length
from store.measure.mass import KILOGRAM_UG, Mass
from store.measure.money import MOST
from store.measure.text import clean
from store.records.base import Record
from store.records.field import Field, fields_of
from store.records.whole import KINDS, LETTERS

WORD = st.text(st.characters(codec="utf-8"), min_size=1, max_size=30).map(lambda text: clean(text).strip())
TEXT = WORD.filter(bool)
NOTE = st.text(st.characters(codec="utf-8"), min_size=1, max_size=60).map(lambda text: clean(text, lines=True).strip())
TAG = st.builds(lambda letter, number: f"{letter}{number}", st.sampled_from(sorted(LETTERS)), st.integers(0, 10**7))


def lengths(least: int = 0) -> st.SearchStrategy[Length]:
    """Lengths as tapes, lasers and arithmetic give them."""
    on_tape = st.integers(-(-least // SIXTY_FOURTH_NM), LONGEST_NM // SIXTY_FOURTH_NM).map(
        lambda n: n * SIXTY_FOURTH_NM
    )
    return st.builds(Length, st.one_of(on_tape, st.integers(least, LONGEST_NM)), st.booleans())


@cache
def _filled(codec: str, least: int, choices: tuple[str, ...]) -> st.SearchStrategy[Any]:
    by_codec: dict[str, Callable[[], st.SearchStrategy[Any]]] = {
        "text": lambda: TEXT,
        "note": lambda: NOTE.filter(bool),
        "ref": lambda: TAG,
        "refs": lambda: st.lists(TAG, min_size=1, max_size=4, unique=True).map(tuple),
        "words": lambda: st.lists(TEXT.filter(lambda text: "," not in text), min_size=1, max_size=4).map(tuple),
        "length": lambda: lengths(least),
        "mass": lambda: st.builds(Mass, st.integers(least, 10_000 * KILOGRAM_UG), st.booleans()),
        "money": lambda: st.integers(-MOST, MOST),
        "date": lambda: st.dates(date(1950, 1, 1), date(2150, 12, 31)),
        "number": lambda: st.integers(least, 10**12).map(lambda thousandths: thousandths / 1000),
        "count": lambda: st.integers(least, 10**9 - 1),
        "yes": st.booleans,
        "choice": lambda: st.sampled_from(choices or ("",)),
    }
    return by_codec[codec]()


@lru_cache(maxsize=None, typed=True)
def _filled_or_not(codec: str, least: int, choices: tuple[str, ...], default: object) -> st.SearchStrategy[Any]:
    return st.one_of(_filled(codec, least, choices), st.just(default))


def value_of(field: Field) -> st.SearchStrategy[Any]:
    """What a person can have entered in a field, its default included: one strategy for all fields that are alike.

    Hypothesis looks into each strategy that it has not seen; making new ones at each draw cost more than the tests.
    """
    alike = (field.codec.name, 1 if field.says.above_zero else 0, field.choices)
    return _filled(*alike) if field.required else _filled_or_not(*alike, field.default)


@cache
def record_of(cls: type[Record]) -> st.SearchStrategy[Record]:
    """A record with every field filled at random."""
    fields = {field.key: value_of(field) for field in fields_of(cls)}
    if "vouches" in cls.__struct_fields__:
        fields["vouches"] = st.dictionaries(TEXT, TEXT, max_size=4)
    if "checked" in cls.__struct_fields__:
        fields["checked"] = st.lists(TEXT, max_size=4).map(tuple)
    return st.builds(cls, tag=TAG if cls.letter else TEXT, **fields)


ANY_RECORD = st.sampled_from(list(KINDS.values())).flatmap(record_of)
