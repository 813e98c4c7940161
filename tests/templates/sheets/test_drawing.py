"""The wall on paper: well formed, to scale, told by sign and word, and safe whatever people write."""

from __future__ import annotations

import re
from typing import Any
from xml.etree import ElementTree as ET

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM
from store.records.access import Photo
from store.records.equipment import Equipment
from store.records.wall import Opening, Reading, Wall
from store.records.wiring import Box, Cable
from store.rules.drawing.cuts import plan
from store.rules.drawing.elevation import scene
from templates.sheets.layout.elevation import CAUTION, svg
from templates.sheets.layout.hatches import HATCHES, hatched
from templates.sheets.layout.marks import SIGNS, Labels, box_sign, dimension, safe, wrapped
from tests.rows import rows
from tests.rules.drawing.test_elevation import MEDIA, READINGS, WALL, job_of, make, place
from tests.tries import tries

SVG = "{http://www.w3.org/2000/svg}"
SCENE = scene(job_of(*MEDIA), "W1")


def read(text: str) -> ET.Element:
    """The file as an XML reader sees it."""
    return ET.fromstring(text)


def words(root: ET.Element) -> list[str]:
    return [each.text or "" for each in root.iter(f"{SVG}text")]


def outline(root: ET.Element, hatch: str) -> list[tuple[float, float, float, float]]:
    """The rectangles of a hatch that stand on the wall: x, y, width, height."""
    found = [each for each in root if each.tag == f"{SVG}rect" and each.get("class") == f"hatch-{hatch}"]
    return [tuple(float(each.get(name, "")) for name in ("x", "y", "width", "height")) for each in found]  # type: ignore[misc]


def test_it_is_one_file_that_needs_nothing_else() -> None:
    text = svg(SCENE, metric=False)
    root = read(text)
    assert root.tag == f"{SVG}svg"
    assert not [
        each for each in root.iter() if each.tag.rpartition("}")[2] in ("script", "image", "use", "a", "foreignObject")
    ]
    assert "href" not in text
    assert re.findall(r"https?://[^\"]*", text) == ["http://www.w3.org/2000/svg"]
    assert "url(" not in text
    assert "<pattern" not in text, "printers make pictures of patterns"


def test_everything_is_to_one_scale() -> None:
    root = read(svg(SCENE, metric=False))
    openings = outline(root, "openings")
    records = list(job_of(*MEDIA).of(Opening).values())
    for (x, y, width, height), record in zip(openings, records, strict=True):
        assert record.x is not None
        assert record.y is not None
        assert record.width is not None
        assert record.height is not None
        scale = width / record.width.nm
        assert height == pytest.approx(record.height.nm * scale, abs=0.11)
        assert x - openings[0][0] == pytest.approx((record.x.nm - 36 * INCH_NM) * scale, abs=0.4)
        assert y + height - openings[0][1] - openings[0][3] == pytest.approx(
            -(record.y.nm - 46 * INCH_NM) * scale, abs=0.4
        )


def test_the_scale_bar_has_the_scale_of_the_wall() -> None:
    root = read(svg(SCENE, metric=False))
    steps = [float(each.get("width", "")) for each in root if each.tag == f"{SVG}rect" and each.get("height") == "6"]
    width = outline(root, "openings")[0][2]
    assert len(steps) == 4
    assert steps[0] / width == pytest.approx(12 / 72, rel=0.01)
    assert "4'-0\"" in words(root)


@pytest.mark.parametrize(
    ("metric", "shown"), [(False, ["11'-11 3/4\"", "8'-0\"", "6'-0\"", "3'-6\""]), (True, ["~3651 mm", "762 mm"])]
)
def test_sizes_and_places_stand_in_the_owners_units(metric: bool, shown: list[str]) -> None:
    found = words(read(svg(SCENE, metric)))
    assert not [each for each in shown if each not in found]


def test_every_opening_has_its_left_width_bottom_and_height() -> None:
    found = words(read(svg(SCENE, metric=False)))
    text = " | ".join(found)
    # Fireplace: 46 in from the left, 52 in wide, 14 in up, 20 in high.
    for each in ("3'-10\"", "4'-4\"", "1'-2\"", "1'-8\""):
        assert each in text
    assert sum("N2" in each and "Fireplace" not in each for each in found) == 2


def test_openings_in_line_share_a_dimension() -> None:
    found = words(read(svg(SCENE, metric=False)))
    assert "N1, N4" in found


def test_a_dimension_without_room_is_told_behind_its_name() -> None:
    line = dimension([0, 10, 200], ['4"', "6'"], "N4")
    assert "N4 · 4&quot;" in line
    assert ">6'<" in line.replace("&#x27;", "'")


def test_every_thing_is_named_by_its_tag() -> None:
    text = " ".join(words(read(svg(SCENE, metric=False))))
    assert not [each.tag for each in SCENE.shapes if each.tag and not re.search(rf"\b{each.tag}\b", text)]
    assert "E2 Fireplace" in text


def test_kinds_are_told_apart_without_colour() -> None:
    root = read(svg(SCENE, metric=False))
    assert all(outline(root, name) for name in ("stud", "openings", "equipment", "obstacles", "panels"))
    paint = {each.get(name) for each in root.iter() for name in ("fill", "stroke")} - {None}
    assert {each for each in paint if each and not each.startswith("url(")} <= {"#111", "#777", "#fff", "none"}
    drawn = {kind: box_sign(kind, 0, 0) for kind in SIGNS}
    assert len(set(drawn.values())) == len(SIGNS) == 7
    assert all(box_sign(kind, 0, 0, new=False) != drawn[kind] for kind in SIGNS)


def test_a_photo_is_marked_where_it_was_taken_and_the_legend_says_so() -> None:
    photo = make(Photo, "F1", file="left.jpg", shows="left bay <b>", of=("B1",))
    root = read(svg(scene(job_of(*MEDIA, photo), "W1"), metric=False))
    found = " ".join(words(root))
    assert "F1 left bay <b>" in found
    assert "photo" in words(root)
    box = "".join(ET.tostring(each, "unicode") for each in root if each.tag == f"{SVG}circle")
    bodies = [each for each in root if each.tag == f"{SVG}rect" and each.get("rx") == "1.5"]
    assert len(bodies) == 1
    assert f'cy="{float(bodies[0].get("y", "0")) + 5:.1f}"' in box, "its lens"
    assert f'cy="{float(bodies[0].get("y", "0")) + 25:.1f}"' in box, "the sign of the box below it"
    assert "photo" not in words(read(svg(SCENE, metric=False)))


def test_the_legend_explains_what_is_drawn_and_nothing_else() -> None:
    found = words(read(svg(SCENE, metric=False)))
    for each in (
        "receptacle",
        "receptacle, existing",
        "low-voltage",
        "access panel",
        "power cable",
        "signal cable",
    ):
        assert each in found
    assert "junction" not in found


def test_the_caution_the_remarks_and_what_is_left_out_are_on_it() -> None:
    short = scene(
        job_of(
            WALL, READINGS[0], make(Box, "B1", what="switch", **place("40", "48")), make(Equipment, "E1", name="Loose")
        ),
        "W1",
    )
    found = words(read(svg(short, metric=False)))
    assert CAUTION in found
    text = " ".join(found)
    assert "No height reading yet" in text
    assert "E1 Loose (in no opening and on no face)" in text


def test_a_plan_is_drawn_with_depths() -> None:
    cut = plan(job_of(*MEDIA), "W1", 18 * INCH_NM)
    text = " ".join(words(read(svg(cut, metric=False))))
    assert "Plan, seen from above" in text
    assert "1'-6\" above the floor" in text
    assert "1'-8\"" in text


def test_a_bare_wall_is_still_a_file() -> None:
    bare = scene(job_of(make(Wall, "W1", name="bare")), "W1")
    assert CAUTION in words(read(svg(bare, metric=True)))


HOSTILE = [
    "<script>alert(1)</script>",
    "\"/><image href='http://example.com/x'/>",
    "&amp; &lt; ]]> <!-- --",
    "\x1b[31mred\x00\x9b",
    "￾￿",
    "\u202eolleh",
    "x" * 20_000,
    "漢字" * 40,
    "{{ 7 * 7 }} {% raw %}",
]


@rows("text", HOSTILE)
def test_hostile_text_stays_text(text: str) -> None:
    def renamed(record: Any) -> Any:
        return msgspec.structs.replace(record, name=text) if hasattr(record, "name") else record

    loose = make(Equipment, "E9", name=text)
    bad = make(Cable, "K8", type=text, start="B1", end="B2", route="points", points=(text,))
    drawn = scene(job_of(*map(renamed, MEDIA), loose, bad), "W1")
    root = read(svg(drawn, metric=False))
    plain = read(svg(SCENE, metric=False))
    assert {each.tag for each in root.iter()} == {each.tag for each in plain.iter()}
    assert not any(ord(sign) < 32 or 127 <= ord(sign) < 160 for line in words(root) for sign in line)


@tries(15)
@given(
    st.lists(
        st.tuples(
            st.integers(0, 140), st.integers(0, 90), st.integers(1, 80), st.integers(1, 60), st.text(max_size=30)
        ),
        max_size=8,
    ),
    st.booleans(),
)
def test_any_wall_makes_a_well_formed_file(openings: list[tuple[int, int, int, int, str]], metric: bool) -> None:
    made = [
        make(Opening, f"N{n}", name=name, **place(*map(str, (x, y, width, height))))
        for n, (x, y, width, height, name) in enumerate(openings)
    ]
    root = read(svg(scene(job_of(WALL, *READINGS, *made), "W1"), metric))
    assert len(outline(root, "openings")) == len(openings)


@given(st.lists(st.tuples(st.integers(0, 300), st.integers(0, 60)), max_size=12))
def test_labels_on_paper_do_not_overlap(places: list[tuple[int, int]]) -> None:
    labels = Labels(0, 400)
    put = [at for at in places if labels.put(["N1 name"], [(at[0], at[1], "start", 100)], 12)]
    for number, (x1, y1) in enumerate(put):
        for x2, y2 in put[:number]:
            assert abs(x1 - x2) >= 48 or abs(y1 - y2) >= 12


def test_text_is_cut_and_wrapped_to_its_room() -> None:
    assert safe("abcdef", 4) == "abc…"
    assert safe("<&>") == "&lt;&amp;&gt;"
    lines = wrapped("one two " + "x" * 50, 70, 10)
    assert max(map(len, lines)) <= 12
    assert "".join(lines).replace(" ", "") == "onetwo" + "x" * 50


def test_readings_of_another_wall_do_not_count() -> None:
    job = job_of(
        *MEDIA, make(Wall, "W2", name="other"), make(Reading, "D9", wall="W2", what="width", value=READINGS[0].value)
    )
    assert svg(scene(job, "W1"), metric=False) == svg(SCENE, metric=False)


@pytest.mark.parametrize("name", HATCHES)
@given(
    st.floats(-300, 300), st.floats(-300, 300), st.floats(0.5, 200), st.floats(0.5, 200)
)  # fmt: skip
def test_a_hatch_ends_at_its_rectangle_and_is_the_same_wherever_it_stands(
    name: str, x: float, y: float, width: float, height: float
) -> None:
    drawn = hatched(name, x, y, width, height)
    points = [(float(a), float(b)) for a, b in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", drawn)]
    assert all(x - 0.06 <= a <= x + width + 0.06 and y - 0.06 <= b <= y + height + 0.06 for a, b in points)
    if name not in ("equipment", "build-outs", "furniture") and min(width, height) > 20:
        assert len(points) > 1
    # Moved by whole steps of every hatch.
    moved = hatched(name, x + 336, y, width, height)
    again = [(float(a), float(b)) for a, b in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", moved)]
    assert abs(len(points) - len(again)) <= 8, "but for a line that just begins in each corner"
