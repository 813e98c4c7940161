"""A unit or a currency in a cell or a heading: converted, or refused with row and column; never dropped in silence."""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.errors import BadValue
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.people import Amount
from store.records.wiring import Box, Cable, Circuit
from templates.spreadsheet.reading import BadRows, How, Import, read_import
from tests.jobs.order_jobs import job_of
from tests.rows import rows


def imported(cls: type[Record], text: str, how: How | None = None, **settings: Any) -> Import:
    """An import of this text into an empty job."""
    return read_import(job_of(**settings), cls, text.encode(), how)


def one(found: Import) -> dict[str, Any]:
    """The fields of the only change."""
    assert len(found.changes) == 1
    return dict(found.changes[0].fields)


@rows(("cls", "heading", "cell", "key", "value"), [
    (Equipment, "watts", "1.5 kW", "watts", 1500.0),
    (Equipment, "watts (kW)", "1.5", "watts", 1500.0),
    (Equipment, "watts [kW]", "1.5 kW", "watts", 1500.0),
    (Equipment, "watts (kW)", "420 W", "watts", 420.0),
    (Equipment, "Power (W)", "420", "watts", 420.0),
    (Equipment, "Power, kW", "1.5", "watts", 1500.0),
    (Equipment, "watts", '"1,500"', "watts", 1500.0),
    (Equipment, "watts (BTU/h)", '"5,100"', "watts", 1494.662458),
    (Equipment, "runs for (min)", "90", "hours", 1.5),
    (Equipment, "Lead time (weeks)", "2", "lead", 14),
    (Equipment, "Lead time", "2 weeks", "lead", 14),
    (Equipment, "Weight (oz)", "32", "weight", "2 lb"),
    (Equipment, "Width (W)", "17", "width", "17 in"),
    (Equipment, "Height (H) mm", "435", "height", "435 mm"),
    (Equipment, "Depth (cm)", "43.5", "depth", "435 mm"),
    (Equipment, "Width (in)", "17 1/4", "width", "17 1/4 in"),
    (Equipment, "price EUR", "520", "price", 52000),
    (Equipment, "price", "€520", "price", 52000),
    (Equipment, "price (each)", "520", "price", 52000),
    (Circuit, "volts", "0.12 kV", "volts", 120.0),
    (Circuit, "breaker", "20 A", "breaker", 20.0),
    (Circuit, "volts (kV)", "0.24", "volts", 240.0),
    (Box, "volume (cm3)", "300", "volume", 18.307123),
    (Box, "volume", "20 cu in", "volume", 20.0),
    (Cable, "Run (yd)", "10", "measured", "360 in"),
    (Cable, "Run", "10 yd", "measured", "360 in"),
])  # fmt: skip
def test_a_unit_is_converted(cls: type[Record], heading: str, cell: str, key: str, value: Any) -> None:
    must = {Equipment: ("name", "Fan"), Circuit: ("name", "Fan"), Box: ("kind", "switch"), Cable: ("type", "cat6")}[cls]
    text = f'{must[0]},"{heading}"\n{must[1]},{cell}\n'
    assert one(imported(cls, text, currency="EUR"))[key] == value


@rows(("cls", "heading", "cell", "where", "why"), [
    (Equipment, "watts", "1.5 A", "row 2, column watts", "is not in W: A is a current"),
    (Equipment, "watts (A)", "1.5", "row 1, column watts (A)", "A is a current"),
    (Equipment, "watts (MW)", "1.5", "row 1, column watts (MW)", "'MW' is not a known unit"),
    (Equipment, "watts (qux)", "1.5", "row 1, column watts (qux)", "'qux' is not a known unit"),
    (Equipment, "width (kg)", "1.5", "row 1, column width (kg)", "kg is a weight"),
    (Equipment, "weight (mm)", "1.5", "row 1, column weight (mm)", "mm is a length"),
    (Equipment, "price EUR", "520", "row 1, column price EUR", "not in USD"),
    (Equipment, "price (£)", "520", "row 1, column price (£)", "not in USD"),
    (Equipment, "price (k$)", "5", "row 1, column price (k$)", "k is not a whole amount"),
    (Equipment, "price (USD thousands)", "5", "row 1, column price (USD thousands)", "not a whole amount"),
    (Equipment, "price (cents)", "520", "row 1, column price (cents)", "not a whole amount"),
    (Equipment, "weight (stone)", "5", "row 1, column weight (stone)", "'stone' is not a known unit"),
    (Equipment, "width (furlong)", "5", "row 1, column width (furlong)", "'furlong' is not a known unit"),
    (Equipment, "price (per ft)", "520", "row 1, column price (per ft)", "a price for each ft"),
    (Equipment, "price", "€520", "row 2, column price", "is not in USD"),
    (Equipment, "price", "520 CHF", "row 2, column price", "is not in USD"),
    (Equipment, "Lead time (months)", "2", "row 1, column Lead time (months)", "write calendar days"),
    (Equipment, "lead days", "3 h", "row 2, column lead days", "not a whole number"),
    (Equipment, "count", "2 weeks", "row 2, column count", "not a whole number"),
    (Equipment, "watts", "100-240 V", "row 2, column watts", "not a number"),
    (Equipment, "watts", "#REF!", "row 2, column watts", "an error from the spreadsheet"),
    (Equipment, "watts", "180 VA", "row 2, column watts", "not a number"),
])  # fmt: skip
def test_what_is_of_another_kind_is_refused_with_its_place(
    cls: type[Record], heading: str, cell: str, where: str, why: str
) -> None:
    with pytest.raises(BadRows) as refused:
        imported(cls, f'name,"{heading}"\nFan,{cell}\n')
    assert f"{where}: " in str(refused.value)
    assert why in str(refused.value)


def test_three_decimals_of_a_currency_that_has_them() -> None:
    found = imported(Amount, 'kind,amount\npaid,"1,234.567"\npaid,KWD 5\n', currency="KWD")
    assert [each.fields["amount"] for each in found.changes] == [1_234_567, 5_000]


@rows(("cell", "comma", "watts"), [
    ('"1.234,55"', False, 1234.55), ('"1.234,55"', True, 1234.55), ('"1,234.55"', True, 1234.55),
    ('"1,500"', False, 1500.0), ('"1,500"', True, 1.5), ("1.500", True, 1500.0), ("1.500", False, 1.5),
    ('"12,5"', False, 12.5), ("12.5", True, 12.5),
])  # fmt: skip
def test_the_jobs_own_decimal_sign(cell: str, comma: bool, watts: float) -> None:
    decimal = "comma" if comma else "point"
    assert one(imported(Equipment, f"name,watts\nFan,{cell}\n", decimal=decimal))["watts"] == watts


def test_a_column_is_what_the_person_says() -> None:
    text = "Thing,Power (W),Extra\nFan,35,12\n"
    found = imported(Equipment, text, How({"power (w)": "watts", "Thing": "name", "Extra": ""}))
    assert one(found) == {"name": "Fan", "watts": 35.0}
    assert [column.key for column in found.columns] == ["name", "watts", ""]
    assert one(imported(Equipment, "name,Load (qux)\nFan,35\n", How({"Load (qux)": "watts"})))["watts"] == 35.0
    for said, why in (
        ({"Colour": "watts"}, 'no column "Colour"'),
        ({"Extra": "colour"}, 'no field "colour"'),
        ({"Thing": "name", "Extra": "name"}, 'two columns are set as "name"'),
    ):
        with pytest.raises(BadValue, match=why):
            imported(Equipment, text, How(said))


def test_titles_above_the_headings_and_sums_below_are_left_out_and_told() -> None:
    text = "Our living room,,\n,,\nItem,Price,Qty\nFan,35.00,1\nTotal,35.00,\n"
    found = imported(Equipment, text)
    assert one(found) == {"name": "Fan", "price": 3500}
    assert "left out above the names of the columns: Our living room" in found.notes
    assert "row 5 is left out: it is a row of totals" in found.notes
    assert (found.new, found.changed, found.same) == (1, 0, 0)


def test_the_preview_has_each_cell_that_was_changed_in_reading_as_it_will_be_saved() -> None:
    text = (
        "name,watts (kW),width,ordered,state,price\nFan,1.5,435mm,dec 3 2026,on order,520\nTV,0.2 kW,17 in,,to buy,\n"
    )
    assert imported(Equipment, text).preview() == [
        "row 2, new equipment Fan:",
        "  power draw: 1.5 is read as 1500 W",
        "  width: 435mm is read as 435 mm",
        "  ordered: dec 3 2026 is read as 2026-12-03 (Thursday, December 3, 2026)",
        "  buying state: on order is read as ordered",
        "row 3, new equipment TV:",
        "  power draw: 0.2 kW is read as 200 W",
    ]


def test_the_preview_has_what_becomes_of_a_record() -> None:
    there = Equipment(tag="E1", name="Fan", watts=35.0)
    found = read_import(job_of(there), Equipment, b"tag,watts,supplier\nE1,40,shop\n")
    assert found.preview() == ["row 2, E1 Fan:", "  power draw: 35 W becomes 40 W", "  supplier: (empty) becomes shop"]


def test_the_same_rows_again_are_nothing_new() -> None:
    text = "name,watts\nFan,35\nFan,35\nTV,200\n"
    fans = [Equipment(tag=f"E{n}", name="Fan", watts=35.0) for n in (1, 2)]
    job = job_of(*fans, Equipment(tag="E3", name="TV", watts=200.0))
    found = read_import(job, Equipment, text.encode())
    assert (found.new, found.changed, found.same, found.changes) == (0, 0, 3, ())
    assert any("row 2 is E1; row 3 is E2; row 4 is E3" in note for note in found.notes)
    # A third of them is one more; and all are, for who says so.
    assert read_import(job, Equipment, f"{text}Fan,35\n".encode()).new == 1
    assert read_import(job, Equipment, text.encode(), How(again=True)).new == 3


@rows(("text", "copy"), [
    ("16:9", "16:09"), ("16:9", "16:09:00"), ("16:9", "4:09 PM"), ("3/4", "4-Mar"), ("3/4", "3-Apr"), ("00417", "417"),
    ("2-4", "4-Feb"), ("12E3", "12000"), ("1234567890123456789", "1234567890123450000"), ("3/4", "Mar-04"),
])  # fmt: skip
def test_a_spreadsheets_copy_of_a_text_changes_nothing(text: str, copy: str) -> None:
    there = Equipment(tag="E1", name="TV", serial=text)
    found = read_import(job_of(there), Equipment, f"tag,serial number\nE1,{copy}\n".encode())
    assert (found.changes, found.same) == ((), 1)
    assert any("a spreadsheet's copy" in note for note in found.notes)


@rows(("text", "other"), [("16:9", "16:10"), ("3/4", "5-Mar"), ("417", "418"), ("12", "12.5"), ("a", "b")])
def test_another_text_is_another_text(text: str, other: str) -> None:
    there = Equipment(tag="E1", name="TV", serial=text)
    found = read_import(job_of(there), Equipment, f"tag,serial number\nE1,{other}\n".encode())
    assert found.changes[0].fields == {"serial": other}
