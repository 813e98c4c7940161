"""One way to read what people type and what manufacturers print: any case, hyphens, spaces and order of the words.

A text is peeled: what is known is taken out wherever it stands, and what is left tells whether all was understood.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

MOST_KEPT = 4096
"""Readings kept: the same text means the same, and each is read again after every change of the job."""

_SIGNS = str.maketrans({"×": "x", "²": "2", "–": "-", "—": "-", "°": " ", "Ω": " ohm ", "®": " ", "™": " "})
_APART = re.compile(r"[^a-z0-9.]+")
_POINT = re.compile(r"(?<!\d)\.|\.(?!\d)")
_JOINTS = re.compile(r"(?<=[a-z])(?=\d)|(?<=\d)(?=[a-z])")


@lru_cache(MOST_KEPT)
def words(text: str) -> str:
    """A text in small letters with one space where any sign or space was: `Cat.6A-U/FTP` is `cat 6a u ftp`.

    A point within a number stays.
    """
    plain = _APART.sub(" ", text.translate(_SIGNS).lower())
    return " ".join(_POINT.sub(" ", plain).split())


@lru_cache(MOST_KEPT)
def spaced(text: str) -> str:
    """As `words`, with a space also between letters and digits: `CAT6A-U/FTP` is `cat 6 a u ftp`."""
    return " ".join(_JOINTS.sub(" ", words(text)).split())


def peeled(plain: str, patterns: Iterable[str]) -> str:
    """A text without every stretch that one of the patterns matches, in turn."""
    for pattern in patterns:
        plain = re.sub(pattern, " ", plain)
    return " ".join(plain.split())
