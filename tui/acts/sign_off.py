"""Signing off rough-in items: asks for the kind of proof that each takes; a wrong one is told with what would do."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Annotated, Any

from msgspec.structs import replace

from store.book.changes import set_down
from store.book.pictures import PHOTOS, copied_beside, lies_outside, look
from store.measure.errors import BadValue
from store.measure.text import capital
from store.records.access import Photo
from store.records.base import Record
from store.records.field import Day, F
from store.records.gate import Closing
from store.rules.core.checks import Item, RoughIn, close
from store.rules.core.proof import FOR_MANY, PICTURES, kinds_for, pictures_named, proof_missing, says_not_done, wanted
from store.rules.core.wording import plural
from tui.acts.closings import closing_changes
from tui.acts.sheet_form import line_of, sheet_form
from tui.view.desk import SAME_LINE, Desk

MOST_NAMED = 30
"""Items that are named one by one before they are signed off together."""
MOST_PICTURES = 4
"""Pictures beside the job that are named, the newest first."""


class Inspection(Record, frozen=True, kw_only=True):
    """What an inspection that was passed is noted with."""

    office: Annotated[str, F("office or inspector", "who inspected", must=True)]
    reference: Annotated[str, F("reference", "no. of the report, card or permit", must=True)]
    inspected: Annotated[Day, F("day of the inspection")]
    words: Annotated[str, F("remarks", "anything to remember; can be blank")] = ""


def sign_off(desk: Desk, item: Item) -> None:
    """Sign off one item on proof of its kind."""
    _sign_off(desk, [item], f"Sign off {item.key}: {item.check.what}", f"Signed off {item.key}.")


def sign_off_alike(desk: Desk, items: Sequence[Item], aspect: str, trade: str) -> None:
    """Sign off several items: on one proof where one can stand for all, else line by line."""
    what = f"{len(items)} {aspect} of the {trade}"
    _sign_off(desk, items, f"Sign off {what}", f"Signed off {plural(len(items), 'item')}.")


def _sign_off(desk: Desk, items: Sequence[Item], what: str, said: str) -> None:
    kinds = kinds_for(items[0].check)
    if kinds == ("inspection",):
        _inspected(desk, items, what, said)
    elif len(items) > 1 and not FOR_MANY & set(kinds):
        _line_by_line(desk, items, what)
    else:
        _ask(desk, items, what, said)


def _ask(desk: Desk, items: Sequence[Item], what: str, said: str, start: str = "", wrong: str = "") -> None:
    """Ask for the proof in one line; what is no proof is told, and stays to be mended."""
    check = items[0].check

    def done(text: str) -> None:
        try:
            words = with_pictures(desk, text)
            closings = [closing_of(desk, item.check, words) for item in items]
        except BadValue as error:
            _ask(desk, items, what, said, text, error.sentence)
            return
        if len(items) > 1 and closings[0].proof not in FOR_MANY:
            _ask(desk, items, what, said, text, "A reading is for one item. Sign each off by itself, or enter a photo.")
            return
        _save(desk, closings, what, said)

    many = f"all {len(items)} are" if len(items) > 1 else f"{items[0].key} is"
    about = [wrong, ""] if wrong else []
    about.append(_named(items) if len(items) > 1 else check.full)
    about += [f"Needs: {check.wants}"] if check.wants else []
    about.append(f"Proof: {wanted(kinds_for(check))}")
    if check.test is not None:
        about.append(f"Like: {check.test.example}")
    if "photo" in kinds_for(check) and (there := pictures_beside(desk.folder)):
        about.append(f"Beside the job: {', '.join(there)}")
    desk.ask(f"Proof that {many} done", done, start=start, about="\n".join(about))


def _named(items: Sequence[Item]) -> str:
    keys = " ".join(each.key for each in items[:MOST_NAMED])
    return keys + (f" and {len(items) - MOST_NAMED} more" if len(items) > MOST_NAMED else "")


def closing_of(desk: Desk, check: RoughIn, words: str, by: str = "", day: date | None = None) -> Closing:
    """The closing, looked at as the guard will. Raises BadValue with what would do."""
    closing = close(check, by or desk.who(), day or desk.state.job.today, words)
    seen = closing
    if closing.proof == "photo":
        files = pictures_named(words)
        for file in files:
            if why := look(file, desk.folder).why:
                raise BadValue(f"this picture can't prove {check.key}. {file}: {why}. Enter a picture that is there.")
        seen = replace(closing, pictures=dict.fromkeys(files, "there"))
    if wrong := proof_missing(check, seen) or says_not_done(seen):
        raise BadValue(f"can't sign off {check.key}. {capital(wrong)}.")
    return closing


def judged(desk: Desk, check: RoughIn, words: str, by: str, day: date) -> str:
    """What was written on the line of an item, its pictures beside the job. Raises BadValue where it is no proof."""
    if not words.strip():
        return ""
    return closing_of(desk, check, with_pictures(desk, words), by, day).evidence


def _save(desk: Desk, closings: Sequence[Closing], what: str, said: str) -> bool:
    job = desk.state.job
    changes = closing_changes(job, closings)
    saved = desk.act(what, changes, at=SAME_LINE)
    if saved:
        desk.done(f"{said} u = undo")
    return saved


def _inspected(desk: Desk, items: Sequence[Item], what: str, said: str) -> None:
    """Ask for office, reference and day of an inspection."""

    def save(typed: dict[str, Any]) -> str:
        given = {key: typed[key] for key in ("office", "reference", "inspected")}
        today, who = desk.state.job.today, desk.who()
        closings = [close(each.check, who, today, typed["words"], proof="inspection", **given) for each in items]
        wrong = next((wrong for each, one in zip(items, closings, strict=True)
                      if (wrong := proof_missing(each.check, one))), "")  # fmt: skip
        if not wrong and typed["inspected"] > today:
            wrong = "the day of the inspection is still to come. Enter the day it was, today at the latest"
        if wrong:
            return f"{capital(wrong)}."
        return "" if _save(desk, closings, what, said) else "Not saved. What you typed is still here."

    desk.fill_out(what, Inspection, {"inspected": desk.state.job.today}, save)


def _line_by_line(desk: Desk, items: Sequence[Item], what: str) -> None:
    """A form with a line for each item: a reading is of one thing. A blank line leaves its item open."""

    def save(typed: dict[str, Any]) -> str:
        closings, wrong = [], []
        for number, item in enumerate(items):
            if words := typed[line_of(number)].strip():
                try:
                    closings.append(closing_of(desk, item.check, with_pictures(desk, words), typed["by"], typed["day"]))
                except BadValue as error:
                    wrong.append(error.sentence)
        if wrong or not closings:
            return wrong[0] if wrong else "No reading entered yet."
        said = f"Signed off {plural(len(closings), 'item')}, {len(items) - len(closings)} left open."
        return "" if _save(desk, closings, what, said) else "Not saved. What you typed is still here."

    values = {"by": desk.who(), "day": desk.state.job.today}
    desk.fill_out(what, sheet_form(items), values, save)


def call_not_needed(desk: Desk, item: Item) -> None:
    """Say why an item is not needed; of an inspection, also which office said so."""
    check = item.check

    def done(reason: str, office: str = "") -> None:
        closing = close(check, desk.who(), desk.state.job.today, reason=reason)
        closing = replace(closing, office=office)
        if wrong := proof_missing(check, closing):
            desk.say(f"{item.key}: {wrong}", bad=True)
        elif desk.act(
            f"Not needed {item.key}: {check.what}", [set_down(desk.state.job, closing)], reason, at=SAME_LINE
        ):
            desk.done(f"Marked {item.key} not needed. u = undo")

    def said(reason: str) -> None:
        desk.ask("Which office said so, and who there?", lambda office: done(reason, office), about=check.what)

    then: Callable[[str], None] = said if kinds_for(check) == ("inspection",) else done
    desk.ask(f"Why is {item.key} not needed?", then, about=check.what)


def with_pictures(desk: Desk, text: str) -> str:
    """The text with each picture that it names lying beside the job: copied there from elsewhere, found by its bare
    name in the folder of photos, or by the tag of its photo (`F3`). Raises BadValue where one cannot be copied."""
    photo = desk.state.job.of(Photo).get(text.strip().upper())
    words = photo.file if photo is not None else text
    for file in pictures_named(words):
        if lies_outside(file, desk.folder):
            words = words.replace(file, copied_beside(file, desk.folder))
        elif look(file, desk.folder).why and not look(f"{PHOTOS}/{file}", desk.folder).why:
            words = words.replace(file, f"{PHOTOS}/{file}")
    return words


def pictures_beside(folder: Path, most: int = MOST_PICTURES) -> list[str]:
    """The newest pictures in the folder of photos, by the name to type."""
    try:
        found = [each for each in (folder / PHOTOS).iterdir() if each.suffix.lower() in PICTURES]
        return [each.name for each in sorted(found, key=lambda each: -each.stat().st_mtime)[:most]]
    except OSError:
        return []
