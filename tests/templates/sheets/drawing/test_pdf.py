"""Drawing sheets as PDF and PNG: paper, tags and pages kept, and what is said where what makes them is missing."""

from __future__ import annotations

import io
import sys
from datetime import date
from pathlib import Path

import pytest
from pypdf import PdfReader

from store.records.whole import Job
from store.rules.drawing.elevation import scene
from templates.sheets import convert
from templates.sheets.catalogue import Context, make
from templates.sheets.drawing.ink import words
from templates.sheets.drawing.paper import POINT_MM
from templates.sheets.drawing.title import titled
from templates.sheets.drawing.views import view_of, weight
from templates.sheets.drawing.whole import bound
from templates.sheets.write import as_bytes
from tests.jobs.begun import begun

TODAY = date(2026, 10, 14)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Job:
    path = tmp_path_factory.mktemp("demo") / "demo.json"
    return begun(path, "demo", TODAY).job


def test_a_pdf_keeps_the_paper_the_tags_and_the_pages(demo: Job) -> None:
    page = make("drawing-electrician", "pdf", demo, Context(wall="W1"))
    found = PdfReader(io.BytesIO(as_bytes(page, "pdf")))
    assert len(found.pages) == page.count("<svg ")
    assert [round(float(each)) for each in found.pages[0].mediabox[2:]] == [792, 612]
    said = found.pages[0].extract_text()
    view = view_of("electrician")
    assert view is not None
    for shape in scene(demo, "W1").shapes:
        if shape.tag and weight(view, shape):
            assert shape.tag in said


def test_a_text_of_a_drawing_is_one_piece_in_a_pdf_and_stands_where_it_is_put() -> None:
    """A plain text whole, by its anchor and turned; what sets letters apart, letter by letter as before."""
    body = (
        words(10, 20, "two words") + words(60, 20, "ends here", anchor="end") + words(60, 40, "upright", turn=-90)
        + '<text x="10" y="60" font-size="4" dx="1 2">apart</text><text x="10" y="70"></text>'
    )  # fmt: skip
    page = bound([titled("t", 100, 100, body)], 100, 100, "t")
    pieces: dict[str, tuple[float, ...]] = {}

    def seen(text: str, cm: list[float], tm: list[float], _font: object, _size: float) -> None:
        pieces[text.strip()] = (cm[0] * tm[4] + cm[4], 100 / POINT_MM - (cm[3] * tm[5] + cm[5]), tm[0])

    PdfReader(io.BytesIO(as_bytes(page, "pdf"))).pages[0].extract_text(visitor_text=seen)
    assert {"two words", "upright", "ends here"} <= set(pieces)
    assert "apart" not in pieces
    across, down, _ = pieces["two words"]
    assert (across * POINT_MM, down * POINT_MM) == pytest.approx((10, 20), abs=0.05)


def test_without_the_extra_a_line_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    monkeypatch.setitem(sys.modules, "resvg_py", None)
    monkeypatch.setattr(convert, "browser", lambda: None)
    with pytest.raises(convert.NotInstalled, match=r"pip install 'studbook\[pdf\]'") as said:
        as_bytes("<html></html>", "pdf")
    assert "\n" not in str(said.value)
    with pytest.raises(convert.NotInstalled, match=r"pip install 'studbook\[pictures\]'"):
        as_bytes("<svg/>", "png")


def test_a_release_that_was_not_tried_is_not_used(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("weasyprint.__version__", "71.0")
    monkeypatch.setattr(convert, "browser", lambda: None)
    with pytest.raises(convert.NotInstalled, match=r"pip install 'studbook\[pdf\]'"):
        as_bytes("<html></html>", "pdf")


def test_without_the_extra_a_browser_that_is_there_is_used(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    program = tmp_path / "browser"
    program.write_text(
        '#!/bin/sh\nfor each; do case "$each" in --print-to-pdf=*)\n'
        'printf "%%PDF-of a browser" > "${each#*=}";; esac; done\n'
    )
    program.chmod(0o700)
    monkeypatch.setenv("CHROMIUM", str(program))
    assert as_bytes("<html></html>", "pdf") == b"%PDF-of a browser"
    program.write_text("#!/bin/sh\nexit 1\n")
    with pytest.raises(convert.NotInstalled, match="could not print"):
        as_bytes("<html></html>", "pdf")


def test_a_picture_of_the_sheet_has_its_shape(demo: Job) -> None:
    from PIL import Image

    data = as_bytes(make("drawing-carpenter", "png", demo, Context(wall="W1", paper="tabloid")), "png")
    with Image.open(io.BytesIO(data)) as picture:
        assert picture.size[0] / picture.size[1] == pytest.approx(431.8 / 279.4, abs=0.005)
        assert len(set(picture.convert("L").tobytes())) > 2
