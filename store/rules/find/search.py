"""Find: one line of words over everything in the job, what was retired too, the likeliest first.

A word counts most in a name, less in the other texts of a record, least in the name of what it belongs to, and the
more the rarer it is. A tag, as a label has it, comes before everything.
"""

from __future__ import annotations

from heapq import nsmallest
from math import log

import msgspec

from store.records.base import Record
from store.records.whole import Job
from store.rules.find.index import WHOLE, Index, index_of, spaced, title_of, told
from store.rules.find.words import RETIRED_WORDS, Word, words_of

IN_NAME, IN_TEXT, RELATED = 6.0, 3.0, 2.0
SAME_MEANING = 0.7
KIND_HINT = 2.5
EVERY_WORD = 1.5
"""A record that has every word counts so much more."""
PAPERWORK = 0.8
"""What is written about things comes after the things themselves."""
RETIRED, WANTED_BACK = 0.85, 1.5
EXACT_TAG = 1000.0
ORDER = ("equipment", "panel", "cable", "box", "circuit", "raceway", "opening", "contact", "wish", "photo", "visit")
"""Kinds in the order in which they are told when equally likely."""
PAPERS = ("check", "closing", "answer", "passage", "handoff", "reading")
MOST_RELATED = 400
"""A word met by the names of more records than this tells nothing about what belongs to them."""
MOST_WEIGHED = 1000
"""Of more records than this, only those that meet most words are looked at closely."""
LINE = 200


class Hit(msgspec.Struct, frozen=True):
    """One thing found."""

    tag: str
    kind: str
    title: str
    """What it is called."""
    line: str
    """Its other words, shortened."""
    retired: bool
    score: float


def find(job: Job, words: str, most: int = 50) -> list[Hit]:
    """The records that a line of words means, the likeliest first, `most` at most; nothing for no words."""
    wanted = words_of(words)
    index = index_of(job)
    scores: dict[int, float] = {}
    met: dict[int, int] = {}
    for word in wanted:
        for place, score in _score(index, word).items():
            if place in scores:
                scores[place] += score
                met[place] += 1
            else:
                scores[place], met[place] = score, 1
    if len(scores) > MOST_WEIGHED:
        fullest = max(met.values())
        full = [place for place in scores if met[place] == fullest]
        scores = {place: scores[place] for place in (full if len(full) >= most else scores)}
    hints = {word.hint for word in wanted if word.hint}
    past = any(word.text in RETIRED_WORDS for word in wanted)
    weighed = {
        place: _weighed(index.record(place), score, met[place] == len(wanted), hints, past)
        for place, score in _first(scores).items()
    }
    for word in wanted:
        if word.tag and (at := index.place(word.tag)) is not None:
            weighed[at] = weighed.get(at, 0.0) + EXACT_TAG
    best = nsmallest(most, weighed, key=lambda place: (-weighed[place], _turn(index, place), place))
    return [_hit(index.record(place), weighed[place]) for place in best]


def _first(scores: dict[int, float]) -> dict[int, float]:
    """The likeliest by their bare scores; so many that nothing which could come first is left out."""
    if len(scores) <= MOST_WEIGHED:
        return scores
    best = nsmallest(MOST_WEIGHED, scores.items(), key=_highest)
    return dict(best)


def _highest(item: tuple[int, float]) -> float:
    return -item[1]


def _weighed(record: Record, score: float, every: bool, hints: set[str], past: bool) -> float:
    """A score with what its record is taken into account; `past` when what is no longer in use was asked for."""
    if every:
        score *= EVERY_WORD
    if record.kind in hints:
        score += KIND_HINT
    if record.kind in PAPERS and record.kind not in hints:
        score *= PAPERWORK
    return score * (WANTED_BACK if past else RETIRED) if getattr(record, "retired", None) is not None else score


def _turn(index: Index, place: int) -> int:
    kind = index.kind(place)
    return ORDER.index(kind) if kind in ORDER else len(ORDER)


def _score(index: Index, word: Word) -> dict[int, float]:
    """What a word gives to each record: by its own texts, by its kind, and by what it belongs to."""
    named: dict[int, float] = {}
    own: dict[int, float] = {}
    for form in word.forms:
        worth = WHOLE if form in word.text else SAME_MEANING
        plain = spaced(form)
        for kind, part in index.parts.items():
            _better(named, part.names.meet(plain, index.offsets[kind], worth * IN_NAME))
            _better(own, part.rest.meet(plain, index.offsets[kind], worth * IN_TEXT))
    _better(own, named)
    if word.kind in index.parts:
        start = index.offsets[word.kind]
        for place in range(start, start + len(index.parts[word.kind].records)):
            own[place] = max(own.get(place, 0.0), IN_NAME * SAME_MEANING)
    rare = 1.0 + log((index.count + 1) / (len(own) + 1)) / 4
    if len(named) <= MOST_RELATED:
        for place, score in named.items():
            near = score / IN_NAME * RELATED
            for other in index.beside(place):
                if near > own.get(other, 0.0):
                    own[other] = near
    return {place: score * rare for place, score in own.items()}


def _better(scores: dict[int, float], others: dict[int, float]) -> None:
    """Take over the scores that are higher."""
    if not scores:
        scores.update(others)
        return
    for place, score in others.items():
        if score > scores.get(place, 0.0):
            scores[place] = score


def _hit(record: Record, score: float) -> Hit:
    retired = getattr(record, "retired", None) is not None
    return Hit(record.tag, record.kind, title_of(record), "; ".join(told(record))[:LINE], retired, score)
