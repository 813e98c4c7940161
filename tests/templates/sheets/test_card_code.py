"""The code on a panel card: read back by an independent reader at the size at which it is printed."""

from __future__ import annotations

import io
import re

import resvg_py
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from templates.sheets.owner.code import MOST_BYTES, SIZE_MM, code_svg, short_of
from templates.sheets.owner.panel_cards import cards, panel_cards_html, short_of_card
from tests.rows import rows
from tests.templates.sheets.test_panel_cards import made

PX_A_MM = 8
"""As on a picture that a telephone took from near."""


def read(svg: str) -> str:
    """What a reader makes of the code, drawn at its printed size."""
    data = bytes(resvg_py.svg_to_bytes(svg_string=svg, width=SIZE_MM * PX_A_MM, dpi=96))
    with Image.open(io.BytesIO(data)) as picture:
        (found,) = zxingcpp.read_barcodes(picture.convert("L"))
    return str(found.text)


def test_the_code_on_a_card_says_breaker_tags_and_job() -> None:
    job = made()
    codes = re.findall(r'<svg [^>]*class="code".*?</svg>', panel_cards_html(job))
    assert len(codes) == 2
    first = read(codes[0])
    assert first == short_of_card(job, cards(job)[0])
    for words in ("A1", "OFF breaker 18", "B1 B2 K1", job.settings.name, "Oct 14, 2026"):
        assert words in first
    assert "OFF: ask" in read(codes[1])


def test_the_longest_code_is_read_with_modules_that_a_printer_holds() -> None:
    text = short_of(
        "A1", "n" * 90, ["breaker 18 (C1 media, 20 A)"] * 2, [f"B{each}" for each in range(99)], "j" * 90, "x"
    )
    assert len(text.encode()) <= MOST_BYTES
    svg = code_svg("é" * (MOST_BYTES // 2))
    modules = int(re.findall(r'viewBox="0 0 (\d+)', svg)[0])
    assert SIZE_MM / modules >= 0.4
    assert read(svg) == "é" * (MOST_BYTES // 2)


@given(
    st.text(max_size=60), st.lists(st.text(max_size=60), max_size=6), st.lists(st.text(max_size=6), max_size=40),
    st.text(max_size=80),
)  # fmt: skip
def test_no_text_makes_it_longer_than_is_read(name: str, off: list[str], behind: list[str], job: str) -> None:
    text = short_of("A1", name, off, behind, job, "Oct 14, 2026")
    assert len(text.encode("utf-8", "replace")) <= MOST_BYTES
    assert text.startswith("A1")


@rows("count", [1, 8, 40])
def test_the_breaker_never_gives_way_before_the_tags(count: int) -> None:
    text = short_of("A1", "Back", ["breaker 18"], [f"K{each}" for each in range(count)], "My wall", "Oct 14, 2026")
    assert "OFF breaker 18" in text
    assert ("and more" in text) == (count == 40)
