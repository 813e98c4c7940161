"""Every sheet on letter and A4 in a real browser: nothing beyond the edge, no page without its words."""

from __future__ import annotations

import io
import re
from datetime import date
from pathlib import Path
from typing import get_args

import msgspec
import pytest
from pypdf import PdfReader

from store.records.base import Record
from store.records.field import fields_of
from store.records.people import Trade
from store.records.whole import Job
from templates.sheets.catalogue import DRAWING, SHEETS, Context, make
from templates.sheets.layout.page import BESIDE_CELL, LEAST_LONG, ROOM, Table
from templates.sheets.trades.packet import packet_page
from templates.sheets.trades.schedule import schedule_page
from templates.sheets.write import as_bytes
from tests.jobs.begun import begun
from tests.templates.browser import PAPERS, Browser

TODAY = date(2026, 10, 14)
SMALL_ROOM = 105
"""Characters of a table that go across A4 in small type."""
PRINTED_PX = 690
"""Room between the margins of A4, the narrower of the two, at 96 to the inch."""
HTML = [name for name, sheet in SHEETS.items() if "html" in sheet.makers]
FIXED = ("labels", "labels-test", "drawing", *(name for name in SHEETS if name.startswith(DRAWING)))
"""Sheets whose paper is chosen by name."""


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Job:
    path = tmp_path_factory.mktemp("demo") / "demo.json"
    return begun(path, "demo", TODAY).job


def made(job: Job) -> dict[str, str]:
    """Every sheet that is a page and may be printed on any paper."""
    pages = {name: make(name, "html", job, Context()) for name in HTML if name not in FIXED}
    return {name: upright(page).replace("@media print", "@media all") for name, page in pages.items()}


def upright(page: str) -> str:
    """A page without its drawing sheets, which lie on paper of their own size."""
    page = re.sub(r'<div class="drawing">.*?</div>', "", page, flags=re.DOTALL)
    page = re.sub(r"<style>@page drawing.*?</style>", "", page, flags=re.DOTALL)
    return re.sub(r"@page drawing \{.*?\} \}", "", page, flags=re.DOTALL)


@pytest.mark.parametrize("starter", ["demo", "media-wall", "media-wall-metric"])
def test_no_sheet_is_wider_than_the_paper(browser: Browser, starter: str, tmp_path: Path) -> None:
    job = begun(tmp_path / "j.json", starter, TODAY).job
    found = browser.widths(made(job), PRINTED_PX)
    assert set(found) == {name for name in HTML if name not in FIXED}
    assert {name: wide for name, wide in found.items() if wide > PRINTED_PX} == {}


def test_a_table_that_needs_more_than_the_paper_gets_small_type_and_fits_in_that() -> None:
    cells = tuple("abcdefghij" for _ in range(ROOM // (10 + BESIDE_CELL)))
    assert not Table(cells, (cells,)).small
    more = (*cells, "abcdefghij")
    assert Table(more, (more,)).small
    dates = Table(("day",), (("Dec 28, 2026",),))
    assert dates.least == len("Dec 28, 2026") + BESIDE_CELL, "a date stays on one line"
    assert Table(("note",), (("word " * 40,),)).least == LEAST_LONG + BESIDE_CELL
    assert Table(("note",), (("W7" * 90,),)).least < ROOM, "what has no end is broken"


@pytest.mark.parametrize("starter", ["demo", "media-wall", "media-wall-metric"])
def test_every_table_of_rows_goes_across_the_paper_by_its_unbroken_words(starter: str, tmp_path: Path) -> None:
    job = begun(tmp_path / "j.json", starter, TODAY).job
    pages = [packet_page(job, trade) for trade in get_args(Trade)]
    tables = [block for page in (*pages, schedule_page(job)) for block in page.blocks if isinstance(block, Table)]
    assert len(tables) > 50
    assert max(table.least for table in tables) <= SMALL_ROOM


def test_a_word_without_end_breaks_on_the_paper(browser: Browser, job: Job) -> None:
    tables: dict[str, dict[str, Record]] = {}
    for kind, table in job.tables.items():
        tables[kind] = {tag: _endless(one) for tag, one in table.items()}
    found = browser.widths(made(Job(tables, job.marks, (), (), TODAY)), PRINTED_PX)
    assert {name: wide for name, wide in found.items() if wide > PRINTED_PX} == {}


def _endless(record: Record) -> Record:
    texts = {
        field.key: "W7" * 90 for field in fields_of(type(record)) if field.codec.name in ("text", "note")
        and field.key not in ("currency", "holes", "aspect", "conductor", "type", "size", "edition")
    }  # fmt: skip
    return msgspec.structs.replace(record, **texts)


@pytest.mark.parametrize("paper", list(PAPERS))
def test_a_draft_prints_on_the_paper_that_is_there(browser: Browser, job: Job, paper: str) -> None:
    page = make("packet-drywall", "html", job, Context())
    assert "DRAFT: not to work from" in page.split("</style>")[0]
    pages, sizes = browser.pdf_pages(page, paper)
    assert 3 <= pages <= 12
    lying = (792, 612)
    for size in sizes:
        assert any(
            all(abs(one - other) <= 1 for one, other in zip(size, each, strict=True)) for each in (PAPERS[paper], lying)
        )


def test_every_sheet_keeps_rows_whole_and_takes_any_paper(job: Job) -> None:
    for name, page in made(job).items():
        style = page.split("</style>")[0]
        assert re.search(r"break-inside: ?avoid", style), name
        assert "size:" not in style.replace("font-size:", "").replace("box-sizing:", ""), name


ROOMS = {"section": (690, 812), "from-above": (957, 567)}
"""What a cut may fill of its page, pixels at 96 to the inch: upright on A4, and lying on Letter."""


@pytest.mark.parametrize("starter", ["demo", "media-wall-metric"])
def test_no_type_of_a_cut_is_smaller_than_seven_points_on_its_page(starter: str, tmp_path: Path) -> None:
    job = begun(tmp_path / "j.json", starter, TODAY).job
    for name, (wide, high) in ROOMS.items():
        page = make(name, "html", job, Context())
        drawn = re.findall(r'<svg [^>]*width="(\d+)"\s+height="(\d+)".*?</svg>', page, re.DOTALL)
        assert drawn
        assert page.count('class="picture') == len(drawn)
        least = min(float(each) for each in re.findall(r'font-size="([\d.]+)"', page))
        for across, down in drawn:
            shown = min(1.0, wide / int(across), high / int(down))
            assert least * 0.75 * shown >= 7.0, (name, across, down)


def test_a_halo_is_under_its_letters_in_a_pdf() -> None:
    """Painted over them, it leaves nothing to read: the letters are dark, and white is beside them."""
    page = (
        '<style>@page { size: 200px 100px; margin: 0 } body { margin: 0; background: #888 }</style><svg width="200" '
        'height="100"><style>.halo { paint-order: stroke; stroke: #fff; stroke-width: 3px }</style>'
        '<text class="halo" x="20" y="60" font-size="40">HHHH</text></svg>'
    )
    operators = PdfReader(io.BytesIO(as_bytes(page, "pdf"))).pages[0].get_contents()
    assert operators is not None
    modes = re.findall(rb"(\d) Tr", operators.get_data())
    assert modes == [b"1", b"0"], "the outline first, then the letters"
