"""Text that people type: made safe once, where it enters, so that nothing behind can obey it.

Control characters and the signs that turn text round could steer a terminal or hide what is written; they are
replaced by visible signs, never dropped, so that nothing a person typed is lost unseen.
"""

from __future__ import annotations

LONGEST = 20_000
"""Characters in one text field; a longer one is a pasted document, not a note."""

_VISIBLE: dict[int, str] = {code: chr(0x2400 + code) for code in range(0x20)}
_VISIBLE[0x7F] = "\u2421"
_VISIBLE.update(dict.fromkeys(range(128, 160), "�"))
_VISIBLE.update(dict.fromkeys((0x061C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)), "\ufffd"))
_VISIBLE.update(dict.fromkeys((0xFEFF, 0x2028, 0x2029), "\ufffd"))
_VISIBLE.update(dict.fromkeys(range(0xD800, 0xE000), "\ufffd"))
_VISIBLE[0x09] = " "
_IN_NOTES = {**_VISIBLE, 0x0A: "\n"}


def clean(text: str, *, lines: bool = False) -> str:
    """The text with every control character shown as a visible sign; line breaks stay only when `lines`."""
    if text.isascii() and text.isprintable():
        return text
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if not lines:
        text = text.replace("\n", " ")
    return text.translate(_IN_NOTES if lines else _VISIBLE)


_UNSEEN = dict.fromkeys((0x00AD, 0x115F, 0x1160, 0x180E, 0x2060, 0x2800, 0x3164, 0xFFA0, *range(0x200B, 0x2010)), " ")
"""Signs that are no white space to Python, and that nobody sees."""


def is_blank(text: str) -> bool:
    """True for a text in which there is nothing to read: a name or a reason must be one that somebody can see."""
    return not text.translate(_UNSEEN).strip()
