"""Ordinary walls that are well made stay quiet: what is told of each is named here, and nothing else is."""

from __future__ import annotations

import pytest

from store.records.wall import Wall
from store.rules.core.findings import findings
from tests.jobs.more_quiet_walls import MORE
from tests.jobs.quiet_walls import WALLS, made

ALL = WALLS | MORE

# What a superintendent says of these walls too: a recess in studs that stand wants a header; the inspector is asked
# about the fireplace's box and disconnect.
SAID = {
    "fireplace": {"behind_fixed_piece", "heater_to_ask", "interrupts_studs"},
    "bearing": set(),
    "built out": set(),
    "insulated": set(),
    "plugged fireplace": {"behind_fixed_piece", "heater_to_ask", "interrupts_studs"},
}


@pytest.mark.parametrize("name", ALL)
def test_a_quiet_wall_stays_quiet(name: str) -> None:
    assert {each.rule for each in findings(ALL[name]())} == SAID.get(name, {"interrupts_studs"})


@pytest.mark.parametrize("name", ALL)
def test_no_more_than_one_finding_of_a_kind(name: str) -> None:
    told = [each.rule for each in findings(ALL[name]())]
    assert len(told) == len(set(told))


def test_a_cabinet_before_a_wall_that_carries_is_asked_about_and_a_recess_in_it_is_not_let_by() -> None:
    job = WALLS["plain TV"]()
    carries = made(Wall, "W1", name="Media wall", first_stud="16", bearing="yes", burns="no")
    told = {each.rule: each for each in findings(job.having(carries))}
    assert told["deeper_than_studs"].tags == ("N2", "W1")
    assert told["deeper_than_studs"].severity == "look"
    assert told["cuts_studs"].tags == ("N1", "W1")
    assert told["cuts_studs"].severity == "fix"
