"""Figures of a wall's framing and drywall."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from store.records.whole import Job
from store.rules.build.boards import boards, square_feet
from store.rules.build.framing import framed, lumber
from store.rules.build.takeoff_words import board_lines, coat_lines, lumber_lines, stick_lines
from store.rules.core.figures import Figure, figures_of
from store.trade.build.takeoff import Part, Stick

COUNT_NAMES: dict[Part, str] = {"stud": "stud_count"}
"""`studs` is the figure of the layout: where each is."""


@figures_of("wall")
def of_framing(job: Job) -> Iterable[Figure]:
    """How many sticks of each part, what is bought, the waste of it, and the cutting."""
    for tag, one in framed(job).items():
        for part, count in _numbers(one.all).items():
            yield tag, COUNT_NAMES.get(part, f"{part.replace(' ', '_')}s"), count
        yield tag, "framing_lines", list(stick_lines(job, one))
        bought = lumber(job, one).values()
        yield tag, "lumber_lengths", sum(len(each.cuts) for each in bought)
        yield tag, "lumber_lines", list(lumber_lines(job, one))


@figures_of("wall")
def of_boards(job: Job) -> Iterable[Figure]:
    """Sheets, joints, waste, screws, tape, compound, bead, and the coats with their drying."""
    for tag, one in boards(job).items():
        yield tag, "sheets", sum(count for _, _, count in one.boarded.sheets)
        yield tag, "board_ft2", round(square_feet(one.boarded.bought_nm2), 2)
        yield tag, "board_waste_pct", round(100 * one.boarded.waste, 1)
        yield tag, "board_screws", one.sundries.screws
        yield tag, "tape_ft", one.sundries.tape_ft
        yield tag, "compound_gal", one.sundries.compound_gal
        yield tag, "bead_ft", one.sundries.bead_ft
        yield tag, "board_lines", list(board_lines(job, one))
        yield tag, "coats", len(one.coats)
        if one.coat_days is not None:
            yield tag, "coat_days", one.coat_days
        yield tag, "coat_lines", list(coat_lines(one))


def _numbers(sticks: Iterable[Stick]) -> dict[Part, int]:
    return dict(Counter(one.part for one in sticks))
