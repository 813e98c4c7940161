"""Which fields a form shows at once, which wait under More, and which are of no use for a sort of thing."""

from __future__ import annotations

from datetime import date

import pytest

from store.records.equipment import Equipment
from store.records.field import Field, Manner, fields_of
from store.records.uses import MATTERS, ONLY, SORT_OF, hint, shown, wanted_before_buying
from store.records.whole import KINDS
from tests.rows import rows

US = Manner(date(2026, 11, 30))
METRIC = Manner(date(2026, 11, 30), metric=True, day_first=True)
SORTS = [(kind, sort) for kind, sorts in MATTERS.items() for sort in sorts]


def _blank(kind: str, **texts: str) -> dict[str, str]:
    return {field.key: field.edit(field.empty, US) for field in fields_of(KINDS[kind])} | texts


def _keys(fields: tuple[Field, ...]) -> list[str]:
    return [field.key for field in fields]


def test_the_table_names_fields_and_sorts_that_are_there() -> None:
    for kind, sorts in MATTERS.items():
        known = {field.key: field for field in fields_of(KINDS[kind])}
        assert all(set(keys.split()) <= set(known) for keys in sorts.values()), kind
        assert set(sorts) <= (set(known[SORT_OF[kind]].choices) if kind in SORT_OF else {""}), kind
    for kind, rules in ONLY.items():
        known = {field.key: field for field in fields_of(KINDS[kind])}
        for key, (other, values) in rules.items():
            assert key in known
            choices = known[other].choices
            assert not choices or set(values) <= {*choices, "*"}, (kind, key)


@rows(("kind", "sort"), SORTS)
def test_a_new_record_shows_what_matters_and_never_hides_what_was_filled_in(kind: str, sort: str) -> None:
    cls = KINDS[kind]
    texts = _blank(kind, **({SORT_OF[kind]: sort} if sort else {}))
    seen = shown(cls, texts, US)
    assert 2 <= len(seen.first) <= 15  # a TV has the most: it goes into an opening or on a wall
    assert not set(_keys(seen.first)) & set(_keys(seen.more))
    if kind == "equipment":
        assert len(seen.first) >= 8
    everything = {field.key: "7" for field in fields_of(cls)} | {
        key: text for key, text in texts.items() if key == SORT_OF.get(kind)
    }
    assert len(shown(cls, everything, US).first) == len(fields_of(cls))


def test_what_depends_on_another_field_comes_with_it() -> None:
    def first(kind: str, **texts: str) -> list[str]:
        return _keys(shown(KINDS[kind], _blank(kind, **texts), US).first)

    assert "level" in first("cable")
    assert "raceway" not in first("cable")
    assert "raceway" in first("cable", route="raceway")
    assert "level" not in first("cable", route="raceway")
    # A TV goes into an opening, or on a wall by its center.
    assert {"opening", "wall"} <= set(first("equipment", what="screen"))
    assert not {"x", "off_wall"} & set(first("equipment", what="screen"))
    assert {"x", "y", "off_wall"} <= set(first("equipment", what="screen", wall="W1"))
    assert "wall" not in first("equipment", what="screen", opening="N1")
    # A form shows the words of the region.
    assert first("equipment", what="TV") == first("equipment", what="screen")
    assert "cord" in _keys(shown(KINDS["equipment"], _blank("equipment", power="plug-in adapter"), US).more)
    assert "permit_by" in first("job", permit="not needed")
    assert "permit_by" not in first("job")
    assert "rated" in first("fixing", what="toggle bolt")
    assert "rated" not in first("fixing", what="lag 1/4")
    assert "part" in first("panel", passes="a part")
    assert "part" not in first("panel")


def test_no_field_of_another_region() -> None:
    box = shown(KINDS["box"], _blank("box", what="receptacle"), METRIC)
    assert "volume" not in _keys((*box.first, *box.more))
    circuit = shown(KINDS["circuit"], _blank("circuit"), US)
    assert not {"strands", "lies", "wiring"} & set(_keys((*circuit.first, *circuit.more)))


def test_what_is_needed_before_buying_is_marked_until_it_is_known_or_bought() -> None:
    width = next(field for field in fields_of(Equipment) if field.key == "width")
    tape = next(field for field in fields_of(Equipment) if field.key == "tape")
    new = _blank("equipment", what="receiver")
    assert wanted_before_buying(Equipment, width, new, US)
    assert not wanted_before_buying(Equipment, width, {**new, "width": '17"'}, US)
    assert not wanted_before_buying(Equipment, width, {**new, "state": "owned"}, US)
    assert not wanted_before_buying(Equipment, tape, new, US)


@pytest.mark.parametrize("manner", [US, METRIC])
def test_an_example_is_one_that_the_field_reads_in_the_words_of_the_job(manner: Manner) -> None:
    for cls in KINDS.values():
        for field in fields_of(cls):
            said = hint(field, manner)
            if field.codec.name in ("length", "mass"):
                assert "like " in said, (cls.kind, field.key)
            if field.says.example:
                field.read(field.says.example[min(manner.metric, len(field.says.example) - 1)], manner)
            assert len(said) <= 110, said
