"""The title block of a drawing sheet, and its scale bar."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec

from store.measure.length import FOOT_NM, MM_NM, Length, show_length
from store.records.people import Handoff
from store.records.whole import Job
from store.rules.core.wording import date_text
from store.rules.handoff.changes import Entry, changes_since
from templates.sheets.drawing.ink import HEAD, MEDIUM, TEXT, THIN, broken, line, rect, wide, words
from templates.sheets.layout.marks import safe

CAUTION = "Planning aid. Local code and manufacturers' instructions win. Do not scale."
HIGH = 19.0
"""Of the block, mm."""


class Revision(msgspec.Struct, frozen=True):
    """The letter of a sheet, and what changed since the one before was given."""

    letter: str
    said: str
    changes: tuple[str, ...] = ()


def revision(job: Job, trade: str, entries: Iterable[Entry]) -> Revision:
    """The revision of a trade's sheets: A until a packet was given and something that concerns them changed since.

    Every packet that was given is one issue. The general sheets go by the packets of all trades.
    """
    mine = [each for each in job.of(Handoff).values() if each.given is not None and trade in ("general", each.trade)]
    mine.sort(key=lambda each: (each.given or job.today, each.point))
    if not mine:
        return Revision("A", "first issue")
    last = mine[-1]
    changes = tuple(one.says for one in changes_since(job, last, tuple(entries)))
    when = date_text(job, last.given or job.today)
    if changes:
        return Revision(letter(len(mine)), f"changed since {letter(len(mine) - 1)}, given {when}", changes)
    return Revision(letter(len(mine) - 1), f"as given {when}")


def letter(number: int) -> str:
    """A, B ... Z, AA: the letter of an issue, counted from 0."""
    said = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        said = chr(ord("A") + rest) + said
    return said


class Title(msgspec.Struct, frozen=True):
    """What the block says."""

    job: str
    address: str
    sheet: str
    number: str
    scale: str
    date: str
    revision: str
    changed: str


def title_block(x: float, y: float, width: float, said: Title) -> str:
    """The block along the foot of a sheet."""
    shares = (0.3, 0.27, 0.16, 0.12, 0.15)
    cells = (
        ("Job", said.job, said.address or "no address entered"),
        ("Sheet", said.sheet, CAUTION),
        ("Scale", said.scale, ""),
        ("Date", said.date, said.number),
        ("Revision", said.revision, said.changed),
    )
    parts = [rect(x, y, width, HIGH, MEDIUM)]
    at = x
    for share, (name, first, second) in zip(shares, cells, strict=True):
        room = width * share - 3
        if at > x:
            parts.append(line(at, y, at, y + HIGH, THIN))
        parts.append(words(at + 1.5, y + 3.2, name, 2.5))
        row = y + 7.2
        for text, size, bold, most in ((first, HEAD, True, 2 if not second else 1), (second, TEXT, False, 3)):
            rows = broken(text, room, size, bold)
            if bold and len(rows) > most:
                size, most = TEXT, 2
                rows = broken(text, room, size, bold)
            for each in cut(rows, most, room, size, bold):
                parts.append(words(at + 1.5, row, each, size, bold=bold))
                row += size * 1.25
        at += width * share
    return "".join(parts)


def cut(rows: Sequence[str], most: int, room: float, size: float, bold: bool) -> Sequence[str]:
    """No more than so many rows; the last says that there is more. The whole is in the schedule or in the job."""
    if len(rows) <= most:
        return rows
    last = rows[most - 1]
    while last and wide(f"{last}…", size, bold) > room:
        last = last[:-1]
    return [*rows[: most - 1], f"{last.rstrip()}…"]


def bar_step(factor: int, metric: bool, room: float) -> int:
    """Nanometers of the wall of one of a scale bar's four steps; the bar is no longer than a room (mm) and 70 mm."""
    step = 250 * MM_NM if metric else FOOT_NM // 2
    while step * 2 * 4 / MM_NM / factor <= min(room, 70.0):
        step *= 2
    return step


def scale_bar(x: float, y: float, factor: int, metric: bool, room: float) -> str:
    """A bar of four steps, black and white, with what 0, 2 and 4 of them are on the wall."""
    step = bar_step(factor, metric, room)
    mm = step / MM_NM / factor
    parts = [rect(x + mm * at, y, mm, 1.6, THIN, fill="#000" if at % 2 == 0 else "#fff") for at in range(4)]
    for at in (0, 2, 4):
        said = show_length(Length(step * at), metric) if at else "0"
        parts.append(words(x + mm * at, y + 1.6 + TEXT, said, anchor="middle" if at else "start"))
    return f'<g class="bar">{"".join(parts)}</g>'


def titled(text: str, wide_mm: float, high_mm: float, body: str) -> str:
    """A whole sheet as the text of an SVG file, in millimeters of paper."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide_mm:g} {high_mm:g}" width="{wide_mm:g}mm" '
        f'height="{high_mm:g}mm" role="img"><title>{safe(text)}</title>'
        "<style>text { font-family: sans-serif; fill: #000; } .line { fill: none; stroke: #000; }</style>"
        f'<rect width="{wide_mm:g}" height="{high_mm:g}" fill="#fff"/>{body}</svg>\n'
    )
