"""Worked examples of power from print, each as a whole job: a TOML starter, opened and asked through `figures --json`.

"Secondary copy" means that the figure was read in a lesson or summary that quotes the source, not in the code book.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tui.cli.main import main

HEAD = '[job]\nname = "example"\nedition = "{edition}"\nregion = "{region}"\n'


def figures(
    folder: Path, capsys: pytest.CaptureFixture[str], body: str, edition: str = "2020", region: str = "us"
) -> dict[str, dict[str, Any]]:
    """What the command line prints for a job."""
    starter = folder / "example.toml"
    starter.write_text(HEAD.format(edition=edition, region=region) + body, "utf-8")
    job = folder / "example.json"
    assert main(["new", str(job), "--starter", str(starter)]) == 0
    capsys.readouterr()
    assert main(["figures", str(job), "--json"]) == 0
    found: dict[str, dict[str, Any]] = json.loads(capsys.readouterr().out)
    return found


BOXES = [
    # Exam lesson on 314.16 (secondary copy): two 12/2 with ground, clamps, a receptacle: 8 allowances, 18.0 in³.
    ('conductors = ["12-2 G", "12-2 G"]\nclamps = true\ndevices = ["receptacle 12"]', "2017", 18.0),
    ('conductors = ["12-2 G", "12-2 G"]\nclamps = true\ndevices = ["receptacle 12"]', "2020", 18.0),
    # The same source: six 12 AWG, a receptacle, clamps, no grounds: 20.25 in³.
    ('conductors = ["6 x 12"]\nclamps = true\ndevices = ["receptacle 12"]', "2020", 20.25),
    # Trade magazine (secondary copy): six 14 AWG, a switch and the grounds: 18 in³ in a box of 22.
    ('conductors = ["14-2 G", "14-2 G", "14-2 G"]\ndevices = ["switch 14"]', "2020", 18.0),
    # Code lesson on 314.16(B)(5), 2020 (secondary copy): five 14 and five 12 AWG grounds: 2.5 × 2.25 = 5.6 in³.
    ('conductors = ["5 x ground 14", "5 x ground 12"]', "2020", 5.625),
    ('conductors = ["5 x ground 14", "5 x ground 12"]', "2017", 2.25),
]


@pytest.mark.parametrize(("inside", "edition", "fill"), BOXES)
def test_box_fill(tmp_path: Path, capsys: pytest.CaptureFixture[str], inside: str, edition: str, fill: float) -> None:
    body = f'[[box]]\ntag = "B1"\nwhat = "receptacle"\nvolume = 22\n{inside}\n'
    box = figures(tmp_path, capsys, body, edition)["B1"]
    assert box["fill_in3"] == fill
    assert box["volume_in3"] == 22
    assert f"{fill:.2f}" in box["fill_lines"][-1]


WRITTEN = [
    # The first example of the lesson, in the ways in which people write it.
    'conductors = ["2 x 12/2 with ground"]\nclamps = "yes"\ndevices = ["receptacle"]',
    'conductors = ["12/2 NM", "12/2 NM"]\nclamps = true\ndevices = ["duplex receptacle 12 AWG"]',
    'conductors = ["12-2 G x 2"]\nclamps = true\ndevices = "receptacle #12"',
    'conductors = ["two 12-2 NM-B"]\nclamps = true\ndevices = ["1 receptacle 12"]',
    'conductors = ["4 x 12", "2 x ground 12"]\nclamps = true\ndevices = ["20 A receptacle 12"]',
    'conductors = ["12 hot", "12 neutral", "2 #12", "bare 12", "bare 12"]\nclamps = true\ndevices = ["receptacle 12"]',
    'conductors = ["nm-12-2", "nm-12-2"]\nclamps = true\ndevices = ["receptacle 5-20R 12"]',
]


@pytest.mark.parametrize("inside", WRITTEN)
def test_the_same_box_in_other_words(tmp_path: Path, capsys: pytest.CaptureFixture[str], inside: str) -> None:
    body = f'[[box]]\ntag = "B1"\nwhat = "receptacle"\nvolume = "22 in3"\n{inside}\n'
    box = figures(tmp_path, capsys, body)["B1"]
    assert (box["fill_in3"], box["volume_in3"]) == (18.0, 22.0)
    assert "missing" not in box


@pytest.mark.parametrize("size", ["4 x 1-1/2 square", "4x4x1.5", "4 in square, 1-1/2 in deep", "4 square 1 1/2"])
def test_a_standard_box_by_its_size(tmp_path: Path, capsys: pytest.CaptureFixture[str], size: str) -> None:
    """Table 314.16(A) (secondary copy): 4 × 1-1/2 square is 21.0 in³, though 4 × 4 × 1.5 is 24."""
    body = f'[[box]]\ntag = "B1"\nwhat = "junction"\nsize = "{size}"\nconductors = "7 x 14"\n'
    box = figures(tmp_path, capsys, body)["B1"]
    assert (box["fill_in3"], box["volume_in3"]) == (14.0, 21.0)


CONDUCTORS = ["12", "12 AWG", "#12", "12 AWG copper", "12/2", "12-2 NM-B", "nm-12-2", "12 solid"]


@pytest.mark.parametrize("conductor", CONDUCTORS)
def test_the_same_wire_in_other_words(tmp_path: Path, capsys: pytest.CaptureFixture[str], conductor: str) -> None:
    """12.5 A over 100 ft of 12 AWG solid: 4.825 V (Chapter 9, Table 8)."""
    values = f'breaker = "20 A"\nconductor = "{conductor}"\nlength = "100 ft"\nload = 1500'
    found = figures(tmp_path, capsys, circuit(values))["C1"]
    assert found["drop_v"] == pytest.approx(4.825)
    assert (found["limit_a"], found["connected_w"]) == (20, 1500)
    assert "missing" not in found


def test_what_is_missing_is_said_beside_what_can_be_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found = figures(tmp_path, capsys, circuit("breaker = 20\nload = 600"))
    assert (found["C1"]["design_a"], found["C1"]["limit_a"]) == (5, 20)
    assert found["C1"]["missing"] == ["conductor, like 12 (AWG) or 2.5 mm2"]
    assert len(found["B1"]["missing"]) == 3
    inner = tmp_path / "again"
    inner.mkdir()
    partial = figures(inner, capsys, circuit('conductor = "12"\nload = 600'))["C1"]
    assert [each.split(",")[0] for each in partial["missing"]] == ["breaker", "length to the panel"]


def test_nine_conductors_of_12_awg_want_a_square_box(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exam problem (secondary copy): nine 12 AWG and nothing else: 4 × 1-1/2 square, 21.0 in³."""
    body = '[[box]]\ntag = "B1"\nwhat = "junction"\nplate = true\nconductors = ["9 x 12"]\nsize = "4 x 1-1/2 square"\n'
    box = figures(tmp_path, capsys, body)["B1"]
    assert box["fill_in3"] == 20.25
    assert box["volume_in3"] == 21.0
    assert box["next_box"].startswith("4 × 1-1/2 square")


def circuit(values: str, things: str = "", kind: str = "receptacle") -> str:
    """A circuit with one box, and equipment in it."""
    box = f'[[box]]\ntag = "B1"\nwhat = "{kind}"\ncircuit = "C1"\n'
    return f'[[circuit]]\ntag = "C1"\nname = "one"\n{values}\n{box}{things}'


def thing(tag: str, watts: float, more: str) -> str:
    """A piece of equipment plugged or wired in B1."""
    return f'[[equipment]]\ntag = "{tag}"\nname = "thing {tag}"\nwatts = {watts}\nplug = "B1"\n{more}\n'


def test_drop_of_a_signalling_circuit(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """16 AWG stranded, 100 ft, 4 A on 24 V (secondary copy): 4.0 V, printed as 16.7 % after rounding to 4.0 V."""
    values = 'volts = 24\nconductor = "16"\nstrands = "stranded"\nlength = "100 ft"'
    found = figures(tmp_path, capsys, circuit(values, thing("E1", 96, 'power = "cord"')))["C1"]
    assert found["drop_v"] == pytest.approx(4.0, abs=0.05)
    assert found["drop_pct"] == pytest.approx(16.7, abs=0.1)
    assert found["connected_w"] == 96


@pytest.mark.parametrize(
    ("gauge", "feet", "volts", "percent"),
    [(14, 25, 1.9188, 1.60), (12, 50, 2.4125, 2.01), (12, 100, 4.8250, 4.02), (10, 75, 2.2688, 1.89)],
)
def test_drop_of_a_1500_watt_load(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], gauge: int, feet: int, volts: float, percent: float
) -> None:
    """Worked from Chapter 9, Table 8, solid copper at 75 °C: 12.5 A there and back."""
    values = f'breaker = 20\nvolts = 120\nconductor = "{gauge}"\nlength = "{feet} ft"'
    wired = 'power = "hard-wired"\nwhat = "fireplace"\nheats = true'
    found = figures(tmp_path, capsys, circuit(values, thing("E1", 1500, wired), "junction"))["C1"]
    assert found["drop_v"] == pytest.approx(volts, abs=1e-4)
    assert found["drop_pct"] == pytest.approx(percent, abs=0.006)
    assert found["design_a"] == 15.625


def test_fixed_heating_at_125_percent(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Code newsletter on 424.3(B) (secondary copy): 9,600 W at 240 V and a 3 A blower: 43 A, 53.75 A at 125 %."""
    values = 'breaker = 60\nvolts = 240\nconductor = "6"\nlength = "50 ft"'
    things = thing("E1", 9600, 'power = "hard-wired"\nheats = true\nwhat = "heater"')
    things += thing("E2", 720, 'power = "hard-wired"\nhours = 3')
    found = figures(tmp_path, capsys, circuit(values, things, "junction"))["C1"]
    assert found["connected_a"] == 43
    assert found["design_a"] == 53.75
    assert found["limit_a"] == 55
    # 6 AWG is listed stranded only, 0.491 ohm: 43 A there and back over 50 ft.
    assert found["drop_v"] == pytest.approx(2 * 50 * 0.491 / 1000 * 43)


def test_12_a_of_fixed_heating_is_planned_as_15(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Lesson on sizing NM cable (secondary copy): 12 A × 1.25 = 15 A."""
    values = 'breaker = 15\nvolts = 120\nconductor = "14"'
    wired = thing("E1", 1440, 'power = "hard-wired"\nheats = true\nwhat = "heater"')
    found = figures(tmp_path, capsys, circuit(values, wired, "junction"))["C1"]
    assert found["design_a"] == 15
    assert found["room_a"] == 0


def test_2000_w_on_20_a(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Forum arithmetic (secondary copy): 2000 W at 120 V is 16.7 A, 83 % of 20 A."""
    values = 'breaker = 20\nvolts = 120\nconductor = "12"\nload = 2000'
    found = figures(tmp_path, capsys, circuit(values))["C1"]
    assert found["connected_a"] == pytest.approx(16.667, abs=1e-3)
    assert found["connected_a"] / found["limit_a"] == pytest.approx(0.833, abs=1e-3)
    assert found["plug_in_limit_a"] == 16


def test_half_of_a_20_a_circuit(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Code question and answer on 210.23 (secondary copy): a 13 A vacuum fastened in place may not share 20 A."""
    values = 'breaker = 20\nvolts = 120\nconductor = "12"'
    things = thing("E1", 1560, 'power = "cord"\nmounting = "made to be recessed"') + thing("E2", 60, 'power = "cord"')
    found = figures(tmp_path, capsys, circuit(values, things))["C1"]
    assert found["fixed_limit_a"] == 10
    assert found["connected_w"] == 1620


def test_metric_drop_and_capacity(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """BS 7671 Table 4D5 (secondary copy): 2.5 mm² 18 mV/A/m; 21 A touching the inner surface of a stud wall."""
    values = 'breaker = 20\nvolts = 230\nconductor = "2.5 mm2"\nlength = "25 m"'
    body = circuit(values, thing("E1", 2300, 'power = "cord"'))
    found = figures(tmp_path, capsys, body, region="metric")["C1"]
    assert found["drop_v"] == pytest.approx(18 * 10 * 25 / 1000)
    assert found["design_a"] == 10
    assert found["limit_a"] == 20
    # IEC 60228 class 5 (confirmed in a secondary copy): 7.98 ohm/km at 20 °C, times 300 / 250 at 70 °C, out and back.
    flexible = figures_again(tmp_path, capsys, body.replace("volts = 230", 'volts = 230\nstrands = "stranded"'), "flex")
    assert flexible["C1"]["drop_v"] == pytest.approx(2 * 7.98 * 1.2 * 10 * 25 / 1000)
    clipped = figures_again(tmp_path, capsys, body.replace("breaker = 20", 'breaker = 32\nlies = "C"'))
    assert clipped["C1"]["limit_a"] == 27


def figures_again(
    folder: Path, capsys: pytest.CaptureFixture[str], body: str, name: str = "again"
) -> dict[str, dict[str, Any]]:
    """Another metric job in a folder of its own."""
    inner = folder / name
    inner.mkdir()
    return figures(inner, capsys, body, region="metric")
