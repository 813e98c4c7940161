"""Lengths: typed forms against exact values, refusals with what would be right, and lossless round trips."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.errors import BadValue
from store.measure.length import (
    FOOT_NM,
    INCH_NM,
    LONGEST_NM,
    MM_NM,
    SIXTY_FOURTH_NM,
    Length,
    exact_length,
    from_file,
    inches,
    millimetres,
    parse_length,
    show_length,
    to_file,
)
from tests.rows import rows
from tests.units import EXACT as UNITS

ANY_NM = st.integers(-LONGEST_NM, LONGEST_NM)
TYPED_NM = st.integers(0, LONGEST_NM)
ON_TAPE_NM = st.integers(0, LONGEST_NM // SIXTY_FOURTH_NM).map(lambda count: count * SIXTY_FOURTH_NM)
WHOLE_MM_NM = st.integers(0, LONGEST_NM // MM_NM).map(lambda count: count * MM_NM)


def _in(value: str | int) -> int:
    """Nanometres of inches given as a fraction, calculated apart from the code under test."""
    found = Fraction(value) * 25_400_000
    assert found.denominator == 1
    return int(found)


FEET_AND_INCHES = [
    ("6' 3-1/2\"", Fraction(151, 2)),
    ("6'-3 1/2\"", Fraction(151, 2)),
    ("6'-3 1/2", Fraction(151, 2)),
    ("6'3 1/2\"", Fraction(151, 2)),
    ("6' 3.5\"", Fraction(151, 2)),
    ("6ft 3 1/2in", Fraction(151, 2)),
    ("6 ft. 3 1/2 in.", Fraction(151, 2)),
    ("6 foot 3 1/2 inches", Fraction(151, 2)),
    ("6 FEET 3 INCHES", 75),
    ("6’ 3 1/2”", Fraction(151, 2)),
    ("6′ 3½″", Fraction(151, 2)),
    ("6′3½″", Fraction(151, 2)),
    ("6` 3''", 75),
    ("6'", 72),
    ("6 ft", 72),
    ("6.5 ft", 78),
    ("0.5'", 6),
    ("0' 7\"", 7),
    ("5' 11 63/64\"", Fraction(60 * 64 + 11 * 64 + 63, 64)),
    ("5' 1/4\"", Fraction(241, 4)),
    ("999' 11 63/64\"", Fraction(999 * 768 + 767, 64)),
    ("1000'", 12000),
]
INCHES = [
    ("75.5", Fraction(151, 2)),
    ("75.5 in", Fraction(151, 2)),
    ('75.5"', Fraction(151, 2)),
    ("75 1/2", Fraction(151, 2)),
    ("75-1/2", Fraction(151, 2)),
    ("75 1/2 in", Fraction(151, 2)),
    ("75½", Fraction(151, 2)),
    ("75 ½ in", Fraction(151, 2)),
    ("6 3/4", Fraction(27, 4)),
    ('3/8"', Fraction(3, 8)),
    ("3⁄8 in", Fraction(3, 8)),
    ("⅜", Fraction(3, 8)),
    ('⅞"', Fraction(7, 8)),
    ("1/64", Fraction(1, 64)),
    ("31/32 in", Fraction(31, 32)),
    (".5", Fraction(1, 2)),
    ("0", 0),
    ("007", 7),
    ("  16  ", 16),
    ("16\u00a0in", 16),
    ("16\u2009in", 16),
    ("1.0625 in", Fraction(17, 16)),
    ("0.000005 in", Fraction(5, 1_000_000)),
]
METRIC = [
    ("1900 mm", 1_900_000_000),
    ("1900mm", 1_900_000_000),
    ("190cm", 1_900_000_000),
    ("190 cm", 1_900_000_000),
    ("1.9m", 1_900_000_000),
    ("1.9 m", 1_900_000_000),
    ("1,9 m", 1_900_000_000),
    ("1,90 m", 1_900_000_000),
    ("190,5 cm", 1_905_000_000),
    ("1.9 metres", 1_900_000_000),
    ("1.9 Meters", 1_900_000_000),
    ("190 centimetres", 1_900_000_000),
    ("12.7 millimeters", 12_700_000),
    ("0.000001 mm", 1),
    (".5 mm", 500_000),
    ("304.8 m", 304_800_000_000),
    ("1917.7 MM", 1_917_700_000),
]


@rows(("typed", "wanted"), FEET_AND_INCHES + INCHES)
def test_inches_are_exact(typed: str, wanted: Fraction | int) -> None:
    found = parse_length(typed)
    assert found.nm == Fraction(wanted) * 25_400_000
    assert not found.metric


@rows(("typed", "wanted"), FEET_AND_INCHES)
def test_feet_need_no_unit_in_a_metric_job_either(typed: str, wanted: Fraction | int) -> None:
    assert parse_length(typed, metric=True).nm == Fraction(wanted) * 25_400_000


@rows("metric", [False, True])
@rows(("typed", "wanted"), METRIC)
def test_millimetres_are_exact_in_every_job(typed: str, wanted: int, metric: bool) -> None:
    found = parse_length(typed, metric)
    assert (found.nm, found.metric) == (wanted, True)


@rows(("typed", "wanted"), [("1900", 1_900_000_000), ("1900.5", 1_900_500_000), ("12,5", 12_500_000), ("7", 7_000_000)])
def test_a_bare_number_takes_the_unit_of_a_metric_job(typed: str, wanted: int) -> None:
    assert parse_length(typed, metric=True).nm == wanted


REFUSED = [
    ("", "17-1/8 or 435 mm"),
    ("   ", "17-1/8 or 435 mm"),
    ("-5", "can't be less than zero"),
    ("−5 in", "can't be less than zero"),
    ("--5", "can't be less than zero"),
    ("~6' 3\"", "without it"),
    ("1,900 mm", "1900 mm: a point"),
    ("1,900", ": a point"),
    ("1,9", "1.9 m"),
    ("1,9 in", ": a point"),
    ("1.900,5 mm", ": a point"),
    ("1,2,3 m", "no mark for thousands"),
    ("5' 12\"", "inches alone, or carry the foot"),
    ("5' 13 1/2\"", "inches alone, or carry the foot"),
    ("6.5' 3\"", "6.5 ft or 6'-6\""),
    ("75.5 1/2", "75.5 in or 75-1/2"),
    ("3/7", "64ths, not /7"),
    ("3/128", "not /128"),
    ("1/0", "not /0"),
    ("9/8", "Write the whole inches in front"),
    ("0/8", "Write the whole inches in front"),
    ("75 8/8", "Write the whole inches in front"),
    ("seven", "17-1/8 or 435 mm"),
    ("1.2.3", "435 mm"),
    ("5.", "435 mm"),
    ("1e3", "435 mm"),
    ("10 yd", "435 mm"),
    ("6 3", "435 mm"),
    ("in", "435 mm"),
    ("'", "435 mm"),
    ("5 in 3 ft", "435 mm"),
    ("٣ in", "435 mm"),
    ("１２", "435 mm"),
    ("nan", "435 mm"),
    ("1/3 mm", "435 mm"),
    ("0.0000001 mm", "Leave out the last decimals"),
    ("1.0000000000000000000000000000000001 m", "Leave out the last decimals"),
    ("0.00000000001 in", "Leave out the last decimals"),
    ("1000' 1/64\"", "Check the unit"),
    ("1917 m", "Check the unit"),
    ("9" * 30, "Check the unit"),
    ("9" * 60, "too long"),
    ("6" + " 1" * 30, "too long"),
]


@rows(("typed", "says"), REFUSED)
def test_what_could_be_misread_is_refused_with_what_would_be_right(typed: str, says: str) -> None:
    with pytest.raises(BadValue, match=r".") as caught:
        parse_length(typed)
    assert says in str(caught.value)
    assert "\n" not in str(caught.value)


@rows("typed", ["75 1/2", "3/8", "½"])
def test_a_fraction_without_unit_is_refused_in_a_metric_job(typed: str) -> None:
    with pytest.raises(BadValue, match=r"This job is in millimeters: add in or mm"):
        parse_length(typed, metric=True)


def test_signed_takes_one_minus_only() -> None:
    assert parse_length("-5 in", signed=True).nm == -5 * INCH_NM
    assert parse_length("−1/2", signed=True).nm == -INCH_NM // 2
    for typed in ("--5", "- -5", "5-", "-"):
        with pytest.raises(BadValue):
            parse_length(typed, signed=True)


@given(ANY_NM, st.booleans())
def test_the_file_gives_the_same_length_back(nm: int, metric: bool) -> None:
    length = Length(nm, metric)
    text = to_file(length)
    assert from_file(text).nm == nm
    assert text.endswith((" in", " mm"))
    # Written twice it is the same text: nothing creeps from save to save.
    assert to_file(from_file(text)) == text


@given(st.integers(-LONGEST_NM // SIXTY_FOURTH_NM, LONGEST_NM // SIXTY_FOURTH_NM))
def test_what_a_tape_shows_is_kept_in_inches(count: int) -> None:
    text = to_file(Length(count * SIXTY_FOURTH_NM))
    assert text.endswith(" in")
    assert "." not in text
    assert not from_file(text).metric


@rows("text", ["75 1/2", "1917", "", "75 1/2in", "75 mm ", "x in", " in", "~3 in", "3 m"])
def test_the_file_must_name_the_unit(text: str) -> None:
    with pytest.raises(BadValue):
        from_file(text)


@given(TYPED_NM, st.booleans(), st.booleans())
def test_the_text_for_editing_reads_back_exactly(nm: int, metric: bool, job_metric: bool) -> None:
    length = Length(nm, metric)
    assert parse_length(exact_length(length, job_metric), job_metric).nm == nm


@given(st.one_of(TYPED_NM, ON_TAPE_NM, WHOLE_MM_NM), st.booleans())
def test_what_is_shown_without_a_mark_is_exact(nm: int, metric: bool) -> None:
    shown = show_length(Length(nm, metric), metric)
    if shown.startswith("~"):
        step = MM_NM if metric else INCH_NM // 16
        assert nm % step != 0
        assert abs(parse_length(shown[1:], metric).nm - nm) * 2 <= step
    else:
        assert parse_length(shown, metric).nm == nm


@given(ANY_NM, st.booleans())
def test_a_negative_length_shows_its_sign(nm: int, metric: bool) -> None:
    shown = show_length(Length(nm), metric)
    other = show_length(Length(-nm), metric)
    assert shown.lstrip("~").removeprefix("-") == other.lstrip("~").removeprefix("-")
    assert not shown.lstrip("~").startswith("-0")


@rows(
    ("nm", "metric", "shown"),
    [
        (_in("151/2"), False, "6'-3 1/2\""),
        (_in(72), False, "6'-0\""),
        (_in("3/8"), False, '3/8"'),
        (0, False, '0"'),
        (_in("1/64"), False, '~0"'),
        (_in("1/32"), False, '~1/16"'),
        (_in(12) - 1, False, "~1'-0\""),
        (1_917_700_000, True, "~1918 mm"),
        (1_918_000_000, True, "1918 mm"),
        (-1_918_000_000, True, "-1918 mm"),
        (-_in("151/2"), False, "-6'-3 1/2\""),
    ],
)
def test_shown_forms(nm: int, metric: bool, shown: str) -> None:
    assert show_length(Length(nm), metric) == shown


def test_the_units_agree_with_an_independent_table() -> None:
    for unit, own_nm in (("inch", INCH_NM), ("foot", FOOT_NM), ("millimeter", MM_NM)):
        assert UNITS.Quantity(Fraction(1), unit).to("nanometer").magnitude == own_nm


@given(st.integers(0, 10_000_000), st.sampled_from(["mm", "cm", "m", "in", "ft"]))
def test_typed_numbers_agree_with_an_independent_table(thousandths: int, unit: str) -> None:
    typed = f"{thousandths // 1000}.{thousandths % 1000:03d} {unit}"
    wanted = UNITS.Quantity(Fraction(thousandths, 1000), {"in": "inch", "ft": "foot"}.get(unit, unit)).to("nanometer")
    if wanted.magnitude > LONGEST_NM:
        with pytest.raises(BadValue, match="Check the unit"):
            parse_length(typed)
    else:
        assert parse_length(typed).nm == wanted.magnitude


@given(st.text(max_size=60), st.booleans(), st.booleans())
def test_random_text_is_read_or_refused(text: str, metric: bool, signed: bool) -> None:
    try:
        found = parse_length(text, metric, signed=signed)
    except BadValue as error:
        assert str(error)  # noqa: PT017 - the sentence is what is asserted
    else:
        assert abs(found.nm) <= LONGEST_NM


@given(st.text("0123456789 .,/-'\"½incmft~", max_size=16), st.booleans())
def test_text_that_looks_like_a_length_is_read_or_refused(text: str, metric: bool) -> None:
    try:
        found = parse_length(text, metric)
    except BadValue:
        return
    assert 0 <= found.nm <= LONGEST_NM
    assert parse_length(exact_length(found, metric), metric) == found


@given(ANY_NM, ANY_NM)
def test_sums_and_order_follow_the_numbers(one: int, other: int) -> None:
    a, b = Length(one), Length(other, metric=True)
    assert (a + b).nm == one + other
    assert (a - b).nm == one - other
    assert (-a).nm == -one
    assert (a < b, a <= b, a == b) == (one < other, one <= other, one == other)
    assert a != one
    assert hash(Length(one, metric=True)) == hash(a)


def test_from_numbers() -> None:
    assert inches(75.5).nm == _in("151/2")
    assert millimetres(1917.7) == Length(1_917_700_000, metric=True)
    assert Length(_in("151/2")).inches == 75.5
    assert Length(1_917_700_000).mm == 1917.7
    assert repr(Length(_in("151/2"))) == "Length('75 1/2 in')"
