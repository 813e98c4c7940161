"""Upright cuts where depth matters, cut-outs, and the sheets of drywall on the drywall crew's page."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import msgspec
import pytest

from store.measure.length import INCH_NM, MM_NM, Length
from store.records.equipment import Equipment
from store.records.wall import Opening, Reading
from store.records.whole import Job
from store.rules.build.boards import boards
from store.trade.build.cut_out import cut_out
from templates.sheets.drawing.column import head
from templates.sheets.drawing.ink import wide
from templates.sheets.drawing.paper import SHEETS
from templates.sheets.drawing.section import cuts
from templates.sheets.drawing.sheet import EDGE
from templates.sheets.drawing.whole import Ask, pages
from templates.sheets.layout.marks import width_of
from templates.sheets.region import in_region
from tests.jobs.begun import begun
from tests.rules.drawing.test_elevation import WALL, job_of, place
from tests.rules.drawing.test_elevation import make as record

TODAY = date(2026, 10, 14)


def inches(value: int) -> Length:
    return Length(value * INCH_NM)


def hole(tag: str, x: int, y: int, wide: int, high: int, depth: int | None) -> Opening:
    deep = inches(depth) if depth is not None else None
    place = {"x": inches(x), "y": inches(y), "width": inches(wide), "height": inches(high), "depth": deep}
    return record(Opening, tag, name=f"hole {tag}", wall="W1", use="shelf", **place)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Job:
    path: Path = tmp_path_factory.mktemp("demo") / "demo.json"
    return begun(path, "demo", TODAY).job


def test_as_few_cuts_as_meet_every_opening_with_a_depth() -> None:
    job = job_of(
        WALL, hole("N1", 10, 10, 30, 20, 16), hole("N2", 20, 40, 40, 20, 12), hole("N3", 70, 10, 20, 20, 6),
        hole("N4", 12, 70, 10, 10, None),
    )  # fmt: skip
    found = cuts(job, "W1")
    assert [[tag for tag, _, _ in each.openings] for each in found] == [["N1", "N2"], ["N3"]]
    for each in found:
        for _, around, _ in each.openings:
            assert around.x < each.at_nm < around.x + around.width
    assert found[0].deepest == 16 * INCH_NM


def test_a_section_shows_depths_to_its_own_scale() -> None:
    sides = [
        record(Reading, f"D{at}", wall="W1", what=what, value=inches(size))
        for at, (what, size) in enumerate((("width", 144), ("height", 96)), 1)
    ]
    receiver = record(Equipment, "E1", name="receiver", opening="N1", width=inches(17), height=inches(6),
                      depth=inches(15))  # fmt: skip
    job = job_of(WALL, *sides, hole("N1", 10, 10, 30, 20, 20), receiver)
    made = [page for page in pages(job, Ask(trade="carpenter")) if "section" in page]
    assert len(made) == 1
    factor = int(re.findall(r"\(1:(\d+)\)", made[0])[0])
    widths = {float(each) for each in re.findall(r'<rect [^>]* width="([\d.]+)"', made[0])}
    for depth in (20, 15):
        assert any(abs(each - depth * INCH_NM / MM_NM / factor) < 0.01 for each in widths), depth
    assert "E1 receiver" in made[0]
    assert not [page for page in pages(job, Ask(trade="drywall")) if "section" in page]


def test_cut_outs_grow_by_the_gang() -> None:
    # Hand: 2-1/4 + 2 x 1-13/16 = 5-7/8 in.
    assert cut_out(3, False) == (INCH_NM * 47 // 8, INCH_NM * 15 // 4)
    assert cut_out(2, True) == (133 * MM_NM, 73 * MM_NM)
    with pytest.raises(ValueError, match="gang"):
        cut_out(0, True)


def test_the_drywall_crew_gets_cut_out_sizes_and_every_sheet_of_the_layout(demo: Job) -> None:
    made = pages(demo, Ask(trade="drywall"))
    whole = "".join(made)
    laid = boards(demo)
    count = sum(len(one.boarded.pieces) for one in laid.values() if one is not None)
    assert count > 0
    assert whole.count('stroke-dasharray="5 1 1 1"') == count
    assert "cut-out" in whole
    assert "rough opening" not in whole


def test_words_of_another_region_are_broken_to_the_column_too(tmp_path: Path) -> None:
    path = tmp_path / "m.json"
    metric = begun(path, "media-wall-metric", TODAY).job
    paper = SHEETS["a4"]
    seen = 0
    for page in (in_region(each, "svg", metric) for each in pages(metric, Ask(trade="carpenter"))):
        for x, text in re.findall(r'<text x="([\d.]+)"[^>]*font-size="2.6"[^>]*>([^<]*)</text>', page):
            if float(x) > paper.wide - EDGE - paper.column and "anchor" not in text:
                seen += "structural opening" in text
                assert float(x) + width_of(text, 2.6) <= paper.wide - EDGE + 1, text
    assert seen > 3


def test_a_section_stays_on_its_page_whatever_stands_in_front(tmp_path: Path) -> None:
    path = tmp_path / "m.json"
    metric = begun(path, "media-wall-metric", TODAY).job
    for trade in ("carpenter", "general"):
        for page in pages(metric, Ask(trade=trade)):
            for y in re.findall(r'<rect x="[\d.]+" y="([\d.-]+)"', page):
                assert 0 <= float(y) <= SHEETS["a4"].high
    made = [each for each in pages(metric, Ask(trade="carpenter")) if ", section" in each]
    assert made
    assert ">1:25<" in made[0]


def test_every_page_with_a_scale_has_its_bar_and_what_is_on_no_wall_is_told_once(demo: Job) -> None:
    found = pages(demo, Ask(trade="general"))
    for page in found:
        assert ('class="bar"' in page) == ("no drawing" not in page)
    assert sum(page.count("Subwoofer") for page in found) == 1


def test_no_depth_of_an_opening_is_lost_where_the_cuts_take_fewer_pages_than_their_column() -> None:
    high = [record(Opening, f"N{at}", name=f"hole number {at}", use="shelf", depth=Length(8 * INCH_NM),
                   **place("4' 0", f"{3 * at}"), width=Length(20 * INCH_NM), height=Length(2 * INCH_NM))
            for at in range(1, 31)]  # fmt: skip
    sides = (record(Reading, "D1", wall="W1", what="width", value=Length(144 * INCH_NM)),
             record(Reading, "D2", wall="W1", what="height", value=Length(96 * INCH_NM)))  # fmt: skip
    said = "".join(pages(job_of(WALL, *sides, *high), Ask(trade="carpenter")))
    for at in range(1, 31):
        assert said.count(f">hole number {at}<") >= 2, at  # on the elevation and beside the section


def test_a_heading_that_is_longer_than_the_column_goes_on_below() -> None:
    text = "Revision B, changed since A, given Nov 18, 2026"
    room = 60.0
    assert wide(text, bold=True) > room
    row = head(text, room)
    assert " ".join(mark[2] for mark in row.marks) == text
    assert all(wide(mark[2], bold=True) <= room for mark in row.marks)
    assert row.high > head("Schedule", room).high
    assert len(head("Schedule", room).marks) == 1


def test_a_cabinet_in_front_of_the_wall_is_no_rough_opening_and_no_cut_out() -> None:
    sides = [
        record(Reading, f"D{at}", wall="W1", what=what, value=inches(size))
        for at, (what, size) in enumerate((("width", 144), ("height", 96)), 1)
    ]
    carcass = msgspec.structs.replace(hole("N1", 10, 10, 30, 20, 16), thickness=Length(INCH_NM * 3 // 4),
                                      use="equipment")  # fmt: skip
    job = job_of(WALL, *sides, carcass, hole("N2", 60, 40, 40, 20, 3))
    framing, drywall = ("".join(pages(job, Ask(trade=trade))) for trade in ("carpenter", "drywall"))
    assert framing.count("rough opening") == 1
    assert "cabinet in front of the wall" in framing
    assert drywall.count("cut-out 4") == 1
