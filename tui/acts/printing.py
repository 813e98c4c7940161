"""Printing from the screen: pick a sheet, it is made beside the work, and it is said where it went."""

from __future__ import annotations

import time
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from store.measure.errors import StudbookError
from store.records.wall import Wall
from store.rules.core.wording import plural
from store.rules.handoff.packet import trades_with_packets
from templates.sheets.catalogue import DRAWING, PACKET, SHEETS, make, usual_form
from templates.sheets.context import context_of, missing_of
from templates.sheets.write import NotOurs, part_of, target, write_sheet
from tui.shared.made import PACKETS
from tui.widgets.dialogs import Confirm

if TYPE_CHECKING:
    from textual.app import App

    from tui.view.desk import Desk


ONE_WALL = (("tape", "html"), ("tape", "md"), ("tape", "pdf"), ("drawing", "svg"), ("drawing", "png"),
            ("from-above", "svg"), ("from-above", "png"), ("section", "svg"), ("section", "png"))  # fmt: skip
"""Sheets that are of one wall: where there are several it is asked for."""


def print_sheet(app: App[Any], desk: Desk, name: str = "", first: Sequence[str] = ()) -> None:
    """Print a sheet into the folder of the job's file; without a name, ask which, and in which form; `first` are named
    before the others."""
    if name:
        _begin(app, desk, name, usual_form(name))
        return
    names = [*first, *(each for each in SHEETS if each not in first)]
    choices = [(f"{name} {usual_form(name)}", f"{name}: {SHEETS[name].title}") for name in names]
    choices += [
        (f"{name} {form}", f"{name}: {sheet.title}, as {form}")
        for name, sheet in SHEETS.items()
        for form in list(sheet.makers)[1:]
    ]
    choices.append((PACKETS, f"{PACKETS}: one packet for each trade on the job"))

    def chosen(key: str) -> None:
        if key == PACKETS:
            _all_packets(app, desk)
        else:
            _choose_wall(app, desk, *key.split())

    desk.pick("Print what?", choices, chosen)


def _all_packets(app: App[Any], desk: Desk) -> None:
    """Print every packet, one after the other; a file that is not ours is left as it is, and told."""
    book, job = desk.book, desk.book.job
    context = context_of(book)

    def work() -> None:
        written, drafts, left, names = 0, 0, [], [f"{PACKET}{trade}" for trade in trades_with_packets(job)]
        for at, name in enumerate(names, 1):
            app.call_from_thread(desk.say, f"Printing {name}, {at} of {len(names)} ...")
            form = usual_form(name)
            path = target(Path(f"{book.path.parent}/"), book.path.stem, name, form)
            try:
                write_sheet(path, make(name, form, job, context), form, job=desk.book.path)
                written += 1
                drafts += bool(missing_of(job, name))
            except StudbookError as error:
                left.append(error.sentence)
        as_drafts = f" ({drafts} as DRAFT)" if drafts else ""
        words = f"Wrote {written} of {plural(len(names), 'packet')}{as_drafts} to {book.path.parent}"
        app.call_from_thread(desk.say, words if not left else f"{words}. Not written: {left[0]}", bad=bool(left))

    app.run_worker(work, thread=True, group="printing", exclusive=True)


def _choose_wall(app: App[Any], desk: Desk, name: str, form: str) -> None:
    walls = desk.book.job.of(Wall)
    one = (name, form) in ONE_WALL or (name.startswith(DRAWING) and form in ("svg", "png", "dxf"))
    if not one or len(walls) < 2:
        _begin(app, desk, name, form)
        return
    choices = [(tag, f"{tag} {one.name}") for tag, one in walls.items()]
    desk.pick("Which wall?", choices, lambda tag: _begin(app, desk, name, form, wall=tag))


def _begin(app: App[Any], desk: Desk, name: str, form: str, *, wall: str = "", force: bool = False) -> None:
    """Make and write the sheet in a thread; the job never changes, so the work goes on meanwhile."""
    book, job = desk.book, desk.book.job
    context = context_of(book, wall)
    path = target(Path(f"{book.path.parent}/"), book.path.stem, f"{name}-{wall}" if wall else name, form)
    desk.say(f"Printing {name} ...")
    began = time.monotonic()
    ticking = app.set_interval(1.0, lambda: desk.say(f"Printing {name} ... {time.monotonic() - began:.0f} s"))

    def done(words: str, bad: bool) -> None:
        ticking.stop()
        desk.say(words, bad=bad)

    def ask_over(error: NotOurs) -> None:
        ticking.stop()

        def over(yes: bool | None) -> None:
            if yes:
                _begin(app, desk, name, form, wall=wall, force=True)
            else:
                desk.say(f"Kept {path.name} as it was")

        if force or not path.exists():
            done(error.sentence, True)
            return
        about = f"{path} exists, and Studbook did not write it or it was changed since. It would be lost."
        app.push_screen(Confirm(f"Overwrite {path.name}?", about, yes="overwrite", no="keep"), over)

    def work() -> None:
        try:
            text = make(name, form, job, context)
            written = write_sheet(path, text, form, force=force, job=desk.book.path)
            draft = " as a DRAFT" if missing_of(job, name) else ""
        except NotOurs as error:
            app.call_from_thread(ask_over, error)
        except StudbookError as error:
            app.call_from_thread(done, error.sentence, True)
        else:
            app.call_from_thread(done, f"Wrote {name}{draft}: {written}{part_of(text, form)}", False)

    app.run_worker(work, thread=True, group="printing", exclusive=True)
