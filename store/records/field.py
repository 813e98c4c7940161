"""What one field of a record is: how it is called, typed, shown and checked.

A record class declares each field once, as `name: Annotated[type, F("title", ...)] = default`. From that one line
the form line, the csv column, the starter key and the column of a plain view all follow, through `fields_of`.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cache
from typing import Annotated, Any, Literal, NewType, get_args, get_origin, get_type_hints

import msgspec

from store.measure.dates import When, echo_date, parse_date, show_date
from store.measure.errors import BadValue, quoted
from store.measure.length import Length, exact_length, parse_length, show_length, show_size, typed_length
from store.measure.mass import Mass, mass_text, parse_mass, show_mass
from store.measure.money import Money, exact_money, parse_money, show_money
from store.measure.numbers import commaed, parse_count, pointed, show_number, with_unit
from store.measure.terms import regional
from store.measure.text import LONGEST, clean
from store.records.metric_units import edited_in, example_in, own_unit, read_in, shown_in, unit_in

Day = date
"""A date; under a name of its own, because records have a field called `date`."""
Note = NewType("Note", str)
"""Text of several lines."""
Ref = NewType("Ref", str)
"""The tag of another record; empty for none."""


class F(msgspec.Struct, frozen=True):
    """What a person needs to know of a field; stands in the annotation of a record."""

    title: str
    help: str = ""
    unit: str = ""
    col: int = 0
    """Width of its column in a plain view, cells; 0 keeps it out. A view with `shown` or own columns decides itself."""
    kinds: tuple[str, ...] = ()
    """For a reference: the kinds of record it may name."""
    group: str = ""
    """Heading that starts in the form at this field."""
    above_zero: bool = False
    must: bool = False
    """A text that may not be left empty."""
    picks: str = ""
    """For a text: the list that it is picked from; what is not on it is kept as typed, and asked about."""
    place: bool = False
    """A length along the wall or a run: feet and inches from 12 in up. Others are sizes: in inches up to 72 in."""
    inches: bool = False
    """A length that the trade gives in inches everywhere: a bare number of up to `MOST_INCHES` is one."""
    region: str = ""
    """`us` or `metric` where only jobs of that code region have a use for it."""
    was: tuple[str, ...] = ()
    """Earlier titles, so that csv files with them as headings are still read."""
    example: tuple[str, ...] = ()
    """What is typed, for instance: one text, or one in feet and inches and one in millimetres."""
    when: When = ""
    """Of a date: `past` where it can only have happened, `ahead` where it is mostly to come. It tells the year."""
    alone: bool = False
    """For a reference: where the job has one record that it may name, a new record starts with it."""


class Manner(msgspec.Struct, frozen=True):
    """How this job's owner writes: the context that typed values are read and shown in."""

    today: date
    metric: bool = False
    day_first: bool = False
    """True in a metric code region: day before month, and the words of that region."""
    currency: str = ""
    comma: bool = False
    """True where a comma stands before the fraction: `1.234,55`."""


SAID = {
    "screen": "TV", "hard-wired": "hardwired", "wall-wart": "plug-in adapter", "quick-connect": "recessed inlet",
    "hvac": "HVAC",
}  # fmt: skip
"""Choices that are said otherwise than they are stored."""

MOST_INCHES = 200
"""No picture at home is larger; as millimeters, none is that small."""


def _is_bare(text: str) -> bool:
    """True for a number without a unit that can only be inches."""
    try:
        return 0 < float(text) <= MOST_INCHES
    except ValueError:
        return False


NUMERIC = frozenset({"length", "mass", "money", "number", "count"})
"""Codecs of values that have digits, and may have a fraction."""


class Codec(msgspec.Struct, frozen=True):
    """How one type of value is read from typed text, shown, and put back for editing."""

    name: str
    read: Callable[[str, Manner, Field], Any]
    show: Callable[[Any, Manner], str]
    edit: Callable[[Any, Manner], str]
    right: bool = False
    """Shown flush right in a table."""


class Field(msgspec.Struct, frozen=True):
    """One field of a kind of record, resolved from its annotation."""

    key: str
    says: F
    codec: Codec
    default: Any
    choices: tuple[str, ...] = ()

    @property
    def required(self) -> bool:
        """True when a record cannot be without it."""
        return self.says.must or self.default is msgspec.NODEFAULT

    @property
    def empty(self) -> Any:
        """The value of a field that nobody filled in."""
        return None if self.default is msgspec.NODEFAULT else self.default

    def read(self, text: str, manner: Manner) -> Any:
        """The value of a typed text; an empty text is the default. Raises BadValue."""
        if not text.strip():
            if self.required:
                raise BadValue(f"“{self.title(manner)}” is blank. Fill it in.")
            return self.default
        plain = pointed(text, True) if manner.comma and self.codec.name in NUMERIC else text
        if self.says.inches and _is_bare(plain):
            plain = f'{plain.strip()}"'
        value = self.codec.read(plain, manner, self)
        if self.says.above_zero and self.is_nothing(value):
            raise BadValue(f"“{self.title(manner)}” must be more than zero. Correct it.")
        return value

    def is_nothing(self, value: Any) -> bool:
        """True for a size or number of zero or less; not for one that is not given."""
        return value is not None and _size(value) <= 0

    def take(self, value: Any, manner: Manner) -> Any:
        """The value of a starter or csv entry: typed text, or a number, yes/no, date or list as TOML gives it."""
        if isinstance(value, str):
            return self.read(value, manner)
        if isinstance(value, bool):
            return self.read("yes" if value else "no", manner)
        if isinstance(value, int | float):
            typed = own_unit(show_number(value), self.says.unit)
            return self.read(typed, msgspec.structs.replace(manner, comma=False))
        if isinstance(value, date):
            return self.read(value.isoformat()[:10], manner)
        if isinstance(value, list) and all(isinstance(each, str) for each in value):
            return self.read(", ".join(value), manner)
        raise BadValue(f"the {self.says.title} can't be {type(value).__name__}. Write it as text.")

    def show(self, value: Any, manner: Manner) -> str:
        """The value for a table or a sheet, with its unit; empty when there is none."""
        if value is None:
            return ""
        if isinstance(value, Length):
            return (show_length if self.says.place else show_size)(value, manner.metric)
        if self.says.unit and isinstance(value, int | float) and not isinstance(value, bool):
            unit = self.says.unit
            shown = shown_in(value, unit, manner.metric)
            return with_unit(shown, unit_in(unit, manner.metric), metric=manner.metric)
        return self.in_words(value, manner) if self.choices else self.codec.show(value, manner)

    def edit(self, value: Any, manner: Manner) -> str:
        """The exact text for a form; `read` gives the same value back."""
        if value is None:
            return ""
        if isinstance(value, Length):
            text = typed_length(value, manner.metric, size=not self.says.place)
            return commaed(text) if manner.comma else text
        if isinstance(value, date):
            return show_date(value, manner.day_first)
        if self.codec.name == "number" and unit_in(self.says.unit, manner.metric) != self.says.unit:
            text = edited_in(value, self.says.unit, True)
            return commaed(text) if manner.comma else text
        return self.in_words(value, manner) if self.choices else self.file(value, manner)

    def file(self, value: Any, manner: Manner) -> str:
        """The exact text for csv, the same in every version; `read` gives the same value back."""
        if value is None:
            return ""
        text = self.codec.edit(value, manner)
        return commaed(text) if manner.comma and self.codec.name in NUMERIC else text

    def in_words(self, choice: str, manner: Manner) -> str:
        """A choice as it is said, in the words of the job's region; stored is always the choice itself."""
        return regional(SAID.get(choice, choice), manner.day_first)

    def choices_in(self, manner: Manner) -> tuple[str, ...]:
        """The choices as the job's region says them, in their order."""
        return tuple(self.in_words(each, manner) for each in self.choices)

    def title(self, manner: Manner) -> str:
        """Its title in the words of the job's region."""
        return regional(self.says.title, manner.day_first)

    def help(self, manner: Manner) -> str:
        """Its help in the words of the job's region."""
        return regional(example_in(self.says.help, manner.metric), manner.day_first)

    def fits(self, manner: Manner) -> bool:
        """False for a field of another code region."""
        return self.says.region in ("", "metric" if manner.day_first else "us")

    def echo(self, value: Any, manner: Manner) -> str:
        """What is read back while typing, where the typed text could be meant otherwise."""
        if isinstance(value, date):
            return echo_date(value, manner.day_first)
        if isinstance(value, Length):
            other = (show_length if self.says.place else show_size)(value, not manner.metric)
            return f"{self.show(value, manner)} = {other}"
        if isinstance(value, Mass):
            return f"{value.kilograms:.1f} kg" if not value.metric else f"{value.pounds:.1f} lb"
        return ""


def _size(value: Any) -> float:
    if isinstance(value, Length):
        return value.nm
    if isinstance(value, Mass):
        return value.ug
    return value if isinstance(value, int | float) else 1


def _read_text(text: str, manner: Manner, field: Field) -> str:
    return _bounded(clean(text).strip())


def _read_note(text: str, manner: Manner, field: Field) -> str:
    return _bounded(clean(text, lines=True).strip())


def _bounded(text: str) -> str:
    if len(text) > LONGEST:
        raise BadValue(f"too long: {len(text):,} characters. Shorten it to {LONGEST:,}.")
    return text


def _read_choice(text: str, manner: Manner, field: Field) -> str:
    plain = " ".join(text.lower().split())
    lower = {each.lower(): each for each in field.choices}
    lower = {field.in_words(each, manner).lower(): each for each in field.choices} | lower
    if plain in lower:
        return lower[plain]
    starts = {each for key, each in lower.items() if key.startswith(plain)}
    if len(starts) == 1:
        return starts.pop()
    raise BadValue(
        f"{quoted(text)} is not in the list. Choose: {', '.join(each for each in field.choices_in(manner) if each)}."
    )


def _read_yes(text: str, manner: Manner, field: Field) -> bool:
    plain = text.strip().lower()
    if plain in ("yes", "y", "true"):
        return True
    if plain in ("no", "n", "false"):
        return False
    raise BadValue(f"{quoted(plain)} is not yes or no. Write yes or no.")


def _read_ref(text: str, manner: Manner, field: Field) -> str:
    tag = text.strip().upper()
    if not tag.isascii() or not tag[1:].isdigit() or not tag[0].isalpha() or len(tag) > 10:
        raise BadValue(f"{quoted(text)} is not a tag. Write a letter and a number, like W1.")
    return f"{tag[0]}{int(tag[1:])}"


def _read_refs(text: str, manner: Manner, field: Field) -> tuple[str, ...]:
    return tuple(dict.fromkeys(_read_ref(each, manner, field) for each in text.replace(",", " ").split()))


def _read_words(text: str, manner: Manner, field: Field) -> tuple[str, ...]:
    return tuple(each for each in (_read_text(part, manner, field) for part in text.split(",")) if each)


def _plain(value: Any, manner: Manner) -> str:
    return str(value)


def _joined(value: Any, manner: Manner) -> str:
    return ", ".join(value)


TEXT = Codec("text", _read_text, _plain, _plain)
CODECS: dict[Any, Codec] = {
    str: TEXT,
    Note: Codec("note", _read_note, lambda value, manner: value.replace("\n", " "), _plain),
    Ref: Codec("ref", _read_ref, _plain, _plain),
    Length: Codec(
        "length",
        lambda text, manner, field: parse_length(text, manner.metric),
        lambda value, manner: show_length(value, manner.metric),
        lambda value, manner: exact_length(value, manner.metric),
        right=True,
    ),
    Mass: Codec(
        "mass",
        lambda text, manner, field: parse_mass(text, manner.metric),
        lambda value, manner: mass_text(value, manner.metric),
        lambda value, manner: show_mass(value),
        right=True,
    ),
    Money: Codec(
        "money",
        lambda text, manner, field: parse_money(text, manner.currency),
        lambda value, manner: show_money(value, manner.currency),
        lambda value, manner: exact_money(value, manner.currency),
        right=True,
    ),
    date: Codec(
        "date",
        lambda text, manner, field: parse_date(text, manner.today, day_first=manner.day_first, when=field.says.when),
        lambda value, manner: show_date(value, manner.day_first),
        lambda value, manner: value.isoformat(),
    ),
    float: Codec(
        "number",
        lambda text, manner, field: read_in(text, field.says.unit, manner.metric),
        lambda value, manner: show_number(value),
        lambda value, manner: show_number(value),
        right=True,
    ),
    int: Codec("count", lambda text, manner, field: parse_count(text), _plain, _plain, right=True),
    bool: Codec(
        "yes",
        _read_yes,
        lambda value, manner: "yes" if value else "",
        lambda value, manner: "yes" if value else "no",
    ),
    tuple[Ref, ...]: Codec("refs", _read_refs, _joined, _joined),
    tuple[str, ...]: Codec("words", _read_words, _joined, _joined),
}
CHOICE = Codec("choice", _read_choice, _plain, _plain)


@cache
def fields_of(cls: type[msgspec.Struct]) -> tuple[Field, ...]:
    """The fields of a record class that a person fills in, in order of declaration."""
    hints = get_type_hints(cls, include_extras=True)
    defaults = {each.name: each.default for each in msgspec.structs.fields(cls)}
    found = []
    for key, default in defaults.items():
        hint = hints[key]
        if get_origin(hint) is not Annotated:
            continue
        inner, says = get_args(hint)[:2]
        codec, choices = _codec_of(inner)
        found.append(Field(key, says, codec, default, choices))
    # The notes stand in the base class, so they are declared first; a person expects them last.
    return tuple(sorted(found, key=lambda each: each.key == "notes"))


def _codec_of(inner: Any) -> tuple[Codec, tuple[str, ...]]:
    """The codec of a type (with or without `| None`), and its choices."""
    if get_origin(inner) is Literal:
        return CHOICE, get_args(inner)
    if inner not in CODECS:
        inner = next(each for each in get_args(inner) if each is not type(None))
    return CODECS[inner], ()
