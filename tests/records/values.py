"""Random values for every field of every kind of record, built from the fields themselves."""

from __future__ import annotations

from datetime import date
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


def value_of(field: Field) -> st.SearchStrategy[Any]:
    """What a person can have entered in a field, its default included."""
    least = 1 if field.says.above_zero else 0
    by_codec: dict[str, st.SearchStrategy[Any]] = {
        "text": TEXT,
        "note": NOTE.filter(bool),
        "ref": TAG,
        "refs": st.lists(TAG, min_size=1, max_size=4, unique=True).map(tuple),
        "words": st.lists(TEXT.filter(lambda text: "," not in text), min_size=1, max_size=4).map(tuple),
        "length": lengths(least),
        "mass": st.builds(Mass, st.integers(least, 10_000 * KILOGRAM_UG), st.booleans()),
        "money": st.integers(-MOST, MOST),
        "date": st.dates(date(1950, 1, 1), date(2150, 12, 31)),
        "number": st.integers(least, 10**12).map(lambda thousandths: thousandths / 1000),
        "count": st.integers(least, 10**9 - 1),
        "yes": st.booleans(),
        "choice": st.sampled_from(field.choices or ("",)),
    }
    filled = by_codec[field.codec.name]
    return filled if field.required else st.one_of(filled, st.just(field.default))


def record_of(cls: type[Record]) -> st.SearchStrategy[Record]:
    """A record with every field filled at random."""
    fields = {field.key: value_of(field) for field in fields_of(cls)}
    if "vouches" in cls.__struct_fields__:
        fields["vouches"] = st.dictionaries(TEXT, TEXT, max_size=4)
    if "checked" in cls.__struct_fields__:
        fields["checked"] = st.lists(TEXT, max_size=4).map(tuple)
    return st.builds(cls, tag=TAG if cls.letter else TEXT, **fields)


ANY_RECORD = st.sampled_from(list(KINDS.values())).flatmap(record_of)
