"""Rates of pictures and what cords carry, against printed figures."""

from __future__ import annotations

import pytest

from store.measure.length import FOOT_NM
from store.trade.cable.length import METRE_NM
from store.trade.signal.links import usb_limit_nm
from store.trade.signal.speaker import longest_run_nm
from store.trade.signal.video import format_gbit_s, frl_gbit_s, tmds_gbit_s, version_gbit_s
from tests.rows import rows


def test_rates_are_those_printed() -> None:
    # HDMI 2.0 and 2.1 as manufacturers' tables print them: TMDS 1080p60 4.455, 4K60 17.82;
    # FRL 4K60 10 bit 20.05, 12 bit 24.06.
    assert tmds_gbit_s(148.5) == pytest.approx(4.455)
    assert tmds_gbit_s(594) == pytest.approx(17.82)
    assert frl_gbit_s(594, 10) == pytest.approx(20.05, abs=0.005)
    assert frl_gbit_s(594, 12) == pytest.approx(24.06, abs=0.005)
    assert frl_gbit_s(1188, 10) == pytest.approx(40.10, abs=0.006)


@rows(
    ("text", "rate"),
    [
        ("1080p", 4.455), ("1080p60", 4.455), ("4K", 17.82), ("4K 30", 8.91), ("4K@60", 17.82), ("2160p60 HDR", 17.82),
        ("4K60 4:4:4 10 bit", 20.05), ("4K 120", 32.08), ("4K120 HDR", 40.10), ("4K 120 4:2:0", 17.82), ("8K 60", 48.0),
        ("UHD 60 Hz 4:2:0", 8.91), ("4k x 2k", 17.82),
    ],
)  # fmt: skip
def test_a_format_in_words_gives_its_rate(text: str, rate: float) -> None:
    # Half of 4K120 is 16.04 on a fixed-rate link; on TMDS, which a reader of 18 Gbit/s gear has, 17.82.
    assert format_gbit_s(text) == pytest.approx(rate, abs=0.006)


@rows("text", ["", "picture", "18 Gbit/s", "14K", "4 ohm", "1000 Mbit/s"])
def test_no_format_no_rate(text: str) -> None:
    assert format_gbit_s(text) is None


@rows(("text", "rate"), [("hdmi 2.0 in", 18.0), ("HDMI 2.1a out", 48.0), ("hdmi 1.4 in", 10.2)])
def test_the_version_of_a_port(text: str, rate: float) -> None:
    assert version_gbit_s(text) == rate
    assert version_gbit_s("hdmi 2 in") is None


@rows(("rate", "metres"), [(0.48, 5), (5, 2), (10, 1), (20, 1), (40, 0.8)])
def test_passive_usb_by_rate(rate: float, metres: float) -> None:
    # A manufacturer's note that quotes USB-IF: 5 m at 480 Mbit/s; 2, 1, 1 and 0.8 m above.
    assert usb_limit_nm(rate) == metres * METRE_NM


@rows(("awg", "feet"), [(18, 30.7), (16, 48.8), (14, 77.7), (12, 123.5)])
def test_stranded_speaker_cable(awg: int, feet: float) -> None:
    # ASTM B8, 2 % over solid: the longest run to 8 ohm by the 5 % rule.
    assert longest_run_nm(awg, 8, stranded=True) / FOOT_NM == pytest.approx(feet, abs=0.06)
