"""The words of a search: which carry meaning, which mean the same, and which kind of record they hint at."""

from __future__ import annotations

import re

import msgspec

from store.records.access import Panel, Photo, Visit
from store.records.equipment import Equipment
from store.records.gate import Check
from store.records.people import Contact, Step, Wish
from store.records.wall import Obstacle, Opening, Reading, Wall
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.cable_kinds import kind_named

MOST_WORDS = 12
"""More words than a question has; the rest is left out."""
EMPTY = frozenset((
    "a", "an", "and", "any", "are", "at", "can", "did", "do", "does", "for", "from", "get", "has", "how", "i",
    "in", "is", "it", "its", "me", "my", "need", "of", "on", "or", "our", "show", "that", "the", "there",
    "these", "this", "those", "to", "was", "we", "what", "when", "where", "which", "who", "whose", "with",
    "you",
))  # fmt: skip
"""Words of a question that say nothing about the thing."""
SAME = (
    ("screen", "tv", "television", "display"),
    ("cat6", "ethernet", "network", "lan", "internet"),
    ("aerial", "antenna"),
    ("receptacle", "outlet", "socket"),
    ("receiver", "amplifier", "amp"),
    ("subwoofer", "sub"),
    ("speaker", "loudspeaker"),
    ("fireplace", "fire", "heater"),
    ("raceway", "conduit", "tube", "pipe"),
    ("remote", "infrared", "ir"),
    ("wall-wart", "transformer", "adapter"),
    ("driver", "transformer"),
    ("phone", "telephone"),
    ("paint", "colour", "color"),
    ("guarantee", "warranty"),
    ("centre", "center"),
)
"""Words that people use for the same thing."""
KIND_WORDS: dict[str, str] = {
    "cable": Cable.kind, "wire": Cable.kind, "lead": Cable.kind, "breaker": Circuit.kind, "circuit": Circuit.kind,
    "panel": Panel.kind, "hatch": Panel.kind, "box": Box.kind, "junction": Box.kind, "receptacle": Box.kind,
    "outlet": Box.kind, "raceway": Raceway.kind, "conduit": Raceway.kind, "photo": Photo.kind, "picture": Photo.kind,
    "equipment": Equipment.kind, "device": Equipment.kind, "opening": Opening.kind, "cabinet": Opening.kind,
    "contact": Contact.kind, "wish": Wish.kind, "step": Step.kind, "check": Check.kind, "wall": Wall.kind,
    "reading": Reading.kind, "obstacle": Obstacle.kind, "opened": Visit.kind, "log": Visit.kind,
}  # fmt: skip
"""Words that name a kind of record."""
TRADE_WORDS = ("phone", "mail", "licence", "license", "insurance", "electrician", "carpenter", "drywall", "inspector")
"""Words that ask for a person."""


def _others() -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for group in SAME:
        for one in group:
            found[one] = (*found.get(one, ()), *(each for each in group if each != one))
    return found


OTHERS = _others()
"""For each word, those that mean the same."""


class Word(msgspec.Struct, frozen=True):
    """One word of a search."""

    text: str
    forms: tuple[str, ...]
    """What is looked for: the word itself, without its plural, and what means the same."""
    kind: str = ""
    """The kind of record it is a word for."""
    hint: str = ""
    """The kind of record it makes likely."""
    tag: str = ""
    """The tag it is, as labels write it."""


def words_of(text: str) -> tuple[Word, ...]:
    """The words of a search, those without meaning left out unless there are no others."""
    tokens = re.findall(r"[^\s,;?!\"“”()]+", text.lower())[:MOST_WORDS]
    telling = [each for each in tokens if each not in EMPTY] or tokens
    return tuple(_word(each.strip(".:'")) for each in dict.fromkeys(telling) if each.strip(".:'"))


def _word(token: str) -> Word:
    single = _singular(token)
    forms = dict.fromkeys((single, *OTHERS.get(single, ()), *OTHERS.get(token, ())))
    kind = KIND_WORDS.get(single, "")
    hint = Contact.kind if single in TRADE_WORDS else Cable.kind if kind_named(single) is not None else kind
    return Word(token, tuple(forms), kind, hint, _tag(token))


def _singular(token: str) -> str:
    """`speakers` as `speaker`, `boxes` as `box`, `pulled` as `pull`: cutting the end keeps both found."""
    if len(token) > 4 and token.endswith(("xes", "ches", "shes")):
        return token[:-2]
    if len(token) > 5 and token.endswith(("lled", "nned", "pped", "ched", "cted")):
        return token[:-2]
    return token[:-1] if len(token) > 3 and token.endswith("s") and not token.endswith("ss") else token


def _tag(token: str) -> str:
    """`k03` and `k-3` as `K3`; empty when it is no tag."""
    found = re.fullmatch(r"([a-z])[-.]?0*(\d{1,8})", token, re.ASCII)
    return f"{found[1].upper()}{found[2]}" if found else ""
