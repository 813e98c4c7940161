"""Shelves, screws, framing, board and light against printed figures; each table names where its figures come from."""

from __future__ import annotations

import pytest

from store.measure.length import FOOT_NM, INCH_NM
from store.trade.build import bracket, screws
from store.trade.build.finish import HANDBOOK, drying_hours, sundries
from store.trade.build.section import Strip, cleat_share, stiffness_with_strips_in4
from store.trade.build.takeoff import Hole, frame
from store.trade.fit.shelf import even_load_lbf, sag_nm, stiffness_in4
from store.trade.heat import fans
from store.trade.light import driver, tape
from store.trade.light.sight import Eye, Lamp, mirrored_at, mirrored_in, past_lip
from store.trade.measured.framing import studs
from store.trade.measured.plane import Rect
from tests.rows import rows


def inches(number: float) -> int:
    return round(number * INCH_NM)


# Roark's Formulas, rectangular plates case 2a, three edges supported and one free, even load: sag at the middle of the
# free edge = α q L⁴ / (E t³), by depth / L; a beam has 5/32.
@rows(("ratio", "alpha"), [(0.5, 0.08), (0.667, 0.106), (1, 0.14), (1.5, 0.16), (2, 0.165), (4, 0.167)])
def test_a_sheet_on_three_cleats(ratio: float, alpha: float) -> None:
    assert cleat_share(round(ratio * 10**9), 10**9) * 5 / 32 == pytest.approx(alpha, rel=0.035)


# Lévy's series, Poisson's ratio 0.3, computed independently: share of the sag of a beam.
@rows(("ratio", "share"), [(0.25, 0.172), (1 / 3, 0.279), (0.4, 0.368), (0.5, 0.496), (2 / 3, 0.676), (1, 0.898)])
def test_the_series_of_the_plate(ratio: float, share: float) -> None:
    assert cleat_share(round(ratio * 10**9), 10**9) == pytest.approx(share, abs=0.0006)


def test_mdf_on_three_cleats_and_with_an_oak_edge() -> None:
    """MDF 36 x 12 x 3/4 in, 25 lb/ft: 0.2077 in as a beam, 0.058 on three cleats; 11-1/4 deep with an oak strip 3/4 x
    1-1/2: I 1.5113, 0.2215 becomes 0.0580 in (computed from Wood Handbook figures)."""
    load = even_load_lbf(inches(36), 25)
    bare = sag_nm(inches(36), stiffness_in4(inches(12), inches(0.75)), 0.52e6, load) / INCH_NM
    assert bare == pytest.approx(0.2077, abs=0.0001)
    assert bare * cleat_share(inches(12), inches(36)) == pytest.approx(0.058, abs=0.0005)
    stiff = stiffness_with_strips_in4(inches(11.25), inches(0.75), [Strip(inches(0.75), inches(1.5), 1.82 / 0.52)])
    assert stiff == pytest.approx(1.5113, abs=0.0001)
    assert sag_nm(inches(36), stiff, 0.52e6, load) / INCH_NM == pytest.approx(0.0580, abs=0.0001)
    same = stiffness_with_strips_in4(inches(11.25), inches(0.75), [Strip(inches(0.75), inches(1.5))])
    assert same == pytest.approx(0.7460, abs=0.0001)
    assert sag_nm(inches(36), same, 1.82e6, load) / INCH_NM == pytest.approx(0.0336, abs=0.0001)


# NDS Table 12.2A (secondary copy): allowable withdrawal of lag screws, lb per inch of thread, side grain.
LAG_INCHES = (1 / 4, 5 / 16, 3 / 8, 7 / 16, 1 / 2, 5 / 8, 3 / 4)
LAG_TABLE = {
    0.55: (260, 307, 352, 395, 437, 516, 592),
    0.50: (225, 266, 305, 342, 378, 447, 513),
    0.49: (218, 258, 296, 332, 367, 434, 498),
    0.46: (None, 235, 269, 302, 334, 395, 453),
    0.43: (None, 212, 243, 273, 302, 357, 409),
    0.42: (173, 205, 235, 264, 291, 344, 395),
}


@rows("gravity", LAG_TABLE)
def test_lag_screw_withdrawal_rounds_to_every_printed_cell(gravity: float) -> None:
    for diameter, printed in zip(LAG_INCHES, LAG_TABLE[gravity], strict=True):
        if printed is not None:
            assert round(screws.lag_withdrawal(gravity, diameter)) == printed


# NDS 12.2.2: lb per inch for G 0.42 and 0.50 by the printed formula; G 0.45, No. 10 printed as 109 (cut short).
@rows(
    ("gravity", "diameter", "printed"),
    [
        (0.42, 0.138, 69.4), (0.42, 0.164, 82.5), (0.42, 0.190, 95.5), (0.42, 0.216, 108.6), (0.42, 0.242, 121.7),
        (0.50, 0.138, 98.3), (0.50, 0.164, 116.9), (0.50, 0.190, 135.4), (0.50, 0.216, 153.9), (0.50, 0.242, 172.4),
        (0.45, 0.190, 109.65),
    ],
)  # fmt: skip
def test_wood_screw_withdrawal(gravity: float, diameter: float, printed: float) -> None:
    assert screws.wood_screw_withdrawal(gravity, diameter) == pytest.approx(printed, abs=0.051)


# NDS Table 12K (secondary copy), 14 gauge steel plate, penetration 8 D: along / across the grain, rounded to 10 lb.
@rows(
    ("gravity", "along", "across"),
    [
        (0.55, (160, 200, 200), (120, 140, 140)),
        (0.50, (150, 190, 200), (110, 130, 130)),
        (0.42, (140, 180, 180), (100, 120, 120)),
    ],
)
def test_lag_screws_sideways_in_steel_plate(gravity: float, along: tuple[int, ...], across: tuple[int, ...]) -> None:
    for name, with_grain, over_grain in zip(("lag 1/4", "lag 5/16", "lag 3/8"), along, across, strict=True):
        one = screws.SCREWS[name]
        for printed, turned in ((with_grain, False), (over_grain, True)):
            found = screws.lateral(one, gravity, 8 * one.shank_in, 0.075, screws.STEEL_FE_PSI, turned)
            assert round(found, -1) == printed


# The same yield equations worked independently for screws in wood, penetration 10 D, side pieces 1/2, 3/4, 1-1/2 in.
@rows(
    ("name", "gravity", "sides"),
    [
        ("wood screw 8", 0.42, (59, 69, 78)), ("wood screw 10", 0.42, (74, 84, 100)),
        ("wood screw 12", 0.42, (91, 100, 125)), ("wood screw 14", 0.42, (99, 108, 138)),
        ("wood screw 8", 0.50, (73, 88, 92)), ("wood screw 10", 0.50, (90, 106, 117)),
        ("wood screw 12", 0.50, (110, 126, 147)), ("wood screw 14", 0.50, (119, 135, 162)),
    ],
)  # fmt: skip
def test_wood_screws_sideways_in_wood(name: str, gravity: float, sides: tuple[int, ...]) -> None:
    one = screws.SCREWS[name]
    found = [screws.lateral(one, gravity, 10 * one.shank_in, side) for side in (0.5, 0.75, 1.5)]
    assert found == pytest.approx(sides, abs=0.6)


# A steel-stud table printed in a city file, allowable lb, shear / pull-out, screws 6, 8, 10, 12.
@pytest.mark.parametrize(
    ("stud", "shear", "pull"), [("18 mil", (44, 48, 52, 55), (24, 29, 33, 38)), ("27 mil", (82, 89, 96), (37, 43, 50))]
)
def test_screws_in_steel_studs(stud: str, shear: tuple[int, ...], pull: tuple[int, ...]) -> None:
    names = list(screws.STEEL_SCREW_IN)[: len(shear)]
    found = [screws.in_steel(name, stud) for name in names]
    assert [round(one.shear_lbf) for one in found] == list(shear)
    assert [one.pull_lbf for one in found] == pytest.approx(pull, abs=0.6)


def test_hanging_examples() -> None:
    """5/16 x 3 lag, 1/2 board and 1/8 plate, thread 2 in less the tip, SPF: 371 lb; four with 2 in: 1638 lb. Swing arm:
    60 lb at 22 in and the arm of 20 lb at 10 in, rows 8 in apart: top row 190 lb, 95 a bolt; on No. 8 screws in 18 mil
    steel it takes more than six."""
    thread = screws.thread_in_wood(3, 3 / 16, 5 / 8, 2)
    assert thread == 1.8125
    assert screws.in_wood("lag 5/16", 0.42, thread, 0.125, 87_000).pull_lbf == pytest.approx(371, abs=0.5)
    assert 4 * screws.in_wood("lag 5/16", 0.42, 2, 0.125, 87_000).pull_lbf == pytest.approx(1638, abs=0.5)
    hung = [bracket.Hung(60, 22), bracket.Hung(20, 10)]
    load = bracket.hardest(hung, 8, 2, 4)
    assert (load.pull_lbf, load.shear_lbf) == (95, 20)
    assert bracket.hardest(hung, 8, 1, 1).pull_lbf / screws.in_steel("steel screw 8", "18 mil").pull_lbf > 6
    assert bracket.hardest([bracket.Hung(60, 20)], 8, 2, 4).pull_lbf == 75


# Counts of the carpentry texts, ceil(L / s) + 1, for walls of 96, 120, 144, 150 and 168 in.
@rows(("wide", "at_16", "at_24"), [(96, 7, 5), (120, 9, 6), (144, 10, 7), (150, 11, 8), (168, 12, 8)])
def test_studs_in_a_straight_wall(wide: int, at_16: int, at_24: int) -> None:
    for spacing, count in ((16, at_16), (24, at_24)):
        assert len(studs(wide * INCH_NM, spacing * INCH_NM, spacing * INCH_NM)) == count
        made = frame(wide * INCH_NM, 97 * INCH_NM, spacing * INCH_NM, spacing * INCH_NM)
        assert sum(one.part == "stud" for one in made.sticks) == count


def test_a_wall_of_ten_feet_with_a_window() -> None:
    """120 in, studs at 16, opening 39 to 81: 6 commons, 2 kings, 2 trimmers, 3 cripples above, header 45 (worked from
    the rules of the carpentry texts)."""
    hole = Hole("N1", Rect(inches(39), inches(36), inches(42), inches(36)), inches(5.5))
    made = frame(inches(120), inches(97.125), inches(16), inches(16), [hole], bearing=True)
    count = {part: sum(one.part == part for one in made.sticks) for part in ("stud", "king stud", "trimmer", "header")}
    assert count == {"stud": 6, "king stud": 2, "trimmer": 2, "header": 2}
    above = [one for one in made.sticks if one.part == "cripple" and one.y_nm > inches(72)]
    assert [one.x_nm for one in above] == [inches(each) - inches(0.75) for each in (48, 64, 80)]
    assert {one.length_nm for one in made.sticks if one.part == "header"} == {inches(45)}


def test_what_goes_on_320_square_feet_of_board() -> None:
    """Rates of a handbook by 1,000 square feet: 3.01 gal, 118.4 ft of tape, 320 screws, 272 with studs at 24 in."""
    area = 320 * FOOT_NM**2
    found = sundries(area, 0, 0, inches(16), HANDBOOK)
    assert (found.screws, found.tape_ft, found.compound_gal) == (320, 119, 3.01)
    assert sundries(area, 0, 0, inches(24), HANDBOOK).screws == 272


# Drying of one coat at 50 % humidity: 48, 24, 12 h at 40, 60, 80 °F; at 80 %: 54 and 27 h at 60 and 80 °F.
@rows(("humid", "warm", "hours"), [(50, 40, 48), (50, 60, 24), (50, 80, 12), (80, 60, 54), (80, 80, 27)])
def test_drying(humid: float, warm: float, hours: float) -> None:
    assert drying_hours(humid, warm) == hours


def test_a_reel_of_tape_and_its_driver() -> None:
    """16.4 ft at 4.4 W/ft: 72.16 W, 90.2 W of driver, the 96 W size at 24 V; 132 W wants two Class 2 outputs."""
    drawn = tape.draw(round(16.4 * FOOT_NM), 4.4, 24)
    assert drawn.watts == pytest.approx(72.16)
    found = driver.wanted(drawn.watts, 24)
    assert found.watts == pytest.approx(90.2)
    assert (found.size_w, found.outputs) == (96, 1)
    assert driver.wanted(132, 24).outputs == 2


# Feeder of 20 ft one way with 48 W at its end: volts and percent at 12 V and at 24 V.
@rows(
    ("gauge", "at_12", "at_24"),
    [
        (18, (1.022, 8.51), (0.511, 2.13)),
        (16, (0.643, 5.35), (0.321, 1.34)),
        (14, (0.404, 3.37), (0.202, 0.84)),
    ],
)
def test_feeder_drop(gauge: int, at_12: tuple[float, float], at_24: tuple[float, float]) -> None:
    for volts, printed in ((12, at_12), (24, at_24)):
        found = tape.feeder_drop(48 / volts, volts, 20 * FOOT_NM, gauge)
        assert found == pytest.approx(printed, abs=0.006)


def test_feeder_limits() -> None:
    """48 W on 18 AWG within 3 %: 28.2 ft at 24 V, 7.05 ft at 12 V; 72.16 W, 15 ft: 0.576 V at 24 V, 1.152 V at 12 V."""
    assert tape.longest_feeder_nm(48, 24, 18) / FOOT_NM == pytest.approx(28.2, abs=0.05)
    assert tape.longest_feeder_nm(48, 12, 18) / FOOT_NM == pytest.approx(7.05, abs=0.01)
    assert tape.feeder_drop(72.16 / 24, 24, 15 * FOOT_NM, 18) == pytest.approx((0.576, 2.40), abs=0.001)
    assert tape.feeder_drop(72.16 / 12, 12, 15 * FOOT_NM, 18) == pytest.approx((1.152, 9.60), abs=0.005)


# Lip 1 in, source 3 in behind it, 60 in up; eye 42 in up: hidden from 96 in (10.62°), seen from 30 in (30.96°).
@pytest.mark.parametrize(("out", "angle", "seen"), [(96, 10.62, False), (30, 30.96, True)])
def test_a_lip_hides_a_source(out: float, angle: float, seen: bool) -> None:
    look = past_lip(Eye(inches(42), inches(out)), Lamp(inches(60), 0), inches(1), inches(3))
    assert look.eye_deg == pytest.approx(angle, abs=0.005)
    assert look.shield_deg == pytest.approx(18.43, abs=0.006)
    assert look.seen is seen


# 65 in picture centred 60 in up (44.07 to 75.94), eye 42 in up at 108: the mirror of a lamp 72 up at 120 is at 56.21,
# that of a downlight 95 up at 36 is at 81.75 and not in it.
@pytest.mark.parametrize(("up", "out", "at", "seen"), [(72, 120, 56.21, True), (95, 36, 81.75, False)])
def test_the_mirror_in_the_screen(up: float, out: float, at: float, seen: bool) -> None:
    eye, lamp = Eye(inches(42), inches(108)), Lamp(inches(up), inches(out))
    assert mirrored_at(eye, lamp)[1] / INCH_NM == pytest.approx(at, abs=0.006)
    assert mirrored_in(eye, lamp, Rect(inches(-28), inches(44.07), inches(56), inches(31.87))) is seen


def test_a_fan_at_its_working_point() -> None:
    """50 cfm free, 0.10 inH2O shut, a box of 0.05 at 30 cfm: 28.1 cfm at 0.0438; through 6 x 8 in at 60 %, 0.0034."""
    found = fans.working_point(50, 0.10, 0.05 / 30**2)
    assert found == pytest.approx((28.1, 0.0438), abs=0.05)
    assert found.inh2o == pytest.approx(0.0438, abs=0.0002)
    through = fans.resistance([0.6 * 48])
    assert through is not None
    assert through * 28.1**2 == pytest.approx(0.0034, abs=0.00005)


def test_fan_laws_and_free_areas() -> None:
    """80 % of the speed is -4.85 dB; 16 mesh of 0.011 wire 67.9 %; 1/8 on 3/16 staggered 40.3 %, 3/16 on 1/4 51.0 %."""
    assert fans.noise_at(30, 0.8) == pytest.approx(25.15, abs=0.005)
    assert fans.mesh_share(1 / 16 - 0.011, 1 / 16) == pytest.approx(0.679, abs=0.0005)
    assert fans.holes_share(1 / 8, 3 / 16) == pytest.approx(0.403, abs=0.0005)
    assert fans.holes_share(3 / 16, 1 / 4) == pytest.approx(0.510, abs=0.0005)
    assert fans.holes_share(1 / 8, 3 / 16, staggered=False) == pytest.approx(0.349, abs=0.0005)
