"""Ports that nobody knows: the smallest job that raises it, and the nearest that does not."""

from __future__ import annotations

from store.records.equipment import Equipment
from store.rules.signal.chain import Port, read_ports
from store.rules.signal.port_rules import port_unknown
from tests.jobs.cable_jobs import make, plain, told


def test_a_port_that_nobody_knows_is_asked_about() -> None:
    odd = make(Equipment, "E1", name="box", ports=("hdmi in", "flux out"))
    assert told(port_unknown, plain(odd)) == [("port_unknown", "look", ("E1",))]
    (finding,) = port_unknown(plain(odd))
    assert finding.numbers == {"ports": "flux out"}
    assert told(port_unknown, plain(make(Equipment, "E1", name="box", ports=("hdmi in", "2x RJ-45", "")))) == []
    gone = make(Equipment, "E1", name="box", ports=("flux out",), retired=plain().today)
    assert told(port_unknown, plain(gone)) == []


def test_a_port_that_says_only_its_way_is_no_picture_port() -> None:
    assert read_ports("2x in") == (Port("unknown", "in"),) * 2
    assert read_ports("HDBaseT out") == (Port("hdbaset", "out"),)


def test_a_mini_jack_is_one_jack_and_a_number_after_an_x_is_a_count() -> None:
    assert len(read_ports("3.5mm jack")) == 1
    assert len(read_ports("3.5 mm mini jack")) == 1
    assert len(read_ports("hdmi in x 4")) == 4
    assert len(read_ports("hdmi 2 in")) == 1
