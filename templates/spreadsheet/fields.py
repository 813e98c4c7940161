"""The columns of each kind of record: its fields, and of the gate's own records what they vouch for."""

from __future__ import annotations

from functools import cache
from typing import Any

import msgspec

from store.measure.errors import BadValue, quoted
from store.records.base import Record
from store.records.field import Codec, F, Field, Manner, fields_of
from store.records.whole import KINDS

GATE_KINDS = ("closing", "answer", "passage")
"""The gate's own records: they come and go by their own keys, and with a whole job."""
NOT_ALONE = ("job", *GATE_KINDS)
"""Kinds that are no list of their own."""
KIND_NAMES = tuple(kind for kind in KINDS if kind not in NOT_ALONE)


def _edit_json(value: Any, manner: Manner) -> str:
    return msgspec.json.encode(value).decode()


def _read_words(text: str, manner: Manner, field: Field) -> dict[str, str]:
    found: dict[str, str] = _read_json(text, dict[str, str])
    return found


def _read_keys(text: str, manner: Manner, field: Field) -> tuple[str, ...]:
    found: tuple[str, ...] = _read_json(text, tuple[str, ...])
    return found


def _read_json(text: str, kind: Any) -> Any:
    try:
        return msgspec.json.decode(text, type=kind)
    except msgspec.MsgspecError as error:
        raise BadValue(f"{quoted(text)} is not what export wrote here. Export it again: {error}") from error


_EXTRA = {
    "vouches": Field("vouches", F("vouches"), Codec("json", _read_words, _edit_json, _edit_json), {}),
    "checked": Field("checked", F("checked"), Codec("json", _read_keys, _edit_json, _edit_json), ()),
}


@cache
def columns_for(cls: type[Record]) -> tuple[Field, ...]:
    """The fields of a kind as columns, in their order."""
    extra = tuple(field for key, field in _EXTRA.items() if key in cls.__struct_fields__)
    return (*fields_of(cls), *extra) if cls.kind in GATE_KINDS else fields_of(cls)


def kind_named(name: str) -> type[Record]:
    """The kind of a word: its name, or what one or many of it are called. Raises BadValue."""
    plain = name.strip().lower()
    for kind in KIND_NAMES:
        if plain in (kind, KINDS[kind].one, KINDS[kind].many):
            return KINDS[kind]
    raise BadValue(
        f"{quoted(name)} is not a list to import or export. There are: {', '.join(KIND_NAMES)}, and all for the "
        "whole job."
    )
