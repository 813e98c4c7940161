"""Problems of one kind on one line: the count and every tag stay, and so does every finding."""

from __future__ import annotations

from itertools import chain
from typing import Any

import pytest

from store.records.equipment import Equipment
from store.records.gate import Answer
from store.records.wiring import Circuit
from store.rules.core.findings import Finding, findings
from store.rules.core.together import OF_HEATER, of_one_kind, together
from tests.jobs.more_quiet_walls import MORE, changed
from tests.jobs.power_case import TODAY, circuit, job_of, receptacle
from tests.jobs.power_pairs import thing
from tests.jobs.quiet_walls import WALLS
from tests.rows import rows


def finding(rule: str, tag: str, head: str, severity: str = "look") -> Finding:
    """A finding about one thing."""
    return Finding(rule, severity, (tag,), head, "Look.", "common practice", {"a": "b"}, headline=f"{head}, {tag} name")  # type: ignore[arg-type]


@rows(
    ("heads", "line"),
    [
        (("On 1 stud", "On 1 stud"), "On 1 stud (2): A1 A2"),
        (("Deeper by 1 in than W1", "Deeper by 2 in than W1"), "Deeper … than W1 (2): A1 A2"),
        (("Too deep for N2 by 40 mm", "Too deep for N3 by 9 mm"), "Too deep (2): A1 A2"),
        (("Not booked, can start Dec 1", "Not booked, can start Dec 3"), "Not booked (2): A1 A2"),
        (("Tight", "Loose"), "Tight, A1 name +1 more"),
    ],
)
def test_several_of_a_kind_are_one_line_with_their_count(heads: tuple[str, str], line: str) -> None:
    (told,) = together([finding("a_rule", f"A{n}", head) for n, head in enumerate(heads, 1)])
    assert told.headline == line
    assert told.tags == ("A1", "A2")


def test_what_differs_in_gravity_or_kind_stays_apart() -> None:
    found = [finding("a_rule", "A1", "One"), finding("a_rule", "A2", "One", "fix"), finding("b_rule", "A3", "One")]
    assert [each.findings for each in together(found)] == [(each,) for each in found]


def test_blank_entries_are_one_line_whatever_asks_for_them() -> None:
    found = findings(job_of(circuit(), receptacle(volume=None), thing(watts=None)))
    (blank,) = [each for each in together(found) if each.headline.startswith("Not entered yet")]
    assert {each.rule for each in blank.findings} == {"box_volume_unknown", "watts_not_known"}
    assert blank.headline == "Not entered yet (2): B1 C1"


def test_one_that_is_answered_stands_alone() -> None:
    pair = [finding("a_rule", f"A{n}", "On 1 stud") for n in (1, 2)]
    answer = Answer(tag=pair[0].key, date=TODAY, by="Robin", says="seen and fine", vouches={"a": "b"})
    answered = Finding(**{**{f: getattr(pair[0], f) for f in pair[0].__struct_fields__}, "answer": answer})
    assert answered.answered
    assert [len(each.findings) for each in together([answered, pair[1]])] == [1, 1]
    assert of_one_kind(pair, pair[1]) == tuple(pair)


def shared(**values: Any) -> list[Finding]:
    """What is told of a fireplace on a plug in the room's circuit, of 15 A."""
    job = changed(MORE["plugged fireplace"](), Equipment, "E5", plug="B98", breaker=None)
    return findings(changed(job, Circuit, "C9", **{"breaker": 15.0, "conductor": "14", **values}))


def test_a_heater_that_shares_a_circuit_is_one_line_whatever_tells_it() -> None:
    (line,) = [each for each in together(shared()) if each.called]
    assert line.headline == "Heater needs a circuit of its own (7): E5 C9"
    assert (line.severity, line.first.rule) == ("fix", "heater_shares_circuit")
    assert line.do.startswith("Plan a circuit for it alone")
    assert {each.rule for each in line.findings} <= OF_HEATER
    assert not {each.rule for other in together(shared()) if not other.called for each in other.findings} & OF_HEATER


def test_alone_on_one_that_is_too_small_it_is_told_so_and_alone_on_its_own_each_stays_as_it_is() -> None:
    alone = changed(MORE["plugged fireplace"](), Circuit, "C2", breaker=15.0, conductor="14")
    (line,) = [each for each in together(findings(alone)) if each.called]
    assert line.headline.startswith("Heater needs a larger circuit (")
    assert not [each for each in together(findings(MORE["plugged fireplace"]())) if each.called]


@pytest.mark.parametrize("name", WALLS)
def test_no_finding_is_lost(name: str) -> None:
    found = findings(WALLS[name]())
    assert sorted(each.key for each in chain(*(line.findings for line in together(found)))) == sorted(
        each.key for each in found
    )


def test_a_line_is_no_longer_than_a_headline() -> None:
    many = [finding("a_rule", f"A{n}", "A problem of a kind that takes many words to say") for n in range(1, 40)]
    assert len(together(many)[0].headline) <= 60
