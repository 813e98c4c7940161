"""A sheet as blocks, and the two hands that write it: one HTML page that needs nothing else, and Markdown.

Everything that people typed is text: control signs are made visible, HTML is escaped by the template, the marks of
Markdown by a backslash. Only a `Picture` is put in as it is, and only our own drawings are made into one.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

import msgspec

from store.measure.text import clean
from templates.sheets.layout.footing import foot_text

if TYPE_CHECKING:
    from jinja2 import Environment

ROOM = 72
"""Characters of a table that go across A4 in its usual type."""
LEAST_LONG = 18
"""Characters of a line of a long text that still reads well."""
BESIDE_CELL = 2
"""Characters that the edge of a cell takes."""
LONG = 40
"""Signs of a cell that gets room."""
LONGEST_WORD = 24
"""Signs of a word that is broken where the line ends; a longer one would push the table off the paper."""
_SHORT = re.compile(
    r"\d{1,2} [A-Z][a-z]{2}(?: \d{2}(?:\d{2})?)?|[A-Z][a-z]{2} \d{1,2}(?:, \d{4})?"
    r"|[+(]?\d[\d() -]{5,12}\d|[-$€£]{0,2}[\d,.]+"
    r"|[~−+-]?(?:\d+')?(?: ?\d+)?(?: ?\d+/\d+)?\"?|[~−+-]?[\d.]+ [cm]?m|[~−+-]?[\d.,]+ (?:[VAWh]|kg|lb|ft|in)",
    re.ASCII,
)
"""Dates, telephone numbers, amounts and measures: they are not broken in two on paper."""
_MARKS = str.maketrans({sign: f"\\{sign}" for sign in "\\`*_{}[]<>#|~!&"})
_NO_CHARACTER = str.maketrans({"\ufffe": "\ufffd", "\uffff": "\ufffd"})


class Heading(msgspec.Struct, frozen=True, tag=True):
    """A heading of the sheet."""

    text: str


class Words(msgspec.Struct, frozen=True, tag=True):
    """Lines of text: paragraphs, a list, numbered, a banner across the page, or words of caution."""

    lines: tuple[str, ...]
    form: Literal["plain", "list", "numbers", "banner", "caution"] = "plain"


class Table(msgspec.Struct, frozen=True, tag=True):
    """Rows under titles."""

    titles: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    right: frozenset[int] = frozenset()
    """Columns that are flush right."""
    strong: frozenset[int] = frozenset()
    """Rows that stand out: sums."""
    tall: bool = False
    """With rows high enough to write in by hand."""

    @property
    def least(self) -> int:
        """Characters that its rows need side by side, each column as wide as what is not broken in it."""
        columns = zip(self.titles, *self.rows, strict=True)
        return sum(max(map(_unbroken, each), default=0) + BESIDE_CELL for each in columns)

    @property
    def small(self) -> bool:
        """True where it goes on the paper in small type alone."""
        return self.least > ROOM


class Box(msgspec.Struct, frozen=True):
    """One thing to tick."""

    key: str
    what: str
    where: str = ""
    wants: str = ""
    done: str = ""
    """How it was closed; empty while it is open."""
    why: str = ""
    """Why a closing no longer counts."""


class Boxes(msgspec.Struct, frozen=True, tag=True):
    """Things to tick, in boxes large enough for a hand in a glove, with lines for evidence and a signature."""

    boxes: tuple[Box, ...]
    sign: bool = True
    """With a line for evidence and one for a signature each."""


class GridRow(msgspec.Struct, frozen=True):
    """One thing with all that is to be done to it."""

    tag: str
    what: str
    where: str
    ticks: tuple[str, ...]


class Grid(msgspec.Struct, frozen=True, tag=True):
    """Things to tick, a row each, with room for the proof, the day and a name."""

    rows: tuple[GridRow, ...]


class Asked(msgspec.Struct, frozen=True, tag=True):
    """Questions, each with room for its answer."""

    lines: tuple[str, ...]


class Signatures(msgspec.Struct, frozen=True, tag=True):
    """Lines to sign on."""

    lines: tuple[str, ...]


class Drawing(msgspec.Struct, frozen=True, tag=True):
    """A drawing sheet as SVG in millimeters: it takes a page of its own, lying on its side."""

    svg: str
    wide: float
    high: float
    words: str


class Picture(msgspec.Struct, frozen=True, tag=True):
    """A drawing of our own as SVG, with the words that stand for it where there are no pictures."""

    svg: str
    words: str
    alone: Literal["", "upright", "lying"] = ""
    """On a page of its own, upright or lying on its side."""


Block = Heading | Words | Table | Boxes | Grid | Asked | Signatures | Picture | Drawing


class Page(msgspec.Struct, frozen=True):
    """A whole sheet."""

    title: str
    job: str
    made: str
    """The day on which it was made, in words."""
    blocks: tuple[Block, ...]
    foot: str = ""
    """Words of our own at the foot of every page: what a single page must not be without when it is lost."""
    lying: str = ""
    """What a style sheet calls the paper of pictures that lie on their side."""


@cache
def _environment() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined  # heavy; csv, ics and svg do without

    made = Environment(
        loader=FileSystemLoader(Path(__file__).parent),
        autoescape=lambda name: name is None or not name.endswith(".md.j2"),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=_visible,
    )
    made.filters["md"] = markdown_text
    made.filters["picture"] = _picture
    made.filters["foot"] = _foot
    made.filters["sort_of"] = _sort_of
    made.tests["block"] = lambda block, name: type(block).__name__ == name
    return made


def _foot(page: Page) -> Any:
    """What is at the foot of every page: as it is, because a style sheet knows no marks of HTML."""
    from markupsafe import Markup

    return Markup(foot_text(page.foot or page.title, page.job, "" if page.foot else page.made))


def _visible(value: Any) -> Any:
    """Text with every control sign made visible; what a template marked as safe stays."""
    if isinstance(value, str) and not hasattr(value, "__html__"):
        return clean(value, lines=True).translate(_NO_CHARACTER)
    return value


def _sort_of(cell: str) -> str:
    """The class of a cell: how it may be broken into lines."""
    if _SHORT.fullmatch(cell):
        return "short"
    if max(map(len, cell.split()), default=0) > LONGEST_WORD:
        return "endless"
    return "long" if len(cell) > LONG else ""


def _unbroken(cell: str) -> int:
    """Characters of a cell that stay on one line."""
    if _SHORT.fullmatch(cell):
        return len(cell)
    longest = max(map(len, cell.split()), default=0)
    longest = 1 if longest > LONGEST_WORD else longest
    return max(longest, LEAST_LONG) if len(cell) > LONG else longest


def _picture(svg: str) -> Any:
    from markupsafe import Markup

    return Markup(svg)


def markdown_text(text: str) -> str:
    """Text on one line that Markdown does not obey."""
    plain = clean(text).translate(_NO_CHARACTER).translate(_MARKS)
    return re.sub(r"^(\s*)(?=[-+=])|^(\s*\d+)(?=[.)](?:\s|$))", lambda found: f"{found[0]}\\", plain)


def html(page: Page) -> str:
    """The sheet as one HTML page: prints on letter and on A4, no row cut, nothing fetched."""
    return _environment().get_template("page.html.j2").render(page=page)


def markdown(page: Page) -> str:
    """The sheet as Markdown that reads as plain text."""
    text = _environment().get_template("page.md.j2").render(page=page)
    return re.sub(r"\n{3,}", "\n\n", text).strip() + "\n"
