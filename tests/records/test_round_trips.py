"""Every kind of record survives the file, and every field survives being opened for editing."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.errors import BadValue
from store.measure.length import Length
from store.records.base import Record, from_doc, search_text, to_doc, unknown_keys
from store.records.equipment import Equipment
from store.records.field import Field, Manner, fields_of
from store.records.gate import Closing
from store.records.wall import Reading, Wall
from store.records.whole import KINDS, references
from tests.records.values import ANY_RECORD, record_of, value_of
from tests.rows import rows
from tests.tries import tries

MANNERS = st.builds(
    Manner,
    st.just(date(2026, 11, 25)),
    st.booleans(),
    st.booleans(),
    st.sampled_from(["USD", "EUR", "CHF", "KWD", ""]),
    st.booleans(),
)
FIELDS = [(cls, field) for cls in KINDS.values() for field in fields_of(cls)]
ANY_FIELD = st.sampled_from(FIELDS)


@pytest.mark.parametrize("cls", KINDS.values(), ids=list(KINDS))
@tries(10)
@given(st.data())
def test_every_kind_survives_the_file(cls: type[Record], data: st.DataObject) -> None:
    record = data.draw(record_of(cls))
    through_the_file = msgspec.json.decode(msgspec.json.encode(to_doc(record)))
    found = from_doc(through_the_file, cls)
    assert found == record
    # A document is the same before the file, after it, and when it is saved a second time.
    assert to_doc(record) == to_doc(found) == through_the_file
    assert unknown_keys(through_the_file, cls) == []


@given(ANY_RECORD)
def test_a_document_holds_plain_json_only(record: Record) -> None:
    def plain(value: Any) -> bool:
        if isinstance(value, dict):
            return all(isinstance(key, str) and plain(each) for key, each in value.items())
        if isinstance(value, list):
            return all(plain(each) for each in value)
        return value is None or type(value) in (str, int, float, bool)

    assert plain(to_doc(record))


@pytest.mark.parametrize("cls", KINDS.values(), ids=list(KINDS))
@tries(6)
@given(st.data(), MANNERS)
def test_a_form_opened_and_saved_changes_nothing(cls: type[Record], data: st.DataObject, manner: Manner) -> None:
    for field in fields_of(cls):
        value = data.draw(value_of(field), label=field.key)
        assert field.read(field.edit(value, manner), manner) == value
        # A starter or a csv file that holds the same text means the same.
        assert field.take(field.edit(value, manner), manner) == value


@given(st.data(), MANNERS, ANY_FIELD)
def test_every_value_can_be_shown(data: st.DataObject, manner: Manner, one: tuple[type[Record], Field]) -> None:
    value = data.draw(value_of(one[1]))
    shown = one[1].show(value, manner)
    assert isinstance(shown, str)
    assert "\n" not in shown
    assert isinstance(one[1].echo(value, manner), str)


@given(ANY_FIELD, st.text(max_size=40), MANNERS)
def test_random_text_is_read_or_refused(one: tuple[type[Record], Field], text: str, manner: Manner) -> None:
    _, field = one
    try:
        value = field.read(text, manner)
    except BadValue as error:
        assert str(error)  # noqa: PT017 - the sentence is what is asserted
    else:
        assert field.read(field.edit(value, manner), manner) == value


ODD: dict[str, Any] = {
    "long tag": "W" + "9" * 5000,
    "long number": "9" * 5000,
    "infinite": float("inf"),
    "no number": float("nan"),
    "minus": -1,
    "huge": 10**400,
    "table": {},
    "numbers": [1],
    "mixed": ["a", 2],
    "nothing": None,
    "object": object(),
}


@rows("value", ODD.values())
def test_odd_values_of_a_starter_are_read_or_refused(value: Any) -> None:
    manner = Manner(date(2026, 11, 25))
    for _, field in FIELDS:
        try:
            taken = field.take(value, manner)
        except BadValue as error:
            assert str(error)  # noqa: PT017 - the sentence is what is asserted
        else:
            assert field.read(field.edit(taken, manner), manner) == taken


@rows("cls", KINDS.values())
def test_fields_are_declared_whole(cls: type[Record]) -> None:
    found = fields_of(cls)
    titles = [field.says.title for field in found]
    assert len(set(titles)) == len(titles)
    assert all(titles)
    for field in found:
        assert field.key in cls.__struct_fields__
        assert set(field.says.kinds) <= set(KINDS)
        if field.codec.name == "choice":
            assert len({each.lower() for each in field.choices}) == len(field.choices)
        if not field.required and field.default not in ("", None, ()):
            assert field.read("", Manner(date(2026, 11, 25))) == field.default
    assert cls.one
    assert cls.many
    assert cls.about


def test_what_is_needed_is_asked_for() -> None:
    manner = Manner(date(2026, 11, 25))
    for _, field in FIELDS:
        if field.required:
            with pytest.raises(BadValue, match=f"“{re.escape(field.says.title)}” is blank"):
                field.read("  ", manner)
        else:
            assert field.read("  ", manner) == field.default
        if field.says.above_zero:
            with pytest.raises(BadValue, match="more than zero"):
                field.read("0", manner)


def test_choices_are_read_in_any_case_and_by_their_beginning() -> None:
    fields = {(cls.kind, field.key): field for cls, field in FIELDS}
    manner = Manner(date(2026, 11, 25))
    assert fields["raceway", "type"].read("ent", manner) == "ENT"
    assert fields["raceway", "type"].read("em", manner) == "EMT"
    assert fields["step", "stage"].read("in USE", manner) == "In use"
    assert fields["equipment", "what"].read("speaker", manner) == "speaker"
    with pytest.raises(BadValue, match=r"in the list\. Choose: ENT, EMT, grommet, other"):
        fields["raceway", "type"].read("e", manner)


@rows(
    ("doc", "cls", "says"),
    [
        ({"tag": "W1"}, Wall, "name"),
        ({"tag": "W1", "name": 3}, Wall, "name"),
        ({"tag": "W1", "name": "a", "spacing": 16}, Wall, "must be text with a unit"),
        ({"tag": "W1", "name": "a", "spacing": "16"}, Wall, "needs ' in' or ' mm'"),
        ({"tag": "W1", "name": "a", "bearing": "maybe"}, Wall, "bearing"),
        ({"tag": "D1", "wall": "W1", "what": "width", "value": "6 3 in"}, Reading, "6 3 in"),
        ({"tag": "E1", "name": "a", "weight": 5}, Equipment, "must be text with a unit"),
        ({"tag": "E1", "name": "a", "ordered": "yesterday"}, Equipment, "ordered"),
        ({"tag": "E1", "name": "a", "count": "2"}, Equipment, "count"),
        ({"tag": "Q1", "by": "a", "date": "2026-11-25", "vouches": []}, Closing, "vouches"),
        ({"name": "a"}, Wall, "tag"),
    ],
)
def test_a_bad_document_is_refused_by_name_and_field(doc: dict[str, Any], cls: type[Record], says: str) -> None:
    with pytest.raises(BadValue) as caught:
        from_doc(doc, cls)
    assert says in str(caught.value)
    assert str(caught.value).startswith(f"{cls.one} {doc.get('tag', '?')}: ")


def test_references_name_key_tag_and_kinds() -> None:
    one = Equipment(tag="E1", name="screen", opening="N1", reached="A2")  # type: ignore[arg-type]
    assert list(references(one)) == [("opening", "N1", ("opening",)), ("reached", "A2", ("panel", "opening"))]


def test_a_record_is_found_by_any_of_its_words() -> None:
    one = Reading(tag="D7", wall="W1", what="width", where="At the FLOOR", value=Length(25_400_000))  # type: ignore[arg-type]
    words = search_text(one)
    assert all(each in words for each in ("d7", "w1", "width", "at the floor", "1 in"))
