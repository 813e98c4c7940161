"""How to get at a thing: breakers, panels, what stands in front, what is seen."""

from __future__ import annotations

from datetime import date

import pytest

from store.records.access import Photo, Visit
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Cable, Circuit, Raceway
from store.rules.access.steps import circuits_of, mains_in_reach, off_behind, reach
from store.rules.core.figures import figures
from tests.jobs.access_jobs import TODAY, at, box, job_of, make, opening, panel
from tests.rows import rows

CABINET = opening("N1", "equipment", "10", "4", "30", "30", depth=at("20"), door="solid")


def kitchen_of_wires(*more: Record) -> Job:
    """A cabinet with a panel in its back, power and signal behind that, and a screen."""
    return job_of(
        CABINET,
        opening("N2", "screen", "60", "44", "60", "36"),
        panel("A1", "15", "10", behind=("B1", "B2")),
        make(Circuit, "C1", name="media", slot="18", breaker=20.0),
        make(Circuit, "C2", name="lights", slot="9", breaker=15.0),
        box("B1", "junction", "20", "16", reached="A1", circuit="C1"),
        box("B2", "low-voltage", "22", "18"),
        box("B3", "low-voltage", "90", "60", reached="N2"),
        box("B4", "receptacle", "30", "10", reached="N1", circuit="C2"),
        make(Equipment, "E1", name="player", what="player", opening="N1", power="cord", plug="B4", serial="x1"),
        make(Equipment, "E2", name="screen", what="screen", opening="N2", mounting="wall bracket", power="cord"),
        make(Cable, "K1", name="picture", type="hdmi", start="B2", end="B3", route="raceway", raceway="R1"),
        make(Cable, "K2", name="feed", type="nm-12-2", end="B1"),
        make(Raceway, "R1", name="tube", size="1-1/2", start="B2", end="B3", string=True),
        *more,
    )


def test_a_junction_is_reached_through_its_panel_with_its_breaker_off() -> None:
    found = reach(kitchen_of_wires(), "B1")
    assert found.off == ("breaker 18 (C1 media, 20 A)",)
    assert found.by == ("A1",)
    assert found.first == ("E1",)
    assert found.open[0].startswith('Open A1 panel A1: hinged, 12" x 12" clear;')
    assert found.lines[0].startswith("Off first: breaker 18")
    assert any(line.strip().startswith("B1") for line in found.see)


def test_a_cable_is_reached_at_both_ends_and_has_no_breaker() -> None:
    found = reach(kitchen_of_wires(), "K1")
    assert found.off == ()
    assert found.by == ("A1", "N2")
    assert found.first == ("E1", "E2")
    assert len(found.open) == 2
    assert any("no breaker of its own" in line for line in found.power)
    # The junction behind the same panel is under power.
    assert any(line.startswith("Line voltage is behind it too: breaker 18") for line in found.brief)


def test_what_is_plugged_in_is_unplugged() -> None:
    found = reach(kitchen_of_wires(), "E1")
    assert found.off == ()
    assert any("unplug it at B4 box B4, on breaker 9" in line for line in found.power)


UNNOTED = (
    panel("A1", "20", "10", passes="two hands"),
    box("B1", "junction", "26", "16"),
    box("B2", "receptacle", "40", "16"),
    box("B3", "low-voltage", "26", "14"),
    make(Cable, "K1", type="nm-12-2", start="B1", end="B2"),
)


def test_mains_of_which_no_circuit_is_noted_is_not_taken_for_none() -> None:
    job = job_of(*UNNOTED)
    assert off_behind(job, "A1") == ("the circuit of B1 and K1: not entered, so have it traced and marked",)
    assert reach(job, "A1").lines[0].startswith("Off first: the circuit of B1 and K1: not entered")
    assert mains_in_reach(job, "A1") == "Line voltage within a hand's reach: B2, with no circuit entered."
    marked = [make(Circuit, "C1", name="media", slot="7"), box("B1", "junction", "26", "16", circuit="C1")]
    assert off_behind(job.having(marked[0]).having(marked[1]), "A1") == ("breaker 7 (C1 media)",)


@rows(
    ("power", "what", "off"),
    [
        ("unknown", "driver", True),
        ("hard-wired", "light", True),
        ("unknown", "player", False),
        ("cord", "driver", False),  # that one is unplugged
        ("none", "driver", False),
    ],
)
def test_a_driver_counts_as_fed_until_somebody_says_how(power: str, what: str, off: bool) -> None:
    one = make(Equipment, "E1", name="thing", what=what, power=power, reached="A1")
    words = ("the circuit of E1: not entered, so have it traced and marked",) if off else ()
    assert off_behind(job_of(panel("A1", "20", "10"), one), "A1") == words


def test_a_mains_cable_of_no_noted_circuit_is_switched_off_and_not_unplugged() -> None:
    found = reach(job_of(*UNNOTED), "K1")
    assert found.off == ("the circuit of K1: not entered, so have it traced and marked",)
    assert not any("no breaker of its own" in line for line in found.lines)
    signal = reach(job_of(*UNNOTED, make(Cable, "K2", type="cat6", start="B3", reached="A1")), "K2")
    assert any(line.startswith("Line voltage is behind it too: the circuit of B1 and K1") for line in signal.lines)


def test_mains_that_a_hand_may_meet_beside_the_panel_is_told() -> None:
    text = mains_in_reach(kitchen_of_wires(), "A1")
    assert text == "Line voltage within a hand's reach: B4, on breaker 9 (C2 lights, 15 A)."
    far = kitchen_of_wires().having(box("B4", "receptacle", "120", "10", circuit="C2"))
    assert mains_in_reach(far, "A1") == ""


def test_a_mains_box_without_a_circuit_says_that_it_must_be_found() -> None:
    job = kitchen_of_wires().having(box("B1", "junction", "20", "16", reached="A1"))
    assert "not entered" in reach(job, "B1").off[0]


def test_a_feed_goes_off_with_its_box_and_a_box_with_what_comes_from_another() -> None:
    job = kitchen_of_wires(make(Cable, "K3", type="nm-12-2", start="B1", end="B4"))
    assert circuits_of(job, "K2") == ("C1", "C2")
    assert set(circuits_of(job, "B4")) == {"C1", "C2"}
    assert circuits_of(job, "B2") == ()


def test_a_panel_tells_all_that_is_behind_it() -> None:
    visit = make(Visit, "V1", panel="A1", date=date(2026, 10, 1), who="Robin", why="to look", found="dry")
    photo = make(Photo, "F1", file="open.jpg", shows="left bay", of=("A1",))
    found = reach(kitchen_of_wires(visit, photo), "A1")
    words = "\n".join(found.lines)
    assert "breaker 18" in found.off[0]
    assert "room for" in words
    assert "Last visit to A1: Oct 1, 2026, Robin: to look; found dry." in words
    assert "Photos: F1 open.jpg: left bay" in words


def test_what_was_retired_is_told_with_what_took_its_place() -> None:
    gone = make(Equipment, "E3", name="old player", retired=TODAY, replaced_by="E1")
    found = reach(kitchen_of_wires(gone), "E3")
    assert found.lines == found.brief == ("E3 was retired on Oct 14, 2026; E1 player replaced it.",)
    wired = make(Equipment, "E3", name="old driver", what="driver", power="hard-wired", retired=TODAY, reached="A1")
    assert reach(kitchen_of_wires(wired), "E3").brief == ("E3 was retired on Oct 14, 2026.",)


def test_a_way_that_does_not_count_is_told_as_such() -> None:
    job = job_of(box("B1", "junction", "60", "16", reached="A1"), panel("A1", "17", "10"))
    assert any("farther than a hand reaches" in line for line in reach(job, "B1").notes)


def test_a_breaker_is_at_the_electrical_panel_and_no_such_tag_is_an_error() -> None:
    assert reach(kitchen_of_wires(), "C1").open == ("At the electrical panel: breaker 18 (C1 media, 20 A).",)
    with pytest.raises(KeyError):
        reach(kitchen_of_wires(), "B99")


def test_every_record_of_every_kind_can_be_asked_for() -> None:
    job = kitchen_of_wires()
    for record in job.each():
        if record.tag != "job":
            assert reach(job, record.tag).tag == record.tag


def test_the_figures_name_the_way_and_the_breaker() -> None:
    found = figures(kitchen_of_wires())
    assert found["B1"]["reached_through"] == "A1"
    assert found["B1"]["off_first"] == ["breaker 18 (C1 media, 20 A)"]
    assert found["A1"]["stands_in_front"] == ["E1"]
    assert found["B2"]["way_counts"] is True
