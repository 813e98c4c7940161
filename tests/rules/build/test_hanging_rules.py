"""What hangs on the wall: both sides of each limit, and the blocking that it needs."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from store.measure.mass import parse_mass
from store.records.base import Record
from store.records.build import Fixing
from store.records.wall import BuildOut
from store.records.whole import Job
from store.rules.core.amounts import NEWTON_PER_LBF
from store.rules.core.checks import rough_in
from tests.jobs.wall_jobs import ROOM as UNREAD
from tests.jobs.wall_jobs import device, figure, found, job_of, length, made, one, opening, wall

ROOM = (wall(first_stud=16), *UNREAD[1:])
"""A wall of 144 x 96 in with studs at 16 in."""


def hung(weight: str = "60 lb", *, more: tuple[Record, ...] = (), tv: Any = None, on: Any = None, **values: Any) -> Job:
    """A TV 60 in wide and 4 in deep on a bracket, four lag screws 5/16 x 3 into studs, rows 8 in apart."""
    given = {"of": "E1", "what": "lag 5/16", "count": 4, "into": "stud", "length": 3, "apart": 8, **values}
    screen = {"what": "screen", "weight": parse_mass(weight), "mounting": "wall bracket", **(tv or {})}
    plain = {key: value for key, value in screen.items() if value is not None}
    walls = ROOM if on is None else (*(each for each in ROOM if each.tag != "W1"), on)
    return job_of(
        *walls, opening("N1", 20, 40, 80, 40, use="screen"), device("E1", 60, 34, 4, **plain),
        made(Fixing, "X1", **given), *more,
    )  # fmt: skip


RULES = ("board_alone", "fixing_too_weak", "fixing_unknown", "no_stud_there")


def told(job: Job) -> list[str]:
    return [each.rule for rule in RULES for each in found(job, rule)]


def test_a_flat_tv_on_four_lag_screws_holds_many_times() -> None:
    # Lever 2 in: pull 60 · 2 / 8 / 2 = 7.5 lb, down 15 lb: 16.77 lb at their angle.
    job = hung()
    assert told(job) == []
    assert figure(job, "X1", "needed_n") == pytest.approx(16.77 * NEWTON_PER_LBF, abs=0.05)
    assert figure(job, "X1", "margin") > 5
    # 3 in less 1/2 in of board, 0.075 of plate and a tip of 3/16, and at most two thirds of it threaded: 1.8125.
    pull, down = 204.78 * 1.8125, 178 * 1.8125 / 2.5
    at_angle = pull * down / (pull * (15 / 16.77) ** 2 + down * (7.5 / 16.77) ** 2)
    assert figure(job, "X1", "allowed_n") == pytest.approx(at_angle * NEWTON_PER_LBF, rel=0.01)


@pytest.mark.parametrize("into", [{"into": "drywall"}, {"what": "toggle bolt"}, {"what": "drywall anchor"}])
def test_board_alone_is_a_stop_for_what_matters_whatever_is_printed_on_the_anchor(into: dict[str, Any]) -> None:
    job = hung(rated=parse_mass("200 lb"), **into)
    assert one(job, "board_alone").severity == "stop"
    assert told(job) == ["board_alone"]


def test_board_may_hold_a_small_speaker_within_its_rating() -> None:
    small = {"what": "speaker"}
    assert told(hung("8 lb", tv=small, into="drywall", what="toggle bolt", rated=parse_mass("20 lb"))) == []
    assert told(hung("8 lb", tv=small, into="drywall", what="toggle bolt")) == ["fixing_unknown"]
    assert told(hung("19 lb", tv=small, into="drywall", what="toggle bolt", rated=parse_mass("5 lb"))) == [
        "fixing_too_weak"
    ]
    assert told(hung("20 lb", tv=small, into="drywall", what="toggle bolt", rated=parse_mass("50 lb"))) == [
        "board_alone"
    ]


def mount() -> Record:
    """A swing arm of 20 lb that reaches 22 in."""
    return device("E2", 10, 10, 2, what="mount", weight=parse_mass("20 lb"), mounting="wall bracket", reach=22)


def test_an_arm_pulls_with_its_whole_reach_and_is_wanted_twice() -> None:
    # 60 lb 24 in out (22 in and half of 4 in) and the arm 20 lb half-way: (1440 + 220) / 8 / 2 = 103.75 lb; down 20 lb.
    job = hung("60 lb", more=(mount(),), of="E2")
    assert figure(job, "X1", "needed_n") == pytest.approx((103.75**2 + 20**2) ** 0.5 * NEWTON_PER_LBF, abs=0.1)
    assert told(job) == []
    # On No. 10 x 3 screws: 95.5 lb an inch, 1.8 in or so; it holds, but not twice.
    weak = hung("60 lb", more=(mount(),), of="E2", what="wood screw 10")
    assert one(weak, "fixing_too_weak").severity == "look"
    assert 1 < figure(weak, "X1", "margin") < 2
    none = hung("60 lb", more=(mount(),), of="E2", what="steel screw 8", into="steel 18 mil")
    assert one(none, "fixing_too_weak").severity == "stop"
    assert figure(none, "X1", "screws_needed") > 8


def test_the_same_fixing_of_the_tv_counts_its_mount_too() -> None:
    assert figure(hung(more=(mount(),)), "X1", "needed_n") == figure(hung(more=(mount(),), of="E2"), "X1", "needed_n")


def test_both_sides_of_the_limit() -> None:
    # On No. 8 screws in 18 mil steel, rows 8 in apart: found by halving the weight.
    weights = range(20, 400)
    steel: dict[str, Any] = {"what": "steel screw 8", "into": "steel 18 mil"}
    weak = [each for each in weights if found(hung(f"{each} lb", **steel), "fixing_too_weak")]
    assert weak, "no weight is too much"
    first = weak[0]
    assert weak == list(range(first, 400))
    assert figure(hung(f"{first - 1} lb", **steel), "X1", "margin") >= 1
    assert figure(hung(f"{first} lb", **steel), "X1", "margin") < 1


@pytest.mark.parametrize(
    ("values", "missing"),
    [
        ({"apart": None}, "rows apart"), ({"length": None}, "screw length"), ({"what": "unknown"}, "screw"),
        ({"into": "unknown"}, "what it goes into"), ({"tv": {"weight": None}}, "weight of E1"),
        ({"what": "steel screw 8"}, "steel screw 8 into stud"),
        ({"into": "masonry", "what": "masonry anchor"}, "rated"),
    ],
)  # fmt: skip
def test_what_is_missing_is_asked_for(values: dict[str, Any], missing: str) -> None:
    finding = one(hung(**values), "fixing_unknown")
    assert missing in finding.says
    assert finding.severity == "look"


def test_a_stud_that_is_not_there_is_told() -> None:
    # Studs at 16 and 32 in: a speaker 6 in wide in the middle of 17 to 31 has none behind it.
    def small(x: float) -> Job:
        return job_of(
            *ROOM, opening("N1", x, 40, 8, 12), device("E1", 6, 10, 4, what="speaker", weight=parse_mass("9 lb")),
            made(Fixing, "X1", of="E1", what="lag 1/4", count=2, into="stud", length=3, apart=6),
        )  # fmt: skip

    assert told(small(20)) == ["no_stud_there"]
    assert told(small(28)) == []


def test_a_cabinet_hangs_with_its_own_boards_and_books() -> None:
    values = {"use": "shelf", "material": "plywood", "thickness": "3/4 in", "depth": 12}
    job = job_of(
        *ROOM, opening("N1", 10, 40, 36, 24, **values),
        made(Fixing, "X1", of="N1", what="wood screw 10", count=4, into="stud", length=3, apart=20),
    )  # fmt: skip
    # 60 lb of books; 37 lb/ft³: two sides 24 x 12, top and bottom 36 x 12, a back 36 x 24 of 1/4 in: 27.75 lb.
    weight = 60 + 37 * 0.75 / 12 * (2 * 2 + 2 * 3) + 37 * 0.25 / 12 * 6
    lines = figure(job, "X1", "hold_lines")
    assert f"{weight:.0f} lb" in lines[0]
    assert told(job) == []


def test_blocking_is_listed_checked_and_vouched_for() -> None:
    job = hung(into="blocking")
    # The TV is 60 in wide about 60 in: from 30 to 90 on a layout of 16 in; rows 8 in apart about the middle at 60 in.
    lines = figure(job, "X1", "blocking")
    assert lines
    assert all("14-1/2" in line for line in lines)
    (check,) = [each for each in rough_in(job) if each.key == "X1/blocking"]
    assert check.trade == "carpenter"
    assert "E1" in check.tags
    moved = hung(into="blocking", apart=12)
    (other,) = [each for each in rough_in(moved) if each.key == "X1/blocking"]
    assert other.vouches != check.vouches
    assert not [each for each in rough_in(hung()) if each.key == "X1/blocking"]


def test_what_is_gone_holds_nothing() -> None:
    assert figure(hung(tv={"retired": date(2026, 1, 1)}), "X1", "margin") is None
    assert told(hung(tv={"retired": date(2026, 1, 1)}, into="drywall")) == []


def test_a_wall_without_studs_noted_says_nothing_of_them() -> None:
    assert told(hung(on=wall())) == []


def on_wall(what: str, **values: Any) -> Job:
    """Something 36 x 1-1/2 in, 10 in deep on the wall itself at 72 in, on four No. 10 x 3 screws, rows 1 in apart."""
    screws = {"what": "wood screw 10", "count": 4, "into": "stud", "length": 3, "apart": 1, **values.pop("screws", {})}
    given = {
        "what": what,
        "opening": "",
        "wall": "W1",
        "x": length(72),
        "y": length(60),
        "mounting": "unknown",
        **values,
    }
    return job_of(*ROOM, device("E1", 36, 1.5, 10, **given), made(Fixing, "X1", of="E1", **screws))


def test_a_floating_shelf_hangs_with_its_board_and_books() -> None:
    # White oak 45 lb/ft³: 36 x 10 x 1.5 in is 14.06 lb; books 60 lb; 5 in out: 74.06 x 5 / 1 / 2 = 185.2, down 18.5 lb.
    job = on_wall("floating shelf", material="white oak")
    needed = ((74.0625 * 5 / 2) ** 2 + (74.0625 / 4) ** 2) ** 0.5
    assert figure(job, "X1", "needed_n") == pytest.approx(needed * NEWTON_PER_LBF, abs=0.05)
    assert told(job) == []
    thin = {"what": "steel screw 8", "into": "steel 18 mil"}
    assert one(on_wall("floating shelf", material="white oak", screws=thin), "fixing_too_weak").severity == "stop"
    # Rows 4 in apart, as on a cleat, pull a quarter; board alone is never enough.
    assert told(on_wall("floating shelf", material="white oak", screws={"apart": 4})) == []
    assert told(on_wall("floating shelf", material="white oak", screws={"into": "drywall"})) == ["board_alone"]
    assert "weight of E1" in one(on_wall("floating shelf"), "fixing_unknown").says
    heavier = on_wall("floating shelf", material="white oak", load=parse_mass("120 lb"))
    assert figure(heavier, "X1", "needed_n") == pytest.approx(
        figure(job, "X1", "needed_n") * (120 + 14.0625) / 74.0625, rel=1e-4
    )


def test_what_its_bracket_holds_off_the_wall_is_lever_too() -> None:
    # A sound bar of 10 lb, 10 in deep: 5 in out, and 2 in more on its bracket.
    near, off = (on_wall("soundbar", weight=parse_mass("10 lb"), off_wall=out) for out in (None, length(2)))
    pull = {5: (10 * 5 / 2, 2.5), 7: (10 * 7 / 2, 2.5)}
    for job, out in ((near, 5), (off, 7)):
        both = (pull[out][0] ** 2 + pull[out][1] ** 2) ** 0.5
        assert figure(job, "X1", "needed_n") == pytest.approx(both * NEWTON_PER_LBF, abs=0.05)


def test_the_screws_of_a_standing_cabinet_hold_it_back_and_carry_nothing() -> None:
    values = {"use": "drawer", "hinge": "drawer", "material": "plywood", "thickness": "3/4 in"}
    job = job_of(
        *ROOM, opening("N1", 10, 0, 30, 36, **values),
        made(Fixing, "X1", of="N1", what="wood screw 10", count=2, into="stud", length=3),
    )  # fmt: skip
    tie = max(figure(job, "N1", "tie_back_n"), 60 * NEWTON_PER_LBF)
    assert figure(job, "X1", "needed_n") == pytest.approx(tie / 2, rel=0.01)
    assert told(job) == []  # no rows apart is asked for
    assert figure(job, "X1", "screws_needed") == 1


def test_on_a_build_out_the_studs_are_those_of_what_holds_it() -> None:
    def out(work: str, **values: Any) -> Job:
        one = made(BuildOut, "U1", name="box", wall="W1", x=length(40), width=length(64), depth=length(20), work=work)
        screws = {"into": "stud", **values.pop("screws", {})}
        job = on_wall("soundbar", weight=parse_mass("10 lb"), screws=screws, **values)
        return job.having(one)

    assert one(out("cabinet"), "no_stud_there").says.count("cabinet work") == 1
    assert "masonry" in one(out("masonry"), "no_stud_there").says
    assert told(out("framing")) == []
    assert figure(out("cabinet", screws={"into": "blocking"}), "X1", "blocking") is None
    # Under a soffit it pulls straight down on its screws.
    under = job_of(
        *ROOM,
        made(BuildOut, "U1", name="soffit", wall="W1", x=length(40), width=length(64), depth=length(20), y=length(80)),
        device("E1", 36, 1.5, 10, what="soundbar", opening="", wall="W1", x=length(72), y=length(79), face="underside",
               on="U1", weight=parse_mass("10 lb")),
        made(Fixing, "X1", of="E1", what="wood screw 10", count=4, into="stud", length=3, apart=1),
    )  # fmt: skip
    assert figure(under, "X1", "needed_n") == pytest.approx(2.5 * NEWTON_PER_LBF, abs=0.05)


def test_the_sum_can_be_followed_to_who_decides() -> None:
    lines = figure(hung(), "X1", "hold_lines")
    assert any("1.81 in bites" in line for line in lines), lines
    assert any("1800 G^1.5 D^0.75 = 205 lb an inch" in line for line in lines)
    assert "licensed person" in lines[-1]
