"""Framing and drywall of whole walls, counted by hand, and what changes them."""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.length import INCH_NM
from store.records.base import Record
from store.records.build import Fixing
from store.records.wall import BuildOut, Obstacle, Wall
from store.records.whole import Job
from store.rules.build.backing import backing
from store.rules.handoff.built import built
from tests.jobs.wall_jobs import device, figure, found, job_of, length, made, opening, read, wall


def room(wide: float, high: float, *more: Record, settings: dict[str, Any] | None = None, **values: Any) -> Job:
    """A wall of a size with studs at 16 in."""
    given = {"first_stud": 16, "framing": "new wood", **values}
    return job_of(wall(**given), read("D1", "width", wide), read("D2", "height", high), *more, **(settings or {}))


PARTS = ("stud_count", "king_studs", "trimmers", "headers", "sills", "cripples", "bottom_plates", "top_plates")


def counts(job: Job) -> dict[str, int]:
    return {part: number for part in PARTS if (number := figure(job, "W1", part))}


def test_five_walls_counted_by_hand() -> None:
    assert counts(room(96, 96)) == {"stud_count": 7, "bottom_plates": 1, "top_plates": 2}
    assert counts(room(144, 97, top_plates="1", spacing=24, first_stud=24)) == {
        "stud_count": 7, "bottom_plates": 1, "top_plates": 1,
    }  # fmt: skip
    # A recess 40 to 80, 48 to 72 up: commons 0, 16, 32, 96, 112, 118.5; cripples below at 48, 64, above also at 80.
    assert counts(room(120, 96, opening("N1", 40, 48, 40, 24))) == {
        "stud_count": 6, "king_studs": 2, "trimmers": 2, "headers": 1, "sills": 1, "cripples": 5, "bottom_plates": 1,
        "top_plates": 2,
    }  # fmt: skip
    # A fireplace at the floor, 42 to 78, 30 high: 12 in of header and more to the plate of 93, so it must be sized;
    # given 5-1/2 in, two plies, cripples above at 48 and 64.
    below = opening("N1", 42, 0, 36, 30, header=None)
    assert figure(room(120, 96, below), "W1", "framing_lines")[-1].startswith("header over N1")
    sized = room(120, 96, opening("N1", 42, 0, 36, 30, header="5-1/2 in"))
    assert counts(sized) == {
        "stud_count": 6, "king_studs": 2, "trimmers": 2, "headers": 2, "cripples": 2, "bottom_plates": 1,
        "top_plates": 2,
    }  # fmt: skip
    # A shallow niche cuts no stud.
    assert counts(room(96, 96, opening("N1", 30, 40, 20, 20, depth=1))) == counts(room(96, 96))


def test_lumber_of_a_plain_wall() -> None:
    # 7 studs of 91-1/2 in and 3 plates of 96 in: ten boards of 8 ft.
    lines = figure(room(96, 96), "W1", "lumber_lines")
    assert lines[0] == "2x4: 10 x 8 ft"
    assert figure(room(96, 96), "W1", "lumber_lengths") == 10
    assert any("nails 16d" in line for line in lines)
    assert "licensed person" in lines[-1]


def test_of_a_wall_that_stands_only_what_is_added_is_bought() -> None:
    standing = room(120, 96, opening("N1", 40, 48, 40, 24), framing="existing")
    assert figure(standing, "W1", "stud_count") == 6
    # 2 kings of 91-1/2 out of 16 ft, 2 trimmers of 70-1/2 out of 12 ft, header 43 and sill 40 out of 8 ft.
    assert figure(standing, "W1", "lumber_lines")[0] == "2x4: 1 x 16 ft, 1 x 12 ft, 1 x 8 ft"
    may_carry = room(120, 96, opening("N1", 40, 48, 40, 24), framing="existing", bearing="unknown")
    assert not any("from" in line for line in figure(may_carry, "W1", "lumber_lines"))


def test_steel_has_no_nails_and_blocking_is_in_the_list() -> None:
    steel = figure(room(96, 96, framing="new 18 mil steel"), "W1", "lumber_lines")
    # 7 studs of 95-3/4, an eighth less at each end; a track below and one above, of 96, out of ten feet each.
    assert [line for line in steel if not line.startswith(" ")][:4] == [
        "18 mil steel track: 2 x 10 ft", "18 mil steel stud: 7 x 8 ft",
        "10 track anchors, by ASTM C754, from memory", "28 framing screws, by ASTM C754, from memory",
    ]  # fmt: skip
    lines = figure(room(96, 96, framing="new 18 mil steel"), "W1", "framing_lines")
    assert lines == ["1 bottom track, 8'-0\"", "1 top track, 8'-0\"", "7 studs, 7'-11 3/4\""]
    recess = room(120, 96, opening("N1", 40, 48, 40, 24), framing="new 18 mil steel")
    assert (figure(recess, "W1", "headers"), figure(recess, "W1", "sills")) == (1, 1)
    assert any(line.startswith("1 header track, ") for line in figure(recess, "W1", "framing_lines"))
    assert not any("nails" in line for line in steel)
    shelf = opening("N1", 20, 40, 40, 10, depth=1, use="shelf")
    blocked = room(96, 96, shelf, made(Fixing, "X1", of="N1", into="blocking", apart=3))
    # From 20 to 60 in: the bays at 16.75, 32.75, 48.75; one row 14-1/2 in long, two-by-six.
    assert '3 pieces of blocking, 14-1/2"' in figure(blocked, "W1", "framing_lines")
    assert "2x6: 1 x 8 ft" in figure(blocked, "W1", "lumber_lines")


def test_a_furred_space_has_its_fire_blocks() -> None:
    # 144 in is over 10 ft: level at floor and ceiling, and one upright.
    assert figure(room(144, 96, framing="furred out"), "W1", "fire_blocks") == 3
    assert figure(room(120, 96, framing="furred out"), "W1", "fire_blocks") == 2


def test_drywall_of_a_plain_wall_and_of_one_whose_sheets_must_be_short() -> None:
    plain = room(144, 96)
    assert figure(plain, "W1", "sheets") == 2
    assert (figure(plain, "W1", "board_ft2"), figure(plain, "W1", "board_waste_pct")) == (96, 0)
    short = room(144, 96, settings={"longest_sheet": 96})
    assert figure(short, "W1", "sheets") > 2
    assert figure(short, "W1", "board_lines") != figure(plain, "W1", "board_lines")
    # Rates of the handbook: 96 screws; tape for the joints as laid: 12 ft between, 16 ft of corners, 12 ft of ceiling.
    assert (figure(plain, "W1", "board_screws"), figure(plain, "W1", "tape_ft")) == (96, 40)


def test_sheets_are_no_longer_than_what_goes_round_the_corner_of_the_way_in() -> None:
    def sheets(**settings: object) -> tuple[int, str]:
        job = room(144, 96, settings=settings)
        lines = figure(job, "W1", "board_lines")
        assert lines[-1].startswith("The building department decides"), "who decides comes last"
        return figure(job, "W1", "sheets"), lines[1]

    assert sheets() == (2, "longest sheet 12'-0\", usual; enter the tightest corner of the way in")
    assert sheets(hallway=60, turns_into=48)[0] == 2, "152 in go round it"
    assert sheets(hallway=37, turns_into=37) == (
        3, "longest sheet 8'-5\": carried on edge, it turns from 3'-1\" into 3'-1\"",
    )  # fmt: skip
    assert sheets(hallway=37)[0] == 2, "half of a corner says nothing"
    assert sheets(hallway=37, turns_into=37, longest_sheet=120)[0] == 3
    assert sheets(hallway=60, turns_into=48, longest_sheet=96) == (3, "longest sheet 8'-0\", as entered")


def test_the_doors_of_the_room_say_what_gets_through_and_round_the_corner() -> None:
    def lines(wide: object, high: object, what: str = "board_lines", **settings: object) -> list[str]:
        door = made(Obstacle, "O1", wall="W2", what="door", x=10, y=0, width=wide, height=high)
        job = room(144, 96, made(Wall, "W2", name="Side"), door, settings=settings)
        return list(figure(job, "W1", what))

    # 47 in less a hand square has a diagonal of 65.05 in; 35 x 33 less a hand 46.69: a sheet of 48 in stays outside.
    assert lines(47, 47)[2].endswith("goes a sheet up to 5'-5\" wide, tilted: these do, any length straight on")
    assert lines(35, 33)[2].endswith(": not these. Find another way in, or have them cut outside")
    assert not lines(35, 35)[2].endswith("outside"), "34 x 34 has a diagonal of 48.08 in"
    # The corner turns into the door where nothing else is entered: 36 and 36 less a hand, 8'-3 in.
    assert lines(36, 80, hallway=37)[1] == (
        "longest sheet 8'-4\": carried on edge, it turns from 3'-1\" into the door O1, 3'-0\""
    )
    assert lines(36, 80, hallway=37, turns_into=60)[1] != lines(36, 80, hallway=37)[1]
    # Of lumber 100 in level and 79 in up: 127 in.
    bought = lines(36, 80, "lumber_lines", hallway=37)
    assert "longest length that gets in, tilted, from 3'-1\" into the door O1, 3'-0\": 10'-7\"" in bought
    assert bought[0] == "2x4: 4 x 10 ft, 10 x 8 ft"
    assert not any("gets in" in line for line in lines(36, 80, "lumber_lines"))


def test_bead_goes_round_what_is_bare_and_backer_where_there_is_tile() -> None:
    bare = room(144, 96, opening("N1", 40, 30, 60, 36))
    assert figure(bare, "W1", "bead_ft") == 17  # 192 in and 3 % more
    boxed = room(144, 96, opening("N1", 40, 30, 60, 36, thickness="3/4 in", material="plywood"))
    assert figure(boxed, "W1", "bead_ft") == 0
    # 40 ft² and 10 % more in sheets of 15 ft².
    tiled = figure(room(144, 96, tile=40.0), "W1", "board_lines")
    assert any(line.startswith("3 sheets of cement board") for line in tiled)


@pytest.mark.parametrize(("level", "coats"), [("0", 0), ("1", 1), ("2", 1), ("3", 2), ("4", 3), ("5", 4)])
def test_coats_of_a_level(level: str, coats: int) -> None:
    assert figure(room(96, 96, level=level), "W1", "coats") == coats


def test_a_cold_damp_room_dries_slowly_and_a_freezing_one_not_at_all() -> None:
    assert figure(room(96, 96), "W1", "coat_days") == 1
    assert figure(room(96, 96, settings={"humidity": 80.0, "drying_f": 60.0}), "W1", "coat_days") == 3
    assert figure(room(96, 96, settings={"drying_f": 35.0}), "W1", "coat_days") is None


def test_without_a_layout_nothing_is_taken_off() -> None:
    assert figure(room(96, 96, first_stud=None), "W1", "lumber_lines") is None
    assert figure(room(96, 96, first_stud=None), "W1", "sheets") is None


def test_a_corner_takes_a_stud_more_and_thin_furring_is_strips() -> None:
    other = made(Wall, "W2", name="side")
    assert figure(room(96, 96, other, meets_left="W2"), "W1", "corner_studs") == 1
    assert figure(room(96, 96, other, meets_left="W2", meets_right="W2"), "W1", "corner_studs") == 2
    assert figure(room(96, 96, other, meets_left="W2", left_corner="outside"), "W1", "corner_studs") is None
    assert figure(room(96, 96, other, meets_left="W2", framing="existing"), "W1", "corner_studs") is None
    strips = room(96, 96, framing="furred out", stud_depth=0.75, stud_width=length(2.5), top_plates="1")
    lines = figure(strips, "W1", "lumber_lines")
    assert lines[0].startswith("1x3: ")
    # 7 strips of 91 in, 6 + 1 screws each, two plates of 96, 7 each; fire blocks are cut in.
    assert "63 furring screws, by 16 in apart: common practice" in lines
    assert any(line.startswith("7 furring strips, ") for line in figure(strips, "W1", "framing_lines"))


def test_a_build_out_with_a_new_niche_and_blocking_in_its_front() -> None:
    """One that stands, 40 to 80: its studs 40, 47.25, 63.25, 78.5; a niche 50 to 70 brings kings, trimmers, two levels.

    A new one whose studs nobody entered is laid out from its left end; a shelf on it is blocked in its own front.
    """
    niche = opening("N1", 50, 40, 20, 20, depth=8)
    out = {"name": "breast", "wall": "W1", "x": 40, "width": 40, "depth": 16}
    stands = made(BuildOut, "U1", new=False, first_stud=48, **out)
    parts = figure(room(120, 96, stands, niche, framing="existing"), "W1", "lumber_lines")
    assert parts[0].startswith("2x4: ")
    plain = figure(room(120, 96, stands, framing="existing"), "W1", "lumber_lines")
    assert not any(line.startswith("2x4") for line in plain)
    shelf = device("E1", 30, 2, 8, what="floating shelf", wall="W1", opening="", x=60, y=50)
    fixing = made(Fixing, "X1", of="E1", into="blocking", apart=3)
    new = room(120, 96, made(BuildOut, "U1", **out), shelf, fixing, framing="existing")
    wood = backing(new).get("X1")
    assert wood is not None
    # Studs from its left end: 40, 55.25, 71.25, 78.5; the shelf from 45 to 75 is in the bays between.
    assert [round(each.left_nm / INCH_NM, 2) for each in wood.blocks] == [41.5, 56.75, 72.75]


def test_what_hangs_on_a_return_or_an_underside_is_blocked_between_its_own_members() -> None:
    """A new breast from 40 to 80 in, 36 in deep, its studs 3-1/2 in.

    In its return studs at 0 and about 16, the front from 32-1/2; in a soffit above 80 joists at 40, about 56 and 72
    along the wall, the plate of its return from 78-1/2.
    """

    def blocked(
        face: str, x: float, y: float, wide: float, into: str = "blocking", up: float = 0, **values: Any
    ) -> Job:
        given = {"name": "breast", "wall": "W1", "x": 40, "y": up, "width": 40, "depth": 36, **values}
        out = made(BuildOut, "U1", **given)
        shelf = device("E1", wide, 2, 6, what="floating shelf", wall="W1", opening="", x=x, y=y, face=face, on="U1")
        return room(120, 96, out, shelf, made(Fixing, "X1", of="E1", into=into, apart=3), framing="existing")

    def pieces(job: Job) -> list[tuple[float, float, float]]:
        wood = backing(job).get("X1")
        assert wood is None or wood.side
        found = wood.blocks if wood is not None else ()
        return [(each.left_nm / INCH_NM, each.length_nm / INCH_NM, each.at_nm / INCH_NM) for each in found]

    job = blocked("left return", 18, 50, 24)
    assert pieces(job) == [(1.5, 13.75, 50), (16.75, 15.75, 50)], "from 6 to 30 in out"
    lines = figure(job, "W1", "framing_lines")
    assert '1 piece of blocking, 15-3/4"' in lines
    assert '1 piece of blocking, 13-3/4"' in lines
    assert figure(job, "X1", "blocking")[0] == '1 piece 13-3/4" long, middle 4\'-2" off the floor'
    assert dict(built(job, "carpenter"))["Blocking"][0][1].startswith("behind E1 on left return of U1: 1 piece 13-3/4")

    soffit = blocked("underside", 62, 10, 20, up=80, height=16)
    assert pieces(soffit) == [(41.5, 13.75, 10), (56.75, 14.5, 10)], "from 52 to 72 in along the wall"
    assert figure(soffit, "X1", "blocking")[0].endswith('middle 10" out from the wall')

    # Of one that stands, or is of boards, nobody knows what is in it.
    assert pieces(blocked("left return", 18, 50, 24, new=False)) == []
    assert pieces(blocked("left return", 18, 50, 24, work="cabinet")) == []
    # Into a stud: 8 to 14 in out meets none, 12 to 18 in the one about 16; of what stands nothing is known.
    tells = [found(blocked("left return", x, 50, 6, into="stud"), "no_stud_there") for x in (11, 15)]
    assert [len(each) for each in tells] == [1, 0]
    assert not found(blocked("left return", 11, 50, 6, into="stud", new=False), "no_stud_there")
