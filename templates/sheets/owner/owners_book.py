"""The owner's book: everything about the finished wall in one page that is read on a telephone and on paper."""

from __future__ import annotations

from pathlib import Path

import msgspec

from store.records.access import Photo
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.core.cautions import MAINS, PLANNING
from store.rules.core.wording import date_text
from store.rules.drawing.elevation import scene
from store.rules.gate.gate import standing
from templates.sheets.layout.elevation import svg
from templates.sheets.layout.fill import MOST_PAGE_BYTES, filled, picture_uri, svg_uri
from templates.sheets.owner.book_sections import Section, sections
from templates.sheets.owner.panel_cards import PROVE, Card, cards


class Drawing(msgspec.Struct, frozen=True):
    """One wall, drawn."""

    name: str
    uri: str


class Picture(msgspec.Struct, frozen=True):
    """One photo: its picture where it can stand in the page, else where to find it."""

    tag: str
    words: str
    uri: str


class OwnersBook(msgspec.Struct, frozen=True):
    """What the book says, for every form of it alike."""

    job: str
    room: str
    stage: str
    day: str
    cautions: tuple[str, ...]
    drawings: tuple[Drawing, ...]
    cards: tuple[Card, ...]
    pictures: tuple[Picture, ...]
    sections: tuple[Section, ...]


def owners_book(job: Job, folder: Path | None = None) -> OwnersBook:
    """What the book says. Pictures are put in when the folder of the job file is given."""
    one = job.settings
    return OwnersBook(
        one.name,
        one.room,
        standing(job).stage,
        date_text(job, job.today),
        (PLANNING, MAINS, PROVE),
        tuple(Drawing(f"{tag} {wall.name}", svg_uri(svg(scene(job, tag), one.metric))) for tag, wall in _drawn(job)),
        tuple(cards(job)),
        tuple(_pictures(job, folder)),
        tuple(sections(job)),
    )


def _drawn(job: Job) -> list[tuple[str, Wall]]:
    return list(job.of(Wall).items())


def _pictures(job: Job, folder: Path | None) -> list[Picture]:
    found = []
    room = MOST_PAGE_BYTES
    for tag, photo in job.of(Photo).items():
        uri = picture_uri(photo.file, folder, room) if folder is not None else ""
        room -= len(uri)
        of = f" (of {', '.join(photo.of)})" if photo.of else ""
        day = f", {date_text(job, photo.date)}" if photo.date else ""
        where = f": {photo.file}" if photo.shows or not uri else ""
        found.append(Picture(tag, f"{photo.shows or photo.file}{of}{day}{where}", uri))
    return found


def owners_book_html(job: Job, folder: Path | None = None) -> str:
    """The book as one HTML page that needs nothing else, also without a network."""
    return filled("owners_book.html.j2", book=owners_book(job, folder))


def owners_book_markdown(job: Job) -> str:
    """The book in Markdown; drawings and pictures are named, not shown."""
    return filled("owners_book.md.j2", book=owners_book(job))
