"""What holds, breathes and shines, at both sides of each limit: a job just within all of them, and one just past.

The sizes are worked out beside them, by the formulas of the printed sources and not by the program's own functions.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tui.cli.main import main

JOB = Path(__file__).parents[2] / "jobs" / "limits.toml"
BEHIND = 'wall = "W2"\nx = "130 in"\ny = "80 in"\nface = "behind"'

LIMITS: dict[str, tuple[str, str, str, str]] = {
    # MDF 11-1/4 x 3/4 in: E 0.52e6 psi, I 0.3955 in4, creep 2, books 20 lb/ft: L³ = 384 E I / (5 w 2 n): with n = 600
    # L = 19.91 in, behind a door with n = 360 23.61 in. The sides take 1-1/2 in.
    "shelf": ("21-3/8 in", "21-1/2 in", "shelf_sags", "N1"),
    "hidden_shelf": ("25 in", "25-1/4 in", "shelf_sags", "N2"),
    # 36 in² low and high, 3 ft apart: 115.1 W at 20 °F (ASHRAE Fundamentals, from 75 °F), 74.8 W at 15 °F.
    "draft_w": ("73.0", "77.0", "cabinet_too_warm", "N3"),
    # Its curve meets 8 in² twice at 24.4 cfm: at 15 °F 1.08 x 24.4 x 15 / 3.412 = 115.9 W.
    "fan_w": ("115.0", "117.0", "cabinet_too_warm", "N4"),
    # 17 in and 17 in side by side.
    "stack": ("36 in", "33 in", "gear_stacked", "N5"),
    "vent": ("40.0", "0.0", "cabinet_shut_in", "N8"),
    # VESA FDMI: 250 lb at most in class F; a 30 in set is of class E, 200 x 100 mm.
    "tv_weight": ("250 lb", "251 lb", "mounting_unusual", "E5"),
    "holes": ("200x100", "200x200", "mounting_unusual", "E16"),
    # Our own line of 20 lb on board alone.
    "picture": ("19.9 lb", "20 lb", "board_alone", "X2"),
    # 10 lb, 1 in out, 10 in over the edge, two anchors: pull 0.5 lb, down 5 lb, 5.025 lb in all.
    "anchor": ("5.1 lb", "5 lb", "fixing_too_weak", "X3"),
    # 16.4 ft x 4.4 W/ft = 72.16 W, over 0.8 = 90.2 W.
    "rating": ("90.3", "90.1", "driver_headroom", "E9"),
    # 0.8 x 96 W at 24 V, one output.
    "panel_w": ("76.8", "76.9", "class_2_output", "E11"),
    # 2 L 6.385 / 1000 x 3.2 A = 3 % of 24 V at 17.6 ft.
    "wire": ("17 ft", "18 ft", "light_wire_thin", "K1"),
    "run": ("32 ft", "385 in", "tape_too_long", "E13"),
    # 44 W / 24 V x 10 ft x ohm / 2 = 5 % of 24 V at 0.1309 ohm/ft.
    "ohm": ("0.13", "0.132", "tape_end_dim", "E14"),
    "dimmer": ("phase", "0-10 V", "dimmer_mismatch", "E9"),
    "driver_place": ('opening = "N5"', BEHIND, "thing_without_way", "E9"),
    "switched": ("none", "all", "always_on_is_switched", "E12"),
    # Underside at 49 in, 9 in out, lip 1 in before it; an eye at 42 in and 120 in out: 7 / 111.
    "lip": ("0.064 in", "0.062 in", "light_glares", "E8"),
    # Hinge charts end at 2400 mm: 94.49 in, and the door is 1/8 in lower than its box.
    "door_high": ("94-1/2 in", "94-3/4 in", "door_too_heavy", "N6"),
    "drawer": ("14 in", "9 in", "drawer_too_shallow", "N7"),
    "tall": ("29 in", "30 in", "cabinet_tips", "N9"),
}  # fmt: skip
"""By blank of the file: within, past, the rule that tells, and the tag that it tells of."""
# Round a corner from 5 ft into a door of 3 ft goes 131 in; from 37 in 100 in: (35^(2/3) + 36^(2/3))^(3/2).
HALLWAY = ("60 in", "37 in")


def job_with(side: int, folder: Path) -> Path:
    """The job with all blanks on one side, made by the command."""
    text = JOB.read_text(encoding="utf-8").replace("{hallway}", HALLWAY[side]).replace("{door}", "36 in")
    text = text.replace("{tape}", "16.4 ft").replace("{tv_depth}", "3 in")
    for blank, sides in LIMITS.items():
        text = text.replace(f"{{{blank}}}", sides[side])
    starter, job = folder / f"limits{side}.toml", folder / f"limits{side}.json"
    starter.write_text(text, encoding="utf-8")
    assert main(["new", str(job), "--starter", str(starter)]) == 0
    return job


@pytest.fixture
def asked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> list[tuple[set[tuple[str, str]], dict[str, Any]]]:
    """What `status --json` tells and `figures --json` says, within and past."""
    found = []
    for side in (0, 1):
        job = job_with(side, tmp_path)
        capsys.readouterr()
        assert main(["status", str(job), "--json"]) == 0
        told = {(one["rule"], tag) for one in json.loads(capsys.readouterr().out)["findings"] for tag in one["tags"]}
        assert main(["figures", str(job), "--json"]) == 0
        found.append((told, json.loads(capsys.readouterr().out)))
    return found


def test_each_limit_tells_past_it_and_is_quiet_within_it(asked: Any) -> None:
    (within, inside), (past, outside) = asked
    each = {(rule, tag) for _, _, rule, tag in LIMITS.values()}
    assert each & within == set()
    assert each - past == set()

    for tag in ("N1", "N2"):
        assert inside[tag]["sag_mm"] <= inside[tag]["limit_mm"]
        assert outside[tag]["sag_mm"] > outside[tag]["limit_mm"]
    assert inside["N1"]["sag_mm"] == pytest.approx(_sag_mm(19.875), rel=1e-3)
    assert inside["N1"]["limit_mm"] == pytest.approx(19.875 * 25.4 / 600, rel=1e-5)
    assert inside["X3"]["needed_n"] == pytest.approx((0.5**2 + 5**2) ** 0.5 * 4.448222, abs=0.01)
    assert inside["X3"]["allowed_n"] > inside["X3"]["needed_n"]
    assert outside["X3"]["allowed_n"] < outside["X3"]["needed_n"]
    # 60 lb of the handbook scaled: 250 lb 1.5 in out, rows 8 in apart, two and four screws.
    assert inside["X1"]["needed_n"] == pytest.approx(((250 * 1.5 / 8 / 2) ** 2 + 62.5**2) ** 0.5 * 4.448222, rel=1e-3)
    assert (inside["N3"]["watts"], inside["N4"]["watts"]) == (73, 115)
    assert inside["N3"]["air_needed_cfm"] == pytest.approx(3.159 * 73 / 10, rel=1e-3)
    assert inside["N4"]["rise_c"] == pytest.approx(1.755 * 115 / 24.4, rel=2e-3)
    assert inside["N4"]["rise_c"] < 15 / 1.8 < outside["N4"]["rise_c"]
    assert inside["N3"]["rise_c"] < 15 / 1.8 < outside["N3"]["rise_c"]
    assert inside["E9"]["driver_w"] == 90.2
    assert inside["E10"]["drop_pct"] == pytest.approx(2 * 17 * 6.385 / 1000 * 76.8 / 24 / 24 * 100, rel=2e-3)
    assert inside["E10"]["drop_pct"] < 3 < outside["E10"]["drop_pct"]
    assert "longest sheet 10' 11\"" in inside["W1"]["board_lines"][1]
    assert "longest sheet 8' 4\"" in outside["W1"]["board_lines"][1]


@pytest.mark.parametrize(("typed", "why"), [("0 in", "must be more than zero"), ("-3/4 in", "less than zero")])
def test_a_thickness_of_nothing_or_less_is_refused_with_its_entry(
    typed: str, why: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    starter = tmp_path / "thin.toml"
    wall = '[job]\nname = "Thin"\n[[wall]]\ntag = "W1"\nname = "Wall"\n'
    thin = f'[[opening]]\nname = "Shelf"\nwall = "W1"\nthickness = "{typed}"\n'
    starter.write_text(wall + thin, encoding="utf-8")
    assert main(["new", str(tmp_path / "thin.json"), "--starter", str(starter)]) == 6
    said = capsys.readouterr().err
    assert "[[opening]] entry 1, field `thickness`" in said
    assert why in said
    assert not (tmp_path / "thin.json").exists()


def _sag_mm(span: float) -> float:
    return 5 * (20 / 12) * span**4 / (384 * 0.52e6 * (11.25 * 0.75**3 / 12)) * 2 * 25.4
