"""Several records as lines: read as the form reads them, each mistake at its cell, and back again unchanged."""

from __future__ import annotations

import msgspec
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM, Length
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Note
from store.records.people import Contact, Step
from store.records.wall import Reading, Wall
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Cable, Circuit
from templates.spreadsheet.typed_lines import COLUMNS, columns_of_kind, read_lines, sample, split_line
from tests.jobs.power_case import job_of
from tests.rows import rows
from tests.tries import tries


def _job(*records: Record, metric: bool = False) -> Job:
    own = {"units": "millimetres", "region": "metric"} if metric else {}
    return job_of(*records, **own)


US = _job(Wall(tag="W1", name="One"))
METRIC = _job(Wall(tag="W1", name="One"), metric=True)


@rows("kind", COLUMNS)
@rows("metric", [False, True])
def test_the_line_shown_as_an_example_is_read_whole(kind: str, metric: bool) -> None:
    job = _job(
        Wall(tag="W1", name="One"), Equipment(tag="E1", name="TV"), Equipment(tag="E2", name="Receiver"),
        Circuit(tag="C1", name="Wall"), Step(tag="S1", what="Plan"), metric=metric,
    )  # fmt: skip
    found = read_lines(job, KINDS[kind], sample(KINDS[kind], job.manner))
    assert [each.says() for each in found.wrong] == []
    assert len(found.changes) == 1
    assert len(found.lines[0].cells) >= 3


def test_equipment_in_one_line_with_the_sort_from_its_name() -> None:
    (line,) = read_lines(US, Equipment, "receiver  17-1/8 x 6-3/8 x 15-1/4  24 lb  420 W").lines
    one = line.record
    assert isinstance(one, Equipment)
    assert (one.what, one.watts) == ("receiver", 420)
    assert one.depth == Length(61 * INCH_NM // 4)
    sizes = 'width 17-1/8", height 6-3/8", depth 15-1/4"'
    assert line.says() == f"1  name receiver, kind receiver, {sizes}, weight 24 lb, power draw 420 W"


def test_sizes_in_millimeters_are_echoed_in_the_units_of_the_job() -> None:
    (line,) = read_lines(US, Equipment, "TV  1450 x 835 x 27 mm").lines
    assert isinstance(line.record, Equipment)
    assert line.record.width == Length(1_450_000_000)
    assert line.record.what == "screen"
    assert ("kind", "TV") in line.cells, "as it is said, not as it is kept"
    assert ("width", '~57-1/16"') in line.cells


@rows(
    "line, told",
    [
        ("player 17 x 2 x 9", True),
        ("player 17×2×9", True),
        ("amplifier 24 lb", True),
        ("TV, 65 in class", False),
        ("shelf lights 2", False),
        ("vent 12 x 6  -", False),
    ],
)
def test_sizes_behind_a_single_space_are_no_part_of_a_name(line: str, told: bool) -> None:
    found = read_lines(US, Equipment, line)
    assert [each.says() for each in found.wrong] == (
        [f'Line 1, name: "{line}" has sizes in it. Put two spaces or a tab between columns.'] if told else []
    )


def test_each_mistake_is_told_at_its_cell_and_nothing_is_saved() -> None:
    text = "receiver  17 x 6 x 15  24 lb  420 W\n\nplayer  17 x six x 15  heavy  40 W\nbox  1 x 2 x 3 x 4"
    found = read_lines(US, Equipment, text)
    assert found.changes == ()
    assert [(each.line, each.column) for each in found.wrong] == [
        (3, "height"), (3, "weight"), (4, "width x height x depth"),
    ]  # fmt: skip
    assert [each.record is not None for each in found.lines] == [True, False, False]


def test_a_pasted_sheet_with_its_own_heading_sets_the_columns() -> None:
    text = "Phone\tName\tTrade\n555-0100\tAnn\telectrician\n555-0101\tBo\tpainter"
    found = read_lines(US, Contact, text)
    assert not found.wrong
    made = [each.record for each in found.lines]
    assert [(one.name, one.trade, one.phone) for one in made if isinstance(one, Contact)] == [
        ("Ann", "electrician", "555-0100"), ("Bo", "painter", "555-0101"),
    ]  # fmt: skip


def test_bars_keep_blank_cells_and_a_dash_is_one() -> None:
    assert split_line("a |  | b") == ["a", "", "b"]
    assert split_line("| a | b |") == ["a", "b"]
    assert split_line("a  -  b c") == ["a", "", "b c"]
    assert split_line("a\t\tb") == ["a", "", "b"]


def test_references_are_found_by_name_and_a_name_of_two_is_asked_about() -> None:
    job = _job(Wall(tag="W1", name="One"), Equipment(tag="E1", name="TV left"), Equipment(tag="E2", name="TV right"))
    found = read_lines(job, Cable, "picture  hdmi  tv left  e2\nother  hdmi  tv  E9")
    first = found.lines[0].record
    assert isinstance(first, Cable)
    assert (first.start, first.end) == ("E1", "E2")
    assert [each.says() for each in found.wrong] == [
        'Line 2, from: "tv" could be E1 or E2. Write the tag.',
        "Line 2, to: no E9 in this job. Write a tag that is there.",
    ]


def test_one_wall_goes_without_saying_and_two_are_asked_for() -> None:
    assert columns_of_kind(Box, US)[0].title == "name"
    (line,) = read_lines(US, Box, "left  receptacle  3'  1'").lines
    assert isinstance(line.record, Box)
    assert line.record.wall == "W1"
    two = _job(Wall(tag="W1", name="One"), Wall(tag="W2", name="Two"))
    assert columns_of_kind(Box, two)[0].title == "wall"
    (line,) = read_lines(two, Reading, "two  width  96").lines
    assert isinstance(line.record, Reading)
    assert line.record.wall == "W2"


SIXTEENTHS = st.integers(1, 16 * 400).map(lambda n: Length(n * INCH_NM // 16))
MILLIMETERS = st.integers(1, 9000).map(lambda n: Length(n * 1_000_000))


@tries(30)
@given(st.data(), st.booleans())
def test_what_is_shown_of_a_record_reads_back_as_the_record(data: st.DataObject, metric: bool) -> None:
    job = METRIC if metric else US
    sizes = MILLIMETERS if metric else SIXTEENTHS
    one = Equipment(
        tag="", name="thing", width=data.draw(sizes), height=data.draw(sizes), depth=data.draw(sizes),
        watts=float(data.draw(st.integers(0, 3000))),
    )  # fmt: skip
    shown = [
        " x ".join(field.edit(getattr(one, field.key), job.manner) for field in column.fields)
        for column in columns_of_kind(Equipment, job)
    ]
    for apart in ("  ", "\t", " | "):
        cells = [cell or "-" for cell in shown]
        (line,) = read_lines(job, Equipment, apart.join(cells)).lines
        assert line.record == one


@tries(60)
@given(st.sampled_from(sorted(COLUMNS)), st.text(max_size=80))
def test_no_text_breaks_the_reader_and_each_line_is_a_record_or_has_its_mistake(kind: str, text: str) -> None:
    found = read_lines(US, KINDS[kind], text)
    for line in found.lines:
        assert (line.record is None) == bool(line.wrong)
        if line.record is not None:
            assert msgspec.structs.replace(line.record, tag="X1").tag == "X1"


def test_a_line_that_begins_with_a_tag_changes_that_record_and_no_other() -> None:
    job = job_of(
        Equipment(tag="E1", name="Receiver", what="receiver", watts=420_000, notes=Note("from the attic")),
        Equipment(tag="E2", name="Streamer", what="streamer"),
    )
    found = read_lines(job, Equipment, "E1  -  17 x 6 x 15  24 lb\ne2  Streaming stick\nPlayer")
    assert not found.wrong
    assert [each.was.tag if each.was else "" for each in found.lines] == ["E1", "E2", ""]
    first, second, third = (each.record for each in found.lines)
    assert isinstance(first, Equipment)
    assert (first.name, first.what, first.watts, first.notes) == ("Receiver", "receiver", 420_000, "from the attic")
    assert first.width is not None
    assert first.width.nm == 17 * INCH_NM
    assert isinstance(second, Equipment)
    assert (second.name, second.what) == ("Streaming stick", "streamer")
    assert isinstance(third, Equipment)
    assert third.name == "Player"
    assert "E1 changed: width" in found.lines[0].says()
    assert [each.tag for each in found.changes] == ["E1", "E2", ""]
    assert set(found.changes[0].fields) == {"width", "height", "depth", "weight"}, "what is not said stays"
    short = read_lines(job, Equipment, "E1  57 x 32-3/4 x 2-1/4  48 lb\nE2  4 x 1 x 4")
    assert [(each.record.name, each.record.width) for each in short.lines if isinstance(each.record, Equipment)] == [
        ("Receiver", Length(57 * INCH_NM)), ("Streamer", Length(4 * INCH_NM)),
    ], "the tag stands for the name; sizes are no name"  # fmt: skip
    assert isinstance(named := read_lines(job, Equipment, "E1  4K receiver").lines[0].record, Equipment)
    assert named.name == "4K receiver"
    twice = read_lines(job, Equipment, "E1  Amplifier\nE1  Receiver")
    assert [each.says() for each in twice.wrong] == ["Line 2, line: E1 is on line 1 already"]
    gone = read_lines(job, Equipment, "E9  Amplifier")
    assert [each.says() for each in gone.wrong] == ["Line 1, line: there is no E9. Leave the tag out for a new one."]
    assert not gone.changes
