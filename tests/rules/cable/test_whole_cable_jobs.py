"""Two whole jobs with a cable for every kind of route: paths, cuts, what is bought and bored, worked out by hand."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from store.records.whole import Job
from store.rules.buying.buying_list import buying_list
from store.rules.core.figures import figures, plain
from tests.jobs.begun import begun

DAY = date(2026, 11, 25)

# The path in inches, leg by leg; the cut in feet, of the path and 10 %, what is left over at both ends, rounded up.
FEET = {
    # Level at 16 in: 96 along, 44 up. 11.67 ft x 1.1 + 2. From within N2: its trimmer and king, cripples at 64, 80 and
    # 96 under N1, trimmer and king of that, 112 in.
    "K1": (140, 15, 8, 0, "from a spool"),
    # Level at 36 in: 20 up, 96 along, 24 up. 32 in, king and trimmer on either side of N1, 112 in.
    "K2": (140, 15, 6, 0, "from a spool"),
    # 80 up, 96 along, 36 down. 17.67 ft x 1.1 + 2.
    "K3": (212, 22, 0, 2, "from a spool"),
    # 16 down, 96 along, 60 up.
    "K4": (172, 18, 0, 2, "from a spool"),
    # The raceway's own 14 ft.
    "K5": (168, 18, 0, 0, "from a spool"),
    # Middles at 22.5 / 3 in and 42.5 / 1.5 in, straight: the root of 20² + 1.5². 1.67 ft x 1.1 + 2.
    "K6": (20.056, 4, 0, 0, "6 ft HDMI"),
    # 68 up, 96 along, 24 down. At 84 in, over both openings: 32, 48, 64, 80, 96, 112 in and three kings.
    "K7": (188, 20, 9, 0, "from a spool"),
    # 24 to the corner, 50 beyond it, 24 down; 128 in, both studs in the corner, 16, 32 and 48 in.
    "K8": (98, 11, 6, 0, "from a spool"),
    # 36 up, 24 and 50 along, 60 down.
    "K9": (170, 18, 0, 2, "from a spool"),
    # 20 ft by tape, for the 11 ft 8 in of the plan; bored as K1.
    "K10": (240, 24, 8, 0, "from a spool"),
    # 16 down, 48 along, 16 up; 6 in of free conductor at both boxes.
    "K11": (80, 9, 0, 2, "from a spool"),
    # 93 up, 55.5 along, 42 down; 3 ft at both devices. 15.875 ft x 1.1 + 6.
    "K12": (190.5, 24, 0, 2, "25 ft HDMI"),
    # 24 up, 24 and 50 along, 48 down.
    "K13": (146, 16, 6, 0, "from a spool"),
}
# The path in mm; the cut in mm, of the path and 8 %, what the job sets or is usual for the ends, to the next 250 mm.
METRIC = {
    # 3100 along, 1100 up; 400 at both boxes. 600, 1800, 2400, 3000 mm, trimmer and king at both sides of the screen.
    "K1": (4200, 5500, 8, 0, "from a spool"),
    # 700 up, 400 to the corner, 900 beyond it, 1000 up; 2400 mm and both studs in the corner.
    "K2": (3000, 4250, 3, 0, "from a spool"),
    # 1100 up, 3500 and 900 along, 500 down; 300 at both boxes.
    "K3": (6000, 7250, 0, 2, "from a spool"),
    # The middle of the amplifier at 1485.5 / 98: 98 down, 2014.5 along, 1400 up; 1500 there, 304.8 at the box.
    "K4": (3512.5, 5750, 0, 2, "from a spool"),
    # The raceway square to the framing: 3100 and 1100.
    "K5": (4200, 5500, 0, 0, "from a spool"),
    # Middles at 2333 / 48 and 1485.5 / 98, straight; 304.8 at both.
    "K6": (848.974, 1750, 0, 0, "2 m HDMI"),
    # 300 up, 900 and 3500 along, 900 down; 2400 mm, both studs in the corner, 600 to 3000 mm, two kings.
    "K7": (5600, 7000, 10, 0, "from a spool"),
    # 514.5 and 152 to the middle of the cabinet, 1200 of tube; 914.4 at both. No stud stands within the cabinet.
    "K8": (1866.5, 4000, 0, 0, "5 m HDMI"),
    # 1800 by tape; 152.4 at both boxes.
    "K9": (1800, 2250, 0, 2, "from a spool"),
    # 432.5 by 70, straight; nothing and 250, as noted.
    "K10": (438.128, 750, 0, 0, "from a spool"),
}


def job_of(folder: Path, name: str) -> Job:
    """The job of a file beside these tests."""
    starter = str(Path(__file__).parents[2] / "jobs" / name)
    book = begun(folder / "job.json", starter, DAY, "Ann")
    book.close()
    return book.job


@pytest.mark.parametrize(
    ("name", "hand", "unit", "step"),
    [("routes_feet.toml", FEET, 25.4, 304.8), ("routes_metric.toml", METRIC, 1.0, 1.0)],
)
def test_every_route_is_as_long_as_worked_out_by_hand(
    tmp_path: Path, name: str, hand: dict[str, tuple[float, float, int, int, str]], unit: float, step: float
) -> None:
    job = job_of(tmp_path, name)
    found = plain(figures(job), metric=job.settings.metric)
    assert [tag for tag in found if tag.startswith("K")] == list(hand)
    for tag, (path, cut, studs, plates, buy) in hand.items():
        row = found[tag]
        assert row["path_mm"] == pytest.approx(path * unit, abs=0.02), tag
        assert row["cut_mm"] == pytest.approx(cut * step), tag
        assert (row["studs_crossed"], row["plates_crossed"], row["holes"]) == (studs, plates, studs + plates), tag
        assert row["buy"] == buy, tag


def test_the_spools_of_both_are_those_worked_out_by_hand(tmp_path: Path) -> None:
    cuts = {line.what: line.cuts for line in buying_list(job_of(tmp_path, "routes_feet.toml")) if "spool" in line.what}
    assert cuts == {
        "Category 6 UTP, spool of 500 ft": (
            "K10 24 ft", "K7 20 ft", "K5 18 ft", "K13 16 ft", "K1 15 ft", "K2 15 ft", "K8 11 ft", "left: 381 ft",
        ),
        "RG-6 coax, spool of 100 ft": ("K3 22 ft", "K9 18 ft", "left: 60 ft"),
        "Speaker cable, one pair 14 AWG, spool of 50 ft": ("K4 18 ft", "left: 32 ft"),
        "NM-B 14/2 with ground, spool of 25 ft": ("K11 9 ft", "left: 16 ft"),
    }  # fmt: skip
    (tmp_path / "job.json").unlink()
    cuts = {line.what: line.cuts for line in buying_list(job_of(tmp_path, "routes_metric.toml")) if "K7" in line.tags}
    assert cuts["Category 6 UTP, spool of 100 m"] == ("K7 7 m", "K1 5.5 m", "K5 5.5 m", "K2 4.25 m", "left: 77.75 m")
