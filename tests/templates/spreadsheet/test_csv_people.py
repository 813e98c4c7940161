"""Spreadsheets as people keep them: their own names of columns, words, numbers and dates; what was guessed is shown."""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.errors import BadValue
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.gate import Check
from store.records.people import Contact, Step
from store.records.wall import Reading, Wall
from store.records.wiring import Box, Cable
from templates.spreadsheet.reading import Asked, BadRows, How, Import, read_import
from tests.jobs.order_jobs import job_of
from tests.rows import rows

WALL = Wall(tag="W1", name="Media wall")


def imported(cls: type[Record], text: str, *records: Record, **settings: Any) -> Import:
    """An import of this text into a job of these records."""
    return read_import(job_of(*records, **settings), cls, text.encode())


def values(found: Import) -> list[dict[str, Any]]:
    """The fields of each change."""
    return [dict(each.fields) for each in found.changes]


def test_equipment_of_a_spreadsheet_with_semicolons_and_decimal_commas() -> None:
    found = imported(
        Equipment,
        "\ufeffItem;Type;Brand;Width;Depth in.;Weight;Watts;Price;Lead time (days);Return by;Status;Qty;Store\r\n"
        '"TV, 65""";TV;x;57,1 in;2,4;52 lb;180 W;"$1.299,00";14 days;31/12/2026;on order;1;Corner shop\r\n'
        'Receiver;AVR;;"17 1/4""";15;9,5 kg;1.200,5;349;2 weeks;3/12/2026;purchased;2x;\r\n',
    )
    assert values(found) == [
        {
            "name": 'TV, 65"', "what": "screen", "width": "57.1 in", "depth": "2.4 in", "weight": "52 lb",
            "watts": 180.0, "price": 129900, "lead": 14, "return_by": "2026-12-31", "state": "ordered",
            "supplier": "Corner shop",
        },
        {
            "name": "Receiver", "what": "receiver", "width": "17 1/4 in", "depth": "15 in", "weight": "9.5 kg",
            "watts": 1200.5, "price": 34900, "lead": 14, "return_by": "2026-12-03", "state": "owned", "count": 2,
        },
    ]  # fmt: skip
    told = [column.says() for column in found.columns]
    assert "Item -> name" in told
    assert "Type -> kind" in told
    assert "Brand -> left out: no such field" in told
    assert "Depth in. -> depth, bare numbers in in" in told
    assert "Return by -> return by, the day first" in told
    assert found.notes == (
        "numbers: a comma before the fraction", "Type: 'tv' is read as screen",
        "Status: 'on order' is read as ordered", "Type: 'avr' is read as receiver",
        "Status: 'purchased' is read as owned",
    )  # fmt: skip


def test_a_choice_that_is_written_as_here_is_no_matter_of_reading() -> None:
    found = imported(Step, "what,stage\nHang the screen,Hook-up\nPaint,finish\nTry it,In use\n")
    assert [each["stage"] for each in values(found)] == ["Hook-up", "Finish", "In use"]
    assert found.notes == ()


def test_contacts_as_people_list_them() -> None:
    found = imported(
        Contact,
        "Company,Role,Cell,E-mail,License #,License expires,Insured thru,Status,Comments\n"
        '"Dana, sparks",Electrical,(555) 555-0111,dana@example.com,EL 1,12/31/2026,Jan 5 2027,Hired,"after 5, no"\n'
        "Pat,Drywaller,,,,,,quoted,\n"
        "Kim,A/V,,,,,,,\n",
    )
    first, second, third = values(found)
    assert first == {
        "name": "Dana, sparks", "trade": "electrician", "phone": "(555) 555-0111", "mail": "dana@example.com",
        "licence": "EL 1", "licence_until": "2026-12-31", "insured_until": "2027-01-05", "state": "booked",
        "notes": "after 5, no",
    }  # fmt: skip
    assert (second["trade"], second["state"], third["trade"]) == ("drywall", "quoted", "low-voltage")


@rows("heading", ["Measurement", "Dimension", "Type", "What"])
def test_a_name_that_could_mean_two_fields_is_told_by_what_is_in_the_column(heading: str) -> None:
    found = imported(Reading, f"{heading},Length,At\nwidth,14' 1/16,floor\nheight,96 1/4,left end\n", WALL)
    assert [(one["what"], one["value"]) for one in values(found)] == [("width", "168 1/16 in"), ("height", "96 1/4 in")]
    other = imported(Reading, f"Size,Direction,{heading if heading != 'What' else 'Spot'}\n55.9 cm,depth,left\n", WALL)
    assert values(other)[0]["value"] == "559 mm"


def test_the_only_wall_is_meant_where_no_column_names_one() -> None:
    found = imported(Reading, "what,reading\nwidth,12'\n", WALL)
    assert values(found)[0]["wall"] == "W1"
    assert found.notes == ("no column for wall: W1 is used, the only one there is",)
    with pytest.raises(BadRows, match="column wall: wall is needed"):
        imported(Reading, "what,reading\nwidth,12'\n", WALL, Wall(tag="W2", name="Other"))


def test_things_may_be_named_by_their_names() -> None:
    ends = (Box(tag="B1", name="Behind screen", what="low-voltage"), Equipment(tag="E1", name="Screen"))
    text = "Label,Source,Destination,Cable type,Run (ft),In wall,Hidden?\n{},behind SCREEN,{},HDMI,10,x,\n"
    found = imported(Cable, text.format("picture", "Screen"), *ends)
    assert values(found) == [{"name": "picture", "type": "HDMI", "start": "B1", "end": "E1", "measured": "120 in"}]
    assert "Source: 'behind SCREEN' is B1" in found.notes
    tagged = imported(Cable, text.format("K7", "E1"), *ends)
    assert tagged.changes[0].tag == "K7"
    twins = (*ends, Equipment(tag="E2", name="screen"))
    with pytest.raises(BadRows, match='row 2, column Destination: "Screen" could be E1 or E2'):
        imported(Cable, text.format("picture", "Screen"), *twins)
    with pytest.raises(BadRows, match='row 2, column Destination: "Nowhere" is not a tag'):
        imported(Cable, text.format("picture", "Nowhere"), *ends)


def test_a_tag_is_a_tag_whatever_is_called_so() -> None:
    found = imported(Reading, "wall,what,reading\nW2,width,12'\n", Wall(tag="W1", name="W2"), Wall(tag="W2", name="x"))
    assert values(found)[0]["wall"] == "W2"


def test_checks_as_a_list_of_things_to_do() -> None:
    found = imported(Check, "Task,Responsible,Location,Evidence\nPlates on bored studs,Electricians,wall,photo\n")
    assert values(found) == [
        {"what": "Plates on bored studs", "trade": "electrician", "where": "wall", "wants": "photo"}
    ]


@rows(("dates", "day_first", "read"), [
    (["3/4/2026", "13/4/2026"], False, ["2026-04-03", "2026-04-13"]),
    (["3/4/2026", "4/13/2026"], True, ["2026-03-04", "2026-04-13"]),
    (["4/4/2026", "5/5/2026"], True, ["2026-04-04", "2026-05-05"]),
    (["2026-04-03", "2026/04/03"], True, ["2026-04-03", "2026-04-03"]),
    (["03.04.2026", "13.04.2026"], False, ["2026-04-03", "2026-04-13"]),
])  # fmt: skip
def test_a_column_of_dates_is_read_in_one_way(dates: list[str], day_first: bool, read: list[str]) -> None:
    text = "what,booked\n" + "".join(f"step,{day}\n" for day in dates)
    job = job_of(region="metric" if day_first else "us")
    assert job.manner.day_first is day_first
    assert [one["booked"] for one in values(read_import(job, Step, text.encode()))] == read


def test_dates_of_both_ways_in_one_column_are_refused() -> None:
    with pytest.raises(BadRows, match="row 1, column booked: some dates here have the day first and some the month"):
        imported(Step, "what,booked\na,13/4/2026\nb,4/13/2026\n")


def test_a_number_that_could_be_thousands_or_a_fraction_is_refused() -> None:
    text = "name;width\na;57,5 mm\nb;1.250 mm\n"
    with pytest.raises(Asked, match=r"1\.250 mm\" could be thousands or a decimal") as asked:
        imported(Equipment, text)
    assert (asked.value.question, [answer for answer, _ in asked.value.choices]) == ("decimal", ["point", "comma"])
    for answer, width in (("comma", "1250 mm"), ("point", "1.25 mm")):
        found = read_import(job_of(), Equipment, text.encode(), How(decimal=answer))  # type: ignore[arg-type]
        assert [each["width"] for each in values(found)] == ["57.5 mm", width]
    # Without a comma anywhere a point is a point.
    assert values(imported(Equipment, "name;width\nb;1.250 in\n"))[0]["width"] == "1 1/4 in"


def test_a_first_line_that_names_the_delimiter_is_no_row() -> None:
    found = imported(Contact, "sep=;\r\nname;trade\r\nJo;drywall\r\n")
    assert values(found) == [{"name": "Jo", "trade": "drywall"}]
    with pytest.raises(BadRows, match="row 3, column trade"):
        imported(Contact, "sep=;\r\nname;trade\r\nJo;plumber\r\n")


def test_quoted_cells_may_hold_line_ends_and_the_delimiter() -> None:
    found = imported(
        Contact, 'name,trade,notes\r\n"Jo, the ""tall"" one",drywall,"first\r\nsecond"\r\n\r\nKim,owner,\r\n'
    )
    assert [one["name"] for one in values(found)] == ['Jo, the "tall" one', "Kim"]
    assert values(found)[0]["notes"] == "first\nsecond"


def test_how_the_columns_were_understood_is_told_with_the_mistakes() -> None:
    with pytest.raises(BadRows) as refused:
        imported(Contact, "Company,Role\nJo,plumber\n")
    assert [column.says() for column in refused.value.columns] == ["Company -> name", "Role -> trade"]


def test_what_is_called_like_one_that_is_there_is_told_and_with_its_tag_changed() -> None:
    old = Equipment(tag="E3", name="Receiver")
    again = imported(Equipment, "name,watts\nreceiver,420\nPlayer,22\n", old)
    assert (again.new, again.notes) == (2, ("'receiver' is on the list as E3: to change it, enter its tag",))
    tagged = imported(Equipment, "tag,name,watts\nE3,Receiver,420\n", old)
    assert (tagged.new, tagged.changed, tagged.notes) == (0, 1, ())


@rows("first", ['sep="', "sep=", "sep=ab", "sep=\x00"])
def test_a_first_line_that_names_no_delimiter_is_only_a_title_or_refused(first: str) -> None:
    try:
        found = imported(Contact, f"{first}\nname;trade\nJo;drywall\n")
    except BadValue:
        return
    assert values(found) == [{"name": "Jo", "trade": "drywall"}]
    assert any(note.startswith("left out above the names of the columns: sep=") for note in found.notes)


def test_a_row_of_names_without_end_is_refused_at_once() -> None:
    with pytest.raises(BadRows, match="the first row has 50,001 columns"):
        imported(Contact, "name" + ",trade" * 50_000 + "\nJo\n")


def test_a_number_with_commas_for_thousands_and_a_point_means_one_thing_anywhere() -> None:
    found = imported(Equipment, 'name;width;price\nScreen;57,5;"$1,299.00"\nFan;17,5;"1.234,50"\n')
    assert [each["price"] for each in values(found)] == [129_900, 123_450]
    assert [each["width"] for each in values(found)] == ["57 1/2 in", "17 1/2 in"]


def test_numbered_rows_are_no_tags_and_a_column_of_tags_is_whatever_it_is_called() -> None:
    found = imported(Equipment, "No.,name\n1,Screen\n2,Fan\n")
    assert [each["name"] for each in values(found)] == ["Screen", "Fan"]
    assert found.columns[0].key == ""
    there = Equipment(tag="E1", name="Screen")
    assert imported(Equipment, "Item no,name\nE1,Other\n", there).columns[0].key == "tag"
    with pytest.raises(BadRows, match="'2' is not a tag of equipment"):
        imported(Equipment, "ID,name\nE1,Screen\n2,Fan\n", there)


@rows(
    ("word", "trade"),
    [("Electrical contractor", "electrician"), ("AV installer", "low-voltage"), ("heating company", "hvac")],
)
def test_a_trade_may_be_called_by_its_kind_of_firm(word: str, trade: str) -> None:
    assert values(imported(Contact, f"name,trade\nDana,{word}\n"))[0]["trade"] == trade


def test_a_word_for_no_trade_is_refused() -> None:
    with pytest.raises(BadRows, match='"contractor" is not in the list'):
        imported(Contact, "name,trade\nDana,contractor\n")
