"""What is remembered from save to save never makes the bytes differ from what the tables say."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.book.database import Database
from store.book.encoding import Encoding
from store.book.file import DurableFile
from tests.book.build import make, raw, wall

NAMES = st.sampled_from(["wall", "history", '½ "quoted" \\ \n'])
KEYS = st.sampled_from(["1", "2", "3", "10", "21"])
DOCS = st.dictionaries(st.sampled_from(["tag", "name", "ü"]), st.one_of(st.text(max_size=5), st.lists(st.integers())))
STEPS = st.lists(
    st.tuples(st.sampled_from(["put", "put", "drop", "whole", "empty", "gone"]), NAMES, KEYS, DOCS), max_size=25
)


@given(STEPS, st.lists(st.booleans(), min_size=25, max_size=25))
def test_bytes_are_those_of_the_tables(steps: list[tuple[str, str, str, Any]], asked: list[bool]) -> None:
    encoding = Encoding()
    tables: dict[str, dict[str, Any]] = {}
    for (what, name, key, doc), ask in zip(steps, asked, strict=False):
        table = tables.get(name, {})
        if what == "put":
            tables = {**tables, name: {**table, key: doc}}
        elif what == "drop":
            tables = {**tables, name: {each: kept for each, kept in table.items() if each != key}}
        elif what == "whole":
            tables = {**tables, name: dict(table)}
        elif what == "empty":
            tables = {**tables, name: {}}
        else:
            tables = {each: kept for each, kept in tables.items() if each != name}
        if ask:
            found = encoding.bytes_of(tables)
            assert json.loads(found) == tables
            assert list(json.loads(found)) == list(tables)
            assert found == msgspec.json.encode(tables)


def test_bytes_that_were_never_written_do_no_harm() -> None:
    encoding = Encoding()
    first = {"1": {"a": 1}}
    encoding.bytes_of({"t": first})
    encoding.bytes_of({"t": {**first, "2": {"a": 2}}})  # as if the disk were full then
    assert json.loads(encoding.bytes_of({"t": first})) == {"t": first}
    other = {**first, "2": {"a": 3}}
    assert json.loads(encoding.bytes_of({"t": other})) == {"t": other}
    longer = {**other, "3": {}, "4": {"b": []}}
    assert json.loads(encoding.bytes_of({"t": longer})) == {"t": longer}


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["wall", "contact"]),
            st.dictionaries(st.integers(1, 9), DOCS, max_size=3),
            st.lists(st.integers(1, 9), unique=True, max_size=2),
        ),
        max_size=8,
    )
)
def test_the_database_does_what_a_dictionary_does(tmp_path_factory: Any, units: list[Any]) -> None:
    path = tmp_path_factory.mktemp("database") / "wall.json"
    make(path, wall("W1")).close()
    file = DurableFile(path)
    model = {kind: dict(table) for kind, table in file.read().items()}
    for name, docs, gone in units:
        before = json.dumps(file.read())
        with file.locked():
            forgotten = Database(file)
            forgotten.put(name, [(number, {"x": "y"}) for number in docs])
            forgotten.put(name, [(number, {"z": "y"}) for number in docs])
            forgotten.forget()
            # What is given up leaves nothing behind in memory.
            assert json.dumps(file.read()) == before
            database = Database(file)
            database.put(name, docs.items())
            database.drop(name, gone)
            database.commit()
        table = {**model.get(name, {}), **{str(number): doc for number, doc in docs.items()}}
        kept = {key: doc for key, doc in table.items() if int(key) not in gone}
        model[name] = kept
        assert raw(path) == model
        assert file.read() == model


def test_a_document_that_is_replaced_is_not_changed_where_else_it_is_held(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    make(path, wall("W1")).close()
    file = DurableFile(path)
    held = file.read()["wall"]["1"]
    with file.locked():
        database = Database(file)
        database.put("wall", [(1, {"tag": "W1", "name": "other"})])
        assert held["name"] == "North wall"
        database.commit()
    assert held["name"] == "North wall"
    assert file.read()["wall"]["1"] == {"tag": "W1", "name": "other"}
    with pytest.raises(ValueError, match="already exists"), file.locked():
        Database(file).table("wall").insert_multiple([_numbered("1")])


def _numbered(key: Any) -> Any:
    from tinydb.table import Document

    return Document({}, doc_id=key)
