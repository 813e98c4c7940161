"""What the options of `print` mean for a sheet, and in which file types: one that means nothing there is refused."""

from __future__ import annotations

import argparse
from pathlib import Path

from templates.sheets.catalogue import DRAWING, FORMS, PACKET, SHEETS, NoSheet, sheet_named, usual_form
from tui.shared.made import PACKETS

PAGES = ("html", "pdf")
LABELS = ("labels", "labels-test")
OF_A_WALL = ("drawing", "from-above", "section", "tape")
"""Sheets of one wall, where it is named; those of the drawing set too."""
WHY = {
    "wall": "it is not of one wall",
    "scale": "it is not drawn to a scale on paper",
    "paper": "it is not laid out for paper",
    "skip": "it is no label sheet",
    "nudge": "it is no label sheet",
    "final": "it is no packet",
    "give": "it is no packet",
}
"""The options that some sheets have no use for, and what the others are not."""


def means(option: str, name: str, form: str) -> bool:
    """Whether an option of `print` changes anything of a sheet in a file type."""
    drawn = name.startswith(DRAWING) or (name == "drawing" and form in PAGES)
    packet = name == PACKETS or name.startswith(PACKET)
    if option in ("final", "give"):
        return packet
    if option in ("skip", "nudge"):
        return form in PAGES and (name == "labels" or (option == "nudge" and name in LABELS))
    if option == "wall":
        return name in OF_A_WALL or name.startswith(DRAWING)
    on_paper = form in PAGES or (name.startswith(DRAWING) and form in ("svg", "png"))
    return on_paper and (drawn if option == "scale" else True)


def options_of(name: str) -> list[str]:
    """The options of `print` that mean something for a sheet in any of its file types."""
    forms = sheet_named(name).makers if name != PACKETS else PAGES
    return [option for option in WHY if any(means(option, name, form) for form in forms)]


def refuse_idle(options: argparse.Namespace) -> None:
    """Raises NoSheet for an option that means nothing for the sheet that is asked for, and says why."""
    given = [each for each in WHY if getattr(options, each)]
    name = options.sheet
    if not given or (name != PACKETS and name not in SHEETS):
        return
    to = Path(options.to) if options.to and options.to != "-" else Path()
    ending = to.suffix[1:].lower() if not to.is_dir() else ""
    form = options.format or (ending if ending in FORMS else "") or ("html" if name == PACKETS else usual_form(name))
    for option in given:
        if not means(option, name, form):
            kinds = [each for each in sheet_named(name).makers if means(option, name, each)] if name in SHEETS else []
            as_form = f" as {form}" if kinds else ""
            way = f"Leave it out, or print it as {' or '.join(kinds)}." if kinds else "Leave it out."
            raise NoSheet(f"--{option} means nothing for {name}{as_form}: {WHY[option]}. {way}")


def about(name: str) -> str:
    """What a sheet is for, how it comes, and what may be said of it."""
    takes = [f"--{option}" for option in options_of(name)]
    forms = ", ".join(sheet_named(name).makers) if name != PACKETS else "html, md, pdf"
    title = SHEETS[name].title if name in SHEETS else "A packet for each trade that there is one for"
    return f"{name}: {title}\nComes as: {forms}\nOptions of its own: {', '.join(takes) or 'none'}"
