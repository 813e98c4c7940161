"""The owner's book: everything in one page, on a telephone, on paper and in Markdown."""

from __future__ import annotations

import html
import io
import re
from base64 import b64decode
from datetime import date
from pathlib import Path

import msgspec
import pytest
from PIL import Image

from store.measure.money import parse_money
from store.records.access import Photo
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.gate import Closing
from store.records.people import Contact, Step, Wish
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from templates.sheets.owner.book_pictures import WIDE_PX
from templates.sheets.owner.book_sections import PADDING, PAGE_WIDE
from templates.sheets.owner.owners_book import owners_book, owners_book_html, owners_book_markdown
from templates.sheets.owner.panel_pages import LEAST_MM, MOST_MM
from tests.book.test_pictures import jpeg, with_small
from tests.jobs.access_jobs import TODAY, job_of, make, panel
from tests.jobs.begun import begun
from tests.jobs.phone_folder import picture, shot
from tests.templates.browser import PAPERS, Browser, Seen
from tests.templates.sheets.test_panel_cards import HOSTILE, made

DAY = date(2026, 10, 14)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Job:
    """The demo, read from its file."""
    path = tmp_path_factory.mktemp("book") / "job.json"
    return begun(path, "demo", DAY).job


def test_the_book_tells_all_that_a_later_owner_asks(demo: Job) -> None:
    seen = Seen(owners_book_html(demo))
    assert seen.wrong == []
    for words in (
        "invented 0001",  # a serial
        "9 (C4)",
        "two-pole tester, proved on a live box first",  # what was inspected
        "Lee, carpenter",
        "Frame the built-out wall and the rough openings",  # who did what
        "Old streamer",  # retired
        "Warm light inside every shelf",  # an open wish
        "plywood 3/4",
        "first stud at 1'-4",
        "3 ft of slack of every signal cable",
        "Local code",
    ):
        assert words in seen.text, words
    assert "A tank with fish" not in seen.text


def test_every_entry_of_the_contents_leads_somewhere(demo: Job) -> None:
    seen = Seen(owners_book_html(demo))
    links = [each[1:] for each in seen.points if each.startswith("#")]
    assert len(links) > 10
    assert set(links) <= set(seen.ids)
    assert len(seen.ids) == len(set(seen.ids))


def test_the_page_points_at_nothing_outside_itself(demo: Job) -> None:
    seen = Seen(owners_book_html(demo))
    assert all(each.startswith(("#", "data:image/")) for each in seen.points)
    assert "script" not in seen.tags
    assert sum(each.startswith("data:image/svg+xml") for each in seen.points) == len(owners_book(demo).drawings) > 1


def test_only_sections_with_something_in_them_are_there() -> None:
    keys = {each.key for each in owners_book(job_of()).sections}
    assert "cables" not in keys
    assert "framing" in keys
    more = owners_book(job_of(make(Cable, "K1", type="cat6")))
    assert "cables" in {each.key for each in more.sections}
    assert all(len(row) == len(each.headings) for each in more.sections for row in each.rows)


def _rows(job: Job, key: str) -> tuple[tuple[str, ...], ...]:
    return next(each.rows for each in owners_book(job).sections if each.key == key)


def test_days_to_come_stand_in_order_and_past_ones_are_left_out() -> None:
    job = job_of(
        make(Equipment, "E1", name="fan", service=date(2027, 3, 1), warranty=date(2026, 12, 1)),
        make(Equipment, "E2", name="screen", warranty=date(2020, 1, 1), return_by=date(2026, 10, 20)),
    )
    assert [row[:2] for row in _rows(job, "service")] == [
        ("Oct 20, 2026", "E2"), ("Dec 1, 2026", "E1"), ("Mar 1, 2027", "E1"),
    ]  # fmt: skip


def test_colours_and_batches_are_found_in_the_notes() -> None:
    job = job_of(
        make(Opening, "N1", name="shelf", material="oak", notes="Stain: walnut, batch 7-12"),
        make(Opening, "N2", name="recess", notes="check the depth"),
    )
    assert _rows(job, "finishes") == (("N1", "shelf", "oak"), ("N1", "shelf", "Stain: walnut, batch 7-12"))


def test_a_cable_shows_who_tested_it() -> None:
    seen_at = make(Closing, "K1/tested", date=TODAY, by="Kim", evidence="1 Gbit/s")
    job = job_of(make(Cable, "K1", type="cat6"), seen_at)
    assert _rows(job, "cables")[0][-1] == "tested: 1 Gbit/s (Kim)"


def test_who_did_what_counts_steps_of_the_owner_too() -> None:
    job = job_of(
        make(Contact, "T1", name="Sam", trade="electrician", phone="555-0101"),
        make(Step, "S1", what="Wire it", who="T1", done=TODAY),
        make(Step, "S2", what="Measure it", done=TODAY),
        owner="Robin",
    )
    assert [(row[0], row[-1]) for row in _rows(job, "people")] == [
        ("Sam", "Wire it (Oct 14, 2026)"), ("Robin", "Measure it (Oct 14, 2026)"),
    ]  # fmt: skip


def test_a_deposit_is_not_told_as_the_cost_of_a_thing() -> None:
    money = {"price": parse_money("520"), "paid": parse_money("150")}
    job = job_of(
        make(Equipment, "E1", name="fireplace", state="ordered", **money),
        make(Equipment, "E2", name="fireplace", state="owned", **money),
        make(Equipment, "E3", name="light", state="to buy", price=parse_money("22"), count=4),
    )
    assert [row[-2] for row in _rows(job, "equipment")] == ["$520.00", "$150.00", "$88.00"]


def test_a_wish_tells_in_how_many_years() -> None:
    job = job_of(make(Wish, "L1", what="console", years=1), make(Wish, "L2", what="projector", years=3))
    assert [row[-2] for row in _rows(job, "wishes")] == ["in 1 year", "in 3 years"]


def test_the_cards_in_markdown_name_their_photos_and_panels_nobody_opened() -> None:
    text = owners_book_markdown(job_of(panel("A1", "20", "10"), make(Photo, "F1", file="left.jpg", of=("A1",))))
    card = text[text.index("### A1") : text.index("## Studs")]
    assert "Photos: F1 left.jpg" in card
    assert "No visits yet." in card


def test_pictures_stand_in_the_page_where_they_are_found(tmp_path: Path) -> None:
    picture(1).save(tmp_path / "a.png")
    (tmp_path / "page.png").write_text("not a picture")
    job = job_of(*(make(Photo, f"F{n}", file=name) for n, name in enumerate(("a.png", "page.png", "gone.png"), 1)))
    pictures = owners_book(job, tmp_path).pictures
    assert [bool(each.uri) for each in pictures] == [True, False, False]
    assert pictures[2].words == "gone.png: gone.png"
    assert [each.why for each in pictures] == ["", "it is not a picture", "there is no such file"]
    assert not any(each.uri for each in owners_book(job).pictures)


def test_of_a_huge_photo_the_small_picture_of_the_camera_is_put_in(tmp_path: Path) -> None:
    small = b"\xff\xd8\xff\xe0" + bytes(range(200)) + b"\xff\xd9"
    (tmp_path / "a.jpg").write_bytes(with_small(small) + bytes(700_000))
    job = job_of(make(Photo, "F1", file="a.jpg"))
    uri = owners_book(job, tmp_path).pictures[0].uri
    assert b64decode(uri.partition(",")[2]) == small
    (tmp_path / "a.jpg").write_bytes(jpeg() + bytes(700_000))
    assert not owners_book(job, tmp_path).pictures[0].uri


def test_what_was_seen_at_once_of_one_record_stands_on_one_row() -> None:
    seen = {"date": TODAY, "by": "Kim", "evidence": "photo 7"}
    closings = [make(Closing, f"K1/{each}", **seen) for each in ("pulled", "labelled")]
    tested = make(Closing, "K1/tested", date=TODAY, by="Kim", evidence="1 Gbit/s")
    agreed = make(Closing, "mockup/agreed", date=TODAY, by="Robin", evidence="tape on the wall")
    rows = _rows(job_of(make(Cable, "K1", name="link", type="cat6"), *closings, tested, agreed), "inspected")
    assert rows[0][:2] == ("K1", "K1 link: pulled, labelled")
    assert rows[1][0] == "K1/tested"
    assert rows[2][:2] == ("mockup/agreed", "the mock-up in tape on the wall, agreed")
    assert len(rows) == 3


def test_a_service_that_is_overdue_is_told_as_such() -> None:
    job = job_of(make(Equipment, "E1", name="fan", service=date(2026, 3, 1), warranty=date(2026, 3, 1)))
    assert _rows(job, "service") == (("Mar 1, 2026", "E1", "fan", "service, overdue"),)


def test_no_column_is_so_narrow_that_a_tag_breaks(demo: Job) -> None:
    for section in owners_book(demo).sections:
        assert len(section.widths) == len(section.headings)
        for at, heading in enumerate(section.headings):
            if heading in ("tag", "by", "day"):
                longest = max(len(word) for row in section.rows for word in [*row[at].split(), ""])
                assert section.widths[at] >= min(longest, 12)
    assert 'style="min-width: calc(4ch + 0.9em)">tag</th>' in owners_book_html(demo)


def test_a_huge_picture_is_named_and_not_put_in(tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(700_000))
    assert not owners_book(job_of(make(Photo, "F1", file="a.png")), tmp_path).pictures[0].uri


def _hostile() -> Job:
    job = made(holds=HOSTILE, circuit=HOSTILE, name=HOSTILE, who=HOSTILE)
    more: list[Record] = [
        make(Photo, "F1", file=HOSTILE, shows=HOSTILE, of=("A1",)),
        make(Wish, "L1", what=HOSTILE, picture="javascript:alert(1)"),
        make(Contact, "T1", name=HOSTILE, trade="electrician", mail=HOSTILE),
    ]
    for record in more:
        job = job.having(record)
    return job


def test_hostile_text_stays_text() -> None:
    page, text = owners_book_html(_hostile()), owners_book_markdown(_hostile())
    seen = Seen(page)
    assert seen.wrong == []
    assert "script" not in seen.tags
    assert "javascript:" not in "".join(seen.points)
    assert "<script>" not in text
    assert "\n# head" not in text
    for each in (page, text):
        assert not [sign for sign in each if (ord(sign) < 32 and sign != "\n") or sign in "\u202e\x7f"]


def test_markdown_tables_have_as_many_cells_in_every_row(demo: Job) -> None:
    text = owners_book_markdown(demo)
    cells = [line.replace("\\|", "").count("|") for line in text.splitlines()]
    blocks: list[set[int]] = [set()]
    for count in cells:
        if count:
            blocks[-1].add(count)
        elif blocks[-1]:
            blocks.append(set())
    assert len(blocks) > 8
    assert all(len(each) <= 1 for each in blocks)
    for words in ("## Equipment", "invented 0001", "### A1 Back of the equipment cabinet"):
        assert words in text


@pytest.mark.parametrize(("wide", "high"), [(390, 844), (800, 1130)])
def test_the_book_fits_a_telephone_and_a_sheet(browser: Browser, demo: Job, wide: int, high: int) -> None:
    inner, content, pictures, broken = browser.measured(owners_book_html(demo), wide, high)
    assert inner == wide
    assert content <= inner
    assert (pictures, broken) == (len(owners_book(demo).drawings), 0)


@pytest.mark.parametrize("paper", list(PAPERS))
def test_the_book_prints_on_the_paper_that_is_there(browser: Browser, demo: Job, paper: str) -> None:
    pages, sizes = browser.pdf_pages(owners_book_html(demo), paper)
    assert 10 <= pages <= 32
    lying = (792, 612)  # the wall drawing lies on its side, on the paper of the job
    for size in sizes:
        assert any(
            all(abs(one - other) <= 1 for one, other in zip(size, each, strict=True)) for each in (PAPERS[paper], lying)
        )


def test_only_cells_with_a_long_word_are_broken_anywhere(demo: Job) -> None:
    # How narrow such a cell can be is tried letter by letter, which took most of the time of a PDF.
    page = owners_book_html(demo)
    cells = re.findall(r"<td([^>]*)>([^<]*)", page)
    broken = ["endless" in marks for marks, _ in cells]
    assert broken == [max(map(len, html.unescape(text).split()), default=0) > 12 for _, text in cells]
    assert 0 < sum(broken) < len(cells) / 4
    assert "overflow-wrap: anywhere" not in page.replace(".endless { overflow-wrap: anywhere; }", "")


@pytest.mark.parametrize("wide", [390, 760, 980])
def test_hostile_text_does_not_break_out_of_the_page_in_a_browser(browser: Browser, wide: int) -> None:
    long = {key: f"{key}{'x' * 60} " * 3 for key in ("name", "supplier", "serial")}
    job = _hostile().having(make(Equipment, "E9", what="player", opening="N1", warranty=DAY, **long))
    inner, content, _, broken = browser.measured(owners_book_html(job), wide)
    assert content <= inner
    assert broken == 0


def test_each_panel_has_a_page_with_photo_breaker_steps_and_parts(tmp_path: Path) -> None:
    shot(tmp_path / "open.jpg", 4, turned=6, size=(1600, 1200))
    job = job_of(
        panel("A1", "10", "10", behind=("E1", "B1")),
        make(Photo, "F1", file="open.jpg", shows="open wall", of=("A1",)),
        make(Box, "B1", name="feed", what="junction", circuit="C1"),
        make(Circuit, "C1", name="media", slot="18", breaker=20),
        make(Equipment, "E1", name="amplifier", maker="Maker", model="M-1", manual="https://example.com/m.pdf"),
        make(Equipment, "E2", name="player", manual="javascript:alert(1)", reached="A1"),
    )
    book = owners_book(job, tmp_path)
    page = book.panels[0]
    assert [each.tag for each in page.photos] == ["F1"]
    with Image.open(io.BytesIO(b64decode(page.photos[0].uri.partition(",")[2]))) as seen:
        assert seen.size == (WIDE_PX * 3 // 4, WIDE_PX), "upright, and scaled to the page"
    assert page.card.off == ("breaker 18 (C1 media, 20 A)",)
    assert page.steps[0].startswith("Turn off every breaker listed above")
    assert [(each.tag, each.model, each.serial, bool(each.link)) for each in page.parts] == [
        ("E1", "M-1", "not entered", True), ("E2", "not entered", "not entered", False),
    ]  # fmt: skip
    html = owners_book_html(job, tmp_path)
    assert html.count(page.photos[0].uri) == 1, "a photo is in the book once"
    assert "Shown on the page of A1" in html
    assert [each for each in Seen(html).points if not each.startswith(("#", "data:"))] == ["https://example.com/m.pdf"]


def test_what_the_book_lacks_is_said_and_goes_when_it_is_entered(tmp_path: Path) -> None:
    job = job_of(panel("A1", "10", "10"), make(Equipment, "E1", name="player"), make(Photo, "F1", file="gone.jpg"))
    said = owners_book(job, tmp_path).missing
    assert "No serial no.: E1" in said
    assert "No photo of the open wall: A1" in said
    assert "Photo F1 is not in the book: there is no such file" in said
    whole = msgspec.structs.replace(job.of(Equipment)["E1"], serial="7", maker="m", model="n", manual="drawer")
    assert not [each for each in owners_book(job.having(whole), tmp_path).missing if "E1" in each]


def test_the_next_owner_is_told_of_panels_breakers_and_what_stays_free(demo: Job) -> None:
    told = dict(owners_book(demo).next_owner)
    assert "A1 Back of the equipment cabinet" in told["Access panels"]
    assert "18: Media equipment" in told["Breakers"]
    assert "555-01" in told["Who to call"]
    assert "Do not paint" in told["Keep them free"]


def test_no_table_is_wider_than_the_page_and_photos_leave_room_for_the_lines_under_them(tmp_path: Path) -> None:
    shot(tmp_path / "open.jpg", 4, size=(1600, 1200))
    many = [make(Box, f"B{at}", name=f"box number {at}", what="low-voltage") for at in range(1, 15)]
    worded = {"name": "transmitter-receiver-combination", "serial": "0123456789abcdef", "supplier": "mail-order-house"}
    job = job_of(
        panel("A1", "10", "10"), panel("A2", "10", "10", behind=tuple(each.tag for each in many)), *many,
        make(Photo, "F1", file="open.jpg", of=("A1",)), make(Photo, "F2", file="open.jpg", of=("A2",)),
        make(Equipment, "E1", **worded, price=parse_money("1234567.89"), paid=parse_money("1234567.89"), state="owned"),
    )  # fmt: skip
    book = owners_book(job, tmp_path)
    few, full = (page.photo_mm for page in book.panels)
    assert LEAST_MM <= full < few == MOST_MM
    for section in book.sections:
        assert sum(wide + PADDING for wide in section.widths) <= PAGE_WIDE, section.title
