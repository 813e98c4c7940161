"""Units beside a number, the sign before a fraction, and currencies: against an independent table, or both ways."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.errors import BadValue
from store.measure.money import MOST, Money, currencies_of, exact_money, parse_money, show_money
from store.measure.numbers import commaed, parse_number, pointed, show_number
from store.measure.quantity import KINDS, UNITS, unit_named, worth
from tests.rows import rows
from tests.units import EXACT as TABLE

PINT = {
    "in³": "inch**3", "cm³": "centimeter**3", "mm³": "millimeter**3", "ft³": "foot**3", "in²": "inch**2",
    "cm²": "centimeter**2", "mm²": "millimeter**2", "ft²": "foot**2", "cfm": "foot**3/minute", "m³/h": "meter**3/hour",
    "m³/min": "meter**3/minute", "L/s": "liter/second", "BTU/h": "international_british_thermal_unit/hour",
    "%": "percent", "°": "degree", "d": "day", "gal": "gallon", "in": "inch", "hp": "horsepower",
}  # fmt: skip
PAIRS = [(unit, kind) for kind, row in UNITS.items() for unit in row]


@rows(("unit", "kind"), PAIRS)
def test_every_unit_is_worth_what_an_independent_table_says(unit: str, kind: str) -> None:
    wanted = TABLE.Quantity(Fraction(1), PINT.get(unit, unit)).to(PINT.get(kind, kind)).magnitude
    assert worth(unit, kind) == pytest.approx(wanted, rel=1e-12)
    assert worth(kind, unit) == 1 / UNITS[kind][unit]


def test_every_kind_of_unit_has_a_word_and_units_of_two_kinds_are_worth_nothing_to_each_other() -> None:
    assert set(KINDS) == set(UNITS)
    assert worth("kW", "A") is None
    assert worth("nonsense", "A") is None
    assert worth("A", "nonsense") is None


@rows(("written", "unit"), [
    ("kW", "kW"), ("KW", "kW"), ("mA", "mA"), ("ma", "mA"), ("Amps", "A"), ("VAC", "V"), ("cm3", "cm³"), ("cc", "cm³"),
    ("ml", "cm³"), ("cu. in.", "in³"), ("lbs.", "lb"), ('"', "in"), ("Watts", "W"), ("mW", "mW"),
    ("Business days", "d"), ("MA", ""), ("MW", ""), ("Mv", ""), ("VA", ""), ("stone", ""), ("", ""), (".", ""),
])  # fmt: skip
def test_units_are_known_by_what_people_write(written: str, unit: str) -> None:
    assert unit_named(written) == unit


@given(st.integers(1, 10**6), st.sampled_from([pair for pair in PAIRS if pair[1] not in ("mm", "kg")]))
def test_numbers_of_other_units_agree_with_an_independent_table(thousandths: int, pair: tuple[str, str]) -> None:
    unit, kind = pair
    number = Fraction(thousandths, 1000)
    wanted = TABLE.Quantity(number, PINT.get(unit, unit)).to(PINT.get(kind, kind)).magnitude
    typed = f"{thousandths // 1000}.{thousandths % 1000:03d} {unit}"
    if wanted < 1e-6:
        return
    found = parse_number(typed, kind)
    assert found == pytest.approx(float(wanted), abs=1e-6, rel=1e-9)
    assert parse_number(show_number(found), kind) == found


# --- the sign before a fraction ---


@rows(("typed", "with_point", "with_comma"), [
    ("1.234,55", "1234.55", "1234.55"), ("1,234.55", "1,234.55", "1,234.55"), ("1.234", "1.234", "1234"),
    ("1,234", "1,234", "1.234"), ("12,5", "12,5", "12.5"), ("12.5", "12.5", "12.5"), ("640.00", "640.00", "640.00"),
    ("1.234.567", "1.234.567", "1234567"), ("1,234,567", "1,234,567", "1,234,567"), ("0.500", "0.500", "0.500"),
    ("1.250 mm", "1.250 mm", "1250 mm"), ("€ 1.299,00", "€ 1299.00", "€ 1299.00"), ("3.5, 2", "3.5, 2", "3.5, 2"),
    ("6' 3-1/2\"", "6' 3-1/2\"", "6' 3-1/2\""), ("", "", ""),
])  # fmt: skip
def test_the_sign_before_a_fraction_is_the_writers_own(typed: str, with_point: str, with_comma: str) -> None:
    assert pointed(typed, False) == with_point
    assert pointed(typed, True) == with_comma


@given(st.integers(0, 10**9), st.integers(0, 6))
def test_what_is_written_with_a_comma_is_read_with_a_comma(number: int, places: int) -> None:
    text = f"{number // 10**places}.{number % 10**places:0{places}d}" if places else str(number)
    assert Fraction(pointed(commaed(text), True)) == Fraction(text)


# --- currencies ---


@rows(("typed", "currency", "minor"), [
    ("€520", "EUR", 52_000), ("520 €", "EUR", 52_000), ("$520", "CAD", 52_000), ("US$ 5", "USD", 500),
    ("5 kr", "SEK", 500), ("5 zł", "PLN", 500), ("Fr. 5.50", "CHF", 550), ("5 KWD", "KWD", 5_000),
    ("1.234", "KWD", 1_234), ("1,234.5", "KWD", 1_234_500), ("5.0000", "USD", 500), ("5.5000", "KWD", 5_500),
    ("5 QQQ", "QQQ", 500), ("€5", "", 500),
])  # fmt: skip
def test_amounts_of_the_jobs_own_currency_are_read(typed: str, currency: str, minor: int) -> None:
    assert parse_money(typed, currency) == minor


@rows(("typed", "currency"), [
    ("€520", "USD"), ("520 EUR", "USD"), ("$520", "EUR"), ("£5", "EUR"), ("5 kr", "USD"), ("C$5", "USD"),
])  # fmt: skip
def test_amounts_of_another_currency_are_refused(typed: str, currency: str) -> None:
    with pytest.raises(BadValue, match=f"is not in {currency}"):
        parse_money(typed, currency)


def test_a_third_decimal_is_only_for_a_currency_that_has_one() -> None:
    for typed in ("1.234", "1.500"):
        with pytest.raises(BadValue, match="a point for cents"):
            parse_money(typed, "USD")
    assert show_money(1_234_567, "KWD") == "KWD 1,234.567"
    assert show_money(1_234_567, "KWD", bare=True) == "1,234.567"


@given(st.integers(-MOST, MOST), st.sampled_from(["", "USD", "KWD", "JPY", "CHF", "QQQ"]))
def test_an_amount_in_full_reads_back(minor: int, currency: str) -> None:
    exact = exact_money(Money(minor), currency)
    assert parse_money(exact, currency) == minor
    assert parse_money(pointed(commaed(exact), True), currency) == minor


def test_signs_and_codes_name_their_currencies() -> None:
    assert currencies_of("eur") == ("EUR",)
    assert "CAD" in currencies_of("$")
    assert currencies_of("PCS") == ()
