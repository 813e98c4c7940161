"""What is pasted into a field cannot steer the terminal that shows it."""

from __future__ import annotations

import unicodedata
from datetime import date

import pytest

from store.measure.errors import BadValue
from store.measure.text import LONGEST
from store.records.base import Record
from store.records.field import Field, Manner, fields_of
from store.records.whole import KINDS
from tests.rows import rows

TEXT_FIELDS = [
    (cls, field) for cls in KINDS.values() for field in fields_of(cls) if field.codec.name in ("text", "note", "words")
]
HOSTILE = {
    "colour": "a\x1b[31mHOT\x1b[0m",
    "clipboard": "a\x1b]52;c;b3duZWQ=\x07b",
    "title": "a\x1b]0;owned\x1b\\b",
    "c1": "a\x9b31mb\x85c",
    "overprint": "good\rbad \x08\x08\x08\x7f",
    "bidi": "photo\u202egpj.exe\u2066x\u2069\u200f",
    "null": "a\x00b",
    "separators": "a\u2028b\u2029c\ufeff",
    "half": "a\ud800b",
}
MANNER = Manner(date(2026, 11, 25))


@rows("payload", HOSTILE.values())
def test_no_field_takes_signs_that_steer(payload: str) -> None:
    for _, field in TEXT_FIELDS:
        value = field.read(payload, MANNER)
        for text in (value,) if isinstance(value, str) else value:
            kept = text.replace("\n", "") if field.codec.name == "note" else text
            assert not any(unicodedata.category(sign) in ("Cc", "Cs", "Cf", "Zl", "Zp") for sign in kept)
            assert text


def test_a_note_keeps_its_lines_and_nothing_else() -> None:
    notes = next(field for field in fields_of(KINDS["wall"]) if field.key == "notes")
    assert notes.read("one\r\ntwo\x1b[2J\n three ", MANNER) == "one\ntwo␛[2J\n three"
    assert notes.show("one\ntwo", MANNER) == "one two"


@rows(("cls", "field"), TEXT_FIELDS[:4])
def test_a_pasted_document_is_refused(cls: type[Record], field: Field) -> None:
    assert field.read("x" * LONGEST, MANNER) == "x" * LONGEST
    with pytest.raises(BadValue, match="Shorten it to 20,000"):
        field.read("x" * (LONGEST + 1), MANNER)


@rows("text", ["a[red]HOT[/]b", "[@click=app.quit]go[/]", "=1+1", "<script>", "{{ job }}", "[/]"])
def test_markup_is_kept_as_typed(text: str) -> None:
    name = next(field for field in fields_of(KINDS["wall"]) if field.key == "name")
    assert name.read(text, MANNER) == text
    assert name.edit(text, MANNER) == text
