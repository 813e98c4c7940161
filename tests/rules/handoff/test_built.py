"""The carpenter's and the drywall crew's packets carry what was worked out for them."""

from __future__ import annotations

from typing import Any

from store.measure.mass import parse_mass
from store.records.build import Fixing
from store.records.whole import Job
from store.rules.handoff.built import LISTS
from store.rules.handoff.packet import packet
from tests.jobs.wall_jobs import device, job_of, made, opening, read, wall


def job(**values: Any) -> Job:
    """A wall with a shelf cabinet and a TV on blocking."""
    return job_of(
        wall(first_stud=16, framing="new wood", **values), read("D1", "width", 144), read("D2", "height", 96),
        opening("N1", 20, 40, 70, 40, use="screen", depth=1),
        opening("N2", 100, 30, 30, 20, use="shelf", depth=12, material="plywood", thickness="3/4 in"),
        opening("N3", 5, 5, 14, 20, door="solid", air_in=20.0, air_out=20.0),
        device("E2", 10, 4, 10, watts=30.0, opening="N3"),
        device("E1", 60, 34, 4, what="screen", weight=parse_mass("60 lb"), mounting="wall bracket"),
        made(Fixing, "X1", of="E1", what="lag 5/16", count=4, length=3, into="blocking", apart=8),
    )  # fmt: skip


def told(one: Job, trade: Any) -> dict[str, list[str]]:
    return {each.title: [" ".join(row) for row in each.rows] for each in packet(one, trade).listed}


def test_the_carpenter_gets_framing_lumber_blocking_cabinets_shelves_and_screws() -> None:
    found = told(job(), "carpenter")
    titles = [title for title, _ in LISTS["carpenter"]]
    assert [title for title in found if title in titles] == titles
    assert any("studs" in row for row in found["Framing, piece by piece"])
    assert any("licensed person" in row for row in found["Lumber to buy and cut"])
    assert all("behind E1 on W1" in row for row in found["Blocking"])
    assert any("2 x side" in row for row in found["Cabinets: boards, doors and hardware"])
    assert any("lasting load" in row for row in found["Shelves: how far they sag"])
    assert any(row.endswith("30 W from E2") for row in found["Air behind closed doors"])
    assert any("times the load" in row for row in found["What hangs: load and screws"])
    assert any(row.startswith("X1 E1 lag 5/16") for row in found["Screws and what they go into"])


def test_the_drywall_crew_gets_sheets_and_coats() -> None:
    found = told(job(level="5"), "drywall")
    assert any("sheet" in row for row in found["Drywall, sheet by sheet"])
    # N2, a cabinet in front of the wall, is no opening in the drywall.
    assert [row.split()[0] for row in found["Openings in the drywall"]] == ["N1", "N3"]
    assert found["Finish and coats"][0].endswith("finish level 5: 4 coats")
    assert len([row for row in found["Finish and coats"] if "dries 1 day" in row]) == 4


def test_nothing_is_printed_where_nothing_is_known() -> None:
    bare = job_of(wall())
    titles = {title for lists in LISTS.values() for title, _ in lists}
    assert not titles & set(told(bare, "carpenter"))
    assert not titles & set(told(bare, "electrician"))
