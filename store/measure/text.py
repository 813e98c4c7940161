"""Text that people type: made safe once, where it enters, so that nothing behind can obey it.

Control characters and the signs that turn text round could steer a terminal or hide what is written; they are
replaced by visible signs, never dropped, so that nothing a person typed is lost unseen.
"""

from __future__ import annotations

import re

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


def capital(text: str) -> str:
    """The text with a capital at its beginning, the rest as it is."""
    return text[:1].upper() + text[1:]


_UNSEEN = frozenset(map(chr, (0x115F, 0x1160, 0x2065, 0x2800, 0x3164, 0xFFA0, *range(0xFFF0, 0xFFF9))))
"""Letters and signs to Unicode, or not given to any yet, that nobody sees all the same."""
_TAGS = range(0xE0000, 0xE1000)
"""A block kept for signs that are never shown."""


def is_blank(text: str) -> bool:
    """True for a text in which there is nothing to read: a name or a reason must be one that someone can see.

    What is seen is a letter, a digit, a mark of punctuation or a picture; spaces, joiners, accents without a letter and
    signs that choose a variant are not.
    """
    if text.isascii() and text.isprintable():
        return not text.strip()
    from unicodedata import category  # only for what is not plain

    return not any(
        (category(each)[0] in "LNPS" or category(each) in ("Cn", "Co"))
        and each not in _UNSEEN
        and ord(each) not in _TAGS
        for each in text
    )


_WORD = re.compile(r"[^\W_]+(?:['’.-][^\W_]+)*")
_SAYS_NOTHING = frozenset((
    "a", "all", "alright", "and", "any", "anything", "as", "asdf", "bar", "bla",
    "blah", "blub", "check", "checked", "confirmed", "correct", "could", "done", "everything", "fine",
    "foo", "good", "great", "is", "it", "later", "looked", "looks", "n", "na",
    "no", "nil", "none", "noted", "nothing", "ok", "okay", "pass", "passed", "perfect",
    "are", "at", "been", "for", "from", "had", "has", "have", "here", "in", "made", "of", "on", "our", "taken", "took",
    "were", "with", "by", "i", "ipsum", "lorem", "me", "my", "need", "needed", "not", "saw", "we",
    "please", "proof", "qwerty", "right", "same", "see", "seen", "sure", "tba", "tbc",
    "tbd", "test", "tested", "that", "the", "there", "thing", "things", "this", "to",
    "todo", "unknown", "was", "will", "x", "y", "yes",
))  # fmt: skip
"""Words that say nothing of what was seen, measured or meant."""


def words_of(text: str) -> list[str]:
    """The words of a text in small letters, each once, without signs that nobody sees."""
    seen = text if text.isascii() else "".join(each for each in text if not is_blank(each) or each.isspace())
    return list(dict.fromkeys(_WORD.findall(seen.lower())))


_NO_NAME = frozenset((
    "ok", "okay", "na", "no", "nobody", "none", "noone", "nothing", "tbd", "yes",
    "anybody", "anyone", "me", "myself", "somebody", "someone", "seen", "by", "test", "unknown",
))  # fmt: skip


def is_no_name(text: str) -> bool:
    """True for what names nobody: blank, one Latin letter, `xx`, `ok`, a number."""
    words = [each for each in words_of(text) if each not in _NO_NAME and not each.isdigit()]
    if words == ["n", "a"] and "/" in text:
        return True
    return len(words) < 2 and not any(len(set(each)) > 1 or not each.isascii() for each in words)


_OF_ONES_OWN = frozenset(("i", "my", "mine", "own", "our", "ours", "self", "myself", "me", "us", "we", "home"))
_ANY_OFFICE = frozenset((
    "office", "offices", "official", "inspector", "inspection", "authority", "a", "an", "the", "of",
    "some", "any", "local", "his", "her", "their",
))  # fmt: skip
"""Words that tell no office from another."""


def is_no_office(text: str) -> bool:
    """True for what names no office and nobody from one: what names nobody, one's own, or only that it is an office."""
    words = words_of(text)
    return is_no_name(text) or any(each in _OF_ONES_OWN for each in words) or all(each in _ANY_OFFICE for each in words)


def same_name(one: str, other: str) -> bool:
    """True where two texts name the same, whatever their signs and letters' size; False where one names nobody."""
    return words_of(one) == words_of(other) != []


def is_junk(text: str) -> bool:
    """True for a text in which nobody says anything: blank, `x`, `.`, `ok`, `all good`, `aaa`, `12`.

    Of Latin letters a word takes two that differ; of other scripts one sign is enough, as it can be a whole word.
    """
    return not any(
        each not in _SAYS_NOTHING and not each.isdigit() and (len(set(each)) > 1 or not each.isascii())
        for each in words_of(text)
    )
