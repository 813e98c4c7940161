"""The page beside the table: what is wrapped keeps its words, its insets and its width."""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from tests.tui.seat import job_file, seat_at
from tui.shared.text import shown, wrap
from tui.widgets.side_page import SidePage

TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=200)


@given(TEXTS, st.integers(4, 60))
def test_wrapped_text_loses_nothing_but_spaces(text: str, width: int) -> None:
    lines = wrap(text, width)
    assert "".join(re.sub(r"\s", "", line) for line in lines) == re.sub(r"\s", "", shown(text, lines=True))
    assert all(cell_len(line) <= width for line in lines)


def test_what_goes_on_below_a_line_that_is_set_in_is_set_in_farther() -> None:
    assert wrap("  a note of several words", 12) == ["  a note of", "    several", "    words"]
    assert wrap("  " + "x" * 20, 12) == ["  " + "x" * 10, "    " + "x" * 8, "    xx"]


async def test_the_page_follows_the_cursor_and_starts_at_its_top(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), (140, 20)) as seat:
        await seat.keys("4")
        page, table = seat.job_screen.query_one(SidePage), seat.job_screen.table
        first = page.text
        assert first.startswith(table.cursor_key or "nothing")
        page.scroll_to(y=5, animate=False, immediate=True)
        await seat.keys("down")
        assert page.text != first
        assert page.text.startswith(table.cursor_key or "nothing")
        assert page.scroll_offset.y == 0
        assert page.render_line(0).text.strip() == page.text.splitlines()[0].strip()
        assert page.render_line(0).cell_length == page.scrollable_content_region.width
