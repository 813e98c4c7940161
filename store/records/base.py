"""What every record has in common, and the one place where a record becomes a document of the file and back."""

from typing import Annotated, Any, ClassVar, TypeVar

import msgspec

from store.measure.errors import BadValue
from store.measure.length import Length, from_file, to_file
from store.measure.mass import Mass, parse_mass, show_mass
from store.records.field import F, Note, fields_of


class Record(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A record of the job. Its tag is what is written on the cable, the panel and the drawing."""

    kind: ClassVar[str] = ""
    """Its table in the file and in a starter."""
    letter: ClassVar[str] = ""
    """First letter of its tags; empty for a kind that is known by another key."""
    one: ClassVar[str] = ""
    many: ClassVar[str] = ""
    about: ClassVar[str] = ""
    """What such a record is for: one sentence, shown where there is none yet."""

    tag: str
    notes: Annotated[Note, F("notes", "anything worth knowing", group="Notes")] = Note("")


R = TypeVar("R", bound=Record)


class BadRecord(BadValue):
    """A document of the file that is no record; where it is read, the file and what to do are added."""


def to_doc(record: Record) -> dict[str, Any]:
    """The document of a record: plain JSON values, fields at their default left out."""
    doc: dict[str, Any] = msgspec.to_builtins(record, enc_hook=_encode)
    # As JSON gives it back: a tuple would never equal the list that is read from the file.
    return {key: list(value) if isinstance(value, tuple) else value for key, value in doc.items()}


def from_doc(doc: dict[str, Any], cls: type[R]) -> R:
    """The record of a document; unknown keys are left to the caller. Raises BadValue naming the field."""
    try:
        return msgspec.convert(doc, cls, dec_hook=_decode)
    except (msgspec.ValidationError, BadValue) as error:
        raise BadRecord(f"{cls.one} {doc.get('tag', '?')}: {error}") from error


def unknown_keys(doc: dict[str, Any], cls: type[Record]) -> list[str]:
    """Keys of a document that its record does not know."""
    return [key for key in doc if key not in cls.__struct_fields__]


def search_text(record: Record) -> str:
    """All words of a record in one lower-case line, for filtering as one types."""
    parts = [str(getattr(record, name)) for name in record.__struct_fields__ if getattr(record, name)]
    return " ".join(parts).lower()


def _encode(value: Any) -> Any:
    if isinstance(value, Length):
        return to_file(value)
    if isinstance(value, Mass):
        return show_mass(value)
    raise TypeError(f"no file form for {type(value).__name__}")


def _decode(wanted: type, value: Any) -> Any:
    if wanted is Length:
        return from_file(value) if isinstance(value, str) else _not_text(value)
    if wanted is Mass:
        return parse_mass(value) if isinstance(value, str) else _not_text(value)
    raise TypeError(f"no value form for {wanted.__name__}")


def _not_text(value: Any) -> None:
    raise BadRecord(f"{value!r} must be text with a unit")


__all__ = ["R", "Record", "fields_of", "from_doc", "search_text", "to_doc", "unknown_keys"]
