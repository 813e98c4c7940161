"""Filling the sheet templates: what people typed is escaped in HTML and in Markdown alike, without asking each sheet.

Everything on paper is one file that needs nothing else: style, drawings and pictures stand in it.
"""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from store.measure.text import clean

if TYPE_CHECKING:
    from jinja2 import Environment

_MARKS = str.maketrans({sign: f"\\{sign}" for sign in "\\`*_{}[]<>#|~!"})
ROOMS = ("templates.sheets.layout", "templates.sheets.owner")
"""Where the templates of pages are."""
LONGEST_WORD = 12
"""Letters of a word that the columns of the owner's book have room for."""
MOST_PAGE_BYTES = 15_000_000
"""Bytes of the pictures of a page, so that it stays one that a telephone opens."""


def filled(template: str, **values: Any) -> str:
    """The text of a sheet: `name.html.j2` or `name.md.j2` with its values put in."""
    return _environment(".md." in template).get_template(template).render(**values)


@cache
def _environment(markdown: bool) -> Environment:
    from jinja2 import Environment, FunctionLoader, StrictUndefined  # only a sheet that is printed needs it

    made = Environment(
        loader=FunctionLoader(_source),
        autoescape=not markdown,
        undefined=StrictUndefined,
        finalize=_markdown if markdown else _html,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    made.filters["endless"] = _endless
    return made


def _source(name: str) -> str:
    for room in ROOMS:
        page = files(room).joinpath(name)
        if page.is_file():
            return page.read_text("utf-8")
    raise FileNotFoundError(f"no room of {', '.join(ROOMS)} holds {name}")


def _endless(cell: str) -> Any:
    """The class of a cell with a word that a column may be too narrow for.

    The others have none: to find how narrow a cell can be made letter by letter takes more time than the whole page.
    """
    from markupsafe import Markup  # comes with the templates

    long = max(map(len, cell.split()), default=0) > LONGEST_WORD
    return Markup(' class="endless"') if long else ""


def _html(value: Any) -> Any:
    """Text without control characters; the template escapes it. What is safe already stays."""
    return value if hasattr(value, "__html__") else clean(str(value), lines=True)


def _markdown(value: Any) -> str:
    """Text on one line that Markdown does not obey. What is safe already stays."""
    return str(value) if hasattr(value, "__html__") else clean(str(value)).translate(_MARKS)


def svg_uri(text: str) -> str:
    """A drawing as an address that holds it whole; its styles and names stay within it."""
    return f"data:image/svg+xml;base64,{b64encode(text.encode()).decode()}"
