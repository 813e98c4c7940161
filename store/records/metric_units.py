"""Numbers that are kept in US units, as a metric job types and shows them.

Kept is always the unit of the field, so that files and csv are the same in every job; only a bare number that is typed
into a form, and what is shown, is in the metric unit.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from store.measure.numbers import parse_number, show_number


class Metric(NamedTuple):
    """A metric unit: kept = (shown - offset) / factor, rounded to so many decimals."""

    unit: str
    factor: float
    offset: float
    decimals: int


METRIC: dict[str, Metric] = {
    "°F": Metric("°C", 1 / 1.8, -32 / 1.8, 1),
    "in²": Metric("cm²", 6.4516, 0.0, 2),
    "ft²": Metric("m²", 0.09290304, 0.0, 2),
    "lb/ft²": Metric("kg/m²", 4.882428, 0.0, 3),
    "cfm": Metric("m³/h", 1.699011, 0.0, 2),
    "inH2O": Metric("Pa", 249.0889, 0.0, 4),
    "W/ft": Metric("W/m", 1 / 0.3048, 0.0, 3),
    "ohm/ft": Metric("ohm/m", 1 / 0.3048, 0.0, 5),
    "per ft": Metric("per m", 1 / 0.3048, 0.0, 3),
}
"""By the unit of the field: NIST SP 811 (2008), appendix B.8; the decimals are more than any data sheet gives."""
_BARE = re.compile(r"-?[\d.,  ]+", re.ASCII)


def unit_in(unit: str, metric: bool) -> str:
    """The unit in which a number of that unit is typed and shown."""
    return METRIC[unit].unit if metric and unit in METRIC else unit


def read_in(text: str, unit: str, metric: bool) -> float:
    """A typed number in the field's own unit; a bare one is in the unit of the job. Raises BadValue."""
    if metric and unit in METRIC:
        one, plain = METRIC[unit], text.strip()
        if plain.endswith(one.unit) or _BARE.fullmatch(plain):
            shown = parse_number(plain.removesuffix(one.unit).strip())
            return round((shown - one.offset) / one.factor, one.decimals)
    return parse_number(text, unit)


def shown_in(value: float, unit: str, metric: bool) -> float:
    """A kept number as it is shown: in a metric job in the metric unit, to two decimals."""
    if not (metric and unit in METRIC):
        return value
    one = METRIC[unit]
    return round(value * one.factor + one.offset, 4 if one.decimals > 4 else 2)


def edited_in(value: float, unit: str, metric: bool) -> str:
    """The text for a form that reads back as the very same number: the shortest metric one, else with its own unit."""
    if not (metric and unit in METRIC):
        return show_number(value)
    one = METRIC[unit]
    for places in range(4):
        text = show_number(round(value * one.factor + one.offset, places))
        if not text.startswith("-") and read_in(text, unit, True) == value:
            return text
    return f"{show_number(value)} {unit}"


def own_unit(text: str, unit: str) -> str:
    """A bare number of a file with the unit of its field, which it is kept in whatever the job is in."""
    return f"{text} {unit}" if unit in METRIC and _BARE.fullmatch(text.strip()) and text.strip() else text


_EXAMPLES = (
    ("blank = 12 ft", "blank = 3600 mm"),
    ("like cat6 box 18 in, speaker device 5 ft", "like cat6 box 450 mm, speaker device 1500 mm"),
    ("like hdmi 2-1/4, cat6 1-1/2", "like hdmi 57, cat6 38"),
    ("like hdmi 2 1/4, cat6 1 1/2", "like hdmi 57, cat6 38"),
    ("blank = 24 in,", "blank = 600 mm,"),
    ("like 30-1/2, 2 x 64 (a double)", "like 775, 2 x 1625 (a double)"),
    ("like 0/0, 12'/1/2", "like 0/0, 3600/12"),
    ("like 0/8', 6'/8', 12'/5'", "like 0/2400, 1800/2400, 3600/1500"),
    ('at 48"', "at 1200"),
    ("blank = 3/4 in", "blank = 18 mm"),
    ("like 65 lb", "like 29.5 kg"),
    ("copper, AWG, like 12", "copper, like 2.5 mm2"),
    ("like cat6, rg6, hdmi, speaker-14-2, nm-12-2", "like cat6, rg6, hdmi, speaker-2x1.5, 2.5 mm2 twin and earth"),
    ("""4'/2'-6" on its first wall, W2 1'/3',""", "1200/750 on its first wall, W2 300/900,"),
    ("like 250 ft 49.90; on hand: 60 ft owned", "like 100 m 49.90; on hand: 20 m owned"),
    ("like CL2, CMR, NM-B", "like Eca or Dca"),
    ("like 48, 64", "like 1200, 1600"),
    ("like 6/10, 8/12", "like 150/250, 200/300"),
    ("like 120 or 240", "like 230"),
    ("yes = AFCI breaker or outlet", "yes = an AFDD protects it"),
    ("yes = GFCI breaker or outlet", "yes = an RCD or RCBO protects it"),
    ("as on the electrical panel's directory", "as on the chart at the consumer unit"),
    ("like 12-2 G (with a ground), 3 x 12, K4", "like 3 x 2.5 mm2, K4"),
)
"""Examples and defaults of a hint, in feet and inches and in millimeters."""


def example_in(text: str, metric: bool) -> str:
    """A hint with the examples of the job's units."""
    if metric:
        for us, other in _EXAMPLES:
            text = text.replace(us, other)
    return text
