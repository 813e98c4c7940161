"""Faces, depths and lines of walls that are not flat, each worked out by hand."""

from __future__ import annotations

from store.measure.length import INCH_NM
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Opening, Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.wall.lines import bad_heights, ceilings, floors, read_height
from store.rules.wall.shape import Face, Spot, depth_there, face_of, into_wall_nm, out_at, spot, stands_in_front
from store.trade.measured.profile import profile
from tests.jobs.power_case import job_of, make
from tests.rows import rows


def inches(*values: float) -> tuple[int, ...]:
    """Whole inches and fractions, in nanometres."""
    return tuple(round(each * INCH_NM) for each in values)


def at(x: float, y: float) -> tuple[int, int]:
    """A place, inches."""
    return round(x * INCH_NM), round(y * INCH_NM)


def breast(*more: object) -> Job:
    """A wall 12 ft by 8 ft with a chimney breast 60 in wide, 24 in deep, 42 in from the left, up to the ceiling."""
    return job_of(
        Wall(tag="W1", name="Chimney wall"),
        make(Reading, "D1", wall="W1", what="width", value="144"),
        make(Reading, "D2", wall="W1", what="height", value="96"),
        make(BuildOut, "U1", name="Chimney breast", wall="W1", x="42", width="60", depth="24"),
        *more,  # type: ignore[arg-type]
    )


def test_a_chimney_breast_goes_up_to_the_ceiling() -> None:
    """96 in high, since nothing says otherwise; its front is at its middle, the wall beside it."""
    job = breast()
    there = out_at(job, "W1", *inches(72, 40))
    assert there is not None
    assert (there.rect.y_nm, there.rect.height_nm) == inches(0, 96)
    assert out_at(job, "W1", *inches(41.9, 40)) is None


@rows(
    ("values", "face", "place"),
    [
        ({"x": "72", "y": "40"}, Face("W1", "front", "U1"), (72, 40, 24)),
        ({"x": "20", "y": "40"}, Face("W1", "wall"), (20, 40, 0)),
        ({"x": "72", "y": "40", "face": "wall"}, Face("W1", "wall"), (72, 40, 0)),
        ({"x": "10", "y": "18", "face": "left return"}, Face("W1", "left return", "U1"), (42, 18, 10)),
        ({"x": "10", "y": "18", "face": "right return"}, Face("W1", "right return", "U1"), (102, 18, 10)),
    ],
)
def test_a_box_is_on_a_face_and_has_a_place_in_the_room(
    values: dict[str, str], face: Face, place: tuple[int, int, int]
) -> None:
    """Front by its place, the wall behind it and the returns where it says so; a return is measured from the wall."""
    job = breast(make(Box, "B1", what="receptacle", wall="W1", **values))
    assert face_of(job, "B1") == face
    assert spot(job, "B1") == Spot("W1", *inches(*place))


def test_depth_is_that_of_build_out_and_wall() -> None:
    """24 in of breast, 3-1/2 in of studs and 1/2 in of board: 28 in; beside it 4 in; through a return 60 in."""
    job = breast(
        make(
            Opening, "N1", name="Recess", use="screen", wall="W1", x="50", y="40", width="40", height="24", depth="48"
        ),
        make(Opening, "N2", name="Niche", wall="W1", x="4", y="40", width="12", height="24", depth="4"),
        make(Panel, "A1", name="Side", wall="W1", x="4", y="8", width="12", height="12", face="left return"),
    )
    assert depth_there(job, "N1") == 28 * INCH_NM
    assert depth_there(job, "N2") == 4 * INCH_NM
    assert depth_there(job, "A1") == 60 * INCH_NM
    assert into_wall_nm(job, job.of(Opening)["N1"]) == 24 * INCH_NM
    assert into_wall_nm(job, job.of(Opening)["N2"]) == 4 * INCH_NM


def test_what_was_read_of_the_depth_stands_for_the_wall_itself() -> None:
    """A wall built out as a whole, read 22 in deep."""
    job = breast(
        make(Reading, "D3", wall="W1", what="depth", value="22"),
        make(Opening, "N2", name="Niche", wall="W1", x="4", y="40", width="12", height="24", depth="4"),
    )
    assert depth_there(job, "N2") == 22 * INCH_NM


def test_a_cabinet_on_the_bare_wall_is_in_front_of_it() -> None:
    """16 in deep, of 3/4 in plywood, on a flat wall: it takes nothing of the wall; a bare hole as deep does."""
    cabinet = make(
        Opening, "N3", name="Floating cabinet", use="equipment", wall="W1", x="4", y="12", width="30", height="18",
        depth="16", thickness=None,
    )  # fmt: skip
    job = breast(cabinet)
    assert not stands_in_front(job, cabinet)
    assert into_wall_nm(job, cabinet) == 16 * INCH_NM
    carcass = make(
        Opening, "N3", name="Floating cabinet", use="equipment", wall="W1", x="4", y="12", width="30", height="18",
        depth="16", thickness=make(BuildOut, "U9", name="-", wall="W1", x="0", width="1", depth="3/4").depth,
    )  # fmt: skip
    job = breast(carcass)
    assert stands_in_front(job, carcass)
    assert into_wall_nm(job, carcass) == 0


def test_a_screen_on_the_face_is_about_its_centre() -> None:
    """A screen 57 x 33 in at 72 in, 52 in up on the breast: its middle is 24 in out."""
    screen = make(
        Equipment, "E1", name="TV", what="screen", wall="W1", x="72", y="52", width="57", height="33", depth="2"
    )
    assert spot(breast(screen), "E1") == Spot("W1", *inches(72, 52, 24))


def test_a_sloped_ceiling_and_a_step() -> None:
    """8 ft to 6 ft along, then down to 5 ft at 12 ft: at 9 ft it is 6'-6"; a beam drops it 8 in at 3 ft."""
    wall = Wall(tag="W1", name="Attic", ceiling_line=("0/8'", "6'/8'", "12'/5'"), floor_line=("0/0", "12'/-1/2"))
    job = job_of(wall)
    line = ceilings(job)["W1"]
    assert line is not None
    assert line.at(108 * INCH_NM) == 78 * INCH_NM
    assert line.lowest(*inches(60, 108)) == 78 * INCH_NM
    assert line.highest(*inches(60, 108)) == 96 * INCH_NM
    floor = floors(job)["W1"]
    assert floor is not None
    assert floor.at(144 * INCH_NM) == -INCH_NM // 2
    assert floor.at(72 * INCH_NM) == -INCH_NM // 4
    step = profile([at(0, 96), at(36, 96), at(36, 88), at(144, 88)])
    assert [step.lowest(*inches(0, 36)), step.lowest(*inches(0, 37)), step.highest(*inches(36, 50))] == [
        *inches(96, 88, 88)
    ]
    assert step.corners(*inches(30, 40)) == (inches(30, 96), inches(36, 96), inches(36, 88), inches(40, 88))


def test_a_height_is_one_place_and_one_height() -> None:
    """A fraction is a slash too; what could be two things is asked about."""
    assert read_height("12'/-1/2", False) == inches(144, -0.5)
    assert read_height("6 1/2/8'", False) == inches(6.5, 96)
    assert bad_heights(("6'", "a/b", "0/8'"), False) == ["6'", "a/b"]
