"""The tape sheet: numbers by hand, in the order of one walk, and safe on paper whatever was typed."""

from __future__ import annotations

from html.parser import HTMLParser

import msgspec
import pytest

from store.measure.errors import BadValue
from store.measure.length import FOOT_NM, INCH_NM, MM_NM
from store.records.wall import Opening
from store.rules.drawing.tape_marks import TapeSheet, tape_sheet
from templates.sheets.wall.tape import tape_html, tape_markdown
from tests.jobs.wall_jobs import ROOM, job_of, made, opening, panel

HOSTILE = "<script>x</script> | `a` *b* \x1b[31m [c](d) \u202e"


def sheet(**settings: str) -> TapeSheet:
    """Three outlines; N2 stands right of N1 on the same level, and A1 is higher up."""
    return tape_sheet(
        job_of(
            *ROOM,
            opening("N2", 46, 10, 30, 40),
            opening("N1", 4.5, 10, 34, 30.0625),
            panel("A1", 100, 80, 12, 9),
            **settings,
        ),
        "W1",
    )


def test_edges_centres_and_diagonals_by_hand() -> None:
    rows = {row.tag: row for row in sheet().rows}
    one = rows["N1"]
    numbers = (one.left_nm, one.right_nm, one.bottom_nm, one.top_nm, one.centre_x_nm)
    assert [each / INCH_NM for each in numbers] == [4.5, 38.5, 10, 40.0625, 21.5]
    assert one.centre_y_nm / INCH_NM == 25.03125
    assert (one.line_bottom_nm / INCH_NM, one.line_top_nm / INCH_NM) == (-38, -7.9375)
    # 30-40-50, so both diagonals read 50 in; and 12-9-15.
    assert (rows["N2"].diagonal_nm, rows["A1"].diagonal_nm) == (50 * INCH_NM, 15 * INCH_NM)


def test_rows_run_from_left_to_right_and_levels_upwards() -> None:
    assert [row.tag for row in sheet().rows] == ["N1", "N2", "A1"]
    lines = sheet().lines
    assert [line.level_nm / INCH_NM for line in lines] == [10, 40.0625, 50, 80, 89]
    assert [stop.at_nm / INCH_NM for stop in lines[0].stops] == [4.5, 38.5, 46, 76]
    assert lines[0].stops[0].edges == (("N1", "left"),)


def test_tape_and_rolls() -> None:
    # 2·(34 + 30 1/16) + 2·(30 + 40) + 2·(12 + 9) = 310 1/8 in.
    assert sheet().tape_nm == 310.125 * INCH_NM
    assert sheet().rolls == 1
    long = [opening(f"N{at}", 0, at * 90, 990, 90) for at in range(1, 2)]
    # 180 ft of tape and a tenth is more than the roll.
    assert tape_sheet(job_of(*ROOM, *long), "W1").tape_nm == 180 * FOOT_NM
    assert tape_sheet(job_of(*ROOM, *long), "W1").rolls == 2


def test_what_has_no_place_is_named() -> None:
    job = job_of(
        *ROOM, made(Opening, "N1", name="shelf", wall="W1", x=4, width=10), opening("N2", 1, 1, 5, 5, wall="W2")
    )
    found = tape_sheet(job, "W1")
    assert found.left_out == ("N1 shelf: not entered: from floor, height",)
    assert found.rows == ()
    with pytest.raises(BadValue, match='no wall "W9"'):
        tape_sheet(job, "W9")


def test_paper_in_feet_and_inches() -> None:
    text = tape_markdown(sheet())
    row = next(line for line in text.splitlines() if line.startswith("| N1"))
    cells = [cell.strip() for cell in row.strip("|").split("|")]
    assert cells == [
        "N1", "opening N1", '4-1/2"', "3'-2 1/2\"", '10"', "3'-4 1/16\"", "-3'-2\"", '-7-15/16"', "1'-9 1/2\"",
        "\\~2'-1 1/16\"", "\\~3'-9 3/8\"",
    ]  # fmt: skip
    assert "1/16 in" in text
    assert '4-1/2" (N1 left); 3\'-2 1/2" (N1 right); 3\'-10" (N2 left); 6\'-4" (N2 right)' in text
    assert "licensed" in text


def test_paper_in_millimetres() -> None:
    found = sheet(units="millimetres")
    assert found.level_line_nm == 1200 * MM_NM
    row = next(line for line in tape_markdown(found).splitlines() if line.startswith("| N2"))
    assert [cell.strip() for cell in row.strip("|").split("|")][2:4] == ["\\~1168 mm", "\\~1930 mm"]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        assert not any(name in ("src", "href") or name.startswith("on") for name, _ in attrs)

    def handle_data(self, data: str) -> None:
        self.text += data


def test_what_was_typed_is_never_obeyed() -> None:
    bad = msgspec.structs.replace(opening("N1", 4, 10, 34, 30), name=HOSTILE)
    lost = msgspec.structs.replace(opening("N2", 4, 10, 34, 30), name=HOSTILE, x=None)
    found = tape_sheet(job_of(*ROOM, bad, lost, room=HOSTILE), "W1")
    page, text = tape_html(found), tape_markdown(found)
    reader = _Reader()
    reader.feed(page)
    assert "script" not in reader.tags
    assert "<script>x</script>" in reader.text
    for paper in (page, text):
        assert not any(sign in paper for sign in "\x1b\u202e")
    row = next(line for line in text.splitlines() if line.startswith("| N1"))
    assert row.replace("\\|", "").count("|") == 12
    assert "\\<script\\>" in row
    assert "\\[c\\](d)" in row


def test_the_page_needs_nothing_else() -> None:
    page = tape_html(sheet())
    assert page.startswith("<!DOCTYPE html>")
    assert "http" not in page
    assert page.count("<tr>") == 2 + 3 + 5
