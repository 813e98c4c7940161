"""Masses, money and plain numbers: typed forms, refusals and round trips."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.errors import BadValue
from store.measure.mass import KILOGRAM_UG, POUND_UG, Mass, parse_mass, show_mass
from store.measure.money import MOST, parse_money, show_money
from store.measure.numbers import parse_count, parse_number, show_number
from tests.rows import rows
from tests.units import EXACT as UNITS

# --- mass ---


@rows(
    ("typed", "metric", "ug"),
    [
        ("65 lb", False, 65 * 453_592_370),
        ("65 lbs.", True, 65 * 453_592_370),
        ("65", False, 65 * 453_592_370),
        ("0.5 LB", False, 226_796_185),
        ("29.5 kg", False, 29_500_000_000),
        ("29.5", True, 29_500_000_000),
        ("750 g", False, 750_000_000),
        ("1,500 lb", False, 1500 * 453_592_370),
        ("12 kilos", False, 12_000_000_000),
        ("12 oz", True, 340_194_278),
        ("65 pounds", True, 65 * 453_592_370),
        (".25kg", True, 250_000_000),
        ("0", False, 0),
    ],
)
def test_masses_as_typed(typed: str, metric: bool, ug: int) -> None:
    assert parse_mass(typed, metric).ug == ug


@rows("typed", ["0.25 lb", "6.61 lb", "29.55 lb", "41.8878 lb", "29.55 kg", "0.001 kg", "7 lb"])
def test_decimals_are_shown_as_they_were_typed(typed: str) -> None:
    assert show_mass(parse_mass(typed)) == typed


@rows(
    ("typed", "says"),
    [
        ("", "65 lb or 29.5 kg"),
        ("heavy", "65 lb or 29.5 kg"),
        ("-5 lb", "65 lb or 29.5 kg"),
        ("65 stone", "65 lb or 29.5 kg"),
        ("1,5 kg", "65 lb or 29.5 kg"),
        ("6 lb 4 oz", "65 lb or 29.5 kg"),
        ("1e3 kg", "65 lb or 29.5 kg"),
        ("10001 kg", "Check the unit"),
        ("99999 lb", "Check the unit"),
        ("1.0000000001 kg", "65 lb or 29.5 kg"),
    ],
)
def test_masses_refused(typed: str, says: str) -> None:
    with pytest.raises(BadValue) as caught:
        parse_mass(typed)
    assert says in str(caught.value)


@given(st.integers(0, 10_000 * KILOGRAM_UG), st.booleans())
def test_a_mass_shown_reads_back(ug: int, metric: bool) -> None:
    mass = Mass(ug, metric)
    for job_metric in (False, True):
        assert parse_mass(show_mass(mass), job_metric) == mass


def test_the_pound_agrees_with_an_independent_table() -> None:
    assert UNITS.Quantity(Fraction(1), "pound").to("microgram").magnitude == POUND_UG
    assert UNITS.Quantity(Fraction(1), "kilogram").to("microgram").magnitude == KILOGRAM_UG
    assert Mass(POUND_UG * 65).pounds == 65
    assert Mass(29_500_000_000).kilograms == 29.5


@given(st.integers(0, 20_000_000), st.sampled_from(["lb", "kg", "g"]))
def test_typed_masses_agree_with_an_independent_table(thousandths: int, unit: str) -> None:
    wanted = UNITS.Quantity(Fraction(thousandths, 1000), {"lb": "pound", "kg": "kilogram", "g": "gram"}[unit])
    found = parse_mass(f"{thousandths / 1000:.3f} {unit}") if thousandths < 10_000_000 else None
    if found is not None:
        assert abs(found.ug - wanted.to("microgram").magnitude) <= Fraction(1, 2)


# --- money ---


@rows(
    ("typed", "minor"),
    [
        ("1,234.50", 123_450),
        ("1234.5", 123_450),
        ("1 234.50", 123_450),
        ("1\u00a0234.50", 123_450),
        ("$80", 8_000),
        ("$ 80", 8_000),
        ("80 $", 8_000),
        ("€80.05", 8_005),
        ("80 EUR", 8_000),
        ("usd 80", 8_000),
        ("£.99", 99),
        ("-80", -8_000),
        ("−80.10", -8_010),
        ("-$80", -8_000),
        ("$-80", -8_000),
        ("0", 0),
        ("1,000,000,000", MOST),
    ],
)
def test_amounts_as_typed(typed: str, minor: int) -> None:
    assert parse_money(typed) == minor


@rows(
    ("typed", "says"),
    [
        ("", "1,234.50"),
        ("$", "1,234.50"),
        ("free", "1,234.50"),
        ("1,5", "a point for cents"),
        ("1.234,50", "a point for cents"),
        ("1,23", "a point for cents"),
        ("12,34.50", "a point for cents"),
        ("1.234", "a point for cents"),
        ("80.", "a point for cents"),
        ("10 50", "a point for cents"),
        ("1 2", "a point for cents"),
        ("0,500", "a point for cents"),
        ("80 XYZ", "a point for cents"),
        ("5$3", "a point for cents"),
        ("1EUR2", "a point for cents"),
        ("--5", "a point for cents"),
        ("-$-5", "a point for cents"),
        ("1e5", "a point for cents"),
        ("٣", "a point for cents"),
        ("1,000,000,000.01", "Check the amount"),
        ("99999999999999999999", "Check the amount"),
        ("9" * 30, "a point for cents"),
    ],
)
def test_amounts_refused(typed: str, says: str) -> None:
    with pytest.raises(BadValue) as caught:
        parse_money(typed)
    assert says in str(caught.value)


@given(st.integers(-MOST, MOST), st.sampled_from(["", "USD", "EUR", "GBP", "CHF"]))
def test_an_amount_shown_reads_back(minor: int, currency: str) -> None:
    assert parse_money(show_money(minor, currency)) == minor


def test_amounts_as_shown() -> None:
    assert show_money(123_450, "USD") == "$1,234.50"
    assert show_money(-5, "EUR") == "-€0.05"
    assert show_money(123_450) == "1,234.50"


def test_a_currency_without_a_sign_shows_its_code_and_one_without_cents_shows_none() -> None:
    assert show_money(123_450, "CHF") == "CHF 1,234.50"
    assert show_money(-123_450, "sek") == "-SEK 1,234.50"
    assert show_money(123_400, "JPY") == "¥1,234"
    assert [show_money(each, "JPY") for each in (123_449, 123_450, -123_450)] == ["¥1,234", "¥1,235", "-¥1,235"]
    assert show_money(500_000, "KRW") == "KRW 5,000"
    assert [show_money(500_000, code, bare=True) for code in ("KRW", "CHF", "USD")] == ["5,000", "5,000.00", "5,000.00"]
    # What is no code at all says nothing.
    assert show_money(100, "[b]francs") == "1.00"
    assert parse_money("-SEK 1,234.50") == -123_450
    assert parse_money("¥1,234") == 123_400
    with pytest.raises(BadValue):
        parse_money("12 PCS")


# --- numbers ---


@rows(
    ("typed", "unit", "number"),
    [
        ("1500", "", 1500.0),
        ("12.5 W", "W", 12.5),
        ("12.5w", "W", 12.5),
        (".5", "", 0.5),
        ("20 in²", "in²", 20.0),
        ("18 in3", "in³", 18.0),
        ("1,500", "W", 1500.0),
        ("1,234,567.5", "", 1_234_567.5),
        ("1 500 W", "W", 1500.0),
        ("1\u00a0500", "W", 1500.0),
        ("1.5 kW", "W", 1500.0),
        ("1.5kw", "W", 1500.0),
        ("1,500 W", "W", 1500.0),
        ("5 BTU/h", "W", 1.465355),
        ("0.12 kV", "V", 120.0),
        ("120 VAC", "V", 120.0),
        ("20 mA", "A", 0.02),
        ("15 amps", "A", 15.0),
        ("300 cm3", "in³", 18.307123),
        ("20 cu in", "in³", 20.0),
        ("90 min", "h", 1.5),
        ("100 m3/h", "cfm", 58.857778),
        ("10 percent", "%", 10.0),
    ],
)
def test_numbers_as_typed(typed: str, unit: str, number: float) -> None:
    assert parse_number(typed, unit) == number


@rows(
    ("typed", "unit", "says"),
    [
        ("", "W", "no number entered"),
        ("W", "W", "no number entered"),
        ("1,50", "W", "12.5 W"),
        ("0,500", "W", "12.5 W"),
        ("1,5000", "W", "12.5 W"),
        ("1e5", "", "12.5"),
        ("5 A", "W", "not in W: A is a current"),
        ("5 MW", "W", "12.5 W"),
        ("5 MA", "A", "12.5 A"),
        ("5 kW", "A", "not in A: kW is a power"),
        ("5 kW", "", "12.5"),
        ("100-240 V", "V", "12.5 V"),
        ("~180 W", "W", "12.5 W"),
        ("0.0001 mW", "W", "less than a millionth"),
        ("999999999999 kW", "W", "Check the unit"),
        ("3 VA", "W", "12.5 W"),
        ("inf", "", "12.5"),
        ("nan", "", "12.5"),
        ("-5", "", "can't be less than zero"),
        ("٣", "", "12.5"),
        ("1" * 13, "", "12.5"),
    ],
)
def test_numbers_refused(typed: str, unit: str, says: str) -> None:
    with pytest.raises(BadValue) as caught:
        parse_number(typed, unit)
    assert says in str(caught.value)


@given(st.integers(0, 10**12 - 1), st.integers(0, 999_999_999))
def test_a_number_shown_reads_back(whole: int, billionths: int) -> None:
    number = parse_number(f"{whole % 10**6}.{billionths:09d}")
    assert parse_number(show_number(number)) == number
    assert parse_number(show_number(float(whole))) == whole
    assert "e" not in show_number(number)


@rows("number", [float("inf"), float("-inf"), float("nan"), 1e300, 10**400, 5e-324])
def test_numbers_out_of_reach_are_shown_and_then_refused(number: float) -> None:
    with pytest.raises(BadValue):
        parse_number(show_number(number))


@rows("typed", ["", "-1", "1.5", "1,00", "0,100", "²", "٣", "9" * 10, "two"])
def test_counts_refused(typed: str) -> None:
    with pytest.raises(BadValue, match=r"whole number|no number entered"):
        parse_count(typed)


def test_counts_as_typed() -> None:
    assert [parse_count(each) for each in ("0", " 12 ", "007", "1,080", "999999999")] == [0, 12, 7, 1080, 999_999_999]


@given(st.text(max_size=50))
def test_random_text_is_read_or_refused(text: str) -> None:
    for read in (parse_mass, parse_money, parse_number, parse_count):
        try:
            read(text)
        except BadValue as error:
            assert str(error)  # noqa: PT017 - the sentence is what is asserted


@given(st.text("0123456789 .,-$€EURlbkg−", max_size=20))
def test_text_that_looks_like_a_value_is_read_or_refused(text: str) -> None:
    pairs: tuple[tuple[Any, Any], ...] = (
        (parse_mass, show_mass),
        (parse_money, show_money),
        (parse_number, show_number),
    )
    for read, show in pairs:
        try:
            value = read(text)
        except BadValue:
            continue
        assert read(show(value)) == value
