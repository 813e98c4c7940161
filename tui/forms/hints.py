"""What stands below the lines of a form: how a field is typed, and how what was typed is understood."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from store.measure.errors import BadValue
from store.records.base import Record
from store.records.field import Field, Manner, fields_of
from store.records.uses import hint, is_filled, shown, wanted_before_buying
from tui.forms.choosing import narrowed
from tui.forms.picks import read_back

Candidates = Callable[[Field], Sequence[tuple[str, str]]]
"""Tags and names that a reference may take."""
HINT_CELLS = 72
"""Cells of one of the two lines of a hint on a screen of 80, with room for a word that goes to the next line."""
MORE_CHOICES = " … F2 = all"
NO_LIST = "no list for this one. Type it."
NOT_THERE = "No match. F2 = add it here"


def hint_lines(
    field: Field, text: str, manner: Manner, candidates: Candidates, *, typed: str = "", wanted: bool = False
) -> list[str]:
    """Two lines at most, the first cut where the second is needed.

    `typed` is what was typed on a field of choices; `wanted`: to be known before buying.
    """
    lines = _lines(field, text, manner, candidates, typed, wanted)
    if len(lines) > 1 and len(lines[0]) > HINT_CELLS:
        lines[0] = lines[0][: HINT_CELLS - 1].rstrip(" ,;") + "…"
    return lines


def _lines(field: Field, text: str, manner: Manner, candidates: Candidates, typed: str, wanted: bool) -> list[str]:
    title, about = field.title(manner), hint(field, manner)
    if wanted:
        about = f"{about}. • = enter before you buy" if about else "• = enter before you buy"
    lines = [": ".join(each for each in (title, about) if each)]
    if field.choices or field.codec.name == "yes":
        above = lines if about else []  # the title alone stands on its own line already
        return [*above, _choices_hint(field.choices_in(manner) or ("yes", "no"), 1 if above else 2, typed)]
    if field.codec.name in ("ref", "refs"):
        return [*lines, _reference_hint(field, text, candidates)]
    if field.codec.name == "note":
        return [*lines, "Enter = open the note, or just type"]
    if field.says.picks:
        return [*lines, read_back(field.says.picks, text, manner.metric) or "F2 = choose"]
    if not text.strip():
        return lines
    try:
        return [*lines, field.echo(field.read(text, manner), manner)]
    except BadValue as error:
        return [f"! {title[0].upper()}{title[1:]}: {error}"]


def _choices_hint(choices: Sequence[str], rows: int, typed: str) -> str:
    """The choices that fit what was typed, as many as these rows hold on the narrowest screen, and where the others
    are."""
    words = "Space or letters = choose: " + " · ".join(choices)
    if typed.strip():
        words = f"{typed}_ = {' · '.join(narrowed(choices, typed))}"
    if len(words) <= rows * HINT_CELLS:
        return words
    most = words[: rows * HINT_CELLS - len(MORE_CHOICES)].rpartition(" · ")[0]
    return most + MORE_CHOICES


def _reference_hint(field: Field, text: str, candidates: Candidates) -> str:
    known = dict(candidates(field))
    named = [tag for tag in text.upper().replace(",", " ").split() if tag in known]
    if named:
        return "= " + ", ".join(known[tag] for tag in named)
    if text.strip() and field.codec.name == "ref":
        fitting = narrowed(list(known.values()), text)
        if not fitting:
            return NOT_THERE
        return ("= " if len(fitting) == 1 else "F2 = choose: ") + " · ".join(fitting[:4])
    few = ", ".join(list(known.values())[:4])
    return f"Type a name, or F2 = list: {few}" if few else "None yet. F2 = add it here"


def laid_out(
    cls: type[Record], texts: Mapping[str, str], manner: Manner, asked: Sequence[str] = ()
) -> tuple[list[str], list[str], frozenset[str]]:
    """Keys of the fields that a form shows at once, of those under More, and of those to mark as needed.

    `asked` are keys that something in the job waits for.
    """
    seen = shown(cls, texts, manner)
    first = [field.key for field in seen.first] + [field.key for field in seen.more if field.key in asked]
    more = [field.key for field in seen.more if field.key not in asked]
    needed = (field.key for field in fields_of(cls) if _needed(cls, field, texts, manner, asked))
    return first, more, frozenset(needed)


def _needed(cls: type[Record], field: Field, texts: Mapping[str, str], manner: Manner, asked: Sequence[str]) -> bool:
    waited = field.key in asked and not is_filled(field, texts.get(field.key, ""), manner)
    return waited or wanted_before_buying(cls, field, texts, manner)


def first_field(
    cls: type[Record], texts: Mapping[str, str], manner: Manner, *, new: bool, asked: Sequence[str] = ()
) -> str:
    """Where a form begins: a new one at its first blank field; any at one that must be filled in and is not, or that
    is needed before buying, which is what a record is mostly opened for; else at its first."""
    fields = fields_of(cls)
    blank = [field for field in fields if not texts[field.key]]
    if new and blank:
        return blank[0].key
    must = [field for field in blank if field.required]
    needed = [field for field in blank if _needed(cls, field, texts, manner, asked)]
    return [*must, *needed, *fields][0].key
