"""Shelves and dividers inside a cabinet, and the gear on them: every figure worked out by hand first.

The cabinet is 37-1/2 x 31-1/2 in outside, of 3/4 in boards: 36 x 30 in inside, its inside corner 10-3/4 in from the
left of the wall and as much over the floor. G1 is a fixed shelf, its top 12 in up (from 11-1/4); G2 an adjustable
one, its top 20 in up (from 19-1/4); G3 a divider on G2, from 17-5/8 to 18-3/8 in, up to the top.
"""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.length import INCH_NM
from store.measure.mass import parse_mass
from store.records.base import Record
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.drawing.cuts import plan, section
from store.rules.drawing.elevation import scene
from store.rules.drawing.tape_marks import tape_sheet
from store.rules.fit.fit import pieces
from store.rules.fixes.fix import offer
from store.rules.handoff.built import built
from store.rules.plug.places import reach_nm
from store.rules.wall.inside import insides
from tests.jobs.wall_jobs import ROOM, board, device, figure, found, job_of, length, made, one, opening

SHELVES = (
    board("G1", 12, what="fixed shelf", held="fixed"),
    board("G2", 20),
    board("G3", 20, what="divider", along=17.625),
)


def cabinet(*records: Record, shelves: tuple[Record, ...] = SHELVES, **values: Any) -> Job:
    """The cabinet with its shelves, and what else is in it."""
    given = {"use": "equipment", "thickness": 0.75, "material": "plywood", **values}
    return job_of(*ROOM, opening("N1", 10, 10, 37.5, 31.5, **given), *shelves, *records)


def inches(*nm: int) -> tuple[float, ...]:
    return tuple(each / INCH_NM for each in nm)


def test_the_spaces_are_those_between_boards() -> None:
    there = insides(cabinet())["N1"]
    assert [(each.floor, *inches(each.left_nm, each.right_nm, each.bottom_nm, each.top_nm), each.above)
            for each in there.spaces] == [
        ("", 0, 36, 0, 11.25, "G1"), ("G1", 0, 36, 12, 19.25, "G2"),
        ("G2", 0, 17.625, 20, 30, ""), ("G2", 18.375, 36, 20, 30, ""),
    ]  # fmt: skip
    assert figure(cabinet(), "G1", "clear_over").nm == 7.25 * INCH_NM
    assert figure(cabinet(), "G1", "top_off_floor").nm == 22.75 * INCH_NM
    # A divider from the bottom parts a shelf that is entered from the left side; one beyond it says where it begins.
    parted = cabinet(shelves=(board("G1", what="divider", along=12), board("G2", 10), board("G3", 15, along=12.75)))
    spans = {each.tag: inches(each.left_nm, each.right_nm) for each in insides(parted)["N1"].boards}
    assert (spans["G2"], spans["G3"]) == ((0, 12), (12.75, 36))
    assert insides(job_of(*ROOM, opening("N1", 10, 10, 37.5, 31.5), device("E1", 17, 6, 15))).get("N1") is None


def test_gear_is_held_against_the_space_over_its_shelf() -> None:
    # 6 in of receiver and 1 in above: 7 in of 7-1/4; the same under 10 in of opening would have had 3 in to spare.
    job = cabinet(device("E1", 17, 6, 15, stands_on="G1", clear_top=1))
    piece = pieces(job)["E1"]
    assert (piece.verdict, piece.floor, piece.above) == ("fits", "G1", "G2")
    assert figure(job, "E1", "spare_height").nm == INCH_NM // 4
    assert figure(job, "E1", "spare_left").nm == figure(job, "E1", "spare_right").nm == 9.5 * INCH_NM
    tall = one(cabinet(device("E1", 17, 6.5, 15, stands_on="G1", clear_top=1)), "does_not_fit")
    assert tall.head == 'Too tall under G2 by 1/4"'
    assert 'Needs 7-1/2" of height; the space under G2 has 7-1/4".' in tall.why
    assert tall.do.startswith('Move G2 up by at least 1/4"')
    offered = offer(cabinet(device("E1", 17, 6.5, 15, stands_on="G1", clear_top=1)), tall)
    assert offered is not None
    assert offered.fix.says == "Set G2 higher"
    assert found(cabinet(device("E1", 17, 6.5, 15, stands_on="N1", clear_top=1)), "does_not_fit") == []
    # On the bottom the depth is that of the opening; a space between divider and side is 17-5/8 in wide.
    wide = one(cabinet(device("E1", 18, 6, 15, stands_on="G2")), "does_not_fit")
    assert wide.head == 'Too wide over G2 by 3/8"'


def test_side_by_side_takes_the_larger_space_between_and_goes_on_beyond_the_divider() -> None:
    # 17 + 2 + 16 = 35 in of 36; with 4 in asked between them 37.
    pair = [device("E1", 17, 6, 15, stands_on="G1", clear_right=2), device("E2", 16, 6, 15, stands_on="G1")]
    job = cabinet(*pair)
    assert found(job, "shelf_row_does_not_fit") == found(job, "does_not_fit") == []
    stands = insides(job)["N1"].stands  # 1 in spare in three gaps: 1/3 in each
    assert inches(stands["E1"].left_nm, stands["E2"].left_nm) == pytest.approx((1 / 3, 1 / 3 + 17 + 2 + 1 / 3))
    for tag, side in (("E1", "left"), ("E2", "left"), ("E2", "right")):
        assert figure(job, tag, f"spare_{side}").nm / INCH_NM == pytest.approx(1 / 3)
    alone = cabinet(device("E1", 40, 6, 15, stands_on="G1"))
    assert found(alone, "shelf_row_does_not_fit") == []
    assert one(alone, "does_not_fit").head == 'Too wide over G1 by 4"'
    short = one(cabinet(pair[0], device("E2", 16, 6, 15, stands_on="G1", clear_left=4)), "shelf_row_does_not_fit")
    assert (short.tags, short.head) == (("E1", "E2", "G1"), 'Too wide side by side on G1 by 1"')
    # Three of 10 in go over G2: one and one beside the divider, the third has no room left.
    row = [device(f"E{n}", 10, 6, 15, stands_on="G2") for n in (1, 2)]
    lefts = [inches(insides(cabinet(*row))["N1"].stands[f"E{n}"].left_nm)[0] for n in (1, 2)]
    assert lefts == [pytest.approx(3.8125), pytest.approx(18.375 + 3.8125)]
    assert one(cabinet(*row, device("E3", 10, 6, 15, stands_on="G2")), "shelf_row_does_not_fit").severity == "fix"
    # Two with an offset: 20 - (2 + 17) = 1 in between them, and 2 are asked.
    placed = [
        device("E1", 17, 6, 15, stands_on="G1", clear_right=2, offset=2),
        device("E2", 10, 6, 15, stands_on="G1", offset=20),
    ]
    assert one(cabinet(*placed), "shelf_row_does_not_fit").head == 'Too wide side by side on G1 by 1"'


def test_several_of_one_kind_are_side_by_side() -> None:
    # Three of 11 in with 1 in asked at each side: 33 + 2 between + 1 at each end = 37 in; of 10 in 34.
    def row(wide: float) -> Job:
        return cabinet(device("E1", wide, 6, 15, stands_on="G1", clear_left=1, clear_right=1, count=3))

    assert one(row(11), "shelf_row_does_not_fit").head == 'Too wide side by side on G1 by 1"'
    assert found(row(10), "shelf_row_does_not_fit") == []
    assert insides(row(10))["N1"].stands["E1"].width_nm == 32 * INCH_NM


def test_a_stack_counts_what_is_under_it_and_the_space_between() -> None:
    lower = device("E1", 17, 6, 15, stands_on="N1", clear_top=2, watts=200.0)
    upper = device("E2", 12, 2, 9, stands_on="E1", clear_bottom=1, clear_top=1, watts=15.0)
    job = cabinet(lower, upper)
    # 6 + 2 (the larger of 2 and 1) + 2 + 1 above = 11 of 11-1/4 in; it stands 8 in up, over the middle of E1.
    stand = insides(job)["N1"].stands["E2"]
    assert inches(stand.bottom_nm, stand.left_nm) == (8, 12)
    assert figure(job, "E2", "spare_height").nm == INCH_NM // 4
    assert found(job, "does_not_fit") == found(job, "gear_collides") == found(job, "shelf_overhung") == []
    space = one(job, "stacked_without_space")
    assert (space.tags, space.head) == (("E2", "E1", "N1"), '2" must be free between it and E1')
    assert one(job, "gear_over_warm").tags == ("E2", "E1", "N1")
    high = one(cabinet(lower, device("E2", 12, 3, 9, stands_on="E1", raised=2, clear_top=1)), "does_not_fit")
    assert high.head == 'Too tall under G1 by 3/4"'
    assert "E1 under it" in high.why
    # The hotter one on top, on a stand of 2 in: nothing to say.
    fine = cabinet(lower, device("E2", 12, 2, 9, stands_on="E1", raised=2, clear_top=1, watts=250.0))
    assert [found(fine, rule) for rule in ("stacked_without_space", "gear_over_warm", "does_not_fit")] == [[], [], []]
    # Wider than what carries it, and into what stands beside.
    out = cabinet(lower, device("E2", 19, 2, 9, stands_on="E1"))
    assert one(out, "shelf_overhung").head == 'Overhangs E1 by 1"'
    beside = device("E3", 6, 10, 9, stands_on="N1", offset=28)
    run = cabinet(
        device("E1", 17, 6, 15, stands_on="N1", offset=2), device("E2", 17, 2, 9, stands_on="E1", offset=12), beside
    )
    assert one(run, "gear_collides").tags == ("E2", "E3", "N1")


def test_what_stands_nowhere_or_was_not_said_is_told() -> None:
    job = cabinet(
        device("E1", 17, 6, 15), device("E2", 10, 3, 9, stands_on="G9"), device("E3", 9, 3, 9, stands_on="G3")
    )
    assert one(job, "shelf_not_chosen").tags == ("N1", "E1")
    assert [each.tags for each in found(job, "stands_astray")] == [("E2", "G9", "N1"), ("E3", "G3", "N1")]
    round_ = cabinet(device("E1", 17, 6, 15, stands_on="E2"), device("E2", 17, 6, 15, stands_on="E1"))
    assert len(found(round_, "stands_astray")) == 2
    assert found(cabinet(device("E1", 17, 6, 15, stands_on="G1")), "shelf_not_chosen") == []


def test_boards_out_of_place_are_told() -> None:
    def heads(*boards: Record) -> list[str]:
        return [each.head for each in found(cabinet(shelves=boards), "shelf_out_of_place")]

    assert heads(board("G1", 31)) == ['Shelf 1" beyond the top of N1']
    assert heads(board("G1", 12), board("G2", 12.5)) == ["Shelf in the way of G1"]
    assert heads(board("G1", 8, what="divider", along=10)) == ["Divider has nothing under it"]
    assert heads(board("G1", 8), board("G2", 8, what="divider", along=10)) == []
    assert heads(board("G1", what="divider", along=36)) == ['Divider 3/4" beyond the right of N1']
    assert one(cabinet(shelves=(board("G1"),)), "shelf_not_placed").tags == ("N1", "G1")


def test_a_shelf_sags_under_what_stands_on_it_and_the_bottom_no_longer_does() -> None:
    # As the board of test_shelf_rules: 36 in of 3/4 in plywood, here 20 in deep on pins under 100 lb:
    # I = 20 · 0.75³ / 12 = 0.703 in⁴; 5/384 · 100 · 36³ / (1.01e6 · 0.703) · 2 = 0.1711 in; limit 36 / 600 = 0.06.
    shelves = (board("G1", 12),)
    on = cabinet(device("E1", 17, 6, 15, stands_on="G1", weight=parse_mass("100 lb")), shelves=shelves)
    # Not spread but over 17 in in the middle: (8 - 4 c² + c³) / 5 of that, c = 17 / 36 (Roark, partial even load).
    assert figure(on, "G1", "sag").nm / INCH_NM == pytest.approx(
        0.1711 * (8 - 4 * (17 / 36) ** 2 + (17 / 36) ** 3) / 5, rel=0.005
    )
    assert one(on, "shelf_sags").tags == ("G1", "E1")
    below = cabinet(device("E1", 17, 6, 15, stands_on="N1", weight=parse_mass("100 lb")), shelves=shelves)
    assert one(below, "shelf_sags").tags == ("N1", "E1")
    # A gap of 2 in behind it leaves 18 in of depth, and so much more.
    gap = cabinet(
        device("E1", 17, 6, 15, stands_on="G1", weight=parse_mass("100 lb")),
        shelves=(board("G1", 12, gap=made_length(2)),),
    )
    assert figure(gap, "G1", "sag").nm == pytest.approx(figure(on, "G1", "sag").nm * 20 / 18, rel=1e-4)
    assert one(cabinet(device("E1", 17, 6, 22, stands_on="G1")), "shelf_overhung").head == 'Overhangs G1 by 2"'


def made_length(value: float) -> Any:
    return made(type(SHELVES[0]), "G9", opening="N1", up=value).up


def test_pins_are_in_rows_of_holes() -> None:
    # Undersides at 6, 7-1/4, 8-1/2 ...: a top at 9-1/4 is on them (8-1/2), one at 10 is not.
    holes = {"pin_first": 6, "pin_step": 1.25}
    assert found(cabinet(shelves=(board("G1", 9.25),), **holes), "shelf_off_pins") == []
    off = one(cabinet(shelves=(board("G1", 10),), **holes), "shelf_off_pins")
    assert off.do.startswith('Set its top at 9-1/4" or 10-1/2" inside')
    assert found(cabinet(shelves=(board("G1", 10, what="fixed shelf"),), **holes), "shelf_off_pins") == []
    assert found(cabinet(shelves=(board("G1", 10),)), "shelf_off_pins") == []


def test_a_shelf_across_a_receptacle_and_cords_past_a_shelf() -> None:
    def box(up: float) -> Box:
        return made(Box, "B1", name="Receptacle", what="receptacle", wall="W1", x=20, y=up)

    # G1 is from 22 to 22-3/4 in off the floor; a plate reaches 2-1/4 in up and down.
    across = one(cabinet(box(20.5)), "shelf_across_box")
    assert across.tags == ("G1", "B1", "N1")
    # Below: 20-1/2 - 2-1/4 - 10-3/4 = 7-1/2; above: 20-1/2 + 2-1/4 - 10-3/4 + 3/4 = 12-3/4.
    assert across.do.startswith('Set its top at 7-1/2" or lower inside, or at 12-3/4" or higher')
    assert found(cabinet(box(19.5)), "shelf_across_box") == []
    gap = (board("G1", 12, gap=made_length(2)),)
    assert found(cabinet(box(20.5), shelves=gap), "shelf_across_box") == []
    # On G1 with its receptacle under it: the cord has no way, unless there is a gap behind.
    corded = device("E1", 17, 6, 15, stands_on="G1", power="cord", plug="B1")
    assert one(cabinet(box(15), corded), "cord_past_shelf").tags == ("G1", "E1", "N1")
    assert found(cabinet(box(15), corded, shelves=gap), "cord_past_shelf") == []
    assert found(cabinet(box(26), corded), "cord_past_shelf") == []
    # From under G1, which is from 11-1/4 to 12 in up inside, that is 22 to 22-3/4 in off the floor, to just below and
    # above it; and past G3, from 17-5/8 to 18-3/8 in inside, that is 28-3/8 to 29-1/8 in from the left.
    low = device("E1", 17, 6, 15, stands_on="N1", power="cord", plug="B1")
    assert found(cabinet(box(21.9), low), "cord_past_shelf") == []
    assert one(cabinet(box(22.9), low), "cord_past_shelf").tags == ("G1", "E1", "N1")
    beside = device("E1", 12, 6, 15, stands_on="G2", offset=2, power="cord", plug="B1")
    for x, told in ((28.3, []), (29.2, [("G3", "E1", "N1")])):
        at = made(Box, "B1", name="Receptacle", what="receptacle", wall="W1", x=x, y=34)
        assert [each.tags for each in found(cabinet(at, beside), "cord_past_shelf")] == told


def test_cords_take_the_true_place() -> None:
    box = made(Box, "B1", name="Receptacle", what="receptacle", wall="W1", x=28.75, y=15)
    job = cabinet(box, device("E1", 17, 6, 15, stands_on="G2", offset=0, power="cord", plug="B1"))
    # Its lower edge is 10-3/4 + 20 = 30-3/4 up, its right one at 27-3/4: 1 in across, 15-3/4 in up to it.
    reach = reach_nm(job, job.of(type(device("E1", 1, 1, 1)))["E1"], box)
    assert reach is not None
    assert reach[0] / INCH_NM == pytest.approx((1 + 15.75**2) ** 0.5)


def test_drawing_sheet_and_list_show_the_shelves() -> None:
    job = cabinet(device("E1", 17, 6, 15, stands_on="G1"))
    drawn = {each.tag: inches(*each.extent) for each in scene(job, "W1").shapes if each.tag}
    assert drawn["G1"] == (10.75, 22, 46.75, 22.75)
    assert drawn["G3"] == (28.375, 30.75, 29.125, 40.75)
    assert drawn["E1"][1] == 22.75
    assert {"G1", "G3", "N1"} <= {each.tag for each in section(job, "W1", round(28.5 * INCH_NM)).shapes}
    assert {"G3", "N1"} <= {each.tag for each in plan(job, "W1", 35 * INCH_NM).shapes}
    (side,) = tape_sheet(job, "W1").sides
    assert (side.name, [(row.tag, row.top_nm / INCH_NM) for row in side.rows]) == (
        "inside of N1 opening N1", [("G1", 22.75), ("G2", 30.75), ("G3", 40.75)],
    )  # fmt: skip
    lines = dict(built(job, "carpenter"))["Cabinets: boards, doors and hardware"]
    said = [line for _, line in lines if " G" in line]
    assert said == [
        '1 x divider G3: 10" x 20"; left face 17-5/8" from the left inside, foot 20" above the bottom',
        '1 x fixed shelf G1: 36" x 20"; top 12" above the bottom inside',
        '1 x adjustable shelf G2: 35-7/8" x 20"; top 20" above the bottom inside',
    ]


def test_a_metric_job_says_it_in_millimeters() -> None:
    receiver = device("E1", "435 mm", "162 mm", "387 mm", stands_on="G1", clear_top="50 mm")  # type: ignore[arg-type]
    job = job_of(
        *ROOM, opening("N1", 10, 10, "950 mm", "800 mm", use="equipment", thickness="18 mm"),  # type: ignore[arg-type]
        board("G1", "300 mm"), board("G2", "505 mm", what="fixed shelf"), receiver,
        units="millimetres", region="metric",
    )  # fmt: skip
    # 505 - 18 - 300 = 187 mm of height; 162 + 50 = 212 are needed, 25 too much.
    told = one(job, "does_not_fit")
    assert (told.head, "Needs 212 mm of height; the space under G2 has 187 mm." in told.why) == (
        "Too tall under G2 by 25 mm", True,
    )  # fmt: skip
    # 950 - 36 = 914 mm between the sides, 3 mm of play.
    lines = [line for _, line in dict(built(job, "carpenter"))["Cabinets: boards, doors and hardware"]]
    assert "1 x adjustable shelf G1: 911 mm x 508 mm; top 300 mm above the bottom inside" in lines


def test_a_shelf_that_lets_less_air_past_than_the_vents_is_told() -> None:
    # 36 in from side to side: a gap of 1/2 in is 18 in², one of 3/4 in 27 in²; the vents have 24 in² each.
    vents = {"door": "glass", "hinge": "left", "air_in": 24.0, "air_out": 24.0}

    def told(*shelves: Record) -> list[str]:
        job = cabinet(device("E1", 17, 6, 15, stands_on="N1", watts=60.0), shelves=shelves, **vents)
        return [each.why for each in found(job, "shelf_blocks_air")]

    (why,) = told(board("G1", 12, gap=made_length(0.5)))
    assert "18 in²" in why
    assert "24 in²" in why
    assert told(board("G1", 12, gap=made_length(0.75))) == []
    assert told(board("G1", 12, depth=19.25)) == []
    # Beside a divider air goes past it.
    assert told(board("G1", what="divider", along=18), board("G2", 12)) == []


def test_gear_that_stands_across_a_divider_is_told_so_and_not_as_too_tall() -> None:
    """A divider 18 to 18-3/4 in from the left, from the bottom up; gear 12 in wide beside it, and 8 in into it."""
    parted = board("G1", what="divider", along=18)

    def told(offset: float) -> list[str]:
        gear = device("E1", 12, 6, 14, offset=length(offset), stands_on="N1", opening="N1")
        return [each.head for each in found(cabinet(gear, shelves=(parted,)), "does_not_fit")]

    assert told(5) == told(18.75) == []
    assert told(10) == ["Stands across the divider G1"]
    low = board("G2", 4)
    over = device("E1", 12, 6, 14, offset=length(5), stands_on="N1", opening="N1")
    (tall,) = found(cabinet(over, shelves=(low,)), "does_not_fit")
    assert tall.head.startswith("Too tall under G2")
