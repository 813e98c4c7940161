"""Framing and drywall of whole walls, counted by hand, and what changes them."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.base import Record
from store.records.build import Fixing
from store.records.whole import Job
from tests.jobs.wall_jobs import figure, job_of, made, opening, read, wall


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
    assert steel[0].startswith("18 mil steel stud or track: ")
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
