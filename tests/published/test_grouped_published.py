"""Cables that lie together, in insulation, of aluminum, and notched timber, against figures in print.

"Secondary copy" means the figure was read in a lesson or a summary that quotes the source, not in the code book.
"""

from __future__ import annotations

import pytest

from store.measure.length import INCH_NM
from store.trade.measured import framing
from store.trade.power import grouping, metals, voltage_drop
from store.trade.signal import links
from tests.rows import rows


@rows(
    ("gauge", "live", "amps", "breaker", "allowed"),
    [
        (14, 6, 15, 15, True),  # three 14/2 in a foamed hole: 80 % of 25 A is 20 A, capped at the 60 °C column
        (12, 8, 20, 20, True),  # four 12/2: 70 % of 30 A is 21 A, capped at 20 A
        (12, 10, 15, 20, False),  # five 12/2: 50 % of 30 A
        (14, 10, 12.5, 15, False),  # five 14/2: 50 % of 25 A, several receptacles
        (10, 8, 28, 30, False),  # four 10/2: 70 % of 40 A, several receptacles
    ],
)
def test_nm_cable_together(gauge: int, live: int, amps: float, breaker: float, allowed: bool) -> None:
    """NFPA 70 (2020) 334.80, Table 310.16 and Table 310.15(C)(1) (secondary copies; the last three worked here)."""
    assert grouping.grouped_ampacity_a(gauge, live) == pytest.approx(amps)
    assert grouping.grouped_breaker_ok(gauge, live, breaker, breaker, several=True) == allowed


def test_five_14_2_feed_one_fixed_load_within_what_they_carry() -> None:
    """NFPA 70 240.4(B): the next standard breaker up, for a circuit without several receptacles."""
    assert grouping.grouped_breaker_ok(14, 10, 15, 12.5, several=False)
    assert not grouping.grouped_breaker_ok(14, 10, 15, 12.6, several=False)


def test_12_awg_aluminum_over_50_ft() -> None:
    """NFPA 70 Chapter 9, Table 8, aluminum (secondary copy): 3.18 ohm/kft; 12.5 A, 50 ft one way: 3.975 V, 3.31 %."""
    lost = voltage_drop.two_wire_drop_v(12.5, 50, metals.aluminum_ohm_per_kft(12))
    assert lost == pytest.approx(3.975)
    assert lost / 120 * 100 == pytest.approx(3.3125)
    assert metals.aluminum_ohm_per_kft(14, stranded=True) == 5.17
    with pytest.raises(ValueError, match="not in the table"):
        metals.aluminum_ohm_per_kft(18)


@rows(
    ("insulation", "mm", "method", "amps"),
    [
        ("spray foam", 500, "102", 13.5),  # Table 52.2: half of method C, 27 A
        ("spray foam", 100, "C", 21.06),  # 0.78
        ("blown in", 50, "C", 23.76),  # 0.88
        ("batts", 3000, "C", 21),  # method 102
        ("batts", 3000, "103", 13.5),
    ],
)
def test_2_5_mm2_in_the_insulation_of_a_stud_wall(insulation: str, mm: int, method: str, amps: float) -> None:
    """BS 7671:2018 Table 4D5 (27, 21 and 13.5 A) and Table 52.2 (secondary copies)."""
    found = grouping.insulated_capacity_a(2.5, insulation, mm * 1_000_000, method)  # type: ignore[arg-type]
    assert found == pytest.approx(amps)


def test_a_size_that_is_not_listed_is_not_judged() -> None:
    """BS 7671 Table 4D5 goes from 1 to 10 mm² here."""
    assert grouping.insulated_capacity_a(16.0, "batts", 0, "C") is None


def test_notches_and_plates_of_a_two_by_four() -> None:
    """IRC R602.6 (2018): 25 % and 40 % of 3-1/2 in are 7/8 and 1.4 in; R602.6.1: over 50 % of a plate takes a tie."""
    depth = 7 * INCH_NM // 2
    assert framing.notch_limit(depth, True) == 7 * INCH_NM // 8
    assert framing.notch_limit(depth, False) == 14 * INCH_NM // 10
    assert framing.PLATE_TIE_PERCENT == 50


def test_holes_in_timber_that_carries_in_metric_practice() -> None:
    """On-Site Guide 7.3.1 (summary): a quarter of the depth: 195 mm take 48.75 mm, 89 mm take 22.25 mm."""
    assert framing.bore_limit(195_000_000, True, metric=True) == 48_750_000
    assert framing.bore_limit(89_000_000, None, metric=True) == 22_250_000
    assert framing.bore_limit(89_000_000, False, metric=True) == framing.bore_limit(89_000_000, False)


@rows(
    ("text", "rate", "metres"),
    [
        ("USB 2.0", 0.48, 5.0), ("USB 3.2 Gen 1", 5.0, 2.0), ("usb 3.0", 5.0, 2.0), ("USB-C 10 Gbit/s", 10.0, 1.0),
        ("USB 3.2 Gen 2", 10.0, 1.0), ("USB 3.2 Gen 2x2", 20.0, 1.0), ("USB4", 40.0, 0.8),
        ("HDMI 10 Gbit/s", None, None),
    ],
)  # fmt: skip
def test_usb_by_its_name(text: str, rate: float | None, metres: float | None) -> None:
    """A manufacturer's note that quotes USB-IF: 5 / 2 / 1 / 1 / 0.8 m at 480 M / 5 G / 10 G / 20 G / 40 G."""
    assert links.usb_gbit_s(text) == rate
    if rate is not None and metres is not None:
        assert links.usb_limit_nm(rate) == round(metres * 1_000_000_000)
