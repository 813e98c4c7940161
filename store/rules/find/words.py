"""The words of a search: which carry meaning, which mean the same, and which kind of record they hint at."""

from __future__ import annotations

import re

import msgspec

from store.records.access import Panel, Photo, Visit
from store.records.equipment import Equipment
from store.records.gate import Check
from store.records.inside import ShelfBoard
from store.records.people import Amount, Contact, Step, Wish
from store.records.wall import Obstacle, Opening, Reading, Wall
from store.records.whole import KINDS
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.cable.kinds import kind_named

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
    ("player", "dvd"),
    ("light", "lamp", "led"),
    ("mount", "bracket"),
    ("breaker", "fuse"),
    ("router", "wifi", "modem"),
    ("drywall", "drywaller", "plasterboard"),
    ("carpenter", "joiner"),
    ("painter", "paint"),
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
    ("driver", "transformer", "supply"),
    ("phone", "telephone"),
    ("paint", "colour", "color"),
    ("guarantee", "warranty"),
    ("centre", "center"),
    ("behind", "back"),
    ("office", "department"),
)
"""Words that people use for the same thing."""
KIND_WORDS: dict[str, str] = {
    "cable": Cable.kind, "wire": Cable.kind, "lead": Cable.kind, "breaker": Circuit.kind, "circuit": Circuit.kind,
    "panel": Panel.kind, "hatch": Panel.kind, "box": Box.kind, "junction": Box.kind, "receptacle": Box.kind,
    "outlet": Box.kind, "raceway": Raceway.kind, "conduit": Raceway.kind, "tube": Raceway.kind, "pipe": Raceway.kind,
    "photo": Photo.kind, "picture": Photo.kind, "equipment": Equipment.kind, "device": Equipment.kind,
    "opening": Opening.kind, "cabinet": Opening.kind, "contact": Contact.kind, "wish": Wish.kind, "step": Step.kind,
    "check": Check.kind, "wall": Wall.kind, "reading": Reading.kind, "obstacle": Obstacle.kind, "opened": Visit.kind,
    "divider": ShelfBoard.kind,
    "log": Visit.kind, "stud": Wall.kind, "fuse": Circuit.kind, "bill": Amount.kind, "invoice": Amount.kind,
    "payment": Amount.kind,
}  # fmt: skip
"""Words that name a kind of record."""
RETIRED_WORDS = frozenset(("retired", "replaced", "former", "previous", "removed", "gone"))
"""Words that ask for what is no longer in use."""
MEASURES = frozenset(("high", "tall", "wide", "deep", "big", "large", "long", "far", "heavy", "old", "much", "many"))
"""Words that after `how` ask for a number, and are no part of a name."""
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
    """The words of a search, those without meaning left out unless there are no others. `K 3` alone is a tag."""
    tokens = _joined(re.findall(r"[^\s,;?!\"“”()]+", text.lower())[:MOST_WORDS])
    if len(tokens) == 2 and len(tokens[0]) == 1 and _tag("".join(tokens)):
        tokens = ["".join(tokens)]
    telling = [each for each in tokens if each not in EMPTY] or tokens
    plain = [each for each in dict.fromkeys(word.strip(".:'") for word in telling) if each]
    return tuple(_word(each, before) for before, each in zip(["", *plain], plain, strict=False))


def _joined(tokens: list[str]) -> list[str]:
    """`cat 6` as `cat6`, and `how high` left out: what is asked is not what a thing is called."""
    found: list[str] = []
    for token in tokens:
        before = found[-1] if found else ""
        if before.isalpha() and token[:1].isdigit() and kind_named(before) is None and kind_named(before + token):
            found[-1] = before + token
        elif before == "how" and token in MEASURES:
            found.pop()
        else:
            found.append(token)
    return found


def _word(token: str, before: str = "") -> Word:
    single = _singular(token)
    forms = dict.fromkeys((single, *OTHERS.get(single, ()), *OTHERS.get(token, ())))
    kind = KIND_WORDS.get(single, "")
    hint = Contact.kind if single in TRADE_WORDS else Cable.kind if kind_named(single) is not None else kind
    return Word(token, tuple(forms), kind, hint, _tag(token) or _numbered(before, token))


def _numbered(kind: str, number: str) -> str:
    """`cable 12` as `K12`; a breaker's number is not that of its circuit."""
    cls = KINDS.get(KIND_WORDS.get(_singular(kind), ""))
    said_so = cls is not None and kind not in ("breaker", "fuse") and number.isascii() and number.isdigit()
    return _tag(f"{cls.letter.lower()}{number}") if said_so and cls is not None else ""


def _singular(token: str) -> str:
    """`speakers` as `speaker`, `boxes` as `box`, `pulled` as `pull`: cutting the end keeps both found."""
    if len(token) > 4 and token.endswith(("xes", "ches", "shes")):
        return token[:-2]
    if len(token) > 5 and token.endswith(("lled", "nned", "pped", "ched", "cted")):
        return token[:-2]
    return token[:-1] if len(token) > 3 and token.endswith("s") and not token.endswith("ss") else token


def _tag(token: str) -> str:
    """`k03`, `k-3`, an end of it (`k3-a`) and a check of it (`k3/tested`) as `K3`; empty when it is no tag."""
    found = re.fullmatch(r"([a-z])[-.]?0*(\d{1,8})([-/][a-z]+)?", token, re.ASCII)
    return f"{found[1].upper()}{found[2]}" if found else ""
