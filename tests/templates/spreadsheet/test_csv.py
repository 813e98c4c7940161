"""csv out and in: unchanged both ways, no formula, people's own spreadsheets, every bad cell named."""

from __future__ import annotations

import csv
import io
import re
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st
from msgspec.structs import replace

from store.measure.errors import BadValue
from store.measure.length import INCH_NM, Length
from store.records.access import Panel
from store.records.base import from_doc
from store.records.equipment import Equipment
from store.records.field import Ref, fields_of
from store.records.people import Contact
from store.records.wall import Opening, Reading, Wall
from store.records.whole import KINDS, Job
from store.records.wiring import Cable
from templates.spreadsheet.reading import BadRows, Import, columns_of, read_import
from templates.spreadsheet.text import csv_text, guarded, read_csv, unguarded
from templates.spreadsheet.writing import KIND_NAMES, export_csv, headings
from tests.jobs.begun import begun
from tests.jobs.order_jobs import MONDAY, job_of
from tests.records.values import record_of
from tests.rows import rows
from tests.tries import tries

HOSTILE = st.text(st.sampled_from("=+-@'\t\r\n\",;| aé1"), max_size=8)


UNSEEN = [
    "\u200b",
    "\u2060",
    "\u00ad",
    "\u00a0",
    "\u3000",
    "\ufe0f",
    "\u0301",
    "\u202e",
    " ",
    "\t",
    "\n",
    "\x00",
    "\ufeff",
]
FORMULA = [*"=+-@", "＝", "＋", "－", "＠", "﹦", "﹢", "﹣", "﹫", "⁼", "₊"]


@given(st.text(max_size=20) | HOSTILE | st.text(st.sampled_from([*UNSEEN, *FORMULA, "'", "1", "a"]), max_size=6))
def test_a_guarded_cell_is_no_formula_and_comes_back(text: str) -> None:
    kept = guarded(text)
    seen = [each for each in kept if each not in UNSEEN]
    assert not seen or seen[0] not in FORMULA or re.fullmatch(r"-\d+([.,]\d+)?", text, re.ASCII)
    assert unguarded(kept) == text


def test_every_sign_that_begins_a_formula_is_guarded_also_behind_what_is_not_seen() -> None:
    texts = [f"{before}{sign}cmd" for before in ("", *UNSEEN, "'", "''", "\u200b' ") for sign in FORMULA]
    assert len(texts) > 200
    assert [text for text in texts if guarded(text) != f"'{text}"] == []
    assert [text for text in texts if unguarded(f"'{text}") != text] == []


@rows(
    "text",
    [
        "16:9", "3/4", "1/2", "2-4", "10-12-26", "00417", "12E3", "4" * 16, "2026-11-25", "640.00", "0.50", "0",
        "-12.50", "-12,5", "14' 1/2\"", "1-1/2 in", "B2, B7", "'tis", "'16:9", "''", "\u200bword", "a=1", "",
    ],
)  # fmt: skip
def test_the_guard_shows_nowhere_else(text: str) -> None:
    assert guarded(text) == text
    assert unguarded(text) == text


CELLS = st.text("=+-@'\n\",;\t abcé", max_size=6)


@given(st.integers(2, 4).flatmap(lambda wide: st.lists(st.lists(CELLS, min_size=wide, max_size=wide), min_size=1)))
def test_rows_come_back_through_the_reader(rows: list[list[str]]) -> None:
    kept = [row for row in rows if any(cell.strip() for cell in row)]
    text = csv_text([list("abcd")[: len(rows[0])], *kept])
    kept = [[cell.replace("\t", " ") for cell in row] for row in kept]
    assert [row for _, row in read_csv(text.encode())][1:] == kept
    # Every row but the last part ends in CR LF (RFC 4180, 2.1), whatever is in the cells.
    assert text.endswith("\r\n")
    assert len(list(csv.reader(io.StringIO(text, newline="")))) == len(kept) + 1


@pytest.mark.parametrize("kind", KIND_NAMES)
@tries(8, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_what_is_exported_is_imported_unchanged(kind: str, data: st.DataObject) -> None:
    cls = KINDS[kind]
    drawn = data.draw(record_of(cls))
    # What a record names has to be there: the wall, panel, opening and device that some must name, and nothing else.
    names = {
        field.key: Ref(f"{KINDS[field.says.kinds[0]].letter}9") if field.required else field.default
        for field in fields_of(cls)
        if field.codec.name in ("ref", "refs")
    }
    record = replace(drawn, tag=f"{cls.letter}1", **names)
    named = (Wall(tag="W9", name="Wall"), Panel(tag="A9", name="Panel"), Equipment(tag="E9", name="TV"))
    job = job_of(record, *named, Opening(tag="N9", name="Cabinet"))
    found = read_import(job, cls, export_csv(job, cls).encode())
    others = 1 if kind in ("wall", "panel", "equipment", "opening") else 0
    assert (found.same, found.changes) == (1 + others, ())


@pytest.mark.parametrize("kind", KIND_NAMES)
def test_the_demo_goes_out_and_into_an_empty_table_the_same(kind: str, tmp_path: Path) -> None:
    today = date(2026, 10, 14)
    job = begun(tmp_path / "d.json", "demo", today).job
    cls = KINDS[kind]
    bare = Job({**job.tables, kind: {}}, {}, (), (), today)
    found = read_import(bare, cls, export_csv(job, cls).encode())
    assert found.new == len(job.tables.get(kind, {}))
    for change, record in zip(found.changes, job.of(cls).values(), strict=True):
        assert from_doc({"tag": change.tag, **change.fields}, cls) == record


@rows("metric", [False, True])
@rows("kind", KIND_NAMES)
def test_headings_are_clear_and_understood_again(kind: str, metric: bool) -> None:
    cls = KINDS[kind]
    names = headings(cls, metric)
    if kind == "cable":
        assert ("sheath marking" in names, "jacket rating" in names) == (metric, not metric)
    assert len(set(names)) == len(names)
    assert [column.key for column in columns_of(cls, names)] == ["tag", *(field.key for field in fields_of(cls))]


# --- people's own spreadsheets ---


def imported(job: Job, cls: Any, text: str) -> Import:
    return read_import(job, cls, text.encode())


def fields(found: Import, at: int = 0) -> dict[str, Any]:
    return dict(found.changes[at].fields)


def test_columns_are_guessed_and_a_unit_in_the_heading_counts() -> None:
    found = imported(
        job_of(),
        Equipment,
        'Name,Width (mm),Height [in],Depth,Qty,Vendor,Colour\nReceiver,435,6.5,"1\' 3",2,shop,red\n',
    )
    assert [column.says() for column in found.columns] == [
        "Name -> name",
        "Width (mm) -> width, bare numbers in mm",
        "Height [in] -> height, bare numbers in in",
        "Depth -> depth",
        "Qty -> count",
        "Vendor -> supplier",
        "Colour -> left out: no such field",
    ]
    assert found.says() == "equipment: 1 new, 0 changed, 0 the same as before"
    assert fields(found) == {
        "name": "Receiver", "width": "435 mm", "height": "6 1/2 in", "depth": "15 in", "count": 2, "supplier": "shop",
    }  # fmt: skip


@rows("raw", [
    "name;trade\nJörg;drywall\n".encode("cp1252"),
    "name\ttrade\r\nJörg\tdrywall\r\n".encode(),
    "\ufeffname,trade\nJörg,drywall\n".encode(),
    "name,trade\nJörg,drywall\n".encode("utf-16"),
])  # fmt: skip
def test_delimiters_and_encodings_of_spreadsheets_are_read(raw: bytes) -> None:
    found = read_import(job_of(), Contact, raw)
    assert fields(found) == {"name": "Jörg", "trade": "drywall"}


def test_dates_and_lengths_are_read_in_the_forms_people_use() -> None:
    job = job_of(Wall(tag="W1", name="Wall"))
    found = imported(job, Reading, "wall,what,reading,date\nw1,width,14' 1/16,12 march\nW1,height,2438 mm,2026-10-01\n")
    assert fields(found)["value"] == "168 1/16 in"
    assert fields(found)["date"] == "2026-03-12", "a reading was taken: its day has been"
    assert fields(found, 1)["value"] == "2438 mm"


def test_a_row_with_a_tag_changes_just_the_columns_that_are_there() -> None:
    old = Equipment(tag="E1", name="Receiver", width=Length(17 * INCH_NM), supplier="shop")
    found = imported(job_of(old), Equipment, "tag,price\nE1,640\n")
    assert (found.new, found.changed) == (0, 1)
    assert fields(found) == {"price": 64000}
    assert found.changes[0].seen == {"price": None}


def test_every_bad_cell_is_named_and_nothing_is_done() -> None:
    text = (
        "tag,name,width,state,opening,price\n"
        "E1,Receiver,wide,to buy,,\n"
        ",,12 in,to buy,,\n"
        "E1,Player,12 in,gone,N9,-\n"
        "K3,Other,-2,,W1,\n"
    )
    with pytest.raises(BadRows) as refused:
        imported(job_of(Wall(tag="W1", name="Wall")), Equipment, text)
    lines = str(refused.value).split("\n")
    places = [line.split(":")[0] for line in lines[1:]]
    assert lines[0] == "nothing was imported, 9 mistakes:"
    assert places == [
        "row 2, column tag", "row 2, column width", "row 3, column name", "row 4, column state",
        "row 4, column opening", "row 4, column price", "row 5, column tag", "row 5, column width",
        "row 5, column opening",
    ]  # fmt: skip
    assert refused.value.exit_status == 6
    assert "no N9 in this job" in str(refused.value)
    assert "W1 is not an opening" in str(refused.value)


@rows(("text", "why"), [
    ("", "no rows"),
    ("\n\n", "no rows"),
    ("colour,taste\nred,sweet\n", "no column name is known, row 1"),
    ("width\n12 in\n", "row 2, column name: name is needed, and no column has it"),
    ("name,width\nReceiver,12 in,3 in\n", "row 2, column 3: there are more cells"),
    ('name\n"open\n', "can't be read as csv"),
])  # fmt: skip
def test_files_that_make_no_sense_are_refused(text: str, why: str) -> None:
    with pytest.raises(BadValue, match=why.replace("(", "\\(")):
        imported(job_of(), Equipment, text)


@rows("tag", ["E²", "E٣", "E" + "1" * 5000, "W²", "²"])
def test_a_tag_of_odd_digits_or_without_end_is_no_tag(tag: str) -> None:
    with pytest.raises(BadRows, match=r"row 2, column tag: .* is not a tag of equipment"):
        imported(job_of(), Equipment, f"tag,name\n{tag},Receiver\n")


def test_a_tag_that_was_given_before_is_not_given_again() -> None:
    with pytest.raises(BadRows, match="E4 was used before"):
        imported(job_of(marks={"E4": 3}), Equipment, "tag,name\nE4,Receiver\n")


def test_rows_may_name_each_other_and_those_with_tags_get_them(tmp_path: Path) -> None:
    book = begun(tmp_path / "j.json", "empty", MONDAY)
    text = "tag,what,after\n,first,\nS1,second,\nS3,third,S1\n"
    found = read_import(book.job, KINDS["step"], text.encode())
    before = len(book.entries())
    book.act("Import", found.changes)
    assert {tag: one.what for tag, one in book.job.tables["step"].items()} == {  # type: ignore[attr-defined]
        "S1": "second", "S3": "third", "S4": "first",
    }  # fmt: skip
    assert len(book.entries()) == before + 1
    book.undo()
    assert book.job.tables["step"] == {}


def test_a_metric_job_reads_bare_numbers_as_millimetres() -> None:
    job = job_of(units="millimetres")
    assert fields(imported(job, Cable, "type,bored hole\ncat6,22\n")) == {"type": "cat6", "hole": "22 mm"}
