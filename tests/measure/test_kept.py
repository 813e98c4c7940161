"""Kept texts: one form for every length, whichever way it was written."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from store.measure.kept import kept_text, same_kept, shown_kept
from store.measure.length import SIXTEENTH_NM, Length, kept_length, show_length, show_size
from tests.rows import rows


@given(st.integers(0, 20_000).map(lambda count: Length(count * SIXTEENTH_NM)))
def test_every_shown_form_comes_back_to_the_kept_one(length: Length) -> None:
    for shown in (show_length(length), show_size(length), kept_length(length)):
        assert (
            kept_text(f"needs {shown}, ~{shown} of depth")
            == f"needs {kept_length(length)}, ~{kept_length(length)} of depth"
        )


@rows(
    ("text", "kept"),
    [
        ("1'-8\" from the left, 2'-6\" up", "1' 8\" from the left, 2' 6\" up"),
        ("4', 5'-4\" and 8'-0\"", "4', 5' 4\" and 8'"),
        ('17-1/8" x 3/8"', '1\' 5 1/8" x 3/8"'),
        ("1918 mm", "1918 mm"),
        ("nm 12-2, 4 x 1-1/2 square", "nm 12-2, 4 x 1-1/2 square"),
        ("it's the owner's", "it's the owner's"),
        ("1335'-1 1/4\"", "1335' 1 1/4\""),
        ('Shelf 5\'-14" and 3/7"', 'Shelf 5\'-14" and 3/7"'),
    ],
)
def test_kept_texts(text: str, kept: str) -> None:
    assert kept_text(text) == kept


def test_an_answer_stands_through_another_way_of_writing_and_through_nothing_else() -> None:
    assert same_kept({"leaf": "1' 5 1/8\""}, {"leaf": '17-1/8"'})
    assert same_kept({"why": "E2 thing is no strip"}, {"why": "E2 thing is no strip"})
    assert not same_kept({"leaf": "1' 5 1/8\""}, {"leaf": '17-1/4"'})
    assert not same_kept({"leaf": "1'"}, {"leaf": "1'", "depth": "2'"})
    assert not same_kept({"plate": "no"}, {"plate": "yes"})


def test_a_sum_longer_than_anything_typed_is_kept_in_the_same_form() -> None:
    assert kept_text("1666'-4 1/2\" of it") == "1666' 4 1/2\" of it"


@rows(
    ("text", "feet", "metric"),
    [
        ("E9 at 27 1/4 in / 3/4 in on W1", 'E9 at 2\'-3 1/4" / 3/4" on W1', "E9 at ~692 mm / ~19 mm on W1"),
        ("E1, 23.5868 kg", "E1, 52 lb", "E1, 23.5868 kg"),
        ("E1, 23.6 kg", "E1, ~52 lb", "E1, 23.6 kg"),
        ("at 700.616666 mm", "at ~2'-3 9/16\"", "at ~701 mm"),
        ("a 12/2 in the loft, K1-5 in, cat6", "a 12/2 in the loft, K1-5 in, cat6", "a 12/2 in the loft, K1-5 in, cat6"),
    ],
)
def test_a_kept_text_is_read_in_the_lengths_of_its_owner(text: str, feet: str, metric: str) -> None:
    assert (shown_kept(text), shown_kept(text, True)) == (feet, metric)
