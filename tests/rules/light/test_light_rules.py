"""Light tape on a wall: both sides of each limit, with its figures."""

from __future__ import annotations

import math
from typing import Any

import msgspec
import numpy as np
import pytest

from store.measure.length import INCH_NM, MM_NM, Length
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.buying.buying_list import buying_list
from store.rules.light.sight import seen
from store.rules.wall.places import Rect, equipment_rect, wall_of
from tests.jobs.wall_jobs import ROOM, device, figure, found, job_of, length, made, one, opening
from tests.rows import rows

RULES = (
    "driver_headroom", "class_2_output", "tape_too_long", "light_wire_thin", "dimmer_mismatch", "light_glares",
    "light_in_screen",
)  # fmt: skip


def lit(*more: Record, driver: Any = None, wire: float | None = 10, gauge: int = 18, **values: Any) -> Job:
    """16.4 ft of tape at 4.4 W/ft on a 24 V driver of 96 W, 10 ft of 18 AWG to it."""
    tape = {"what": "light", "tape": 16.4 * 12, "per_ft": 4.4, "plug": "E2", "power": "wall-wart", **values}
    made_for = {"what": "driver", "volts": 24.0, "rating": 96.0, "places": 1, **(driver or {})}
    cables = [] if wire is None else [
        made(Cable, "K1", type=f"control-{gauge}-2", start="E2", end="E1", in_wall=False, measured=length(wire * 12))
    ]  # fmt: skip
    return job_of(
        *ROOM, opening("N1", 20, 60, 60, 12), device("E1", 40, 1, 1, **tape), device("E2", 8, 2, 2, **made_for),
        *cables, *more, seat=108, eye=42,
    )  # fmt: skip


def told(job: Job) -> list[tuple[str, str]]:
    return [(each.rule, each.severity) for name in RULES for each in found(job, name)]


def test_a_reel_of_tape_wants_90_watts_of_driver() -> None:
    job = lit()
    assert told(job) == []
    assert figure(job, "E1", "light_w") == pytest.approx(72.16)
    assert figure(job, "E2", "driver_w") == figure(job, "E1", "driver_w") == pytest.approx(90.2)
    assert figure(job, "E2", "driver_size_w") == 96
    # 3.0067 A · 2 · 10 ft · 6.385 Ω/kft = 0.384 V of 24: 1.6 %.
    assert figure(job, "E1", "drop_pct") == pytest.approx(1.6, abs=0.005)


@rows(("watts", "rule"), [(76.8, None), (76.9, "driver_headroom"), (96.0, "driver_headroom")])
def test_a_fifth_of_a_driver_is_kept_free(watts: float, rule: str | None) -> None:
    job = lit(tape=None, watts=watts, driver={"places": 2})
    assert [each for each, _ in told(job)] == ([rule] if rule else [])


@rows(("feet", "severity"), [(18.7, None), (18.9, "look"), (31.2, "look"), (31.4, "fix")])
def test_wire_is_told_past_3_percent_and_mended_past_5(feet: float, severity: str | None) -> None:
    # 72.16 W at 24 V on 18 AWG: 3 % at 18.75 ft, 5 % at 31.25 ft.
    job = lit(wire=feet)
    assert told(job) == ([("light_wire_thin", severity)] if severity else [])
    if severity:
        assert ("16 AWG" if feet < 20 else "14 AWG") in one(job, "light_wire_thin").remedy


def test_a_light_of_12_volts_loses_four_times_as_much() -> None:
    at_12 = lit(driver={"volts": 12.0, "places": 2}, tape=15 * 12)
    at_24 = lit(tape=15 * 12)
    assert figure(at_12, "E1", "drop_pct") == pytest.approx(4 * figure(at_24, "E1", "drop_pct"), abs=0.03)


@rows(
    ("feet", "values", "too_long"),
    [
        (32, {}, False), (32.1, {}, True), (64, {"fed": "middle"}, False), (64.1, {"fed": "both ends"}, True),
        (20, {"longest_run": 19 * 12}, True), (16, {"volts": 12.0}, False), (16.1, {"volts": 12.0}, True),
        (16.1, {"volts": 5.0}, False),
    ],
)  # fmt: skip
def test_tape_reaches_as_far_as_its_feed(feet: float, values: dict[str, Any], too_long: bool) -> None:
    assert bool(found(lit(wire=None, per_ft=0.5, **{**values, "tape": feet * 12}), "tape_too_long")) is too_long


def test_outputs_of_a_driver_are_class_2() -> None:
    # 132 W at 24 V: two outputs of 76.8 W.
    assert one(lit(tape=30 * 12, driver={"rating": 200.0}, wire=None), "class_2_output").severity == "fix"
    assert found(lit(tape=30 * 12, driver={"rating": 200.0, "places": 2}, wire=None), "class_2_output") == []
    assert found(lit(tape=30 * 12, driver={"rating": 200.0, "places": 0}, wire=None), "class_2_output") == []


@rows(
    ("dimmer", "dims", "severity"),
    [
        ("phase", "phase", None), ("phase", "0-10 V", "fix"), ("none", "0-10 V", None), ("unknown", "unknown", None),
        ("phase", "unknown", "look"), ("unknown", "0-10 V", "look"), ("unknown", "none", None),
        ("phase", "none", "fix"),
    ],
)  # fmt: skip
def test_dimmer_and_driver_go_together(dimmer: str, dims: str, severity: str | None) -> None:
    job = lit(driver={"dimmer": dimmer, "dims": dims})
    assert told(job) == ([("dimmer_mismatch", severity)] if severity else [])


def test_a_bare_source_is_seen_from_below_and_a_lip_hides_it() -> None:
    # The tape hangs at 66 in (N1 from 60, 12 high, in the middle); seated eye 42 in up at 108 in: 12.5°.
    assert told(lit(faces="down", mounting="wall bracket")) == [("light_glares", "look")]
    # Standing, 63 in up at 48 in: 3°. A lip of 1 in, 3 in in front: 18.4°.
    assert told(lit(faces="down", mounting="wall bracket", lip=1, lip_behind=3)) == []
    assert told(lit(faces="down", mounting="wall bracket", lip=1, lip_behind=5)) == [("light_glares", "look")]
    assert told(lit(faces="up", mounting="wall bracket")) == []
    assert told(lit(faces="wall", mounting="wall bracket")) == []
    assert told(lit(mounting="wall bracket")) == []


def test_a_lamp_in_the_room_is_seen_in_the_tv() -> None:
    # 65 in picture centered 60 up (44.07 to 75.94): a lamp 72 up at 120 is mirrored at 56.21, one 95 up at 36 is not.
    def lamp(up: float, out: float, across: float | None = None) -> Job:
        screen = device("E3", 57, 32, 3, what="screen", diagonal=65, opening="N2", mounting="wall bracket")
        light = device("E4", 5, 5, 5, what="light", opening="", lamp_up=up, lamp_out=out, lamp_across=across)
        return lit(opening("N2", 40, 40, 64, 40, use="screen"), screen, light)

    seen = lamp(72, 120)
    assert told(seen) == [("light_in_screen", "look")]
    assert figure(seen, "E4", "mirror_up").inches == pytest.approx(56.21, abs=0.01)
    assert told(lamp(95, 36)) == []
    # As far to the right as that its mirror is beyond the picture's edge at 72 + 28.3 in.
    assert told(lamp(72, 120, 72 + 59)) == [("light_in_screen", "look")]
    assert told(lamp(72, 120, 72 + 61)) == []


def ladder(feet: float, amps: float, ohm_per_ft: float, fed: str, sections: int = 400) -> float:
    """Most volts lost along a tape: its nodes solved as a net of resistors with an even draw at each."""
    ohm, draw = feet * ohm_per_ft / sections, amps / sections
    net, drawn = np.zeros((sections + 1, sections + 1)), np.full(sections + 1, draw)
    drawn[[0, -1]] = draw / 2
    for at in range(sections):
        net[at, at] += 1 / ohm
        net[at + 1, at + 1] += 1 / ohm
        net[at, at + 1] -= 1 / ohm
        net[at + 1, at] -= 1 / ohm
    held = {"one end": [0], "both ends": [0, sections], "middle": [sections // 2]}[fed]
    free = [at for at in range(sections + 1) if at not in held]
    return float(np.linalg.solve(net[np.ix_(free, free)], drawn[free]).max())


@pytest.mark.parametrize("fed", ["one end", "both ends", "middle"])
def test_what_the_tape_loses_agrees_with_a_ladder_of_resistors(fed: str) -> None:
    job = lit(fed=fed, tape_ohm=0.04, cut_step=2, leds=36.0)
    lost = ladder(16.4, 72.16 / 24, 0.04, fed)
    assert figure(job, "E1", "tape_drop_pct") == pytest.approx(100 * lost / 24, abs=0.006)
    # With its wire: 0.384 V of 24 is 1.6 %.
    assert figure(job, "E1", "drop_pct") == pytest.approx(1.6 + 100 * lost / 24, abs=0.02)
    assert any("0.33 in" in line for line in figure(job, "E1", "light_lines"))


def test_the_far_end_is_told_past_5_percent() -> None:
    # 1.6 % on the wire; 3.0067 A x 16.4 ft x ohm / 2 of 24 V: 3.4 % at 0.0331 ohm a foot.
    assert told(lit(tape_ohm=0.033)) == []
    assert found(lit(tape_ohm=0.033), "tape_end_dim") == []
    finding = one(lit(tape_ohm=0.0333), "tape_end_dim")
    assert (finding.severity, finding.tags) == ("look", ("E1",))
    assert found(lit(tape_ohm=0.0333, fed="middle"), "tape_end_dim") == []


def test_a_wire_to_each_end_carries_half() -> None:
    second = made(Cable, "K2", type="control-18-2", start="E2", end="E1", in_wall=False, measured=length(10 * 12))
    both = lit(second, fed="both ends")
    assert figure(both, "E1", "drop_pct") == pytest.approx(0.8, abs=0.005)
    assert figure(lit(second), "E1", "drop_pct") == pytest.approx(1.6, abs=0.005)


def test_channel_is_cut_round_its_corners_and_bought() -> None:
    # 24 + 60 + 24 in from 78 in: 60 alone (24 more is 84), both 24 from a second one.
    job = lit(tape=None, pieces=("24", "60", "24"), cut_step=2.5, joined="corner connectors")
    assert (figure(job, "E1", "channel_lengths"), figure(job, "E1", "channel_corners")) == (2, 2)
    # Marks 2-1/2 in apart: 22.5 + 60 + 22.5 in of tape, 8.75 ft x 4.4 W.
    assert figure(job, "E1", "light_w") == pytest.approx(8.75 * 4.4)
    bought = {line.what: line.count for line in buying_list(job) if "E1" in line.tags}
    assert bought["light channel 6'-6\""] == 2
    assert (bought["channel corner connector"], bought["channel end cap"]) == (2, 2)
    assert not any("connector" in line.what for line in buying_list(lit(pieces=("24", "60"), tape=84)))
    tiny = lit(tape=None, pieces=("24", "60", "24"), channel=0.001)
    assert figure(tiny, "E1", "channel_lengths") == 2  # mistyped: the usual length counts
    at_hand = lit(tape=None, pieces=("24", "60"), parts=("channel",))
    assert not any("channel" in line.what for line in buying_list(at_hand))


@rows(
    ("values", "severity"),
    [
        ({"tape": 84, "pieces": ("24", "60")}, None), ({"tape": 85, "pieces": ("24", "60")}, "fix"),
        ({"tape": 82, "pieces": ("24", "60")}, None), ({"tape": 81, "pieces": ("24", "60")}, "look"),
        ({"tape": 84, "pieces": ("24", "sixty")}, "look"), ({"tape": 84, "pieces": ("84", "0")}, "look"),
        ({"tape": 84, "pieces": ()}, None),
    ],
)  # fmt: skip
def test_tape_and_channel_are_of_one_length(values: dict[str, Any], severity: str | None) -> None:
    assert [each.severity for each in found(lit(wire=None, **values), "tape_not_channel")] == (
        [severity] if severity else []
    )


def test_outputs_that_nobody_entered_are_asked_for() -> None:
    over = lit(tape=30 * 12, driver={"rating": 200.0, "places": 0}, wire=None)
    assert one(over, "outputs_unknown").severity == "look"
    assert found(lit(driver={"places": 0}), "outputs_unknown") == []


def test_tape_under_a_mantel_is_mirrored_in_the_tv_above_or_below_it() -> None:
    # N1 is 20 to 80 in across, tape at 66 in up; 6 in out from the wall; the picture 44.07 to 75.94 in up.
    def shelf(**values: Any) -> Job:
        screen = device("E3", 57, 32, 3, what="screen", diagonal=65, opening="N2", mounting="wall bracket")
        return lit(opening("N2", 40, 40, 64, 40, use="screen"), screen, mounting="wall bracket", lip=1, **values)

    assert ("light_in_screen", "look") in told(shelf(faces="down", lamp_out=6))
    assert ("light_in_screen", "look") not in told(shelf(faces="up", lamp_out=6))
    # (h x 108 + 42 x 6) / 114 = 75.94 at h = 77.83.
    assert ("light_in_screen", "look") in told(shelf(faces="down", lamp_out=6, lamp_up=77.8))
    assert ("light_in_screen", "look") not in told(shelf(faces="down", lamp_out=6, lamp_up=77.9))


@rows(
    ("metres", "severity", "would"),
    [(8.99, None, 1.5), (9.01, "look", 2.5), (15.0, "look", 2.5), (15.02, "fix", 4)],
)
def test_a_wire_of_a_metric_size_is_judged_by_its_own_copper(metres: float, severity: str | None, would: float) -> None:
    """3.0067 A at 24 V in 2 x 1.5 mm², 13.3 ohm a km each way: 3 % at 9.003 m, 5 % at 15.005 m. In 2.5 mm², 7.98 ohm,
    3 % is at 15.004 m."""
    wire = made(Cable, "K1", type="speaker-2x1.5", start="E2", end="E1", in_wall=False)
    wire = msgspec.structs.replace(wire, measured=Length(round(metres * 1000) * MM_NM))
    job = lit(wire, wire=None)
    metric = job.having(msgspec.structs.replace(job.settings, units="millimetres", region="metric"))
    assert figure(metric, "E1", "drop_pct") == pytest.approx(100 * 2 * metres / 1000 * 13.3 * 72.16 / 24 / 24, abs=0.01)
    assert [each for each in told(metric) if each[0] == "light_wire_thin"] == (
        [("light_wire_thin", severity)] if severity else []
    )
    if severity:
        thin = one(metric, "light_wire_thin")
        assert thin.do.startswith(f"Pull {would:g} mm²")
        assert "1.5 mm² loses" in thin.why
    assert figure(metric, "E1", "wire_mm2") == would
    assert not any("AWG" in line for line in figure(metric, "E1", "light_lines"))


def test_tape_under_a_floating_shelf_is_where_the_shelf_is() -> None:
    """The shelf 48 in wide at 36 to 84 in across, its underside at 49 in, 10 in deep; the tape 1 in behind its lip."""

    def strip(lip: float = 0.5, faces: str = "down", deep: float = 10, **values: Any) -> Job:
        size = {"width": 48, "height": 2, "depth": deep}
        shelf = made(Equipment, "E1", name="shelf", what="floating shelf", wall="W1", x=60, y=50, **size)
        tape = {"what": "light", "tape": 40, "per_ft": 4.4, "lip": lip, "lip_behind": 1, "faces": faces}
        light = made(Equipment, "E2", name="tape", **{"stands_on": "E1", **tape, **values})
        return job_of(*ROOM, shelf, light, seat=120, eye=42)

    job = strip()
    at = equipment_rect(job, job.of(Equipment)["E2"])
    assert at == Rect(40 * INCH_NM, 49 * INCH_NM, 40 * INCH_NM, 0)
    assert wall_of(job, "E2") == "W1"
    # Seated: 7 in up over 111 in, 3.6°; standing at 63 in above it: not met. The lip shields atan(0.5 / 1).
    (seated, look), (standing, other) = seen(job)["E2"].bare
    assert (seated, standing) == ("seated", "standing")
    assert look.eye_deg == pytest.approx(math.degrees(math.atan2(7, 111)))
    assert (look.seen, other.seen) == (False, False)
    # Just over and just under 7 / 111 of the inch behind the lip.
    assert found(strip(lip=0.064), "light_glares") == []
    assert [each.tags for each in found(strip(lip=0.062), "light_glares")] == [("E2",)]
    # Facing up it lies on top, and only who stands meets it.
    up = strip(faces="up", lip=0)
    assert equipment_rect(up, up.of(Equipment)["E2"]) == Rect(40 * INCH_NM, 51 * INCH_NM, 40 * INCH_NM, 0)
    assert [who for who, each in seen(up)["E2"].bare if each.seen] == ["standing"]
    # An offset is from the shelf's left end; tape longer than the shelf ends with it.
    moved = strip(offset=2, tape=80)
    assert equipment_rect(moved, moved.of(Equipment)["E2"]) == Rect(38 * INCH_NM, 49 * INCH_NM, 46 * INCH_NM, 0)
    nowhere = strip(stands_on="E9")
    assert equipment_rect(nowhere, nowhere.of(Equipment)["E2"]) is None
    assert wall_of(nowhere, "E2") == ""


@rows("rating", [-5.0, 0.0, float("inf"), float("nan")])
def test_a_rating_that_cannot_be_is_none(rating: float) -> None:
    job = lit(driver={"rating": rating})
    assert found(job, "driver_headroom") == []
    assert not any("its rating" in line for line in figure(job, "E2", "light_lines"))


def test_the_sum_can_be_followed() -> None:
    assert figure(lit(), "E1", "light_lines")[-1].startswith("line-voltage wiring is for a licensed electrician")
    lines = figure(lit(), "E1", "light_lines")
    assert lines[0] == "16.4 ft x 4.4 W/ft = 72.2 W"
    assert any("2 x" in line and "18 AWG" in line for line in lines)
    assert any("72.2 W / 0.8 = 90.2 W" in line for line in figure(lit(), "E2", "light_lines"))


@rows(("volts", "told_of"), [(12.0, True), (24.0, False), (None, False)])
def test_a_light_and_its_driver_are_of_the_same_volts(volts: float | None, told_of: bool) -> None:
    found_of = found(lit(volts=volts), "light_volts_differ")
    assert [each.tags for each in found_of] == ([("E1", "E2")] if told_of else [])
