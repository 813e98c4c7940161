"""Typed text made harmless: nothing steers a terminal, nothing is lost unseen."""

from __future__ import annotations

import re
import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from store.measure.late import Late
from store.measure.text import clean, is_blank
from tests.rows import rows

BIDI = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
HARMLESS_EXCEPTIONS = {"\n"}


@rows(
    ("typed", "wanted"),
    [
        ("plain 6' 3\"", "plain 6' 3\""),
        ("größe ½ 電", "größe ½ 電"),
        ("a\x1b[31mred", "a␛[31mred"),
        ("a\x1b]52;c;b3duZWQ=\x07b", "a␛]52;c;b3duZWQ=␇b"),
        ("a\x1b]0;title\x1b\\b", "a␛]0;title␛\\b"),
        ("a\x9b31mb", "a�31mb"),
        ("a\x85b", "a�b"),
        ("a\x00b\x08c\x7fd", "a␀b␈c␡d"),
        ("tab\there", "tab here"),
        ("two\r\nlines", "two lines"),
        ("two\rlines", "two lines"),
        ("page\x0cbreak\x0bhere", "page␌break␋here"),
        ("in\u202evisible", "in�visible"),
        ("\ufeffbom", "�bom"),
        ("line\u2028sep\u2029par", "line�sep�par"),
        ("lone \ud83d half", "lone � half"),
        ("[red]markup stays as typed[/]", "[red]markup stays as typed[/]"),
    ],
)
def test_control_signs_become_visible(typed: str, wanted: str) -> None:
    assert clean(typed) == wanted


def test_line_breaks_stay_in_notes_only() -> None:
    assert clean("a\r\nb\rc\nd\te\x1b", lines=True) == "a\nb\nc\nd e␛"
    assert clean("a\nb") == "a b"


@given(st.text(st.characters(codec=None), max_size=80), st.booleans())
def test_nothing_that_steers_is_left(text: str, lines: bool) -> None:
    found = clean(text, lines=lines)
    for sign in found:
        assert unicodedata.category(sign) not in ("Cc", "Cs", "Zl", "Zp") or (lines and sign == "\n")
        assert sign not in BIDI
    assert clean(found, lines=lines) == found
    found.encode("utf-8")


@given(st.text(st.characters(codec=None), max_size=80))
def test_nothing_is_dropped(text: str) -> None:
    assert len(clean(text)) == len(text.replace("\r\n", "\n"))


@rows("text", ["", "  ", "\u200b", "\u3164 \u2060", "\u00ad\u200d\u00a0", "\u2800", "\n\t", "\x01"])
@rows("more", ["", "\u2061\u2064", "\ufe0f", "\u0301", "\u034f", "\U000e0041\U000e0fff", "\u17b4"])
def test_what_nobody_sees_is_blank(text: str, more: str) -> None:
    assert is_blank(text + more)


@rows("text", ["Ann", " x ", "\u200bAnn", "👍", "é", "e\u0301", "?", "安", "1", "␁", "\ue000", "☑\ufe0f"])
def test_what_somebody_sees_is_not_blank(text: str) -> None:
    assert not is_blank(text)


def test_a_late_pattern_finds_what_a_ready_one_finds() -> None:
    late, ready = Late(r"\b[a-z]+\d\b", re.IGNORECASE), re.compile(r"\b[a-z]+\d\b", re.IGNORECASE)
    assert "ready" not in vars(late)
    for text in ("k1 and B22, E3", "nothing", ""):
        assert [each[0] for each in late.finditer(text)] == [each[0] for each in ready.finditer(text)]
        assert (late.findall(text), late.sub("-", text)) == (ready.findall(text), ready.sub("-", text))
        assert bool(late.match(text)) == bool(ready.match(text))
        assert bool(late.search(text)) == bool(ready.search(text))
    assert "ready" in vars(late)
