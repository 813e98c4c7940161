"""Whatever a form takes, no shape of a wall brings rules, figures, drawings or the tape sheet down."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM, Length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Obstacle, Opening, Wall, Zone
from store.records.wiring import Box, Cable
from store.rules.core.checks import rough_in
from store.rules.core.figures import figures
from store.rules.core.findings import findings
from store.rules.drawing.cuts import plan, section
from store.rules.drawing.elevation import scene
from store.rules.drawing.tape_marks import tape_sheet
from tests.jobs.wall_jobs import job_of, made, read
from tests.rules.build.test_built_hostile import any_of
from tests.tries import tries

LINES = st.sampled_from([(), ("0/8'", "6'/5'"), ("0/0", "x", "12'/-1/2"), ("6'/8'", "6'/7'")])
STUDS = st.sampled_from([(), ("30", "2 x 64"), ("nine", "9 x 9", "40000")])


def _place(x: int, y: int, wide: int = 0, high: int = 0) -> dict[str, Any]:
    found: dict[str, Any] = {"wall": "W1", "x": Length(x * INCH_NM), "y": Length(y * INCH_NM)}
    return found | ({"width": Length(wide * INCH_NM), "height": Length(high * INCH_NM)} if wide else {})


WALLS = st.builds(
    lambda wall, floor, ceiling, odd, missing: made(
        Wall, "W1", **{
            **{key: getattr(wall, key) for key in Wall.__struct_fields__ if key != "tag"}, "floor_line": floor,
            "ceiling_line": ceiling, "odd_studs": odd, "missing_studs": missing,
        }
    ),
    any_of(Wall, "W1", name="wall"), LINES, LINES, STUDS, STUDS,
)  # fmt: skip
REST = st.tuples(
    any_of(BuildOut, "U1", name="one", wall="W1", x=10, width=60, depth=24),
    any_of(BuildOut, "U2", name="two", wall="W1", x=130, width=40_000, depth=3),
    any_of(Zone, "Z1", name="stone", wall="W1", x=0, y=0, width=50, height=50, thickness=2),
    any_of(Opening, "N1", name="hole", **_place(20, 20, 40, 30)),
    any_of(Panel, "A1", name="panel", **_place(5, 60, 12, 12)),
    any_of(Box, "B1", what="receptacle", **_place(12, 16)),
    any_of(Equipment, "E1", name="TV", what="screen", plug="B1", **_place(60, 50)),
    any_of(Equipment, "E2", name="mount", what="mount", **_place(60, 50)),
)


@given(WALLS, REST, st.sampled_from([1, 144, 10_000]))
@tries(8)
def test_no_odd_shape_brings_it_down(wall: Wall, rest: tuple[Any, ...], wide: int) -> None:
    vent = made(Obstacle, "O1", wall="W1", what="vent", x=50, y=40, width=14, height=8)
    cable = made(Cable, "K1", type="hdmi", start="B1", end="E1")
    job = job_of(wall, *rest, vent, cable, read("D1", "width", wide), read("D2", "height", 96), read("D3",
                 "out of plumb", 1))  # fmt: skip
    assert all(each.head for each in findings(job))
    assert rough_in(job)
    figures(job)
    tape_sheet(job, "W1")
    for drawn in (scene(job, "W1"), plan(job, "W1", 40 * INCH_NM), section(job, "W1", 40 * INCH_NM)):
        left, bottom, right, top = drawn.extent
        assert left <= right
        assert bottom <= top
