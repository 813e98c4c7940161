"""The help: of every list what it is for, what to do first and its keys; and what tags, signs, colors
and stages mean."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from store.records.people import Stage
from store.records.whole import KINDS
from store.rules.schedule.bars import LEGEND
from tui.drawing.wall_picture import NEW_SIGNS
from tui.screen.keys import COMMON_KEYS, key_name
from tui.shared.text import wrap
from tui.view.desk import Desk
from tui.view.view import View

WIDTH = 72
"""Cells of a line of a page at 80 by 24."""
LINES = 18
"""Lines of a page that are in sight there."""
MOVES = "1 to 7 = sections  [ ] = lists  arrows, PgUp, PgDn, Home, End = rows  Enter = page  Esc = back"
CAUTION = (
    "Planning aid. Line voltage: licensed electrician where the law requires one. Local code and the manufacturer's "
    "instructions win."
)
MORE = (("L", "tags, signs, colors, stages"),)

STAGES: dict[Stage, str] = {
    "Survey": "measure the wall; look what is in it",
    "Design": "openings, equipment, boxes, cables; what every trade needs to know",
    "Mock-up": "the layout in tape on the wall, full size, agreed",
    "Rough-in": "boxes, cables, raceways, blocking, panels: each signed off with proof",
    "Drywall": "the wall is covered. Locked while one item is open",
    "Finish": "tape, paint, cabinets, stone",
    "Hook-up": "equipment in, tested, labeled",
    "In use": "service, visits, replacements, for years",
}
SIGNS = (
    ("■ Stop", "dangerous, or about to be covered: do not go on"),
    ("▲ Fix", "won't fit, work or pass inspection"),
    ("○ Check", "someone must look or decide"),
    ("□ ✓ –", "an item that is open, signed off, not needed"),
    ("!", "beside a tag or a value: it has a problem; Enter = show it"),
    ("*", "a length that was measured by hand; in a form, a field that must be filled in"),
    ("•", "in a form: needed before you buy, or before the wall is covered"),
    ("~", "rounded"),
    ("▌ ▸", "where you are; on the drawing, what is selected"),
    ("+", "on the drawing: belongs to what is selected"),
    ("█░ ▓", "how full it is; past its limit"),
)
COLORS = (
    "Red = stop  amber = fix  green = done  blue = where you are  violet = belongs to it. T = dark, light, high "
    "contrast"
)


def pairs_text(pairs: Iterable[tuple[str, str]]) -> str:
    """`a = add  e = edit`, in the way of the house."""
    return "  ".join(f"{key_name(key)} = {label[:1].lower()}{label[1:]}" for key, label in pairs if label)


def help_text(view: View) -> str:
    """What a view is for, what to do first, its own keys, and the keys that work everywhere: one screen of 80 by 24."""
    own = [(key.key, key.label) for key in view.keys]
    taken = {key for key, _ in own} | {"question_mark", "q"}
    common = [each for each in COMMON_KEYS if each[0] not in taken]
    here = [f"Keys here: {pairs_text(own)}"] if own else []
    return "\n".join(
        [view.about, f"First: {view.first}", "", *here, f"Everywhere: {pairs_text(common)}", MOVES, CAUTION]
    )


def signs_text() -> str:
    """What tags, signs, colors and stages mean."""
    tags = "  ".join(f"{cls.letter} {cls.one}" for cls in KINDS.values() if cls.letter)
    drawn = "  ".join(f"{sign} {kind}" for kind, sign in NEW_SIGNS.items())
    return "\n".join(
        [
            "Tags: a letter and a number, given once and never again. Write it on the cable, the panel, the box.",
            f"  {tags}",
            "",
            *("Signs", *_table(SIGNS)),
            f"On the drawing: {drawn}. Hollow = existing.",
            f"Steps: {LEGEND}",
            "",
            COLORS,
            "",
            *("Stages", *_table(STAGES.items())),
        ]
    )


def _table(rows: Iterable[tuple[str, str]]) -> list[str]:
    listed = list(rows)
    width = max(len(name) for name, _ in listed)
    return [f"  {name:{width}}  {what}" for name, what in listed]


def lines_of(text: str) -> Sequence[str]:
    """A text as a page at 80 by 24 breaks it."""
    return wrap(text, WIDTH)


def show_help(desk: Desk, title: str, text: str) -> None:
    """Open a page of help; from it one key leads to the signs, and Esc back."""

    def on(pressed: str | None) -> None:
        if pressed is not None:
            desk.read("Tags, signs, colors, stages", signs_text())

    desk.read(f"Help: {title}", text, MORE, on)
