"""Numbers kept in US units are typed and shown in metric units in a metric job; files keep theirs, exactly."""

from __future__ import annotations

import re
from datetime import date

import pytest

from store.measure.errors import BadValue
from store.records.equipment import Equipment
from store.records.field import Field, Manner, fields_of
from store.records.job import Settings
from store.records.metric_units import METRIC, edited_in, read_in
from store.records.uses import hint
from store.records.wall import Opening, Wall, Zone
from store.records.whole import KINDS
from tests.rows import rows

US = Manner(date(2026, 12, 1))
METRIC_JOB = Manner(date(2026, 12, 1), metric=True, day_first=True)


def of(cls: type, key: str) -> Field:
    return next(each for each in fields_of(cls) if each.key == key)


@rows(("cls", "key", "typed", "kept", "shown"), [
    (Settings, "drying_f", "18", 64.4, "18 °C"), (Settings, "drying_f", "0", 32.0, "0 °C"),
    (Settings, "drying_f", "65 °F", 65.0, "18.33 °C"), (Opening, "air_in", "150", 23.25, "150 cm²"),
    (Opening, "air_in", "24 in2", 24.0, "154.84 cm²"), (Opening, "fan", "68", 40.02, "67.99 m³/h"),
    (Wall, "tile", "2.5", 26.91, "2.5 m²"), (Zone, "weight", "60", 12.289, "60 kg/m²"),
    (Opening, "fan_shut", "25", 0.1004, "25.01 Pa"),
])  # fmt: skip
def test_a_bare_number_is_metric_and_reads_back(cls: type, key: str, typed: str, kept: float, shown: str) -> None:
    """NIST SP 811, B.8: 1 in² is 6.4516 cm², 1 ft² 0.09290304 m², 1 ft³/min 1.699011 m³/h, 1 lb/ft² 4.882428 kg/m²."""
    field = of(cls, key)
    value = field.read(typed, METRIC_JOB)
    assert value == kept
    assert field.show(value, METRIC_JOB) == shown
    assert field.read(field.edit(value, METRIC_JOB), METRIC_JOB) == value
    assert METRIC[field.says.unit].unit in hint(field, METRIC_JOB)
    assert field.says.unit in hint(field, US)
    # A file and a US job keep the unit of the field.
    assert field.file(value, METRIC_JOB) == field.file(value, US) == field.edit(value, US)
    assert field.take(kept, METRIC_JOB) == kept


def test_every_number_reads_back_whatever_it_is() -> None:
    for unit in METRIC:
        for value in (0.0, 0.1, 1.0, 12.345678, 24.0, 65.0, 1 / 3, 1e6):
            rounded = round(value, 6)
            assert read_in(edited_in(rounded, unit, True), unit, True) == rounded, (unit, rounded)


def test_no_hint_of_a_metric_job_has_a_us_unit_in_it() -> None:
    """`rating` may be as printed; a picture's diagonal and a raceway's trade size are in inches everywhere."""
    in_inches = {"diagonal", "size"}
    for kind in KINDS.values():
        for field in fields_of(kind):
            if field.fits(METRIC_JOB) and field.key not in in_inches:
                words = hint(field, METRIC_JOB)
                assert not re.search(r"\d ?(?:in|ft|lb)\b|\d['\"]|\bAWG\b|°F|ft²|in²|cfm|inH2O|\d-\d/\d", words), words


def test_what_is_no_number_is_refused() -> None:
    with pytest.raises(BadValue, match="is not a number"):
        of(Opening, "fan").read("much", METRIC_JOB)


def test_a_picture_is_measured_in_inches_everywhere_unless_its_unit_is_told() -> None:
    diagonal = of(Equipment, "diagonal")
    for manner in (US, METRIC_JOB):
        read = {text: diagonal.read(text, manner) for text in ("65", '65"', "165.1 cm", "65 mm")}
        assert read["65"] == read['65"']
        assert read["65 mm"] != read["65"]
        assert diagonal.read(diagonal.edit(read["165.1 cm"], manner), manner) == read["165.1 cm"]
    assert diagonal.read("1651", METRIC_JOB).nm == 65 * 25_400_000, "too large for inches"
