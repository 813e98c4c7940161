"""What to do next, from the smallest jobs that have it, and the nearest that have not."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec.structs import replace

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.gate import Answer, Check
from store.records.people import Contact, Handoff, Step
from store.records.wall import Opening, Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.agenda.agenda import _wanted, agenda
from store.rules.agenda.due import GROUPS, MOST, Due
from store.rules.agenda.missing import blanks, missing, unread
from store.rules.core.findings import findings
from store.rules.gate.gate import standing
from tests.book.build import NO_PERMIT
from tests.jobs.power_case import TODAY, job_of, make
from tests.rules.core.edits import starter

WALL = make(Wall, "W1", name="North")


def due(job: Job, changed: dict[str, int] | None = None) -> list[Due]:
    """What there is to do in a job."""
    found = findings(job)
    return agenda(job, standing(job, found), found, changed or {})  # type: ignore[arg-type]


def keys(job: Job, group: str) -> list[str]:
    """The lines of a group."""
    return [each.key for each in due(job) if each.group == group]


def test_a_size_of_the_wall_that_nobody_read_comes_before_all_that_is_missing() -> None:
    job = job_of(
        WALL,
        make(Box, "B1", name="Low", what="receptacle", wall=Ref("W1")),
        make(Equipment, "E1", name="TV", what="screen"),
    )
    first = missing(job)[0]
    assert (first.tag, first.fields, first.waits) == ("W1", ("width", "height"), ("B1",))
    width = make(Reading, "D1", wall=Ref("W1"), what="width", value='144"')
    assert unread(job_of(WALL, width))["W1"].fields == ("height",)
    height = make(Reading, "D2", wall=Ref("W1"), what="height", value='96"')
    assert "W1" not in unread(job_of(WALL, width, height))


def test_what_unblocks_most_is_asked_for_first() -> None:
    """Three devices share an opening: the one that two cables end at has more waiting for it."""
    opening = make(Opening, "N1", name="Bay", wall=Ref("W1"), x="10", y="10", width="30", height="20", depth="16")
    sized = {"width": "10", "height": "4", "depth": "9"}
    things = [make(Equipment, f"E{n}", name=f"thing {n}", what="receiver", opening=Ref("N1")) for n in (1, 2)]
    ends = [make(Cable, f"K{n}", type="cat6", start=Ref("E2"), end=Ref("B1")) for n in (1, 2)]
    box = make(Box, "B1", name="Low", what="receptacle", wall=Ref("W1"))
    order = [each.tag for each in missing(job_of(WALL, opening, box, *things, *ends)) if each.tag[0] == "E"]
    assert order == ["E2", "E1"]
    whole = make(
        Equipment, "E3", name="whole", what="part", power="none", opening=Ref("N1"), **sized,
        **{f"clear_{side}": make(Reading, "D1", wall=Ref("W1"), what="width", value="0").value
           for side in ("left", "right", "top", "bottom", "front", "back")},
    )  # fmt: skip
    assert "E3" not in blanks(job_of(WALL, opening, whole))
    assert blanks(job_of(WALL, opening, replace(whole, depth=None)))["E3"].fields == ("depth",)
    assert not blanks(job_of(WALL, opening, replace(whole, depth=None, retired=TODAY)))


def test_watts_wait_for_the_circuit_and_none_are_asked_of_what_takes_none() -> None:
    box = make(Box, "B1", name="Low", what="receptacle", wall=Ref("W1"), circuit=Ref("C1"))
    lamp = make(Equipment, "E1", name="lamp", power="cord", plug=Ref("B1"))
    job = job_of(WALL, make(Circuit, "C1", name="one"), box, lamp)
    assert blanks(job)["E1"].waits == ("B1", "C1")
    assert blanks(job)["E1"].fields == ("watts",)
    assert not blanks(job.having(replace(lamp, watts=20.0)))
    assert not blanks(job.having(replace(lamp, power="none")))


def test_a_stop_is_danger_until_it_is_answered_or_mended() -> None:
    job = starter()
    (line,) = [each for each in due(job) if each.group == "danger"]
    assert line.key == "stop:cable_not_rated"
    assert line.tags == ("K9",)
    assert line.place.key == "cable_not_rated:K9"
    (stop,) = [each for each in findings(job) if each.severity == "stop"]
    answer = Answer(
        tag=stop.key, by="R. Wells", office="Building department", reference="R-1147", date=job.today,
        says="allowed in this wall by the office", vouches=stop.numbers,
    )  # fmt: skip
    allowed = replace(stop, rule="another", final=False, answer=replace(answer, tag="another:K9"))
    assert allowed.answered
    assert [each for each in agenda(job, standing(job), [allowed], {}) if each.group == "danger"] == []
    cable = job.of(Cable)["K9"]
    assert keys(job.having(replace(cable, rating="CL3")), "danger") == []


def test_the_items_of_each_trade_are_counted_as_the_gate_counts_them() -> None:
    job = starter()
    now = standing(job)
    lines = [each for each in due(job) if each.key.startswith("items:")]
    assert sum(len(each.tags) for each in lines) == len(now.open) == sum(each.kind == "item" for each in now.holds)
    counts = [len(each.tags) for each in lines]
    assert counts == sorted(counts, reverse=True)
    assert all(each.what.endswith(f"{len(each.tags)} items open") for each in lines if len(each.tags) > 1)


def test_photos_are_told_while_the_wall_is_open_only() -> None:
    photos = [each for each in due(starter()) if each.group == "photo"]
    assert [each.key for each in photos] == ["photo:W1", "photo:", "photo:W2"]
    assert all(key.endswith("/photographed") or key.startswith("Q") for each in photos for key in each.tags)
    early = job_of(WALL, make(Check, "Q1", what="Photo", trade="owner", wants="photo"), **NO_PERMIT)
    assert keys(early, "photo") == []


def test_a_person_is_called_once_for_all_that_there_is_to_say_and_not_when_done() -> None:
    who = make(Contact, "T1", name="Kim", trade="carpenter", call_on=TODAY, insured_until=date(2026, 1, 1))
    step = make(Step, "S1", what="Frame", who=Ref("T1"))
    (line,) = [each for each in due(job_of(who, step)) if each.group == "days"]
    assert line.key == "call:T1"
    assert "the day you" in line.do
    assert "insurance ended" in line.do
    assert keys(job_of(replace(who, state="done"), step), "days") == []
    far = replace(who, call_on=TODAY + timedelta(days=90), insured_until=None, state="booked")
    assert keys(job_of(far), "days") == []


def test_the_day_to_order_by_is_told_two_weeks_ahead_and_lead_days_are_asked_for() -> None:
    thing = make(Equipment, "E1", name="TV", lead=10, tested=TODAY + timedelta(days=20))
    (line,) = [each for each in due(job_of(thing)) if each.key == "order:E1"]
    assert line.day == TODAY + timedelta(days=10)
    assert keys(job_of(replace(thing, lead=2)), "days") == [], "the day is still far"
    assert keys(job_of(replace(thing, lead=None)), "days") == ["lead"]
    assert keys(job_of(replace(thing, state="owned")), "days") == []


def test_what_can_go_back_is_to_be_tried_before_its_day() -> None:
    thing = make(Equipment, "E1", name="TV", state="owned", return_by=TODAY + timedelta(days=5))
    assert keys(job_of(thing), "days") == ["return:E1"]
    assert keys(job_of(replace(thing, tested=TODAY)), "days") == []


def test_packets_wait_to_be_sent_told_of_and_signed() -> None:
    who = make(Contact, "T1", name="Kim", trade="carpenter", state="booked")
    step = make(Step, "S1", what="Frame", who=Ref("T1"))
    job = job_of(who, step)
    assert [each.what for each in due(job) if each.group == "packet"] == ["Send T1 Kim the packet"]
    given = make(Handoff, "H1", trade="carpenter", contact=Ref("T1"), given=TODAY)
    assert [each.what for each in due(job_of(who, step, given)) if each.group == "packet"] == [
        "H1 not signed back: T1 Kim"
    ]
    told = due(job_of(who, step, given), {"carpenter": 3})
    assert [each.what for each in told if each.group == "packet"] == ["Tell T1 Kim about 3 changes"]
    assert keys(job_of(who, step, replace(given, signed=TODAY)), "packet") == []


def test_a_long_group_is_cut_with_its_number_and_leads_to_the_list() -> None:
    things: list[Record] = [make(Equipment, f"E{n}", name=f"thing {n}", power="cord") for n in range(1, 31)]
    lines = [each for each in due(job_of(*things)) if each.group == "missing"]
    assert len(lines) == MOST + 1
    assert lines[-1].what == f"{30 - MOST} more things with blank figures"
    assert len(lines[-1].tags) == 30 - MOST
    assert lines[-1].place.list == "equipment"


def test_a_stage_that_nothing_holds_is_to_be_moved_on_from() -> None:
    read = [make(Reading, f"D{n}", wall=Ref("W1"), what=what, value="100") for n, what in ((1, "width"), (2, "height"))]
    assert keys(job_of(WALL, *read), "stage") == ["ready"]
    assert keys(job_of(), "stage") == ["hold:walls"]


def test_every_line_has_a_name_of_its_own_and_the_groups_stand_in_their_order() -> None:
    for job in (starter(), starter("media-wall")):
        lines = due(job)
        assert len({each.key for each in lines}) == len(lines)
        places = [GROUPS.index(each.group) for each in lines]
        assert places == sorted(places)


def test_what_to_look_up_goes_on_a_line() -> None:
    sizes, clear = ("width", "height", "depth", "weight"), ("clearance left", "clearance above")
    assert _wanted("E4 Receiver: look up", sizes) == "E4 Receiver: look up width, height, depth and 1 more"
    assert _wanted("E3 Fireplace, made to be recessed: look up", sizes).endswith("look up width and 3 more")
    assert _wanted("E4 Receiver: look up", clear) == "E4 Receiver: look up 2 clearances"
    assert _wanted("E4 Receiver: look up", clear[:1]) == "E4 Receiver: look up clearance left"


def test_what_is_found_after_close_in_is_still_to_do_in_a_wall_that_is_in_use() -> None:
    job = job_of(make(Check, "Q1", what="Blocks in", trade="carpenter"))
    now = standing(job, [])
    used = replace(now, stage="In use", next=None, holds=(), found_after=now.open[:1])
    (line,) = [each for each in agenda(job, used, [], {}) if each.group == "stage"]
    assert (line.what, line.place.list, line.place.key) == ("Found after close-in: Q1", "items", "Q1")
    assert not [each for each in agenda(job, replace(used, found_after=()), [], {}) if each.group == "stage"]
