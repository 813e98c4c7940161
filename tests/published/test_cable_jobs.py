"""Small jobs against figures in print: speaker table, coax note, raceway tables, category limits, free conductor."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.cable.cable_rules import cable_too_long
from store.rules.cable.raceway_rules import raceway_overfull
from store.rules.core.figures import figures
from store.rules.signal.run_rules import speaker_cable_thin
from tests.jobs.cable_jobs import cable, make, plain
from tests.rows import rows

SPEAKER_FT = {
    # The widely printed table of two-conductor copper, 5 % of the impedance: gauge, ohm, feet.
    (22, 2): 3, (22, 4): 6, (22, 6): 9, (22, 8): 12,
    (20, 2): 5, (20, 4): 10, (20, 6): 15, (20, 8): 20,
    (18, 2): 8, (18, 4): 16, (18, 6): 24, (18, 8): 32,
    (16, 2): 12, (16, 4): 24, (16, 6): 36, (16, 8): 48,
    (14, 2): 20, (14, 4): 40, (14, 6): 60, (14, 8): 80,
    (12, 2): 30, (12, 4): 60, (12, 6): 90, (12, 8): 120,
    (10, 2): 50, (10, 4): 100, (10, 6): 150, (10, 8): 200,
}  # fmt: skip


def of(job: Job, tag: str) -> dict[str, Any]:
    """The figures of a tag."""
    return figures(job)[tag]


@rows(("gauge", "ohm"), SPEAKER_FT)
def test_the_longest_speaker_run_is_within_five_per_cent_of_the_printed_one(gauge: int, ohm: int) -> None:
    printed = SPEAKER_FT[gauge, ohm]

    def job(feet: float) -> Job:
        return plain(cable(kind=f"{gauge}/2 speaker", measured=f"{feet * 12:.4f} in", carries=f"{ohm} ohm"))

    assert of(job(printed), "K1")["longest_run"].inches / 12 == pytest.approx(printed, rel=0.05)
    assert not list(speaker_cable_thin(job(printed * 0.95)))
    assert list(speaker_cable_thin(job(printed * 1.06)))


@rows(("mhz", "per_100_ft"), [(57, 1.5), (213, 3.0), (473, 4.5), (695, 5.6), (950, 6.4), (2150, 9.7)])
def test_coax_loses_what_the_makers_note_says(mhz: int, per_100_ft: float) -> None:
    """A manufacturer's support note for RG-6; half the length loses half."""
    for feet, share in ((100, 1.0), (50, 0.5)):
        job = plain(cable(kind="rg6", measured=f"{feet}'", carries=f"{mhz} MHz"))
        assert of(job, "K1")["loss_db"] == pytest.approx(per_100_ft * share, abs=0.006)


@pytest.mark.parametrize(
    ("size", "forty_percent_in2"),
    # NFPA 70 (NEC) Chapter 9, Table 4, ENT, column of 40 %.
    [("1/2", 0.099), ("3/4", 0.181), ("1", 0.314), ("1-1/4", 0.564), ("1-1/2", 0.774), ("2", 1.282)],
)
def test_a_raceway_takes_as_much_as_table_4_prints(size: str, forty_percent_in2: float) -> None:
    """As many network cables of 0.25 in (0.0491 in²) as the printed area holds, and not one more."""
    most = int(forty_percent_in2 / 0.0490874)
    assert most >= 2
    for count, full in ((max(3, most), max(3, most) > most), (most + 1 if most > 2 else 3, True)):
        inside = [cable(f"K{at}", route="raceway", raceway="R1") for at in range(1, count + 1)]
        tube = make(Raceway, "R1", size=size, start="B1", end="B2", length="10'")
        job = plain(tube, *inside)
        assert bool(list(raceway_overfull(job))) == full
        assert of(job, "R1")["limit_pct"] == pytest.approx(40)


def test_an_empty_raceway_takes_what_table_4_prints() -> None:
    """In the smallest size two fill the 40 % of three and break the 31 % of two, so one goes through."""
    for size, area, count in (("1/2", 0.099, 1), ("3/4", 0.181, 3), ("1", 0.314, 6), ("1-1/2", 0.774, 15)):
        job = plain(make(Raceway, "R1", size=size, start="B1", end="B2", length="10'"))
        assert of(job, "R1")["more_cables"] == count
        assert count == 1 or count == int(area / 0.0490874)


def test_a_permanent_link_is_ninety_metres_at_most() -> None:
    """ANSI/TIA-568 (from memory)."""
    assert [each.rule for each in cable_too_long(plain(cable(measured="90 m")))] == ["cable_nearly_too_long"]
    assert [each.rule for each in cable_too_long(plain(cable(measured="90.1 m")))] == ["cable_too_long"]


def test_free_conductor_of_six_inches_at_both_boxes() -> None:
    """NEC 300.14: power cable keeps 6 in at each box; path 10 ft and 10 % makes 12 ft exactly."""
    found = of(plain(cable(kind="14-2 nm")), "K1")
    assert (found["slack_start"].inches, found["slack_end"].inches) == (6, 6)
    assert found["cut"].inches == 144


def test_bend_radius_of_network_cable_is_four_times_its_diameter() -> None:
    """ANSI/TIA-568.0-D: 0.25 in bends to 1.00 in; NEC 334.24: NM bends to five times its wider side."""
    assert of(plain(cable()), "K1")["bend_radius"].inches == 1.0
    assert of(plain(cable(kind="12-2 nm")), "K1")["bend_radius"].inches == pytest.approx(2.1)
