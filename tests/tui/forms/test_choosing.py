"""Typing chooses: all that was typed counts, at the start of words first."""

from __future__ import annotations

from store.records.field import fields_of
from store.records.people import Contact
from store.records.wall import Reading
from tests.rows import rows
from tui.forms.choosing import Typed, tag_of
from tui.shared.ranking import ranked

TRADES = next(field.choices for field in fields_of(Contact) if field.key == "trade")
SIZES = next(field.choices for field in fields_of(Reading) if field.key == "what")


def _chosen(choices: tuple[str, ...], text: str) -> str:
    typed, now = Typed(), choices[0]
    for letter in text:
        now = typed.add(choices, letter, now) or now
    return now


@rows("word", [*TRADES, *SIZES])
def test_a_word_typed_out_is_the_choice(word: str) -> None:
    assert _chosen(TRADES if word in TRADES else SIZES, word) == word


@rows(
    ("text", "choice"),
    [("d", "drywall"), ("volt", "low-voltage"), ("e l", "electrician"), ("xz", "owner"), ("ii", "inspector")],
)
def test_a_few_letters_narrow(text: str, choice: str) -> None:
    assert _chosen(TRADES, text) == choice


def test_space_goes_on_among_what_fits_and_is_a_letter_where_a_choice_has_one() -> None:
    choices = ("lag 1/4", "lag 5/16", "wood screw 8", "wood screw 10")
    assert _chosen(choices, "lag ") == "lag 1/4"
    assert _chosen(choices, "lag 5") == "lag 5/16"
    typed = Typed()
    assert typed.add(choices, "w", choices[0]) == "wood screw 8"
    assert typed.add(choices, " ", "wood screw 8") == "wood screw 10"
    assert typed.add(choices, " ", "wood screw 10") == "wood screw 8"
    assert typed.back(choices) is None


def test_the_start_of_a_label_comes_before_the_start_of_a_word_and_that_before_its_middle() -> None:
    labels = ("half-switched", "light switch", "switch")
    assert [labels[place] for place in ranked(labels, "switch")] == ["switch", "half-switched", "light switch"]
    assert ranked(labels, "witch") == [0, 1, 2]
    assert ranked(labels, "light sw") == [1]
    assert ranked(labels, "dog") == []
    assert ranked(labels, "  ") == [0, 1, 2]


@rows(("typed", "tag"), [("rec", "rec"), ("recei", "E1"), ("e2", "e2"), ("tv", "E3"), ("", ""), ("dog", "dog")])
def test_a_name_that_only_one_record_has_is_its_tag(typed: str, tag: str) -> None:
    assert tag_of(typed, [("E1", "E1 Receiver"), ("E2", "E2 Recorder"), ("E3", "E3 TV")]) == tag
