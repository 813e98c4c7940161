"""Drawing sheets: one wall a page, to the scale that is written down, nothing under 7 pt, no tag lost."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from html import unescape
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree as ET

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.book.changes import edit
from store.measure.errors import BadValue
from store.measure.length import INCH_NM, MM_NM, Length
from store.records.field import Ref
from store.records.people import Handoff
from store.records.wall import BuildOut, Opening, Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.build.framing import framed
from store.rules.drawing.elevation import scene
from templates.sheets.catalogue import Context, make
from templates.sheets.context import context_of
from templates.sheets.drawing.chains import apart, merged
from templates.sheets.drawing.framing import LEVEL, with_framing
from templates.sheets.drawing.ink import TEXT, wide
from templates.sheets.drawing.paper import LEAST_PT, POINT_MM, SHEETS, largest, scale_named, scale_words
from templates.sheets.drawing.sheet import EDGE, chains_of
from templates.sheets.drawing.title import letter, revision
from templates.sheets.drawing.views import VIEWS, weight
from templates.sheets.drawing.whole import Ask, pages
from templates.sheets.layout.footing import foot_text
from tests.jobs.begun import begun
from tests.rows import rows
from tests.rules.drawing.test_elevation import WALL, job_of, place
from tests.rules.drawing.test_elevation import make as record

SVG = "{http://www.w3.org/2000/svg}"
TODAY = date(2026, 10, 14)
SIDES = (
    record(Reading, "D1", wall="W1", what="width", value=Length(144 * INCH_NM)),
    record(Reading, "D2", wall="W1", what="height", value=Length(96 * INCH_NM)),
)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Job:
    path = tmp_path_factory.mktemp("demo") / "demo.json"
    return begun(path, "demo", TODAY).job


@pytest.fixture(scope="module")
def metric(tmp_path_factory: pytest.TempPathFactory) -> Job:
    path = tmp_path_factory.mktemp("metric") / "m.json"
    return begun(path, "media-wall-metric", TODAY).job


def texts(page: str) -> Iterator[tuple[str, float, float, float]]:
    """Every text with its size on paper, mm, and its place."""

    def walk(one: ET.Element, scale: float) -> Iterator[tuple[str, float, float, float]]:
        found = re.search(r"scale\(([\d.]+)\)", one.get("transform", ""))
        scale *= float(found[1]) if found else 1.0
        if one.tag == f"{SVG}text":
            size, x, y = (float(one.get(key, "0")) for key in ("font-size", "x", "y"))
            yield one.text or "", size * scale, x, y
        for each in one:
            yield from walk(each, scale)

    yield from walk(ET.fromstring(page), 1.0)


def walls_drawn(page: str) -> list[tuple[float, float]]:
    """The outlines that are as wide a line as that of the wall: width and height, mm."""
    root = ET.fromstring(page)
    found = [
        each for each in root.iter(f"{SVG}rect") if each.get("stroke-width") == "0.6" and each.get("fill") == "none"
    ]
    return [(float(each.get("width", "")), float(each.get("height", ""))) for each in found]


@pytest.mark.parametrize("paper", list(SHEETS))
@pytest.mark.parametrize("job", ["demo", "metric"])
def test_nothing_is_smaller_than_seven_points(paper: str, job: str, request: pytest.FixtureRequest) -> None:
    found = pages(request.getfixturevalue(job), Ask(paper=paper))
    assert len(found) >= len(VIEWS)
    for page in found:
        assert min(size for _, size, _, _ in texts(page)) >= LEAST_PT * POINT_MM
        root = ET.fromstring(page)
        assert root.get("viewBox") == f"0 0 {SHEETS[paper].wide:g} {SHEETS[paper].high:g}"
        assert root.get("width") == f"{SHEETS[paper].wide:g}mm"


@rows(("width_in", "height_in"), [(30, 96), (144, 96), (600, 108), (3000, 96), (40, 240)])
@rows("units", ["feet-inches", "millimetres"])
def test_the_wall_has_the_scale_that_is_written_down(width_in: int, height_in: int, units: str) -> None:
    sides = (
        record(Reading, "D1", wall="W1", what="width", value=Length(width_in * INCH_NM)),
        record(Reading, "D2", wall="W1", what="height", value=Length(height_in * INCH_NM)),
    )
    box = record(Box, "B1", what="receptacle", wall="W1", x=Length(20 * INCH_NM), y=Length(16 * INCH_NM))
    job = job_of(WALL, *sides, box, units=units)
    page = pages(job, Ask())[0]
    said = [text for text, *_ in texts(page)]
    factor = next(int(found[1]) for each in said if (found := re.search(r"\b1:(\d+)\b", each)))
    assert (width_in * 25.4 / factor, height_in * 25.4 / factor) == pytest.approx(walls_drawn(page)[0], abs=0.02)
    assert scale_words(factor, job.settings.metric).split()[0] in " ".join(said)


def test_a_scale_that_is_asked_for_is_kept_or_refused(demo: Job) -> None:
    page = pages(demo, Ask(wall="W1", scale="1/4"))[0]
    assert walls_drawn(page)[0][0] == pytest.approx(14 * 12 * 25.4 / 48, abs=0.02)
    with pytest.raises(BadValue, match="too large for the paper"):
        pages(demo, Ask(wall="W1", scale="1:4"))
    with pytest.raises(BadValue, match="is not a scale"):
        pages(demo, Ask(scale="big"))
    with pytest.raises(BadValue, match="no drawing paper"):
        pages(demo, Ask(paper="b7"))
    with pytest.raises(BadValue, match="no wall W9"):
        pages(demo, Ask(wall="W9"))


@rows(
    ("text", "factor"),
    [
        ("1:20", 20),
        ("1 : 50", 50),
        ("1/2", 24),
        ('1/4" = 1\'-0"', 48),
        ("1-1/2", 8),
        ("1 1/2", 8),
        ("1", 12),
        ("", None),
    ],
)
def test_a_scale_is_read_as_it_is_written(text: str, factor: int | None) -> None:
    assert scale_named(text) == factor


@rows("text", ["1:0", "0", "1/0", "5/7", "x", "1:", "-1:20"])
def test_what_is_no_scale_is_refused(text: str) -> None:
    with pytest.raises(BadValue):
        scale_named(text)


def test_the_largest_round_scale_is_taken() -> None:
    inch = INCH_NM
    assert largest(144 * inch, 96 * inch, (152.4, 101.6), False, None) == 24
    assert largest(144 * inch, 96 * inch, (152.3, 101.6), False, None) == 32
    assert largest(2000 * MM_NM, 1000 * MM_NM, (100, 100), True, None) == 20
    assert largest(2001 * MM_NM, 1000 * MM_NM, (100, 100), True, None) == 25


@pytest.mark.parametrize("view", VIEWS, ids=lambda each: each.trade)
def test_every_tag_is_on_the_sheet_and_every_name_whole_in_the_schedule(demo: Job, view: object) -> None:
    assert view in VIEWS
    for view_ in (each for each in VIEWS if each is view):
        whole = scene(demo, "W1")
        sheets = pages(demo, Ask(wall="W1", trade=view_.trade))
        column = SHEETS["letter"].wide - EDGE - SHEETS["letter"].column
        drawn = {text for text, _, x, _ in texts(sheets[0]) if x < column}
        listed = " ".join(text for page in sheets for text, *_ in texts(page))
        for shape in whole.shapes:
            if shape.tag and weight(view_, shape):
                assert shape.tag in drawn, shape
                assert shape.label in listed, shape


def test_a_name_of_any_length_is_whole_and_inside_the_paper() -> None:
    name = "the receptacle behind the picture " * 12
    box = record(Box, "B1", what="receptacle", wall="W1", name=name, x=Length(20 * INCH_NM), y=Length(16 * INCH_NM))
    found = pages(job_of(WALL, *SIDES, box), Ask(trade="electrician"))
    said = [text for page in found for text, *_ in texts(page)]
    assert name.strip() in " ".join(said)
    assert all(wide(each, bold=True) < SHEETS["letter"].column for each in said if "picture" in each)


def test_wide_letters_are_reckoned_as_wide_as_they_are() -> None:
    """Widths of usual faces (DejaVu Sans, the widest of those met): W 0.99, M 0.86, capitals about 0.7 of the size."""
    assert wide("W" * 10) > 10 * 0.99 * TEXT
    assert wide("FIREPLACE RECESS") > 16 * 0.65 * TEXT
    name = "W" * 200
    page = pages(job_of(WALL, *SIDES, record(Box, "B1", what="receptacle", name=name, **place("1'", "1'"))), Ask())[0]
    most = max(len(text) for text, *_ in texts(page) if set(text) == {"W"})
    assert most * 0.99 * TEXT < SHEETS["letter"].column
    assert len(foot_text(name, "second")) < 60


def test_the_chains_count_from_the_datum_by_hand() -> None:
    """A wall of 12 ft, studs from 16 in at 16 in, one box, one opening: places worked out by hand."""
    box = record(Box, "B1", what="receptacle", **place("5' 2", "1' 4"))
    hole = record(Opening, "N1", name="Screen", **place("3'", "3' 10", "6'", "3' 6"))
    page = pages(job_of(WALL, *SIDES, box, hole), Ask())[0]
    said = [text for text, *_ in texts(page)]
    studs = ["1'-4\"", "2'-8\"", "4'-0\"", "5'-4\"", "6'-8\"", "8'-0\"", "9'-4\"", "10'-8\""]
    assert all(each in said for each in studs)
    across = ["3'-0\"  N1", "5'-2\"  B1", "9'-0\"  N1", "12'-0\"  wall"]
    up = ["1'-4\"  B1", "3'-10\"  N1", "7'-4\"  N1", "8'-0\"  wall"]
    assert all(each in said for each in (*across, *up))


ATTIC = msgspec.structs.replace(WALL, ceiling_line=("0/8'", "6'/8'", "6'/9'", "12'/7'"))
"""A ceiling that steps up by a foot at 6 ft and then falls to 7 ft."""
BREAST = record(BuildOut, "U1", name="Breast", wall="W1", x=Length(42 * INCH_NM), width=Length(60 * INCH_NM),
                depth=Length(12 * INCH_NM))  # fmt: skip


def test_each_side_has_its_own_height_and_build_outs_have_their_edges() -> None:
    """By hand: at 42 in 8 ft, over the breast's right edge at 102 in 9 ft less 30/72 of 2 ft = 8 ft 2 in."""
    job = job_of(ATTIC, *SIDES, BREAST)
    found = chains_of(scene(job, "W1"), VIEWS[0])
    read = {side: [each.text for each in getattr(found, side)] for side in ("below", "left", "right")}
    assert read["left"] == ["0", "8'-0\"  ceiling", "9'-0\"  ceiling"]
    assert read["right"] == ["0  U1", "7'-0\"  ceiling", "8'-0\"  U1", "8'-2\"  U1", "9'-0\"  U1"]
    assert read["below"] == ["0", "3'-6\"  U1", "6'-0\"  U1 ceiling", "8'-6\"  U1", "12'-0\"  wall"]
    said = " ".join(text for text, *_ in texts(pages(job, Ask())[0]))
    assert '12" out from the wall' in said
    assert "9'-0\"" in unescape(make("drawing", "svg", job, Context()))


def test_what_stands_before_the_corner_from_the_wall_beside_is_on_the_chains() -> None:
    """A cabinet on the wall at the right, 30 in deep, 84 in high, in the corner: it hides this wall from 9 ft 6 in."""
    beside = record(Wall, "W2", name="Beside", meets_left="W1")
    side = record(Reading, "D3", wall="W2", what="width", value=Length(96 * INCH_NM))
    cabinet = record(BuildOut, "U1", name="Cabinet", wall="W2", x=Length(0), width=Length(40 * INCH_NM),
                     depth=Length(30 * INCH_NM), height=Length(84 * INCH_NM))  # fmt: skip
    job = job_of(msgspec.structs.replace(WALL, meets_right=Ref("W2")), *SIDES, beside, side, cabinet)
    found = chains_of(scene(job, "W1"), VIEWS[0])
    assert "9'-6\"  corner" in [each.text for each in found.below]
    assert "7'-0\"  corner" in [each.text for each in found.right]


@given(st.lists(st.floats(0, 100), min_size=1, max_size=30).map(sorted), st.floats(0.5, 4))
def test_stops_are_moved_apart_and_keep_their_order(places: list[float], least: float) -> None:
    moved = apart(places, least, 0, 100)
    assert all(b - a >= least - 1e-6 for a, b in pairwise(moved))
    assert moved[0] >= -1e-6
    if least * (len(places) - 1) <= 100:
        assert moved[-1] <= 100 + 1e-6
    if all(b - a >= least for a, b in pairwise(places)):
        assert moved == pytest.approx(places)


def test_stops_at_one_place_are_one() -> None:
    found = merged([(5, "5", "B2"), (0, "0", ""), (5, "5", "B1"), (5, "5", "B2")])
    assert [(each.at_nm, each.text) for each in found] == [(0, "0"), (5, "5  B2 B1")]


def test_no_screw_strips_are_a_hand_wide_each_side_for_the_drywall_crew_alone(demo: Job) -> None:
    page = pages(demo, Ask(wall="W1", trade="drywall", scale="1/4"))[0]
    widths = {float(each) for each in re.findall(r'stroke="#000" stroke-width="([\d.]+)" stroke-linejoin', page)}
    striped = re.findall(r'd="([^"]*)"[^>]*stroke-dasharray="0.3 1.7"', page)
    assert striped
    assert all(each.count("L") == 1 for each in striped), "a stripe round a bend would fill its corner"
    sample = 4.0
    assert pytest.approx(min(widths - {sample}), abs=0.01) == 2 * 100 / 48
    assert "NO SCREWS" in page
    for trade in ("electrician", "carpenter", "low-voltage", "general"):
        assert "NO SCREWS" not in pages(demo, Ask(wall="W1", trade=trade))[0]


def test_a_sheet_names_job_sheet_count_date_and_revision(demo: Job) -> None:
    found = pages(demo, Ask())
    for at, page in enumerate(found, 1):
        said = [text for text, *_ in texts(page)]
        assert demo.settings.name in said
        assert f"sheet {at} of {len(found)}" in said
        assert "Oct 14, 2026" in said
        assert said[said.index("Revision") + 1] in ("A", "B", "C")


def test_a_revision_goes_up_when_what_was_given_changed() -> None:
    assert [letter(each) for each in (0, 25, 26, 27)] == ["A", "Z", "AA", "AB"]
    box = record(Box, "B1", what="receptacle", **place("5' 2", "1' 4"))
    job = job_of(WALL, *SIDES, box)
    assert revision(job, "electrician", ()).letter == "A"
    given_ = record(Handoff, "H1", trade="electrician", given=date(2026, 10, 1), point=1)
    held = job_of(WALL, *SIDES, box, given_)
    assert revision(held, "electrician", ()).said == "as given Oct 1, 2026"
    assert revision(held, "drywall", ()).said == "first issue"


def test_what_changed_since_a_packet_was_given_is_on_the_sheet(tmp_path: Path) -> None:
    book = begun(tmp_path / "demo.json", "demo", TODAY)
    before = revision(book.job, "electrician", context_of(book).entries)
    assert (before.letter, before.changes) == ("A", ())
    moved = msgspec.structs.replace(book.job.of(Box)["B7"], x=Length(150 * INCH_NM))
    book.act("Move B7", lambda job: [edit(job.of(Box)["B7"], moved)])
    after = revision(book.job, "electrician", context_of(book).entries)
    assert after.letter == "B"
    assert any("B7" in each for each in after.changes)
    page = pages(book.job, Ask(wall="W1", trade="electrician", changes=context_of(book).entries))[0]
    assert f"Revision B, {after.said}" in " ".join(text for text, *_ in texts(page))


# --- the other formats ---


def test_there_is_nothing_to_draw_without_a_wall_or_its_size() -> None:
    with pytest.raises(BadValue, match="no wall"):
        pages(job_of(), Ask())
    with pytest.raises(BadValue, match="nothing to draw"):
        pages(job_of(Wall(tag="W1", name="bare")), Ask())


def test_the_carpenter_sees_every_stick_with_a_note_for_what_lies_level(demo: Job) -> None:
    found = framed(demo)["W1"]
    assert found is not None
    shown = with_framing(demo, scene(demo, "W1"))
    sticks = [each for each in shown.shapes if each.layer == "studs"]
    assert len(sticks) == len(found.sticks)
    noted = {each.label.partition(" for ")[0].partition(":")[0] for each in sticks if each.tag}
    assert noted == {each.part for each in found.sticks if each.part in LEVEL}
    sheets = pages(demo, Ask(wall="W1", trade="carpenter"))
    listed = " ".join(text for page in sheets for text, *_ in texts(page))
    assert all(f"{each.tag} {each.label}" in listed for each in sticks if each.tag)


def test_a_packet_holds_the_sheets_of_its_trade_and_says_at_the_door_who_and_where(demo: Job) -> None:
    here = msgspec.structs.replace(
        demo.settings,
        address="12 Any Street",
        phone="555-0199",
        permit="needed",
        permit_no="P-7",
        getting_in="side door",
    )
    job = Job({**demo.tables, "job": {"job": here}}, demo.marks, (), (), TODAY)
    page = make("packet-electrician", "html", job, Context())
    assert page.count('<div class="drawing">') == len(pages(job, Ask(trade="electrician")))
    for each in ("12 Any Street", "555-0199", "no. P-7", "side door", "Box fill, line by line"):
        assert each in page
    foot = next(each for each in page.splitlines() if "@bottom-left" in each and "content: none" not in each)
    assert "revision A" in foot
    assert "Oct 14, 2026" in foot
    assert "a living-room media wall" in foot
    assert "which half" not in page


def test_every_page_says_at_its_foot_which_job_sheet_and_day(demo: Job) -> None:
    for name in ("owners-book", "panel-cards", "tape", "buying", "schedule"):
        style = make(name, "html", demo, Context()).split("</style>")[0]
        assert "a living-room media wall" in style.partition("@bottom-left")[2].partition(";")[0], name
        assert 'counter(page) " of " counter(pages)' in style, name
