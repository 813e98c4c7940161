"""A raceway or points that were entered, and a route that takes no notice of them."""

from __future__ import annotations

from store.records.wiring import Raceway
from store.rules.cable import cable_rules as rules
from tests.jobs.cable_jobs import cable, plain, told


def test_a_raceway_or_points_that_the_route_takes_no_notice_of_are_told() -> None:
    rule, tube = rules.route_not_as_entered, Raceway(tag="R1")
    assert told(rule, plain(tube, cable(raceway="R1"))) == [("route_not_as_entered", "fix", ("K1", "R1"))]
    assert told(rule, plain(tube, cable(raceway="R1", route="raceway"))) == []
    assert told(rule, plain(tube, cable(raceway="R9"))) == [], "of a raceway that is not there another rule tells"
    assert told(rule, plain(cable(points=("5'/2'",)))) == [("route_not_as_entered", "fix", ("K1",))]
    assert told(rule, plain(cable(points=("5'/2'",), route="points"))) == []
    both = plain(tube, cable(points=("5'/2'",), raceway="R1", route="raceway"))
    (finding,) = rule(both)
    assert finding.head == "Points entered, but routed in its raceway"
    assert told(rule, plain(tube, cable(raceway="R1", retired=plain().today))) == []
