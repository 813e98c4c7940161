"""What is bought for a wall is told in the units of the job: no feet, gallons or pounds in a metric one."""

from __future__ import annotations

from store.measure.mass import mass_text, parse_mass
from store.records.job import Settings
from store.records.whole import Job
from store.rules.build.takeoff_words import area_text, compound_text, metres_up, run_text


def job(units: str) -> Job:
    return Job(tables={"job": {"job": Settings(tag="job", name="a", units=units)}})  # type: ignore[arg-type]


def test_areas_runs_and_volumes_are_in_the_units_of_the_job() -> None:
    us, metric = job("feet-inches"), job("millimetres")
    # Hand: 1 ft² = 304.8² mm²; 10 m² = 107.64 ft²; 46 ft = 14.02 m, so 15 m are bought; 2 gal = 7.57 L.
    ten = 10 * 10**18
    assert (area_text(us, ten), area_text(metric, ten)) == ("108 ft²", "10.0 m²")
    assert (run_text(us, 46), run_text(metric, 46)) == ("46 ft", "15 m")
    assert metres_up(0) == 0
    assert (compound_text(us, 2.0), compound_text(metric, 2.0)) == ("2 gal", "7.6 L")


def test_a_weight_is_shown_in_the_unit_of_the_job_and_marked_where_it_was_another() -> None:
    # Hand: 65 lb x 0.45359237 = 29.48 kg.
    assert mass_text(parse_mass("65 lb"), True) == "~29.5 kg"
    assert mass_text(parse_mass("65 lb"), False) == "65 lb"
    assert mass_text(parse_mass("10 kg"), False) == "~22 lb"
