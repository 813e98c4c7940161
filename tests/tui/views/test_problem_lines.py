"""The list of problems: those of one kind on one line, each by itself below its gravity, and all on the page."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, cast

import msgspec

from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box
from tests.jobs.power_case import circuit, job_of, make, receptacle
from tui.acts.page import page_text
from tui.view.state import State
from tui.views.now.problems import Findings


def two_buried() -> Job:
    """Two boxes that drywall would bury, on one wall."""
    boxes = [make(Box, f"B{n}", what="junction", circuit="C1", volume=21.0) for n in (1, 2)]
    return job_of(make(Wall, "W1", name="wall"), circuit(), receptacle("B9"), *boxes)


def test_those_of_one_kind_share_a_line_and_its_page_has_all() -> None:
    state, view = State(two_buried()), Findings()
    lines = {row.rule: row for row in view.rows(state, "all")}
    row = lines["junction_buried"]
    assert [each.tags for each in row.findings] == [("B1",), ("B2",)]
    assert "(2): B1 B2" in view.line(state, row).cells[2]
    text = page_text(state, view.key(row))
    assert text.count("■ Stop:") == 2
    assert "1 more of this kind" in text
    assert "b2" in view.words(row)


def test_below_a_gravity_each_has_its_line() -> None:
    state, view = State(two_buried()), Findings()
    buried = [row for row in view.rows(state, "stop") if row.rule == "junction_buried"]
    assert [row.tags for row in buried] == [("B1",), ("B2",)]
    one = msgspec.structs.replace(two_buried().of(Box)["B2"], plate=True)
    alone = State(two_buried().having(one))
    (row,) = (row for row in view.rows(alone, "all") if row.rule == "junction_buried")
    assert "of this kind" not in page_text(alone, view.key(row))


def test_what_nobody_may_accept_opens_no_form() -> None:
    """It is said at once, and not when everything is filled in."""
    state, said = State(two_buried()), list[str]()
    row = next(row for row in Findings().rows(state, "stop") if row.rule == "junction_buried")
    accept = next(each.run for each in Findings().keys if each.key == "y")
    accept(cast(Any, SimpleNamespace(state=state, say=lambda words, bad: said.append(words))), Findings().key(row))
    assert len(said) == 1
    assert said[0].startswith("No one can accept this. Add a blank plate or an access panel")
