"""No sheet of a metric job prints inches, feet, yards, pounds, gallons or the 125 % of the US code."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import msgspec
import pytest

from store.book.changes import edit
from store.records.field import fields_of
from store.records.whole import Job
from templates.sheets.catalogue import SHEETS, Context, make
from templates.sheets.drawing.column import INDENT
from templates.sheets.drawing.ink import wide
from tests.jobs.begun import begun

TODAY = date(2026, 10, 14)
US = re.compile(r"\b\d[\d.,/]*[ -]?(?:in|inch(?:es)?|ft|feet|foot|yd|yards?|in³|in²|ft²|gal|lb|°F)\b(?! N\d)|125 ?%"
                r"|\d[\"″](?!\w)|\d'-\d")  # fmt: skip
PLACE = "\N{REPLACEMENT CHARACTER}"


def sheets(job: Job) -> dict[str, str]:
    """Every sheet that comes as lines of text, without what people typed."""
    typed = {text for record in job.each() for field in fields_of(type(record))
             for value in [getattr(record, field.key)]
             for text in (value if isinstance(value, tuple) else (value,))
             if isinstance(text, str) and US.search(text)}  # fmt: skip
    found = {}
    for name, sheet in SHEETS.items():
        form = next((each for each in ("md", "txt", "svg") if each in sheet.makers), "")
        if not form:
            continue
        text = make(name, form, job, Context()).replace("\\", "")
        if form == "svg":
            text = re.sub(r"<(?!/?text)[^>]*>|<text[^>]*>", " ", text)
        for each in sorted(typed, key=len, reverse=True):
            text = text.replace(each, PLACE)
        found[name] = text
    return found


@pytest.mark.parametrize("starter", ["media-wall-metric", "demo"])
def test_a_metric_job_prints_metric(starter: str, tmp_path: Path) -> None:
    book = begun(tmp_path / "m.json", starter, TODAY)
    old = book.job.settings
    book.act("Metric", [edit(old, msgspec.structs.replace(old, units="millimetres", region="metric", notes=""))])
    for name, text in sheets(book.job).items():
        left = [text[max(0, at.start() - 30) : at.end() + 20] for at in US.finditer(text)]
        # A spool that was typed as so many feet is sold so.
        left = [each for each in left if not re.search(r"reel of \d+ ft", each)]
        assert not left, (name, left[:5])


def test_the_foot_and_the_signs_are_in_the_words_of_the_region_and_have_room_for_them(tmp_path: Path) -> None:
    job = begun(tmp_path / "m.json", "media-wall-metric", TODAY).job
    foot = make("packet-drywall", "html", job, Context()).split("</style>")[0]
    assert 'content: "Handoff packet: plasterboard, revision A' in foot
    page = make("drawing-drywall", "svg", job, Context())
    row = re.findall(r'<text x="([\d.]+)" y="[\d.]+" font-size="2.6">(extra-low-voltage|socket-outlet)</text>', page)
    places = {word: float(x) for x, word in row}
    assert places["socket-outlet"] - INDENT - places["extra-low-voltage"] > wide("extra-low-voltage")
