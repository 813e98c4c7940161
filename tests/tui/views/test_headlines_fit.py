"""At 80 cells, with a scroll bar, a list shows its headlines whole: the columns after them give way first."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from store.rules.core.headline import MOST
from tests.jobs.begun import begun
from tests.tui.seat import LOW, assert_fits, job_file, seat_at
from tui.view.state import State
from tui.view.view import View
from tui.views.access.years import Years
from tui.views.now.agenda import Agenda
from tui.views.now.problems import Findings
from tui.views.rough_in.gate import Gate
from tui.views.rough_in.items import RoughIn
from tui.widgets.record_table import widths

NARROW = 79
HEADLINES: dict[type[View], str] = {
    Agenda: "what to do next",
    Findings: "problem",
    Gate: "holds",
    RoughIn: "what",
    Years: "what",
}


@pytest.fixture(scope="module")
def state(tmp_path_factory: pytest.TempPathFactory) -> State:
    folder: Path = tmp_path_factory.mktemp("narrow")
    book = begun(folder / "j.json", "demo", date(2026, 12, 1), "Ann")
    return State(book.job, folder, book.entries)


@pytest.mark.parametrize("view", HEADLINES)
def test_a_headline_is_whole_at_80_cells(state: State, view: type[View]) -> None:
    one = view()
    columns = one.columns(state)
    at = [each.title for each in columns].index(HEADLINES[view])
    sizes = widths(columns, NARROW)
    assert sizes[at] >= MOST
    rows = one.rows(state, one.filters[0] if one.filters else "")
    lines = [one.line(state, row).cells[at] for row in rows if not isinstance(row, str)]
    assert lines
    assert [line for line in lines if len(line) > sizes[at]] == []


async def test_what_a_row_has_no_room_for_and_a_long_refusal_are_whole_below_the_list(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        for view, tag, whole in (
            ("Boxes", "B5", "Equipment cabinet, power"),
            ("Cables", "K2", "picture, cabinet to receiver"),
            ("Steps", "S6", "Power: circuits, boxes and cable"),
        ):
            await seat.go(view)
            seat.table.move_to(tag)
            await seat.calm()
            assert not any(whole in cell for cell in seat.lines()[4:-4])
            assert whole in seat.lines()[-3]
            assert seat.said in seat.lines()[-2], "the totals stay"
        await seat.go("Gate")
        await seat.calm()
        assert "way out" not in seat.lines()[4]
        assert "Pull cable marked CL2" in seat.lines()[-3], "a column that is left out is said too"
        assert seat.said in seat.lines()[-2]
        refusal = " ".join(f"word{number}" for number in range(25))
        seat.job_screen.say_line.say(refusal, bad=True)
        await seat.calm()
        assert " ".join(" ".join(seat.lines()[-4:-1]).split()) == f"! {refusal}"
        assert_fits(seat, LOW)
        await seat.keys("down")
        assert "word3" not in seat.text
        assert seat.job_screen.say_line.size.height == 2, "the list has its line back"
