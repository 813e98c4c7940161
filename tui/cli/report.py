"""Plain-text reports for a terminal without the screen."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from textwrap import wrap
from typing import Any

from store.book.book import Book
from store.book.copies import seen_of
from store.book.outside.accepting import taken_over
from store.book.taken import GATE_KINDS
from store.measure.dates import show_date
from store.measure.money import show_money
from store.records.access import Photo
from store.records.whole import KINDS, Job, references
from store.rules.core.findings import SEVERITY_WORDS, accepted_line
from store.rules.core.together import Told
from store.rules.core.wording import plural
from store.rules.gate.gate import STAGES, outside_line, standing

WIDE, BELOW = 80, " " * 8
"""Of the lines, and before what stands below a problem."""


def status_lines(found: dict[str, Any], told: Sequence[Told], day_first: bool = False) -> list[str]:
    """The status of a job as lines of text; `told` are its findings, those of one kind on one line.

    `day_first` as this owner writes days.
    """
    lines = [f"{found['job']}: at {found['stage']} (stage {STAGES.index(found['stage']) + 1} of {len(STAGES)})"]
    if found["claimed"]:
        lines.append(f"Stage recorded, not earned: {found['claimed']} - {found['unearned']}")
    items = found["items"]
    lines.append(
        f"Rough-in items: {items['open']} open, {items['closed']} signed off, {items['not_needed']} not needed"
    )
    if found["next"] is None:
        lines.append("Last stage.")
    elif found["holds"]:
        strict = any(hold["strict"] for hold in found["holds"])
        lines.append(f"{found['next']} locked:" if strict else f"Before {found['next']}:")
        lines += [f"  {hold['what']}" for hold in found["holds"]]
    else:
        lines.append(f"Ready for {found['next']}.")
    for each in found["removed"]:
        day = show_date(date.fromisoformat(each["at"][:10]), day_first)
        lines.append(f"Removed from the list: {each['tag']} {each['what']} (by {each['by']}, {day}: {each['reason']})")
    if found["found_after"]:
        lines.append(f"Found after close-in: {', '.join(found['found_after'])}")
    lines += [f"Outside of Studbook: {each}" for each in found["outside"]]
    if open_ones := [each for each in told if not each.answered]:
        lines.append("Problems:")
        lines += [line for each in open_ones for line in _problem_lines(each)]
    if accepted := [(each, each.answer) for each in told if each.answered and each.answer is not None]:
        lines.append("Accepted:")
        lines += [f"  {_word(each)}{each.headline}. {accepted_line(by, day_first)}" for each, by in accepted]
    states = found["totals"]["equipment"]
    buying = ", ".join(
        f"{row['count']} {state} ({show_money(row['price'], found['currency'])})" for state, row in states.items()
    )
    lines.append(f"Equipment: {buying}")
    return lines


def _word(told: Told) -> str:
    return f"{SEVERITY_WORDS[told.severity]:6}"


def _problem_lines(told: Told) -> list[str]:
    """A problem by its headline, and below it why; of several on one line each."""
    several = [each.headline or each.head for each in told.findings] if len(told.findings) > 1 else []
    below = several or wrap(told.why, WIDE - len(BELOW))
    return [f"  {_word(told)}{told.headline}", *(f"{BELOW}{line}" for line in below)]


def dangling(job: Job) -> list[str]:
    """References to nothing, a line each."""
    return [
        f"{record.one} {record.tag}: {key} is {tag}, which is not in the job"
        for record in job.each()
        for key, tag, _ in references(record)
        if job.get(tag) is None
    ]


def verify_report(book: Book) -> tuple[list[str], int]:
    """What a check of the file finds, and the exit status."""
    book.audit(inside=True)
    now = standing(book.job)
    records = sum(len(table) for table in book.job.tables.values())
    changes = len(book.entries())
    damaged = any(each.kind == "history" for each in book.job.outside)
    history = "the history is damaged" if damaged else "every seal of the history holds"
    lines = [f"{book.path}: {plural(records, 'record')}, {plural(changes, 'change')}, {history}"]
    wrong = [outside_line(each) for each in book.job.outside] + dangling(book.job)
    wrong += [f"{tag}: there is no field {key}; it is left alone" for tag, key in book.unknown()]
    lines += [*wrong, *_ways_out(book)]
    lines += [f"Outside change kept: {each}" for each in taken_over(book.entries())]
    if now.found_after:
        lines.append(f"Found after close-in: {', '.join(each.key for each in now.found_after)}")
    if now.claimed:
        lines.append(f"Stage recorded, not earned: {now.claimed} - {now.unearned}. The job is at {now.stage}.")
    lines += _photos_gone(book)
    if copies := seen_of(book.path):
        lines.append(f"{plural(len(copies), 'older version')} kept beside it, the newest {copies[0].says}")
    if not wrong and not now.claimed:
        lines.append("No problems with the file.")
    return lines, 4 if wrong else 3 if now.claimed else 0


def _photos_gone(book: Book) -> list[str]:
    """The photos of the job that nothing rests on as proof, and that are gone or show nothing: each by its name."""
    from store.book.pictures import look

    seen = ((each.tag, each.file, look(each.file, book.path.parent).why) for each in book.job.of(Photo).values())
    return [f"Photo {tag}, {file}: {why}. Copy it back, or delete the photo." for tag, file, why in seen if why]


def _ways_out(book: Book) -> list[str]:
    """How to go on from what was not done by the program."""
    outside, lines, name = book.job.outside, [], book.path.name
    edits = [each for each in outside if each.kind in KINDS]
    if edits:
        lines.append(f"To restore all of it: studbook verify {name} --put-back")
    if own := [each for each in edits if each.kind not in GATE_KINDS]:
        first = f"{own[0].tag}.{own[0].fields[0]}" if own[0].fields else own[0].tag
        lines.append(f"To keep one, field by field: studbook verify {name} --take-over {first} --by NAME --reason TEXT")
    if any(each.kind == "history" for each in outside):
        lines.append(f"To bring a good copy back: studbook verify {name} --restore COPY")
        lines.append(
            f"To accept the history as it is (kept on record): studbook verify {name} --accept-history "
            "--by NAME --reason TEXT"
        )
    return lines
