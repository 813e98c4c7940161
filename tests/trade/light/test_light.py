"""Tape, drivers and what an eye sees: laws, the mirror by reflected points, and refusals."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from math import atan2

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import FOOT_NM, INCH_NM
from store.trade.light import driver, tape
from store.trade.light.sight import Eye, Lamp, mirrored_at, past_lip
from tests.rows import rows

FEET = st.integers(1, 60)


@given(FEET, st.floats(0.5, 10), st.sampled_from([12, 24]), st.floats(0, 5))
def test_the_drop_along_tape_is_that_of_many_small_lamps(feet: int, per_ft: float, volts: float, ohm: float) -> None:
    drawn = tape.draw(feet * FOOT_NM, per_ft, volts)
    parts = 400
    # Each small piece carries what is still drawn beyond it.
    fed_once = sum(ohm / parts * drawn.amps * (parts - at - 0.5) / parts for at in range(parts))
    assert tape.tape_drop(drawn, volts, ohm).volts == pytest.approx(fed_once, abs=1e-9)
    half = sum(ohm / parts * drawn.amps * (parts / 2 - at - 0.5) / parts for at in range(parts // 2))
    assert tape.tape_drop(drawn, volts, ohm, "middle").volts == pytest.approx(half, abs=1e-9)
    assert tape.tape_drop(drawn, volts, ohm, "both ends") == tape.tape_drop(drawn, volts, ohm, "middle")


@given(st.floats(1, 200), FEET, st.sampled_from(sorted(tape.OHM_PER_KFT)))
def test_doubling_the_volts_quarters_the_drop_in_percent(watts: float, feet: int, gauge: int) -> None:
    at_12 = tape.feeder_drop(watts / 12, 12, feet * FOOT_NM, gauge).percent
    at_24 = tape.feeder_drop(watts / 24, 24, feet * FOOT_NM, gauge).percent
    assert at_12 == pytest.approx(4 * at_24)


@given(st.floats(1, 200), st.sampled_from([12, 24]), st.sampled_from(sorted(tape.OHM_PER_KFT)))
def test_the_longest_feeder_just_keeps_its_limit(watts: float, volts: float, gauge: int) -> None:
    longest = tape.longest_feeder_nm(watts, volts, gauge)
    assert tape.feeder_drop(watts / volts, volts, longest, gauge).percent == pytest.approx(3, rel=1e-6)
    found = tape.gauge_for(watts / volts, volts, longest, 3)
    assert found is not None
    assert found >= gauge


def test_gauges_follow_their_geometry() -> None:
    ohms = [tape.OHM_PER_KFT[gauge] for gauge in (22, 20, 18, 16, 14, 12)]
    # AWG: one step is a factor of 92^(1/39) in diameter, so two are its fourth power in area.
    for thin, thick in pairwise(ohms):
        assert thin / thick == pytest.approx(92 ** (4 / 39), rel=0.002)


def test_runs_are_doubled_by_feeding_in_the_middle_and_makers_win() -> None:
    assert tape.longest_run_nm(12, "one end") == 16 * FOOT_NM
    assert tape.longest_run_nm(24, "middle") == 64 * FOOT_NM
    assert tape.longest_run_nm(24, "both ends", 20 * FOOT_NM) == 40 * FOOT_NM
    assert tape.longest_run_nm(5, "one end") is None
    assert tape.gauge_for(20, 12, 60 * FOOT_NM) is None


@rows(("load", "size", "outputs"), [(76.8, 96, 1), (76.9, 100, 2), (153.6, 200, 2), (250, None, 4)])
def test_drivers_keep_headroom_and_class_2(load: float, size: int | None, outputs: int) -> None:
    found = driver.wanted(load, 24)
    assert (found.size_w, found.outputs) == (size, outputs)
    assert driver.most_load_w(found.watts) == pytest.approx(load)


@rows(
    ("dimmer", "made_for", "works"),
    [
        ("phase", "phase", True), ("phase", "0-10 V", False), ("none", "0-10 V", True),
        ("unknown", "phase", None), ("phase", "none", False), ("radio", "unknown", None),
    ],
)  # fmt: skip
def test_a_dimmer_works_its_own_kind_of_driver(dimmer: driver.Dims, made_for: driver.Dims, works: bool | None) -> None:
    assert driver.go_together(dimmer, made_for) is works


@given(*(st.integers(1, 300) for _ in range(4)), st.integers(-100, 300), st.integers(-100, 300))
def test_the_mirror_image_is_where_the_line_to_the_lamp_behind_the_glass_meets_it(
    eye_up: int, eye_out: int, lamp_up: int, lamp_out: int, eye_x: int, lamp_x: int
) -> None:
    # The lamp seen in a mirror is as far behind it: the line from the eye to there crosses the glass at this share.
    share = eye_out / (eye_out + lamp_out)
    across, up = mirrored_at(
        Eye(eye_up * INCH_NM, eye_out * INCH_NM, eye_x * INCH_NM),
        Lamp(lamp_up * INCH_NM, lamp_out * INCH_NM, lamp_x * INCH_NM),
    )
    assert up / INCH_NM == pytest.approx(eye_up + share * (lamp_up - eye_up), abs=1e-6)
    assert across / INCH_NM == pytest.approx(eye_x + share * (lamp_x - eye_x), abs=1e-6)


@given(st.integers(20, 80), st.integers(20, 200), st.integers(20, 90), st.integers(0, 10), st.integers(1, 10))
def test_an_eye_sees_a_source_when_its_line_clears_the_lip(
    eye_up: int, out: int, up: int, lip: int, behind: int
) -> None:
    look = past_lip(Eye(eye_up * INCH_NM, out * INCH_NM), Lamp(up * INCH_NM, 0), lip * INCH_NM, behind * INCH_NM)
    # The line from the source to the eye has come this far towards the eye's level when it passes the lip.
    assert look.seen is (atan2(abs(up - eye_up), out) > atan2(lip, behind) + 1e-15)


@rows(
    "refused",
    [
        lambda: tape.draw(0, 1, 12),
        lambda: tape.feeder_drop(1, 0, 1, 18),
        lambda: tape.tape_drop(tape.Draw(1, 1), 12, -1),
        lambda: tape.longest_feeder_nm(0, 12, 18),
        lambda: driver.wanted(0, 12),
        lambda: driver.most_load_w(-1),
        lambda: past_lip(Eye(1, 0), Lamp(1, 0), 0, 0),
        lambda: mirrored_at(Eye(1, 0), Lamp(1, 1)),
    ],
)
def test_lights_that_cannot_be_are_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"above 0|at least 0|in front"):
        refused()
