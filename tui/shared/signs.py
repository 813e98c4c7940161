"""Plain signs for terminals whose font has no others: every sign of the screen that is no letter has one of them."""

from __future__ import annotations

from collections.abc import Mapping

POOR = ("linux", "vt100", "vt102", "vt220", "ansi", "cons25", "dumb")
"""Kinds of terminals, by TERM, whose fonts have 256 signs: no braille, no rounded or heavy lines, few marks."""
ASKED = "STUDBOOK_SIGNS"
"""The variable of the environment that asks for `plain` signs, or for `all` of them, whatever the terminal is."""

_TEXT = dict(
    zip(
        "▸◂▶◀▲▼▌▐■□▪▢●○◐◉◎◆◇△◈▣◷✓✗…–—→←↑↓“”‘’•∘≤≥",
        "><><^v||#.*.@o%Oo*o^*F~+x.--><^v\"\"''*o<>",
        strict=True,
    )
)
_ALIKE = {
    "╭": "┌", "╮": "┐", "╯": "┘", "╰": "└", "┄": "-", "┆": ":", "╎": ":", "╌": "-", "╴": "─", "╶": "─", "╵": "│",
    "╷": "│", "╱": "/", "╲": "\\",
}  # fmt: skip
PLAIN: dict[int, str] = {ord(sign): plain for sign, plain in {**_TEXT, **_ALIKE}.items()}
"""What is written in place of each sign, for `str.translate`."""


def plain_wanted(environ: Mapping[str, str]) -> bool:
    """True where the terminal is known to have no more than plain signs, or where they are asked for."""
    asked = environ.get(ASKED, "").lower()
    return asked == "plain" or (asked != "all" and environ.get("TERM", "").partition("-")[0] in POOR)


def no_colors_wanted(environ: Mapping[str, str]) -> bool:
    """True where colors are not wanted, or the terminal says that it can do nothing and nobody says that it has any."""
    return "NO_COLOR" in environ or (environ.get("TERM") == "dumb" and not environ.get("COLORTERM"))


class Signs:
    """Which signs the program writes."""

    plain = False


def written(text: str) -> str:
    """A text in the signs that the terminal has."""
    return text.translate(PLAIN) if Signs.plain and not text.isascii() else text
