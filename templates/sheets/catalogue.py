"""Every sheet that can be printed: its title, its formats, and what makes it, imported only when it is asked for.

A new sheet is one entry here and one function `(job, context) -> text` in `templates.sheets.makers`, or elsewhere.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from importlib import import_module
from pathlib import Path
from typing import Any, get_args

import msgspec

from store.measure.errors import BadValue, StudbookError, quoted
from store.records.people import Trade
from store.records.whole import Job
from store.rules.core.wording import date_text
from templates.sheets.convert import MARKS, SOURCE
from templates.sheets.layout.footing import with_foot

FORMS = tuple(MARKS)
PACKET = "packet-"
"""What the name of a packet begins with; the trade follows."""
DRAWING = "drawing-"
"""What the name of drawing sheets begins with; `sheets` or the trade follows."""
PARTS = {
    "sheets": "every wall and trade, to scale",
    "electrician": "electrical",
    "low-voltage": "low voltage",
    "carpenter": "framing",
    "drywall": "drywall, with where not to screw",
}
PAGES = {"letter": "letter", "tabloid": "ledger", "a4": "A4", "a3": "A3"}
"""Papers of a page, and what a style sheet calls them."""
USUAL_PAGE = {True: "a4", False: "letter"}
"""By metric or not."""
OWN_PAPER = ("labels", "labels-test")
"""Pages whose paper is chosen otherwise, like drawing sheets."""
_HERE = "templates.sheets.makers:"


class NoSheet(StudbookError):
    """There is no such sheet, or it does not come in that format."""

    exit_status = 2


class Context(msgspec.Struct, frozen=True, kw_only=True):
    """What a sheet may need besides the job."""

    sheet: str = ""
    """The name it was asked for by."""
    wall: str = ""
    """Tag of the wall, for a drawing; empty takes the first, or all where a page has room for all."""
    entries: Sequence[Mapping[str, Any]] = ()
    """The history as plain data, oldest first."""
    sign: str = "job"
    """What tells this job from others in a calendar, the same for its life."""
    paper: str = ""
    """Of a drawing, a page, or of labels, by its name; empty takes what is usual for the job."""
    scale: str = ""
    """Of a drawing, as a person types it; empty takes the largest that fits."""
    skip: int = 0
    """Labels of the first page that are used already."""
    nudge: str = ""
    """Of labels: millimeters right and down, as a person types it."""
    folder: Path | None = None
    """The folder of the job's file, for pictures."""


Maker = Callable[[Job, Context], str]


class Sheet(msgspec.Struct, frozen=True):
    """One sheet."""

    title: str
    makers: Mapping[str, str]
    """By format, `module:function`; the first format is the usual one."""
    pictures: bool = False
    """True where pictures from other files are put in."""


def _made(title: str, *, pictures: bool = False, **forms: str) -> Sheet:
    """A sheet; one that is a page comes as PDF too, one that is a drawing as PNG."""
    for form, source in SOURCE.items():
        if source in forms:
            forms.setdefault(form, forms[source])
    return Sheet(title, {form: f"{_HERE}{name}" for form, name in forms.items()}, pictures)


def _packets() -> dict[str, Sheet]:
    return {
        f"{PACKET}{trade}": _made(f"Handoff packet, {trade}", html="packet_html", md="packet_md")
        for trade in get_args(Trade)
    }


SHEETS: dict[str, Sheet] = {
    "schedule": _made(
        "Schedule: steps, bookings, orders",
        html="schedule_html", md="schedule_md", svg="schedule_svg", txt="schedule_txt",
    ),
    "calendar": _made("Bookings and deadlines for a calendar", ics="calendar_ics"),
    "checklist": _made("Rough-in checklist for the wall", html="checklist_html", md="checklist_md"),
    "contacts": _made("Contacts, papers, quotes and calls", html="contacts_html", md="contacts_md"),
    "money": _made("Money", html="money_html", md="money_md", csv="money_csv"),
    **{f"{DRAWING}{part}": _made(f"Drawing sheets, {title}", html="sheets_html", svg="sheets_svg", dxf="sheets_dxf")
       for part, title in PARTS.items()},
    "drawing": _made("Elevation of the wall to scale", html="drawing_html", svg="drawing_svg"),
    "from-above": _made("Walls cut level and seen from above", html="cuts_html", svg="cuts_svg"),
    "section": _made("Walls cut upright, with what is in front", html="cuts_html", svg="cuts_svg"),
    "measuring": _made("Measuring sheet to fill in by hand", html="measuring_html", md="measuring_md"),
    "tape": _made("Mock-up sheet: every edge in tape, full size", html="tape_html", md="tape_md"),
    "electrician": _made("Boxes, circuits and loads", html="electrician_html", md="electrician_md"),
    "buying": _made("Buying list", html="buying_html", md="buying_md", csv="buying_csv"),
    "labels": _made("Labels for both ends of every cable and raceway", html="labels_html", txt="labels_txt",
        pdf="labels_pdf",
    ),
    "labels-test": _made("Test print for label paper, on plain paper", html="labels_test_html"),
    "signal": _made("Signal chain", html="signal_html", svg="signal_svg", txt="signal_txt"),
    "panel-cards": _made("Cards for the inside of the access panels", html="cards_html", md="cards_md"),
    "owners-book": _made("Owner's book", pictures=True, html="book_html", md="book_md"),
    **_packets(),
}  # fmt: skip
"""Every sheet by its name."""


def sheet_named(name: str) -> Sheet:
    """The sheet of a name. Raises NoSheet with the names there are."""
    try:
        return SHEETS[name]
    except KeyError:
        from difflib import get_close_matches  # only for a name that is not known

        near = get_close_matches(name, ("packets", *SHEETS), 1)
        meant = f" Did you mean {near[0]}?" if near else ""
        raise NoSheet(f"there is no sheet {name!r}.{meant} There are: packets, {', '.join(SHEETS)}") from None


def maker_of(name: str, form: str) -> Maker:
    """What makes a sheet in a format (empty: the usual one). Raises NoSheet."""
    makers = sheet_named(name).makers
    if form and form not in makers:
        raise NoSheet(f"{name} can't be written as {form}. Use one of: {', '.join(makers)}")
    module, function = makers[form or next(iter(makers))].split(":")
    maker: Maker = getattr(import_module(module), function)
    return maker


def usual_form(name: str) -> str:
    """The usual format of a sheet. Raises NoSheet."""
    return next(iter(sheet_named(name).makers))


def make(name: str, form: str, job: Job, context: Context) -> str:
    """The text of a sheet. Raises NoSheet, or BadValue where the job lacks what the sheet is about."""
    from templates.sheets.layout.unearned import marked
    from templates.sheets.region import in_region

    text = maker_of(name, form)(job, msgspec.structs.replace(context, sheet=name))
    drawn = name.startswith(DRAWING) or (name == "drawing" and form not in ("svg", "png"))
    if not drawn:  # a drawing sheet says it among its notes
        text = marked(text, form or usual_form(name), job)
    if form in ("html", "pdf") and not drawn and name not in OWN_PAPER:
        text = with_foot(text, sheet_named(name).title, job.settings.name, date_text(job, job.today))
    text = in_region(text, "html" if form == "pdf" else form or usual_form(name), job)
    page = context.paper.lower() or (USUAL_PAGE[job.settings.metric] if form == "pdf" else "")
    if form not in ("html", "pdf") or not page or name in OWN_PAPER or drawn:
        return text
    if page not in PAGES:
        raise BadValue(f"no paper {quoted(context.paper)}. There are: {', '.join(PAGES)}")
    return text.replace("</style>", f"@page {{ size: {PAGES[page]}; }}</style>", 1)
