"""Taking over a history that is damaged: by a person, for a reason, on record for good."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from store.book.book import Book
from store.book.chain import archive
from store.book.chain.history import Entry, broken_seal
from store.book.chain.seals import seal_of, whole_seal
from store.book.changes import Step
from store.book.decoding import Tables
from store.book.migrate import meta_of
from store.book.taken import GATE_KINDS, Taken
from store.book.writing import Noted
from store.measure.errors import BadValue
from store.measure.text import is_junk
from store.records.whole import Job


def accept_history(book: Book, why: str) -> None:
    """Take over a history that is damaged, as it is: on record for good, and only for a reason.

    What the gate stands on and was last changed where it is damaged does not count until it is done again, nor does a
    stage that was passed after that. Raises BadValue where nothing is wrong with it, or no reason is given.
    """

    def work_out(taken: Taken, job: Job) -> Noted:
        docs, tables = taken.past.docs(), taken.tables
        wrong = broken_seal(docs, meta_of(tables).get("last", 0), tables) or archive.broken_inside(tables)
        if not wrong:
            raise BadValue("nothing to accept: the history is intact. Nothing was changed.")
        if is_junk(why):
            raise BadValue("no reason for accepting a damaged history. Write how it happened.")
        past, doubted = archive.digest_of(tables), _doubted(docs, tables, job)
        what = f"Accepted the history as it is: {wrong}"
        # What is not there any more is not brought back on such a word: from now on the history says that it is gone.
        lost = [each for each in doubted if each[1] not in job.tables.get(each[0], {})]
        gone = [Step(*each, said, None) for each in lost if (said := taken.words.get(each)) is not None]
        there = [each for each in doubted if each not in lost]
        return Noted("accept", what, why, gone, past, whole_seal(past, docs), {"doubted": there})

    book.note(work_out)


def _doubted(docs: Sequence[Mapping[str, Any]], tables: Tables, job: Job) -> list[tuple[str, str]]:
    """What the gate stands on and was last changed by an entry that the seal before it does not vouch for.

    A passage rests on all that was on record when it was made: one that was made after the damage is doubted too.
    """
    good: dict[tuple[str, str], bool] = {}
    packed = _packed(tables)
    seal, number, sound = "", 0, True
    for place, doc in enumerate([*packed, *docs]):
        if doc.get("act") == "accept":
            seal = whole_seal(archive.digest_of(tables), docs[: place - len(packed)])
        whole = doc["n"] == number + 1 and seal_of(seal, doc) == doc["seal"]
        sound = whole and (sound or doc.get("act") == "accept")
        seal, number = doc["seal"], doc["n"]
        for change in doc["changes"]:
            good[change["kind"], change["tag"]] = sound if change["kind"] == "passage" else whole
    known = dict.fromkeys((kind, key) for kind in GATE_KINDS for key in job.tables.get(kind, {}))
    known |= dict.fromkeys(each for each in good if each[0] in GATE_KINDS)
    return [each for each in known if not good.get(each, False)]


def _packed(tables: Tables) -> list[dict[str, Any]]:
    """The packed entries, if what is packed holds together; nothing of it counts where it does not."""
    try:
        return [] if archive.broken_inside(tables) else archive.unpacked(tables)
    except archive.Unreadable:
        return []


def taken_over(entries: Iterable[Entry]) -> list[str]:
    """What was taken over that the program did not do itself, a line each: who, when and why; for good."""
    return [
        f"{each.at[:10]} {each.who}: {each.what} ({each.why})" for each in entries if each.act in ("accept", "confirm")
    ]
