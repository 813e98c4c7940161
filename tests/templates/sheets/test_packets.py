"""What a trade is handed, and the lists that go to the wall and to the shop."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import msgspec
import pytest

from store.book.book import Book
from store.rules.core.checks import items
from store.rules.core.wording import date_text
from templates.sheets.catalogue import Context, make
from templates.sheets.context import context_of
from tests.jobs.begun import begun

TODAY = date(2026, 10, 14)


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Book:
    path: Path = tmp_path_factory.mktemp("packets") / "demo.json"
    return begun(path, "demo", TODAY)


def context(book: Book) -> Context:
    return context_of(book)


def test_checks_have_their_evidence_and_signature_lines(book: Book) -> None:
    text = make("packet-electrician", "html", book.job, context(book))
    mine = [each for each in items(book.job) if each.check.trade == "electrician"]
    assert text.count('<span class="t">') == len(mine) > 20
    assert text.count('<span class="t">☐') == sum(each.open for each in mine)
    things = {each.key.partition("/")[0] for each in mine}
    assert text.count('<td class="blank">') == len(things), "room to write beside each thing"


def test_a_packet_says_what_is_asked_at_the_door_and_leaves_room_for_answers(book: Book) -> None:
    settings = msgspec.structs.replace(
        book.job.settings, address="12 Elm Street", getting_in="key box at the gate", phone="555-0188", permit_no="B-77"
    )
    job = book.job.having(settings)
    text = make("packet-low-voltage", "md", job, context(book))
    for words in ("12 Elm Street", "key box at the gate", "555-0188", "no. B-77", "not booked yet", "- [ ] S7"):
        assert words in text, words
    assert "E3 Receiver, port hdmi out to E1 TV" in text, "ports by name"
    assert "cut 13 ft" in text
    assert "☐ | 3 | low-voltage bracket or box, 2 gangs | B3, B6, B8" in text, "materials"
    page = make("packet-low-voltage", "html", job, context(book))
    assert page.count('<div class="answer">') == text.count("Answer: ____") > 0
    for nothing in ("either", "No rough-in check is yours", "Nobody is named"):
        assert nothing not in text


def test_the_painter_gets_areas_and_finish_level_and_any_other_trade_no_empty_form(book: Book) -> None:
    painter = make("packet-painter", "md", book.job, context(book))
    assert re.search(r"W1 \| W1 Media wall: \d+ ft² of \d+ ft², less 12 openings, finish level 5", painter)
    assert "Write here what is agreed" in painter
    other = make("packet-other", "html", book.job, context(book))
    assert 'class="drawing"' in other
    assert "clearance" in other


def test_the_checklist_goes_along_the_wall_a_row_a_thing(book: Book) -> None:
    text = make("checklist", "md", book.job, context(book))
    assert text.index("W1 Media wall, from the left") < text.index("**B6**") < text.index("**B14**")
    assert text.index("**B14**") < text.index("W2 Window side, from the left") < text.index("**B9**")
    assert len(re.findall(r"^- \*\*K3\*\*", text, re.MULTILINE)) == 1


@pytest.mark.parametrize("name", ["tape", "buying"])
def test_lists_have_a_day_a_page_number_and_a_picture(name: str, book: Book) -> None:
    text = make(name, "html", book.job, context(book))
    style = text.split("</style>")[0]
    assert "counter(page)" in style
    assert "break-after: avoid" in style, "no heading alone at the foot of a page"
    assert date_text(book.job, book.job.today) in style
    drawings = text.count('<div class="drawing"><svg')
    counted = [int(each) for each in re.findall(r">sheet 1 of (\d+)<", text)]
    assert sum(counted) == drawings >= 2, "every wall, and no page left out that has the rest of its names"


def test_the_measuring_sheet_asks_for_every_reading_and_tells_what_was_entered(book: Book) -> None:
    text = make("measuring", "md", book.job, context(book))
    for words in ("half way up", "lower left to upper right", "first stud", "O1 baseboard"):
        assert words in text, words
    rows = [line for line in text.splitlines() if line.startswith("| width | at the floor |")]
    assert len(rows) == 2, "one a wall"
    assert "(" in rows[0], "what was entered stands beside it"
    assert make("measuring", "html", book.job, context(book)).count('class="tall"') == 6
