"""Shelves: what sags is told, what does not is not, and the figures agree with the beam formula worked by hand."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from store.measure.length import INCH_NM
from store.measure.mass import parse_mass
from store.records.whole import Job
from tests.jobs.wall_jobs import ROOM, device, figure, found, job_of, one, opening
from tests.rows import rows


def shelf(weight: str = "60 lb", *, width: float = 37.5, more: tuple[Any, ...] = (), **values: Any) -> Job:
    """A board of 3/4 in plywood, 36 in between its sides and 12 in deep, with something on it."""
    given = {"use": "shelf", "material": "plywood", "thickness": "3/4 in", "depth": 12, **values}
    return job_of(
        *ROOM, opening("N1", 10, 10, width, 20, **given), device("E1", 17, 6, 11, weight=parse_mass(weight)), *more
    )


def test_the_sag_is_that_of_the_beam_formula() -> None:
    # I = 12 · 0.75³ / 12 = 0.421875 in⁴; 5/384 · 60 · 36³ / (1.01e6 · 0.421875) · 2 for a lasting load = 0.1711 in.
    job = shelf()
    assert figure(job, "N1", "sag").nm / INCH_NM == pytest.approx(0.1711, abs=0.0005)
    # Books, 20 lb a foot, are 60 lb on 3 ft too.
    assert figure(job, "N1", "sag_with_books") == figure(job, "N1", "sag")
    assert figure(job, "N1", "sag_seen").nm / INCH_NM == pytest.approx(0.06)
    longest = figure(job, "N1", "longest_with_books").nm / INCH_NM
    # At the longest span the sag is just what is seen: 36 · (0.06 / 0.1711)^(1/3), as it grows by the fourth power.
    assert longest == pytest.approx(36 * (0.06 / 0.1711) ** (1 / 3), rel=0.001)


def test_a_board_that_bends_is_told_and_a_stiffer_or_lighter_one_is_not() -> None:
    finding = one(shelf(), "shelf_sags")
    assert (finding.severity, finding.tags) == ("look", ("N1", "E1"))
    assert "60 lb" in finding.says
    assert found(shelf(thickness="1-1/2 in", width=39), "shelf_sags") == []
    assert found(shelf("15 lb"), "shelf_sags") == []


@rows("values", [{"material": ""}, {"material": "glass"}, {"use": "screen"}, {"thickness": None}])
def test_of_what_is_not_noted_nothing_is_said(values: dict[str, Any]) -> None:
    assert found(shelf(**values), "shelf_sags") == []
    assert figure(shelf(**values), "N1", "sag_seen") is None


def test_what_hangs_or_is_gone_does_not_press_on_the_board() -> None:
    heavy = parse_mass("200 lb")
    gone = device("E2", 9, 6, 9, weight=heavy, retired=date(2026, 1, 1))
    hung = device("E3", 9, 6, 9, weight=heavy, mounting="wall bracket")
    assert found(shelf("10 lb", more=(gone, hung)), "shelf_sags") == []


def test_a_metric_job_reads_kilograms() -> None:
    assert (
        "27 kg"
        in one(job_of(*(each for each in shelf().each() if each.kind != "job"), units="millimetres"), "shelf_sags").says
    )


def bare(**values: Any) -> Job:
    """The same board, 36 in long and 12 in deep, with nothing noted to stand on it."""
    given = {"use": "shelf", "material": "plywood", "thickness": "3/4 in", "depth": 12, **values}
    return job_of(*ROOM, opening("N1", 10, 10, given.pop("width", 37.5), 20, **given))


def test_a_shelf_with_nothing_on_it_is_judged_for_books() -> None:
    finding = one(bare(), "shelf_sags")
    assert finding.tags == ("N1",)
    assert "60 lb of books" in finding.says
    assert figure(bare(), "N1", "sag") == figure(bare(), "N1", "sag_with_books")
    assert figure(bare(), "N1", "limit").nm / INCH_NM == pytest.approx(0.06)
    # Books on 25 in: 0.1711 · (25 / 36)^4 = 0.0398 under 25 / 600 = 0.0417; on 26 in it is over.
    assert found(bare(width=26.5), "shelf_sags") == []
    assert found(bare(width=27.5), "shelf_sags")
    assert found(bare(use="equipment"), "shelf_sags") == []


def test_behind_a_shut_door_a_little_more_is_allowed() -> None:
    # 60 lb on 30 in of 12 in plywood: 0.099 in; 30 / 600 is 0.05, 30 / 360 is 0.083. Books, 50 lb: 0.0825.
    assert found(bare(width=31.5), "shelf_sags")
    assert found(bare(width=31.5, door="glass"), "shelf_sags")
    assert found(bare(width=31.5, door="solid"), "shelf_sags") == []


@rows(
    "values",
    [
        {"strip": "2 in"}, {"rail": "2 in"}, {"held": "cleats on 3 sides"}, {"held": "fixed"}, {"middle": 1},
        {"strip": "1-3/4 in", "strip_material": "red oak"},
    ],
)  # fmt: skip
def test_what_stiffens_a_shelf_ends_the_finding(values: dict[str, Any]) -> None:
    assert found(bare(**values), "shelf_sags") == []


def test_a_strip_that_is_no_higher_than_the_board_is_not_counted_on() -> None:
    assert figure(bare(strip="3/4 in"), "N1", "sag") == figure(bare(), "N1", "sag")


def test_a_typed_load_counts_where_it_is_more_than_what_is_placed() -> None:
    light = bare(load=parse_mass("10 lb"))
    assert found(light, "shelf_sags") == []
    assert figure(light, "N1", "sag").nm / INCH_NM == pytest.approx(0.1711 / 6, abs=0.0005)
    # 5 lb typed, 60 lb placed: what is known to stand there counts.
    assert figure(shelf(load=parse_mass("5 lb")), "N1", "sag") == figure(shelf(), "N1", "sag")
    heavy = bare(load=parse_mass("10 lb"), load_place="middle")
    assert figure(heavy, "N1", "sag").nm == pytest.approx(1.6 * figure(light, "N1", "sag").nm, rel=0.001)


def test_each_way_that_would_do_is_told_with_its_number() -> None:
    says = one(bare(), "shelf_sags").remedy
    for words in ('1-1/4" thick', "strip", "one more support", "a span of"):
        assert words in says, says
    lines = figure(bare(), "N1", "sag_lines")
    assert any("lasting load x 2" in line for line in lines)
    assert any(line.startswith("would work: ") for line in lines)


def floating(**values: Any) -> Job:
    """A floating shelf of white oak on the wall, 60 in long, 10 in deep and 1-1/2 in thick, on brackets."""
    given = {"what": "floating shelf", "opening": "", "wall": "W1", "x": 72, "y": 60, "material": "white oak", **values}
    return job_of(*ROOM, device("E1", given.pop("long", 60), given.pop("thick", 1.5), 10, **given))


def test_a_floating_shelf_bends_between_its_brackets_under_books() -> None:
    # Two brackets 15 in in from each end: 30 in between, overhangs of 15 in; w = 100 / 60 lb/in, I = 2.8125 in⁴.
    # Of the ends a: w a (6 a² (a + l) ... ) by beam elements in test_beam; here against the same sum.
    job = floating()
    assert figure(job, "E1", "limit").nm / INCH_NM == pytest.approx(0.1)
    assert found(job, "shelf_sags") == []
    thin = floating(thick=0.75, long=72)
    finding = one(thin, "shelf_sags")
    assert (finding.severity, finding.tags) == ("look", ("E1",))
    assert "120 lb of books" in finding.says
    assert "brackets" in finding.remedy
    assert found(floating(thick=0.75, long=72, brackets=4), "shelf_sags") == []
    assert figure(floating(material="", thick=0.75), "E1", "sag") is None
    assert figure(floating(material="stone"), "E1", "sag") is None
    assert figure(floating(brackets=-3), "E1", "sag") == figure(job, "E1", "sag")


def test_a_mantel_is_judged_for_what_was_entered_only() -> None:
    bare = floating(what="mantel", thick=0.5, long=80)
    assert found(bare, "shelf_sags") == []
    assert one(floating(what="mantel", thick=0.5, long=80, load=parse_mass("100 lb")), "shelf_sags")


def test_every_sum_ends_with_what_its_supports_carry_and_who_decides() -> None:
    for job, tag, words in ((bare(), "N1", "each of two pins 15 lb"), (floating(), "E1", "bracket carries 50 lb")):
        lines = figure(job, tag, "sag_lines")
        assert any(words in line for line in lines), lines
        assert "licensed person" in lines[-1]
