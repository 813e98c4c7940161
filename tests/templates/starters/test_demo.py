"""The demo is a wall that could be built: it holds together, never ages, and has two mistakes, both planted."""

from __future__ import annotations

import re
from collections import Counter
from datetime import date
from itertools import combinations, pairwise
from pathlib import Path

import pytest

from store.book.book import Book
from store.book.changes import add
from store.measure.length import INCH_NM, Length
from store.records.access import Panel, Visit
from store.records.equipment import Equipment
from store.records.gate import Check, Closing, Passage
from store.records.people import Amount, Contact, Handoff, Step, Wish
from store.records.wall import Obstacle, Opening, Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.core.checks import rough_in
from store.rules.core.findings import findings
from store.rules.gate.gate import passage, standing
from store.rules.gate.guard import Held
from store.rules.wall.readings import sizes
from store.trade.cable import jackets
from store.trade.cable.types import CABLE_TYPES
from store.trade.fit import pieces
from store.trade.heat import heater
from store.trade.measured import framing
from store.trade.power import box_fill
from templates.starters import load
from tests.jobs.begun import begun
from tests.jobs.proofs import sound, take_picture

TODAY = date(2026, 10, 14)
DAYS = (date(2026, 12, 31), date(2028, 2, 29), date(2039, 7, 3))
ONE_GANG_NM, MORE_GANG_NM = 9 * INCH_NM // 4, 29 * INCH_NM // 16
"""Width of a one-gang box, and what each further gang adds: common practice, no source."""

Rect = tuple[int, int, int, int]


def demo(folder: Path, today: date = TODAY) -> Book:
    """A fresh demo, read back from its file."""
    path = folder / "demo.json"
    return begun(path, "demo", today)


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Job:
    return demo(tmp_path_factory.mktemp("demo")).job


def nm(length: Length | None) -> int:
    """Nanometres of a length that has to be there."""
    assert length is not None
    return length.nm


def place(one: Opening | Obstacle | Panel) -> Rect:
    """Left, bottom, right, top."""
    x, y = nm(one.x), nm(one.y)
    return x, y, x + nm(one.width), y + nm(one.height)


def box_place(one: Box) -> Rect:
    """A box as a rectangle of the usual width and of the usual 3 3/4 in height round its centre."""
    half = (ONE_GANG_NM + (one.gangs - 1) * MORE_GANG_NM) // 2
    high = 15 * INCH_NM // 8
    return nm(one.x) - half, nm(one.y) - high, nm(one.x) + half, nm(one.y) + high


def meet(one: Rect, other: Rect) -> bool:
    """Whether two rectangles share more than an edge."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def inside(inner: Rect, outer: Rect) -> bool:
    return outer[0] <= inner[0] and outer[1] <= inner[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


# --- what is promised ---


def test_it_says_that_it_is_invented(job: Job) -> None:
    assert "invented" in job.settings.notes
    assert job.settings.name.startswith("Demo")


@pytest.mark.parametrize(
    ("cls", "least", "most"),
    [
        (Wall, 2, 2), (Reading, 16, 20), (Obstacle, 8, 8), (Opening, 12, 12), (Equipment, 20, 20), (Box, 12, 16),
        (Circuit, 5, 5), (Cable, 18, 20), (Raceway, 3, 3), (Panel, 6, 6), (Visit, 6, 10), (Check, 40, 40),
        (Contact, 6, 6), (Step, 10, 12), (Amount, 6, 10), (Handoff, 2, 2), (Wish, 4, 4), (Passage, 3, 3),
    ],
)  # fmt: skip
def test_it_has_enough_of_each_kind(job: Job, cls: type, least: int, most: int) -> None:
    assert least <= len(job.of(cls)) <= most


def test_things_are_in_every_state_of_buying(job: Job) -> None:
    states = Counter(one.state for one in job.of(Equipment).values())
    assert min(states["to buy"], states["ordered"], states["owned"]) >= 5


def test_prices_return_days_watts_and_clearances_are_noted(job: Job) -> None:
    things = job.of(Equipment).values()
    assert sum(one.price is not None for one in things) >= 15
    assert sum(one.return_by is not None and one.return_by > TODAY for one in things) >= 5
    assert sum(one.watts is not None for one in things) >= 12
    for one in things:
        if one.opening:
            asked = (one.clear_left, one.clear_right, one.clear_top, one.clear_bottom, one.clear_front, one.clear_back)
            assert None not in asked, one.tag


def test_telephones_and_mail_are_of_the_kinds_kept_free(job: Job) -> None:
    for one in job.of(Contact).values():
        assert one.phone.startswith("555-01")
        assert len(one.phone) == len("555-0100")
        assert one.mail.endswith("@example.com")


def test_one_paper_of_insurance_ran_out(job: Job) -> None:
    out = [one.tag for one in job.of(Contact).values() if one.insured_until and one.insured_until < TODAY]
    assert out == ["T3"]
    assert ("insurance_ran_out", ("T3",)) in {(each.rule, each.tags) for each in findings(job)}


# --- where it stands ---


def test_it_is_at_rough_in_and_open_items_hold_the_drywall(job: Job) -> None:
    now = standing(job)
    assert (now.stage, now.next, now.claimed) == ("Rough-in", "Drywall", None)
    by_hand = [item for item in now.open if item.check.key in job.of(Check)]
    assert len(by_hand) >= 12
    assert {item.key for item in by_hand} <= {hold.key for hold in now.holds if hold.strict}


def test_items_are_closed_on_evidence_and_one_is_not_needed_for_a_reason(job: Job) -> None:
    closings = [each for each in job.of(Closing).values() if each.tag in job.of(Check)]
    assert len(closings) == 27
    assert all(each.evidence and each.by for each in closings if each.outcome == "closed")
    assert [each.tag for each in closings if each.outcome == "not needed" and each.reason] == ["Q26"]
    open_keys = {item.key for item in standing(job).open}
    assert not open_keys & {each.tag for each in closings}


def test_the_gate_lets_nobody_past(tmp_path: Path) -> None:
    book = demo(tmp_path)
    with pytest.raises(Held, match="Drywall locked"):
        book.act("Pass to Drywall", lambda now: [add(passage(now, "Robin", "it is only a demo"))])
    assert standing(book.job).stage == "Rough-in"


def test_closing_what_is_open_takes_it_off_the_holds(tmp_path: Path) -> None:
    book = demo(tmp_path)
    checks = {check.key: check for check in rough_in(book.job)}
    open_keys = [item.key for item in standing(book.job).open]
    take_picture(book.path.parent)
    book.act("Close all", [add(sound(checks[key], "Robin", TODAY), keep_tag=True) for key in open_keys])
    assert not standing(book.job).open


@pytest.mark.parametrize("today", DAYS)
def test_it_stays_in_the_middle_of_its_work_whatever_the_day(today: date, job: Job, tmp_path: Path) -> None:
    later = demo(tmp_path, today).job
    assert [hold.key for hold in standing(later).holds] == [hold.key for hold in standing(job).holds]
    assert standing(later).stage == "Rough-in"
    assert [(each.rule, each.tags) for each in findings(later)] == [(each.rule, each.tags) for each in findings(job)]


def test_every_day_of_the_demo_is_told_from_today() -> None:
    def days(today: date) -> dict[tuple[str, str], int]:
        """How far each day of the demo is from today, but for the one that is told by its name."""
        return {
            (put.tag, key): (date.fromisoformat(value) - today).days
            for put in load("demo", today)
            for key, value in put.fields.items()
            if isinstance(value, str) and re.fullmatch(r"\d{4}-\d\d-\d\d", value) and (put.tag, key) != ("S8", "booked")
        }

    early, late = days(DAYS[0]), days(DAYS[-1])
    assert len(early) > 100
    assert early == late


@pytest.mark.parametrize("today", [date(2026, 10, day) for day in range(12, 19)])
def test_the_inspection_is_booked_on_a_working_day_that_leaves_time(today: date) -> None:
    booked = next(put.fields["booked"] for put in load("demo", today) if put.tag == "S8")
    day = date.fromisoformat(booked)
    assert day.weekday() == 4
    assert 5 <= (day - today).days <= 11


def test_what_is_done_is_past_and_in_order(job: Job) -> None:
    assert all(each.date <= TODAY for each in job.of(Closing).values())
    assert all(each.date <= TODAY for each in job.of(Visit).values())
    passed = [each.date for each in job.of(Passage).values()]
    assert passed == sorted(passed)
    steps = job.of(Step)
    for one in steps.values():
        for before in one.after:
            done = steps[before].done
            if one.began is not None:
                assert done is not None, (one.tag, before)
                assert done <= one.began, (one.tag, before)
    for thing in job.of(Equipment).values():
        if thing.state == "to buy":
            assert (thing.ordered, thing.arrived, thing.paid) == (None, None, None), thing.tag
        if thing.state == "ordered":
            assert thing.ordered is not None, thing.tag
            assert thing.arrived is None, thing.tag
    for cable in job.of(Cable).values():
        assert cable.state in ("planned", "bought", "pulled")


# --- the wall ---


def test_readings_of_one_size_spread_a_little_and_within_the_tolerance(job: Job) -> None:
    found = sizes(job)
    for wall in job.of(Wall):
        for what in ("width", "height", "diagonal"):
            size = found[wall, what]
            assert len(size.tags) >= 2
            assert 0 < size.spread.nm <= job.settings.tolerance.nm, (wall, what)


def test_diagonals_are_those_of_a_wall_nearly_square(job: Job) -> None:
    found = sizes(job)
    for wall in job.of(Wall):
        width, height = found[wall, "width"].least.nm, found[wall, "height"].least.nm
        square = (width**2 + height**2) ** 0.5
        assert abs(found[wall, "diagonal"].least.nm - square) < INCH_NM / 8


def rect_of(wall: str, job: Job) -> Rect:
    found = sizes(job)
    return 0, 0, found[wall, "width"].least.nm, found[wall, "height"].least.nm


def on_the_wall(job: Job) -> list[Opening | Obstacle]:
    """What takes up the face of a wall: the openings, and what was there before."""
    return [*job.of(Opening).values(), *job.of(Obstacle).values()]


def test_everything_lies_within_its_wall(job: Job) -> None:
    placed: list[Opening | Obstacle | Panel] = [*on_the_wall(job), *job.of(Panel).values()]
    for one in placed:
        assert inside(place(one), rect_of(one.wall, job)), one.tag
    for tag, box in job.of(Box).items():
        assert inside(box_place(box), rect_of(box.wall, job)), tag


def test_openings_keep_clear_of_each_other_and_of_what_is_there(job: Job) -> None:
    things = [(each.tag, each.wall, place(each)) for each in on_the_wall(job)]
    for (tag, wall, one), (other_tag, other_wall, other) in combinations(things, 2):
        assert wall != other_wall or not meet(one, other), (tag, other_tag)


def test_boxes_keep_clear_of_each_other_of_studs_and_of_what_is_there(job: Job) -> None:
    boxes = [(tag, one.wall, box_place(one)) for tag, one in job.of(Box).items()]
    for (tag, wall, one), (other_tag, other_wall, other) in combinations(boxes, 2):
        assert wall != other_wall or not meet(one, other), (tag, other_tag)
    for tag, wall, one in boxes:
        for other_tag, obstacle in job.of(Obstacle).items():
            assert wall != obstacle.wall or not meet(one, place(obstacle)), (tag, other_tag)
        frame = job.of(Wall)[wall]
        for stud in framing.studs(rect_of(wall, job)[2], nm(frame.spacing), nm(frame.first_stud)):
            assert not (one[0] < stud.left_nm and stud.right_nm < one[2]), (tag, stud)
            assert not stud.left_nm < nm(job.of(Box)[tag].x) < stud.right_nm, (tag, stud)


def test_a_box_lies_in_the_opening_through_which_it_is_reached(job: Job) -> None:
    for tag, box in job.of(Box).items():
        way = job.get(box.reached)
        if isinstance(way, Opening | Panel):
            assert inside(box_place(box), place(way)), tag


def test_a_panel_has_what_it_says_behind_it(job: Job) -> None:
    for tag, panel in job.of(Panel).items():
        boxes = [one for each in panel.behind if isinstance(one := job.get(each), Box)]
        for box in boxes:
            assert panel.wall == box.wall
            assert meet(place(panel), box_place(box)), tag


# --- the two planted mistakes, and no third ---


def fit_of(one: Equipment, opening: Opening) -> pieces.Fit:
    size = pieces.Size(nm(one.width), nm(one.height), nm(one.depth))
    clear = pieces.Clearances(
        nm(one.clear_left), nm(one.clear_right), nm(one.clear_top),
        nm(one.clear_bottom), nm(one.clear_front), nm(one.clear_back),
    )  # fmt: skip
    outer = pieces.Size(nm(opening.width), nm(opening.height), nm(opening.depth))
    space = pieces.clear_size(outer, opening.thickness.nm if opening.thickness else 0)
    return pieces.fit(size, clear, space, offset_nm=one.offset.nm if one.offset else None)


def test_everything_fits_its_opening_but_the_receiver(job: Job) -> None:
    openings = job.of(Opening)
    looked = {tag: fit_of(one, openings[one.opening]) for tag, one in job.of(Equipment).items() if one.opening}
    assert [tag for tag, each in looked.items() if each.verdict == "does not fit"] == ["E3"]
    assert all(each.verdict != "not known" for each in looked.values())
    receiver = looked["E3"]
    assert (receiver.depth_spare_nm or 0) < 0
    assert (receiver.width_spare_nm or 0) > 0
    assert (receiver.height_spare_nm or 0) > 0


def test_what_stands_side_by_side_has_its_clearances(job: Job) -> None:
    for opening in job.of(Opening):
        row = [one for one in job.of(Equipment).values() if one.opening == opening and one.offset is not None]
        row.sort(key=lambda one: nm(one.offset))
        for left, right in pairwise(row):
            gap = nm(right.offset) - nm(left.offset) - nm(left.width)
            assert gap >= max(nm(left.clear_right), nm(right.clear_left)), (left.tag, right.tag)


def test_every_cable_may_lie_in_the_wall_but_the_lamp_cord(job: Job) -> None:
    unfit = []
    for tag, one in job.of(Cable).items():
        kind = CABLE_TYPES[one.type]
        verdict = jackets.in_wall(kind.needs, one.rating, kind.outside_nm, small_dwelling=True)
        if one.in_wall and not verdict.ok:
            unfit.append(tag)
    assert unfit == ["K9"]


def parse_wires(text: str) -> box_fill.Cable:
    """`12-2 G` as the box fill has it."""
    gauge, wires = text.split()[0].split("-")
    return box_fill.Cable(int(gauge), int(wires), ground=text.endswith("G"))


def test_power_boxes_are_roomy_enough(job: Job) -> None:
    for tag, box in job.of(Box).items():
        if not box.circuit:
            continue
        cables = [one for one in job.of(Cable).values() if tag in (one.start, one.end) and one.type.startswith("nm-")]
        wires = box.conductors or tuple(f"{one.type.removeprefix('nm-')} G" for one in cables)
        devices = tuple(
            box_fill.Device(f"{name} {number}", int(gauge))
            for number, (name, gauge) in enumerate(each.rsplit(" ", 1) for each in box.devices)
        )
        contents = box_fill.BoxContents(tuple(map(parse_wires, wires)), devices, box.clamps)
        assert wires, tag
        assert box.volume is not None
        assert box_fill.box_fill(contents, 2020).total_in3 <= box.volume, tag


def test_a_wire_suits_its_breaker_all_along_its_circuit(job: Job) -> None:
    for cable in job.of(Cable).values():
        box = job.get(cable.end)
        if cable.type.startswith("nm-") and isinstance(box, Box):
            assert cable.type == f"nm-{job.of(Circuit)[box.circuit].conductor}-2", cable.tag


def test_the_fireplace_is_made_to_be_recessed_and_alone_on_a_circuit_that_suits_it(job: Job) -> None:
    one = job.of(Equipment)["E2"]
    assert (one.what, one.mounting, one.watts) == ("fireplace", "made to be recessed", 1500)
    box = job.of(Box)[one.plug]
    circuit = job.of(Circuit)[box.circuit]
    figures = heater.heater_figures(1500, volts=120)
    assert circuit.only_for == "E2"
    assert (circuit.breaker, circuit.conductor) == (figures.planned.breaker_a, str(figures.planned.gauge))
    assert [each.tag for each in job.of(Box).values() if each.circuit == box.circuit] == [box.tag]
    assert [each.tag for each in job.of(Equipment).values() if each.plug == box.tag] == ["E2"]


def test_no_place_to_plug_in_is_used_twice(job: Job) -> None:
    used = Counter(one.plug for one in job.of(Equipment).values() if one.power in ("cord", "wall-wart"))
    for tag, count in used.items():
        where = job.get(tag)
        assert isinstance(where, Box | Equipment)
        assert count <= (where.receptacles if isinstance(where, Box) else where.places), tag
