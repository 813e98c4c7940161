"""The owner's book: everything about the finished wall in one page that is read on a telephone and on paper."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import msgspec

from store.measure.errors import BadValue
from store.records.whole import Job
from store.rules.core.cautions import MAINS, PLANNING
from store.rules.core.wording import date_text, local
from store.rules.gate.gate import standing
from templates.sheets.drawing.paper import sheet_named
from templates.sheets.drawing.whole import Ask, pages
from templates.sheets.layout.fill import filled, svg_uri
from templates.sheets.layout.footing import foot_text
from templates.sheets.owner.book_front import how_to, key_to_tags, missing, next_owner
from templates.sheets.owner.book_pictures import Shown, shown
from templates.sheets.owner.book_sections import Section, sections
from templates.sheets.owner.panel_cards import PROVE
from templates.sheets.owner.panel_pages import PanelPage, panel_pages
from templates.sheets.region import in_region

DRAWN = "general"
"""The drawing of a wall with everything on it, the photos by their tags too."""


class OwnersBook(msgspec.Struct, frozen=True):
    """What the book says, for every form of it alike."""

    job: str
    room: str
    address: str
    stage: str
    day: str
    cautions: tuple[str, ...]
    how_to: tuple[str, ...]
    key: tuple[tuple[str, str], ...]
    missing: tuple[str, ...]
    next_owner: tuple[tuple[str, str], ...]
    drawings: tuple[str, ...]
    """Addresses that hold the pages of the wall drawing."""
    paper: tuple[float, float]
    """Of the drawings, mm."""
    panels: tuple[PanelPage, ...]
    pictures: tuple[Shown, ...]
    sections: tuple[Section, ...]

    @property
    def large(self) -> dict[str, str]:
        """The panel on whose page a photo stands, by the photo's tag."""
        return {picture.tag: page.card.tag for page in self.panels for picture in page.photos}


def owners_book(job: Job, folder: Path | None = None) -> OwnersBook:
    """What the book says. Pictures are put in when the folder of the job file is given."""
    one, pictures = job.settings, shown(job, folder)
    panels = panel_pages(job, pictures)
    paper = sheet_named("", one.metric)
    return OwnersBook(
        one.name,
        one.room,
        one.address,
        standing(job).stage,
        date_text(job, job.today),
        tuple(local(job, each) for each in (PLANNING, MAINS, PROVE)),
        how_to(job),
        key_to_tags(job),
        missing(job, pictures, panels),
        next_owner(job),
        tuple(svg_uri(in_region(each, "svg", job)) for each in _drawings(job)),
        (paper.wide, paper.high),
        tuple(panels),
        tuple(pictures.values()),
        tuple(sections(job)),
    )


def _drawings(job: Job) -> Sequence[str]:
    try:
        return pages(job, Ask(trade=DRAWN))
    except BadValue:  # no wall, or none with anything on it
        return ()


def owners_book_html(job: Job, folder: Path | None = None) -> str:
    """The book as one HTML page that needs nothing else, also without a network."""
    book = owners_book(job, folder)
    from markupsafe import Markup  # comes with the templates

    foot = foot_text("Owner's book", book.job, book.day)  # a style sheet knows no marks of HTML
    return filled("owners_book.html.j2", book=book, foot=Markup(foot))


def owners_book_markdown(job: Job) -> str:
    """The book in Markdown; drawings and pictures are named, not shown."""
    return filled("owners_book.md.j2", book=owners_book(job))
