"""Every sheet in every format, with the demo and with hostile text in every field; files and calendars."""

from __future__ import annotations

import csv
import io
import re
import unicodedata
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from datetime import date, timedelta
from html.parser import HTMLParser
from pathlib import Path
from typing import Any, get_args

import msgspec
import pytest
from icalendar import Calendar

from store.book.book import Book
from store.book.changes import Change, drop, edit
from store.measure.errors import BadValue
from store.records.base import Record, to_doc
from store.records.equipment import Equipment
from store.records.field import Ref, fields_of
from store.records.job import Settings
from store.records.people import Contact, Handoff, Step, Trade
from store.records.whole import KINDS, Job
from templates.sheets.catalogue import FORMS, SHEETS, Context, NoSheet, make, maker_of
from templates.sheets.convert import MARK, SOURCE
from templates.sheets.trades.calendar_ics import LINE_OCTETS, calendar_ics, events
from templates.sheets.write import NotOurs, default_name, target, write_sheet
from tests.jobs.begun import begun
from tests.jobs.order_jobs import MONDAY, job_of, step
from tests.rows import rows

TODAY = date(2026, 10, 14)
ALL = [(name, form) for name, sheet in SHEETS.items() for form in sheet.makers]
HOSTILE = (
    '<script>alert(1)</script><img src=x onerror="x()">]]>--><style> {{ job }} {% raw %} & `code` [a](b) | '
    "\x1b[31m\x9b\u202egpj\u2066\x00\r\n=cmd \ud800\uffff"
)


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Book:
    path = tmp_path_factory.mktemp("demo") / "demo.json"
    return begun(path, "demo", TODAY)


@pytest.fixture(scope="module")
def hostile(book: Book) -> Job:
    """The demo with hostile text in every text field, as a file edited by hand could have it."""
    tables: dict[str, dict[str, Record]] = {}
    for kind, table in book.job.tables.items():
        tables[kind] = {tag: _poisoned(one) for tag, one in table.items()}
    return Job(tables, book.job.marks, (), (), TODAY)


def _poisoned(record: Record) -> Record:
    wanted = {field.key: HOSTILE for field in fields_of(type(record)) if field.codec.name in ("text", "note")}
    words = {field.key: (HOSTILE,) for field in fields_of(type(record)) if field.codec.name == "words"}
    if isinstance(record, Settings):
        wanted.pop("currency")
    return msgspec.structs.replace(record, **wanted, **words)


def context(book: Book) -> Context:
    return Context(entries=msgspec.to_builtins(book.entries()), sign="abc123")


class _Tags(HTMLParser):
    """Every element of a page, with its attributes."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))


def tags(text: str) -> list[tuple[str, dict[str, str | None]]]:
    parser = _Tags()
    parser.feed(text)
    return parser.found


def bad_signs(text: str) -> set[str]:
    """Signs that steer: control signs but line ends, and those that turn text round."""
    return {sign for sign in {*text} - {*"\n\r"} if unicodedata.category(sign) in ("Cc", "Cs", "Cf", "Zl", "Zp")} - {
        "\u00ad"
    }


@pytest.mark.parametrize(("name", "form"), ALL)
def test_every_sheet_is_made(name: str, form: str, book: Book) -> None:
    text = make(name, form, book.job, context(book))
    named = "a living-room media wall" in text
    assert named or form == "csv" or name in ("labels", "labels-test", "drawing", "tape", "from-above", "section")
    if form == "html":
        assert text.startswith("<!DOCTYPE html>")
        needs_nothing_else(text)
    if form == "svg":
        assert ET.fromstring(text).tag.endswith("svg")


@pytest.mark.parametrize(("name", "form"), [each for each in ALL if not each[0].startswith("packet-")])
def test_hostile_text_is_only_text(name: str, form: str, hostile: Job) -> None:
    only_text(make(name, form, hostile, Context(sign="abc")), form)


def only_text(text: str, form: str) -> None:
    """Nothing in a sheet that steers or is run, whatever people typed."""
    assert not bad_signs(text)
    if form in ("html", "svg"):
        plain = ET.fromstring(text) if form == "svg" else None
        found = [each.tag for each in plain.iter()] if plain is not None else [tag for tag, _ in tags(text)]
        assert not [tag for tag in found if str(tag).split("}")[-1] in ("script", "iframe", "object", "link")]
        assert not [key for _, attrs in tags(text) for key in attrs if key.startswith("on")]
        assert "<img src=x" not in text
    if form == "md":
        assert not re.search(r"(?<!\\)<script", text)
        assert not re.search(r"(?<!\\)\[a(?<!\\)\]\(b\)", text)
    if form == "csv":
        for row in csv.reader(io.StringIO(text, newline="")):
            obeyed = [cell for cell in row if cell.strip()[:1] in tuple("=+-@\t\r")]
            assert not [cell for cell in obeyed if not re.fullmatch(r"-\d+\.\d\d", cell)]


PACKETS = sorted({name for name, _ in ALL if name.startswith("packet-")})


@pytest.mark.parametrize(
    ("name", "form"), [(name, [*SHEETS[name].makers][at % len(SHEETS[name].makers)]) for at, name in enumerate(PACKETS)]
)
def test_hostile_text_of_the_history_is_only_text(name: str, form: str, hostile: Job, book: Book) -> None:
    """Every packet, in one form after the other, every record changed since it was given, from hostile text and to
    it, as the history has it."""
    trade = name.removeprefix("packet-")
    given = Handoff(tag="H9", trade=trade, contact=Ref("T1"), given=TODAY, point=1)  # type: ignore[arg-type]
    tables = {**hostile.tables, "handoff": {**hostile.tables["handoff"], "H9": given}}
    changes = [
        {"kind": kind, "tag": tag, "before": {**to_doc(one), "notes": f"{HOSTILE}2"}, "after": to_doc(one)}
        for kind, table in hostile.tables.items()
        for tag, one in table.items()
    ]
    gone = [{"kind": "box", "tag": "B99", "before": to_doc(hostile.tables["box"]["B1"]), "after": None}]
    entries = [{"n": 2, "changes": changes}, {"n": 3, "changes": gone}]
    text = make(name, form, Job(tables, hostile.marks, (), (), TODAY), Context(entries=entries))
    told = trade not in ("owner", "other", "supplier")
    assert ("OUT OF DATE" in text) >= told
    only_text(text, form)


def needs_nothing_else(text: str) -> None:
    """A page that is whole by itself: no other file, no address."""
    for tag, attrs in tags(text):
        assert tag not in ("script", "link", "iframe")
        for key in ("src", "href"):
            assert (attrs.get(key) or "data:").startswith(("data:", "#"))
    assert "@import" not in text
    assert "url(http" not in text
    assert "<pattern" not in text, "printers make pictures of patterns"


@rows("name", list(SHEETS))
def test_an_empty_job_has_every_sheet_or_says_what_it_lacks(name: str) -> None:
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    tables["job"]["job"] = Settings(tag="job", name="Empty")
    for form in SHEETS[name].makers:
        job = Job(tables, today=TODAY)
        if name in ("tape", "from-above", "section") or name.startswith("drawing"):
            with pytest.raises(BadValue, match="no wall"):
                make(name, form, job, Context())
        else:
            assert make(name, form, job, Context()) or (name, form) == ("labels", "txt")


def test_there_is_a_packet_of_every_trade_and_only_known_formats() -> None:
    assert {f"packet-{trade}" for trade in get_args(Trade)} <= set(SHEETS)
    assert {form for _, form in ALL} == set(FORMS)
    with pytest.raises(NoSheet, match="there is no sheet 'x'"):
        maker_of("x", "")
    with pytest.raises(NoSheet, match="can't be written as svg"):
        maker_of("money", "svg")


def test_the_drywall_packet_says_draft_and_the_electricians_does_not(book: Book) -> None:
    for form in ("html", "md"):
        assert "DRAFT" in make("packet-drywall", form, book.job, context(book))
        assert "DRAFT" not in make("packet-electrician", form, book.job, context(book))


def test_a_packet_that_is_out_of_date_says_so_and_what_to_tell(book: Book) -> None:
    later = [{"n": 2, "changes": [_moved(book, "B2")]}]
    text = make("packet-electrician", "md", book.job, Context(entries=later))
    assert "OUT OF DATE" in text
    assert "B2 Behind the TV, power: from left was 6'-8\", is 6'-10\"." in text.replace("\\", "")


def _moved(book: Book, tag: str) -> dict[str, Any]:
    from store.records.base import to_doc

    record = book.job.get(tag)
    assert record is not None
    after = to_doc(record)
    return {"kind": record.kind, "tag": tag, "before": {**after, "x": "80 in"}, "after": after}


# --- the calendar ---


def read(text: str) -> list[Any]:
    return list(Calendar.from_ical(text).walk("VEVENT"))


def test_the_calendar_is_read_by_another_parser(book: Book) -> None:
    text = make("calendar", "ics", book.job, context(book))
    found = read(text)
    assert "empty it first" in str(Calendar.from_ical(text)["X-WR-CALDESC"])
    wanted = events(book.job)
    assert len(found) == len(wanted) > 8
    for one, event in zip(found, wanted, strict=True):
        assert str(one["UID"]) == f"{event.uid}@abc123.studbook.invalid"
        assert one["DTSTART"].dt == event.first
        assert one["DTEND"].dt == event.last + timedelta(days=1)
        assert str(one["SUMMARY"]) == event.title
    assert len({str(one["UID"]) for one in found}) == len(found)


def test_lines_are_folded_at_75_octets_and_text_comes_back(hostile: Job) -> None:
    text = calendar_ics(hostile, "x")
    assert text.endswith("END:VCALENDAR\r\n")
    assert "\n" not in text.replace("\r\n", "")
    for line in text.split("\r\n"):
        assert len(line.encode()) <= LINE_OCTETS
    titles = [str(one["SUMMARY"]) for one in read(text)]
    assert any("<script>alert(1)</script>" in title and "; " not in title for title in titles)


@pytest.mark.parametrize("title", ["a,b;c\\d", "line\nline", "é" * 80, "x" * 74 + "→", "😀" * 40, "\\n", ""])
def test_any_text_is_escaped_and_comes_back(title: str, book: Book) -> None:
    step = next(one for one in book.job.tables["step"].values() if one.tag == "S11")
    job = book.job.having(msgspec.structs.replace(step, what=title))
    (one,) = [each for each in read(calendar_ics(job, "x")) if str(each["UID"]).startswith("S11-work")]
    assert str(one["SUMMARY"]) == f"S11 {title}"


def test_a_step_that_moves_keeps_its_uid_and_counts_up(book: Book) -> None:
    step = book.job.tables["step"]["S8"]
    moved = msgspec.structs.replace(book.job.having(msgspec.structs.replace(step, booked=date(2026, 10, 30))))
    moved = msgspec.structs.replace(moved, marks={**book.job.marks, "S8": 7})
    was, now = ({str(e["UID"]): e for e in read(calendar_ics(job, "x"))} for job in (book.job, moved))
    uid = "S8-work@x.studbook.invalid"
    assert was[uid]["DTSTART"].dt != now[uid]["DTSTART"].dt == date(2026, 10, 30)
    assert int(now[uid]["SEQUENCE"]) == 7 > int(was[uid]["SEQUENCE"])
    assert set(was) == set(now)


def test_what_was_dropped_is_called_off_and_what_happened_is_not(tmp_path: Path) -> None:
    book = begun(tmp_path / "d.json", "demo", TODAY)
    step = book.job.tables["step"]["S11"]
    thing = next(one for one in book.job.of(Equipment).values() if one.return_by and one.return_by > TODAY)
    uid = f"{thing.tag}-return@abc123.studbook.invalid"
    assert uid in {str(one["UID"]) for one in read(make("calendar", "ics", book.job, context(book)))}
    book.act(
        "Keep it", lambda job: [edit(job.of(Equipment)[thing.tag], msgspec.structs.replace(thing, return_by=None))]
    )
    found = {str(one["UID"]): one for one in read(make("calendar", "ics", book.job, context(book)))}
    assert str(found[uid]["STATUS"]) == "CANCELLED"
    assert found[uid]["DTSTART"].dt == thing.return_by
    assert [str(one["STATUS"]) for key, one in found.items() if key.startswith("S11-")] != ["CANCELLED"]
    done = msgspec.structs.replace(step, done=TODAY, booked=None)
    book.act("Done", lambda job: [edit(job.tables["step"]["S11"], done)])
    later = {str(one["UID"]) for one in read(make("calendar", "ics", book.job, context(book)))}
    assert "S11-work@abc123.studbook.invalid" not in later


def test_a_booking_called_off_says_so_and_the_step_stays_as_a_plan(tmp_path: Path) -> None:
    book = begun(tmp_path / "d.json", "demo", TODAY)

    def act(**values: Any) -> dict[str, Any]:
        book.act("Step", lambda job: [edit(one := job.of(Step)["S8"], msgspec.structs.replace(one, **values))])
        return {str(e["UID"]).partition("@")[0]: e for e in read(make("calendar", "ics", book.job, context(book)))}

    day = book.job.of(Step)["S8"].booked
    booked = act(notes="Bring the ladder")
    assert (str(booked["S8-work"]["STATUS"]), booked["S8-work"]["DTSTART"].dt) == ("CONFIRMED", day)
    off = act(booked=None)
    assert (str(off["S8-work"]["STATUS"]), off["S8-work"]["DTSTART"].dt) == ("CANCELLED", day)
    assert int(off["S8-work"]["SEQUENCE"]) > int(booked["S8-work"]["SEQUENCE"])
    assert str(off["S8-plan"]["STATUS"]) == "TENTATIVE"
    again = act(booked=date(2026, 11, 30))
    assert again["S8-work"]["DTSTART"].dt == date(2026, 11, 30)
    assert str(again["S8-work"]["STATUS"]) != "CANCELLED"
    assert str(again["S8-plan"]["STATUS"]) == "CANCELLED"
    book.act("Delete S8", lambda job: [*_freed(job, "S8"), drop(job.of(Step)["S8"])])
    gone = {str(e["UID"]).partition("@")[0]: e for e in read(make("calendar", "ics", book.job, context(book)))}
    assert {str(gone[f"S8-{each}"]["STATUS"]) for each in ("work", "plan")} == {"CANCELLED"}


def _freed(job: Job, tag: str) -> list[Change]:
    """The steps that wait for another, without it."""
    waiting = [one for one in job.of(Step).values() if tag in one.after]
    return [
        edit(one, msgspec.structs.replace(one, after=tuple(each for each in one.after if each != tag)))
        for one in waiting
    ]


def test_deadlines_ring_at_nine_some_days_before_and_work_says_where(book: Book) -> None:
    here = msgspec.structs.replace(book.job.settings, address="12 Any Street; rear")
    found = read(calendar_ics(book.job.having(here), "x"))
    rings = {}
    for one in found:
        for alarm in one.walk("VALARM"):
            rings[str(one["UID"]).split("@")[0].split("-", 1)[1]] = alarm["TRIGGER"].dt
    assert rings["order"] == rings["return"] == -timedelta(hours=63)
    work = [one for one in found if "-work@" in str(one["UID"])]
    assert {str(one["LOCATION"]) for one in work} == {"12 Any Street; rear"}
    assert any("555-" in str(one.get("CONTACT", "")) for one in work)


# --- files ---


def files(folder: Path) -> Iterator[str]:
    return (each.name for each in folder.iterdir())


SHORT = {
    "pdf": "<!DOCTYPE html><p>one</p>\n",
    "png": '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>\n',
}


@pytest.mark.parametrize("form", FORMS)
def test_a_sheet_is_written_over_itself_and_not_over_another_file(form: str, tmp_path: Path, book: Book) -> None:
    name = next(name for name, each in ALL if each == form)
    # What is printed by a library is short: it is written four times.
    text = SHORT.get(form) or make(name, form, book.job, Context(sign="s"))
    path = tmp_path / f"sheet.{form}"
    write_sheet(path, text, form)
    write_sheet(path, text, form)
    assert form in SOURCE or text.rstrip("\n").encode() in path.read_bytes()
    path.write_text("my own notes")
    with pytest.raises(NotOurs, match="a file is there that Studbook did not write") as refused:
        write_sheet(path, text, form)
    assert refused.value.exit_status == 5
    assert path.read_text() == "my own notes"
    write_sheet(path, text, form, force=True)
    assert path.read_bytes() != b"my own notes"
    assert list(files(tmp_path)) == [path.name]


def test_a_mark_that_somebody_typed_is_not_enough(tmp_path: Path) -> None:
    path = tmp_path / "notes.html"
    path.write_text(f"{MARK}\n" + "long notes " * 100)
    with pytest.raises(NotOurs):
        write_sheet(path, "<html></html>\n", "html")


def test_a_folder_that_is_not_there_or_in_the_way_is_told(tmp_path: Path) -> None:
    with pytest.raises(NotOurs, match="cannot be written"):
        write_sheet(tmp_path / "none" / "a.html", "x", "html")
    (tmp_path / "folder.html").mkdir()
    with pytest.raises(NotOurs):
        write_sheet(tmp_path / "folder.html", "x", "html")


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    real, link = tmp_path / "real.md", tmp_path / "link.md"
    write_sheet(real, "one", "md")
    link.symlink_to(real)
    write_sheet(link, "two", "md")
    assert link.is_symlink()
    assert real.read_text().startswith("two")


def test_names_are_clear(tmp_path: Path) -> None:
    assert default_name("Demo wall", "packet-electrician", "html") == "demo-wall-packet-electrician.html"
    assert default_name("../../é\n", "x", "md") == "x.md"
    assert target(tmp_path, "a", "money", "csv") == tmp_path / "a-money.csv"
    assert target(tmp_path / "b.csv", "a", "money", "csv") == tmp_path / "b.csv"
    assert target(None, "a", "money", "csv") == Path("a-money.csv")


def test_the_schedule_tells_of_a_step_of_the_chain_that_has_a_weekend_to_spare() -> None:
    """Five days from a Monday by one who works every day may end on the Sunday: the next begins on Monday anyway."""
    daily = Contact(tag="T1", name="Lee", trade="carpenter", week="every day")
    first = step("S1", 5, who="T1")
    page = make("schedule", "md", job_of(daily, first, step("S2", 1, "S1"), today=MONDAY), Context())
    assert "What decides it: S1 (2 days float), S2." in page
    page = make("schedule", "md", job_of(first, step("S2", 1, "S1"), today=MONDAY), Context())
    assert "What decides it: S1, S2." in page
