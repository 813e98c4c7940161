"""Board by face and by place: zones with sheets of their own, build-outs, windows; counted by hand."""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.length import INCH_NM
from store.records.base import Record
from store.records.wall import BuildOut, Zone
from store.records.whole import Job
from store.rules.build.boards import Boards, boards
from store.rules.build.faces import covers
from store.rules.buying.materials import materials
from tests.jobs.wall_jobs import figure, found, job_of, made, obstacle, one, opening, read, wall

SQUARE = INCH_NM**2


def room(
    *more: Record, wide: float = 144, high: float = 96, settings: dict[str, Any] | None = None, **values: Any
) -> Job:
    given = {"first_stud": 16, "framing": "new wood", **values}
    return job_of(wall(**given), read("D1", "width", wide), read("D2", "height", high), *more, **(settings or {}))


def zone(tag: str, x: float, y: float, width: float, height: float, **values: Any) -> Zone:
    given = {"name": "tile", "wall": "W1", "thickness": 1, "backing": "cement board", **values}
    return made(Zone, tag, x=x, y=y, width=width, height=height, **given)


def out(tag: str = "U1", x: float = 42, width: float = 60, depth: float = 24, **values: Any) -> BuildOut:
    return made(BuildOut, tag, **{"name": "breast", "wall": "W1", "x": x, "width": width, "depth": depth, **values})


def of(job: Job) -> Boards:
    laid = boards(job)["W1"]
    assert laid is not None
    return laid


def sheets(laid: Boards) -> dict[int, int]:
    return {long // INCH_NM: count for _, long, count in laid.boarded.sheets}


def test_tile_takes_the_place_of_drywall_where_it_is() -> None:
    # 60 x 48 at the floor: above it 144 x 48, beside it 42 and 42, both out of 8 ft.
    laid = of(room(zone("Z1", 42, 0, 60, 48)))
    assert sheets(laid) == {144: 1, 96: 1}
    assert laid.boarded.face_nm2 == (144 * 96 - 60 * 48) * SQUARE
    # Two rows of 3 x 5 ft, 36 and 12: two sheets. Five lines of seven screws. One joint of 60 and 216 round it: 23 ft.
    assert (laid.backer_sheets, laid.backed_ft2, laid.backer_screws, laid.mesh_nm) == (2, 20, 35, 276 * INCH_NM)
    # A fireplace in it is cut out of it, and its edges are not the drywall's.
    cut = of(room(zone("Z1", 42, 0, 60, 48), opening("N1", 48, 0, 48, 30)))
    assert cut.backed_ft2 == 10
    assert cut.bead_nm == 0
    assert cut.boarded.face_nm2 == laid.boarded.face_nm2
    lines = figure(room(zone("Z1", 42, 0, 60, 48)), "W1", "board_lines")
    assert 'Z1 on wall: cement board 36" x 60", 2 pieces, 20 ft²' in lines
    assert "2 sheets of cement board or tile backer, 3 x 5 ft, for 20 ft²" in lines


def test_zones_in_each_other_beside_the_wall_and_of_other_stuff() -> None:
    # The smaller one counts where both are: 400 in² of it are not twice in 2,880.
    both = of(room(zone("Z1", 42, 0, 60, 48), zone("Z2", 50, 10, 20, 20)))
    assert both.backed_ft2 == 20
    half_off = of(room(zone("Z1", 114, 0, 60, 48)))
    assert half_off.backed_ft2 == 10
    # Of plywood one sheet of 4 x 8 holds 60 x 48; behind masonry and on drywall nothing is added.
    wood = of(room(zone("Z1", 42, 0, 60, 48, backing="plywood")))
    assert (wood.plywood_sheets, wood.backer_sheets) == (1, 0)
    stone = of(room(zone("Z1", 42, 0, 60, 48, backing="masonry")))
    assert (stone.boarded.face_nm2, stone.backer_screws) == ((144 * 96 - 2880) * SQUARE, 0)
    assert of(room(zone("Z1", 42, 0, 60, 48, backing="drywall"))).boarded.face_nm2 == 144 * 96 * SQUARE
    # A wall that stands and gets no drywall gets the backer of its zone all the same.
    standing = room(zone("Z1", 42, 0, 60, 48), framing="existing")
    assert (sheets(of(standing)), of(standing).backer_sheets) == ({}, 2)
    assert any("cement board" in line.what for line in materials(standing))
    assert boards(room(framing="existing")).get("W1") is None


def test_an_area_entered_counts_only_where_no_zone_says_where() -> None:
    typed = of(room(tile=40.0))
    assert (typed.backer_sheets, typed.placed) == (3, False)
    assert any("no zone says where" in line for line in figure(room(tile=40.0), "W1", "board_lines"))
    placed = room(zone("Z1", 42, 0, 60, 48), tile=40.0)
    assert of(placed).backed_ft2 == 20
    assert one(placed, "backer_disagrees").tags == ("W1", "Z1")
    for near in (19.0, 22.0, 20.0):
        assert not found(room(zone("Z1", 42, 0, 60, 48), tile=near), "backer_disagrees")
    assert not found(room(tile=40.0), "backer_disagrees")


def test_a_build_out_hides_the_wall_and_has_faces_of_its_own() -> None:
    laid = of(room(out(height=None)))
    assert [each.cover.name for each in laid.faces] == [
        "wall",
        "front of U1",
        "left return of U1",
        "right return of U1",
    ]
    assert laid.boarded.face_nm2 == (84 * 96 + 60 * 96 + 2 * 24 * 96) * SQUARE
    # Two of 42 upright, both returns out of one, the front's two courses out of ten feet.
    assert sheets(laid) == {120: 1, 96: 3}
    assert laid.bead_nm == 2 * 96 * INCH_NM
    # Half high: also a top, whose three open edges take bead; the wall goes on above it.
    bench = of(room(out(height=48)))
    assert [each.cover.side for each in bench.faces][-1] == "top"
    assert bench.boarded.face_nm2 == (144 * 96 - 60 * 48 + 60 * 48 + 2 * 24 * 48 + 60 * 24) * SQUARE
    assert bench.bead_nm == (2 * 48 + 60 + 2 * 24) * INCH_NM
    soffit = of(room(out(x=0, width=144, y=84, height=None, depth=12)))
    assert [each.cover.side for each in soffit.faces] == ["wall", "front", "underside"]
    assert (soffit.boarded.face_nm2, soffit.bead_nm) == ((144 * 84 + 144 * 12 + 144 * 12) * SQUARE, 144 * INCH_NM)
    # Cabinet work and masonry get none; behind cabinets the wall is boarded.
    assert of(room(out(work="cabinet"))).boarded.face_nm2 == 144 * 96 * SQUARE
    assert of(room(out(work="masonry"))).boarded.face_nm2 == 84 * 96 * SQUARE
    # One that stands gets board only where the wall is said to; none where drywall is not hung.
    assert [each.cover.side for each in of(room(out(new=False))).faces] == ["wall"]
    assert boards(room(out(), to_board="no")).get("W1") is None
    alone = of(room(out(), framing="existing"))
    assert [each.cover.side for each in alone.faces] == ["front", "left return", "right return"]


def test_tile_on_a_return_and_over_wall_and_front() -> None:
    side = of(room(out(height=None), zone("Z1", 0, 0, 24, 96, face="left return", on="U1")))
    # 24 x 96 in rows of 36, 36 and 24: each is 24 along a sheet, so that two come out of one of 3 x 5 ft.
    assert [each.face for face in side.faces for each in face.others] == ["left return of U1"]
    assert (side.backed_ft2, side.backer_sheets) == (16, 2)
    plain = of(room(out(height=None)))
    assert plain.boarded.face_nm2 - side.boarded.face_nm2 == 24 * 96 * SQUARE
    # From 30 to 72: 12 of the wall, the rest on the front.
    across = of(room(out(height=None), zone("Z1", 30, 0, 42, 48)))
    areas = {each.face: each.area_nm2 // SQUARE for face in across.faces for each in face.others}
    assert areas == {"wall": 12 * 48, "front of U1": 30 * 48}


def test_windows_doors_and_cabinets_in_front() -> None:
    window = of(room(obstacle("O1", "window", 50, 36, 40, 40)))
    assert window.boarded.face_nm2 == (144 * 96 - 1600) * SQUARE
    assert of(room(obstacle("O1", "vent", 50, 36, 40, 4))).boarded.face_nm2 == 144 * 96 * SQUARE
    # A base cabinet in front of the wall cuts no board; a recess at the floor has no bead along it.
    base = of(room(opening("N1", 40, 0, 40, 30, depth=24, thickness=0.75, material="plywood", use="shelf")))
    assert (base.boarded.face_nm2, base.bead_nm) == (144 * 96 * SQUARE, 0)
    assert of(room(opening("N1", 40, 0, 40, 30))).bead_nm == (2 * 30 + 40) * INCH_NM
    # An outside corner takes bead and no tape: 12 + 8 + 12 is less than the rate's 35.5.
    assert of(room(left_corner="outside")).bead_nm == 96 * INCH_NM
    assert of(room(left_corner="outside")).sundries.tape_ft == 36


def test_what_cannot_be_laid_is_told() -> None:
    short = room(settings={"longest_sheet": 60})
    assert one(short, "drywall_not_laid").severity == "fix"
    assert any("no sheet is short enough" in line for line in figure(short, "W1", "board_lines"))
    assert not found(room(settings={"longest_sheet": 96}), "drywall_not_laid")
    assert one(short, "drywall_not_laid").remedy.startswith("Enter the longest sheet")
    # Round a corner of 35-1/2 in both ways go 97 in, of 35 in 96; of 34 in 93, and no sheet is so short.
    assert not found(room(settings={"hallway": 35, "turns_into": 35}), "drywall_not_laid")
    tight = one(room(settings={"hallway": 34, "turns_into": 34}), "drywall_not_laid")
    assert tight.remedy.startswith("Find a way in without that corner")
    # Once for all faces of a wall.
    assert one(room(out(), settings={"longest_sheet": 60}), "drywall_not_laid").tags == ("W1", "U1")
    # Level 0 gets no tape and no compound.
    none = of(room(level="0"))
    assert (none.sundries.tape_ft, none.sundries.compound_gal, none.coats) == (0, 0, ())
    assert any("level 0 has no tape" in line for line in figure(room(level="0"), "W1", "board_lines"))


def test_metric_sheets_of_a_zone() -> None:
    job = job_of(
        wall(first_stud="400 mm", spacing="400 mm", framing="new wood"),
        read("D1", "width", "3600 mm"), read("D2", "height", "2400 mm"),
        zone("Z1", *(each / 25.4 for each in (1200, 0, 1200, 1500))), units="millimetres", finish="13 mm",
    )  # fmt: skip
    laid = of(job)
    # 1200 x 1500 upright in sheets of 900 x 1500 on the stud at 800: two.
    assert laid.backer_sheets == 2
    lines = figure(job, "W1", "board_lines")
    assert any("900 x 1500 mm" in line and "1.8 m²" in line for line in lines)
    assert not any('"' in line or " ft" in line for line in lines)


@pytest.mark.parametrize("values", [{"wide": 1, "high": 96}, {"wide": 10, "high": 96}, {"wide": 144, "high": 168}])
def test_odd_walls_are_covered_or_told(values: dict[str, Any]) -> None:
    job = room(**values)
    laid = boards(job).get("W1")
    if laid is None:
        assert not [each for each in covers(job, job.of(type(wall()))["W1"]) if each.hung]
        return
    assert laid.boarded.face_nm2 == round(values["wide"] * values["high"]) * SQUARE or found(job, "drywall_not_laid")
